/* SPDX-License-Identifier: MIT */
#include "leaf/intake/price_question.h"

#include <string.h>

#include "base/num.h"
#include "session/refresh.h"
#include "session/typing.h"

static struct intake_state *state_of(const struct app *app)
{
    return app->state[LEAF_INTAKE];
}

static void add_money(const struct app *app, const struct maybe *money, struct strbuf *out)
{
    if (money->given)
        price_add_money(money->value, state_of(app)->typed.currency, out);
    else
        strbuf_add(out, "?");
}

/* "estimate 95.50 EUR, at most 143.50 EUR" */
static void add_sums(const struct app *app, struct strbuf *out)
{
    const struct charges *charges = &state_of(app)->charges;

    strbuf_add(out, "estimate ");
    if (charges->due > 0) {
        add_money(app, &charges->together, out);
        strbuf_add(out, ", ");
    }
    strbuf_add(out, "at most ");
    add_money(app, &charges->at_most, out);
}

static const char *name_of(const struct app *app, int row)
{
    return row < MOVE_COUNT_ ? outfit_move_name(&app->now.setup.outfit, (enum move_kind)row)
                             : price_name(row);
}

/* --- how the entry is read --- */

/* A price with a comma for its point, or the name of what it is in. */
static bool read_entry(struct app *app, struct prices *prices)
{
    const int row = state_of(app)->row;
    struct strbuf words = STRBUF(app->entry_view.words), currency = STRBUF(prices->currency);
    char memory[ENTRY_TEXT_MAX];
    struct strbuf text = STRBUF(memory);
    double price;

    if (row == PRICE_CURRENCY) {
        strbuf_clear(&currency);
        strbuf_add(&currency, app->entry.text);
        strbuf_add(&words, currency.truncated ? "a few letters or a sign are enough" : "");
        return !currency.truncated;
    }
    entry_add_pointed(app->entry.text, &text);
    if (num_decimal(memory, text.length, &price) != STATUS_OK || price > PRICE_MOST) {
        strbuf_add(&words, "a price is a number, as 25 or 25.50");
        return false;
    }
    prices->row[row] = maybe_given(price);
    return true;
}

static void look(struct app *app)
{
    struct intake_state *state = state_of(app);
    struct entry_view *view = &app->entry_view;

    *view = (struct entry_view){.empty = lineedit_is_empty(&app->entry)};
    state->typed = app->prices;
    view->good = !view->empty && read_entry(app, &state->typed);
    charges_find_visit(&app->record, app->visit, &state->typed, &state->charges);
    if (!view->good)
        return;
    struct strbuf words = STRBUF(view->words);
    add_sums(app, &words);
}

static void add_prompt(const struct app *app, struct strbuf *out)
{
    const int row = state_of(app)->row;

    strbuf_addf(out, "%s%s >", row == PRICE_CURRENCY ? "" : "price: ", name_of(app, row));
}

/* "25", "EUR", "?" */
static void add_kept(const struct app *app, int row, struct strbuf *out)
{
    const struct prices *prices = &app->prices;

    if (row == PRICE_CURRENCY)
        strbuf_add(out, prices->currency[0] ? prices->currency : "?");
    else if (prices->row[row].given)
        price_add(prices->row[row].value, out);
    else
        strbuf_add(out, "?");
}

static void add_hint(const struct app *app, struct strbuf *out)
{
    add_kept(app, state_of(app)->row, out);
    strbuf_add(out, "; ");
    add_sums(app, out);
}

/* --- steps --- */

/* All prices, "rod 25, slots ?", so that none is forgotten. */
static void say_all(struct app *app)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);

    for (int row = 0; row < PRICE_COUNT_; row++) {
        strbuf_addf(&text, "%s%s ", row > 0 ? ", " : "", name_of(app, row));
        add_kept(app, row, &text);
    }
    app_say(app, TONE_NOTE, memory);
}

static void close_question(struct app *app)
{
    app->asked = NULL;
    app_drop_entry(app);
    app_refresh_entry(app);
}

/* Past the last one it ends, with the sums. */
static void step(struct app *app, int by)
{
    struct intake_state *state = state_of(app);
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);

    if (state->row + by >= PRICE_ROWS_) {
        add_sums(app, &text);
        close_question(app);
        app_say(app, TONE_NOTE, memory);
        return;
    }
    state->row = state->row + by < 0 ? 0 : state->row + by;
    app_drop_entry(app);
    app_refresh_entry(app);
    say_all(app);
}

/* The shop's settings are written by whoever carries this out. */
static void put(struct turn *turn, const struct prices *prices)
{
    turn->app->prices = *prices;
    turn->effects.price = state_of(turn->app)->row + 1;
}

static void take_out(struct turn *turn)
{
    struct prices prices = turn->app->prices;
    const int row = state_of(turn->app)->row;

    if (row == PRICE_CURRENCY)
        prices.currency[0] = '\0';
    else
        prices.row[row] = maybe_absent();
    put(turn, &prices);
    step(turn->app, 0);
}

static void take(struct turn *turn)
{
    struct app *app = turn->app;

    if (!app->entry_view.empty && !app->entry_view.good) {
        turn_refuse_entry(turn, app->entry_view.words);
        return;
    }
    if (app->entry_view.good)
        put(turn, &state_of(app)->typed);
    step(app, 1);
}

static bool take_empty(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    switch (key) {
    case '+':
    case SILLET_KEY_DOWN:
        step(app, state_of(app)->row + 1 < PRICE_ROWS_ ? 1 : 0);
        return true;
    case '-':
    case SILLET_KEY_UP:
    case SILLET_KEY_BACKSPACE:
        step(app, -1);
        return true;
    case SILLET_KEY_DELETE:
        take_out(turn);
        return true;
    default:
        return false;
    }
}

static bool take_key(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;
    const bool is_empty = lineedit_is_empty(&app->entry);

    if (key == SILLET_KEY_ENTER) {
        take(turn);
        return true;
    }
    if (key == SILLET_KEY_ESCAPE || key == MENU_KEY) {
        close_question(app);
        return key == SILLET_KEY_ESCAPE;
    }
    if (is_empty && take_empty(turn, key))
        return true;
    if (typing_edit(turn, key) || typing_add(turn, key) ||
        (key == SILLET_KEY_BACKSPACE && typing_erase(turn)))
        return true;
    if (is_empty) {
        close_question(app);
        return false;
    }
    turn_warn(turn, "Enter takes what is typed, Esc drops it.");
    return true;
}

static const struct asked which_price = {.take_key = take_key,
                                         .look = look,
                                         .add_prompt = add_prompt,
                                         .add_hint = add_hint,
                                         .enter = "next, or + and -",
                                         .escape = "ends; Del takes out"};

void price_question_ask(struct turn *turn)
{
    state_of(turn->app)->row = 0;
    turn->app->asked = &which_price;
    step(turn->app, 0);
}
