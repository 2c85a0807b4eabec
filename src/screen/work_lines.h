/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_WORK_LINES_H
#define SILLET_SCREEN_WORK_LINES_H

#include "session/app.h"
#include "draw/pen.h"

/* Rows that a text in hand may take in full under its line. */
enum { WORK_FULL_ROWS = 3 };

/* Rows that the visit's work lines take, with the room for one's own, without heading. */
int work_lines_height(const struct app *app);

/*
 * The heading and the lines in at most `rows` rows, scrolled so that the cell in hand is
 * seen; a text that is cut short stands in full under its line while it is in hand. Returns
 * the rows used.
 */
int work_lines_draw(const struct pen *pen, const struct app *app, int row, int rows);

/* Appends a time as it is shown: without seconds; without the date where that is the visit's,
 * else with the month and the day. */
void work_add_time(const struct app *app, const char *text, struct strbuf *out);

#endif
