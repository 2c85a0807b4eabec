/* SPDX-License-Identifier: MIT */
#include "model/reading/prices.h"

#include <math.h>

#include "base/num.h"

const char *price_name(int row)
{
    return row == PRICE_CURRENCY  ? "currency"
           : row == PRICE_STRINGS ? "strings"
                                  : work_mark_name((enum move_kind)row);
}

void price_add(double price, struct strbuf *out)
{
    num_format_fixed(price, price == floor(price) ? 0 : 2, false, out);
}

void price_add_money(double price, const char *currency, struct strbuf *out)
{
    num_format_fixed(price, 2, false, out);
    strbuf_addf(out, "%s%s", currency[0] ? " " : "", currency);
}
