/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_WORK_LINES_H
#define SILLET_SCREEN_WORK_LINES_H

#include "session/app.h"
#include "draw/pen.h"

/* The rows that the visit's work lines need, with the empty line for a new one, without heading: a
 * text that is longer than its column goes on below it. More than fit on any screen are not
 * counted. */
int work_lines_height(const struct pen *pen, const struct app *app);

/* Draws the heading and the lines in at most `rows` rows, scrolled so that the line in hand is
 * visible whole. Returns the rows used. */
int work_lines_draw(const struct pen *pen, const struct app *app, int row, int rows);

/* Appends a time as shown: without seconds, and without the date if that is the visit's,
 * else with the month and the day. */
void work_add_time(const struct app *app, const char *text, struct strbuf *out);

#endif
