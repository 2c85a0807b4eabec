/* SPDX-License-Identifier: MIT */
#include "model/reading/journal.h"

#include <math.h>

#include "model/reading/moment.h"
#include "model/reading/record_access.h"
#include "model/reading/work_line.h"

void journal_fields(bool ret_wanted[FIELD_COUNT_])
{
    static const enum field_id wanted[] = {
        FIELD_VISIT_DATE, FIELD_VISIT_REASON, FIELD_VISIT_NOTE, FIELD_VISIT_HANDED_OVER,
        FIELD_PASS_TIME,  FIELD_PASS_LABEL,   FIELD_PASS_NOTE};

    for (int id = 0; id < FIELD_COUNT_; id++)
        ret_wanted[id] = false;
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
        ret_wanted[wanted[i]] = true;
    for (int column = 0; column < WORK_COLUMN_COUNT_; column++)
        ret_wanted[work_key((enum work_column)column, 1, 1).field] = true;
}

struct walk {
    const struct record *record;
    double first, end;
    journal_take *take;
    void *taker;
};

static void give(const struct walk *walk, struct journal_entry *entry, struct maybe moment)
{
    if (!moment.given || !(moment.value >= walk->first && moment.value < walk->end))
        return;
    entry->moment = moment.value;
    entry->timed = entry->what != JOURNAL_VISIT && entry->what != JOURNAL_OVER &&
                   moment.value > floor(moment.value);
    walk->take(walk->taker, entry);
}

static void give_visit(const struct walk *walk, int visit)
{
    const struct record *record = walk->record;
    struct journal_entry entry = {
        .what = JOURNAL_VISIT,
        .visit = visit,
        .words = record_text_or_empty(record, reading_key_visit(FIELD_VISIT_REASON, visit)),
        .amount = "",
        .note = record_text_or_empty(record, reading_key_visit(FIELD_VISIT_NOTE, visit))};

    give(walk, &entry, moment_of_day(record, FIELD_VISIT_DATE, visit));
}

static void give_pass(const struct walk *walk, int visit, int pass)
{
    const struct reading_key time = reading_key_pass(FIELD_PASS_TIME, visit, pass);
    struct journal_entry entry = {
        .what = JOURNAL_PASS,
        .visit = visit,
        .part = pass,
        .words =
            record_text_or_empty(walk->record, reading_key_pass(FIELD_PASS_LABEL, visit, pass)),
        .amount = "",
        .note = record_text_or_empty(walk->record, reading_key_pass(FIELD_PASS_NOTE, visit, pass))};

    if (record_text(walk->record, &time))
        give(walk, &entry, moment_of(walk->record, &time));
}

/* Work without a time was done on the visit's day. */
static void give_work(const struct walk *walk, int visit, int line)
{
    const struct record *record = walk->record;
    const struct reading_key time = work_key(WORK_TIME, visit, line);
    struct journal_entry entry = {
        .what = JOURNAL_WORK,
        .visit = visit,
        .part = line,
        .words = record_text_or_empty(record, work_key(WORK_KIND, visit, line)),
        .amount = record_text_or_empty(record, work_key(WORK_AMOUNT, visit, line)),
        .note = record_text_or_empty(record, work_key(WORK_NOTE, visit, line))};
    struct maybe moment = moment_of(record, &time);

    if (!work_line_exists(record, visit, line))
        return;
    if (!moment.given)
        moment = moment_of_day(record, FIELD_VISIT_DATE, visit);
    give(walk, &entry, moment);
}

static void give_over(const struct walk *walk, int visit)
{
    enum { SECONDS_PER_DAY = 86400 };
    struct journal_entry entry = {
        .what = JOURNAL_OVER, .visit = visit, .words = "", .amount = "", .note = ""};
    struct maybe moment = moment_of_day(walk->record, FIELD_VISIT_HANDED_OVER, visit);

    moment.value += 1 - 1.0 / SECONDS_PER_DAY;
    give(walk, &entry, moment);
}

void journal_walk(const struct record *record, double first, double end, journal_take *take,
                  void *taker)
{
    const struct walk walk = {record, first, end, take, taker};

    for (int visit = 0; record_next_visit(record, &visit);) {
        give_visit(&walk, visit);
        for (int pass = 1; pass <= record_last_pass(record, visit); pass++)
            give_pass(&walk, visit, pass);
        for (int line = 1; line <= record_last_work(record, visit); line++)
            give_work(&walk, visit, line);
        give_over(&walk, visit);
    }
}
