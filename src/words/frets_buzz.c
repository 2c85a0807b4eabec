/* SPDX-License-Identifier: MIT */
#include "words/frets_plan_inside.h"

#include "words/amount.h"

/* What was heard to buzz, and why, in numbers and words. */

void frets_add_set(struct strbuf *out, uint64_t set)
{
    const char *between = "";

    for (int n = 0; n <= FRETS_MAX; n++) {
        int last = n;

        if (!(set >> n & 1))
            continue;
        while (last < FRETS_MAX && (set >> (last + 1) & 1))
            last++;
        strbuf_addf(out, "%s%d", between, n);
        if (last > n)
            strbuf_addf(out, "-%d", last);
        between = " ";
        n = last;
    }
}

/* Notes, 0 for the open string. */
static void add_notes(struct strbuf *out, const struct frets_plan *plan, int string, uint64_t notes)
{
    const uint64_t open = UINT64_C(1) << plan->outfit.from_fret[string];

    frets_add_set(out, notes & open ? (notes & ~open) | 1 : notes);
}

void frets_add_frets(struct strbuf *out, const struct outfit *outfit, uint64_t frets)
{
    const bool many = (frets & (frets - 1)) != 0;

    strbuf_add(out, outfit->fretless ? many ? "marks " : "mark " : many ? "frets " : "fret ");
    frets_add_set(out, frets);
}

/* How much higher than measured a fret stands; a number too small to see is none. */
static void add_range(struct strbuf *out, const struct clearance_high_fret *high,
                      const struct shop_units *units)
{
    const enum unit unit = units->bare[MEASURE_FEELER];
    const bool from_none = high->least_mm < HIGH_LEAST_MM;

    if (from_none || !high->bounded)
        strbuf_add(out, high->bounded ? "up to " : "at least ");
    else
        amount_add(out, high->least_mm, unit, false);
    if (high->bounded && !from_none)
        strbuf_add(out, " to ");
    amount_add(out, high->bounded ? high->most_mm : high->least_mm, unit, false);
    amount_add_unit(out, unit);
}

static void add_unsure(struct strbuf *out, const struct outfit *outfit,
                       const struct clearance_high_fret *high, const struct shop_units *units)
{
    if (high->clean_against > 0) {
        strbuf_add(out, "the notes do not agree: rock ");
        frets_add_frets(out, outfit, UINT64_C(1) << high->fret);
        strbuf_add(out, ", play again");
        return;
    }
    frets_add_frets(out, outfit, UINT64_C(1) << high->fret);
    strbuf_add(out, " may stand ");
    add_range(out, high, units);
    strbuf_add(out, " high: rock it");
}

static void add_unfit(struct strbuf *out, const struct outfit *outfit,
                      const struct clearance_high_fret *high, const struct shop_units *units)
{
    frets_add_frets(out, outfit, UINT64_C(1) << high->fret);
    strbuf_add_char(out, ' ');
    frets_add_gap(out, high->least_mm, units);
    strbuf_add(out, " high does not fit: rock again there");
}

static void add_low(struct strbuf *out, const struct outfit *outfit, const struct buzz *found)
{
    frets_add_frets(out, outfit, found->low);
    strbuf_add(out, ", low by the rocker");
    if (found->rock != 0) {
        strbuf_add(out, "; rock ");
        frets_add_frets(out, outfit, found->rock);
        strbuf_add(out, " too");
    }
}

static void add_worn(struct strbuf *out, const struct outfit *outfit, uint64_t rock)
{
    strbuf_add(out, "what is ahead is level; rock ");
    frets_add_frets(out, outfit, rock);
    strbuf_add(out, ": worn low?");
}

static void add_as_read(struct strbuf *out, const struct outfit *outfit,
                        const struct clearance_high_fret *high)
{
    strbuf_add(out, "as measured, the string touches ");
    frets_add_frets(out, outfit, UINT64_C(1) << high->fret);
}

static void add_unexplained(struct strbuf *out, const struct frets_plan *plan, int string)
{
    const int fretted = plan->outfit.from_fret[string] + 1;

    strbuf_addf(out,
                fretted < plan->frets && plan->headroom[string][fretted] == HEADROOM_UNKNOWN
                    ? "enter heights and gauges first, then the %s is named"
                    : "no %s ahead explains it; look at nut, saddle, loose parts",
                outfit_fret_noun(&plan->outfit));
}

static void add_cause(struct strbuf *out, const struct frets_plan *plan, int string,
                      const struct shop_units *units)
{
    const struct outfit *outfit = &plan->outfit;
    const struct survey_buzz *buzz = &plan->buzz[string];

    switch (buzz->found.cause) {
    case BUZZ_ROCKED:
        strbuf_addf(out, "%s %d, ", outfit->fretless ? "mark" : "fret", buzz->found.fret);
        frets_add_gap(out, buzz->rocker_mm, units);
        strbuf_add(out, " high by the rocker");
        break;
    case BUZZ_LOW:
        add_low(out, outfit, &buzz->found);
        break;
    case BUZZ_HIGH:
        frets_add_frets(out, outfit, UINT64_C(1) << buzz->high.fret);
        strbuf_add(out, " stands ");
        add_range(out, &buzz->high, units);
        strbuf_add(out, " higher than measured");
        break;
    case BUZZ_UNSURE:
        add_unsure(out, outfit, &buzz->high, units);
        break;
    case BUZZ_WORN:
        add_worn(out, outfit, buzz->found.rock);
        break;
    case BUZZ_UNFIT:
        add_unfit(out, outfit, &buzz->high, units);
        break;
    case BUZZ_AS_READ:
        add_as_read(out, outfit, &buzz->high);
        break;
    case BUZZ_UNEXPLAINED:
        add_unexplained(out, plan, string);
        break;
    case BUZZ_NONE:
        break;
    }
}

bool frets_add_buzz(const struct frets_plan *plan, int string, const struct shop_units *units,
                    struct strbuf *out)
{
    if (!plan->buzz[string].heard)
        return false;
    frets_add_string(out, plan, string);
    strbuf_add(out, "buzzes at ");
    add_notes(out, plan, string, plan->buzz[string].buzzing);
    strbuf_add(out, ": ");
    add_cause(out, plan, string, units);
    return true;
}

static void add_air(const struct frets_plan *plan, int string, int note,
                    const struct shop_units *units, struct strbuf *out)
{
    frets_add_note_name(&plan->outfit, string, note, "note ", out);
    strbuf_add_char(out, ' ');
    frets_add_gap(out, plan->buzz[string].margin_mm[note], units);
}

bool frets_add_evidence(const struct frets_plan *plan, int string, const struct shop_units *units,
                        struct strbuf *out)
{
    const struct survey_buzz *buzz = &plan->buzz[string];

    const enum buzz_cause cause = buzz->found.cause;

    if (!buzz->explained || cause < BUZZ_HIGH || cause == BUZZ_WORN)
        return false;
    strbuf_add(out, "air over it: ");
    add_air(plan, string, buzz->high.least_note, units, out);
    strbuf_add(out, ", buzzes");
    if (buzz->high.bounded) {
        strbuf_add(out, "; ");
        add_air(plan, string, buzz->high.most_note, units, out);
        strbuf_add(out, ", clean");
    }
    if (buzz->misfit > 0) {
        strbuf_add(out, "; against it: ");
        add_notes(out, plan, string, buzz->unexplained | buzz->against);
    }
    return true;
}
