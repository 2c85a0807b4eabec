/* SPDX-License-Identifier: MIT */
#include "leaf/history/trend_view.h"

#include "leaf/history/picture_trend.h"
#include "base/utf8.h"
#include "draw/picture_view.h"
#include "model/reading/record_access.h"

enum { SCALE_WIDTH = 6 };

static void draw_heading(const struct pen *pen, const struct outfit *outfit, enum history_row row,
                         bool two_sides, const struct shop_units *units,
                         const struct trend_area *area)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);
    int column = area->column;

    strbuf_addf(&text, "%s, %s ", history_row_name(outfit, row),
                history_row_unit(outfit, row, units));
    column += pen_put(pen, area->row, column, area->width, ROLE_LABEL, memory);
    if (!two_sides)
        return;
    column += picture_view_key(pen, area->row, column, " bass ", PICTURE_MAIN, 0);
    picture_view_key(pen, area->row, column, " treble ", PICTURE_OTHER, 0);
}

static const char *date_of(const struct record *record, int visit)
{
    return record_text_or_empty(record, reading_key_visit(FIELD_VISIT_DATE, visit));
}

static void draw_dates(const struct pen *pen, const struct record *record,
                       const struct history *history, const struct picture *picture,
                       const struct picture_area *area)
{
    const int first = history->passes[picture->ticks[0].number].visit;
    const int last = history->passes[picture->ticks[1].number].visit;
    const char *from = date_of(record, first), *to = date_of(record, last);
    const int row = area->row + area->rows;

    pen_put(pen, row, area->column, area->columns, ROLE_DIM, from);
    if (first != last && utf8_columns(from) + utf8_columns(to) < area->columns)
        pen_put_right(pen, row, area->column, area->columns, ROLE_DIM, to);
}

void trend_view_draw(const struct pen *pen, const struct record *record,
                     const struct history *history, enum history_row row, int at,
                     const struct shop_units *units, const struct trend_area *area)
{
    const struct picture_area dots = {.row = area->row + 1,
                                      .rows = area->rows - 2,
                                      .column = area->column + SCALE_WIDTH,
                                      .columns = area->width - SCALE_WIDTH - 1,
                                      .scale = SCALE_WIDTH - 1};
    struct picture picture;
    const bool known = picture_trend(&picture, history, row, at, units);

    draw_heading(pen, &history->outfit, row, picture_has(&picture, PICTURE_OTHER), units, area);
    if (!known) {
        pen_wrap(pen, area->row + 2, area->column + 1, area->width - 2, 2, ROLE_DIM,
                 row >= HISTORY_HUMIDITY
                     ? "Nothing to draw yet: humidity and temperature on Intake make it."
                     : "Nothing to draw yet: readings on Bench and the date on Intake make it.");
        return;
    }
    picture_view_draw(pen, &picture, &dots);
    draw_dates(pen, record, history, &picture, &dots);
}
