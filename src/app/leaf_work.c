/* SPDX-License-Identifier: MIT */
#include "app/leaf_work.h"

#include "app/leaf.h"

struct reading_key work_key(enum work_column column, int visit, int line)
{
    static const enum field_id fields[WORK_COLUMN_COUNT_] = {
        [WORK_KIND] = FIELD_WORK_KIND,
        [WORK_AMOUNT] = FIELD_WORK_AMOUNT,
        [WORK_NOTE] = FIELD_WORK_NOTE,
        [WORK_TIME] = FIELD_WORK_TIME,
    };
    return (struct reading_key){.field = fields[column], .visit = visit, .part = line};
}

bool work_line_exists(const struct record *record, int visit, int line)
{
    for (int column = 0; column < WORK_COLUMN_COUNT_; column++) {
        const struct reading_key key = work_key((enum work_column)column, visit, line);

        if (record_get(record, &key))
            return true;
    }
    return false;
}

bool work_turns_key(const struct record *record, int visit, int pass, struct reading_key *ret_key)
{
    const int read = record_last_read_pass(record, visit);

    if (pass > read)
        pass = read;
    if (pass < 1 || pass >= PASSES_MAX || work_mark_line(record, visit, pass, MOVE_ROD) == 0)
        return false;
    *ret_key = reading_key_pass(FIELD_ROD_TURN, visit, pass + 1);
    return true;
}

void leaf_lay_work(const struct leaf_place *place, struct route *route)
{
    const int visit = place->visit, last = record_last_work(place->record, visit);
    struct reading_key turns;
    int row = 0;

    for (; row < MOVE_COUNT_; row++)
        if (last < WORKS_MAX)
            route_add(route, work_key(WORK_AMOUNT, visit, last + 1), row, 0, place->strings);
    if (work_turns_key(place->record, visit, place->pass, &turns)) {
        route_add(route, turns, MOVE_ROD, 1, place->strings);
        route_set_aside(route);
    }
    for (int line = last > WORK_LINES_MAX ? last - WORK_LINES_MAX + 1 : 1; line <= last; line++) {
        if (!work_line_exists(place->record, visit, line))
            continue;
        for (int column = 0; column < WORK_COLUMN_COUNT_; column++)
            route_add(route, work_key((enum work_column)column, visit, line), row, column,
                      place->strings);
        row++;
    }
    if (last < WORKS_MAX)
        route_add(route, work_key(WORK_KIND, visit, last + 1), row, 0, place->strings);
}
