/* SPDX-License-Identifier: MIT */
#include "model/neck/neck_beam.h"

#include <math.h>
#include <stddef.h>

#include "model/common/check.h"

enum { GAUSS_HALF = 5, PANELS_MAX = 256 };

/* What is left of the strings and the crowns once they are averaged over the strings. */
struct lever_line {
    double at_nut_mm;        /* mean string height over the chord at x = 0 */
    double slope;            /* its rise along the middle scale */
    double curvature_per_mm; /* mean over the strings, on the middle scale */
};

/* w(x) = integral of (M/EI)(xi - x): everything the integrand needs. */
struct bending {
    const struct neck_beam *beam;
    struct section_outline outline;
    enum neck_slot slot;
    struct lever_line line;
    double x_mm;
    bool about; /* one panel will do */
};

static bool stations_are_good(const struct neck_beam *b)
{
    return check_is_positive(b->scale_mm) && check_is_not_negative(b->first_fret_mm) &&
           check_is_not_negative(b->low_end_mm) && isfinite(b->high_end_mm) &&
           isfinite(b->heel_mm) && b->high_end_mm > b->low_end_mm && b->heel_mm > b->first_fret_mm;
}

static bool shape_is_good(const struct neck_beam *b)
{
    return check_is_positive(b->width_nut_mm) && check_is_positive(b->width_join_mm) &&
           check_is_positive(b->shaft_first_mm) && check_is_positive(b->shaft_heel_mm);
}

static bool curve_is_good(const struct neck_beam *b)
{
    if (!isfinite(b->curvature_per_mm) || !isfinite(b->fall_away_mm) ||
        !check_is_not_negative(b->crown_height_mm) || !check_is_not_negative(b->tension_total_n))
        return false;
    return !(b->fall_away_mm != 0) ||
           (isfinite(b->last_fret_mm) && b->last_fret_mm > b->high_end_mm);
}

static enum status check_shape(const struct neck_beam *b, enum neck_slot slot)
{
    if (!stations_are_good(b) || !shape_is_good(b) || !neck_make_is_good(&b->make, slot))
        return STATUS_DOMAIN;
    return STATUS_OK;
}

static enum status check_beam(const struct neck_beam *b, enum neck_slot slot)
{
    enum status status = check_shape(b, slot);
    if (status)
        return status;
    if (!curve_is_good(b))
        return STATUS_DOMAIN;
    if (!b->strings)
        return STATUS_ABSENT;
    if (b->string_count < 1 || b->string_count > NECK_BEAM_STRINGS_MAX)
        return STATUS_DOMAIN;
    for (int i = 0; i < b->string_count; i++) {
        const struct neck_beam_string *s = &b->strings[i];
        if (!check_is_positive(s->scale_mm) || !check_is_positive(s->saddle_x_mm) ||
            !isfinite(s->nut_height_mm) || !isfinite(s->saddle_height_mm))
            return STATUS_DOMAIN;
    }
    return STATUS_OK;
}

static bool station_is_on_beam(const struct neck_beam *b, double x_mm)
{
    return check_is_within(x_mm, 0, fmax(b->high_end_mm, b->heel_mm));
}

static enum status section_at(const struct neck_beam *b, const struct section_outline *outline,
                              enum neck_slot slot, double x_mm,
                              struct section_stiffness *ret_section)
{
    const double width_mm =
        b->width_nut_mm + (b->width_join_mm - b->width_nut_mm) * (x_mm / b->high_end_mm);
    const double share = (x_mm - b->first_fret_mm) / (b->heel_mm - b->first_fret_mm);
    const double depth_mm = b->shaft_first_mm + (b->shaft_heel_mm - b->shaft_first_mm) * share;
    return neck_section_find(&b->make, outline, slot, width_mm, depth_mm, ret_section);
}

/*
 * At a share r = x/scale of its scale, string i stands at x L_i/L, where its own curve is
 * kappa (L_i/L)^2 times the middle one's: the mean over the strings is again one line
 * and one curve.
 */
static struct lever_line average_strings(const struct neck_beam *b)
{
    struct lever_line line = {0};
    double square = 0;
    for (int i = 0; i < b->string_count; i++) {
        const struct neck_beam_string *s = &b->strings[i];
        const double ratio = s->scale_mm / b->scale_mm;
        line.at_nut_mm += s->nut_height_mm;
        line.slope += (s->saddle_height_mm - s->nut_height_mm) / s->saddle_x_mm * ratio;
        square += ratio * ratio;
    }
    line.at_nut_mm /= b->string_count;
    line.slope /= b->string_count;
    line.curvature_per_mm = b->curvature_per_mm * (square / b->string_count);
    return line;
}

static double curve_over_body(double x_mm, double heel_mm)
{
    return x_mm < heel_mm ? (heel_mm - x_mm) * (heel_mm - x_mm) / 2 : 0;
}

/* The line through two points of a curve, at x; also what the relief is measured from. */
static double chord_at(const struct neck_beam *b, double at_low, double at_high, double x_mm)
{
    const double share = (x_mm - b->low_end_mm) / (b->high_end_mm - b->low_end_mm);
    return at_low + (at_high - at_low) * share;
}

/* Crowns over the chord, spots left out. */
static double crown_line_mm(const struct neck_beam *b, double curvature_per_mm, double x_mm)
{
    const double low = curve_over_body(b->low_end_mm, b->heel_mm);
    const double high = curve_over_body(b->high_end_mm, b->heel_mm);
    double z_mm =
        curvature_per_mm * (curve_over_body(x_mm, b->heel_mm) - chord_at(b, low, high, x_mm));
    if (b->fall_away_mm != 0 && x_mm > b->high_end_mm)
        z_mm -= b->fall_away_mm * (x_mm - b->high_end_mm) / (b->last_fret_mm - b->high_end_mm);
    return z_mm;
}

static double lever_mm(const struct neck_beam *b, const struct lever_line *line, double axis_mm,
                       double x_mm)
{
    const double strings_mm =
        line->at_nut_mm + line->slope * x_mm - crown_line_mm(b, line->curvature_per_mm, x_mm);
    return b->make.board_thickness_mm + b->crown_height_mm + strings_mm - axis_mm;
}

/* (M/EI)(xi - x) */
static enum status integrand(const struct bending *bending, double xi_mm, double *ret_value)
{
    const struct neck_beam *b = bending->beam;
    struct section_stiffness section;
    enum status status = section_at(b, &bending->outline, bending->slot, xi_mm, &section);
    if (status)
        return status;
    const double lever = lever_mm(b, &bending->line, section.axis_mm, xi_mm);
    const double curvature = b->tension_total_n * lever / section.stiffness_nmm2;
    return check_give(curvature * (xi_mm - bending->x_mm), ret_value);
}

/* Ten-point Gauss-Legendre on one panel: Abramowitz and Stegun, table 25.4. */
static enum status integrate_panel(const struct bending *bending, double from_mm, double to_mm,
                                   double *sum, double *sum_of_sizes)
{
    static const double node[GAUSS_HALF] = {0.148874338981631211, 0.433395394129247191,
                                            0.679409568299024406, 0.865063366688984511,
                                            0.973906528517171720};
    static const double weight[GAUSS_HALF] = {0.295524224714752870, 0.269266719309996355,
                                              0.219086362515982044, 0.149451349150580593,
                                              0.066671344308688138};
    const double middle = (from_mm + to_mm) / 2;
    const double half = (to_mm - from_mm) / 2;
    for (int i = 0; i < GAUSS_HALF; i++) {
        double left = 0;
        double right = 0;
        enum status status = integrand(bending, middle - half * node[i], &left);
        if (status == STATUS_OK)
            status = integrand(bending, middle + half * node[i], &right);
        if (status)
            return status;
        *sum += half * weight[i] * (left + right);
        *sum_of_sizes += half * weight[i] * (fabs(left) + fabs(right));
    }
    return STATUS_OK;
}

/* Doubles the panels until the integral settles. */
static enum status integrate(const struct bending *bending, double from_mm, double to_mm,
                             double *ret_value)
{
    double previous = 0;
    for (int panels = 1; panels <= PANELS_MAX; panels *= 2) {
        const double step = (to_mm - from_mm) / panels;
        double sum = 0;
        double sizes = 0;
        for (int i = 0; i < panels; i++) {
            enum status status = integrate_panel(bending, from_mm + i * step,
                                                 from_mm + (i + 1) * step, &sum, &sizes);
            if (status)
                return status;
        }
        if (!isfinite(sum) || !isfinite(sizes))
            return STATUS_RANGE;
        /* Against the sizes: where M changes sign the sum itself may be next to nothing. */
        if (bending->about || (panels > 1 && fabs(sum - previous) <= 1e-11 * sizes)) {
            *ret_value = sum;
            return STATUS_OK;
        }
        previous = sum;
    }
    return STATUS_NOT_CONVERGED;
}

/* `beam` has been checked. */
static struct bending begin_bending(const struct neck_beam *beam, enum neck_slot slot, bool about)
{
    return (struct bending){.beam = beam,
                            .outline = neck_make_outline(&beam->make),
                            .slot = slot,
                            .line = average_strings(beam),
                            .about = about};
}

static enum status bend_at(struct bending bending, double x_mm, double *ret_bend_mm)
{
    const struct neck_beam *b = bending.beam;
    struct section_stiffness end;
    double near = 0;
    double far = 0;
    enum status status = STATUS_OK;
    bending.x_mm = x_mm;
    /* The nodes lie inside the panels and would miss a shaft cut through at its very end. */
    if (x_mm < b->heel_mm)
        status = section_at(b, &bending.outline, bending.slot, x_mm, &end);
    if (status)
        return status;
    /* The fall-away puts a corner at the high end, where the panels must meet. */
    const bool split = b->fall_away_mm != 0 && x_mm < b->high_end_mm && b->high_end_mm < b->heel_mm;
    const double corner_mm = split ? b->high_end_mm : x_mm;
    if (split)
        status = integrate(&bending, x_mm, corner_mm, &near);
    if (status == STATUS_OK && corner_mm < b->heel_mm)
        status = integrate(&bending, corner_mm, b->heel_mm, &far);
    if (status)
        return status;
    return check_give(near + far, ret_bend_mm);
}

enum status neck_beam_find_section(const struct neck_beam *beam, enum neck_slot slot, double x_mm,
                                   struct section_stiffness *ret_section)
{
    enum status status = check_shape(beam, slot);
    if (status)
        return status;
    if (!station_is_on_beam(beam, x_mm))
        return STATUS_DOMAIN;
    const struct section_outline outline = neck_make_outline(&beam->make);
    return section_at(beam, &outline, slot, x_mm, ret_section);
}

enum status neck_beam_find_lever(const struct neck_beam *beam, enum neck_slot slot, double x_mm,
                                 double *ret_lever_mm)
{
    struct section_stiffness section;
    enum status status = check_beam(beam, slot);
    if (status)
        return status;
    if (!station_is_on_beam(beam, x_mm))
        return STATUS_DOMAIN;
    const struct section_outline outline = neck_make_outline(&beam->make);
    status = section_at(beam, &outline, slot, x_mm, &section);
    if (status)
        return status;
    const struct lever_line line = average_strings(beam);
    return check_give(lever_mm(beam, &line, section.axis_mm, x_mm), ret_lever_mm);
}

enum status neck_beam_find_bend(const struct neck_beam *beam, enum neck_slot slot, double x_mm,
                                double *ret_bend_mm)
{
    enum status status = check_beam(beam, slot);
    if (status)
        return status;
    if (!station_is_on_beam(beam, x_mm))
        return STATUS_DOMAIN;
    const struct bending bending = begin_bending(beam, slot, false);
    return bend_at(bending, x_mm, ret_bend_mm);
}

static enum status find_relief(const struct neck_beam *beam, enum neck_slot slot, bool about,
                               double *ret_relief_mm)
{
    double low = 0;
    double high = 0;
    double middle = 0;
    enum status status = check_beam(beam, slot);
    if (status)
        return status;
    if (!check_is_within(beam->relief_mm, beam->low_end_mm, beam->high_end_mm))
        return STATUS_DOMAIN;
    const struct bending bending = begin_bending(beam, slot, about);
    status = bend_at(bending, beam->low_end_mm, &low);
    if (status == STATUS_OK)
        status = bend_at(bending, beam->high_end_mm, &high);
    if (status == STATUS_OK)
        status = bend_at(bending, beam->relief_mm, &middle);
    if (status)
        return status;
    return check_give(chord_at(beam, low, high, beam->relief_mm) - middle, ret_relief_mm);
}

enum status neck_beam_find_relief(const struct neck_beam *beam, enum neck_slot slot,
                                  double *ret_relief_mm)
{
    return find_relief(beam, slot, false, ret_relief_mm);
}

enum status neck_beam_find_relief_about(const struct neck_beam *beam, enum neck_slot slot,
                                        double *ret_relief_mm)
{
    return find_relief(beam, slot, true, ret_relief_mm);
}

enum status neck_beam_find_wood_left(double shaft_first_mm, double shaft_heel_mm, double cut_mm,
                                     double *ret_wood_mm)
{
    if (!check_is_positive(shaft_first_mm) || !check_is_positive(shaft_heel_mm) ||
        !check_is_not_negative(cut_mm))
        return STATUS_DOMAIN;
    return check_give(fmin(shaft_first_mm, shaft_heel_mm) - cut_mm, ret_wood_mm);
}

enum status neck_beam_find_stop_depth(double rod_height_mm, double rod_cap_mm, double tape_layers,
                                      double tape_thickness_mm, double *ret_stop_mm)
{
    if (!check_is_not_negative(rod_height_mm) || !check_is_not_negative(rod_cap_mm) ||
        !check_is_not_negative(tape_layers) || !check_is_not_negative(tape_thickness_mm))
        return STATUS_DOMAIN;
    return check_give(rod_height_mm + rod_cap_mm + tape_layers * tape_thickness_mm, ret_stop_mm);
}

enum status neck_tenon_find_safety(const struct neck_tenon *tenon, double *ret_safety)
{
    if (!check_is_positive(tenon->edge_mm) || !check_is_positive(tenon->thickness_mm) ||
        !check_is_positive(tenon->shear_strength_mpa) ||
        !check_is_positive(tenon->bolt_diameter_mm) || !check_is_positive(tenon->bolt_torque_nm))
        return STATUS_DOMAIN;
    const double torque_nmm = tenon->bolt_torque_nm * 1000;
    const double preload_n = torque_nmm / (NECK_TENON_TORQUE_FACTOR * tenon->bolt_diameter_mm);
    const double strength_n = 2 * tenon->edge_mm * tenon->thickness_mm * tenon->shear_strength_mpa;
    return check_give(strength_n / preload_n, ret_safety);
}

enum neck_risk neck_tenon_judge(double safety)
{
    const double low = 2 * 1.3 / (1 - 2 * 0.14);

    if (!(safety >= 1))
        return NECK_RISK_FAILS;
    if (safety < 2)
        return NECK_RISK_HIGH;
    return safety < low ? NECK_RISK_SOME : NECK_RISK_LOW;
}

const char *neck_risk_name(enum neck_risk risk)
{
    static const char *const names[] = {
        [NECK_RISK_LOW] = "low risk",
        [NECK_RISK_SOME] = "some risk",
        [NECK_RISK_HIGH] = "high risk",
        [NECK_RISK_FAILS] = "too weak",
    };
    return names[risk];
}
