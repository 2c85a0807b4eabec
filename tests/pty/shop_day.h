/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SHOP_DAY_H
#define SILLET_TESTS_SHOP_DAY_H

#include "bench_screen.h"

/*
 * Steps of a scripted day in the shop: the program on a shelf of its own; finding leaves
 * and cells by what the screen says; passes from the number pad. The bench's profile is
 * the one on that shelf that is named to day_begin.
 */

enum { DAY_STRINGS = 6, DAY_READINGS = 2 + 2 * DAY_STRINGS + 2 };

/* Readings in the order of the bench's route, NULL where Enter leaves a cell as it is. */
struct day_pass {
    const char *relief, *rod_turned;                    /* a first pass has no cell for the rod */
    const char *gap[DAY_STRINGS], *action[DAY_STRINGS]; /* from the bass side */
    const char *exposure[2];
};

/* `sillet --shelf FOLDER` at 80x24, at its list; `file` is what the instrument's profile will
 * be called there. The folder, which need not be there. */
struct terminal *day_begin(struct bench *bench, const char *file);
const char *day_shelf(const struct bench *bench);

/* Turns the leaves one by one until the named one is on top. */
void day_turn_to(struct terminal *terminal, const char *leaf);

/* A key some times, until the prompt of a cell; until it is there, however often. */
void day_steps(struct terminal *terminal, enum terminal_key key, int count, const char *prompt);
void day_find_cell(struct terminal *terminal, enum terminal_key key, const char *prompt);

/* The cell of that prompt: a text; a number, by the pad. */
void day_write(struct terminal *terminal, const char *prompt, const char *text);
void day_read(struct terminal *terminal, const char *prompt, const char *number);

/* A whole pass by the pad, relief read at fret 7, to the end of the route. */
void day_enter_pass(struct terminal *terminal, const struct day_pass *pass);

/* Marks the move that is next on the Work leaf done, where `left` then says what is left. */
void day_mark_done(struct terminal *terminal, const char *move, const char *left);

/* Back to the shelf, where it is marked as unfinished or is not, and to its bench again. */
void day_leave_and_return(struct terminal *terminal, const char *name, bool open);

/* Waits for a second of the clock to end: what is kept with the time has an order then. */
void day_wait_second(struct terminal *terminal);

/* What the figures of the profile as it is on disk now say; to be freed with free(). */
char *day_figures(const struct bench *bench);

/* A number in brackets, "(8.3)", at a place of a row as of bench_word; NaN for none. */
double day_bracket(struct terminal *terminal, const char *label, int place);

/* The part of the first row with that text that begins there; fails without. */
const char *day_behind_at(struct terminal *terminal, const char *text, const char *file, int line);
#define day_behind(terminal, text) day_behind_at(terminal, text, __FILE__, __LINE__)

#endif
