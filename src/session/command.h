/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_COMMAND_H
#define SILLET_SESSION_COMMAND_H

#include <stdbool.h>
#include <stdint.h>

#include "session/event.h"
#include "session/leaf.h"
#include "base/strbuf.h"

/* The commands that keys give. The rows are in command_table.h. */

enum command_id {
#define COMMAND(id, ...) COMMAND_##id,
#include "session/command_table.h"
#undef COMMAND
    COMMAND_COUNT_,
    COMMAND_NONE = COMMAND_COUNT_
};

enum { ANYWHERE = -1 };

/* Marks a letter of the table that works in the menu only. */
enum { LETTER_IN_MENU = 1 << 24 };
#define IN_MENU(letter) ((letter) | LETTER_IN_MENU)

struct command {
    uint32_t key, other_key, letter;
    bool in_menu;     /* `letter` works in the menu only */
    int place;        /* in the menu (menu.h); 0: not in it */
    int where;        /* enum leaf, or ANYWHERE */
    const char *name; /* the id as written in the table, for documents */
    const char *hint, *title, *words;
};

const struct command *command_get(enum command_id id);

/* What a command does: `plain`, or `by` with `step`. The menu lists it while `can` is true (NULL:
 * always), and add_what appends what it would be done to (NULL: nothing). */
struct command_act {
    void (*plain)(struct turn *turn);
    void (*by)(struct turn *turn, int step);
    int step; /* for `by` */
    bool (*can)(const struct app *app);
    void (*add_what)(const struct app *app, struct strbuf *out);
};

/* What a command does on one leaf instead (leaf.h). */
struct command_instead {
    enum command_id id;
    struct command_act act;
};

/* Initializers for both. */
#define DO(function)        .plain = function
#define BY(function, step_) .by = function, .step = step_

/* The command that a key gives on a leaf: the leaf's own, else one of all leaves; COMMAND_NONE for
 * none. */
enum command_id command_find(uint32_t key, enum leaf leaf);

/* The same for a letter in the menu. */
enum command_id command_find_in_menu(uint32_t letter, enum leaf leaf);

/* Whether a command works on a leaf: not one of another leaf, nor one whose key the leaf needs for
 * itself. */
bool command_is_on(enum command_id id, enum leaf leaf);

/* Appends a key's name: "Enter", "PgUp", "Ctrl-L", "u". */
void command_key_name(uint32_t key, struct strbuf *out);

/* Appends the names of the keys given (0: no key), "F9 or Ctrl-C or q"; with in_menu, the letter
 * works in the menu only: "Del or * x". */
void command_keys_name(uint32_t key, uint32_t other_key, uint32_t letter, bool in_menu,
                       struct strbuf *out);

/* Appends the keys that give a command through the menu: "* 4", "* 0 2", "* . 4"; nothing for place
 * 0. */
void command_place_name(int place, struct strbuf *out);

#endif
