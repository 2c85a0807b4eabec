/* SPDX-License-Identifier: MIT */
#include "leaf/pitch/cents_view.h"

#include "picture/pictures.h"
#include "base/num.h"
#include "draw/picture_view.h"
#include "leaf/pitch/leaf_pitch.h"

enum { SCALE_WIDTH = 7, LEFT = 1 + SCALE_WIDTH };

static void make_picture(const struct app *app, int fret, struct picture *ret_picture)
{
    const struct derived *derived = app_shown(app);
    const struct pitch_curve *curve = &pitch_state(app)->curve;
    const struct fret_pitch *predicted = &derived->pitch[curve->string];

    picture_cents_begin(ret_picture, derived->setup.board.frets, pitch_state(app)->tolerance_cents);
    picture_cents_curve(ret_picture, PICTURE_OTHER, curve->best_cents);
    if (pitch_state(app)->string[curve->string].contact_mm.given)
        picture_cents_curve(ret_picture, PICTURE_MAIN, predicted->cents);
    picture_cents_read(ret_picture, curve->string, &curve->read, fret);
    picture_cents_end(ret_picture, fret);
}

static void draw_heading(const struct pen *pen, const struct app *app,
                         const struct picture *picture, int row)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);
    int column = 1;

    strbuf_addf(&text, "string %d, cents", pitch_state(app)->curve.string);
    column += pen_put(pen, row, column, 40, ROLE_LABEL, memory) + 2;
    if (picture_has(picture, PICTURE_MAIN))
        column += picture_view_key(pen, row, column, "predicted ", PICTURE_MAIN, 2);
    if (picture_has(picture, PICTURE_OTHER))
        column += picture_view_key(pen, row, column, "best, moves done ", PICTURE_OTHER, 2);
    if (picture->spot_count > 0)
        column += picture_view_key(pen, row, column, "read ", PICTURE_MARK, 2);
    strbuf_clear(&text);
    strbuf_add(&text, "in tune \xC2\xB1");
    num_format(pitch_state(app)->tolerance_cents, &text);
    pen_put(pen, row, column, pen->frame->columns - column, ROLE_LABEL, memory);
}

void cents_view_draw(const struct pen *pen, const struct app *app, int fret, int row, int rows)
{
    const struct pitch_curve *curve = &pitch_state(app)->curve;
    const struct picture_area area = {.row = row + 1,
                                      .rows = rows - 2,
                                      .column = LEFT,
                                      .columns = pen->frame->columns - LEFT - 1,
                                      .scale = SCALE_WIDTH};
    struct picture picture;

    if (curve->string < 1 || app_shown(app)->setup.board.frets < 1)
        return;
    make_picture(app, fret, &picture);
    if (!picture_has(&picture, PICTURE_MAIN) && picture.spot_count == 0) {
        pen_put(pen, row + rows / 2, 2, pen->frame->columns - 3, ROLE_DIM,
                "No curve yet: cents read make marks; setback, gauge and heights the rest.");
        return;
    }
    draw_heading(pen, app, &picture, row);
    picture_view_draw(pen, &picture, &area);
    pen_put_right(pen, row + rows - 1, 0, SCALE_WIDTH, ROLE_DIM,
                  outfit_fret_noun(&app_shown(app)->setup.outfit));
    picture_view_ticks(pen, &picture, &area, LEFT);
}
