/* SPDX-License-Identifier: MIT */
#include "screen/prompt_view.h"

#include <string.h>

#include "session/again.h"
#include "session/cell_words.h"
#include "session/change.h"
#include "session/pass_end.h"
#include "session/turn.h"
#include "base/utf8.h"
#include "screen/choice_view.h"
#include "screen/line_view.h"
#include "screen/strip_view.h"

/* The prompt of the entry line. */
static void add_prompt(const struct app *app, struct strbuf *out)
{
    const struct route_cell *cell = app_cell(app);

    if (app_is_asked(app) && app->asked->add_prompt) {
        app->asked->add_prompt(app, out);
    } else if (app_is_asked(app)) {
        const struct name_list list = app_names(app);

        strbuf_addf(out, "what if: which %s >", name_list_label(&list));
    } else if (app_row(app)->add_prompt) {
        app_row(app)->add_prompt(app, out);
    } else if (cell) {
        cell_words_add_name(app, cell, out);
        change_add_words(app, &cell->key, out);
        strbuf_add(out, " >");
    } else if (app->route.ends_pass) {
        pass_end_add_words(app, out);
    } else if (app->now.setup.outfit.lap) {
        strbuf_add(out, "nothing to enter here: it is played with a bar");
    } else {
        strbuf_add(out, "nothing to enter here yet; PgUp turns back to Intake, which comes first");
    }
}

/* --- choices --- */

static bool has_choices(const struct field *field)
{
    return field->choices[0] || field->kind == KIND_YESNO;
}

/* Adds choices with their numbers from the k-th on, as many as fit whole; returns the first that
 * does not fit. */
static int add_choices(const struct field *field, int k, int width, struct strbuf *out)
{
    char choice[32], memory[48];
    int used = 0;

    for (; field_choice(field, k, choice, sizeof choice); k++) {
        struct strbuf each = STRBUF(memory);

        strbuf_addf(&each, "%s%d %s", used ? "  " : "", k + 1, choice);
        if (used + utf8_columns(memory) > width)
            break;
        used += utf8_columns(memory);
        strbuf_add(out, memory);
    }
    return k;
}

/* The choices while nothing is typed: after the prompt if they fit there; else they begin in the
 * message row, if that is free, and go on after the prompt. True if they used the message row. */
static bool draw_choices(const struct pen *pen, const struct app *app, int row, int column)
{
    const struct field *field = field_get(app_cell(app)->key.field);
    const int columns = pen->frame->columns, width = columns - column - 1;
    char memory[512], choice[32];
    struct strbuf text = STRBUF(memory);
    bool over = false;
    int k = add_choices(field, 0, width, &text);

    if (field_choice(field, k, choice, sizeof choice) && app->tone == TONE_NONE) {
        over = true;
        strbuf_clear(&text);
        k = add_choices(field, 0, columns - 2, &text);
        pen_put(pen, row - 1, 1, columns - 2, ROLE_DIM, memory);
        strbuf_clear(&text);
        (void)add_choices(field, k, width, &text);
    }
    if (utf8_columns(memory) + 8 <= width)
        strbuf_add(&text, "  + next");
    pen_put(pen, row, column, width, ROLE_DIM, memory);
    return over;
}

/* --- the entry line --- */

/* The old value, which stays in the cell while a new one is typed. */
static void add_now(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    const char *text = record_text(&app->record, &cell->key);

    if (app_is_emptied(app)) {
        strbuf_add(out, "Enter takes the text out");
    } else if (text) {
        strbuf_add(out, "now ");
        strbuf_add(out, text);
    }
}

/* The hint while nothing is typed. */
static void add_hint(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    if (app_is_asked(app) && app->asked->add_hint)
        app->asked->add_hint(app, out);
    else if (app_is_asked(app))
        strbuf_add(out, "its number or its name; + and - step");
    else if (app_row(app)->add_hint)
        app_row(app)->add_hint(app, out);
    else if (app->writing && record_get(&app->record, &cell->key))
        add_now(app, cell, out);
    else if (again_in_hand(app))
        again_add_words(app, again_in_hand(app), out);
    else
        cell_words_add_what(app, cell, out);
}

/* What is measured, where the entry line offers the last value, and the key for its row. */
static void add_again(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    cell_words_add_what(app, cell, out);
    if (command_is_on(COMMAND_ROW_AGAIN, app->leaf) && app_act(app, COMMAND_ROW_AGAIN)->can(app))
        strbuf_add(out, "; s: this row is as it was");
}

/* Something worth knowing about a cell, if nothing more pressing needs the row. */
static void add_aside(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    const struct field *field = field_get(cell->key.field);

    if (app_row(app)->add_hint || app_is_asked(app))
        return;
    if (again_in_hand(app)) {
        add_again(app, cell, out);
        return;
    }
    cell_words_add_now(app, cell, out);
    if (field->kind == KIND_NOTE && !app_is_typing(app))
        strbuf_add(out, "+ a semitone up, - down; or type its name");
    if (field->kind == KIND_TEXT && record_get(&app->record, &cell->key) && !app_is_typing(app))
        strbuf_add(out, "typing begins anew, Ins edits it");
}

static enum role entry_role(const struct app *app)
{
    if (!app->entry_view.good)
        return ROLE_CAUTION;
    return app->doubt.kind != DOUBT_NONE ? ROLE_ASSUMED : ROLE_PREVIEW;
}

/* After the entry: how it was read or what is wrong with it; with no entry, what the cell holds.
 * Returns the columns used, or -1 if it does not fit. */
static int draw_reading_of_entry(const struct pen *pen, const struct app *app, int row, int column,
                                 const char *caution)
{
    const int width = pen->frame->columns - column - 1;
    char memory[400], aside_memory[200];
    struct strbuf hint = STRBUF(memory), aside = STRBUF(aside_memory);

    if (app->entry_view.empty) {
        add_hint(app, app_cell(app), &hint);
        /* If a caution has the message row, this can go here on a wider screen. */
        if (caution[0])
            add_aside(app, app_cell(app), &aside);
        if (aside.length > 0 && utf8_columns(memory) + 3 + utf8_columns(aside_memory) <= width)
            strbuf_addf(&hint, "   %s", aside_memory);
        return pen_put(pen, row, column, width, ROLE_DIM, memory);
    }
    if (utf8_columns(app->entry_view.words) > width)
        return -1;
    return pen_put(pen, row, column, width, entry_role(app), app->entry_view.words);
}

/* The message row holds, in this order of priority: a message, why Enter will ask, how the entry
 * was read if the entry line has no room for that, choices, a caution. */
static void draw_message(const struct pen *pen, const struct app *app, int row, bool read,
                         const char *caution)
{
    const int width = pen->frame->columns - 2;
    char memory[200];
    struct strbuf text = STRBUF(memory);

    if (app->tone != TONE_NONE) {
        pen_put_cut(pen, row, 1, width, app->tone == TONE_NOTE ? ROLE_TEXT : ROLE_CAUTION,
                    app->message);
    } else if (app->doubt.kind != DOUBT_NONE) {
        const int used = pen_put(pen, row, 1, width, ROLE_CAUTION, "Enter asks: ");

        pen_put_cut(pen, row, 1 + used, width - used, ROLE_CAUTION, app->doubt_words);
    } else if (!read) {
        pen_put_cut(pen, row, 1, width, entry_role(app), app->entry_view.words);
    } else if (caution[0]) {
        const int used = pen_put(pen, row, 1, width, ROLE_CAUTION, "mind: ");

        pen_put_cut(pen, row, 1 + used, width - used, ROLE_CAUTION, caution);
    } else if (app_cell(app)) {
        add_aside(app, app_cell(app), &text);
        pen_put_cut(pen, row, 1, width, ROLE_DIM, memory);
    }
}

/* The entry line of a cell, and the message row above it. */
static void draw_entry(const struct pen *pen, const struct app *app, int row, int column,
                       const char *caution)
{
    const int room = pen->frame->columns - column - 1;
    int cursor;

    column += 2 + line_view_draw(pen, row, column, room, &app->entry, &cursor);
    if (app_is_typing(app)) {
        pen->frame->cursor_row = row;
        pen->frame->cursor_column = cursor;
    }
    const int used = draw_reading_of_entry(pen, app, row, column, caution);
    choice_view_draw(pen, app, row - 1);
    if (app_is_typing(app) || !has_choices(field_get(app_cell(app)->key.field)) ||
        !draw_choices(pen, app, row, used > 0 ? column + used + 4 : column))
        draw_message(pen, app, row - 1, used >= 0, caution);
}

static void draw_prompt(const struct pen *pen, const struct app *app, int row, const char *caution)
{
    const int columns = pen->frame->columns;
    char memory[128];
    struct strbuf prompt = STRBUF(memory);

    add_prompt(app, &prompt);
    const int used = pen_put(pen, row, 1, columns - 2, ROLE_LABEL, memory);
    if (app_cell(app)) {
        draw_entry(pen, app, row, used + 2, caution);
        return;
    }
    draw_message(pen, app, row - 1, true, caution);
    /* A leaf without cells may have put the cursor on what is looked at. */
    if (pen->frame->cursor_row < 0) {
        pen->frame->cursor_row = row;
        pen->frame->cursor_column = 1;
    }
}

/* --- the keys --- */

struct key_hint {
    uint32_t key;
    const char *hint; /* "" if the next key has the hint for both */
};

/* Returns the column after them. */
static int draw_hints(const struct pen *pen, const struct key_hint *keys, size_t count, int row)
{
    int column = 1;

    for (size_t i = 0; i < count; i++)
        column +=
            strip_view_key(pen, row, column, keys[i].key, keys[i].hint) - (keys[i].hint[0] ? 0 : 2);
    return column;
}

/* While something is typed: the keys for that, and for the list above it. */
static void draw_typing_keys(const struct pen *pen, const struct app *app, int row)
{
    static const struct key_hint typing[] = {
        {SILLET_KEY_ENTER, "takes it"},  {SILLET_KEY_BACKSPACE, ""},
        {SILLET_KEY_DELETE, "erase"},    {SILLET_KEY_CTRL('u'), "empties"},
        {SILLET_KEY_ESCAPE, "drops it"},
    };
    static const struct key_hint listed[] = {
        {SILLET_KEY_ENTER, "takes it"},  {SILLET_KEY_BACKSPACE, ""},
        {SILLET_KEY_DELETE, "erase"},    {SILLET_KEY_UP, ""},
        {SILLET_KEY_DOWN, ""},           {SILLET_KEY_PAGE_DOWN, "another"},
        {SILLET_KEY_ESCAPE, "drops it"},
    };
    const struct key_hint held[] = {
        {SILLET_KEY_ENTER, app->held == HELD_ASKED     ? "files it all the same"
                           : app->held == HELD_REFUSED ? "says again why"
                                                       : "asks again"},
        {SILLET_KEY_BACKSPACE, ""},
        {SILLET_KEY_DELETE, "empty it"},
        {SILLET_KEY_LEFT, "mends it"},
    };

    if (app->held == HELD_NO && app->choice.found.count > 0) {
        (void)draw_hints(pen, listed, sizeof listed / sizeof listed[0], row);
        return;
    }
    if (app->held == HELD_NO) {
        (void)draw_hints(pen, typing, sizeof typing / sizeof typing[0], row);
        return;
    }
    (void)draw_hints(pen, held, sizeof held / sizeof held[0], row);
}

/* The key to show for a command in the cell in hand: a plain key that every keyboard has, else its
 * letter if the cell does not take letters. */
static uint32_t working_key(const struct app *app, const struct command *command)
{
    const bool everywhere = command->key && command->key < SILLET_KEY_F1;
    const bool is_letter = command->letter >= 'A';

    return everywhere || !command->letter || command->in_menu ||
                   (is_letter && app_takes_letters(app))
               ? command->key
               : command->letter;
}

/* The two answers to a question. */
static void draw_answers(const struct pen *pen, const struct asked *asked, int row)
{
    const struct key_hint answers[] = {{SILLET_KEY_ENTER, asked->enter},
                                       {SILLET_KEY_ESCAPE, asked->escape}};

    (void)draw_hints(pen, answers, sizeof answers / sizeof answers[0], row);
}

static void draw_keys(const struct pen *pen, const struct app *app, int row)
{
    const bool again = again_in_hand(app);
    int column = 1;

    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);
        const uint32_t key = working_key(app, command);
        const bool enters = id == COMMAND_ACCEPT;
        const bool answers = key == SILLET_KEY_ENTER && app->asked && app->asked->enter;
        const char *hint = answers           ? app->asked->enter
                           : enters && again ? "as last"
                                             : command->hint;

        if (command->hint[0] && key && command_is_on((enum command_id)id, app->leaf))
            column += strip_view_key(pen, row, column, key, hint);
        if (enters && again)
            column += strip_view_key(pen, row, column, SILLET_KEY_RIGHT, "past it");
    }
}

void prompt_view_draw(const struct pen *pen, const struct app *app, const char *caution)
{
    const int rows = pen->frame->rows;

    draw_prompt(pen, app, rows - 2, caution);
    if (app->asked && app->asked->escape)
        draw_answers(pen, app->asked, rows - 1);
    else if (app_is_typing(app))
        draw_typing_keys(pen, app, rows - 1);
    else
        draw_keys(pen, app, rows - 1);
}
