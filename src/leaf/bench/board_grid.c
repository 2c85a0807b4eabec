/* SPDX-License-Identifier: MIT */
#include "leaf/bench/board_grid.h"

#include "base/utf8.h"
#include "words/amount.h"

enum {
    CELL_WHOLE = 6, /* "-.040" and a blank */
    CELL_MAX = 9,
    SIDE_MIN = 7, /* "mixed" and its margins */
};

/* Turns with their eighths, "-3 1/8", fill a column of six. */
static bool is_too_wide(const struct app *app, int cell)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        for (int s = 1; s <= app->now.setup.outfit.strings; s++)
            if (utf8_columns(app->moves[kind].string[s]) >= cell)
                return true;
    return false;
}

struct board_grid board_grid_for(const struct app *app, int columns)
{
    struct board_grid grid = {.label = app->route.columns > 7 ? 13 : 14,
                              .columns = app->route.columns};
    const int side = columns >= 100 ? 30 : 24;

    grid.cell = (columns - grid.label - side) / grid.columns;
    /* With many strings the right part gives up columns, so that numbers fit. */
    if (grid.cell < CELL_WHOLE)
        grid.cell = (columns - grid.label - SIDE_MIN) / grid.columns;
    if (grid.cell > CELL_WHOLE && grid.cell * grid.columns > columns - grid.label - side)
        grid.cell = CELL_WHOLE;
    if (grid.cell > CELL_MAX)
        grid.cell = CELL_MAX;
    grid.staggered = grid.cell < CELL_WHOLE || is_too_wide(app, grid.cell);
    grid.side_column = grid.label + grid.cell * grid.columns + 1;
    grid.side = columns - grid.side_column;
    return grid;
}

enum unit board_row_unit(const struct app *app, const struct bench_row *row)
{
    return field_bare_unit(field_get(row->field[END_BASS]), &app->units);
}

void board_fit_reading(const struct app *app, const struct reading_key *key, int width,
                       struct strbuf *text)
{
    const struct maybe read = record_entered(&app->record, *key);

    if (utf8_columns(text->text) <= width || !read.given)
        return;
    strbuf_clear(text);
    amount_add_short(text, read.value, field_bare_unit(field_get(key->field), &app->units), width);
}
