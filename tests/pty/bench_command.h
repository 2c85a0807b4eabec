/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BENCH_COMMAND_H
#define SILLET_TESTS_BENCH_COMMAND_H

#include <stdbool.h>
#include <stddef.h>

#include "bench_screen.h"

/* Runs the program to its end without a terminal. */
struct command {
    bool signalled; /* killed, also for taking more than twenty seconds */
    int code;       /* exit status, or the signal */
    char *out, *err;
    size_t out_length, err_length;
    double seconds;       /* of the processor */
    long long peak_bytes; /* of memory, most at one time */
};

/* `sillet` with words behind it, at most seven, NULL at their end; command_done frees it. */
void command_run_words(const struct bench *bench, const char *const *words,
                       struct command *ret_command);

/* `sillet WORD PATH`, without WORD when it is NULL; command_done frees it. */
void command_run(const struct bench *bench, const char *word, const char *path,
                 struct command *ret_command);
void command_done(struct command *command);

/* True when the bytes hold nothing that a terminal would act on: no control character
 * (C0 but newline, DEL, C1) and no character that turns the direction of text. */
bool command_is_harmless(const char *bytes, size_t length);

#endif
