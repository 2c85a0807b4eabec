/* SPDX-License-Identifier: MIT */
#include "model/survey/shelf_facts.h"

#include <stddef.h>
#include <string.h>

static const size_t sizes[FACT_TEXTS_] = {
#define FACT_NUMBER(id)
#define FACT_TEXT(id, size) [FACT_##id] = size,
#include "model/survey/shelf_facts_table.h"
#undef FACT_NUMBER
#undef FACT_TEXT
};

static size_t place_of_text(const struct shelf_facts *facts, int id)
{
    size_t at = 0;

    for (int i = 0; i < id; i++)
        at += strlen(facts->texts + at) + 1;
    return at;
}

size_t shelf_facts_size(const struct shelf_facts *facts)
{
    return offsetof(struct shelf_facts, texts) + place_of_text(facts, FACT_TEXTS_);
}

const char *shelf_facts_text(const struct shelf_facts *facts, enum fact_text id)
{
    return facts->texts + place_of_text(facts, (int)id);
}

void shelf_facts_put_text(struct shelf_facts *facts, enum fact_text id, const char *text)
{
    char memory[FACT_TEXT_BYTES];
    struct strbuf out = strbuf_over(memory, sizes[id]);
    const size_t at = place_of_text(facts, (int)id), next = place_of_text(facts, (int)id + 1),
                 end = place_of_text(facts, FACT_TEXTS_);

    strbuf_add(&out, text);
    memmove(facts->texts + at + out.length + 1, facts->texts + next, end - next);
    memcpy(facts->texts + at, memory, out.length + 1);
}

void shelf_facts_put_texts(struct shelf_facts *facts, char *const texts[FACT_TEXTS_])
{
    char *at = facts->texts;

    for (int i = 0; i < FACT_TEXTS_; i++) {
        struct strbuf out = strbuf_over(at, sizes[i]);
        const size_t length = strlen(texts[i]);

        if (length < sizes[i]) {
            memcpy(at, texts[i], length + 1);
            at += length + 1;
            continue;
        }
        strbuf_add(&out, texts[i]);
        at += out.length + 1;
    }
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
    const struct maybe handed = facts->number[FACT_HANDED_OVER],
                       day = facts->number[FACT_WORKED_DAY];

    if (!handed.given || handed.value != 0)
        return false;
    return facts->number[FACT_FOLLOWED].value != 0 ||
           (day.given && today - day.value <= SHELF_FACTS_HOUSE_DAYS);
}

/* --- days --- */

enum { DAY_FIRST = '0', DAYS_CUT = '~' /* there were more */ };

void shelf_facts_put_days(struct shelf_facts *facts, const int *days, int count)
{
    const int room = (int)(sizes[FACT_DAYS] - 2) / DAY_CHARS;
    char memory[sizeof facts->texts];
    struct strbuf text = STRBUF(memory);

    for (int i = 0; i < count && i < room; i++)
        for (int part = DAY_DIGITS * DAY_DIGITS * DAY_DIGITS; part > 0; part /= DAY_DIGITS)
            strbuf_add_char(&text, (char)(DAY_FIRST + days[i] / part % DAY_DIGITS));
    if (count > room)
        strbuf_add_char(&text, DAYS_CUT);
    shelf_facts_put_text(facts, FACT_DAYS, memory);
}

/* The day at a place in the text, and moves past it; false at its end. */
static bool next_day(const char **at, int *ret_day)
{
    *ret_day = 0;
    for (int i = 0; i < DAY_CHARS; i++) {
        const int digit = (*at)[i] - DAY_FIRST;

        if (digit < 0 || digit >= DAY_DIGITS)
            return false;
        *ret_day = *ret_day * DAY_DIGITS + digit;
    }
    *at += DAY_CHARS;
    return true;
}

struct maybe shelf_facts_day_before(const struct shelf_facts *facts, int end)
{
    const char *at = shelf_facts_text(facts, FACT_DAYS);
    int day;

    while (next_day(&at, &day))
        if (day < end)
            return maybe_given(day);
    return maybe_absent();
}

struct maybe shelf_facts_day_from(const struct shelf_facts *facts, int first)
{
    const char *at = shelf_facts_text(facts, FACT_DAYS);
    struct maybe found = maybe_absent();
    int day;

    while (next_day(&at, &day) && day >= first)
        found = maybe_given(day);
    return found;
}

bool shelf_facts_may_have_done(const struct shelf_facts *facts, int first, int end)
{
    const char *at = shelf_facts_text(facts, FACT_DAYS);
    int day;

    while (next_day(&at, &day))
        if (day < end)
            return day >= first;
    return *at == DAYS_CUT;
}
