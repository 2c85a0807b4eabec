/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SCENES_H
#define SILLET_TESTS_SCENES_H

#include "session/app.h"
#include "draw/frame.h"

/* Sessions for screens: the demo profiles, and records that strain a layout. */

/* A session on a profile, of which nothing is written back. */
void scene_profile(struct app *app, const char *path, bool metric);

/* The full record with that many strings: notes E4 down to E1, a reading in every cell. */
void scene_strings(struct app *app, int strings);

/* Whether words stand in one row of a screen. */
bool scene_shows(const struct frame *frame, const char *words);

/* Records with names, notes and readings as no shop would type them. */
extern const char *const scene_odd[];
extern const int scene_odd_count;

#endif
