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
    const struct ini_line *line = shop_file_find(&file, section, currency);
    strbuf_add(&unit, line ? line->value : "");
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        double price;

        line = shop_file_find(&file, section, work_mark_name((enum move_kind)kind));
        if (line && read_price(line->value, &price))
            ret_prices->move[kind] = maybe_given(price);
    }
    shop_file_done(&file);
    return STATUS_OK;
}

bool shop_prices_check(const struct ini_text *text, const struct ini_line *line,
                       struct problems *problems)
{
    double unused;

    if (strcmp(ini_line_section(text, line), section) != 0)
        return false;
    if (strcmp(line->name, currency) == 0)
        return true;
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (strcmp(line->name, work_mark_name((enum move_kind)kind)) == 0) {
            if (!read_price(line->value, &unused))
                problem_add(problems, ini_line_number(text, line), PROBLEM_ERROR,
                            "%s \"%s\" is not understood; a price is a number as 25 or 25.50",
                            line->name, shown_string(line->value).text);
            return true;
        }
    return false;
}
