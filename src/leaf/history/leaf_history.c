/* SPDX-License-Identifier: MIT */
#include "leaf/history/history_actions.h"
#include "leaf/history/history_state.h"
#include "leaf/history/history_view.h"
#include "leaf/leaves.h"
#include "session/cell_words.h"
#include "words/reading_words.h"

/* A pass and a row are looked at (history_state.h), which are not cells. There are cells only for a
 * pass's label and note and its visit's words for the owner, while these are written. */
static void lay(const struct leaf_place *place, struct route *route)
{
    const struct pass_place named = place->named;

    if (pass_place_is_none(named))
        return;
    route_add(route, reading_key_pass(FIELD_PASS_LABEL, named.visit, named.pass), 0, 0,
              place->strings);
    route_add(route, reading_key_pass(FIELD_PASS_NOTE, named.visit, named.pass), 1, 0,
              place->strings);
    route_add(route, reading_key_visit(FIELD_VISIT_FOR_OWNER, named.visit), 2, 0, place->strings);
}

static enum figure_id find_figure(const struct app *app)
{
    return history_row_figure(&history_state(app)->history.outfit, history_state_row(app));
}

/* A pass looked at is not a reading. */
static bool explains_cell(const struct app *app)
{
    (void)app;
    return false;
}

/* From now on the pass in hand is looked at. */
static void take_pass(struct app *app)
{
    history_state(app)->pass = pass_place_none();
}

static void show(struct app *app, const struct reading_key *key)
{
    history_state(app)->pass = pass_place_of(key->visit, key->part);
}

static struct pass_place find_looked_at(const struct app *app)
{
    const int at = history_state_find(app);

    return at < 0 ? pass_place_of(app->visit, 0) : history_state(app)->index.passes[at];
}

static void add_prompt(const struct app *app, struct strbuf *out)
{
    const struct route_cell *cell = app_cell(app);

    if (cell) {
        reading_words_add_place(out, &cell->key);
        cell_words_add_name(app, cell, out);
        strbuf_add(out, " >");
    } else if (history_has_any(app)) {
        strbuf_add(out, "Left, Right: pass; Up, Down: row; Enter: to the bench; l: label it");
    } else {
        strbuf_add(out, "nothing to look at yet; Tab goes on to the other leaves");
    }
}

static const char *draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    history_view_draw(pen, app, row, rows);
    return "";
}

/* The keys that move between cells on other leaves move between passes and rows here. */
static const struct command_instead instead[] = {
    {COMMAND_UP, {BY(history_look_row, -1)}},
    {COMMAND_DOWN, {BY(history_look_row, 1)}},
    {COMMAND_LEFT, {BY(history_look_pass, -1)}},
    {COMMAND_RIGHT, {BY(history_look_pass, 1)}},
    {COMMAND_BACK, {BY(history_look_pass, -1)}},
    {COMMAND_EARLIER, {BY(history_look_pass, -1), .can = history_has_earlier}},
    {COMMAND_LATER, {BY(history_look_pass, 1), .can = history_has_later}},
    {COMMAND_FIRST, {BY(history_look_pass, -HISTORY_PASSES_MAX)}},
    {COMMAND_LAST, {BY(history_look_pass, HISTORY_PASSES_MAX)}},
    {COMMAND_NONE, {DO(NULL)}},
};

const struct leaf_row leaf_history = {.state_size = sizeof(struct history_state),
                                      .lay = lay,
                                      .shows = DERIVE_MOVES,
                                      .leaf_figure = FIGURE_EMC,
                                      .figure = find_figure,
                                      .explains_cell = explains_cell,
                                      .instead = instead,
                                      .plan = history_state_plan,
                                      .take_pass = take_pass,
                                      .show = show,
                                      .looked_at = find_looked_at,
                                      .add_prompt = add_prompt,
                                      .draw = draw};
