/* SPDX-License-Identifier: MIT */
#include "words/explain.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "words/amount.h"
#include "words/fret_words.h"
#include "words/move_words.h"
#include "base/num.h"

static const struct {
    enum field_measure measure;
    const char *above, *below, *zero;
} hands[FIGURE_COUNT_] = {
#define HAND(figure_, measure_, above_, below_, zero_)                                             \
    [FIGURE_##figure_] = {MEASURE_##measure_, above_, below_, zero_},
#include "words/hand_table.h"
#undef HAND
};

static const char *words_for(enum figure_id id, double value)
{
    /* Rounding errors leave nothing to do. */
    const bool zero = fabs(value) < 1e-9;
    const char *words = zero ? hands[id].zero : value < 0 ? hands[id].below : hands[id].above;

    return words[0] ? words : hands[id].above;
}

static void add_amount(const struct explain_from *from, enum figure_id id, double value, double u,
                       struct strbuf *out)
{
    const struct shop_units metric = shop_units_metric();
    const struct shop_units *units = from->units ? from->units : &metric;
    const enum field_measure measure = hands[id].measure;

    if (measure == MEASURE_NONE) {
        num_format_fixed(fabs(value) * figure_info(id)->factor, 2, false, out);
        return;
    }
    if (explain_is_predicted(id))
        amount_add_supported_mm(out, fabs(value), u, units->bare[measure], AMOUNT_ANY_WIDTH);
    else
        amount_add(out, fabs(value), units->bare[measure], false);
    amount_add_unit(out, units->bare[measure]);
}

void explain_add_string(const struct explain_from *from, enum figure_id id, int string,
                        struct strbuf *out)
{
    const struct outfit *outfit = &from->derived->setup.outfit;

    if (figure_is_set_up(id))
        strbuf_addf(out, "%s %d", outfit_noun(outfit, string), outfit_number(outfit, string));
    else
        strbuf_addf(out, "string %d", string);
}

/* What the bench orders of a slot or a saddle, by all passes; NULL for another figure, and where
 * it orders nothing yet. */
static const struct move_amount *ordered(const struct derived *derived, enum figure_id id,
                                         int string)
{
    for (int kind = MOVE_SLOTS; kind <= MOVE_SADDLE; kind++) {
        const struct move *move = &derived->moves.move[kind];

        if (move_figure((enum move_kind)kind) == id && move->string[string].known &&
            (move->state == MOVE_DUE || move->state == MOVE_GOOD))
            return &move->string[string];
    }
    return NULL;
}

/* Whether a slot or a saddle rests on a reading that does not fit the others. */
static bool is_questioned(const struct derived *derived, enum figure_id id, int string)
{
    return (id == move_figure(MOVE_SLOTS) || id == move_figure(MOVE_SADDLE)) &&
           (derived->moves.questioned[BELIEF_GAP][string] ||
            derived->moves.questioned[BELIEF_ACTION][string]);
}

/* As the bench writes it. */
static double ordered_mm(const struct explain_from *from, enum figure_id id,
                         const struct move_amount *order)
{
    const enum unit unit = from->units ? from->units->bare[hands[id].measure] : UNIT_MM;

    return order->due || order->off ? amount_of_work(order->value, unit) : 0;
}

/* The doubt that the bench gives, with what the hand misses by that reads: " ±0.28 mm"; where
 * screws are turned, in turns, " (-1 5/8 turns ±5/8)". */
static void add_order_u(const struct explain_from *from, enum figure_id id, int string,
                        const struct move_amount *order, struct strbuf *out)
{
    const struct setup *setup = &from->derived->setup;
    const struct shop_units metric = shop_units_metric();
    const struct shop_units *units = from->units ? from->units : &metric;
    struct move_words words;

    strbuf_add(out, " \xC2\xB1");
    amount_add(out, order->u, units->bare[hands[id].measure], false);
    amount_add_unit(out, units->bare[hands[id].measure]);
    if (id != move_figure(MOVE_SADDLE) || !move_words_in_turns(setup))
        return;
    move_words_make(from->derived, MOVE_SADDLE, units, &words);
    if (!strpbrk(words.string[string], "0123456789"))
        return; /* it goes with the bridge's sides, or needs less than an eighth */
    strbuf_addf(out, " (%s turns \xC2\xB1", words.string[string]);
    amount_add_turns(out, move_words_turns_u(setup, order->u), false);
    strbuf_add_char(out, ')');
}

/* What its rod can do about a relief; no turn is spoken of where none turns, or does nothing. */
static const char *what_of_rod(const struct derived *derived, double relief_mm)
{
    if (!setup_rod_turns(&derived->setup))
        return "; no rod turns: air moves it, and else heat press, refret or planing";
    if (!move_rod_turns(&derived->setup, &derived->moves.move[MOVE_ROD]))
        return "; its rod was turned and does not answer";
    return relief_mm < 0 ? "; slackening a rod that works gives relief"
                         : "; tightening takes relief out, slackening gives more";
}

void explain_add_hand(const struct explain_from *from, enum figure_id id, int string,
                      struct strbuf *out)
{
    const int row = figure_info(id)->per == PER_STRING ? string : 0;
    const struct maybe figure = figures_get(&from->derived->figures, id, row);
    const struct outfit *outfit = &from->derived->setup.outfit;
    char memory[256];
    struct strbuf hand = STRBUF(memory);

    if (!figure.given) {
        fret_words_add(outfit, figure_info(id)->label, out);
        strbuf_add(out, ": not known yet; what it needs is listed below");
        return;
    }
    if (is_questioned(from->derived, id, row)) {
        explain_add_string(from, id, string, out);
        strbuf_add(out,
                   " does not fit the other readings: p, then read it again before anything is "
                   "done; what follows is of this pass alone");
        return;
    }
    const struct move_amount *order = ordered(from->derived, id, row);
    const double value = order ? ordered_mm(from, id, order) : figure.value;
    fret_words_add(outfit, words_for(id, value), &hand);
    for (const char *words = memory; *words; words++) {
        if (*words == '%')
            add_amount(from, id, value, from->derived->figures.at[id][row].u, out);
        else if (*words == '#')
            explain_add_string(from, id, string, out);
        else if (*words == '@')
            strbuf_addf(out, "%s %d", outfit_fret_noun(outfit),
                        board_gap_fret(&from->derived->setup.board, string));
        else
            strbuf_add_char(out, *words);
    }
    if (id == FIGURE_RELIEF && value != 0)
        strbuf_add(out, what_of_rod(from->derived, value));
    if (!order)
        return;
    if (order->due || order->off)
        add_order_u(from, id, row, order, out);
    strbuf_add(out, order->due   ? ", by all passes; what follows is of this one alone, and its "
                                   "\xC2\xB1 of the gauges' steps"
                    : order->off ? ", by all passes, but it is left for now; what follows is of "
                                   "this one alone"
                                 : ": within what is asked, by all passes; what follows is of "
                                   "this one alone");
}
