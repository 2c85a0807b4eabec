/* SPDX-License-Identifier: MIT */
#include "model/pitch/intonation.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <string.h>

#include "model/common/check.h"

/* Cents in a ratio of e: 1200/ln 2. */
#define CENTS_PER_E 1731.2340490667561

#define MM_TO_M 1e-3

/* What slopes are taken in: setback, nut advance, press depth. */
enum { IN_S, IN_V, IN_P, SLOPES };

/* The sounding part of a string: length, tension and what they are worth in pitch. */
struct sounding {
    double length, tension;
    double stiffness; /* b */
    double factor;    /* B(T, l) */
};

struct sounding_slopes {
    double length[SLOPES], tension[SLOPES], factor[SLOPES];
    double factor_e; /* slope in e */
};

/* The path of a string pressed down at a fret, `rise` below the saddle and `drop` over the nut. */
struct path {
    double ahead, behind, press; /* of the fret along the board; press is q */
    double rise, dip, drop;
    double to_nut, to_fret, sounding; /* the three parts */
    double length;
    double stretch; /* length less the open string's */
};

/* How much longer a diagonal is than its run along the board. The difference itself would
 * leave a stretch of hundredths of a mm with few good digits. */
static double excess(double run, double rise, double length)
{
    return length > 0 ? rise * rise / (length + run) : 0;
}

static enum status check_string(const struct intonation_setup *setup)
{
    const double needed[] = {setup->mass_kg_per_m, setup->hz, setup->core.area_mm2,
                             setup->core.second_moment_mm4, setup->modulus_mpa};
    enum status status = STATUS_OK;

    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (needed[i] == 0)
            status = STATUS_ABSENT;
        else if (!check_is_positive(needed[i]))
            return STATUS_DOMAIN;
    }
    return status;
}

static enum status check_setup(const struct intonation_setup *setup, int first, int last)
{
    const struct intonation_conditions *c = &setup->conditions;

    if (!(setup->scale_mm > 0) || !isfinite(setup->nut_height_mm) ||
        !isfinite(setup->saddle_height_mm) || setup->frets < 0 ||
        setup->frets > INTONATION_FRETS_MAX)
        return STATUS_DOMAIN;
    if (!(c->press_distance_mm >= 0) || !(c->press_depth_mm >= 0) || !(c->free_length_mm >= 0) ||
        !(c->clamped_ends >= 0) || !(c->clamped_ends <= 2))
        return STATUS_DOMAIN;
    if (first < 0 || last < first)
        return STATUS_DOMAIN;
    return last > setup->frets ? STATUS_ABSENT : check_string(setup);
}

static double square_of_ends(double e)
{
    return e * e + M_PI * M_PI / 2;
}

/* B of intonation_stiffness_factor. */
static double stiffness_factor(double b, double e)
{
    return 1 + (e + square_of_ends(e) * b) * b;
}

/* Fills the stiffness factor of a part whose length and tension are known. */
static void find_factor(const struct intonation_setup *setup, struct sounding *part)
{
    double bend = setup->modulus_mpa * setup->core.second_moment_mm4;
    double b = sqrt(bend / part->tension) / part->length;

    part->stiffness = b;
    part->factor = stiffness_factor(b, setup->conditions.clamped_ends);
}

/* And its slopes from those of length and tension. */
static void find_factor_slopes(const struct intonation_setup *setup, const struct sounding *part,
                               struct sounding_slopes *slopes)
{
    double e = setup->conditions.clamped_ends;
    double b = part->stiffness;

    slopes->factor_e = (1 + 2 * e * b) * b;
    for (int i = 0; i < SLOPES; i++) {
        double b_d =
            -b * (slopes->tension[i] / (2 * part->tension) + slopes->length[i] / part->length);
        slopes->factor[i] = (e + 2 * square_of_ends(e) * b) * b_d;
    }
}

static double span_of(const struct intonation_setup *setup, const struct intonation_ends *ends)
{
    return setup->scale_mm + ends->setback_mm - ends->nut_advance_mm;
}

static enum status find_open(const struct intonation_setup *setup,
                             const struct intonation_ends *ends, struct sounding *ret_open)
{
    double span = span_of(setup, ends);

    if (!(span > 0))
        return STATUS_DOMAIN;

    struct sounding open = {0};

    open.length = hypot(span, setup->saddle_height_mm - setup->nut_height_mm);

    double wave_speed = 2 * open.length * MM_TO_M * setup->hz;

    open.tension = setup->mass_kg_per_m * wave_speed * wave_speed;
    find_factor(setup, &open);
    if (!(open.tension > 0) || !isfinite(open.tension) || !isfinite(open.factor))
        return STATUS_DOMAIN;
    *ret_open = open;
    return STATUS_OK;
}

static void find_open_slopes(const struct intonation_setup *setup,
                             const struct intonation_ends *ends, const struct sounding *open,
                             struct sounding_slopes *ret_slopes)
{
    double span = span_of(setup, ends);

    *ret_slopes = (struct sounding_slopes){
        .length = {[IN_S] = span / open->length, [IN_V] = -span / open->length}};
    for (int i = 0; i < SLOPES; i++)
        ret_slopes->tension[i] = 2 * open->tension * ret_slopes->length[i] / open->length;
    find_factor_slopes(setup, open, ret_slopes);
}

static enum status find_path(const struct intonation_setup *setup,
                             const struct intonation_ends *ends, const struct sounding *open,
                             int fret, struct path *ret_path)
{
    double x = setup->fret_mm[fret];
    double space = x - setup->fret_mm[fret - 1];
    double q = fmin(setup->conditions.press_distance_mm, space / 2);
    double ahead = setup->scale_mm + ends->setback_mm - x;
    double behind = x - q - ends->nut_advance_mm;

    if (!(ahead > 0) || !(behind > 0) || !(space > 0))
        return STATUS_DOMAIN;

    double rise = setup->saddle_height_mm - setup->crown_mm[fret];
    double dip = q * rise / ahead + setup->conditions.press_depth_mm;
    double drop = setup->crown_mm[fret] - dip - setup->nut_height_mm;
    struct path path = {.ahead = ahead,
                        .behind = behind,
                        .press = q,
                        .rise = rise,
                        .dip = dip,
                        .drop = drop,
                        .to_nut = hypot(behind, drop),
                        .to_fret = hypot(q, dip),
                        .sounding = hypot(ahead, rise)};

    path.length = path.to_nut + path.to_fret + path.sounding;
    /* The runs of the three parts add up to the open string's. */
    path.stretch =
        excess(behind, drop, path.to_nut) + excess(q, dip, path.to_fret) +
        excess(ahead, rise, path.sounding) -
        excess(ahead + q + behind, setup->saddle_height_mm - setup->nut_height_mm, open->length);
    *ret_path = path;
    return STATUS_OK;
}

/* The slopes of the whole path; of its sounding part into `sounding`. */
static void find_path_slopes(const struct path *path, double length[SLOPES],
                             double sounding[SLOPES])
{
    /* The slope of the path in dip; pressed right at the fret (q = 0 = dip) the corner
     * has none from its short side. */
    double in_dip =
        -path->drop / path->to_nut + (path->to_fret > 0 ? path->dip / path->to_fret : 0);

    sounding[IN_S] = path->ahead / path->sounding;
    sounding[IN_V] = sounding[IN_P] = 0;
    length[IN_S] = sounding[IN_S] - in_dip * path->press * path->rise / (path->ahead * path->ahead);
    length[IN_V] = -path->behind / path->to_nut;
    length[IN_P] = in_dip;
}

/* The sounding part of a fretted string, and the mass that the stretch leaves in a unit
 * of it as a share of the open string's. */
static void find_fretted(const struct intonation_setup *setup, const struct sounding *open,
                         const struct path *path, struct sounding *ret_part, double *ret_mass_share)
{
    double pull = setup->modulus_mpa * setup->core.area_mm2;
    double after = setup->conditions.free_length_mm;
    double whole = open->length + after;
    struct sounding part = {.length = path->sounding};

    part.tension = open->tension + pull * path->stretch / whole;
    *ret_mass_share = whole / (after + path->length);
    find_factor(setup, &part);
    *ret_part = part;
}

static void find_fretted_slopes(const struct intonation_setup *setup, const struct sounding *open,
                                const struct sounding_slopes *open_d, const struct path *path,
                                const struct sounding *part, double mass_share,
                                struct sounding_slopes *ret_part_d, double mass_share_d[SLOPES])
{
    double pull = setup->modulus_mpa * setup->core.area_mm2;
    double after = setup->conditions.free_length_mm;
    double whole = open->length + after;
    double length_d[SLOPES];

    find_path_slopes(path, length_d, ret_part_d->length);
    for (int i = 0; i < SLOPES; i++) {
        double stretch_d = length_d[i] - open_d->length[i];

        ret_part_d->tension[i] =
            open_d->tension[i] +
            pull * (stretch_d - path->stretch * open_d->length[i] / whole) / whole;
        mass_share_d[i] =
            mass_share * (open_d->length[i] / whole - length_d[i] / (after + path->length));
    }
    find_factor_slopes(setup, part, ret_part_d);
}

/* One fretted note on an open string already worked out. Slopes cost as much again, and are wanted
 * (`open_d` is not NULL) by few. */
static enum status
find_fretted_note(const struct intonation_setup *setup, const struct intonation_ends *ends,
                  const struct sounding *open, const struct sounding_slopes *open_d, int fret,
                  struct intonation_note *ret_note, struct intonation_slope *ret_slope)
{
    struct path path;
    struct sounding part;
    struct sounding_slopes part_d;
    double mass_share, mass_share_d[SLOPES], d[SLOPES];
    enum status status = find_path(setup, ends, open, fret, &path);

    if (status != STATUS_OK)
        return status;
    find_fretted(setup, open, &path, &part, &mass_share);

    double wave_speed = sqrt(part.tension / (setup->mass_kg_per_m * mass_share));
    double hz = wave_speed / (2 * MM_TO_M * part.length) * part.factor / open->factor;

    /* The open string's own speed is 2 l0 f by the choice of T0, so f stands below. */
    *ret_note = (struct intonation_note){
        .cents = CENTS_PER_E * log(hz / setup->hz) - 100.0 * fret,
        .open_tension_n = open->tension,
        .tension_n = part.tension,
        .open_length_mm = open->length,
        .length_mm = part.length,
        .stretch_mm = path.length - open->length,
    };
    if (!open_d)
        return STATUS_OK;
    find_fretted_slopes(setup, open, open_d, &path, &part, mass_share, &part_d, mass_share_d);
    for (int i = 0; i < SLOPES; i++) {
        d[i] = CENTS_PER_E * (part_d.tension[i] / (2 * part.tension) -
                              mass_share_d[i] / (2 * mass_share) - part_d.length[i] / part.length +
                              part_d.factor[i] / part.factor - open_d->factor[i] / open->factor);
    }
    *ret_slope = (struct intonation_slope){
        d[IN_S], d[IN_V], d[IN_P],
        CENTS_PER_E * (part_d.factor_e / part.factor - open_d->factor_e / open->factor)};
    return STATUS_OK;
}

/* True when nothing that is about to be handed out is infinite or NaN. */
static bool all_finite(const struct intonation_note *note, const struct intonation_slope *slope)
{
    /* One infinite or NaN part makes the sum so; the parts are far too small to. */
    return isfinite(note->cents + note->open_tension_n + note->tension_n + slope->setback +
                    slope->nut_advance + slope->press_depth + slope->clamped_ends);
}

static enum status find_any_note(const struct intonation_setup *setup,
                                 const struct intonation_ends *ends, const struct sounding *open,
                                 const struct sounding_slopes *open_d, int fret,
                                 struct intonation_note *ret_note,
                                 struct intonation_slope *ret_slope)
{
    struct intonation_note note = {.open_tension_n = open->tension,
                                   .tension_n = open->tension,
                                   .open_length_mm = open->length,
                                   .length_mm = open->length};
    struct intonation_slope slope = {0, 0, 0, 0};
    enum status status = STATUS_OK;

    if (fret > 0)
        status = find_fretted_note(setup, ends, open, open_d, fret, &note, &slope);
    if (status == STATUS_OK && !all_finite(&note, &slope))
        status = STATUS_DOMAIN;
    if (status == STATUS_OK) {
        *ret_note = note;
        *ret_slope = slope;
    }
    return status;
}

enum status intonation_find_notes(const struct intonation_setup *setup,
                                  const struct intonation_ends *ends, int first, int last,
                                  struct intonation_note *ret_notes,
                                  struct intonation_slope *ret_slopes)
{
    struct intonation_note notes[INTONATION_FRETS_MAX + 1];
    struct intonation_slope slopes[INTONATION_FRETS_MAX + 1];
    struct sounding open;
    struct sounding_slopes open_d;
    enum status status = check_setup(setup, first, last);

    if (status == STATUS_OK)
        status = find_open(setup, ends, &open);
    if (status == STATUS_OK && ret_slopes)
        find_open_slopes(setup, ends, &open, &open_d);
    for (int n = first; status == STATUS_OK && n <= last; n++)
        status = find_any_note(setup, ends, &open, ret_slopes ? &open_d : NULL, n,
                               &notes[n - first], &slopes[n - first]);
    if (status != STATUS_OK)
        return status;

    size_t count = (size_t)(last - first) + 1;

    memcpy(ret_notes, notes, count * sizeof notes[0]);
    if (ret_slopes != NULL)
        memcpy(ret_slopes, slopes, count * sizeof slopes[0]);
    return STATUS_OK;
}

enum status intonation_find_note(const struct intonation_setup *setup,
                                 const struct intonation_ends *ends, int fret,
                                 struct intonation_note *ret_note,
                                 struct intonation_slope *ret_slope)
{
    return intonation_find_notes(setup, ends, fret, fret, ret_note, ret_slope);
}

enum status intonation_find_cents(const struct intonation_setup *setup,
                                  const struct intonation_ends *ends, double *ret_cents)
{
    struct intonation_note notes[INTONATION_FRETS_MAX + 1];
    enum status status = intonation_find_notes(setup, ends, 0, setup->frets, notes, NULL);

    if (status != STATUS_OK)
        return status;
    for (int n = 0; n <= setup->frets; n++)
        ret_cents[n] = notes[n].cents;
    return STATUS_OK;
}

enum status intonation_stiffness_factor(double stiffness, double clamped_ends, double *ret_factor)
{
    double factor = stiffness_factor(stiffness, clamped_ends);

    if (!(stiffness >= 0) || !(clamped_ends >= 0) || !(clamped_ends <= 2) || !isfinite(factor))
        return STATUS_DOMAIN;
    *ret_factor = factor;
    return STATUS_OK;
}
