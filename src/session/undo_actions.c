/* SPDX-License-Identifier: MIT */
#include "session/undo_actions.h"

#include "words/reading_words.h"
#include "session/app_place.h"
#include "session/change.h"
#include "session/refresh.h"

/* Takes in hand the pass that a reading belongs to, except on a leaf of the visit as a whole. */
static void take_pass_of(struct app *app, const struct reading_key *key, bool is_of_visit)
{
    const bool in_pass = field_get(key->field)->section == SECTION_PASS && !is_of_visit;
    const int last = record_last_pass(&app->record, key->visit);

    if (in_pass && (key->visit != app->visit || key->part != app->pass))
        app_take_pass(app, key->visit, key->part);
    else if (key->visit > 0 && key->visit != app->visit)
        app_take_pass(app, key->visit, last > 0 ? last : 1);
}

/* Goes to the leaf that a step was made on, and to the cell that it changed. */
static void show_place(struct app *app, const struct undo_step *step)
{
    const enum leaf leaf = (enum leaf)step->leaf;
    const struct leaf_row *row = app->leaves->row[leaf];

    app->stayed = false;
    if (!row->show)
        take_pass_of(app, &step->key, row->is_of_visit);
    if (app->leaf != leaf)
        app_take_leaf(app, leaf);
    if (row->show) {
        row->show(app, &step->key);
        return;
    }
    app_lay(app);
    /* A target changed on the bench has no cell there: the row that it belongs to stays in hand. */
    const struct reading_key cell = change_cell_key(step->key);
    const int at = route_find(&app->route, &cell);
    if (at >= 0)
        app->at = at;
}

static void add_text(struct strbuf *out, const char *text)
{
    strbuf_add(out, text && text[0] != '\0' ? text : "empty");
}

/* "Undone: action, string 6: 8 1/4/64 in again, no longer 8/64 in; with 2 more that belong to
 * it". */
static void say_step(struct app *app, const struct undo_step *step, bool back)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, back ? "Undone: " : "Redone: ");
    reading_words_add_name(&text, &step->key, &app->now.setup.outfit);
    strbuf_add(&text, ": ");
    add_text(&text, step->to);
    strbuf_add(&text, " again, no longer ");
    add_text(&text, step->from);
    if (step->changes > 1)
        strbuf_addf(&text, "; with %d more that belong to it", step->changes - 1);
    app_say(app, TONE_NOTE, memory);
}

/* With something typed, or right after a refusal, undo most likely means that, and the record has
 * nothing to take back for it. */
static void say_what_back(struct app *app, bool typed)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);
    struct undo_step step;

    strbuf_add(&text, typed ? "What was typed is dropped; " : "Nothing was filed; ");
    if (undo_peek(&app->undo, &step) == STATUS_OK) {
        strbuf_add(&text, "undo again takes back: ");
        reading_words_add_name(&text, &step.key, &app->now.setup.outfit);
        strbuf_add(&text, ", ");
        add_text(&text, step.from);
    } else {
        strbuf_add(&text, "nothing else was changed.");
    }
    app_drop_entry(app);
    app_refresh_entry(app);
    app_say(app, TONE_NOTE, memory);
}

void turn_undo(struct turn *turn, int by)
{
    const bool back = by < 0;
    struct app *app = turn->app;
    struct undo_step step;

    if (back && (app_is_typing(app) || turn->after_warning)) {
        say_what_back(app, app_is_typing(app));
        return;
    }
    if (back && app_leave_begun(app))
        return;
    if (!turn_may_change(turn))
        return;
    const enum status status = back ? undo_back(&app->undo, &app->record, &step)
                                    : undo_again(&app->undo, &app->record, &step);
    if (status == STATUS_NOT_FOUND) {
        turn_warn(turn, back ? "Nothing to undo in this session." : "Nothing to redo.");
        return;
    }
    if (status == STATUS_OK)
        show_place(app, &step);
    app_drop_entry(app);
    turn_changed(turn);
    if (app_row(app)->settle)
        app_row(app)->settle(app, false);
    if (status == STATUS_OK)
        say_step(app, &step, back);
    else
        turn_warn(turn, "Out of memory: only a part was taken back; * 1 goes on.");
}

/* --- the menu --- */

bool turn_can_undo(const struct app *app)
{
    return app_is_typing(app) || app_can_leave_begun(app) ||
           (app_may_change(app) && undo_next(&app->undo, true));
}

bool turn_can_redo(const struct app *app)
{
    return app_may_change(app) && undo_next(&app->undo, false);
}

void turn_add_undone(const struct app *app, struct strbuf *out)
{
    if (app_is_typing(app)) {
        strbuf_add(out, ": drop what is typed");
    } else if (app_can_leave_begun(app)) {
        strbuf_add(out, ": what was just begun");
    } else {
        strbuf_add(out, ": ");
        reading_words_add_name(out, undo_next(&app->undo, true), &app->now.setup.outfit);
    }
}

void turn_add_redone(const struct app *app, struct strbuf *out)
{
    strbuf_add(out, ": ");
    reading_words_add_name(out, undo_next(&app->undo, false), &app->now.setup.outfit);
}
