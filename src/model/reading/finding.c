/* SPDX-License-Identifier: MIT */
#include "model/reading/finding.h"

#include <stddef.h>
#include <string.h>

struct finding_row {
    enum finding_weight weight;
    const char *name, *words;
};

#define FINDING(id, weight_, name_, words_)                                                        \
    [FINDING_##id] = {.weight = WEIGHT_##weight_, .name = name_, .words = words_},

static const struct finding_row rows[FINDING_COUNT_] = {
#include "model/reading/finding_table.h"
};

static void add(struct findings *findings, enum finding_id id, int number, bool course)
{
    for (int i = 0; i < findings->count; i++)
        if (findings->list[i].id == id && findings->list[i].number == number &&
            findings->list[i].is_course == course)
            return;
    if (findings->count < FINDINGS_MAX)
        findings->list[findings->count++] =
            (struct finding){.id = id, .number = number, .is_course = course};
}

void findings_add(struct findings *findings, enum finding_id id, int number)
{
    add(findings, id, number, false);
}

void findings_add_string(struct findings *findings, enum finding_id id, const struct outfit *outfit,
                         int string)
{
    add(findings, id, outfit_number(outfit, string), outfit_is_course(outfit, string));
}

enum finding_weight finding_weight(enum finding_id id)
{
    return rows[id].weight;
}

bool findings_have_fault(const struct findings *findings)
{
    for (int i = 0; i < findings->count; i++)
        if (finding_weight(findings->list[i].id) == WEIGHT_FAULT)
            return true;
    return false;
}

const char *finding_name(enum finding_id id)
{
    return rows[id].name;
}

void finding_words(const struct finding *finding, struct strbuf *out)
{
    static const char string[] = "string ";
    const char *words = rows[finding->id].words;
    const char *gap = strstr(words, "%s");

    if (finding->is_course && strncmp(words, string, strlen(string)) == 0) {
        strbuf_add(out, "course ");
        words += strlen(string);
    }
    if (!gap) {
        strbuf_add(out, words);
        return;
    }
    strbuf_add_bytes(out, words, (size_t)(gap - words));
    strbuf_addf(out, "%d", finding->number);
    strbuf_add(out, gap + 2);
}
