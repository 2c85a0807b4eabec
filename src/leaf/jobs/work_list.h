/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_JOBS_WORK_LIST_H
#define SILLET_LEAF_JOBS_WORK_LIST_H

#include "session/app.h"
#include "leaf/jobs/leaf_work.h"

/* The moves as jobs: which pass they follow from, and what is left before the instrument goes
 * back. */

struct work_list {
    const struct derived *derived; /* the app's */
    const struct move *moves;      /* those of `derived`, by enum move_kind */
    int pass; /* the pass whose readings they follow from: the one in hand, or the one before it
               * while that has no reading */
};

void work_list_make(const struct app *app, struct work_list *ret_list);

/* The move whose row the cell in hand is in; MOVE_COUNT_ if it is in none. */
enum move_kind work_move_in_hand(const struct app *app);

/* Appends a move's amount, and its amounts by string. `plain`: in ASCII, for keeping. */
void work_add_amount(const struct move_words *words, bool plain, struct strbuf *out);

/* Appends what will show that a move was done: what the next pass should read. ASCII. */
void work_add_proof(const struct app *app, const struct work_list *list, enum move_kind kind,
                    struct strbuf *out);

/* Whether a later pass of the visit was read since: its moves are marked there, not by the readings
 * in hand. */
bool work_is_past(const struct app *app);

/* Appends what is left to do before the instrument goes back. */
void work_add_left(const struct work_list *list, struct strbuf *out);

#endif
