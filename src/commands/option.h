/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_OPTION_H
#define SILLET_COMMANDS_OPTION_H

#include <stdbool.h>
#include <stdio.h>

/* Reads the command line that option_table.h declares. */

enum option_line {
#define LINE(id, ...) LINE_##id,
#define OPTION(...)
#include "commands/option_table.h"
#undef LINE
#undef OPTION
    LINE_COUNT_
};

enum option_id {
#define LINE(...)
#define OPTION(line, id, ...) OPTION_##id,
#include "commands/option_table.h"
#undef LINE
#undef OPTION
    OPTION_COUNT_
};

/* Callbacks for the options and operands of a line. Each returns false after a message that says
 * what is wrong and what is accepted. */
struct option_reader {
    bool (*take)(void *asked, enum option_id id, const char *value); /* NULL: no options */
    bool (*operand)(void *asked, const char *word);
    void *asked;
};

/*
 * Reads the words after a command. Options and operands may come in any order; after "--" all are
 * operands, and so is "-". False, after a message on standard error, if an option does not belong
 * to the line or lacks its value, or if the reader refuses.
 */
bool option_read(enum option_line line, int count, char *const *words,
                 const struct option_reader *reader);

/* A reader's answer to an option of its line that it has no case for: false, after a message. */
bool option_not_taken(enum option_id id);

/* The line whose command has that name; LINE_COUNT_ if there is none. */
enum option_line option_find_line(const char *name);

/* The name of its command, "" for none. */
const char *option_line_name(enum option_line line);

/* Prints the usage, every line with its options. */
void option_print_usage(FILE *out);

#endif
