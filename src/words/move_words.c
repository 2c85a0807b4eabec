/* SPDX-License-Identifier: MIT */
#include "words/move_words.h"

#include "words/amount.h"
#include "base/num.h"

struct maker {
    const struct figures *figures;
    const struct setup *setup;
    const struct shop_units *units;
    const struct move *move;
    struct move_words *words;
    struct strbuf amount, then, caution;
};

/* Changes are cut to size with a caliper or a file, so inch shops want decimal inches. */
static enum unit change_unit(const struct shop_units *units)
{
    return units->bare[MEASURE_FEELER] == UNIT_TH ? UNIT_TH : UNIT_MM;
}

static void add_u(struct strbuf *out, double u_mm, enum unit unit)
{
    strbuf_add(out, " \xC2\xB1");
    amount_add(out, u_mm, unit, false);
    amount_add_unit(out, unit);
}

static void add_range(struct strbuf *out, double bass_mm, double treble_mm, enum unit unit)
{
    amount_add_range(out, bass_mm, treble_mm, unit);
    amount_add_unit(out, unit);
}

/* A figure's bass and treble value, "action 7.3 to 5.1 /64". False when one is absent. */
static bool add_outer(struct maker *maker, const char *what, enum figure_id id, enum unit unit)
{
    const struct maybe bass = figures_get(maker->figures, id, maker->setup->board.strings);
    const struct maybe treble = figures_get(maker->figures, id, 1);

    if (!bass.given || !treble.given)
        return false;
    strbuf_add(&maker->then, what);
    add_range(&maker->then, bass.value, treble.value, unit);
    return true;
}

static bool has_rod(const struct setup *setup)
{
    return setup->rod != ROD_NONE && setup->rod != ROD_FIXED;
}

static void say_rod(struct maker *maker)
{
    const struct move_amount *change = &maker->move->amount;
    const enum unit unit = maker->units->bare[MEASURE_FEELER];

    if (!has_rod(maker->setup))
        strbuf_add(&maker->amount, "no rod: ");
    else
        strbuf_add(&maker->amount, change->value < 0 ? "tighten: " : "slacken: ");
    strbuf_add(&maker->amount, "relief ");
    amount_add(&maker->amount, change->value, unit, true);
    add_u(&maker->amount, change->u, unit);
    strbuf_add(&maker->then, "relief ");
    amount_add(&maker->then, maker->setup->relief_target_mm.value, unit, false);
    amount_add_unit(&maker->then, unit);
    add_outer(maker, ", action ", FIGURE_ACTION_AFTER_ROD, maker->units->bare[MEASURE_RULE]);
    strbuf_add(&maker->caution, has_rod(maker->setup)
                                    ? "eye protection, strings slack; stop when it binds"
                                    : "relief without a rod takes heat, fretting or planing");
}

static void say_slots(struct maker *maker)
{
    const struct setup *setup = maker->setup;
    const struct move *move = maker->move;
    const enum unit feeler = maker->units->bare[MEASURE_FEELER];

    strbuf_add(&maker->amount, !move->any_up ? "file" : move->any_down ? "-file +fill" : "fill");
    add_u(&maker->amount, move->most_u, change_unit(maker->units));
    if (add_outer(maker, "action ", FIGURE_ACTION_AFTER_NUT, maker->units->bare[MEASURE_RULE]))
        strbuf_add(&maker->then, "; ");
    strbuf_add(&maker->then, "once the saddle is done gap ");
    add_range(&maker->then, setup->gap_target_bass_mm.value, setup->gap_target_treble_mm.value,
              feeler);
    strbuf_add(&maker->caution,
               move->any_up ? "fill a low slot or make a new nut; respirator, and air for glue"
                            : "bone, shell and some woods: wear a respirator when filing");
}

static void add_exposure(struct maker *maker)
{
    const struct maybe bass = figures_get(maker->figures, FIGURE_EXPOSURE_BASS_AFTER, 0);
    const struct maybe treble = figures_get(maker->figures, FIGURE_EXPOSURE_TREBLE_AFTER, 0);

    if (!bass.given || !treble.given)
        return;
    strbuf_add(&maker->then, ", exposure ");
    /* Rounded to what a rule reads; more decimals would promise too much. */
    const enum unit unit = maker->units->bare[MEASURE_DEPTH];
    add_range(&maker->then, amount_on_rule(bass.value, unit), amount_on_rule(treble.value, unit),
              unit);
}

static bool is_turned(enum bridge_kind bridge)
{
    return bridge == BRIDGE_SCREW || bridge == BRIDGE_POST || bridge == BRIDGE_WHEEL;
}

static void say_saddle(struct maker *maker)
{
    const struct setup *setup = maker->setup;
    const enum unit rule = maker->units->bare[MEASURE_RULE];
    const double u = maker->move->most_u;

    if (is_turned(setup->bridge) && setup->thread_mm.given) {
        strbuf_add(&maker->amount, "turns \xC2\xB1");
        num_format_fixed(u / setup->thread_mm.value, 2, true, &maker->amount);
        strbuf_add(&maker->amount, ", + raises");
    } else {
        strbuf_add(&maker->amount, "height");
        add_u(&maker->amount, u, change_unit(maker->units));
    }
    strbuf_add(&maker->then, "action ");
    add_range(&maker->then, amount_on_rule(setup->action_target_bass_mm.value, rule),
              amount_on_rule(setup->action_target_treble_mm.value, rule), rule);
    add_exposure(maker);
    /* A blank is cut at the bottom in one straight line; the rest comes off the top. */
    if (setup->bridge == BRIDGE_BLANK)
        add_outer(maker, ", bottom ", FIGURE_SADDLE_BOTTOM, change_unit(maker->units));
    strbuf_add(&maker->caution, is_turned(setup->bridge)
                                    ? "slacken the string before a screw is turned up"
                                    : "sanding a saddle: respirator; keep the bottom square");
}

static void say_reset(struct maker *maker)
{
    const double factor = figure_info(FIGURE_ANGLE)->factor;
    const enum unit depth = maker->units->bare[MEASURE_DEPTH];
    const struct maybe heel = figures_get(maker->figures, FIGURE_HEEL_CUT, 0);
    const struct maybe cut = heel.given ? heel : figures_get(maker->figures, FIGURE_POCKET_SHIM, 0);

    strbuf_add(&maker->amount, "neck angle ");
    num_format_fixed(maker->move->amount.value * factor, 2, false, &maker->amount);
    strbuf_add(&maker->amount, " \xC2\xB1");
    num_format_fixed(maker->move->amount.u * factor, 2, false, &maker->amount);
    strbuf_add(&maker->amount, " deg");
    if (cut.given) {
        strbuf_add(&maker->then,
                   maker->setup->heel_depth_mm.given ? "heel taper " : "pocket shim ");
        amount_add_cut(&maker->then, cut.value, maker->units->bare[MEASURE_SMALL]);
        amount_add_unit(&maker->then, maker->units->bare[MEASURE_SMALL]);
        strbuf_add(&maker->then, ", ");
    }
    strbuf_add(&maker->then, "exposure ");
    amount_add(&maker->then, amount_on_rule(maker->setup->exposure_new_mm, depth), depth, false);
    amount_add_unit(&maker->then, depth);
    strbuf_add(&maker->caution,
               "heat, steam and chisels: a qualified repairer's job; measure twice");
}

/* Appends one string's saddle move in turns; nothing if it is not known. */
static void add_turns(const struct maker *maker, int string, struct strbuf *out)
{
    const struct maybe turns = figures_get(maker->figures, FIGURE_SADDLE_TURNS, string);

    if (!turns.given)
        return;
    if (turns.value > 0)
        strbuf_add_char(out, '+');
    num_format_fixed(turns.value, 2, true, out);
}

static void say_strings(struct maker *maker, enum move_kind kind)
{
    const struct setup *setup = maker->setup;
    const bool turned = kind == MOVE_SADDLE && is_turned(setup->bridge) && setup->thread_mm.given;

    maker->words->by_string = true;
    for (int s = 1; s <= setup->board.strings; s++) {
        const struct move_amount *amount = &maker->move->string[s];
        struct strbuf text = STRBUF(maker->words->string[s]);

        if (!amount->known || (turned && !setup_has_own_height(setup, s)))
            continue;
        if (!amount->due)
            strbuf_add(&text, "ok");
        else if (turned)
            add_turns(maker, s, &text);
        else
            amount_add(&text, amount->value, change_unit(maker->units), true);
    }
}

/* What one move waits for, the next one needs too, so only the first says it. */
static void say_need(struct maker *maker, enum move_kind kind)
{
    static const char *const needs[] = {
        [NEED_NOTHING] = "",
        [NEED_BOARD] = "scale, strings, frets and join fret come first",
        [NEED_RELIEF] = "measure the relief first",
        [NEED_RELIEF_TARGET] = "the target for relief is missing",
        [NEED_GAP] = "measure a nut gap next",
        [NEED_ACTION] = "measure an action next",
        [NEED_TARGETS] = "the targets for action and nut gap are missing",
        [NEED_EXPOSURE] = "measure exposure and action first",
    };

    if (kind <= MOVE_ROD || maker->move[-1].state != MOVE_UNKNOWN)
        strbuf_add(&maker->amount, needs[maker->move->needs]);
}

static void say_good(struct maker *maker, enum move_kind kind)
{
    if (kind == MOVE_RESET)
        strbuf_add(&maker->amount, "not due: the saddle has enough left");
    else if (maker->move->inner_follow)
        strbuf_add(&maker->amount, "outer strings on target; the inner ones follow the sides");
    else
        strbuf_add(&maker->amount, "on target, leave it");
}

static void say_due(struct maker *maker, enum move_kind kind)
{
    static void (*const say[MOVE_COUNT_])(struct maker *) = {
#define MOVE(id, own_, ...) [MOVE_##id] = say_##own_,
#include "model/reading/move_table.h"
#undef MOVE
    };

    if (move_is_by_string(kind))
        say_strings(maker, kind);
    say[kind](maker);
}

void move_words_make(const struct derived *derived, enum move_kind kind,
                     const struct shop_units *units, struct move_words *ret_words)
{
    struct maker maker = {.figures = &derived->figures,
                          .setup = &derived->setup,
                          .units = units,
                          .move = &derived->moves.move[kind],
                          .words = ret_words,
                          .amount = STRBUF(ret_words->amount),
                          .then = STRBUF(ret_words->then),
                          .caution = STRBUF(ret_words->caution)};

    *ret_words = (struct move_words){.by_string = false};
    switch (maker.move->state) {
    case MOVE_UNKNOWN:
        say_need(&maker, kind);
        return;
    case MOVE_GOOD:
        say_good(&maker, kind);
        return;
    case MOVE_WITHIN:
    case MOVE_DUE:
        say_due(&maker, kind);
    }
}
