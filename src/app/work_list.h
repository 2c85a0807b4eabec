/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_WORK_LIST_H
#define SILLET_APP_WORK_LIST_H

#include "app/app.h"
#include "app/leaf_work.h"

/*
 * The moves as jobs: which are due, which were done since the readings that ask for them, and
 * what is left before the instrument goes back.
 */

enum work_state {
    WORK_UNKNOWN, /* a reading or target that it needs is absent */
    WORK_NOT_DUE, /* on target */
    WORK_DUE,
    WORK_WITHIN, /* due, but smaller than its own uncertainty */
    WORK_DONE,   /* a work line says so; the next pass has to prove it */
};

struct work_move {
    enum work_state state;
    int line;    /* in `moves`; -1 for none */
    int done_by; /* the work line that marks it done, 0 for none */
};

struct work_list {
    struct move_list moves;
    int pass; /* whose readings ask for them: the one in hand, or the one before it while
               * that has no reading */
    int strings;
    struct work_move move[MOVE_COUNT_];
    int left, done, unknown; /* how many; a reset that nobody asked for is not counted */
    int within;              /* due by the readings, but too small to be worth making */
};

void work_list_make(const struct app *app, struct work_list *ret_list);

/* What explains a move; of MOVE_COUNT_ the relief. */
enum figure_id work_figure(enum move_kind kind);

/* The move whose row the cell in hand stands in; MOVE_COUNT_ when it stands in none. */
enum move_kind work_move_in_hand(const struct app *app);

/* A move's line of words; NULL for none. */
const struct move_line *work_line_of(const struct work_list *list, enum move_kind kind);

/* What a move asks for, its amounts by string behind it. `plain`: in ASCII, for keeping. */
void work_add_amount(const struct work_list *list, enum move_kind kind, bool plain,
                     struct strbuf *out);

/* What proves a move: what the next pass read, or should read. ASCII. */
void work_add_proof(const struct app *app, const struct work_list *list, enum move_kind kind,
                    struct strbuf *out);

/* What is left to do before the instrument goes back. */
void work_add_left(const struct work_list *list, struct strbuf *out);

#endif
