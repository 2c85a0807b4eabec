/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_FILE_WORDS_H
#define SILLET_COMMANDS_FILE_WORDS_H

#include <stdbool.h>

#include "commands/report.h"
#include "commands/option.h"

/* The files that a command is called with: it does its work on each, one after another. */
struct file_words {
    const char **paths; /* owned; the paths themselves are not */
    int count;
};

/* Room for `most` files; false, after a message, if memory is out. */
bool file_words_init(struct file_words *files, int most);
void file_words_done(struct file_words *files);

void file_words_add(struct file_words *files, const char *path);

/* Checks that one was given; false after a message. */
bool file_words_any(const struct file_words *files, enum option_line line);

/* The name to write for a file, of those that -o asks for. A % in it stands for the name of the
 * file without folder and ending if there are several files; else it is what was given, NULL for
 * none. NULL, after a message, if it is too long. */
enum { OUTPUT_NAME_MAX = 4096 };
const char *file_words_output(const struct file_words *files, int i, const char *output,
                              char memory[OUTPUT_NAME_MAX]);

/* Checks before anything is written that no file would be written twice, and none of those read;
 * false after a message. */
bool file_words_spare(const struct file_words *files, const char *output);

/* The work on one file: how it went. */
typedef enum exit_code file_work(void *given, int i);

/* Does the work on all of them, whatever becomes of each. The worst of the codes. */
enum exit_code file_words_each(const struct file_words *files, file_work *work, void *given);

#endif
