/* SPDX-License-Identifier: MIT */
#include "session/paste.h"

#include <string.h>

#include "session/cell_words.h"
#include "session/filing.h"
#include "session/paste_split.h"
#include "session/refresh.h"
#include "session/typing.h"
#include "base/utf8.h"

/* --- one value, or a text --- */

/* Types the text into the entry; line ends become blanks and take nothing. */
static void type_text(struct turn *turn, const char *text)
{
    text += strspn(text, " \n");
    size_t left = strlen(text);

    while (left > 0 && (text[left - 1] == '\n' || text[left - 1] == ' '))
        left--;
    while (left > 0) {
        uint32_t rune;
        const size_t length = utf8_decode(text, left, &rune, NULL);

        if (rune == '\n' || rune == '\t')
            rune = ' ';
        if (!typing_choose(turn, rune) && !typing_add(turn, rune))
            break;
        text += length;
        left -= length;
    }
}

/* --- several --- */

/* "Pasted: 2 filed, ended at nut gap, string 4 by "x": ..." */
static void say_end(struct turn *turn, int filed, const char *value, const char *why)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);

    if (!why) {
        strbuf_addf(&text, "Pasted and filed: %d; u takes them back.", filed);
        app_say(app, TONE_NOTE, memory);
        return;
    }
    strbuf_addf(&text, "Pasted: %d filed, ended at ", filed);
    if (app_cell(app))
        cell_words_add_name(app, app_cell(app), &text);
    else
        strbuf_add(&text, "the last cell");
    strbuf_add(&text, " by \"");
    strbuf_add_bytes(&text, value, utf8_clip(value, 12));
    strbuf_add(&text, "\": ");
    strbuf_add(&text, why);
    app_drop_entry(app);
    app_refresh_entry(app);
    turn_warn(turn, memory);
}

/* Puts a value into the entry of the cell in hand. Returns why it cannot be filed, NULL if it
 * can. */
static const char *look_at(struct app *app, const char *value)
{
    const struct route_cell *cell = app_cell(app);

    if (!cell)
        return "there is no cell left.";
    if (field_get(cell->key.field)->kind == KIND_TEXT)
        return "this cell holds a text.";
    if (!lineedit_set(&app->entry, value))
        return "that is too long.";
    app_refresh_entry(app);
    if (!app->entry_view.good)
        return app->entry_view.words;
    return app->doubt.kind != DOUBT_NONE ? app->doubt_words : NULL;
}

static void fill_route(struct turn *turn, const char *text, const struct field *field)
{
    struct app *app = turn->app;
    struct paste_split split = {.text = text, .field = field};
    char value_memory[LINEEDIT_MAX + 1], why_memory[APP_MESSAGE_MAX];
    int filed = 0;

    for (;;) {
        struct strbuf value = STRBUF(value_memory), words = STRBUF(why_memory);

        if (!paste_next(&split, &value))
            break;
        const char *why = value.length > 0 ? look_at(app, value_memory) : NULL;
        if (why) {
            strbuf_add(&words, why);
            say_end(turn, filed, value_memory, why_memory);
            return;
        }
        if (value.length > 0 && !turn_take_entry(turn))
            return; /* out of memory; the warning is shown */
        turn->joins_step = true;
        filed += value.length > 0;
        turn_go_to(turn, route_step(&app->route, app->at, 1));
    }
    say_end(turn, filed, "", NULL);
}

static void take(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);

    if (app->paste_is_full) {
        turn_warn(turn, "That is more than can be pasted at once; nothing was taken.");
        return;
    }
    if (!cell || app->overlay != OVERLAY_NONE) {
        turn_warn(turn, "Nothing can be pasted here.");
        return;
    }
    const struct field *field = field_get(cell->key.field);
    const bool is_text = field->kind == KIND_TEXT || field->kind == KIND_FRETS || app_is_asked(app);
    if (!turn_may_change(turn))
        return;
    if (is_text || paste_count(app->paste, field) < 2)
        type_text(turn, app->paste);
    else if (!lineedit_is_empty(&app->entry))
        turn_warn(turn, "Enter takes what is typed, Esc drops it.");
    else
        fill_route(turn, app->paste, field);
}

/* --- its keys --- */

static void add(struct app *app, uint32_t key)
{
    char bytes[4] = {key == SILLET_KEY_TAB ? '\t' : '\n'};
    size_t length = 1;

    if (key < ' ' || (key > SILLET_KEY_ENTER && key != SILLET_KEY_TAB))
        return;
    if (key < SILLET_KEY_ENTER)
        length = utf8_encode(key, bytes);
    if (app->paste_length + length > PASTE_MAX) {
        app->paste_is_full = true;
        return;
    }
    memcpy(app->paste + app->paste_length, bytes, length);
    app->paste_length += length;
    app->paste[app->paste_length] = '\0';
}

void paste_end(struct turn *turn)
{
    if (!turn->app->pasting)
        return;
    turn->app->pasting = false;
    take(turn);
}

bool paste_take_key(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    if (key == SILLET_KEY_PASTE_BEGIN) {
        app->pasting = true;
        if (!app_is_asked(app) && pass_place_is_none(app->named))
            app->asked = NULL; /* a paste is no answer to yes or no */
        app->paste_is_full = false;
        app->paste_length = 0;
        app->paste[0] = '\0';
        return true;
    }
    if (key == SILLET_KEY_PASTE_END) {
        paste_end(turn);
        return true;
    }
    /* A paste never contains these: its end was lost, and the user wants out. */
    if (key == SILLET_KEY_ESCAPE || key == SILLET_KEY_CTRL('c'))
        app->pasting = false;
    if (app->pasting)
        add(app, key);
    return app->pasting;
}
