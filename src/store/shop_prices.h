/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHOP_PRICES_H
#define SILLET_STORE_SHOP_PRICES_H

#include "model/reading/prices.h"
#include "store/ini_read.h"
#include "store/problem.h"

/*
 * What the shop asks for the rows of an estimate, in its settings:
 *
 *     [prices]
 *     currency = EUR
 *     rod = 25
 *     slots = 40.50
 *     strings = 18
 *
 * with the names of prices.h. A price is a decimal, up to a million.
 *
 * What is not understood is left out, and a missing file has none. Fails as shop_file_load;
 * *ret_prices is empty then.
 */
enum status shop_prices_read(const char *path, struct prices *ret_prices);

/* Writes one row of them, or takes it out where it is absent; every other line stays. Fails as
 * shop_file_change. */
enum status shop_prices_write(const char *path, const struct prices *prices, int row);

/* Adds what is wrong with a key's line; false if it is not one of the prices. */
bool shop_prices_check(const struct ini_text *text, const struct ini_line *line,
                       struct problems *problems);

#endif
