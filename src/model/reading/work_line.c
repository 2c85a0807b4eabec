/* SPDX-License-Identifier: MIT */
#include "model/reading/work_line.h"

#include <string.h>

#include "model/reading/record_access.h"

struct reading_key work_key(enum work_column column, int visit, int line)
{
    static const enum field_id fields[WORK_COLUMN_COUNT_] = {
        [WORK_KIND] = FIELD_WORK_KIND,
        [WORK_AMOUNT] = FIELD_WORK_AMOUNT,
        [WORK_NOTE] = FIELD_WORK_NOTE,
        [WORK_TIME] = FIELD_WORK_TIME,
    };
    return reading_key_pass(fields[column], visit, line);
}

const char *work_line_text(const struct record *record, enum work_column column, int visit,
                           int line)
{
    return record_text_or_empty(record, work_key(column, visit, line));
}

bool work_line_is_strings(const char *kind)
{
    return strcmp(kind, WORK_RESTRUNG) == 0 || strcmp(kind, WORK_RETUNED) == 0;
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
