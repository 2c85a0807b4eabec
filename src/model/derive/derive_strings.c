/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_strings.h"

#include <stddef.h>

#include "model/doubt/doubt_pull.h"
#include "model/strings/pitch.h"

static double entered_value(const struct record *record, enum field_id field, int string)
{
    return maybe_or(record_entered_string(record, field, string), 0);
}

/* A material that is named but not in the table is as good as not said for a wrap, and
 * cannot be guessed for a core. */
static bool read_material(const struct record *record, enum field_id field, int string,
                          enum string_material *ret_material)
{
    const struct reading_key key = reading_key_string(field, string);
    const char *text = record_text(record, &key);

    *ret_material = MATERIAL_NONE;
    return !text || text[0] == '\0' || string_material_find(text, ret_material) == STATUS_OK;
}

/* A string whose build is not said is taken as a core in an unknown winding: what its
 * core is like may still be known. */
static void read_build(const struct record *record, int string, struct string_facts *facts)
{
    const int kind = record_choice_or(record, reading_key_string(FIELD_BUILD, string), -1);
    struct string_build *build = &facts->build;

    *build = (struct string_build){
        .kind = kind < 0 ? BUILD_ROUND_WOUND : (enum string_build_kind)kind,
        .gauge_mm = entered_value(record, FIELD_GAUGE, string),
        .core_mm = entered_value(record, FIELD_CORE, string),
        .hex_core = record_choice_or(record, reading_key_string(FIELD_HEX, string), 0) == 1,
        .modulus_mpa = entered_value(record, FIELD_STRING_MODULUS, string),
        .steel_modulus_mpa = record_or_fallback(record, FIELD_CORE_MODULUS),
    };
    facts->has_build = kind >= 0;
    if (!read_material(record, FIELD_CORE_MATERIAL, string, &build->core_material)) {
        facts->has_build = false;
        build->core_material = MATERIAL_COUNT_;
    }
    (void)read_material(record, FIELD_WRAP_MATERIAL, string, &build->wrap_material);
}

struct maybe derive_hz(const struct record *record, struct maybe semitone)
{
    double hz;

    if (!semitone.given ||
        pitch_frequency(semitone.value, record_or_fallback(record, FIELD_A4), &hz) != STATUS_OK)
        return maybe_absent();
    return maybe_given(hz);
}

/* A packet's tensions are those at the standard pitch, whatever the instrument is tuned to. */
static double label_hz(const struct record *record, int string)
{
    const struct maybe note = record_entered_string(record, FIELD_LABEL_NOTE, string);
    double hz;

    return note.given && pitch_frequency(note.value, PITCH_A4_HZ, &hz) == STATUS_OK ? hz : 0;
}

static void read_mass(const struct record *record, const struct setup *setup, int string,
                      struct string_facts *facts)
{
    const struct mass_sources sources = {
        .length_mm = setup->board.contact_mm[string],
        .hz = maybe_or(facts->hz, 0),
        .weigh_mass_g = entered_value(record, FIELD_WEIGH_MASS, string),
        .weigh_length_mm = entered_value(record, FIELD_WEIGH_LENGTH, string),
        .label_tension_n = entered_value(record, FIELD_LABEL_TENSION, string),
        .label_scale_mm = entered_value(record, FIELD_LABEL_SCALE, string),
        .label_hz = label_hz(record, string),
        .entered_kg_per_m = entered_value(record, FIELD_MASS, string) / 1000,
        .build = facts->has_build ? &facts->build : NULL,
    };

    facts->has_mass = tension_find_mass(&sources, &facts->mass) == STATUS_OK;
}

static void put_known(struct figures *figures, enum figure_id id, int string, double value)
{
    if (value > 0)
        figures_set(figures, id, string, value, KNOWN_READ);
}

static void load_string(const struct setup *setup, int string, struct string_facts *facts,
                        struct figures *figures, struct findings *findings)
{
    const double contact = setup->board.contact_mm[string];
    double tension_n, share;

    put_known(figures, FIGURE_PITCH, string, maybe_or(facts->hz, 0));
    if (!facts->has_mass)
        return;
    put_known(figures, FIGURE_UNIT_MASS, string, facts->mass.kg_per_m);
    if (tension_from_pitch(facts->mass.kg_per_m, contact, maybe_or(facts->hz, 0), &tension_n) !=
        STATUS_OK)
        return;
    facts->tension_n = maybe_given(tension_n);
    put_known(figures, FIGURE_TENSION, string, tension_n);
    if (tension_stress_share(&facts->build, tension_n, &share) != STATUS_OK)
        return;
    put_known(figures, FIGURE_STRESS_SHARE, string, share);
    if (share > STRESS_SHARE_MAX)
        findings_add(findings, FINDING_STRING_NEAR_BREAK, string);
}

static void add_up(const struct record *record, const struct setup *setup,
                   const struct string_facts *facts, struct figures *figures,
                   struct findings *findings)
{
    double total = 0;

    for (int s = 1; s <= setup->board.strings; s++) {
        if (!facts[s].tension_n.given)
            return;
        total += facts[s].tension_n.value;
    }
    put_known(figures, FIGURE_TENSION_TOTAL, 0, total);
    if (doubt_pull_is_far(record, total))
        findings_add(findings, FINDING_TOTAL_UNUSUAL, 0);
}

void derive_strings(const struct record *record, const struct setup *setup,
                    struct string_facts *ret_facts, struct figures *figures,
                    struct findings *findings)
{
    for (int s = 1; s <= setup->board.strings; s++) {
        struct string_facts facts = {
            .hz = derive_hz(record, record_entered_string(record, FIELD_STRING_NOTE, s))};

        read_build(record, s, &facts);
        read_mass(record, setup, s, &facts);
        (void)tension_find_core(&facts.build, &facts.core);
        (void)tension_find_modulus(&facts.build, &facts.modulus_mpa);
        load_string(setup, s, &facts, figures, findings);
        ret_facts[s] = facts;
    }
    add_up(record, setup, ret_facts, figures, findings);
}
