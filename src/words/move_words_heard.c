/* SPDX-License-Identifier: MIT */
#include "words/move_words_inside.h"

#include <math.h>

#include "base/num.h"
#include "model/derive/buzz_cause.h"
#include "model/reading/work_line.h"
#include "model/survey/survey_tight.h"
#include "words/frets_plan.h"

/* Moves that the ear and the tuner ask for. */

/* Not finer than a hand works, and to less, for wood and crowns do not grow again. */
static double to_less(double mm, double step_mm)
{
    return fmax(1, floor(fabs(mm) / step_mm + 1e-6)) * step_mm;
}

/* What it may be off by, no finer either, and to more. */
static void add_u(struct maker *maker, double u_mm, double step_mm, enum unit unit)
{
    if (u_mm > 0)
        amount_add_doubt(&maker->amount, ceil(u_mm / step_mm - 1e-6) * step_mm, unit);
    amount_add_unit(&maker->amount, unit);
}

/* Without frets it is the board that stands high, at a mark. */
static void add_fret(struct maker *maker, int fret, int count)
{
    const bool fretless = maker->setup->outfit.fretless;
    const char *between = count == 1 ? "" : "; ";

    if (maker->set->frets.guessed[fret])
        strbuf_addf(&maker->amount,
                    fretless ? "%stry mark %d with a straightedge; if it is high, sand "
                             : "%srock fret %d; if it is high, level ",
                    between, fret);
    else if (count == 1)
        strbuf_addf(&maker->amount,
                    fretless ? "sand the board at mark %d: " : "level fret %d: ", fret);
    else
        strbuf_addf(&maker->amount, fretless ? ", mark %d: " : ", fret %d: ", fret);
}

/* Of what was rocked: one doubt stands for all. */
static double largest_u(const struct maker *maker)
{
    double most_u = 0;

    for (int n = 1; n <= maker->setup->board.frets; n++)
        if (maker->set->frets.fret[n].due && !maker->set->frets.guessed[n])
            most_u = fmax(most_u, maker->set->frets.fret[n].u);
    return most_u;
}

/* What the ear says of a fret lies between two bounds, which the Frets leaf says too; where no
 * clean note bounds it from above, what may be taken off by ear at all does. */
static void add_guess(struct maker *maker, const struct move_amount *amount, enum unit unit)
{
    amount_add(&maker->amount, -amount->value, unit, false);
    strbuf_add(&maker->amount, " to ");
    amount_add(&maker->amount, amount->u > 0 ? amount->u - amount->value : BUZZ_HIGH_MOST_MM, unit,
               false);
    amount_add_unit(&maker->amount, unit);
}

/* As many as fit; the Frets leaf has them all. False where none is due. */
static bool add_frets(struct maker *maker, enum unit unit)
{
    enum { SHOWN_MAX = 3 };
    const double step_mm = unit == UNIT_TH ? 0.0254 : 0.02;
    bool rocked = false;
    int count = 0;

    for (int n = 1; n <= maker->setup->board.frets; n++) {
        const struct move_amount *amount = &maker->set->frets.fret[n];

        if (!amount->due || ++count > SHOWN_MAX)
            continue;
        if (rocked && maker->set->frets.guessed[n])
            add_u(maker, largest_u(maker), step_mm, unit);
        add_fret(maker, n, count);
        if (maker->set->frets.guessed[n])
            add_guess(maker, amount, unit);
        else
            amount_add(&maker->amount, to_less(amount->value, step_mm), unit, false);
        rocked = !maker->set->frets.guessed[n];
    }
    if (rocked)
        add_u(maker, largest_u(maker), step_mm, unit);
    if (count > SHOWN_MAX)
        strbuf_addf(&maker->amount, " and %d more", count - SHOWN_MAX);
    return count > 0;
}

/* What was done of the frets: "level fret 8: .003, fret 9: .002 in", without the guesses if these
 * were not found. */
static int add_levelled(struct maker *maker, bool found, struct strbuf *out)
{
    const bool fretless = maker->setup->outfit.fretless;
    const enum unit unit = move_words_change_unit(maker->units);
    const double step_mm = unit == UNIT_TH ? 0.0254 : 0.02;
    int count = 0;

    for (int n = 1; n <= maker->setup->board.frets; n++) {
        const struct move_amount *amount = &maker->set->frets.fret[n];

        if (!amount->due || (maker->set->frets.guessed[n] && !found))
            continue;
        strbuf_add(out, count > 0 ? ", " : fretless ? "sand the board at " : "level ");
        strbuf_addf(out, "%s %d: ", outfit_fret_noun(&maker->setup->outfit), n);
        amount_add(out, to_less(amount->value, step_mm), unit, false);
        count++;
    }
    if (count > 0)
        amount_add_unit(out, unit);
    return count;
}

static void add_rocked(struct maker *maker, struct strbuf *out)
{
    const bool fretless = maker->setup->outfit.fretless;
    int count = 0;

    for (int n = 1; n <= maker->setup->board.frets; n++) {
        if (!maker->set->frets.fret[n].due || !maker->set->frets.guessed[n])
            continue;
        strbuf_add(out, count++ > 0 ? ", " : fretless ? WORK_TRIED : WORK_ROCKED);
        strbuf_addf(out, "%s %d", outfit_fret_noun(&maker->setup->outfit), n);
    }
    strbuf_add(out, WORK_NOT_HIGH);
}

/* Where the ear alone accuses a fret, whether it was high is not known before it was rocked: what
 * is logged says no more than that it was, until the tech says that it was levelled. */
static void add_outcomes(struct maker *maker)
{
    struct strbuf done = STRBUF(maker->words->done), found = STRBUF(maker->words->found);
    bool guessed = false;

    for (int n = 1; n <= maker->setup->board.frets; n++)
        guessed |= maker->set->frets.fret[n].due && maker->set->frets.guessed[n];
    if (!guessed)
        return;
    (void)add_levelled(maker, true, &found);
    strbuf_add(&done, add_levelled(maker, false, &done) > 0 ? "; " : "");
    add_rocked(maker, &done);
}

/* Frets found low are not built up: the others go down to the lowest, or these come out. */
static void add_low(struct maker *maker, bool alone)
{
    const struct fret_work *frets = &maker->set->frets;
    const struct outfit *outfit = &maker->setup->outfit;
    const enum unit unit = maker->units->bare[MEASURE_FEELER];
    double low_mm = 0;

    if (frets->low == 0)
        return;
    for (int n = 1; n <= maker->setup->board.frets; n++)
        if (frets->low >> n & 1)
            low_mm = fmax(low_mm, -maker->setup->spot_mm[n].value);
    strbuf_add(&maker->amount, alone ? "" : "; ");
    strbuf_add(&maker->amount, outfit->fretless ? "board worn low, " : "frets worn low, ");
    frets_add_set(&maker->amount, frets->low);
    strbuf_add(&maker->amount, ", by ");
    amount_add(&maker->amount, low_mm, unit, false);
    amount_add_unit(&maker->amount, unit);
    strbuf_add(&maker->amount,
               outfit->fretless ? ": plane the rest down" : ": refret, or level the rest");
}

void move_words_say_rocker(struct maker *maker)
{
    const struct fret_work *frets = &maker->set->frets;
    const struct outfit *outfit = &maker->setup->outfit;

    if (frets->again != 0) {
        strbuf_add(&maker->amount, "does not fit what you heard; rock again around ");
        frets_add_frets(&maker->amount, outfit, frets->again);
    } else {
        strbuf_add(&maker->amount, "rock ");
        frets_add_frets(&maker->amount, outfit, frets->worn | frets->rock);
        strbuf_add(&maker->amount, frets->worn == 0   ? " first: is it high?"
                                   : frets->rock == 0 ? " first: worn low?"
                                                      : " first: high, or worn low?");
    }
}

void move_words_say_frets(struct maker *maker)
{
    int count = 0;

    const bool levels = add_frets(maker, move_words_change_unit(maker->units));

    add_outcomes(maker);
    add_low(maker, !levels);
    const struct outfit *outfit = &maker->setup->outfit;

    strbuf_add(&maker->then, "the rocker stands still");
    for (int s = maker->setup->board.strings; s >= 1; s--) {
        if (!maker->set->frets.quiet[s])
            continue;
        strbuf_add(&maker->then, count == 0 ? ", clean on " : ", ");
        if (count++ == 0)
            strbuf_addf(&maker->then, "%s ", outfit_noun(outfit, s));
        strbuf_addf(&maker->then, "%d", outfit_number(outfit, s));
    }
    strbuf_add(&maker->caution, frets_work_caution(outfit));
}

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
        amount_add(out, to_less(amount->value, contact_step_mm(unit)), unit, false);
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
        add_u(maker, maker->move->most_u, step_mm, unit);
        return;
    }
    while (string > 1 && !maker->move->string[string].due)
        string--;
    const struct move_amount *amount = &maker->move->string[string];
    strbuf_add(&maker->amount, amount->value < 0 ? "saddle forward " : "saddle back ");
    amount_add(&maker->amount, to_less(amount->value, step_mm), unit, false);
    add_u(maker, amount->u, step_mm, unit);
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
    amount_add(&maker->amount, to_less(mm, step_mm), unit, false);
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
    add_u(maker, maker->move->most_u, step_mm, unit);
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
        amount_add(out, amount->due ? to_less(amount->value, contact_step_mm(unit)) : 0, unit,
                   false);
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

/* By the readings some note buzzes, and nobody has played any. */
static bool add_play_first(struct strbuf *out, const struct derived *derived)
{
    const struct outfit *outfit = &derived->setup.outfit;
    struct tight_note note;

    if (!derived->moves.move[MOVE_FRETS].unchecked || !survey_tightest(derived, &note) ||
        note.share >= 1)
        return false;
    strbuf_addf(out, "; play it first: tightest %s %d ", outfit_noun(outfit, note.string),
                outfit_number(outfit, note.string));
    frets_add_note_name(outfit, note.string, note.note, "at ", out);
    return true;
}

void move_words_add_ready(struct strbuf *out, const struct derived *derived)
{
    static const char *const words[MOVE_COUNT_] = {
        [MOVE_FRETS] = "not heard", [MOVE_PITCH] = "not tuned"};
    const char *before = "; ";
    const bool plays = add_play_first(out, derived);

    strbuf_add(out, plays ? "" : ": it can go back");
    if (move_is_left(&derived->moves.move[MOVE_ROD])) {
        strbuf_add(out, "; no rod brings its relief nearer");
        before = "; ";
    }
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        if (!words[kind] || !derived->moves.move[kind].unchecked || (plays && kind == MOVE_FRETS) ||
            !outfit_has_move(&derived->setup.outfit, (enum move_kind)kind))
            continue;
        strbuf_addf(out, "%s%s", before, words[kind]);
        before = ", ";
    }
}
