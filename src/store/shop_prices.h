/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHOP_PRICES_H
#define SILLET_STORE_SHOP_PRICES_H

#include "model/reading/move_prices.h"
#include "store/ini_read.h"
#include "store/problem.h"

/*
 * What the shop asks for each move, in its settings, for estimates:
 *
 *     [prices]
 *     currency = EUR
 *     rod = 25
 *     slots = 40.50
 *
 * A move's key is what a work line calls it (move_table.h). A price is a decimal, up to a million.
 *
 * What is not understood is left out, and a missing file has none. Fails as shop_file_load;
 * *ret_prices is empty then.
 */
enum status shop_prices_read(const char *path, struct move_prices *ret_prices);

/* Adds what is wrong with a key's line; false if it is not one of the prices. */
bool shop_prices_check(const struct ini_text *text, const struct ini_line *line,
                       struct problems *problems);

#endif
