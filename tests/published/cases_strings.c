/* SPDX-License-Identifier: MIT */
#include "published.h"

#include <math.h>

#include "model/frets/board.h"
#include "model/pitch/intonation.h"
#include "model/strings/pitch.h"
#include "model/strings/string_set.h"
#include "model/strings/tension.h"

#define PI         3.14159265358979323846
#define INCH_MM    25.4
#define KSI_IN_MPA 6.894757293168361

/* The pitch of the note that an item names, at A4 = 440 Hz. */
static enum status take_pitch(struct published_case *c, const char *name, double *ret_hz)
{
    int semitone;
    enum status status = pitch_parse(published_text(c, name), &semitone);

    return status == STATUS_OK ? pitch_frequency(semitone, PITCH_A4_HZ, ret_hz) : status;
}

static enum status run_frequency(struct published_case *c, struct published_answers *answers)
{
    double a4_hz = published_number(c, "a4", "Hz");
    int semitone;
    double hz;
    enum status status = pitch_parse(published_text(c, "note"), &semitone);

    if (status == STATUS_OK)
        status = pitch_frequency(semitone, a4_hz, &hz);
    if (status == STATUS_OK)
        published_answer(answers, "frequency", hz, "Hz");
    return status;
}

/* The share that a fret takes off the length before it, as the old rule's divisor, and what it
 * leaves of the whole. */
static enum status run_fret_rule(struct published_case *c, struct published_answers *answers)
{
    double scale = published_number(c, "scale", "mm");
    int fret = (int)published_number(c, "fret", "");
    double before = scale - board_station_mm(scale, fret - 1);
    double after = scale - board_station_mm(scale, fret);

    published_answer(answers, "divisor", before / (before - after), "");
    published_answer(answers, "share-of-scale", after / scale, "");
    return STATUS_OK;
}

static enum status run_wire_strength(struct published_case *c, struct published_answers *answers)
{
    double diameter = published_number(c, "diameter", "in") * INCH_MM;
    double strength;
    enum status status = tension_wire_strength(diameter, &strength);

    if (status != STATUS_OK)
        return status;
    published_answer(answers, "strength", strength / KSI_IN_MPA, "ksi");
    return STATUS_OK;
}

/* A nylon string's mass per length at pitch, from the gauge of the slack string. */
static enum status run_nylon_mass(struct published_case *c, struct published_answers *answers)
{
    const struct string_build build = {.kind = BUILD_NYLON,
                                       .gauge_mm = published_number(c, "gauge", "mm")};
    struct mass_sources sources = {.length_mm = published_number(c, "scale", "mm"),
                                   .build = &build};
    struct unit_mass mass;
    enum status status = take_pitch(c, "note", &sources.hz);

    if (status == STATUS_OK)
        status = tension_find_mass(&sources, &mass);
    if (status == STATUS_OK)
        published_answer(answers, "mass", mass.kg_per_m * 1000, "g/m");
    return status;
}

/* How far a partial of a hinged wire stands over the whole-number series, as the constant K of
 * K n^2 d^2/(f^2 l^4) cents. */
static enum status run_partial(struct published_case *c, struct published_answers *answers)
{
    const struct string_build build = {.kind = BUILD_PLAIN,
                                       .gauge_mm = published_number(c, "diameter", "cm") * 10};
    double partial = published_number(c, "partial", "");
    double length = published_number(c, "length", "cm") * 10;
    double hz = published_number(c, "frequency", "Hz");
    /* 1 (cm/s)^2 is 1e-4 m^2/s^2; 1 MPa is 1e6 Pa. */
    double stiffness_m2_per_s2 = published_number(c, "stiffness-over-density", "(cm/s)^2") * 1e-4;
    double density = 7850;
    double modulus_mpa = stiffness_m2_per_s2 * density * 1e-6;
    struct string_core core;
    double tension, factor;
    enum status status = tension_find_core(&build, &core);

    if (status == STATUS_OK)
        status = tension_from_pitch(density * core.area_mm2 * 1e-6, length, hz, &tension);
    if (status == STATUS_OK)
        status = intonation_stiffness_factor(
            partial * sqrt(modulus_mpa * core.second_moment_mm4 / tension) / length, 0, &factor);
    if (status == STATUS_OK)
        published_answer(answers, "constant",
                         1200 * log2(factor) * pow(hz, 2) * pow(length / 10, 4) /
                             pow(partial * build.gauge_mm / 10, 2),
                         "");
    return status;
}

/* The mass of a string from its label: the tension at a pitch on a scale. */
static enum status run_label_mass(struct published_case *c, struct published_answers *answers)
{
    double scale = published_number(c, "scale", "in") * INCH_MM;
    struct mass_sources label = {.label_tension_n = published_number(c, "tension", "N"),
                                 .label_scale_mm = scale};
    struct unit_mass mass;
    enum status status = take_pitch(c, "note", &label.label_hz);

    if (status == STATUS_OK)
        status = tension_find_mass(&label, &mass);
    if (status == STATUS_OK)
        published_answer(answers, "mass", mass.kg_per_m * 10, "g/cm");
    return status;
}

/* A string with a label tuned to another note. */
static enum status run_retuned(struct published_case *c, struct published_answers *answers)
{
    double scale = published_number(c, "scale", "in") * INCH_MM, hz, tension;
    struct mass_sources label = {.label_tension_n = published_number(c, "tension", "N"),
                                 .label_scale_mm = scale};
    struct unit_mass mass;
    enum status status = take_pitch(c, "note", &label.label_hz);

    if (status == STATUS_OK)
        status = tension_find_mass(&label, &mass);
    if (status == STATUS_OK)
        status = take_pitch(c, "then", &hz);
    if (status == STATUS_OK)
        status = tension_from_pitch(mass.kg_per_m, scale, hz, &tension);
    if (status == STATUS_OK)
        published_answer(answers, "tension", tension, "N");
    return status;
}

static enum status run_tension(struct published_case *c, struct published_answers *answers)
{
    double mass = published_number(c, "mass", "g/m") / 1000;
    double scale = published_number_or(c, "scale-in", "in", 0) * INCH_MM +
                   published_number_or(c, "scale", "mm", 0);
    double hz = published_number_or(c, "frequency", "Hz", 0), tension;
    enum status status = hz > 0 ? STATUS_OK : take_pitch(c, "note", &hz);

    if (status == STATUS_OK)
        status = tension_from_pitch(mass, scale, hz, &tension);
    if (status == STATUS_OK)
        published_answer(answers, "tension", tension, "N");
    return status;
}

/* A piece weighed, then tuned. */
static enum status run_weighed(struct published_case *c, struct published_answers *answers)
{
    double length = published_number(c, "length", "m") * 1000;
    const struct mass_sources piece = {.weigh_mass_g = published_number(c, "weight", "g"),
                                       .weigh_length_mm = length};
    struct unit_mass mass;
    double tension;
    enum status status = tension_find_mass(&piece, &mass);

    if (status == STATUS_OK)
        status = tension_from_pitch(mass.kg_per_m, length, published_number(c, "frequency", "Hz"),
                                    &tension);
    if (status == STATUS_OK)
        published_answer(answers, "tension", tension, "N");
    return status;
}

/* B = pi^2 E I/(T l^2) of a string of a set, fretted with the tension it has open. */
static enum status run_inharmonicity(struct published_case *c, struct published_answers *answers)
{
    double scale = published_number(c, "scale", "in") * INCH_MM;
    int fret = (int)published_number(c, "fret", ""), k = (int)published_number(c, "string", "");
    double length = scale - board_station_mm(scale, fret), hz, mass, tension, modulus;
    struct string_core core;
    struct string_set set;
    enum status status = string_set_find(published_text(c, "set"), &set);

    if (status == STATUS_OK && (k < 1 || k > set.strings))
        status = STATUS_NOT_FOUND;
    if (status == STATUS_OK)
        status = take_pitch(c, "note", &hz);
    if (status == STATUS_OK)
        status = tension_mass_from_build(&set.string[k - 1].build, &mass);
    if (status == STATUS_OK)
        status = tension_from_pitch(mass, scale, hz, &tension);
    if (status == STATUS_OK)
        status = tension_find_core(&set.string[k - 1].build, &core);
    if (status == STATUS_OK)
        status = tension_find_modulus(&set.string[k - 1].build, &modulus);
    if (status == STATUS_OK)
        published_answer(answers, "B",
                         PI * PI * modulus * core.second_moment_mm4 / (tension * length * length),
                         "");
    return status;
}

enum { FRETS = 12 };

struct flat_board {
    double fret_mm[FRETS + 1], crown_mm[FRETS + 1];
};

/* A string told by kappa = E A/T and its radius, on a board with its crowns in a plane. Any
 * tension does; only ratios count. */
static enum status take_setup(struct published_case *c, double radius_mm, struct flat_board *board,
                              struct intonation_setup *ret_setup)
{
    const double mass_kg_per_m = 0.0005, hz = 300;
    const struct string_build build = {.kind = BUILD_NYLON, .gauge_mm = 2 * radius_mm};
    double scale = published_number(c, "scale", "mm");

    for (int n = 0; n <= FRETS; n++) {
        board->fret_mm[n] = board_station_mm(scale, n);
        board->crown_mm[n] = 0;
    }
    *ret_setup = (struct intonation_setup){
        .mass_kg_per_m = mass_kg_per_m,
        .hz = hz,
        .scale_mm = scale,
        .nut_height_mm = published_number(c, "nut-over-crowns", "mm"),
        .frets = FRETS,
        .fret_mm = board->fret_mm,
        .crown_mm = board->crown_mm,
        .conditions = {.press_distance_mm = published_number(c, "press-distance", "mm"),
                       .free_length_mm = published_number(c, "free-length", "mm"),
                       .clamped_ends = published_number(c, "clamped-ends", "")},
    };
    ret_setup->saddle_height_mm =
        ret_setup->nut_height_mm + published_number(c, "saddle-over-nut", "mm");
    return tension_find_core(&build, &ret_setup->core);
}

/* Gives the string the modulus that makes E A/T its kappa, T with the ends where they are. */
static enum status set_kappa(double kappa, const struct intonation_ends *ends,
                             struct intonation_setup *setup)
{
    struct intonation_note open;

    setup->modulus_mpa = 1;

    enum status status = intonation_find_note(setup, ends, 0, &open, NULL);

    if (status == STATUS_OK)
        setup->modulus_mpa = kappa * open.open_tension_n / setup->core.area_mm2;
    return status;
}

static enum status run_setbacks(struct published_case *c, struct published_answers *answers)
{
    double kappa = published_number(c, "kappa", "");
    double radius =
        2 * published_number(c, "scale", "mm") * published_number(c, "B0", "") / sqrt(kappa);
    struct flat_board board;
    struct intonation_setup setup;
    struct intonation_best best = {0};
    enum status status = take_setup(c, radius, &board, &setup);

    /* The set-backs lengthen the string and raise its tension; twice is enough to settle. */
    for (int pass = 0; status == STATUS_OK && pass < 3; pass++) {
        status = set_kappa(kappa, &best.ends, &setup);
        if (status == STATUS_OK)
            status = intonation_find_best(&setup, 1, FRETS, &best);
    }
    if (status != STATUS_OK)
        return status;
    published_answer(answers, "saddle-setback", best.ends.setback_mm, "mm");
    published_answer(answers, "nut-setback", -best.ends.nut_advance_mm, "mm");
    published_answer(answers, "rms", best.cents_rms, "cent");
    return STATUS_OK;
}

/* The relative stretch of a pressed string, and its stiffness b open. */
static enum status run_stretch(struct published_case *c, struct published_answers *answers)
{
    double kappa = published_number(c, "kappa", "");
    const struct intonation_ends ends = {published_number(c, "saddle-setback", "mm"),
                                         -published_number(c, "nut-setback", "mm")};
    struct flat_board board;
    struct intonation_setup setup;
    struct intonation_note note;
    enum status status = take_setup(c, published_number(c, "radius", "mm"), &board, &setup);

    if (status == STATUS_OK)
        status = set_kappa(kappa, &ends, &setup);
    if (status == STATUS_OK)
        status =
            intonation_find_note(&setup, &ends, (int)published_number(c, "fret", ""), &note, NULL);
    if (status != STATUS_OK)
        return status;

    double pull = setup.modulus_mpa * setup.core.area_mm2;
    double bend = setup.modulus_mpa * setup.core.second_moment_mm4;

    published_answer(answers, "stretch", (note.tension_n - note.open_tension_n) / pull * 1e6,
                     "ppm");
    published_answer(answers, "B0", sqrt(bend / note.open_tension_n) / note.open_length_mm, "");
    return STATUS_OK;
}

const struct published_function published_strings[] = {
    {"frequency", run_frequency},
    {"fret-rule", run_fret_rule},
    {"wire-strength", run_wire_strength},
    {"tension", run_tension},
    {"tension-of-weighed", run_weighed},
    {"mass-from-label", run_label_mass},
    {"tension-retuned", run_retuned},
    {"nylon-mass", run_nylon_mass},
    {"inharmonicity", run_inharmonicity},
    {"partial", run_partial},
    {"setbacks", run_setbacks},
    {"stretch", run_stretch},
    {NULL, NULL},
};
