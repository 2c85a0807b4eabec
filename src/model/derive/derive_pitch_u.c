/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_pitch_u.h"

#include <math.h>
#include <stddef.h>

#include "model/setup/uncertainty.h"

/* Everything that the predictions are made from; the two setups are moved and put back. */
struct walk {
    struct place place;
    struct setup setup, flat; /* as it is; and with no setback, as setbacks are looked for */
    struct move_choice choice;
    struct string_lines lines, flat_lines;
    const struct string_facts *facts;
};

struct string_walk {
    int string;
    struct pitch_case middle; /* at the mean of all that is assumed */
    struct pitch_outcomes expected;
    struct pitch_spread spread;
    int outcome;               /* whose parts are wanted */
    struct pitch_parts *parts; /* NULL: none */
};

static void begin_walk(struct place place, const struct setup *setup,
                       const struct string_facts *facts, const struct string_lines *lines,
                       struct walk *ret_walk)
{
    struct figures unused;

    ret_walk->place = place;
    ret_walk->setup = ret_walk->flat = *setup;
    ret_walk->lines = *lines;
    ret_walk->facts = facts;
    board_drop_setbacks(&ret_walk->flat.board);
    moves_solve(&ret_walk->flat, NULL, &unused, &ret_walk->choice, &ret_walk->flat_lines);
}

static void add_part(struct pitch_parts *parts, const char *label, const char *source, double u)
{
    if (parts && parts->count < ASSUMED_MAX + 1 && u > 0)
        parts->part[parts->count++] = (struct pitch_part){label, source, u};
}

/* A prediction at a source's centre, where its mean lies beside it: by the parabola through the
 * mean and both tries. */
static double at_centre(const struct pitch_assumption_ways *ways, double mean,
                        const double tries[2])
{
    const double m = ways->moment[0], x0 = ways->at[0], x1 = ways->at[1];

    return mean * x0 * x1 / ((m - x0) * (m - x1)) + tries[0] * m * x1 / ((x0 - m) * (x0 - x1)) +
           tries[1] * m * x0 / ((x1 - m) * (x1 - x0));
}

/* Takes a source in, and its part for itself: what it would be alone. */
static void add_source(struct string_walk *at, enum pitch_assumption_shape shape,
                       const struct pitch_outcomes tries[PITCH_ASSUMPTION_POINTS],
                       const struct pitch_assumption *assumption)
{
    pitch_spread_add(&at->spread, shape, &at->expected, tries);
    if (!at->parts || !assumption)
        return;
    const struct pitch_assumption_ways *ways = pitch_assumption_ways(shape);
    const double tried[2] = {tries[0].at[at->outcome], tries[1].at[at->outcome]};
    struct pitch_spread alone;

    pitch_spread_begin(&at->expected, &alone);
    pitch_spread_add(&alone, shape, &at->expected, tries);
    if (ways->moment[0] > 0)
        alone.cumulant[at->outcome][0] +=
            at->expected.at[at->outcome] - at_centre(ways, at->expected.at[at->outcome], tried);
    add_part(at->parts, assumption->label, assumption->source, pitch_spread_u(&alone, at->outcome));
}

/* How far off its mean an assumption is tried. */
static double off_mean(const struct pitch_assumption_held *held, int i)
{
    const struct pitch_assumption_ways *ways =
        pitch_assumption_ways(pitch_assumption_get(held->id)->shape);

    return (ways->at[i] - ways->moment[0]) * held->size;
}

static void try_assumption(const struct string_walk *at, const struct pitch_assumption_held *held,
                           struct pitch_outcomes tries[PITCH_ASSUMPTION_POINTS])
{
    for (int i = 0; i < PITCH_ASSUMPTION_POINTS; i++) {
        struct pitch_case moved = at->middle;

        pitch_assumption_move(pitch_assumption_get(held->id)->about, off_mean(held, i), &moved);
        pitch_predict_beside(&moved, &at->spread.centre, &at->middle, &at->expected, &tries[i]);
    }
}

/* The string pressed as the tuner tells, `first` and `second` standard uncertainties off in depth
 * and in what the ends have of their own: the two go together, so the ends are moved along with the
 * depth. */
static void press(const struct intonation_calibration *fit, double first, double second,
                  struct pitch_case *moved)
{
    const double r = fit->correlation, alone = sqrt(fmax(1 - r * r, 0));

    pitch_assumption_set_pressed(
        fit->press_depth_mm.value + first * fit->press_depth_mm.expanded_u / 2,
        fit->clamped_ends.value + (r * first + alone * second) * fit->clamped_ends.expanded_u / 2,
        moved);
}

static void add_calibrated(struct string_walk *at, const struct intonation_calibration *fit)
{
    const struct pitch_assumption_ways *ways = pitch_assumption_ways(SHAPE_NORMAL);
    const struct pitch_assumption *assumption = pitch_assumption_get(PITCH_ASSUMPTION_BY_TUNER);
    struct pitch_outcomes depth[PITCH_ASSUMPTION_POINTS], ends[PITCH_ASSUMPTION_POINTS];

    for (int i = 0; i < PITCH_ASSUMPTION_POINTS; i++) {
        struct pitch_case moved = at->middle;

        press(fit, ways->at[i], 0, &moved);
        pitch_predict_near(&moved, &at->spread.centre, &depth[i]);
        press(fit, 0, ways->at[i], &moved);
        pitch_predict_near(&moved, &at->spread.centre, &ends[i]);
    }
    add_source(at, SHAPE_NORMAL, depth, assumption);
    add_source(at, SHAPE_NORMAL, ends, assumption);
}

/*
 * What the string would be at the mean of all that is assumed of it, and what the values shown are
 * off by then: for what can lie on one side only, and where the tuner tells other than what is in
 * use. From there each source is moved in turn.
 */
static void expect(const struct assumed *assumed, struct string_walk *at)
{
    for (int i = 0; i < assumed->count; i++) {
        const struct pitch_assumption_held *held = &assumed->held[i];
        const struct pitch_assumption *assumption = pitch_assumption_get(held->id);
        const double mean = pitch_assumption_ways(assumption->shape)->moment[0];

        if (held->id == PITCH_ASSUMPTION_BY_TUNER)
            press(&assumed->calibration, 0, 0, &at->middle);
        else if (mean * held->size > 0)
            pitch_assumption_move(assumption->about, mean * held->size, &at->middle);
    }
    pitch_predict_near(&at->middle, &at->spread.centre, &at->expected);
    pitch_spread_shift(&at->spread, &at->expected);
}

/* The variance of an assumption over the square of its second try. */
static double variance_share(const struct pitch_assumption_held *held)
{
    const struct pitch_assumption_ways *ways =
        pitch_assumption_ways(pitch_assumption_get(held->id)->shape);
    const double off = ways->at[1] - ways->moment[0];

    return pitch_assumption_variance(pitch_assumption_get(held->id)->shape) / (off * off);
}

/* What depth does the others multiply: near the fret, or with a thick core, it matters more.
 * Neither shows that alone. */
static void add_product(struct string_walk *at, const struct pitch_assumption_held *depth,
                        const struct pitch_outcomes *deep,
                        const struct pitch_assumption_held *other,
                        const struct pitch_outcomes *moved_other)
{
    struct pitch_case pressed = at->middle;
    struct pitch_outcomes both;

    pitch_assumption_move(pitch_assumption_get(depth->id)->about, off_mean(depth, 1), &pressed);
    struct pitch_case moved = pressed;
    pitch_assumption_move(pitch_assumption_get(other->id)->about, off_mean(other, 1), &moved);
    pitch_predict_beside(&moved, &at->spread.centre, &pressed, deep, &both);
    pitch_spread_add_product(&at->spread, &at->expected, deep, moved_other, &both,
                             variance_share(depth) * variance_share(other));
}

static void add_assumed(const struct walk *walk, struct string_walk *at)
{
    struct pitch_outcomes tries[PITCH_ASSUMPTION_POINTS], deep;
    const struct pitch_assumption_held *depth = NULL;
    struct assumed assumed;

    derive_assumed(walk->place, &walk->setup, &walk->choice, &walk->facts[at->string], &walk->lines,
                   at->string, &assumed);
    expect(&assumed, at);
    for (int i = 0; i < assumed.count; i++) {
        const struct pitch_assumption_held *held = &assumed.held[i];

        if (held->id == PITCH_ASSUMPTION_BY_TUNER) {
            add_calibrated(at, &assumed.calibration);
            continue;
        }
        if (!(held->size > 0))
            continue;
        try_assumption(at, held, tries);
        add_source(at, pitch_assumption_get(held->id)->shape, tries,
                   pitch_assumption_get(held->id));
        if (depth) {
            add_product(at, depth, &deep, held, &tries[1]);
        } else if (held->id == PITCH_ASSUMPTION_DEPTH_ASSUMED) {
            depth = held;
            deep = tries[1];
        }
    }
}

/* The values shown are the centre; false where there are none. */
static bool find_centre(const struct walk *walk, int string, const struct fret_pitch *pitch,
                        const struct figures *figures, struct pitch_outcomes *centre)
{
    static const enum figure_id ids[] = {[OUTCOME_SETBACK] = FIGURE_SETBACK_PREDICTED,
                                         [OUTCOME_SETBACK_BEST] = FIGURE_SETBACK_BEST,
                                         [OUTCOME_NUT_BEST] = FIGURE_NUT_ADVANCE_BEST};
    const int start = walk->setup.board.start_fret[string];

    for (int i = 0; i < OUTCOME_COUNT_; i++)
        centre->at[i] = (double)NAN;
    for (int i = 0; i < OUTCOME_OPEN; i++)
        centre->at[i] = maybe_or(figures_get(figures, ids[i], string), (double)NAN);
    for (int n = 1; start + n <= walk->setup.board.frets; n++)
        centre->at[OUTCOME_OPEN + n] = maybe_or(pitch->cents[start + n], (double)NAN);
    for (int i = 0; i < OUTCOME_COUNT_; i++)
        if (!isnan(centre->at[i]))
            return true;
    return false;
}

/* False where nothing is predicted for the string. */
static bool begin_string(const struct walk *walk, const struct fret_pitch *pitch,
                         const struct figures *figures, struct pitch_case_store *store,
                         struct string_walk *at)
{
    struct pitch_outcomes centre;

    if (!find_centre(walk, at->string, pitch, figures, &centre) ||
        !derive_pitch_case(&walk->place.record, &walk->setup, &walk->facts[at->string],
                           &walk->lines, &walk->flat_lines, at->string, store, &at->middle))
        return false;
    pitch_spread_begin(&centre, &at->spread);
    add_assumed(walk, at);
    return true;
}

static bool same_line(const struct string_lines *a, const struct string_lines *b, bool after,
                      int string)
{
    const struct string_line *one = after ? &a->after[string] : &a->now[string];
    const struct string_line *other = after ? &b->after[string] : &b->now[string];
    const struct neck_curve *curve = after ? &a->curve_after : &a->curve_now;
    const struct neck_curve *moved = after ? &b->curve_after : &b->curve_now;

    return one->nut_mm == other->nut_mm && one->saddle_mm == other->saddle_mm &&
           curve->kappa_per_mm == moved->kappa_per_mm;
}

struct moved_lines {
    struct string_lines now, flat;
};

/* The lines with one reading off by `by`; it stands in both setups. */
static void move_reading(const struct walk *walk, double *now, double *flat, double by,
                         struct moved_lines *ret_lines)
{
    const double middle = *now;
    struct figures unused;

    *now = *flat = middle + by;
    moves_solve(&walk->setup, NULL, &unused, NULL, &ret_lines->now);
    moves_solve(&walk->flat, &walk->choice, &unused, NULL, &ret_lines->flat);
    *now = *flat = middle;
}

static void take_heights(const struct intonation_setup *from, struct intonation_setup *string)
{
    string->nut_height_mm = from->nut_height_mm;
    string->saddle_height_mm = from->saddle_height_mm;
    string->crown_mm = from->crown_mm;
}

/* What a reading does to one string; nothing where it does not touch it. Its step is so small that
 * the way up and the way down are alike. */
static void add_reading(const struct walk *walk, const struct moved_lines *lines,
                        struct string_walk *at)
{
    struct pitch_outcomes tries[PITCH_ASSUMPTION_POINTS];
    struct pitch_case_store store;
    struct pitch_case moved = at->middle, read = {.has_now = false};

    if (same_line(&lines->now, &walk->lines, false, at->string) &&
        same_line(&lines->flat, &walk->flat_lines, true, at->string))
        return;
    (void)derive_pitch_case(&walk->place.record, &walk->setup, &walk->facts[at->string],
                            &lines->now, &lines->flat, at->string, &store, &read);
    moved.has_now = read.has_now;
    moved.has_target = read.has_target;
    take_heights(&read.now, &moved.now);
    take_heights(&read.target, &moved.target);
    pitch_predict_beside(&moved, &at->spread.centre, &at->middle, &at->expected, &tries[1]);
    for (int i = 0; i < OUTCOME_COUNT_; i++)
        tries[0].at[i] = 2 * at->expected.at[i] - tries[1].at[i];
    add_source(at, SHAPE_RECTANGLE, tries, NULL);
}

/* Each string has to be moved by each reading; so the readings are walked once for all. */
static void add_readings(struct walk *walk, struct string_walk *strings, int count)
{
    const double off = pitch_assumption_ways(SHAPE_RECTANGLE)->at[1] / 2;
    struct uncertain now[UNCERTAIN_MAX], flat[UNCERTAIN_MAX];
    const int readings = uncertainty_list(&walk->setup, now);
    struct moved_lines lines;

    (void)uncertainty_list(&walk->flat, flat);
    for (int r = 0; r < readings; r++) {
        if (!(now[r].step > 0) || !isfinite(now[r].step))
            continue;
        move_reading(walk, now[r].reading, flat[r].reading, off * now[r].step, &lines);
        for (int k = 0; k < count; k++)
            add_reading(walk, &lines, &strings[k]);
    }
}

static void put_u(const struct string_walk *at, const struct board *board, struct fret_pitch *pitch,
                  struct figures *figures)
{
    const int start = board->start_fret[at->string];

    figures->at[FIGURE_SETBACK_PREDICTED][at->string].u =
        pitch_spread_u(&at->spread, OUTCOME_SETBACK);
    figures->at[FIGURE_SETBACK_BEST][at->string].u =
        pitch_spread_u(&at->spread, OUTCOME_SETBACK_BEST);
    figures->at[FIGURE_NUT_ADVANCE_BEST][at->string].u =
        pitch_spread_u(&at->spread, OUTCOME_NUT_BEST);
    for (int n = 1; start + n <= board->frets; n++)
        pitch->cents_u[start + n] = pitch_spread_u(&at->spread, OUTCOME_OPEN + n);
}

void derive_pitch_u(struct place place, const struct setup *setup, const struct string_facts *facts,
                    const struct string_lines *lines, struct fret_pitch *pitch,
                    struct figures *figures)
{
    struct pitch_case_store stores[STRINGS_MAX];
    struct string_walk strings[STRINGS_MAX];
    struct walk walk;
    int count = 0;

    begin_walk(place, setup, facts, lines, &walk);
    for (int s = 1; s <= setup->board.strings; s++) {
        strings[count] = (struct string_walk){.string = s};
        count += begin_string(&walk, &pitch[s], figures, &stores[count], &strings[count]);
    }
    if (count == 0)
        return;
    add_readings(&walk, strings, count);
    for (int k = 0; k < count; k++)
        put_u(&strings[k], &setup->board, &pitch[strings[k].string], figures);
}

static void put_largest_first(struct pitch_parts *parts)
{
    for (int i = 1; i < parts->count; i++)
        for (int k = i; k > 0 && parts->part[k].u > parts->part[k - 1].u; k--) {
            const struct pitch_part larger = parts->part[k];

            parts->part[k] = parts->part[k - 1];
            parts->part[k - 1] = larger;
        }
}

void derive_pitch_parts(struct place place, const struct setup *setup,
                        const struct string_facts *facts, const struct string_lines *lines,
                        const struct fret_pitch *pitch, const struct figures *figures, int string,
                        int outcome, struct pitch_parts *ret_parts)
{
    struct string_walk at = {.string = string, .outcome = outcome, .parts = ret_parts};
    struct pitch_case_store store;
    struct pitch_spread before;
    struct walk walk;

    ret_parts->count = 0;
    begin_walk(place, setup, facts, lines, &walk);
    if (!begin_string(&walk, pitch, figures, &store, &at))
        return;
    before = at.spread;
    add_readings(&walk, &at, 1);
    add_part(ret_parts, "gauges", NULL,
             2 * sqrt(fmax(at.spread.cumulant[outcome][1] - before.cumulant[outcome][1], 0)));
    put_largest_first(ret_parts);
}
