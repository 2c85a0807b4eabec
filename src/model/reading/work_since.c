/* SPDX-License-Identifier: MIT */
#include "model/reading/work_since.h"

#include <string.h>

#include "model/reading/moment.h"
#include "model/reading/work_line.h"
#include "model/reading/work_reach.h"

/* Other strings, or another pitch, change as much as a reset does. */
static enum move_kind move_of(struct place place, int line)
{
    const char *kind = work_line_text(&place.record, WORK_KIND, place.visit, line);

    return work_line_is_strings(kind) ? MOVE_RESET : work_mark_named(kind);
}

/* Of one visit; `from` is the pass to compare times with, pass 0 if every line counts. */
static bool is_logged(struct place from, unsigned moves, int string)
{
    for (int line = record_last_work(&from.record, from.visit); line > 0; line--)
        if ((MOVE_BIT(move_of(from, line)) & moves) != 0 &&
            (from.pass == 0 || work_mark_is_since(from, line)) && work_reaches(from, line, string))
            return true;
    return false;
}

/* Turns are logged with the pass after them. */
static bool is_turned(struct place from, int last)
{
    for (int pass = from.pass + 1; pass <= last; pass++) {
        const struct maybe turn =
            place_read(place_of(&from.record, from.visit, pass), FIELD_ROD_TURN);

        if (turn.given && turn.value != 0)
            return true;
    }
    return false;
}

bool work_since(struct place from, struct place to, unsigned moves, int string)
{
    struct place place = from;

    do {
        const int last =
            place.visit == to.visit ? to.pass : record_last_pass(&place.record, place.visit);

        if (is_logged(place, moves, string) ||
            ((moves & MOVE_BIT(MOVE_ROD)) != 0 && is_turned(place, last)))
            return true;
        place.pass = 0;
    } while (record_next_visit(&place.record, &place.visit) && place.visit <= to.visit);
    return false;
}

bool work_since_own(struct place from, struct place to)
{
    return work_since(from, to, MOVE_BIT(MOVE_COUNT_), 0);
}

/* Surely before the pass was read: not in the same minute. */
static bool is_before(struct place place, int line)
{
    const struct reading_key pass_time = place_key(place, FIELD_PASS_TIME);
    const struct reading_key work_time = work_key(WORK_TIME, place.visit, line);
    const struct maybe read = moment_of(&place.record, &pass_time);
    const struct maybe done = moment_of(&place.record, &work_time);

    return read.given && done.given && done.value < read.value;
}

bool work_between(struct place from, struct place to, unsigned moves, int string)
{
    for (int line = record_last_work(&from.record, from.visit); line > 0; line--)
        if ((MOVE_BIT(move_of(from, line)) & moves) != 0 && !is_before(from, line) &&
            !work_mark_is_since(to, line) && work_reaches(from, line, string))
            return true;
    return (moves & MOVE_BIT(MOVE_ROD)) != 0 && is_turned(from, to.pass);
}

uint64_t work_rocked_between(struct place from, struct place to)
{
    uint64_t frets = 0;

    for (int line = record_last_work(&from.record, from.visit); line > 0; line--)
        if (!is_before(from, line) && !work_mark_is_since(to, line))
            frets |= work_rocked(from, line);
    return frets;
}
