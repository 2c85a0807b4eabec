/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SOUND_H
#define SILLET_TESTS_SOUND_H

#include "session/app.h"
#include "shelf/shelf_list.h"
#include "model/record.h"
#include "draw/frame.h"

/*
 * What holds of a session, a shelf, a record and a screen at any moment, whatever was done
 * before. Each gives NULL, or in words the first thing that is wrong. For tests and for
 * fuzzing alike.
 */

/* Sorted, no key twice, every key spelled and parsed back, every value what its text says. */
const char *sound_record(const struct record *record);

/* A state that a person can go on from. */
const char *sound_app(const struct app *app);

/* The figures on show are those of the record, or of the record with the entry taken. */
const char *sound_figures(struct app *app);

/* Back to the first change and again up to where it was: the same record. */
const char *sound_undo(struct app *app);

const char *sound_shelf(const struct shelf_list *list);

/* No character that steers a terminal, both halves of every wide one, the cursor inside. */
const char *sound_frame(const struct frame *frame, bool utf8);

#endif
