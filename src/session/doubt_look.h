/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_DOUBT_LOOK_H
#define SILLET_SESSION_DOUBT_LOOK_H

#include "session/app.h"

/* Sets app->doubt for the entry as it is, and app->doubt_words to why it would be held (held.h).
 * Both must be empty before. */
void doubt_look(struct app *app);

#endif
