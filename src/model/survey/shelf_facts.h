/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SHELF_FACTS_H
#define SILLET_MODEL_SURVEY_SHELF_FACTS_H

#include "base/maybe.h"
#include "model/derive/past.h"
#include "model/derive/derive.h"

/* What the shelf's questions ask of an instrument. It is kept in the shelf's cache, so that the
 * questions are answered without opening a profile. */

enum fact_number {
#define FACT_NUMBER(id) FACT_##id,
#define FACT_TEXT(id, size)
#include "model/survey/shelf_facts_table.h"
#undef FACT_NUMBER
#undef FACT_TEXT
    FACT_NUMBERS_
};

enum fact_text {
#define FACT_NUMBER(id)
#define FACT_TEXT(id, size) FACT_##id,
#include "model/survey/shelf_facts_table.h"
#undef FACT_NUMBER
#undef FACT_TEXT
    FACT_TEXTS_
};

enum {
    FACT_TEXT_BYTES = 0
#define FACT_NUMBER(id)
#define FACT_TEXT(id, size) +(size)
#include "model/survey/shelf_facts_table.h"
#undef FACT_NUMBER
#undef FACT_TEXT
};

/* Numbers are kept in whole parts of this size, so that they are the same from the cache. */
#define FACT_PARTS 1e6

struct shelf_facts {
    struct maybe number[FACT_NUMBERS_];
    char texts[FACT_TEXT_BYTES]; /* shelf_facts_text finds them, one behind the other */
};

/* How many bytes of it are in use. A shelf keeps no more of them than these, so what a pointer
 * leads to is never copied as a whole. */
size_t shelf_facts_size(const struct shelf_facts *facts);

/* A text; "" for none. To be written to through shelf_facts_put_text, which cuts what is too long.
 */
const char *shelf_facts_text(const struct shelf_facts *facts, enum fact_text id);
void shelf_facts_put_text(struct shelf_facts *facts, enum fact_text id, const char *text);

/* All of them, cut in the same way. No more of *facts is written than shelf_facts_size then says.
 */
void shelf_facts_put_texts(struct shelf_facts *facts, char *const texts[FACT_TEXTS_]);

/* Of an instrument that nothing is known of. */
const struct shelf_facts *shelf_facts_blank(void);

/* From a record. `now` is its current state (derive_measured), and `past` what that left. */
void shelf_facts_make(const struct record *record, const struct derived *now, struct past *past,
                      struct shelf_facts *ret_facts);

/* Those that nothing has to be worked out for: the last visit's days and ticket. */
void shelf_facts_glance(const struct record *record, struct shelf_facts *ret_facts);

/* Whether it is in the house: its last visit was not handed over. One that nobody keeps tickets,
 * promises or handing over for is taken to be there for SHELF_FACTS_HOUSE_DAYS after the last work
 * in it. */
enum { SHELF_FACTS_HOUSE_DAYS = 30 };
bool shelf_facts_in_house(const struct shelf_facts *facts, int today);

/*
 * Days on which anything was done, the last first, DAY_CHARS characters each. Where there are more
 * than fit, the oldest are left out.
 */
enum { DAY_CHARS = 4, DAY_DIGITS = 64 };
void shelf_facts_put_days(struct shelf_facts *facts, const int *days, int count);

/* The last day before `end`; absent where no such day is kept. */
struct maybe shelf_facts_day_before(const struct shelf_facts *facts, int end);

/* The first day from `first` on; absent for none. */
struct maybe shelf_facts_day_from(const struct shelf_facts *facts, int first);

/* Whether anything may have been done from the day `first` on and before `end`. */
bool shelf_facts_may_have_done(const struct shelf_facts *facts, int first, int end);

/*
 * Checks as characters: how far what was read was from what was expected, in steps of
 * PROOF_STEP of the +-, from 0; the last step stands for all beyond it. Inside is up to
 * PROOF_INSIDE.
 */
#define PROOF_STEP 0.05
enum { PROOF_LEVELS = 63, PROOF_INSIDE = 20, PROOF_FIRST = '0' };

/* The level of a character of PROOF_...; -1 for one that is none. */
int shelf_facts_level(char c);

#endif
