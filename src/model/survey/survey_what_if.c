/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_what_if.h"

#include <math.h>
#include <string.h>

#include "model/doubt/doubt_pull.h"
#include "model/reading/note_name.h"
#include "model/strings/pitch.h"

/* A twentieth of a thousandth of an inch, finer than any packet says. */
#define SAME_GAUGE_MM (0.0254 / 20)

static struct maybe find_semitone(const struct record *record, const struct what_if_change *change,
                                  int string)
{
    struct maybe note = record_entered_string(record, FIELD_STRING_NOTE, string);

    if (change->has_notes)
        note = maybe_given(change->notes.semitone[string]);
    if (note.given)
        note.value += change->shift_semitones + change->string_shift_semitones[string];
    return note;
}

/* The string that is on, at another pitch: one that stretches grows lighter as it goes up. */
static double mass_at(const struct string_facts *facts, double length_mm, double hz)
{
    double now, then;

    if (!facts->has_mass)
        return 0;
    if (!facts->has_build || !facts->hz.given ||
        tension_find_stretch(&facts->build, length_mm, facts->hz.value, &now) != STATUS_OK ||
        tension_find_stretch(&facts->build, length_mm, hz, &then) != STATUS_OK)
        return facts->mass.kg_per_m;
    return facts->mass.kg_per_m * now / then;
}

/* The string of the set, or of the record. Of what is not known there is 0. */
static double find_mass(const struct derived *derived, const struct what_if_change *change,
                        int string, double hz)
{
    const double length_mm = derived->setup.board.contact_mm[string];
    struct unit_mass mass;

    if (!change->has_set)
        return mass_at(&derived->string[string], length_mm, hz);
    const struct string_of_set *other = &change->set.string[string - 1];
    const struct mass_sources sources = {.length_mm = length_mm,
                                         .hz = hz,
                                         .entered_kg_per_m = other->mass_kg_per_m,
                                         .build = &other->build};
    return tension_find_mass(&sources, &mass) == STATUS_OK ? mass.kg_per_m : 0;
}

/* The build of the set, or of the record; false where it is not known. */
static bool find_build(const struct derived *derived, const struct what_if_change *change,
                       int string, struct string_build *ret_build)
{
    *ret_build =
        change->has_set ? change->set.string[string - 1].build : derived->string[string].build;
    return change->has_set || derived->string[string].has_build;
}

/* The gauge sold for the pull that is wanted, in place of the one that pulls as in `answer`. */
static void find_sold(const struct what_if_change *change, double length_mm, int string, double hz,
                      struct string_build *build, struct what_if_answer *answer)
{
    const double wanted_n = change->pull_n[string].value;

    answer->sold_status = gauge_sold_for_pull(build, length_mm, hz, wanted_n, &answer->sold);
    if (answer->sold_status != STATUS_OK)
        return;
    const struct gauge_pull *nearest = &answer->sold.nearest;

    answer->other_gauge = fabs(nearest->gauge_mm - build->gauge_mm) > SAME_GAUGE_MM &&
                          !(answer->after_n.given && fabs(answer->after_n.value - wanted_n) <=
                                                         fabs(nearest->pull_n - wanted_n));
    if (!answer->other_gauge)
        return;
    *build = gauge_sold_build(build, nearest->gauge_mm);
    answer->after_n = maybe_given(nearest->pull_n);
}

static void load_string(const struct record *record, const struct derived *derived,
                        const struct what_if_change *change, int string,
                        struct what_if_answer *answer, struct findings *findings)
{
    const double length_mm = derived->setup.board.contact_mm[string];
    struct string_build build;

    answer->semitone = find_semitone(record, change, string);
    const double hz = maybe_or(derive_hz(record, answer->semitone), 0);
    answer->before_n = figures_get(&derived->figures, FIGURE_TENSION, string);
    answer->after_n.given = tension_from_pitch(find_mass(derived, change, string, hz), length_mm,
                                               hz, &answer->after_n.value) == STATUS_OK;
    answer->sold_status = STATUS_ABSENT;
    if (find_build(derived, change, string, &build) && change->pull_n[string].given)
        find_sold(change, length_mm, string, hz, &build, answer);
    if (!answer->after_n.given)
        return;
    answer->stress_share.given = tension_stress_share(&build, answer->after_n.value,
                                                      &answer->stress_share.value) == STATUS_OK;
    if (answer->stress_share.value > STRESS_SHARE_MAX)
        findings_add(findings, FINDING_STRING_NEAR_BREAK, string);
}

static void add_pull(struct maybe *total_n, const struct maybe *pull_n)
{
    total_n->value += pull_n->value;
    total_n->given = total_n->given && pull_n->given && isfinite(total_n->value);
}

/* None where one string's pull is not known: a total that leaves it out would mislead. */
static void add_up(struct survey_what_if *what_if)
{
    what_if->total_before_n = what_if->total_after_n = maybe_given(0);
    for (int s = 1; s <= what_if->strings; s++) {
        add_pull(&what_if->total_before_n, &what_if->string[s].before_n);
        add_pull(&what_if->total_after_n, &what_if->string[s].after_n);
    }
}

static void find_relief(const struct record *record, const struct derived *derived,
                        bool other_strings, struct survey_what_if *what_if)
{
    const struct pull_change change = {.before_n = what_if->total_before_n,
                                       .after_n = what_if->total_after_n,
                                       .other_strings = other_strings};
    const struct maybe predicted_mm = figures_get(&derived->figures, FIGURE_RELIEF_PREDICTED, 0);

    survey_pull(record, derived, &change, &what_if->pull);
    what_if->relief_predicted_before_mm = predicted_mm;
    if (predicted_mm.given && what_if->pull.bend_change_mm.given)
        what_if->relief_predicted_after_mm =
            maybe_finite(predicted_mm.value + what_if->pull.bend_change_mm.value);
}

static void share_total(const struct record *record, struct survey_what_if *what_if,
                        struct findings *findings)
{
    const struct maybe *before = &what_if->total_before_n, *after = &what_if->total_after_n;

    if (!after->given)
        return;
    for (int s = 1; s <= what_if->strings; s++)
        what_if->string[s].share_of_total =
            maybe_given(what_if->string[s].after_n.value / after->value);
    if (before->given && after->value > WHAT_IF_FAR_ABOVE * before->value)
        findings_add(findings, FINDING_TOTAL_FAR_ABOVE, 0);
    if (doubt_pull_is_far(record, after->value))
        findings_add(findings, FINDING_TOTAL_UNUSUAL, 0);
}

static bool shifts_are_good(const struct what_if_change *change, int strings)
{
    for (int s = 1; s <= strings; s++)
        if (!(fabs(change->string_shift_semitones[s]) <= WHAT_IF_SHIFT_MAX))
            return false;
    return fabs(change->shift_semitones) <= WHAT_IF_SHIFT_MAX;
}

enum status survey_what_if(const struct record *record, const struct derived *derived,
                           const struct what_if_change *change, struct survey_what_if *ret_what_if,
                           struct findings *findings)
{
    const int strings = derived->setup.board.strings;
    struct survey_what_if what_if = {
        .strings = strings, .tuning = change->has_notes ? tuning_of_notes(&change->notes) : NULL};

    if (!derived->setup.has_board)
        return STATUS_ABSENT;
    if ((change->has_notes && change->notes.strings != strings) ||
        (change->has_set && change->set.strings != strings) || !shifts_are_good(change, strings))
        return STATUS_DOMAIN;
    for (int s = 1; s <= strings; s++)
        load_string(record, derived, change, s, &what_if.string[s], findings);
    add_up(&what_if);
    share_total(record, &what_if, findings);
    find_relief(record, derived, change->has_set, &what_if);
    *ret_what_if = what_if;
    return STATUS_OK;
}

/* What all strings would be tuned to; none (`strings` 0) where one is not known. */
static struct string_notes notes_then(const struct survey_what_if *what_if)
{
    struct string_notes notes = {.strings = what_if->strings};

    for (int s = 1; s <= what_if->strings; s++) {
        if (!what_if->string[s].semitone.given)
            notes.strings = 0;
        notes.semitone[s] = (int)lround(what_if->string[s].semitone.value);
    }
    return notes;
}

/* Down from D is Db, up from D is D#, as most strings go that move. */
static bool leans_flat(const struct record *record, const struct survey_what_if *what_if)
{
    int down = 0;

    for (int s = 1; s <= what_if->strings; s++) {
        const struct maybe now = record_entered_string(record, FIELD_STRING_NOTE, s);
        const struct maybe *then = &what_if->string[s].semitone;

        if (now.given && then->given && then->value != now.value)
            down += then->value < now.value ? 1 : -1;
    }
    return down > 0;
}

/* As the tuning asked for has it: its own name for the string's note, or its accidentals. */
static bool add_as_tuning(const struct tuning *tuning, int string, int semitone, struct strbuf *out)
{
    struct string_notes own = {.strings = 0};
    const bool sharp = strchr(tuning->notes, '#'), flat = strchr(tuning->notes, 'b');

    if (tuning_read_notes(tuning->notes, &own) == STATUS_OK && own.semitone[string] == semitone)
        return tuning_add_note(tuning, string, out);
    return sharp != flat && pitch_spell(semitone, flat, out) == STATUS_OK;
}

bool survey_what_if_add_note(const struct record *record, const struct survey_what_if *what_if,
                             int string, struct strbuf *out)
{
    const struct maybe now = record_entered_string(record, FIELD_STRING_NOTE, string);
    const struct maybe then = what_if->string[string].semitone;
    const struct string_notes notes = notes_then(what_if);

    if (!then.given || then.value != floor(then.value))
        return false;
    if (!tuning_of_notes(&notes)) {
        if (what_if->tuning && add_as_tuning(what_if->tuning, string, (int)then.value, out))
            return true;
        if (!what_if->tuning && now.given && now.value == then.value)
            return note_name_of(record, string, out);
    }
    return note_name_among(record, &notes, string, leans_flat(record, what_if), out) == STATUS_OK;
}
