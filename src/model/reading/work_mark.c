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

static struct reading_key line_key(enum field_id field, int visit, int line)
{
    return (struct reading_key){.field = field, .visit = visit, .part = line};
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
    const struct reading_key work_time = line_key(FIELD_WORK_TIME, place.visit, line);
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

bool work_mark_is_restrung(struct place place)
{
    for (int line = record_last_work(&place.record, place.visit); line > 0; line--) {
        const struct reading_key key = line_key(FIELD_WORK_KIND, place.visit, line);
        const char *text = record_text(&place.record, &key);

        if (text && strcmp(text, WORK_RESTRUNG) == 0 && work_mark_is_since(place, line) &&
            is_before_next(place, line))
            return true;
    }
    return false;
}

int work_mark_line(struct place place, enum move_kind kind)
{
    for (int line = record_last_work(&place.record, place.visit); line > 0; line--) {
        const struct reading_key key = line_key(FIELD_WORK_KIND, place.visit, line);
        const char *text = record_text(&place.record, &key);

        if (text && strcmp(text, work_mark_name(kind)) == 0 && work_mark_is_since(place, line) &&
            is_before_next(place, line))
            return line;
    }
    return 0;
}
