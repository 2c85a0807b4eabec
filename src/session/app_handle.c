/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "session/app.h"
#include "session/turn.h"
#include "words/explain.h"
#include "session/filing.h"
#include "session/held.h"
#include "session/paste.h"
#include "session/typing.h"

static void handle_key(struct turn *turn, uint32_t key);

/* The command of the leaf that a place in the menu is for; COMMAND_NONE for none. */
static enum command_id find_placed(const struct app *app, int place)
{
    for (int id = 0; id < COMMAND_COUNT_; id++)
        if (command_get((enum command_id)id)->place == place &&
            command_is_on((enum command_id)id, app->leaf))
            return (enum command_id)id;
    return COMMAND_NONE;
}

/* Says why the menu does not list what a digit is for. What cannot be done refuses itself with a
 * reason, or does nothing. */
static void refuse_digit(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;
    const enum command_id command = find_placed(app, 10 * menu_page(&app->menu) + (int)(key - '0'));
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (command == COMMAND_NONE) {
        turn_warn(turn, "That digit does nothing here; * shows what can be done.");
        return;
    }
    if (app_is_typing(app)) {
        (void)turn_may_go(turn);
        return;
    }
    turn_run(turn, command);
    if (app->tone != TONE_NONE)
        return;
    strbuf_addf(&words, "There is nothing to do that with now: %s.", command_get(command)->title);
    turn_warn(turn, memory);
}

static void handle_menu(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;
    int id = COMMAND_NONE;
    const enum menu_answer answer = menu_handle(&app->menu, key, &id);

    if (answer == MENU_STAYS)
        return;
    app->overlay = OVERLAY_NONE;
    if (answer == MENU_TAKES)
        turn_run(turn, (enum command_id)id);
    else if (answer == MENU_LACKS)
        refuse_digit(turn, key);
    else if (answer == MENU_PASSES)
        handle_key(turn, key);
}

/* A letter that begins a text closes the explanation and counts: "?why" loses no key. */
static bool begins_text(const struct app *app, uint32_t key)
{
    return app->overlay == OVERLAY_WHY && app_takes_letters(app) &&
           lineedit_is_empty(&app->entry) && key > ' ' && key < SILLET_KEY_ENTER && key != '?';
}

static bool turns_leaf(uint32_t key)
{
    return key >= SILLET_KEY_F1 && key < SILLET_KEY_F1 + LEAF_COUNT_;
}

/* Up, Down and the pages scroll a text on the screen, Left and Right go on to other figures; any
 * other key closes it, and one that turns to a leaf does so too. */
static void handle_overlay(struct turn *turn, uint32_t key)
{
    enum { PAGE_LINES = 15 }; /* a few less than the smallest screen shows */
    struct app *app = turn->app;

    switch (key) {
    case SILLET_KEY_UP:
    case SILLET_KEY_PAGE_UP:
        app->overlay_top -= key == SILLET_KEY_UP ? 1 : PAGE_LINES;
        if (app->overlay_top < 0)
            app->overlay_top = 0;
        return;
    case SILLET_KEY_DOWN:
    case SILLET_KEY_PAGE_DOWN:
        app->overlay_top += key == SILLET_KEY_DOWN ? 1 : PAGE_LINES;
        return;
    case SILLET_KEY_LEFT:
    case SILLET_KEY_RIGHT:
        if (app->overlay == OVERLAY_WHY) {
            app->why_reading = false;
            app->overlay_top = 0;
            app->why = explain_next(
                app_shown(app), app->why == FIGURE_COUNT_ ? app_row(app)->leaf_figure : app->why,
                app_string(app), key == SILLET_KEY_LEFT ? -1 : 1);
        }
        return;
    default: {
        const bool counts = begins_text(app, key) || turns_leaf(key);

        app->overlay = OVERLAY_NONE;
        if (counts)
            handle_key(turn, key);
    }
    }
}

/* Letters that are pressed in a row on purpose: a step, the step back and undo, or what-ifs. They
 * are not taken for a word. Neither is q, which loses nothing. */
static bool are_steps(uint32_t one, uint32_t other)
{
    static const char *const steps[] = {"jkur", "jktTsGw", "pu", "vu", "su"};

    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if (strchr(steps[i], (int)one) && strchr(steps[i], (int)other))
            return true;
    return one == other || other == 'q';
}

static bool is_letter(uint32_t key)
{
    return (key >= 'a' && key <= 'z') || (key >= 'A' && key <= 'Z');
}

/* Letters in a row are a word that was meant for the cell (none, max), so they are not run as
 * commands. The message says what the first one did. */
static bool refuse_word(struct turn *turn, uint32_t key, uint32_t before, bool is_word)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    app->letter.key = is_letter(key) ? key : 0;
    app->letter.is_word = app->letter.key && before && (is_word || !are_steps(before, key));
    if (!app->letter.is_word)
        return false;
    strbuf_add(&words, "Letters are commands here; * shows them.");
    const enum command_id done = is_word ? COMMAND_NONE : command_find(before, app->leaf);
    if (done != COMMAND_NONE)
        strbuf_addf(&words, " %c was: %s.", (int)before, command_get(done)->title);
    turn_warn(turn, memory);
    return true;
}

static bool take_typed(struct turn *turn, uint32_t key)
{
    return held_take_key(turn, key) || typing_choose(turn, key) || typing_edit(turn, key) ||
           typing_add(turn, key);
}

/* Del is the pad's Backspace: one too many must not take out what is filed. */
static bool refuse_deleting(struct turn *turn, uint32_t key, bool deleting)
{
    turn->app->deleting = key == SILLET_KEY_DELETE && deleting;
    if (turn->app->deleting && turn_can_clear(turn->app))
        app_say(turn->app, TONE_NOTE,
                "Nothing is typed any more. * 2 takes out what is filed here.");
    return turn->app->deleting;
}

static void handle_key(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;
    const uint32_t letter = app->letter.key;
    const bool is_word = app->letter.is_word, deleting = app->deleting;

    app->letter.key = 0;
    app->deleting = false;
    app->tone = TONE_NONE;
    turn->after_warning = app->warned;
    app->warned = false;
    if (paste_take_key(turn, key))
        return;
    if (app->overlay == OVERLAY_MENU) {
        handle_menu(turn, key);
        return;
    }
    if (app->overlay != OVERLAY_NONE) {
        handle_overlay(turn, key);
        return;
    }
    if (app->asked && app->asked->take_key(turn, key))
        return;
    if (take_typed(turn, key)) {
        app->deleting = key == SILLET_KEY_DELETE;
        app->quit_asked = false;
        return;
    }
    if (refuse_deleting(turn, key, deleting) || refuse_word(turn, key, letter, is_word))
        return;
    const enum command_id command = command_find(key, app->leaf);

    if (command != COMMAND_QUIT)
        app->quit_asked = false;
    turn_run(turn, command);
}

struct app_effects app_handle(struct app *app, const struct event *event,
                              const struct app_clock *clock)
{
    struct turn turn = {.app = app, .clock = clock};
    struct strbuf today = STRBUF(app->today);

    strbuf_add(&today, clock->date);

    switch (event->type) {
    case EVENT_KEY:
        handle_key(&turn, event->key);
        break;
    case EVENT_HANGUP:
        turn.effects.quit = true;
        break;
    case EVENT_RESUME:
        turn.effects.repaint = true;
        break;
    case EVENT_NONE:
        paste_end(&turn);
        app->letter.key = 0; /* a second went by: the next letter begins anew, and so does Del */
        app->deleting = false;
        break;
    case EVENT_RESIZE:
        break;
    }
    return turn.effects;
}
