/* SPDX-License-Identifier: MIT */
#include "words/move_words_inside.h"

#include <math.h>

#include "base/num.h"
#include "model/derive/buzz_cause.h"
#include "model/reading/work_line.h"
#include "model/survey/survey_tight.h"
#include "words/frets_plan.h"

/* The frets, which the ear and the rocker ask for. */

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
            move_words_add_step_u(maker, largest_u(maker), step_mm, unit);
        add_fret(maker, n, count);
        if (maker->set->frets.guessed[n])
            add_guess(maker, amount, unit);
        else
            amount_add(&maker->amount, move_words_to_less(amount->value, step_mm), unit, false);
        rocked = !maker->set->frets.guessed[n];
    }
    if (rocked)
        move_words_add_step_u(maker, largest_u(maker), step_mm, unit);
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
        amount_add(out, move_words_to_less(amount->value, step_mm), unit, false);
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
