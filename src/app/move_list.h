/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_MOVE_LIST_H
#define SILLET_APP_MOVE_LIST_H

#include "model/derive.h"
#include "model/work_mark.h"

/*
 * The moves in words: what to do next, in the trade's order, by how much, what the gauge
 * should read afterwards, and what to mind. Made anew from the derived figures each time.
 */

enum move_state {
    MOVE_DUE,
    MOVE_WITHIN,  /* due, but smaller than its own uncertainty */
    MOVE_NOT_DUE, /* on target */
    MOVE_UNKNOWN, /* a reading or target that it needs is absent */
};

struct move_line {
    enum move_kind kind;
    enum move_state state;
    char title[16];
    char amount[96]; /* what to do, by how much, with its uncertainty; or what is missing */
    char then[96];   /* what the gauge reads afterwards */
    char caution[128];
    bool by_string;                  /* amounts stand in `string` as well */
    char string[STRINGS_MAX + 1][8]; /* by string number, "" for none */
};

struct move_list {
    struct move_line lines[MOVE_COUNT_];
    int count;
};

void move_list_make(const struct derived *derived, const struct shop_units *units,
                    struct move_list *ret_list);

#endif
