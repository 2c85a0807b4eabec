/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_estimate.h"

#include "base/num.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

enum { TEXT_MAX = 320 };

static bool is_due(const struct move *move)
{
    return move->state == MOVE_DUE;
}

/* What has to be read again first. Frets and intonation wait as a matter of course. */
static bool may_follow(const struct move *move)
{
    return move->state == MOVE_WAITS && !move_is_left(move);
}

static void say_price(const struct maybe *price, const char *currency, struct strbuf *out)
{
    if (price->given) {
        num_format_fixed(price->value, 2, false, out);
        strbuf_addf(out, "%s%s", currency[0] ? " " : "", currency);
    } else {
        strbuf_add(out, "............");
    }
}

static void add_row(struct sheet_maker *maker, enum sheet_row row, const char *name,
                    const char *what, const char *price)
{
    sheet_begin_row(maker->sheet, row);
    sheet_add_cell(maker->sheet, name);
    sheet_add_cell(maker->sheet, what);
    sheet_add_cell(maker->sheet, price);
}

/* Adds the moves of one kind; returns their sum, absent if a price of them is. */
static struct maybe add_moves(struct sheet_maker *maker, const struct move_prices *prices,
                              bool (*wanted)(const struct move *), bool words)
{
    struct maybe sum = maybe_given(0);

    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        char memory[3][TEXT_MAX];
        struct strbuf name = STRBUF(memory[0]), what = STRBUF(memory[1]), price = STRBUF(memory[2]);

        if (!wanted(&maker->left.moves.move[kind]))
            continue;
        sheet_say_sentence(&name, sheet_move_name(&maker->left.setup.outfit, (enum move_kind)kind));
        if (words)
            sheet_say_due(maker, (enum move_kind)kind, &what);
        else
            strbuf_add(&what, "if it is still needed then");
        say_price(&prices->move[kind], prices->currency, &price);
        add_row(maker, SHEET_ROW_PLAIN, memory[0], memory[1], memory[2]);
        if (!prices->move[kind].given)
            sum = maybe_absent();
        else if (sum.given)
            sum.value += prices->move[kind].value;
    }
    return sum;
}

static void add_sum(struct sheet_maker *maker, const struct move_prices *prices, const char *name,
                    const struct maybe *sum)
{
    char memory[TEXT_MAX];
    struct strbuf price = STRBUF(memory);

    say_price(sum, prices->currency, &price);
    add_row(maker, SHEET_ROW_LAST, name, NULL, memory);
}

static void add_work(struct sheet_maker *maker, const struct move_prices *prices)
{
    const int due = move_set_count(&maker->left.moves, is_due);
    const int later = move_set_count(&maker->left.moves, may_follow);

    sheet_add_heading(maker->sheet, "What we would do");
    if (move_set_settles(&maker->left.moves)) {
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       "The season has moved the neck. It settles in normal air first and is "
                       "measured again; nothing is cut before that.");
        return;
    }
    if (due == 0) {
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       maker->last > 0 ? "By what was measured, nothing asks for work."
                                       : "Nothing was measured yet.");
        return;
    }
    sheet_begin_table(maker->sheet, "llr");
    struct maybe sum = add_moves(maker, prices, is_due, true);
    if (due > 1 || later > 0)
        add_sum(maker, prices, "Together", &sum);
    if (later == 0)
        return;
    const struct maybe more = add_moves(maker, prices, may_follow, false);
    sum = sum.given && more.given ? maybe_given(sum.value + more.value) : maybe_absent();
    add_sum(maker, prices, "At most", &sum);
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
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        maker->found.moves.move[kind].done_by = 0;
    maker->left = maker->found;
    maker->last = maker->first;
}

enum status sheet_estimate_make(const struct record *record, const struct sheet_ask *ask,
                                const struct move_prices *prices, struct sheet *ret_sheet)
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
