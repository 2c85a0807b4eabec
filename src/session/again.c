/* SPDX-License-Identifier: MIT */
#include "session/again.h"

#include <math.h>

#include "model/reading/work_since.h"
#include "model/setup/work_done.h"

struct place again_place(const struct app *app, const struct reading *reading)
{
    return place_of(&app->record, reading->key.visit, reading->key.part);
}

/* --- whether something changed it --- */

/* What the relief was last read as, up to a pass of one visit. */
static struct maybe relief_at(struct place place)
{
    struct maybe relief = maybe_absent();

    for (; place.pass > 0 && !relief.given; place.pass--)
        relief = place_read(place, FIELD_RELIEF);
    return relief;
}

/* Whether the neck has moved by more than a leaf of the gauge. Not known to, where the relief is
 * not read. */
static bool has_moved(const struct app *app, struct place from)
{
    const struct maybe was = relief_at(from), is = relief_at(app_place(app));
    const double rounding_mm = 1e-6;

    return was.given && is.given &&
           !(fabs(is.value - was.value) <= app->now.setup.feeler_step_mm + rounding_mm);
}

/* Whether one of them changes what is read of that string, where the pass before asks for it: it
 * may be done and not logged yet. */
static bool is_due(const struct app *app, unsigned moves, int string)
{
    const struct place before = place_of(&app->record, app->visit, app->pass - 1);
    const struct move_set *planned = &app->before.moves;

    for (int kind = 0; app->has_before && kind < MOVE_COUNT_; kind++) {
        struct work_done done;

        if ((moves & MOVE_BIT(kind)) == 0 || planned->move[kind].state != MOVE_DUE)
            continue;
        work_done_find(before, &app->before.setup, planned, (enum move_kind)kind, &done);
        if (work_done_reaches(&done, planned, &app->before.setup, (enum move_kind)kind, string))
            return true;
    }
    return false;
}

/* Whether it does not fit what else was read in the visit. */
static bool is_questioned(const struct app *app, const struct reading *reading)
{
    return move_set_questions(&app->now.moves, reading->key.field, reading->key.string);
}

static bool is_other_method(const struct app *app, const struct reading *reading)
{
    return reading->key.field == FIELD_NUT_GAP &&
           record_choice_or(&app->record, place_key(again_place(app, reading), FIELD_NUT_METHOD),
                            NUT_OPEN) != (int)app_nut_method(app);
}

const struct reading *again_find(const struct app *app, const struct route_cell *cell)
{
    return again_find_on(app, app_row(app), cell);
}

const struct reading *again_find_on(const struct app *app, const struct leaf_row *leaf,
                                    const struct route_cell *cell)
{
    if (cell->key.field == FIELD_VISIT_TICKET)
        return app->ticket_text[0] && !record_get(&app->record, &cell->key) ? &app->ticket : NULL;
    const unsigned moves = leaf->moved_by ? leaf->moved_by(app, cell) : 0;

    if (moves == 0 || record_get(&app->record, &cell->key))
        return NULL;
    const struct reading *before = app_reading_before(app, cell);
    if (!before || is_other_method(app, before) || is_questioned(app, before) ||
        is_due(app, moves, cell->string))
        return NULL;
    const struct place from = again_place(app, before);
    const bool by_rod = (moves & MOVE_BIT(MOVE_ROD)) != 0 && cell->key.field != FIELD_RELIEF;
    if (work_since(from, app_place(app), moves, cell->string) || (by_rod && has_moved(app, from)))
        return NULL;
    return before;
}

/* --- offering it --- */

const struct reading *again_in_hand(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    return cell && app_may_change(app) && !app_is_typing(app) ? again_find(app, cell) : NULL;
}

void again_add_words(const struct app *app, const struct reading *reading, struct strbuf *out)
{
    const struct field *field = field_get(reading->key.field);
    const struct place from = again_place(app, reading);
    const bool here = from.visit == app->visit;

    if (field->id == FIELD_VISIT_TICKET) {
        strbuf_addf(out, "[%s] is the next number: Enter files it, arrows pass", reading->text);
        return;
    }
    strbuf_add_char(out, '[');
    entry_show(reading->text, field, &app->units, out);
    strbuf_addf(out, "] of %s %d: Enter files it, arrows pass", here ? "pass" : "visit",
                here ? from.pass : from.visit);
}
