/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_OPTION_H
#define SILLET_COMMANDS_OPTION_H

#include <stdbool.h>
#include <stdio.h>

/* The command line as option_table.h declares it. */

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

/* Who is told what stands on a line. Each returns false after a message that says what is wrong and
 * what is accepted. */
struct option_reader {
    bool (*take)(void *asked, enum option_id id, const char *value); /* NULL: no options */
    bool (*operand)(void *asked, const char *word);
    void *asked;
};

/*
 * Reads the words behind a command. Options and operands stand in any order; behind "--" all are
 * operands, and so is "-". False after a message on standard error when an option is not the
 * line's or lacks its value, or when the reader refuses.
 */
bool option_read(enum option_line line, int count, char *const *words,
                 const struct option_reader *reader);

/* The line whose command is called so; LINE_COUNT_ for none. */
enum option_line option_find_line(const char *name);

/* An operand that may be given once; false, after a message, for a second one. */
bool option_take_file(enum option_line line, const char *word, const char **ret_path);

/* One FILE is wanted, and that is it; false after a message where none was given. */
bool option_has_file(enum option_line line, const char *path);

/* The usage, every line with its options. */
void option_print_usage(FILE *out);

#endif
