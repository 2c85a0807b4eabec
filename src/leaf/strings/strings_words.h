/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_STRINGS_WORDS_H
#define SILLET_LEAF_STRINGS_STRINGS_WORDS_H

#include "session/app.h"

/* Words for the Strings leaf. The functions with `out` append to it. */

/* The string in hand: its unit mass and where that comes from, what it still needs, and its share
 * of the total in the what-if. */
void strings_words_string(const struct app *app, struct strbuf *out);

/* The gauge sold for the pull wanted of a string, what it pulls, and what those on either side of
 * it would: ".046 in 17.3 lb; .044 15.9, .048 18.9"; or why there is none. */
void strings_words_sold(const struct app *app, int string, struct strbuf *out);

/* The shop's unit of force, and a force in it. */
enum unit strings_words_force(const struct app *app);
void strings_words_add_force(const struct app *app, double pull_n, int decimals,
                             struct strbuf *out);

/* What the pull does to the neck, now and in the what-if; or why that is not known. */
void strings_words_neck(const struct app *app, struct strbuf *out);

/* "weighed", "label", "entered", "build". */
const char *strings_words_origin(enum mass_origin origin);

/* A caution; "" for none. */
const char *strings_words_caution(const struct app *app);

#endif
