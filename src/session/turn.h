/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_TURN_H
#define SILLET_SESSION_TURN_H

#include "session/app.h"

/* What the commands of the session and its leaves use to handle one event. */

/* One event being handled. */
struct turn {
    struct app *app;
    const struct app_clock *clock;
    struct app_effects effects;
    bool joins_step;    /* further changes belong to the step of undo that is open */
    bool after_warning; /* the key before was refused, or its entry held */
};

void turn_warn(struct turn *turn, const char *message);

/* What a command does on the leaf in hand. */
const struct command_act *app_act(const struct app *app, enum command_id command);

/* Runs a command as the leaf in hand defines it; warns for COMMAND_NONE. */
void turn_run(struct turn *turn, enum command_id command);

/* False, with a warning, if the profile may only be read. */
bool turn_may_change(struct turn *turn);

/* Opens a step of undo, made on the leaf in hand: what is put from here on belongs to it. With
 * joins_step the step that is open stays open. */
void turn_open_step(struct turn *turn);

/* Puts a reading, or with text NULL takes it out, in the open step: one of the instrument as a
 * change or a correction (change.h). What could be redone is then forgotten, unless the reading is
 * refused. */
enum status turn_put(struct turn *turn, struct reading_key key, const char *text,
                     struct field_fault *ret_fault);

/* Puts a text that was elsewhere in the record, even one that would be refused if typed. */
enum status turn_put_as_is(struct turn *turn, struct reading_key key, const char *text);

/* Puts the time into a cell that has none, and the visit's date if that is missing. */
enum status turn_put_time(struct turn *turn, struct reading_key key);

/* Call it after the record changed: derives everything again and asks for a save. */
void turn_changed(struct turn *turn);

/* Takes another cell in hand, the entry dropped. */
void turn_go_to(struct turn *turn, int at);

/* Says what was refused and empties the entry, so that the next keys are not added to it. A text
 * stays in the entry. */
void turn_refuse_entry(struct turn *turn, const char *why);

/* False, with a warning, if something is half typed, which going elsewhere must neither take nor
 * lose. */
bool turn_may_go(struct turn *turn);

#endif
