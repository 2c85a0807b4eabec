/* SPDX-License-Identifier: MIT */
#include "model/work_mark.h"

#include <string.h>

#include "model/moment.h"

const char *work_mark_name(enum move_kind kind)
{
    static const char *const names[MOVE_COUNT_] = {
        [MOVE_RESET] = "reset",
        [MOVE_ROD] = "rod",
        [MOVE_SLOTS] = "slots",
        [MOVE_SADDLE] = "saddle",
    };
    return names[kind];
}

static struct reading_key line_key(enum field_id field, int visit, int line)
{
    return (struct reading_key){.field = field, .visit = visit, .part = line};
}

/*
 * Some files keep times to the minute: in that of a first pass nothing can have been done before
 * it; in that of a later one a quick turn of the rod most likely came before, and asking once
 * more is the lesser evil.
 */
bool work_mark_is_since(const struct record *record, int visit, int pass, int line)
{
    const struct reading_key pass_time = reading_key_pass(FIELD_PASS_TIME, visit, pass);
    const struct reading_key work_time = line_key(FIELD_WORK_TIME, visit, line);
    const struct maybe read = moment_of(record, &pass_time);
    const struct maybe done = moment_of(record, &work_time);

    return read.given && done.given &&
           (done.value > read.value || (done.value == read.value && pass == 1));
}

/* Or before the pass after it, for those who look back at an earlier pass. */
static bool is_before_next(const struct record *record, int visit, int pass, int line)
{
    return pass >= record_last_read_pass(record, visit) ||
           !work_mark_is_since(record, visit, pass + 1, line);
}

int work_mark_line(const struct record *record, int visit, int pass, enum move_kind kind)
{
    for (int line = record_last_work(record, visit); line > 0; line--) {
        const struct reading_key key = line_key(FIELD_WORK_KIND, visit, line);
        const char *text = record_text(record, &key);

        if (text && strcmp(text, work_mark_name(kind)) == 0 &&
            work_mark_is_since(record, visit, pass, line) &&
            is_before_next(record, visit, pass, line))
            return line;
    }
    return 0;
}
