/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SESSION_H
#define SILLET_RUN_SESSION_H

#include "commands/report.h"
#include "run/screen.h"
#include "store/shelf/shelf_entry.h"

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

/* How a session from the shelf begins. */
struct session_wish {
    enum profile_access access; /* PROFILE_TO_READ: the file is not to be changed */
    enum leaf leaf;
    const char *said;                  /* a message to begin with; "" for none */
    const struct shelf_entries *shelf; /* the instruments beside it; NULL: none */
};

/*
 * The same from the shelf, on a terminal that is already taken; leaving it returns to the shelf.
 * What went wrong, or that the last save went to a conflict copy, is added to `words`, for the
 * caller to report; nothing is printed.
 */
enum session_end session_from_shelf(const char *path, const struct session_wish *wish,
                                    struct screen *screen, struct strbuf *words);

#endif
