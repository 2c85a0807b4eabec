/* SPDX-License-Identifier: MIT */
#include "model/figure/bench_row.h"

#include <stddef.h>

/* clang-format off */
#define BOTH(x) {x, x}
#define ENDS(bass, treble) {bass, treble}
#define BENCH_ROW(id, ...) [ROW_##id] = {__VA_ARGS__},
#define BAR_ROW(id, ...) [ROW_##id] = {__VA_ARGS__},
/* clang-format on */

static const struct bench_row rows[ROW_ALL_] = {
#include "model/figure/bench_row_table.h"
};

const struct bench_row *bench_row_get(enum bench_row_id id)
{
    return &rows[id];
}

const struct bench_row *bench_row_in(const struct outfit *outfit, int id)
{
    if (outfit->lap && id == ROW_GAP)
        return &rows[ROW_HEIGHT_NUT];
    if (outfit->lap && id == ROW_ACTION)
        return &rows[ROW_HEIGHT_SADDLE];
    return &rows[id];
}

bool bench_row_is_asked(const struct bench_row *row, const struct outfit *outfit)
{
    if (!bench_row_by_string(row))
        return outfit_asks(outfit, row->field[END_BASS], 0);
    for (int s = 1; s <= outfit->strings; s++)
        if (outfit_asks(outfit, row->field[END_BASS], s))
            return true;
    return false;
}

static bool holds(const enum field_id fields[END_COUNT_], enum field_id field)
{
    return fields[END_BASS] == field || fields[END_TREBLE] == field;
}

const struct bench_row *bench_row_of(enum field_id field)
{
    for (int id = 0; id < ROW_ALL_; id++)
        if (holds(rows[id].field, field) || rows[id].inner == field)
            return &rows[id];
    return NULL;
}

const struct bench_row *bench_row_of_target(enum field_id field)
{
    for (int id = 0; id < ROW_ALL_; id++)
        if (holds(rows[id].target, field))
            return &rows[id];
    return NULL;
}

bool bench_row_by_string(const struct bench_row *row)
{
    return field_get(row->field[END_BASS])->per == PER_STRING;
}

bool bench_row_has_ends(const struct bench_row *row)
{
    return row->field[END_BASS] != row->field[END_TREBLE];
}

enum bench_end bench_row_end(const struct bench_row *row, enum field_id field)
{
    return bench_row_has_ends(row) && field == row->field[END_TREBLE] ? END_TREBLE : END_BASS;
}

struct reading_key bench_row_key(const struct bench_row *row, enum bench_end end, int visit,
                                 int pass, int string)
{
    return reading_key_pass_at(row->field[end], visit, pass, bench_row_by_string(row) ? string : 0,
                               0);
}

int bench_row_fret(const struct bench_row *row, const struct board *board)
{
    if (row->fret == AT_SADDLE)
        return 0;
    if (row->fret == AT_RELIEF_FRET)
        return board->has_relief ? board->relief_fret : 0;
    if (row->fret == AT_ACTION_FRET)
        return board->action_fret > 0 ? board->action_fret : 0;
    return row->fret;
}

void bench_row_add_place(const struct bench_row *row, const struct outfit *outfit,
                         const struct board *board, struct strbuf *out)
{
    const int fret = bench_row_fret(row, board);

    if (row->fret < 0 && fret > 0)
        strbuf_addf(out, " at %s %d", outfit_fret_noun(outfit), fret);
}
