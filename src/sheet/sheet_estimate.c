/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_estimate.h"

#include "model/derive/charges.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

enum { TEXT_MAX = 320 };

static void say_price(const struct maybe *price, const char *currency, struct strbuf *out)
{
    if (price->given)
        price_add_money(price->value, currency, out);
    else
        strbuf_add(out, "............");
}

static void add_row(struct sheet_maker *maker, enum sheet_row row, const char *name,
                    const char *what, const char *price)
{
    sheet_begin_row(maker->sheet, row);
    sheet_add_cell(maker->sheet, name);
    sheet_add_cell(maker->sheet, what);
    sheet_add_cell(maker->sheet, price);
}

/* "a set as on it, .053 to .012 in (1.35 to 0.30 mm), unless that is fresh": nobody has measured
 * how worn it is. */
static void say_strings(const struct sheet_maker *maker, struct strbuf *out)
{
    char memory[80];
    struct strbuf gauges = STRBUF(memory);

    strbuf_add(out, "a set as on it");
    if (sheet_say_gauge_range(maker, &gauges))
        strbuf_addf(out, ", %s", memory);
    strbuf_add(out, ", unless that is fresh");
}

static void add_charge(struct sheet_maker *maker, const struct prices *prices, enum charge charge,
                       int row)
{
    char memory[3][TEXT_MAX];
    struct strbuf name = STRBUF(memory[0]), what = STRBUF(memory[1]), price = STRBUF(memory[2]);

    if (row == PRICE_STRINGS) {
        strbuf_add(&name, "New strings");
        say_strings(maker, &what);
    } else {
        sheet_say_sentence(&name, sheet_move_name(&maker->left.setup.outfit, (enum move_kind)row));
        if (charge == CHARGE_DUE)
            sheet_say_due(maker, (enum move_kind)row, &what);
        else
            strbuf_add(&what, "if it is still needed then");
    }
    say_price(&prices->row[row], prices->currency, &price);
    add_row(maker, SHEET_ROW_PLAIN, memory[0], memory[1], memory[2]);
}

static void add_charges(struct sheet_maker *maker, const struct prices *prices,
                        const struct charges *charges, enum charge wanted)
{
    for (int row = 0; row < PRICE_COUNT_; row++)
        if (charges->row[row] == wanted)
            add_charge(maker, prices, wanted, row);
}

static void add_sum(struct sheet_maker *maker, const struct prices *prices, const char *name,
                    const struct maybe *sum)
{
    char memory[TEXT_MAX];
    struct strbuf price = STRBUF(memory);

    say_price(sum, prices->currency, &price);
    add_row(maker, SHEET_ROW_LAST, name, NULL, memory);
}

static void add_work(struct sheet_maker *maker, const struct prices *prices)
{
    struct charges charges;

    charges_find(&maker->left.moves, prices, &charges);
    sheet_add_heading(maker->sheet, "What we would do");
    if (move_set_settles(&maker->left.moves)) {
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       "The season has moved the neck. It settles in normal air first and is "
                       "measured again; nothing is cut before that.");
        return;
    }
    if (charges.due == 0)
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       maker->last > 0 ? "By what was measured, nothing asks for work."
                                       : "Nothing was measured yet.");
    sheet_begin_table(maker->sheet, "llr");
    add_charges(maker, prices, &charges, CHARGE_DUE);
    if (charges.due > 0)
        add_sum(maker, prices, "Together", &charges.together);
    add_charges(maker, prices, &charges, CHARGE_LATER);
    if (charges.due > 0)
        add_sum(maker, prices, "At most", &charges.at_most);
}

static void add_reserve(struct sheet_maker *maker)
{
    sheet_add_text(maker->sheet, SHEET_SMALL,
                   "An estimate from what was measured as the instrument came in. After each step "
                   "it is measured again, and what is not needed is not done. What comes to light "
                   "on the way is asked about first.");
}

/* It stays what it was, whatever is done and measured later in the visit. */
static void go_back_to_found(struct sheet_maker *maker)
{
    derive_pass_among(place_of(maker->record, maker->visit, maker->first), NULL, DERIVE_ASKED,
                      &maker->found);
    maker->left = maker->found;
    maker->last = maker->first;
}

enum status sheet_estimate_make(const struct record *record, const struct sheet_ask *ask,
                                const struct prices *prices, struct sheet *ret_sheet)
{
    struct sheet_maker *maker;
    struct sheet sheet;

    sheet_init(&sheet);
    const enum status status = sheet_maker_new(record, ask, &sheet, &maker);
    if (status != STATUS_OK)
        return status;
    go_back_to_found(maker);
    sheet_make_head(maker, "Estimate");
    sheet_make_readings(maker);
    add_work(maker, prices);
    add_reserve(maker);
    sheet_make_claim(maker);
    return sheet_maker_end(maker, ret_sheet);
}
