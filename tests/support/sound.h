/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SOUND_H
#define SILLET_TESTS_SOUND_H

#include "session/app.h"
#include "shelf/shelf_list.h"
#include "model/reading/record.h"
#include "draw/frame.h"

/*
 * Invariants of a session, a shelf, a record and a screen, which hold at any moment.
 * Each returns NULL, or describes the first thing that is wrong. For tests and
 * fuzzing.
 */

/* Sorted, no key twice, every key survives spelling and parsing, every value matches its text. */
const char *sound_record(const struct record *record);

/* The session is in a state that a user can continue from. */
const char *sound_app(const struct app *app);

/* The figures shown are those of the record, or of the record with the entry taken. */
const char *sound_figures(struct app *app);

/* Undoing everything and redoing it gives the same record. */
const char *sound_undo(struct app *app);

const char *sound_shelf(const struct shelf_list *list);

/* No character that a terminal acts on, both halves of every wide one, the cursor inside. */
const char *sound_frame(const struct frame *frame, bool utf8);

#endif
