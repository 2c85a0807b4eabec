/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_STRINGS_WORDS_H
#define SILLET_LEAF_STRINGS_STRINGS_WORDS_H

#include "session/app.h"

/* What the Strings leaf says beside its table, appended. */

/* What a string still needs for its pull to be known; nothing when it is. */
void strings_words_need(const struct derived *derived, int string, struct strbuf *out);

/* The string in hand: its unit mass and where that comes from, its core; or what it needs. */
void strings_words_string(const struct app *app, struct strbuf *out);

/* What the pull does to the neck, now and in the what-if; or why that is not known. */
void strings_words_neck(const struct app *app, struct strbuf *out);

/* "weighed", "label", "entered", "build". */
const char *strings_words_origin(enum mass_origin origin);

/* What to mind; "" for nothing. */
const char *strings_words_caution(const struct app *app);

#endif
