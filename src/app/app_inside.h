/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_APP_INSIDE_H
#define SILLET_APP_APP_INSIDE_H

#include "app/app.h"

/* Inside app only: what app.c keeps up to date, app_actions.c does and app_handle.c calls for. */

/* Derives again what hangs on the entry alone, and on the record. */
void app_refresh_entry(struct app *app);
void app_refresh(struct app *app);

/* Lays the leaf's cells out anew, after what they hang on has changed. */
void app_lay(struct app *app);

/* The same for another leaf: a pass that was begun and has nothing in it is left where nothing of
 * it can be entered. */
void app_lay_leaf(struct app *app);

/* Drops what is typed. */
void app_drop_entry(struct app *app);

/* Takes a pass in hand, at its first cell, the entry empty. */
void app_take_pass(struct app *app, int visit, int pass);

/* Goes back from a pass or visit that was begun and has nothing in it: that is no change of the
 * record, but what undo means then. False, nothing done, where there is none. */
bool app_leave_begun(struct app *app);

/* True when the pass in hand has no reading of its own yet. */
bool app_pass_is_empty(const struct app *app);

/* The neighbouring pass (by -1 or 1) that has readings, over the visits' bounds; false for none. */
bool app_pass_beside(const struct app *app, int by, int *ret_visit, int *ret_pass);

/* What one event is handled with. */
struct turn {
    struct app *app;
    const struct app_clock *clock;
    struct app_effects effects;
    bool step_is_open;  /* all that is changed is one step */
    bool after_warning; /* the key before was refused, or its entry held */
};

void turn_warn(struct turn *turn, const char *message);

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

/* Takes the entry into the cell in hand; false, with a warning, when it cannot be. */
bool turn_take_entry(struct turn *turn);

/* The commands of the same names. */
void turn_clear_cell(struct turn *turn);
void turn_begin_pass(struct turn *turn);
void turn_begin_visit(struct turn *turn);
void turn_look_at(struct turn *turn, int by);
void turn_toggle_method(struct turn *turn);
void turn_toggle_units(struct turn *turn);
void turn_leaf(struct turn *turn, int by);
void turn_note(struct turn *turn, int by);

/* Makes the menu of what can be done now, and opens it. */
void turn_open_menu(struct turn *turn);

/* Takes the last step back, or makes the next one again, and says what changed. */
void turn_undo(struct turn *turn, bool back);

#endif
