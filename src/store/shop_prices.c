/* SPDX-License-Identifier: MIT */
#include "store/shop_prices.h"

#include <string.h>

#include "base/num.h"
#include "store/shop_file.h"

static const char section[] = "prices", currency[] = "currency";

static bool read_price(const char *text, double *ret_price)
{
    const double most = 1e6;

    return num_decimal(text, strlen(text), ret_price) == STATUS_OK && *ret_price <= most;
}

enum status shop_prices_read(const char *path, struct move_prices *ret_prices)
{
    struct strbuf unit = STRBUF(ret_prices->currency);
    struct shop_file file;

    *ret_prices = (struct move_prices){.currency = ""};
    const enum status status = shop_file_load(path, NULL, &file);
    if (status != STATUS_OK)
        return status;
    const struct ini_entry *entry = shop_file_find(&file, section, currency);
    strbuf_add(&unit, entry ? entry->value : "");
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        double price;

        entry = shop_file_find(&file, section, work_mark_name((enum move_kind)kind));
        if (entry && read_price(entry->value, &price))
            ret_prices->move[kind] = maybe_given(price);
    }
    shop_file_done(&file);
    return STATUS_OK;
}

bool shop_prices_check(const struct ini_entry *entry, struct problems *problems)
{
    double unused;

    if (strcmp(entry->section, section) != 0)
        return false;
    if (strcmp(entry->name, currency) == 0)
        return true;
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (strcmp(entry->name, work_mark_name((enum move_kind)kind)) == 0) {
            if (!read_price(entry->value, &unused))
                problem_add(problems, entry->line + 1, PROBLEM_ERROR,
                            "%s \"%s\" is not understood; a price is a number as 25 or 25.50",
                            entry->name, shown_string(entry->value).text);
            return true;
        }
    return false;
}
