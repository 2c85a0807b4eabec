/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_COMMAND_H
#define SILLET_APP_COMMAND_H

#include <stdbool.h>
#include <stdint.h>

#include "app/event.h"
#include "app/leaf.h"
#include "base/strbuf.h"

/* What can be asked for by a key. The rows stand in command_table.h. */

enum command_id {
#define COMMAND(id, ...) COMMAND_##id,
#include "app/command_table.h"
#undef COMMAND
    COMMAND_COUNT_,
    COMMAND_NONE = COMMAND_COUNT_
};

enum { ANYWHERE = -1 };

struct command {
    uint32_t key, other_key, letter;
    int place;        /* in the menu (menu.h); 0: not there */
    int where;        /* enum leaf, or ANYWHERE */
    const char *name; /* the id as written in the table, for documents */
    const char *hint, *title, *words;
};

const struct command *command_get(enum command_id id);

/* The command that a key asks for on a leaf: the leaf's own before one that holds anywhere;
 * COMMAND_NONE for no command. */
enum command_id command_find(uint32_t key, enum leaf leaf);

/* Whether a command has a meaning on a leaf, where its key may be the leaf's own. */
bool command_is_on(enum command_id id, enum leaf leaf);

/* Appends a key's name: "Enter", "PgUp", "Ctrl-L", "u". */
void command_key_name(uint32_t key, struct strbuf *out);

/* Appends the names of all keys given, 0 for none: "F9 or Ctrl-C or q". */
void command_keys_name(uint32_t key, uint32_t other_key, uint32_t letter, struct strbuf *out);

#endif
