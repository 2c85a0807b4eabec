/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "base/num.h"
#include "model/reading/work_line.h"
#include "words/move_words_inside.h"

static void add_lean(struct maker *maker, enum unit unit)
{
    const struct maybe lean = maker->move->lean;

    if (!lean.given)
        return;
    strbuf_add(&maker->then, "; the neck leans: over the bridge ");
    amount_add_cut(&maker->then, fabs(lean.value), unit);
    amount_add_unit(&maker->then, unit);
    strbuf_add(&maker->then, lean.value < 0 ? ", bass low" : ", treble low");
}

bool move_words_is_shim(const struct figures *figures)
{
    return figures_get(figures, FIGURE_POCKET_SHIM, 0).given &&
           !figures_get(figures, FIGURE_HEEL_CUT, 0).given;
}

/* What an exposure is measured from: where screws, posts or wheels are turned all the way down. */
static const char *least_of(enum bridge_kind bridge)
{
    return is_turned(bridge) ? "the lowest saddles" : "bridge top";
}

void move_words_add_reset(struct maker *maker)
{
    const double factor = figure_info(FIGURE_ANGLE)->factor;
    const enum unit small = maker->units->bare[MEASURE_SMALL];
    const struct maybe heel = figures_get(maker->figures, FIGURE_HEEL_CUT, 0);
    const struct maybe cut = heel.given ? heel : figures_get(maker->figures, FIGURE_POCKET_SHIM, 0);

    strbuf_add(&maker->amount, "neck angle ");
    num_format_fixed(maker->move->amount.value * factor, 1, false, &maker->amount);
    strbuf_add(&maker->amount, " \xC2\xB1");
    num_format_fixed(fmax(maker->move->amount.u * factor, 0.1), 1, false, &maker->amount);
    strbuf_add(&maker->amount, " deg");
    if (cut.given) {
        strbuf_add(&maker->amount,
                   maker->setup->heel_depth_mm.given ? ", heel taper " : ", " WORK_SHIM);
        amount_add_cut(&maker->amount, cut.value, small);
        amount_add_unit(&maker->amount, small);
    }
}

/* Which end of the shim is how thick, and how it is put in, under a neck that comes off with its
 * bolts. */
static void say_shim(struct maker *maker, enum unit unit)
{
    const struct maybe length_mm = maker->setup->pocket_length_mm;

    strbuf_add(&maker->caution, "strings slack before the bolts; shim full-width");
    if (length_mm.given) {
        strbuf_add(&maker->caution, ", ");
        amount_add(&maker->caution, length_mm.value, unit, false);
        amount_add_unit(&maker->caution, unit);
        strbuf_add(&maker->caution, " long");
    }
    strbuf_add(&maker->caution, maker->move->amount.value < 0 ? ", thick end to the nut"
                                                              : ", thick end to the bridge");
}

void move_words_say_reset(struct maker *maker)
{
    const enum unit depth = maker->units->bare[MEASURE_DEPTH];
    const enum unit small = maker->units->bare[MEASURE_SMALL];

    move_words_add_reset(maker);
    strbuf_add(&maker->then, "exposure ");
    amount_add(&maker->then, amount_on_rule(maker->setup->exposure_new_mm, depth), depth, false);
    amount_add_unit(&maker->then, depth);
    strbuf_add(&maker->then, " once the action is right");
    if (maker->move->straightedge.given) {
        strbuf_add(&maker->then, ", straightedge ");
        amount_add_cut(&maker->then, fabs(maker->move->straightedge.value), small);
        amount_add_unit(&maker->then, small);
        strbuf_add(&maker->then, maker->move->straightedge.value < 0 ? " under " : " over ");
        strbuf_add(&maker->then, least_of(maker->setup->bridge));
    }
    add_lean(maker, small);
    if (move_words_is_shim(maker->figures))
        say_shim(maker, small);
    else
        strbuf_add(&maker->caution,
                   "heat, steam and chisels: a qualified repairer's job; measure twice");
}
