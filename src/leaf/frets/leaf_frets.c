/* SPDX-License-Identifier: MIT */
#include "leaf/frets/leaf_frets.h"

#include "leaf/frets/frets_actions.h"
#include "leaf/frets/frets_view.h"
#include "leaf/leaves.h"

static void lay_heard(const struct leaf_place *place, struct route *route, int string)
{
    const int row = outfit_column(&place->outfit, string);

    route_add(route, reading_key_pass_at(FIELD_BUZZ, place->visit, place->pass, string, 0), row,
              FRETS_BUZZ_COLUMN, string);
    route_add(route, reading_key_pass_at(FIELD_CLEAN, place->visit, place->pass, string, 0), row,
              FRETS_CLEAN_COLUMN, string);
}

static void lay_frets(const struct leaf_place *place, struct route *route, enum field_id field,
                      enum frets_row row)
{
    for (int fret = 1; fret <= place->frets && outfit_asks(&place->outfit, field, 0); fret++)
        route_add(route, reading_key_pass_at(field, place->visit, place->pass, 0, fret),
                  outfit_read_count(&place->outfit) + (int)row, fret, place->strings);
}

/* The notes heard come first; they tell where to look with the rocker. */
static void lay(const struct leaf_place *place, struct route *route)
{
    for (int s = place->strings; s >= 1; s--)
        if (outfit_asks(&place->outfit, FIELD_BUZZ, s))
            lay_heard(place, route, s);
    if (place->frets < 1 || place->outfit.lap)
        return;
    lay_frets(place, route, FIELD_SPOT, FRETS_ROW_SPOT);
    lay_frets(place, route, FIELD_CROWN, FRETS_ROW_CROWN);
    route_add(route, reading_key_pass(FIELD_FALL_AWAY, place->visit, place->pass),
              outfit_read_count(&place->outfit) + FRETS_ROW_FALL_AWAY, 1, place->strings);
}

static enum figure_id find_figure(const struct app *app)
{
    (void)app;
    return FIGURE_COUNT_;
}

static bool has_figure(const struct route_cell *cell)
{
    return cell->key.field != FIELD_FALL_AWAY;
}

static void plan(struct app *app, struct place place)
{
    frets_plan_make(place, app_shown(app), &frets_state(app)->plan);
}

static const char *draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    frets_view_draw(pen, app, row, rows);
    return frets_caution(&frets_state(app)->plan);
}

const struct leaf_row leaf_frets = {.state_size = sizeof(struct frets_state),
                                    .lay = lay,
                                    .shows = DERIVE_FIGURES,
                                    .leaf_figure = FIGURE_NUT_HEIGHT,
                                    .figure = find_figure,
                                    .has_figure = has_figure,
                                    .note = frets_note,
                                    .settle = frets_settle,
                                    .plan = plan,
                                    .draw = draw};
