/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_COMMAND_H
#define SILLET_SESSION_COMMAND_H

#include <stdbool.h>
#include <stdint.h>

#include "session/event.h"
#include "session/leaf.h"
#include "base/strbuf.h"

/* What can be asked for by a key. The rows stand in command_table.h. */

enum command_id {
#define COMMAND(id, ...) COMMAND_##id,
#include "session/command_table.h"
#undef COMMAND
    COMMAND_COUNT_,
    COMMAND_NONE = COMMAND_COUNT_
};

enum { ANYWHERE = -1 };

/* A letter of the table that is for the menu alone. */
enum { LETTER_IN_MENU = 1 << 24 };
#define IN_MENU(letter) ((letter) | LETTER_IN_MENU)

struct command {
    uint32_t key, other_key, letter;
    bool in_menu;     /* `letter` is for the menu alone */
    int place;        /* in the menu (menu.h); 0: not there */
    int where;        /* enum leaf, or ANYWHERE */
    const char *name; /* the id as written in the table, for documents */
    const char *hint, *title, *words;
};

const struct command *command_get(enum command_id id);

/* What a command does: one of the two functions, and what the menu asks before it lists it. */
struct command_act {
    void (*plain)(struct turn *turn);
    void (*by)(struct turn *turn, int step);
    int step; /* for `by` */
    bool (*can)(const struct app *app);
    void (*add_what)(const struct app *app, struct strbuf *out);
};

/* The same for one leaf (leaf.h). */
struct command_instead {
    enum command_id id;
    struct command_act act;
};

/* For both tables. */
#define DO(function)        .plain = function
#define BY(function, step_) .by = function, .step = step_

/* The command that a key asks for on a leaf: the leaf's own before one that holds anywhere;
 * COMMAND_NONE for no command. */
enum command_id command_find(uint32_t key, enum leaf leaf);

/* The same for a letter in the menu. */
enum command_id command_find_in_menu(uint32_t letter, enum leaf leaf);

/* Whether a command has a meaning on a leaf, where its key may be the leaf's own. */
bool command_is_on(enum command_id id, enum leaf leaf);

/* Appends a key's name: "Enter", "PgUp", "Ctrl-L", "u". */
void command_key_name(uint32_t key, struct strbuf *out);

/* Appends the names of all keys given, 0 for none: "F9 or Ctrl-C or q", and for a letter that is
 * for the menu alone "Del or * x". */
void command_keys_name(uint32_t key, uint32_t other_key, uint32_t letter, bool in_menu,
                       struct strbuf *out);

/* Appends the keys that give it from the menu: "* 4", "* 0 2", "* . 4"; nothing for place 0. */
void command_place_name(int place, struct strbuf *out);

#endif
