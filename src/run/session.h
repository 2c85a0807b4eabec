/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SESSION_H
#define SILLET_RUN_SESSION_H

#include "commands/report.h"
#include "run/screen.h"

/*
 * `sillet FILE`: an instrument on the terminal, until the tech leaves or the terminal goes.
 * Every accepted reading is saved at once. EXIT_CANNOT when the file cannot be opened, the
 * terminal cannot be used, or the last save failed.
 */
enum exit_code session_command(const char *path);

/* How a session that came from the shelf ended. */
enum session_end {
    SESSION_LEFT,
    SESSION_NOT_OPENED,
    SESSION_LOST, /* the last save failed */
};

/*
 * The same on a terminal that is taken already, from the shelf, beginning on `leaf`: leaving it
 * leads back there. PROFILE_TO_READ for what is not to be changed.
 * What went wrong is added to `words`, for the terminal's owner to say; nothing is printed.
 */
enum session_end session_from_shelf(const char *path, enum profile_access access, enum leaf leaf,
                                    struct screen *screen, struct strbuf *words);

#endif
