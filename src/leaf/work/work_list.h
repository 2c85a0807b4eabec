/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_WORK_WORK_LIST_H
#define SILLET_LEAF_WORK_WORK_LIST_H

#include "session/app.h"
#include "leaf/work/leaf_work.h"

/* The moves as jobs: which pass asks for them, and what is left before the instrument goes back. */

struct work_list {
    const struct derived *derived; /* of the app */
    const struct move *moves;      /* of `derived`, by enum move_kind */
    int pass; /* whose readings ask for them: the one in hand, or the one before it while
               * that has no reading */
};

void work_list_make(const struct app *app, struct work_list *ret_list);

/* The move whose row the cell in hand stands in; MOVE_COUNT_ when it stands in none. */
enum move_kind work_move_in_hand(const struct app *app);

/* What a move asks for, its amounts by string behind it. `plain`: in ASCII, for keeping. */
void work_add_amount(const struct move_words *words, bool plain, struct strbuf *out);

/* What proves a move: what the next pass read, or should read. ASCII. */
void work_add_proof(const struct app *app, const struct work_list *list, enum move_kind kind,
                    struct strbuf *out);

/* What is left to do before the instrument goes back. */
void work_add_left(const struct work_list *list, struct strbuf *out);

#endif
