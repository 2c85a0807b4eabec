/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DEMO_DEMO_VISIT_H
#define SILLET_DEMO_DEMO_VISIT_H

#include "demo/demo_book.h"

/* One visit to the made-up shop: its tech does what the program asks for. */

struct demo_errand {
    int day;
    const char *reason;
    double humidity_pct, temperature_c;
    const char *set; /* other strings for it, by name; "" for the same set again */
    bool restring;
    int passes; /* no more than these */
};

/* Reads it as found, restrings it if it is to be, then does each move that is due by the amount
 * asked for, writes that down, and reads again, until nothing is due or the passes are used up. The
 * instrument comes in with its wood in the air of the shop. */
void demo_visit(struct demo_book *book, struct demo_neck *neck, const struct demo_errand *errand);

#endif
