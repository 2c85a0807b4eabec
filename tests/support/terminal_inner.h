/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_TERMINAL_INNER_H
#define SILLET_TESTS_TERMINAL_INNER_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>
#include <termios.h>

#include <vterm.h>

#include "terminal.h"

/* Shared by terminal.c (the program and the line) and terminal_screen.c (the screen). */

enum { TERMINAL_ROW_BYTES = 8192, TERMINAL_SENT_BYTES = 1 << 16 };

struct terminal {
    int master;
    int slave; /* kept open, so that the output of a dead program can still be read */
    pid_t pid;
    bool ended, stuck;
    int status;
    VTerm *vterm;
    VTermScreen *screen;
    int rows, columns;
    bool cursor_visible, alternate;
    int repeating; /* progress through a repeat sequence, ESC [ digits b: 0, 1, 2 */
    char part[4];  /* the beginning of a character */
    size_t part_length;
    size_t bytes, room;
    char *output; /* the bytes received */
    size_t sent_bytes;
    char sent[TERMINAL_SENT_BYTES]; /* the first of the bytes typed */
    struct termios found;
    char home[256];
    bool own_home;
    char term[64];
    char row[TERMINAL_ROW_BYTES];
};

/* Opens an empty screen of the terminal's size; vterm_free(terminal->vterm) closes it. */
void terminal_screen_open(struct terminal *terminal);

/* Draws the program's output on the screen. */
void terminal_screen_write(struct terminal *terminal, const char *bytes, size_t length);

#endif
