/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SESSION_H
#define SILLET_RUN_SESSION_H

#include "commands/report.h"
#include "run/screen.h"

/*
 * `sillet FILE`: an instrument on the terminal, until the user quits or the terminal is gone.
 * Every accepted reading is saved at once. EXIT_CANNOT when the file cannot be opened, the
 * terminal cannot be used, or the last save failed. A last save that went to a conflict copy is
 * told on standard error and is no failure.
 */
enum exit_code session_command(const char *path);

/* How a session that came from the shelf ended. */
enum session_end {
    SESSION_LEFT,
    SESSION_NOT_OPENED,
    SESSION_LOST, /* the last save failed */
};

/*
 * The same from the shelf, on a terminal that is already taken, beginning on `leaf`; leaving it
 * returns to the shelf. PROFILE_TO_READ for a file that is not to be changed.
 * What went wrong, or that the last save went to a conflict copy, is added to `words`, for the
 * caller to report; nothing is printed.
 */
enum session_end session_from_shelf(const char *path, enum profile_access access, enum leaf leaf,
                                    struct screen *screen, struct strbuf *words);

#endif
