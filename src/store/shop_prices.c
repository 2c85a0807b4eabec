/* SPDX-License-Identifier: MIT */
#include "store/shop_prices.h"

#include <string.h>

#include "base/num.h"
#include "store/shop_file.h"

static const char section[] = "prices";

static bool read_price(const char *text, double *ret_price)
{
    return num_decimal(text, strlen(text), ret_price) == STATUS_OK && *ret_price <= PRICE_MOST;
}

enum status shop_prices_read(const char *path, struct prices *ret_prices)
{
    struct strbuf unit = STRBUF(ret_prices->currency);
    struct shop_file file;

    *ret_prices = (struct prices){.currency = ""};
    const enum status status = shop_file_load(path, NULL, &file);
    if (status != STATUS_OK)
        return status;
    const struct ini_line *line = shop_file_find(&file, section, price_name(PRICE_CURRENCY));
    strbuf_add(&unit, line ? line->value : "");
    for (int row = 0; row < PRICE_COUNT_; row++) {
        double price;

        line = shop_file_find(&file, section, price_name(row));
        if (line && read_price(line->value, &price))
            ret_prices->row[row] = maybe_given(price);
    }
    shop_file_done(&file);
    return STATUS_OK;
}

static int row_of(const char *key)
{
    int row = 0;

    while (row < PRICE_ROWS_ && strcmp(key, price_name(row)) != 0)
        row++;
    return row;
}

bool shop_prices_check(const struct ini_text *text, const struct ini_line *line,
                       struct problems *problems)
{
    const int row = row_of(line->name);
    double unused;

    if (strcmp(ini_line_section(text, line), section) != 0 || row == PRICE_ROWS_)
        return false;
    if (row != PRICE_CURRENCY && !read_price(line->value, &unused))
        problem_add(problems, ini_line_number(text, line), PROBLEM_ERROR,
                    "%s \"%s\" is not understood; a price is a number as 25 or 25.50", line->name,
                    shown_string(line->value).text);
    return true;
}

/* --- writing --- */

struct wanted {
    const char *key, *text;
};

static enum status set_row(struct shop_edits *edits, const void *data)
{
    const struct wanted *wanted = data;
    const struct ini_text *text = &shop_edits_file(edits)->text;

    if (wanted->text[0]) {
        shop_edits_set(edits, section, wanted->key, wanted->text);
        return STATUS_OK;
    }
    for (size_t i = 0; i < text->line_count; i++) {
        const char *of = ini_line_section(text, &text->lines[i]);

        if (of && strcmp(of, section) == 0 && strcmp(text->lines[i].name, wanted->key) == 0)
            shop_edits_drop(edits, i);
    }
    return STATUS_OK;
}

enum status shop_prices_write(const char *path, const struct prices *prices, int row)
{
    char memory[40];
    struct strbuf text = STRBUF(memory);

    if (row == PRICE_CURRENCY)
        strbuf_add(&text, prices->currency);
    else if (prices->row[row].given)
        price_add(prices->row[row].value, &text);
    const struct wanted wanted = {.key = price_name(row), .text = memory};
    return shop_file_change(path, set_row, &wanted);
}
