/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_journal.h"

#include <string.h>

#include "model/common/day.h"

/* The month that a day is in, or that day alone. */
static void go_to(struct shelf_list *list, int number, bool month)
{
    const struct day day = day_of_number(number);
    const struct day first = {day.year, day.month, 1};
    const struct day next = {day.year + (day.month == 12), day.month % 12 + 1, 1};

    list->journal = (struct shelf_journal){.day = number,
                                           .month = month,
                                           .first = month ? day_number(&first) : number,
                                           .end = month ? day_number(&next) : number + 1};
    list->mode = SHELF_JOURNAL;
    list->help_top = 0;
}

void shelf_journal_open(struct shelf_list *list)
{
    go_to(list, list->ground.today, false);
}

void shelf_journal_turn(struct shelf_list *list)
{
    go_to(list, list->journal.day, !list->journal.month);
}

/* The nearest day of all instruments before or after what is shown. */
static struct maybe find_day(const struct shelf_list *list, int by)
{
    struct maybe found = maybe_absent();

    for (size_t i = 0; i < list->count; i++) {
        const struct shelf_facts *facts = list->items[i].facts;
        const struct maybe day = by < 0 ? shelf_facts_day_before(facts, list->journal.first)
                                        : shelf_facts_day_from(facts, list->journal.end);

        if (day.given && (!found.given || (day.value - found.value) * by < 0))
            found = day;
    }
    return found;
}

bool shelf_journal_step(struct shelf_list *list, int by)
{
    const struct maybe day = find_day(list, by);

    if (day.given)
        go_to(list, (int)day.value, list->journal.month);
    else
        shelf_list_say(list, TONE_NOTE,
                       by < 0 ? "Nothing before that is on file."
                              : "Nothing after that is on file.");
    return day.given;
}

void shelf_journal_take(struct shelf_list *list, const struct shelf_journal_line *lines,
                        size_t count)
{
    list->journal.lines = lines;
    list->journal.count = count;
}

void shelf_journal_add_title(const struct shelf_list *list, struct strbuf *out)
{
    const struct day day = day_of_number(list->journal.first);
    char memory[64];
    struct strbuf words = STRBUF(memory);

    day_add_words(&day, &words);
    /* "Sunday, 1 November 2026" */
    strbuf_add(out, list->journal.month ? strstr(memory, "1 ") + 2 : memory);
}
