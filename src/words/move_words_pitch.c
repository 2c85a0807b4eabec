/* SPDX-License-Identifier: MIT */
#include "words/move_words_inside.h"

#include <math.h>

#include "base/num.h"

/* The saddles, or the whole bridge, by the tuner. */

/* A saddle with a screw of its own along the string: " (2 1/8 turns)". */
static void add_own_turns(const struct maker *maker, double mm, struct strbuf *out)
{
    const struct maybe thread_mm = maker->setup->intonation_thread_mm;

    if (!thread_mm.given)
        return;
    strbuf_add(out, " (");
    amount_add_turns(out, fabs(mm) / thread_mm.value, false);
    strbuf_add(out, " turns)");
}

/* As fine as a contact is set: 0.1 mm, or .005 in. */
static double contact_step_mm(enum unit unit)
{
    return unit == UNIT_MM ? 0.1 : 0.127;
}

static int count_due(const struct maker *maker)
{
    int due = 0;

    for (int s = 1; s <= maker->setup->board.strings; s++)
        due += maker->move->string[s].due;
    return due;
}

/* Every string that is due with its way, "string 4 back 4, 3 back 3, 2 forward 2.4", and the turns
 * of its screw where they are asked for. */
static void add_ways(const struct maker *maker, bool turns, enum unit unit, struct strbuf *out)
{
    int count = 0;

    for (int s = maker->setup->board.strings; s >= 1; s--) {
        const struct move_amount *amount = &maker->move->string[s];

        if (!amount->due)
            continue;
        strbuf_addf(out, count++ == 0 ? "string %d " : ", %d ", s);
        strbuf_add(out, amount->value < 0 ? "forward " : "back ");
        amount_add(out, move_words_to_less(amount->value, contact_step_mm(unit)), unit, false);
        if (turns)
            add_own_turns(maker, amount->value, out);
    }
}

/* The largest doubt stands for all; where there is but one string, beside its amount. */
static void add_setbacks(struct maker *maker, enum unit unit)
{
    const double step_mm = contact_step_mm(unit);
    int string = maker->setup->board.strings;

    if (count_due(maker) > 1) {
        strbuf_add(&maker->amount, "saddle: ");
        add_ways(maker, true, unit, &maker->amount);
        move_words_add_step_u(maker, maker->move->most_u, step_mm, unit);
        return;
    }
    while (string > 1 && !maker->move->string[string].due)
        string--;
    const struct move_amount *amount = &maker->move->string[string];
    strbuf_add(&maker->amount, amount->value < 0 ? "saddle forward " : "saddle back ");
    amount_add(&maker->amount, move_words_to_less(amount->value, step_mm), unit, false);
    move_words_add_step_u(maker, amount->u, step_mm, unit);
    add_own_turns(maker, amount->value, &maker->amount);
    strbuf_addf(&maker->amount, " on string %d", string);
}

void move_words_add_saddle(struct strbuf *out, const struct saddle_fit *saddle,
                           const struct shop_units *units)
{
    const enum unit unit = units->bare[MEASURE_SMALL];

    if (!saddle->known) {
        strbuf_add(out, "see first that the saddle is wide enough for it");
        return;
    }
    const bool narrow = saddle->needed_mm > saddle->room_mm;

    strbuf_addf(out, "saddle %s: contacts take ", narrow ? "too narrow" : "wide enough");
    amount_add(out, saddle->needed_mm, unit, false);
    amount_add_unit(out, unit);
    strbuf_add(out, ", a crown leaves ");
    amount_add(out, saddle->room_mm, unit, false);
    strbuf_add(out, narrow ? "; recut its slot" : "");
}

static void add_foot(struct maker *maker, double mm, enum unit unit)
{
    const double step_mm = contact_step_mm(unit);

    strbuf_add(&maker->amount, mm > 0 ? "back " : "forward ");
    amount_add(&maker->amount, move_words_to_less(mm, step_mm), unit, false);
}

/* "bridge back 1.2 ±0.2 mm", or each foot by its own: "bridge: bass foot back 1.4, treble foot
 * forward 0.4 ±0.2 mm". */
static void add_feet(struct maker *maker, enum unit unit)
{
    const double step_mm = contact_step_mm(unit);
    const struct move_amount *treble = &maker->move->string[1];
    const struct move_amount *bass = &maker->move->string[maker->setup->board.strings];

    if (bass->due && treble->due && bass->value == treble->value) {
        strbuf_add(&maker->amount, "bridge ");
        add_foot(maker, bass->value, unit);
    } else {
        strbuf_add(&maker->amount, "bridge: ");
        if (bass->due) {
            strbuf_add(&maker->amount, "bass foot ");
            add_foot(maker, bass->value, unit);
        }
        strbuf_add(&maker->amount, bass->due && treble->due ? ", " : "");
        if (treble->due) {
            strbuf_add(&maker->amount, "treble foot ");
            add_foot(maker, treble->value, unit);
        }
    }
    move_words_add_step_u(maker, maker->move->most_u, step_mm, unit);
}

/* "bass back 1.4, treble forward 0.4": a foot that stays is said too. */
static void add_both_feet(const struct maker *maker, enum unit unit, struct strbuf *out)
{
    int count = 0;

    for (int s = maker->setup->board.strings; s >= 1; s--) {
        const struct move_amount *amount = &maker->move->string[s];

        if (!amount->due && !amount->known)
            continue;
        strbuf_addf(out, "%s%s ", count++ > 0 ? ", " : "", s == 1 ? "treble" : "bass");
        strbuf_add(out, amount->value < 0 ? "forward " : "back ");
        amount_add(out, amount->due ? move_words_to_less(amount->value, contact_step_mm(unit)) : 0,
                   unit, false);
    }
}

/* For the work line, so that where each saddle stands then can be told: "saddle: string 6 back 2.2,
 * 5 back 1 mm", "bridge: bass back 1.4, treble forward 0.4 mm". */
static void add_done(struct maker *maker, enum unit unit)
{
    struct strbuf out = STRBUF(maker->words->done);

    strbuf_add(&out, maker->move->whole ? "bridge: " : "saddle: ");
    if (maker->move->whole)
        add_both_feet(maker, unit, &out);
    else
        add_ways(maker, false, unit, &out);
    amount_add_unit(&out, unit);
}

static void say_caution(struct maker *maker)
{
    if (maker->move->whole)
        strbuf_add(&maker->caution,
                   "slacken all strings; mark where both feet stand before it moves");
    else if (is_turned(maker->setup->bridge))
        strbuf_add(&maker->caution, "slacken the string before its saddle is moved");
    else
        move_words_add_saddle(&maker->caution, &maker->move->saddle, maker->units);
}

void move_words_say_pitch(struct maker *maker)
{
    const double cents = maker->move->within_cents;

    if (maker->move->whole)
        add_feet(maker, maker->units->bare[MEASURE_SMALL]);
    else
        add_setbacks(maker, maker->units->bare[MEASURE_SMALL]);
    add_done(maker, maker->units->bare[MEASURE_SMALL]);
    strbuf_add(&maker->then, "fretted notes within ");
    num_format_fixed(cents, cents == floor(cents) ? 0 : 1, false, &maker->then);
    strbuf_add(&maker->then, cents == 1 ? " cent, once the heights are right"
                                        : " cents, once the heights are right");
    say_caution(maker);
}
