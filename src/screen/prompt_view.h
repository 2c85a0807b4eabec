/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_PROMPT_VIEW_H
#define SILLET_SCREEN_PROMPT_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The last three rows: a message or `caution` ("" for none), the entry line, the keys. */
void prompt_view_draw(const struct pen *pen, const struct app *app, const char *caution);

#endif
