/* SPDX-License-Identifier: MIT */
#include "model/reading/work_mark.h"

#include <string.h>

#include "model/reading/moment.h"
#include "model/reading/work_line.h"

const char *work_mark_name(enum move_kind kind)
{
    static const char *const names[MOVE_COUNT_] = {
#define MOVE(id, own_, name_, ...) [MOVE_##id] = name_,
#include "model/reading/move_table.h"
#undef MOVE
    };
    return names[kind];
}

enum move_kind work_mark_named(const char *kind)
{
    for (int move = 0; move < MOVE_COUNT_; move++)
        if (strcmp(kind, work_mark_name((enum move_kind)move)) == 0)
            return (enum move_kind)move;
    return MOVE_COUNT_;
}

bool move_is_measured(enum move_kind kind)
{
    return kind == MOVE_ROD || kind == MOVE_SLOTS || kind == MOVE_SADDLE;
}

/*
 * Some files keep times to the minute: in that of a first pass nothing can have been done before
 * it; in that of a later one a quick turn of the rod most likely came before, and asking once
 * more is the lesser evil.
 */
bool work_mark_is_since(struct place place, int line)
{
    const struct reading_key pass_time = place_key(place, FIELD_PASS_TIME);
    const struct reading_key work_time = work_key(WORK_TIME, place.visit, line);
    const struct maybe read = moment_of(&place.record, &pass_time);
    const struct maybe done = moment_of(&place.record, &work_time);

    return read.given && done.given &&
           (done.value > read.value || (done.value == read.value && place.pass == 1));
}

/* Or before the pass after it, for those who look back at an earlier pass. */
static bool is_before_next(struct place place, int line)
{
    const struct place next = place_of(&place.record, place.visit, place.pass + 1);

    return place.pass >= record_last_read_pass(&place.record, place.visit) ||
           !work_mark_is_since(next, line);
}

/* The last line of a kind between a pass and the one after it; 0 for none. */
static int last_line(struct place place, const char *kind)
{
    for (int line = record_last_work(&place.record, place.visit); line > 0; line--)
        if (strcmp(work_line_text(&place.record, WORK_KIND, place.visit, line), kind) == 0 &&
            work_mark_is_since(place, line) && is_before_next(place, line))
            return line;
    return 0;
}

bool work_mark_is_restrung(struct place place)
{
    return last_line(place, WORK_RESTRUNG) > 0;
}

bool work_mark_is_retuned(struct place place)
{
    return last_line(place, WORK_RETUNED) > 0;
}

int work_mark_line(struct place place, enum move_kind kind)
{
    return last_line(place, work_mark_name(kind));
}
