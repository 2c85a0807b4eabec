/* SPDX-License-Identifier: MIT */
#include "words/pitch_words.h"

#include <math.h>

#include "base/num.h"
#include "words/amount.h"
#include "words/move_words.h"

/* Frets that are close together cannot tell the nut from the saddle. A nut is never moved by more
 * than a mm or two, so a larger uncertainty than this says nothing. */
static const double most_nut_u_mm = 1;

/* "7 cents", "-1.5 cents": what a tuner shows. */
static void add_cents(struct strbuf *out, double cents)
{
    const double tenths = round(10 * cents) / 10;

    num_format_fixed(cents, tenths == round(cents) ? 0 : 1, false, out);
    strbuf_add(out, fabs(tenths) == 1 ? " cent" : " cents");
}

static const char *saddle_way(double change_mm)
{
    return change_mm < 0 ? "forward " : "back ";
}

static bool is_move(const struct pitch_move *move)
{
    return move->has_change && (move->state == PITCH_DUE || move->state == PITCH_WITHIN);
}

void pitch_add_wait(const struct pitch_plan *plan, struct strbuf *out)
{
    strbuf_add(out, plan->waits == WAIT_NOTHING ? "" : ", ");
    strbuf_add(out, move_words_wait(plan->waits));
}

void pitch_add_short(const struct pitch_move *move, const struct shop_units *units,
                     struct strbuf *out)
{
    const enum unit unit = units->bare[MEASURE_SMALL];

    if (is_move(move)) {
        amount_add(out, move->change_mm, unit, true);
        amount_add_doubt(out, move->change_u_mm, unit);
    } else if (move->state != PITCH_UNREAD) {
        strbuf_add(out, move->state == PITCH_IN_TUNE ? "leave it"
                        : move->state == PITCH_MOVED ? "read again"
                                                     : "look again");
    }
}

static void add_at(const struct pitch_plan *plan, int fret, struct strbuf *out)
{
    strbuf_addf(out, " at %s %d", outfit_fret_noun(&plan->outfit), fret);
}

static void add_saddle(const struct pitch_plan *plan, int string, enum unit unit,
                       struct strbuf *out)
{
    const struct pitch_move *move = &plan->string[string];

    strbuf_add(out, "saddle ");
    strbuf_add(out, saddle_way(move->change_mm));
    amount_add(out, fabs(move->change_mm), unit, false);
    amount_add_unit(out, unit);
    amount_add_doubt(out, move->change_u_mm, unit);
    strbuf_addf(out, " (string %d)", string);
    if (move->state == PITCH_WITHIN) {
        strbuf_add(out, ", within measuring error");
        return;
    }
    strbuf_add(out, ": ");
    add_cents(out, move->cents);
    add_at(plan, move->fret, out);
    if (!move->turns.given)
        return;
    strbuf_add(out, "; ");
    amount_add_turns(out, fabs(move->turns.value), false);
    strbuf_add(out, " turns");
}

void pitch_add_move(const struct pitch_plan *plan, int string, const struct shop_units *units,
                    struct strbuf *out)
{
    const struct pitch_move *move = &plan->string[string];

    if (is_move(move)) {
        add_saddle(plan, string, units->bare[MEASURE_SMALL], out);
        return;
    }
    if (move->state == PITCH_UNREAD) {
        strbuf_addf(out, "string %d: tune it open, then enter the cents of its notes, %s %d first",
                    string, outfit_fret_noun(&plan->outfit), move->octave);
        return;
    }
    if (move->state == PITCH_MOVED) {
        strbuf_addf(out, "string %d was ", string);
        add_cents(out, move->cents);
        add_at(plan, move->fret, out);
        strbuf_add(out, "; its saddle was moved: p on Bench, then tune and read it");
        return;
    }
    strbuf_addf(out, "saddle stays (string %d): ", string);
    add_cents(out, move->cents);
    add_at(plan, move->fret, out);
    if (move->state == PITCH_IN_TUNE) {
        strbuf_add(out, ", within a player's ");
        add_cents(out, plan->tolerance_cents);
    } else {
        strbuf_add(out, " is more than a setback cures, look again");
    }
}

static void add_nut(double advance_mm, enum unit unit, struct strbuf *out)
{
    strbuf_add(out, advance_mm < 0 ? "nut back " : "nut forward ");
    amount_add(out, fabs(advance_mm), unit, false);
}

void pitch_add_fit(const struct pitch_plan *plan, int string, const struct shop_units *units,
                   struct strbuf *out)
{
    const struct pitch_move *move = &plan->string[string];
    const enum unit unit = units->bare[MEASURE_SMALL];

    if (!move->has_fit || move->fit_nut_u_mm > most_nut_u_mm) {
        strbuf_addf(out, "cents at more %ss, low and high, would tell the nut's share",
                    outfit_fret_noun(&plan->outfit));
        return;
    }
    const bool within = fabs(move->fit_setback_mm) <= move->fit_setback_u_mm &&
                        fabs(move->fit_nut_mm) <= move->fit_nut_u_mm;

    strbuf_add_count(out, (size_t)move->count, plan->outfit.fretless ? "mark" : "fret",
                     plan->outfit.fretless ? "marks" : "frets");
    strbuf_add(out, ": saddle ");
    strbuf_add(out, saddle_way(move->fit_setback_mm));
    amount_add(out, fabs(move->fit_setback_mm), unit, false);
    amount_add_doubt(out, move->fit_setback_u_mm, unit);
    strbuf_add(out, ", ");
    add_nut(move->fit_nut_mm, unit, out);
    amount_add_doubt(out, move->fit_nut_u_mm, unit);
    amount_add_unit(out, unit);
    if (within) {
        strbuf_add(out, ", within measuring error");
        return;
    }
    strbuf_add(out, ", leaves ");
    num_format_fixed(move->fit_cents, 1, false, out);
    strbuf_add(out, " cents");
}

static void add_missing(const struct derived *derived, int string, struct strbuf *out)
{
    const struct string_facts *facts = &derived->string[string];

    strbuf_add(out, "no prediction: ");
    if (!derived->lines.now[string].known)
        strbuf_add(out, "relief, nut gap and action come first, on Bench");
    else if (!facts->hz.given)
        strbuf_add(out, "the string's note is missing, on Strings");
    else if (!facts->has_mass)
        strbuf_add(out, "the string's gauge, build and core are missing, on Strings");
    else if (!(facts->modulus_mpa > 0)) /* sorts of nylon differ by half */
        strbuf_add(out, "the core's modulus is missing, on Strings; nylon has no usual one");
    else if (!(facts->core.diameter_mm > 0))
        strbuf_add(out, "the core's gauge is missing, on Strings");
    else if (!derived->lines.after[string].known)
        strbuf_add(out, "targets for relief, action and nut gap are missing, on Intake");
    else
        strbuf_add(out, "this string cannot be brought into tune on this board");
}

/* A nut's way is said in words. */
static void add_predicted(const struct figures *figures, enum figure_id id, int string,
                          enum unit unit, struct strbuf *out)
{
    const struct figure *figure = &figures->at[id][string];
    const double value = id == FIGURE_NUT_ADVANCE_BEST ? fabs(figure->value) : figure->value;

    amount_add_supported_mm(out, value, figure->u, unit, AMOUNT_ANY_WIDTH);
}

void pitch_add_predicted(const struct derived *derived, int string, const struct shop_units *units,
                         struct strbuf *out)
{
    const enum unit unit = units->bare[MEASURE_SMALL];
    const struct figures *figures = &derived->figures;

    if (!figures_get(figures, FIGURE_SETBACK_PREDICTED, string).given) {
        add_missing(derived, string, out);
        return;
    }
    strbuf_add(out, "predicted setback ");
    add_predicted(figures, FIGURE_SETBACK_PREDICTED, string, unit, out);
    amount_add_unit(out, unit);
    if (!figures_get(figures, FIGURE_SETBACK_BEST, string).given)
        return;
    strbuf_add(out, "; best ");
    add_predicted(figures, FIGURE_SETBACK_BEST, string, unit, out);
    strbuf_add(out, figures->at[FIGURE_NUT_ADVANCE_BEST][string].value < 0 ? ", nut back "
                                                                           : ", nut forward ");
    add_predicted(figures, FIGURE_NUT_ADVANCE_BEST, string, unit, out);
    amount_add_unit(out, unit);
}

void pitch_add_contact(const struct pitch_move *move, const struct shop_units *units,
                       struct strbuf *out)
{
    const enum unit unit = units->bare[MEASURE_LONG];

    if (!move->contact_mm.given) {
        strbuf_add(out, move->contact_is_expected
                            ? "saddle moved: its setback is to be read again"
                            : "setback not entered: no saddle contact from the nut");
        return;
    }
    strbuf_add(out, "saddle contact from the nut: ");
    amount_add(out, move->contact_mm.value, unit, false);
    amount_add_unit(out, unit);
    strbuf_add(out, move->contact_is_expected ? " expected" : "");
    if (!is_move(move) || move->state != PITCH_DUE)
        return;
    strbuf_add(out, " now, ");
    amount_add(out, move->contact_mm.value + move->change_mm, unit, false);
    amount_add_unit(out, unit);
    strbuf_add(out, " to be");
}

void pitch_add_saddle(const struct pitch_plan *plan, const struct shop_units *units,
                      struct strbuf *out)
{
    if (!plan->saddle.known)
        return;
    strbuf_add(out, plan->saddle_is_predicted ? "by the setbacks predicted, " : "");
    move_words_add_saddle(out, &plan->saddle, units);
}

bool pitch_saddle_is_narrow(const struct pitch_plan *plan)
{
    return plan->saddle.known && plan->saddle.needed_mm > plan->saddle.room_mm;
}

const char *pitch_caution(const struct pitch_plan *plan)
{
    for (int s = 1; s <= plan->strings; s++)
        if (plan->string[s].state == PITCH_DUE && plan->waits == WAIT_NOTHING)
            return "slacken the string before its saddle moves; bone dust: respirator";
    return "";
}
