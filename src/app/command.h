/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_COMMAND_H
#define SILLET_APP_COMMAND_H

#include <stdbool.h>
#include <stdint.h>

#include "app/event.h"
#include "base/strbuf.h"

/* What can be asked for by a key. The rows stand in command_table.h. */

enum command_id {
#define COMMAND(id, ...) COMMAND_##id,
#include "app/command_table.h"
#undef COMMAND
    COMMAND_COUNT_,
    COMMAND_NONE = COMMAND_COUNT_
};

struct command {
    uint32_t key, other_key;
    const char *name; /* the id as written in the table, for documents */
    const char *hint, *words;
};

const struct command *command_get(enum command_id id);

/* The command that a key asks for; COMMAND_NONE for no command. */
enum command_id command_find(uint32_t key);

/* Appends a key's name: "Enter", "PgUp", "Ctrl-L", "u". */
void command_key_name(uint32_t key, struct strbuf *out);

#endif
