/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_FINDING_H
#define SILLET_MODEL_READING_FINDING_H

#include <stdbool.h>

#include "base/strbuf.h"
#include "model/reading/outfit.h"

/* What the model has to say beside numbers. The rows stand in finding_table.h. */

enum finding_id {
#define FINDING(id, ...) FINDING_##id,
#include "model/reading/finding_table.h"
#undef FINDING
    FINDING_COUNT_
};

enum finding_weight { WEIGHT_FAULT, WEIGHT_ADVICE, WEIGHT_CAUTION };

struct finding {
    enum finding_id id;
    int number;     /* the fret, string or course that it is about, 0 for none */
    bool is_course; /* its string is the course of that number */
};

enum { FINDINGS_MAX = 64 };

struct findings {
    struct finding list[FINDINGS_MAX];
    int count;
};

/* Adds one unless the same is there; beyond FINDINGS_MAX it is dropped. */
void findings_add(struct findings *findings, enum finding_id id, int number);

/* The same of a string, or of its course where that is read as one. */
void findings_add_string(struct findings *findings, enum finding_id id, const struct outfit *outfit,
                         int string);

enum finding_weight finding_weight(enum finding_id id);

/* Whether one of them is a fault: geometry that cannot be. */
bool findings_have_fault(const struct findings *findings);

/* A short name with dashes, fit for a key. */
const char *finding_name(enum finding_id id);

/* The sentence, with the finding's number put in. */
void finding_words(const struct finding *finding, struct strbuf *out);

#endif
