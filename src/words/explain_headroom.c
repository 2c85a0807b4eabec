/* SPDX-License-Identifier: MIT */
#include "words/explain.h"

#include "model/survey/survey_headroom.h"
#include "words/amount.h"
#include "words/frets_plan.h"

static void add_text(struct explanation *out, enum explain_part part, const char *text)
{
    struct strbuf line = explain_add_line(out, part);

    strbuf_add(&line, text);
}

static void add_length(struct explanation *out, const char *symbol, double mm)
{
    struct strbuf line = explain_add_line(out, EXPLAIN_SYMBOL);

    strbuf_add(&line, symbol);
    strbuf_add(&line, " = ");
    amount_add_all(&line, mm, UNIT_IN);
}

static void add_number(struct explanation *out, const char *symbol, double value, const char *unit)
{
    struct strbuf line = explain_add_line(out, EXPLAIN_SYMBOL);

    strbuf_add(&line, symbol);
    strbuf_add(&line, " = ");
    num_format_fixed(value, 2, false, &line);
    strbuf_add_char(&line, ' ');
    strbuf_add(&line, unit);
}

/* How the touch is known. */
static void add_touch(const struct touch *touch, struct explanation *out)
{
    struct strbuf line = explain_add_line(out, EXPLAIN_SYMBOL);

    strbuf_addf(&line, "the touch is %.2f of a medium one", touch->share);
    if (touch->by_ear)
        strbuf_addf(&line, ", by ear: %.2f still buzzed, %.2f was clean", touch->least.value,
                    touch->most.value);
    else if (touch->most.given)
        strbuf_addf(&line, ": not over %.2f, which was heard clean", touch->most.value);
    else
        strbuf_add(&line, ", as stated: list notes heard clean and buzzing to know it by ear");
}

static void add_symbols(const struct derived *derived, const struct clearance_string *line,
                        int string, int note, int at, struct explanation *out)
{
    double clear_mm, envelope_mm;

    if (clearance_find_clear(line, note, at, &clear_mm) == STATUS_OK)
        add_length(out, "clear(n, k), the string's line over the crown of k", clear_mm);
    if (clearance_find_envelope(line, note, at, 1, &envelope_mm) == STATUS_OK)
        add_length(out, "envelope(n, k), the swing there for y0 = 1 mm", envelope_mm);
    add_length(out, "p, pluck to saddle", line->pluck_mm);
    add_length(out, "l, saddle to n along the board", line->saddle_x_mm - line->x_mm[note]);
    add_number(out, "T0, tension open", line->open_tension_n, "N");
    if (note > line->open_note)
        add_number(out, "Tn, tension stopped at n", line->tension_n[note], "N");
    add_length(out, "y0 of the player's touch: less headroom than this buzzes",
               derived->touch.mm[string]);
    add_touch(&derived->touch, out);
}

/* What it means for ear and file. */
static void add_hand(const struct derived *derived, const struct survey_headroom *doubt, int string,
                     int note, struct explanation *out)
{
    const struct fret_clearance *clearance = &derived->clearance[string];
    const double off = clearance->headroom_mm[note].value / derived->touch.mm[string] - 1;
    const double u = maybe_or(doubt->u_touches[string][note], 0);
    const struct outfit *outfit = &derived->setup.outfit;
    struct strbuf line = explain_add_line(out, EXPLAIN_HAND);

    strbuf_addf(&line, "%s %d ", outfit_noun(outfit, string), outfit_number(outfit, string));
    frets_add_note_name(outfit, string, note, "at fret ", &line);
    strbuf_add_char(&line, ' ');
    if (off > u) {
        strbuf_addf(&line, "rings clean at the player's touch; it is tightest over fret %d",
                    clearance->at[note]);
        return;
    }
    strbuf_add(&line, off < -u ? "would buzz" : "may buzz");
    strbuf_addf(&line, " on fret %d at the player's touch: look there with the rocker",
                clearance->at[note]);
}

static void add_value(const struct derived *derived, struct maybe u_mm, int string, int note,
                      struct explanation *out)
{
    const struct fret_clearance *clearance = &derived->clearance[string];
    const struct outfit *outfit = &derived->setup.outfit;
    struct strbuf line = explain_add_line(out, EXPLAIN_VALUE);

    strbuf_addf(&line, "headroom, %s %d, note n = %d: ", outfit_noun(outfit, string),
                outfit_number(outfit, string), note);
    amount_add_all(&line, clearance->headroom_mm[note].value, UNIT_IN);
    if (u_mm.given) {
        amount_add_doubt(&line, u_mm.value, UNIT_IN);
        strbuf_add(&line, " in");
    }
    strbuf_addf(&line, ", least over fret k = %d", clearance->at[note]);
}

static void add_method(struct explanation *out)
{
    add_text(out, EXPLAIN_SOURCE,
             "the plucked ideal string's parallelogram: Helmholtz, On the Sensations of Tone, "
             "app. III (from memory). A usual set-up of the kind is just clean at a medium touch: "
             "common practice");
    add_text(out, EXPLAIN_NOTE,
             "\xC2\xB1 (95 %): the gauges' steps; a crown without a spot within .001 in; the pluck "
             "a third nearer the saddle or farther; how pressing tightens; in touches, the touch "
             "within half a step.");
    add_text(out, EXPLAIN_NOTE,
             "Which fret is high: for every fret k, lo = the largest margin of the notes heard "
             "to buzz below it, hi = the smallest of the clean ones, margin = clear - envelope "
             "at y0.");
    add_text(out, EXPLAIN_NOTE,
             "The fret that the fewest notes contradict is named, then the least lo; it is lo to "
             "hi higher than measured. Our own reasoning, no published source.");
    add_text(out, EXPLAIN_NOTE,
             "Levelling: a spot e(n) is how far a crown is off the neck's curve; spots only "
             "takes each e(n) over 0, all level e(n) - min e. Common practice.");
}

void explain_headroom(const struct explain_from *from, int string, int note,
                      struct explanation *ret_explanation)
{
    const struct derived *derived = from->derived;
    struct string_clearance arrays;
    struct clearance_string line;
    struct survey_headroom doubt;
    const bool known =
        note >= 0 && derived->clearance[string].headroom_mm[note].given &&
        derive_string_clearance(&from->place.record, &derived->setup, &derived->string[string],
                                &derived->lines, &derived->pitch[string], string, &arrays, &line);

    survey_headroom(from->place, derived, &doubt);
    ret_explanation->count = 0;
    if (known)
        add_hand(derived, &doubt, string, note, ret_explanation);
    else
        add_text(ret_explanation, EXPLAIN_HAND,
                 "how far this note is from buzzing is not known yet");
    if (known)
        add_value(derived, doubt.u_mm[string][note], string, note, ret_explanation);
    else
        add_text(ret_explanation, EXPLAIN_VALUE,
                 "headroom: not known; it needs relief, nut gap and action, and for a fretted "
                 "string also its note, gauge and core");
    add_text(ret_explanation, EXPLAIN_FORMULA,
             "headroom(n) = least over the frets k ahead of clear(n, k) / (envelope(n, k) / y0); "
             "envelope: y t/p up to the pluck at t = p, then y (l - t)/(l - p), with y = y0 "
             "((l - p)/l) / ((l0 - p0)/l0) T0/Tn");
    if (known)
        add_symbols(derived, &line, string, note, derived->clearance[string].at[note],
                    ret_explanation);
    add_method(ret_explanation);
}
