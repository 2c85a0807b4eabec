/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_APP_INSIDE_H
#define SILLET_SESSION_APP_INSIDE_H

#include "session/app.h"

/* What the session and the leaves do things by, from one event to the effects of it. */

/* Derives again what hangs on the entry alone, and on the record. */
void app_refresh_entry(struct app *app);
void app_refresh(struct app *app);

/* Lays the leaf's cells out anew, after what they hang on has changed. */
void app_lay(struct app *app);

/* Drops what is typed. */
void app_drop_entry(struct app *app);

/* Takes a pass in hand, at its first cell, the entry empty. */
void app_take_pass(struct app *app, int visit, int pass);

/* Takes the last pass that was read; where none was, the first of the last visit. */
void app_take_current(struct app *app);

/* Goes back from a pass or visit that was begun and has nothing in it: that is no change of the
 * record, but what undo means then. False, nothing done, where there is none. */
bool app_leave_begun(struct app *app);

/* What one event is handled with. */
struct turn {
    struct app *app;
    const struct app_clock *clock;
    struct app_effects effects;
    bool step_is_open;  /* all that is changed is one step */
    bool after_warning; /* the key before was refused, or its entry held */
};

void turn_warn(struct turn *turn, const char *message);

/* What a command does on the leaf in hand. */
const struct command_act *app_act(const struct app *app, enum command_id command);

/* Does what a command asks for; COMMAND_NONE, and what has no meaning on the leaf, is told. */
void turn_run(struct turn *turn, enum command_id command);

/* False, with a warning, where the profile may only be read. */
bool turn_may_change(struct turn *turn);

/* What is put from here on is one step of undo, made on the leaf in hand. */
void turn_open_step(struct turn *turn);

/* Puts a reading, or with text NULL takes it out, as a change of the step that is open. */
enum status turn_put(struct turn *turn, struct reading_key key, const char *text,
                     struct field_fault *ret_fault);

/* Puts a text that stood elsewhere in the record, whatever it is. */
enum status turn_move(struct turn *turn, struct reading_key key, const char *text);

/* Puts the time into a cell that has none, and the visit's date where that is not known. */
enum status turn_put_time(struct turn *turn, struct reading_key key);

/* The record changed: derives everything again, and has it saved. */
void turn_changed(struct turn *turn);

/* Takes another cell in hand, the entry dropped. */
void turn_go_to(struct turn *turn, int at);

/* Says what was refused and empties the entry, so that the next keys are not added to it. A text
 * that was written is left as it stands. */
void turn_refuse_entry(struct turn *turn, const char *why);

/* What is half typed is neither taken nor lost by going elsewhere; false, with a warning, then. */
bool turn_may_go(struct turn *turn);

#endif
