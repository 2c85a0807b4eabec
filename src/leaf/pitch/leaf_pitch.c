/* SPDX-License-Identifier: MIT */
#include "leaf/pitch/leaf_pitch.h"

#include "leaf/leaves.h"
#include "leaf/pitch/pitch_view.h"
#include "model/reading/work_since.h"
#include "session/setback_cell.h"
#include "words/pitch_words.h"

/* The bass string first, as the tech faces the board. One that starts higher crosses only the frets
 * after its own; its octave is higher, too. */
static void lay_note(const struct leaf_place *place, struct route *route, int string, int fret)
{
    if (fret > place->outfit.from_fret[string] && fret <= place->frets)
        route_add(route, reading_key_pass_at(FIELD_CENTS, place->visit, place->pass, string, fret),
                  place->strings - string, fret, string);
}

static void lay_octaves(const struct leaf_place *place, struct route *route)
{
    for (int s = place->strings; s >= 1; s--)
        lay_note(place, route, s, outfit_octave_fret(&place->outfit, s));
}

static void lay_fret(const struct leaf_place *place, struct route *route, int fret)
{
    for (int s = place->strings; s >= 1; s--)
        if (fret != outfit_octave_fret(&place->outfit, s))
            lay_note(place, route, s, fret);
}

static void lay_setbacks(const struct leaf_place *place, struct route *route)
{
    for (int s = place->strings; s >= 1; s--)
        route_add(route, reading_key_string(FIELD_SETBACK, s), place->strings - s,
                  PITCH_SETBACK_COLUMN, s);
}

/* The octave of every string, which the saddle is set by, then the setbacks; then every other fret,
 * which is enough for a curve, and last the ones between. */
static void lay(const struct leaf_place *place, struct route *route)
{
    if (!outfit_asks(&place->outfit, FIELD_CENTS, 1))
        return;
    lay_octaves(place, route);
    lay_setbacks(place, route);
    for (int fret = 1; fret <= place->frets; fret += 2)
        lay_fret(place, route, fret);
    for (int fret = 2; fret <= place->frets; fret += 2)
        lay_fret(place, route, fret);
}

/* What follows from the readings of the string in hand, else what is predicted for it. */
static enum figure_id find_figure(const struct app *app)
{
    static const enum figure_id figures[] = {FIGURE_SETBACK_FIT, FIGURE_SETBACK_CHANGE,
                                             FIGURE_SETBACK_PREDICTED};

    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
        if (figures_get(&app_shown(app)->figures, figures[i], app_string(app)).given)
            return figures[i];
    return leaf_pitch.leaf_figure;
}

static void plan(struct app *app, struct place place)
{
    pitch_plan_make(place, app_shown(app), app_string(app), pitch_state(app));
}

static const char *draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    pitch_view_draw(pen, app, row, rows);
    return pitch_caution(pitch_state(app));
}

/* What a fretted note is sharp by follows from how the string lies, and where its saddle is. */
static unsigned moved_by(const struct app *app, const struct route_cell *cell)
{
    (void)app;
    if (cell->key.field != FIELD_CENTS)
        return 0;
    return MOVE_BIT(MOVE_RESET) | MOVE_BIT(MOVE_ROD) | MOVE_BIT(MOVE_SLOTS) |
           MOVE_BIT(MOVE_SADDLE) | MOVE_BIT(MOVE_PITCH);
}

const struct leaf_row leaf_pitch = {.state_size = sizeof(struct pitch_plan),
                                    .lay = lay,
                                    .shows = DERIVE_FIGURES,
                                    .leaf_figure = FIGURE_SETBACK_CHANGE,
                                    .figure = find_figure,
                                    .has_figure = leaf_every_cell,
                                    .shows_predicted_u = true,
                                    .plan = plan,
                                    .expected = setback_cell_expected,
                                    .add_expected_after = setback_cell_add_after,
                                    .moved_by = moved_by,
                                    .draw = draw};
