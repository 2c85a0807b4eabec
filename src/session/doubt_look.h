/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_DOUBT_LOOK_H
#define SILLET_SESSION_DOUBT_LOOK_H

#include "session/app.h"

/* Looks at the entry as it stands: sets app->doubt, and in app->doubt_words why it would be held
 * (held.h). Both are empty before. */
void doubt_look(struct app *app);

#endif
