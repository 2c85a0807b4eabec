/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_SHOW_H
#define SILLET_TERM_SHOW_H

#include <stdbool.h>

#include "draw/frame.h"

/* Frames to the terminal: roles become attributes and colours. Curses must be running. */

/* Chooses how roles look. Returns the number of colours in use: 0 (mono), 8 or 256. */
int show_open(bool utf8, bool colour_wanted);

/* Shows the frame, clipped to the terminal's size. */
void show_frame(const struct frame *frame);

/* The next show_frame paints every cell. */
void show_repaint(void);

/* Before curses gives the screen back. */
void show_leave(void);

#endif
