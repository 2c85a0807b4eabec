/* SPDX-License-Identifier: MIT */
#include "app/move_list.h"

#include <math.h>

#include "app/amount.h"
#include "base/num.h"

struct maker {
    const struct derived *derived;
    const struct figures *figures;
    const struct shop_units *units;
    struct move_list *list;
    int strings;
};

static struct move_line *add_line(struct maker *maker, enum move_kind kind, const char *title)
{
    struct move_line *line = &maker->list->lines[maker->list->count++];
    *line = (struct move_line){.kind = kind, .state = MOVE_UNKNOWN};
    struct strbuf text = STRBUF(line->title);

    strbuf_add(&text, title);
    return line;
}

/* Changes are cut to size with a caliper or a file, so inch shops want decimal inches. */
static enum unit change_unit(const struct shop_units *units)
{
    return units->bare[MEASURE_FEELER] == UNIT_TH ? UNIT_TH : UNIT_MM;
}

static void add_u(struct strbuf *out, double u_mm, enum unit unit)
{
    strbuf_add(out, " \xC2\xB1");
    amount_add(out, u_mm, unit, false);
}

/* A figure's bass and treble value, "7.3 to 5.1 /64". False when one is absent. */
static bool add_outer(const struct maker *maker, struct strbuf *out, const char *what,
                      enum figure_id id, enum field_measure measure)
{
    const enum unit unit = maker->units->bare[measure];
    double bass, treble;

    if (!figures_get(maker->figures, id, maker->strings, &bass) ||
        !figures_get(maker->figures, id, 1, &treble))
        return false;
    strbuf_add(out, what);
    strbuf_add_char(out, ' ');
    amount_add_range(out, bass, treble, unit);
    amount_add_unit(out, unit);
    return true;
}

static bool any_given(const struct entered *read, int strings)
{
    for (int s = 1; s <= strings; s++)
        if (read[s].given)
            return true;
    return false;
}

/* What stands between a move and its amount, the next thing to measure first. */
static void say_missing(const struct maker *maker, struct move_line *line)
{
    const struct setup *setup = &maker->derived->setup;
    struct strbuf text = STRBUF(line->amount);

    if (line > maker->list->lines && line[-1].state == MOVE_UNKNOWN) {
        /* Said once is enough. */
        strbuf_add(&text, "-");
        return;
    }
    if (!setup->has_board || !setup->board.has_relief)
        strbuf_add(&text, "scale, strings, frets and join fret come first");
    else if (setup->relief_count == 0)
        strbuf_add(&text, "measure the relief first");
    else if (!setup->relief_target_mm.given)
        strbuf_add(&text, "no relief is wanted yet: a target is missing");
    else if (!any_given(setup->nut_gap_mm, maker->strings))
        strbuf_add(&text, "measure a nut gap next");
    else if (!any_given(setup->action_mm, maker->strings))
        strbuf_add(&text, "measure an action next");
    else
        strbuf_add(&text, "the targets for action and nut gap are missing");
}

static void make_rod(struct maker *maker)
{
    struct move_line *line = add_line(maker, MOVE_ROD, "rod");
    struct strbuf amount = STRBUF(line->amount), then = STRBUF(line->then);
    struct strbuf caution = STRBUF(line->caution);
    const struct entered *target = &maker->derived->setup.relief_target_mm;
    const struct figure *relief = &maker->figures->at[FIGURE_RELIEF][0];
    const enum unit unit = maker->units->bare[MEASURE_FEELER];
    const enum rod_kind rod = maker->derived->setup.rod;

    if (relief->known == KNOWN_ABSENT || !target->given) {
        say_missing(maker, line);
        return;
    }
    const double change = target->value - relief->value;
    line->state = MOVE_NOT_DUE;
    if (!maker->derived->choice.rod)
        return;
    line->state = fabs(change) <= relief->u ? MOVE_WITHIN : MOVE_DUE;
    if (rod == ROD_NONE || rod == ROD_FIXED)
        strbuf_add(&amount, "no rod: ");
    else
        strbuf_add(&amount, change < 0 ? "tighten: " : "slacken: ");
    strbuf_add(&amount, "relief ");
    amount_add(&amount, change, unit, true);
    add_u(&amount, relief->u, unit);
    amount_add_unit(&amount, unit);
    strbuf_add(&then, "relief ");
    amount_add(&then, target->value, unit, false);
    amount_add_unit(&then, unit);
    add_outer(maker, &then, ", action", FIGURE_ACTION_AFTER_ROD, MEASURE_RULE);
    strbuf_add(&caution, rod == ROD_NONE || rod == ROD_FIXED
                             ? "relief without a rod takes heat, fretting or planing"
                             : "eye protection, strings slack; stop when it binds");
}

/* The per-string amounts of one figure; counts the moves and takes the largest u. */
static int put_strings(struct maker *maker, struct move_line *line, enum figure_id id,
                       const bool *due, enum unit unit, double *ret_u)
{
    int moves = 0;

    *ret_u = 0;
    line->by_string = true;
    for (int s = 1; s <= maker->strings; s++) {
        const struct figure *figure = &maker->figures->at[id][s];
        struct strbuf text = STRBUF(line->string[s]);

        if (figure->known == KNOWN_ABSENT)
            continue;
        if (!due[s]) {
            strbuf_add(&text, "ok");
            continue;
        }
        amount_add(&text, figure->value, unit, true);
        *ret_u = fmax(*ret_u, figure->u);
        moves++;
    }
    return moves;
}

/* Whether any due move of a figure is larger than its own uncertainty. */
static enum move_state strings_state(const struct maker *maker, enum figure_id id, const bool *due)
{
    enum move_state state = MOVE_UNKNOWN;

    for (int s = 1; s <= maker->strings; s++) {
        const struct figure *figure = &maker->figures->at[id][s];

        if (figure->known == KNOWN_ABSENT)
            continue;
        if (state == MOVE_UNKNOWN)
            state = MOVE_NOT_DUE;
        if (!due[s])
            continue;
        if (fabs(figure->value) > figure->u)
            return MOVE_DUE;
        state = MOVE_WITHIN;
    }
    return state;
}

static bool any_slot(const struct maker *maker, bool low)
{
    double change;

    for (int s = 1; s <= maker->strings; s++)
        if (figures_get(maker->figures, FIGURE_SLOT_CHANGE, s, &change) &&
            (low ? change > 0 : change < 0))
            return true;
    return false;
}

static void make_slots(struct maker *maker)
{
    struct move_line *line = add_line(maker, MOVE_SLOTS, "slots");
    struct strbuf amount = STRBUF(line->amount), then = STRBUF(line->then);
    struct strbuf caution = STRBUF(line->caution);
    const struct setup *setup = &maker->derived->setup;
    const bool *due = maker->derived->choice.slot;
    const enum unit unit = change_unit(maker->units);
    double u;

    line->state = strings_state(maker, FIGURE_SLOT_CHANGE, due);
    if (line->state == MOVE_UNKNOWN)
        say_missing(maker, line);
    if (put_strings(maker, line, FIGURE_SLOT_CHANGE, due, unit, &u) == 0)
        return;
    if (!any_slot(maker, true))
        strbuf_add(&amount, "file");
    else
        strbuf_add(&amount, any_slot(maker, false) ? "-file +fill" : "fill");
    add_u(&amount, u, unit);
    amount_add_unit(&amount, unit);
    if (add_outer(maker, &then, "action", FIGURE_ACTION_AFTER_NUT, MEASURE_RULE))
        strbuf_add(&then, "; ");
    strbuf_add(&then, "once the saddle is done gap ");
    amount_add_range(&then, setup->gap_target_bass_mm.value, setup->gap_target_treble_mm.value,
                     maker->units->bare[MEASURE_FEELER]);
    amount_add_unit(&then, maker->units->bare[MEASURE_FEELER]);
    strbuf_add(&caution, any_slot(maker, true)
                             ? "fill a low slot or make a new nut; respirator, and air for glue"
                             : "bone, shell and some woods: wear a respirator when filing");
}

static void add_exposure(const struct maker *maker, struct strbuf *out)
{
    const enum unit unit = maker->units->bare[MEASURE_DEPTH];
    double bass, treble;

    if (!figures_get(maker->figures, FIGURE_EXPOSURE_BASS_AFTER, 0, &bass) ||
        !figures_get(maker->figures, FIGURE_EXPOSURE_TREBLE_AFTER, 0, &treble))
        return;
    strbuf_add(out, ", exposure ");
    /* A rule reads no finer, and two places would promise more. */
    amount_add_range(out, round(10 * bass) / 10, round(10 * treble) / 10, unit);
    amount_add_unit(out, unit);
}

static bool is_turned(enum bridge_kind bridge)
{
    return bridge == BRIDGE_SCREW || bridge == BRIDGE_POST || bridge == BRIDGE_WHEEL;
}

/* A blank is cut at the bottom in one straight line; the rest comes off the top. */
static void add_blank_cut(const struct maker *maker, struct strbuf *out, enum unit unit)
{
    double bass, treble;

    if (!figures_get(maker->figures, FIGURE_SADDLE_BOTTOM, maker->strings, &bass) ||
        !figures_get(maker->figures, FIGURE_SADDLE_BOTTOM, 1, &treble))
        return;
    strbuf_add(out, ", bottom ");
    amount_add_range(out, bass, treble, unit);
    amount_add_unit(out, unit);
}

static void turn_strings(struct maker *maker, struct move_line *line, const bool *due)
{
    double turns;

    for (int s = 1; s <= maker->strings; s++) {
        const bool inner = !setup_has_own_height(&maker->derived->setup, s);

        if (!due[s] && !inner)
            continue;
        struct strbuf text = STRBUF(line->string[s]);
        if (inner || !figures_get(maker->figures, FIGURE_SADDLE_TURNS, s, &turns))
            continue;
        if (turns > 0)
            strbuf_add_char(&text, '+');
        num_format_fixed(turns, 2, true, &text);
    }
}

/* What a line says that asks for nothing. */
static void say_not_due(const struct maker *maker, struct move_line *line)
{
    struct strbuf text = STRBUF(line->amount);
    bool inner = false;

    for (int s = 1; s <= maker->strings; s++)
        inner = inner || (maker->derived->choice.saddle[s] &&
                          !setup_has_own_height(&maker->derived->setup, s));
    strbuf_add(&text, inner ? "outer strings on target; the inner ones follow the sides"
                            : "on target, leave it");
}

static void make_saddle(struct maker *maker)
{
    struct move_line *line = add_line(maker, MOVE_SADDLE, "saddle");
    struct strbuf amount = STRBUF(line->amount), then = STRBUF(line->then);
    struct strbuf caution = STRBUF(line->caution);
    const struct setup *setup = &maker->derived->setup;
    const enum unit unit = change_unit(maker->units);
    const enum unit rule = maker->units->bare[MEASURE_RULE];
    bool due[STRINGS_MAX + 1] = {false};
    double u;

    for (int s = 1; s <= maker->strings; s++)
        due[s] =
            maker->derived->choice.saddle[s] && setup_has_own_height(&maker->derived->setup, s);
    line->state = strings_state(maker, FIGURE_SADDLE_CHANGE, due);
    if (line->state == MOVE_UNKNOWN)
        say_missing(maker, line);
    if (line->state == MOVE_NOT_DUE)
        say_not_due(maker, line);
    if (put_strings(maker, line, FIGURE_SADDLE_CHANGE, due, unit, &u) == 0)
        return;
    if (is_turned(setup->bridge) && setup->thread_mm.given) {
        turn_strings(maker, line, due);
        strbuf_add(&amount, "turns \xC2\xB1");
        num_format_fixed(u / setup->thread_mm.value, 2, true, &amount);
        strbuf_add(&amount, ", + raises");
    } else {
        strbuf_add(&amount, "height");
        add_u(&amount, u, unit);
        amount_add_unit(&amount, unit);
    }
    strbuf_add(&then, "action ");
    amount_add_range(&then, setup->action_target_bass_mm.value,
                     setup->action_target_treble_mm.value, rule);
    amount_add_unit(&then, rule);
    add_exposure(maker, &then);
    if (setup->bridge == BRIDGE_BLANK)
        add_blank_cut(maker, &then, unit);
    strbuf_add(&caution, is_turned(setup->bridge)
                             ? "slacken the string before a screw is turned up"
                             : "sanding a saddle: respirator; keep the bottom square");
}

static void make_reset(struct maker *maker)
{
    double angle, cut;

    if (maker->derived->verdict != RESET_NECK ||
        !figures_get(maker->figures, FIGURE_ANGLE, 0, &angle))
        return;
    struct move_line *line = add_line(maker, MOVE_RESET, "reset");
    struct strbuf amount = STRBUF(line->amount), then = STRBUF(line->then);
    struct strbuf caution = STRBUF(line->caution);
    const struct figure_info *info = figure_info(FIGURE_ANGLE);
    const double u = maker->figures->at[FIGURE_ANGLE][0].u;

    line->state = fabs(angle) <= u ? MOVE_WITHIN : MOVE_DUE;
    strbuf_add(&amount, "neck angle ");
    num_format_fixed(angle * info->factor, 2, false, &amount);
    strbuf_add(&amount, " \xC2\xB1");
    num_format_fixed(u * info->factor, 2, false, &amount);
    strbuf_add(&amount, " deg");
    if (figures_get(maker->figures, FIGURE_HEEL_CUT, 0, &cut) ||
        figures_get(maker->figures, FIGURE_POCKET_SHIM, 0, &cut)) {
        strbuf_add(&then,
                   maker->derived->setup.heel_depth_mm.given ? "heel taper " : "pocket shim ");
        amount_add(&then, cut, UNIT_MM, false);
        strbuf_add(&then, " mm, ");
    }
    strbuf_add(&then, "exposure ");
    amount_add(&then, maker->derived->setup.exposure_new_mm, maker->units->bare[MEASURE_DEPTH],
               false);
    amount_add_unit(&then, maker->units->bare[MEASURE_DEPTH]);
    strbuf_add(&caution, "heat, steam and chisels: a qualified repairer's job; measure twice");
}

void move_list_make(const struct derived *derived, const struct shop_units *units,
                    struct move_list *ret_list)
{
    struct maker maker = {.derived = derived,
                          .figures = &derived->figures,
                          .units = units,
                          .list = ret_list,
                          .strings = derived->setup.board.strings};

    ret_list->count = 0;
    /* A reset changes all that follows, so it stands first. */
    make_reset(&maker);
    make_rod(&maker);
    make_slots(&maker);
    make_saddle(&maker);
}
