/* SPDX-License-Identifier: MIT */
#include "session/app_place.h"

#include <string.h>

#include "session/refresh.h"

static void settle(struct app *app)
{
    if (app_row(app)->settle)
        app_row(app)->settle(app, true);
}

static void set_pass(struct app *app, struct pass_place pass)
{
    app->visit = app->record.as_of = pass.visit;
    app->pass = app->record.as_of_pass = pass.pass;
    app->correcting = false;
    app->alone = 0;
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++)
        if (app->leaves->row[leaf]->take_pass)
            app->leaves->row[leaf]->take_pass(app);
}

void app_take_pass(struct app *app, int visit, int pass)
{
    set_pass(app, pass_place_of(visit, pass));
    app->begun = pass_place_none();
    app->fresh = false;
    app->asked = NULL;
    app->named = pass_place_none();
    app->at = 0;
    memset(app->at_of, 0, sizeof app->at_of);
    app_drop_entry(app);
    app_refresh(app);
    settle(app);
}

void app_take_current(struct app *app)
{
    const struct place current = place_current(&app->record);
    const int last = record_last_visit(&app->record);

    if (current.pass > 0)
        app_take_pass(app, current.visit, current.pass);
    else
        app_take_pass(app, last > 0 ? last : 1, 1);
}

/* --- a pass that is begun --- */

/*
 * An empty pass or visit disappears when it is left, so that one begun by mistake need not be taken
 * out. Leaves on which it can be filled in keep it. Leaves on the way between those (Strings before
 * Pitch) show the pass before it instead, and it comes back on the next leaf that can fill it in.
 */

/* Whether the pass in hand is empty, and there is another one to go back to. */
static bool is_begun(const struct app *app)
{
    return record_last_pass(&app->record, app->visit) < app->pass &&
           (app->pass > 1 || record_last_visit(&app->record) < app->visit) &&
           place_current(&app->record).pass > 0;
}

/* Whether the leaf in hand has a cell that fills in a pass, or changes the instrument in a visit.
 * Rod turns are logged before their pass begins, so they do not count. */
static bool is_entered_here(struct app *app, struct pass_place pass)
{
    app_lay_on(app, app_row(app), pass, &app->route);
    for (int i = 0; i < app->route.count; i++) {
        const struct reading_key *key = &app->route.cells[i].key;
        const bool of_pass =
            field_get(key->field)->section == SECTION_PASS && key->part == pass.pass;

        if (key->visit == pass.visit && key->field != FIELD_ROD_TURN && (of_pass || pass.pass == 1))
            return true;
        if (pass.pass == 1 && field_may_change(key->field))
            return true;
    }
    return false;
}

static struct pass_place find_left(const struct app *app, struct pass_place begun)
{
    const struct place current = place_current(&app->record);

    if (begun.pass == 1 && current.pass > 0)
        return pass_place_of(current.visit, current.pass);
    return pass_place_of(begun.visit, begun.pass - 1);
}

static void say(struct app *app, struct pass_place begun, bool gone)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);

    if (begun.pass > 1)
        strbuf_addf(&text, "Pass %d", begun.pass);
    else
        strbuf_addf(&text, "Visit %d", begun.visit);
    strbuf_add(&text, gone ? " is still empty and is left; " : ", begun before, is in hand again.");
    if (gone)
        strbuf_add(&text, begun.pass > 1 ? "p begins it again." : "v begins it again.");
    app_say(app, TONE_NOTE, memory);
}

/* Leaves an empty pass if the leaf in hand has no cell for it, or takes it in hand again. True,
 * with a message, if the pass in hand is another one then. */
static bool go_along(struct app *app)
{
    const struct pass_place before = app_pass_in_hand(app);

    if (is_begun(app))
        app->begun = before;
    else if (app_row(app)->is_bench)
        app->begun = pass_place_none();
    if (pass_place_is_none(app->begun))
        return false;
    const bool stays = is_entered_here(app, app->begun);
    const struct pass_place pass = stays ? app->begun : find_left(app, app->begun);
    if (pass_place_is_same(pass, before))
        return false;
    set_pass(app, pass);
    say(app, app->begun, !stays);
    return true;
}

bool app_can_leave_begun(const struct app *app)
{
    return app->fresh && is_begun(app);
}

bool app_leave_begun(struct app *app)
{
    if (!app_can_leave_begun(app))
        return false;
    const struct pass_place left = find_left(app, app_pass_in_hand(app));
    app_take_pass(app, left.visit, left.pass);
    app_say(app, TONE_NOTE, "Back in the pass before; the new one was empty.");
    return true;
}

/* --- leaves --- */

void app_take_leaf(struct app *app, enum leaf leaf)
{
    app->at_of[app->leaf] = app->at;
    app->asked = NULL;
    app->named = pass_place_none();
    app->correcting = false;
    app->leaf = leaf;
    app->at = app->at_of[leaf];
    app->stayed = false;
    app_drop_entry(app);
    if (go_along(app)) {
        app_refresh(app);
    } else {
        app_lay(app);
        app_refresh_entry(app);
    }
    settle(app);
}
