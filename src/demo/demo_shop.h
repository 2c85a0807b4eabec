/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DEMO_DEMO_SHOP_H
#define SILLET_DEMO_DEMO_SHOP_H

#include "demo/demo_book.h"

/*
 * A made-up shop: what is on file of each of its instruments after three years. Nobody and nothing
 * in it is real. The same wish makes the same shop.
 */

struct demo_wish {
    uint64_t seed;
    int last_day; /* the three years end there (day.h) */
    bool metric;  /* gauges in mm, else in inches */
    demo_tell *tell;
    void *teller; /* told what is true of every reading; tell may be NULL */
};

/* The starting point that an instrument, from 0, is built as; NULL past the last. */
const char *demo_shop_preset(int index);
const char *demo_shop_name(int index);

/* Makes the record of an instrument from that of its starting point, which is left as it is.
 * STATUS_NO_MEMORY; any other failure would be a fault of the shop's table. *ret_record is
 * initialised on success only. */
enum status demo_shop_make(int index, const struct demo_wish *wish, const struct record *start,
                           struct record *ret_record);

#endif
