/* SPDX-License-Identifier: MIT */
#include "session/turn.h"

#include <string.h>

#include "base/utf8.h"
#include "session/change.h"
#include "session/refresh.h"

void turn_warn(struct turn *turn, const char *message)
{
    app_say(turn->app, TONE_WARNING, message);
    turn->app->warned = true;
}

bool turn_may_change(struct turn *turn)
{
    if (app_may_change(turn->app))
        return true;
    turn_warn(turn, "This profile is open for reading only; nothing was changed.");
    return false;
}

void turn_go_to(struct turn *turn, int at)
{
    turn->app->at = at < 0 ? 0 : at;
    turn->app->stayed = false;
    app_drop_entry(turn->app);
    app_refresh_entry(turn->app);
}

void turn_open_step(struct turn *turn)
{
    if (!turn->joins_step)
        undo_open_step(&turn->app->undo, (int)turn->app->leaf);
}

enum status turn_put(struct turn *turn, struct reading_key key, const char *text,
                     struct field_fault *ret_fault)
{
    return change_put(turn->app, turn->clock->date, key, text, ret_fault);
}

enum status turn_put_as_is(struct turn *turn, struct reading_key key, const char *text)
{
    return undo_put_as_is(&turn->app->undo, &turn->app->record, &key, text);
}

/* Work after the day of the visit is filed with its own date. */
enum status turn_put_time(struct turn *turn, struct reading_key key)
{
    struct app *app = turn->app;
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, app->visit);
    enum status status = STATUS_OK;
    char memory[32];
    struct strbuf time = STRBUF(memory);

    if (!record_get(&app->record, &date))
        status = turn_put(turn, date, turn->clock->date, NULL);
    if (status != STATUS_OK || record_get(&app->record, &key))
        return status;
    if (strcmp(record_text(&app->record, &date), turn->clock->date) != 0)
        strbuf_addf(&time, "%sT", turn->clock->date);
    strbuf_add(&time, turn->clock->time);
    return turn_put(turn, key, memory, NULL);
}

void turn_changed(struct turn *turn)
{
    turn->app->begun = pass_place_none();
    turn->app->fresh = false;
    app_refresh(turn->app);
    turn->effects.save = true;
}

void turn_refuse_entry(struct turn *turn, const char *why)
{
    enum { QUOTED_COLUMNS = 20 };
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    const char *text = app->entry.text;
    const size_t fits = utf8_clip(text, QUOTED_COLUMNS);

    strbuf_add_char(&words, '"');
    strbuf_add_bytes(&words, text, fits);
    strbuf_add(&words, text[fits] ? "...\": " : "\": ");
    strbuf_add(&words, why);
    turn_warn(turn, memory);
    if (app_field(app) && app_field(app)->kind == KIND_TEXT)
        return;
    if (!app->writing && !app_is_asked(app)) {
        app->held = HELD_REFUSED;
        return;
    }
    app_drop_entry(app);
    app_refresh_entry(app);
}

bool turn_may_go(struct turn *turn)
{
    if (lineedit_is_empty(&turn->app->entry))
        return true;
    turn_warn(turn, turn->app->doubt.kind != DOUBT_NONE
                        ? "Held: Enter asks again before it files it, Esc drops it."
                        : "Enter takes what is typed, Esc drops it.");
    return false;
}

const struct command_act *app_act(const struct app *app, enum command_id command)
{
    const struct command_instead *instead = app_row(app)->instead;

    for (; instead && pass_place_is_none(app->named) && instead->id != COMMAND_NONE; instead++)
        if (instead->id == command)
            return &instead->act;
    return &app->leaves->act[command];
}

void turn_run(struct turn *turn, enum command_id command)
{
    const struct command_act *act = command < COMMAND_COUNT_ ? app_act(turn->app, command) : NULL;

    if (act && act->plain)
        act->plain(turn);
    else if (act)
        act->by(turn, act->step);
    else
        turn_warn(turn, "That key does nothing here; * shows what can be done.");
}
