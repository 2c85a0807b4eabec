/* SPDX-License-Identifier: MIT */
#ifndef SILLET_UI_PROMPT_VIEW_H
#define SILLET_UI_PROMPT_VIEW_H

#include "app/app.h"
#include "ui/pen.h"

/* The last three rows: a message or what to mind ("" for nothing), the entry line, the keys. */
void prompt_view_draw(const struct pen *pen, const struct app *app, const char *caution);

#endif
