/* SPDX-License-Identifier: MIT */
#include "session/change_actions.h"

#include "session/cell_words.h"
#include "session/change.h"
#include "session/refresh.h"

bool change_can_toggle(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    return app_may_change(app) && cell && change_applies(app, cell->key.field);
}

/* The change that becomes a correction; NULL if what is filed next is meant. */
static const struct reading *find_filed(const struct app *app)
{
    return app->correcting || app_is_typing(app) ? NULL : change_made(app, &app_cell(app)->key);
}

static void correct_filed(struct turn *turn, const struct reading *filed)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);
    const bool gone = filed->value.state == READING_GONE;
    char memory[APP_MESSAGE_MAX];
    struct strbuf said = STRBUF(memory);

    turn_open_step(turn);
    app->correcting = true;
    cell_words_add_name(app, cell, &said);
    change_add_words(app, &cell->key, &said);
    const enum status status = turn_put(turn, cell->key, gone ? NULL : filed->text, NULL);
    app->correcting = false;
    if (status != STATUS_OK) {
        turn_warn(turn, "Out of memory: the change was left as it is.");
        return;
    }
    turn_changed(turn);
    strbuf_add(&said, "; * 1 takes it back.");
    app_say(app, TONE_NOTE, memory);
}

void change_toggle(struct turn *turn)
{
    struct app *app = turn->app;

    if (!turn_may_change(turn))
        return;
    if (!change_can_toggle(app)) {
        turn_warn(turn, "A change from a visit on is only of strings, targets and the build, and "
                        "not in the first visit.");
        return;
    }
    const struct reading *filed = find_filed(app);
    if (filed) {
        correct_filed(turn, filed);
        return;
    }
    app->correcting = !app->correcting;
    app_refresh_entry(app);
    app_say(app, TONE_NOTE,
            app->correcting ? "What is filed here now corrects the visits before; = ends that."
                            : "What is filed now holds from this visit on.");
}

void change_add_toggled(const struct app *app, struct strbuf *out)
{
    strbuf_add(out, app->correcting ? " no longer" : " all visits");
}
