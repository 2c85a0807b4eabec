/* SPDX-License-Identifier: MIT */
#include "session/command.h"

#include <stddef.h>

#include "session/menu.h"
#include "base/utf8.h"

#define COMMAND(id, key_, other_key_, letter_, place_, where_, hint_, title_, words_, ...)         \
    [COMMAND_##id] = {.key = key_,                                                                 \
                      .other_key = other_key_,                                                     \
                      .letter = (letter_) & ~LETTER_IN_MENU,                                       \
                      .in_menu = ((letter_)&LETTER_IN_MENU) != 0,                                  \
                      .place = place_,                                                             \
                      .name = #id,                                                                 \
                      .where = where_,                                                             \
                      .hint = hint_,                                                               \
                      .title = title_,                                                             \
                      .words = words_},

static const struct command commands[COMMAND_COUNT_] = {
#include "session/command_table.h"
};

const struct command *command_get(enum command_id id)
{
    return &commands[id];
}

static bool has_key(const struct command *command, uint32_t key)
{
    return command->key == key || command->other_key == key ||
           (command->letter == key && !command->in_menu);
}

static bool has_letter(const struct command *command, uint32_t letter)
{
    return command->place && command->letter == letter;
}

bool command_is_on(enum command_id id, enum leaf leaf)
{
    const struct command *command = &commands[id];

    if (command->where != ANYWHERE)
        return command->where == (int)leaf;
    if (!command->key)
        return command_find_in_menu(command->letter, leaf) == id;
    return command_find(command->key, leaf) == id;
}

/* The leaf's own command goes before one of all leaves. */
static enum command_id find(uint32_t key, enum leaf leaf,
                            bool (*has)(const struct command *, uint32_t key))
{
    enum command_id found = COMMAND_NONE;

    if (key == SILLET_KEY_NONE)
        return found;
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        if (!has(&commands[id], key))
            continue;
        if (commands[id].where == (int)leaf)
            return (enum command_id)id;
        if (commands[id].where == ANYWHERE && found == COMMAND_NONE)
            found = (enum command_id)id;
    }
    return found;
}

enum command_id command_find(uint32_t key, enum leaf leaf)
{
    return find(key, leaf, has_key);
}

enum command_id command_find_in_menu(uint32_t letter, enum leaf leaf)
{
    return find(letter, leaf, has_letter);
}

struct key_name {
    uint32_t key;
    const char *name;
};

static const struct key_name key_names[] = {
    {SILLET_KEY_ENTER, "Enter"},
    {SILLET_KEY_BACKSPACE, "Backspace"},
    {SILLET_KEY_DELETE, "Del"},
    {SILLET_KEY_ESCAPE, "Esc"},
    {SILLET_KEY_TAB, "Tab"},
    {SILLET_KEY_BACKTAB, "Shift-Tab"},
    {SILLET_KEY_UP, "Up"},
    {SILLET_KEY_DOWN, "Down"},
    {SILLET_KEY_LEFT, "Left"},
    {SILLET_KEY_RIGHT, "Right"},
    {SILLET_KEY_HOME, "Home"},
    {SILLET_KEY_END, "End"},
    {' ', "Space"},
    {SILLET_KEY_PAGE_UP, "PgUp"},
    {SILLET_KEY_PAGE_DOWN, "PgDn"},
    {SILLET_KEY_INSERT, "Ins"},
};

void command_key_name(uint32_t key, struct strbuf *out)
{
    char bytes[4];

    for (size_t i = 0; i < sizeof key_names / sizeof key_names[0]; i++)
        if (key_names[i].key == key) {
            strbuf_add(out, key_names[i].name);
            return;
        }
    if (key >= SILLET_KEY_F1 && key <= SILLET_KEY_F12) {
        strbuf_addf(out, "F%d", 1 + (int)(key - SILLET_KEY_F1));
        return;
    }
    if (key < 0x20) {
        strbuf_addf(out, "Ctrl-%c", (int)(key + '@'));
        return;
    }
    strbuf_add_bytes(out, bytes, utf8_encode(key, bytes));
}

void command_keys_name(uint32_t key, uint32_t other_key, uint32_t letter, bool in_menu,
                       struct strbuf *out)
{
    const uint32_t keys[] = {key, other_key, letter};
    bool any = false;

    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (!keys[i])
            continue;
        strbuf_add(out, any ? " or " : "");
        strbuf_add(out, i == 2 && in_menu ? "* " : "");
        command_key_name(keys[i], out);
        any = true;
    }
}

void command_place_name(int place, struct strbuf *out)
{
    static const char *const pages[MENU_PAGES] = {"* ", "* 0 ", "* 0 0 ", "* . ", "* . . "};

    if (place)
        strbuf_addf(out, "%s%d", pages[place / 10], place % 10);
}
