/* SPDX-License-Identifier: MIT */
#include "session/held.h"

#include <string.h>

#include "base/utf8.h"
#include "session/cell_words.h"
#include "session/refresh.h"

bool held_holds(struct turn *turn)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (app->doubt.kind == DOUBT_NONE || app->held == HELD_ASKED)
        return false;
    app->held = HELD_ASKED;
    strbuf_add(&words, "Held: ");
    strbuf_add(&words, app->doubt_words);
    turn_warn(turn, memory);
    return true;
}

static bool begins_anew(const struct app *app, uint32_t key)
{
    return key >= ' ' && key < SILLET_KEY_ENTER && app->writing;
}

static bool is_of_number(uint32_t key)
{
    return key >= ' ' && key < 0x80 && strchr("0123456789.,/+-", (int)key);
}

/* A tech at the number pad types the next string's reading without a look. It must neither stand in
 * this cell nor be lost unseen: nothing is taken until the question is answered. */
static void refuse_number(struct turn *turn)
{
    const struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    strbuf_add_bytes(&words, app->entry.text, utf8_clip(app->entry.text, 20));
    strbuf_add(&words, app->held == HELD_REFUSED ? " was not taken in " : " is held in ");
    cell_words_add_name(app, app_cell(app), &words);
    strbuf_add(&words, app->held == HELD_REFUSED ? ": Backspace or Esc empties it, then type."
                                                 : ": Enter asks again, Backspace empties it.");
    turn_warn(turn, memory);
}

/* A tech who types on without looking should see at least that it is still the same cell. */
static void say_instead(struct app *app)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    strbuf_add(&words, "This replaces the ");
    strbuf_add_bytes(&words, app->entry.text, utf8_clip(app->entry.text, 20));
    strbuf_add(&words, " that was held, still in ");
    cell_words_add_name(app, app_cell(app), &words);
    app_say(app, TONE_NOTE, memory);
}

/* A letter would be taken for a unit and added to an entry that was just asked about, so it is
 * refused. Undo and the commands that only show something still work. */
static bool take_letter(struct turn *turn, uint32_t key)
{
    const enum command_id command = command_find(key, turn->app->leaf);

    if (key >= SILLET_KEY_ENTER || key < ' ')
        return false;
    if (command == COMMAND_UNDO || command == COMMAND_WHY || command == COMMAND_HELP ||
        command == COMMAND_MENU)
        turn_run(turn, command);
    else
        turn_warn(turn, turn->app->held == HELD_REFUSED
                            ? "Enter says again why, Backspace or Esc empties it."
                            : "Enter asks again, Backspace or Esc empties it.");
    return true;
}

/* The keys that answer a doubt about letters: those that its words name. */
static bool means_command(const struct app *app, uint32_t key)
{
    return app->doubt.kind == DOUBT_LETTERS &&
           (key == MENU_KEY || (key == ' ' && app->held != HELD_NO));
}

bool held_take_key(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    if (means_command(app, key)) {
        app_drop_entry(app);
        app_refresh_entry(app);
        return false;
    }
    if (app->held == HELD_NO || key == SILLET_KEY_ENTER)
        return false;
    if (app->held == HELD_ASKED)
        app->held = HELD_WAITS;
    if (!app->writing && is_of_number(key)) {
        refuse_number(turn);
        return true;
    }
    if (begins_anew(app, key)) {
        say_instead(app);
        lineedit_clear(&app->entry);
        app->held = HELD_NO;
        app_refresh_entry(app); /* not every such key is added to it */
        return false;
    }
    if (key == SILLET_KEY_BACKSPACE || key == SILLET_KEY_ESCAPE || key == SILLET_KEY_DELETE ||
        key == SILLET_KEY_CTRL('u')) {
        app_drop_entry(app);
        app_refresh_entry(app);
        return true;
    }
    /* These edit the entry, which counts as typing it again. */
    if (key == SILLET_KEY_LEFT || key == SILLET_KEY_RIGHT || key == SILLET_KEY_HOME ||
        key == SILLET_KEY_END)
        app->held = HELD_NO;
    return take_letter(turn, key);
}
