/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DEMO_DEMO_WORK_H
#define SILLET_DEMO_DEMO_WORK_H

#include "demo/demo_book.h"

/* The tech's work, by what the program asks for; hands miss a little. */

/* Does what is due of rod, slots and saddle: the rod alone if it is due, because everything is read
 * again before anything is cut. Returns the last move made, MOVE_COUNT_ for none. The rod's turns
 * go to *ret_turns, + tightens; they belong to the next pass. A neck that should be reset is left
 * as it is. */
enum move_kind demo_work(struct demo_book *book, struct demo_neck *neck,
                         const struct derived *derived, double *ret_turns);

/* Logs turns in the pass in hand; none for 0. */
void demo_work_log_turns(struct demo_book *book, double turns);

#endif
