/* SPDX-License-Identifier: MIT */
#include "words/board_row.h"

enum field_id board_row_field(enum board_row row)
{
    static const enum field_id fields[ROW_COUNT_] = {
        [ROW_RELIEF] = FIELD_RELIEF,
        [ROW_GAP] = FIELD_NUT_GAP,
        [ROW_ACTION] = FIELD_ACTION,
        [ROW_EXPOSURE] = FIELD_EXPOSURE_BASS,
    };
    return fields[row];
}
