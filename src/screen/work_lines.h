/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_WORK_LINES_H
#define SILLET_SCREEN_WORK_LINES_H

#include "session/app.h"
#include "draw/pen.h"

/* The most rows that the text in hand may take in full under its line. */
enum { WORK_FULL_ROWS = 3 };

/* The rows that the visit's work lines need, with the empty line for a new one, without heading. */
int work_lines_height(const struct app *app);

/*
 * Draws the heading and the lines in at most `rows` rows, scrolled so that the cell in hand is
 * visible; a text that is cut is shown in full under its line while it is in hand. Returns
 * the rows used.
 */
int work_lines_draw(const struct pen *pen, const struct app *app, int row, int rows);

/* Appends a time as shown: without seconds, and without the date if that is the visit's,
 * else with the month and the day. */
void work_add_time(const struct app *app, const char *text, struct strbuf *out);

#endif
