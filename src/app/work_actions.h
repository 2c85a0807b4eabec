/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_WORK_ACTIONS_H
#define SILLET_APP_WORK_ACTIONS_H

#include "app/app_inside.h"

/* What the work leaf's keys do. */

/* Takes the next move that is left in hand, where one is and the leaf is shown. */
void work_take_next(struct app *app);

/* The move in hand where it can be marked done as it stands; MOVE_COUNT_ for none. */
enum move_kind work_move_to_mark(const struct app *app);

/* The line in hand, or the one that marks the move in hand done; it may not be there. */
int work_line_in_hand(const struct app *app);

/* Marks the move in hand done as planned. */
void turn_work_done(struct turn *turn);

/* Begins a line of one's own. */
void turn_work_own(struct turn *turn);

/* Takes the line in hand out, or the one that marks the move in hand done. */
void turn_work_out(struct turn *turn);

/* A work line before and after one of its cells is taken from an entry: a new line gets its
 * time, and one that stands for a move its name and what should prove it. In the step that
 * is open. */
struct work_begun {
    bool fresh;
    enum move_kind kind; /* MOVE_COUNT_: a line of one's own */
    char proof[200];
};
void work_begin_line(const struct app *app, int line, struct work_begun *ret_begun);
enum status work_complete_line(struct turn *turn, int line, const struct work_begun *begun);

/* What is typed as what was done of the rod, where it is a number of turns: how that reads. False
 * for any other entry. */
bool work_reads_as_turns(const struct app *app, struct entry_view *ret_view);

/* Logs such an entry as the turns of the rod, once its line is complete. */
enum status work_log_turns(struct turn *turn, const char *typed);

#endif
