/* SPDX-License-Identifier: MIT */
#include "words/move_words_inside.h"

#include <math.h>
#include <string.h>

#include "base/num.h"

static void add_exposure(struct maker *maker)
{
    const struct setup *setup = maker->setup;
    const struct move_amount *amount = maker->move->string;

    if (!setup->exposure_bass_mm.given || !setup->exposure_treble_mm.given)
        return;
    const double bass = setup->exposure_bass_mm.value + amount[setup->board.strings].value;
    const double treble = setup->exposure_treble_mm.value + amount[1].value;
    strbuf_add(&maker->then, ", exposure ");
    /* Rounded to what a rule reads; more decimals would promise too much. */
    const enum unit unit = maker->units->bare[MEASURE_DEPTH];
    move_words_add_range(&maker->then, amount_on_rule(bass, unit), amount_on_rule(treble, unit),
                         unit);
}

static void add_bottom(struct maker *maker, const struct straight_cut *bottom, enum unit unit)
{
    const double bass = amount_of_work(bottom->bass_mm, unit);
    const double treble = amount_of_work(bottom->treble_mm, unit);

    if (bass > 0 || treble > 0) {
        strbuf_add(&maker->then, bass >= 0 && treble >= 0 ? ", raise the bottom by " : ", bottom ");
        move_words_add_range(&maker->then, bass, treble, unit);
        return;
    }
    strbuf_add(&maker->then, ", off the bottom, bass ");
    amount_add(&maker->then, -bass, unit, false);
    strbuf_add(&maker->then, " to treble ");
    amount_add(&maker->then, -treble, unit, false);
    amount_add_unit(&maker->then, unit);
}

/* A blank is cut, or shimmed, at the bottom in one straight line; the rest comes off the top. */
static void add_cut(struct maker *maker)
{
    const struct saddle_work *work = &maker->move->saddle_work;
    const enum unit unit = move_words_change_unit(maker->units);
    const int first = saddle_work_next_top(work, maker->setup->board.strings + 1);

    if (!work->known)
        return;
    if (work->bottom.bass_mm != 0 || work->bottom.treble_mm != 0)
        add_bottom(maker, &work->bottom, unit);
    for (int s = first; s > 0; s = saddle_work_next_top(work, s)) {
        strbuf_addf(&maker->then, s == first ? ", off the top, string %d " : ", %d ", s);
        amount_add(&maker->then, -amount_of_work(work->top_mm[s], unit), unit, false);
    }
    if (first > 0)
        amount_add_unit(&maker->then, unit);
}

/* A plate that floats is level only by its springs: what one degree more or less is worth. */
static void add_level(struct maker *maker)
{
    const struct maybe back_mm = maker->setup->post_to_saddle_mm;
    const enum unit unit = maker->units->bare[MEASURE_SMALL];
    const double tan_of_degree = 0.017455;

    if (!back_mm.given || maker->setup->post_lever.given)
        return;
    strbuf_add(&maker->caution, ": 1 degree is ");
    amount_add(&maker->caution, back_mm.value * tan_of_degree, unit, false);
    amount_add_unit(&maker->caution, unit);
}

/* "travel runs out: string 4 by .02, 3 by .015 in; the neck's angle gives more". */
static bool say_short(struct maker *maker)
{
    const struct move *move = maker->move;
    const enum unit unit = maker->units->bare[MEASURE_SMALL];
    int count = 0;

    for (int s = maker->setup->board.strings; s >= 1; s--) {
        if (!move->short_mm[s].given || !move->string[s].due)
            continue;
        strbuf_addf(&maker->caution, count++ ? ", %d by " : "travel runs out: string %d by ", s);
        amount_add_cut(&maker->caution, move->short_mm[s].value, unit);
    }
    if (count == 0)
        return false;
    amount_add_unit(&maker->caution, unit);
    strbuf_add(&maker->caution, "; the neck's angle gives more");
    return true;
}

static void say_saddle_caution(struct maker *maker)
{
    const struct setup *setup = maker->setup;

    if (say_short(maker))
        return;
    switch (setup->bridge) {
    case BRIDGE_SCREW:
        strbuf_add(&maker->caution, "slacken the string first; turn both screws of a saddle alike");
        return;
    case BRIDGE_POST:
        strbuf_add(&maker->caution, setup->post_lever.given
                                        ? "slacken the strings before a side is turned up"
                                        : "slacken first; then level a tremolo plate again");
        add_level(maker);
        return;
    case BRIDGE_WHEEL:
        strbuf_add(&maker->caution, "slacken the strings before a side is turned up");
        return;
    default:
        strbuf_add(&maker->caution,
                   setup->floating ? "sanding the feet: respirator; keep them fitted to the top"
                                   : "sanding a saddle: respirator; keep the bottom square");
    }
}

bool move_words_in_turns(const struct setup *setup)
{
    return is_turned(setup->bridge) && setup->thread_mm.given;
}

double move_words_turns_u(const struct setup *setup, double u_mm)
{
    return ceil(setup_at_post_u(setup, u_mm) / setup->thread_mm.value * 8) / 8;
}

/* What the outer strings read once it is made, as a rule reads it. */
static void add_action(struct maker *maker, enum unit unit)
{
    const struct maybe *then = maker->move->action_then;
    const struct maybe *bass = &then[maker->setup->board.strings], *treble = &then[1];

    if (!bass->given || !treble->given)
        return;
    strbuf_add(&maker->then, "action ");
    move_words_add_range(&maker->then, amount_on_rule(bass->value, unit),
                         amount_on_rule(treble->value, unit), unit);
}

void move_words_say_saddle(struct maker *maker)
{
    const struct setup *setup = maker->setup;
    const enum unit rule = maker->units->bare[MEASURE_RULE];
    const double u = maker->move->most_u;

    if (move_words_in_turns(setup)) {
        strbuf_add(&maker->amount, "turns \xC2\xB1");
        amount_add_turns(&maker->amount, move_words_turns_u(setup, u), false);
        strbuf_add(&maker->amount, ", + raises");
    } else {
        strbuf_add(&maker->amount, "height");
        move_words_add_u(&maker->amount, u, move_words_change_unit(maker->units));
    }
    if (setup->outfit.lap) {
        move_words_add_height(maker, "height at the saddle end ", &setup->height_saddle_target_mm);
    } else {
        add_action(maker, rule);
        add_exposure(maker);
        add_cut(maker);
    }
    say_saddle_caution(maker);
}
