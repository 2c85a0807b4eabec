/* SPDX-License-Identifier: MIT */
#include "model/survey/shelf_facts.h"

static const size_t sizes[FACT_TEXTS_] = {
#define FACT_NUMBER(id)
#define FACT_TEXT(id, size) [FACT_##id] = size,
#include "model/survey/shelf_facts_table.h"
#undef FACT_NUMBER
#undef FACT_TEXT
};

static size_t place_of_text(enum fact_text id)
{
    size_t at = 0;

    for (int i = 0; i < (int)id; i++)
        at += sizes[i];
    return at;
}

const char *shelf_facts_text(const struct shelf_facts *facts, enum fact_text id)
{
    return facts->texts + place_of_text(id);
}

void shelf_facts_put_text(struct shelf_facts *facts, enum fact_text id, const char *text)
{
    struct strbuf out = strbuf_over(facts->texts + place_of_text(id), sizes[id]);

    strbuf_add(&out, text);
}

const struct shelf_facts *shelf_facts_blank(void)
{
    static const struct shelf_facts blank = {.texts = ""};

    return &blank;
}

int shelf_facts_level(char c)
{
    return c >= PROOF_FIRST && c < PROOF_FIRST + PROOF_LEVELS ? c - PROOF_FIRST : -1;
}

bool shelf_facts_in_house(const struct shelf_facts *facts, int today)
{
    const struct maybe handed = facts->number[FACT_HANDED_OVER], day = facts->number[FACT_LAST_DAY];

    if (!handed.given || handed.value != 0)
        return false;
    return facts->number[FACT_FOLLOWED].value != 0 ||
           (day.given && today - day.value <= SHELF_FACTS_HOUSE_DAYS);
}
