/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_PRICES_H
#define SILLET_MODEL_READING_PRICES_H

#include "base/maybe.h"
#include "base/strbuf.h"
#include "model/reading/work_mark.h"

/* What an estimate charges for: each move, by enum move_kind, and a new set of strings; then what
 * it is charged in. */
enum { PRICE_STRINGS = MOVE_COUNT_, PRICE_COUNT_, PRICE_CURRENCY = PRICE_COUNT_, PRICE_ROWS_ };

/* "rod", "strings", "currency": a row's key in the shop's settings. */
const char *price_name(int row);

/* What the shop asks; `currency` is "" if it does not say. */
struct prices {
    char currency[16];
    struct maybe row[PRICE_COUNT_];
};

/* Appends a price as it is typed: "25", "40.50". */
void price_add(double price, struct strbuf *out);

/* Appends an amount of money as it is said: "25.00 EUR"; without a currency the number alone. */
void price_add_money(double price, const char *currency, struct strbuf *out);

/* A price is at most that. */
#define PRICE_MOST 1e6

#endif
