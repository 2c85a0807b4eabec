/* SPDX-License-Identifier: MIT */
#include "model/neck/neck_section.h"

#include <math.h>
#include <stddef.h>

#include "model/common/check.h"

enum { NECK_PARTS_MAX = 5 };

static bool part_is_finite(const struct section_part *part)
{
    return isfinite(part->modulus_mpa) && isfinite(part->area_mm2) && isfinite(part->centroid_mm) &&
           isfinite(part->inertia_mm4);
}

enum status section_compose(const struct section_part *parts, int count,
                            struct section_stiffness *ret_section)
{
    double stretch = 0;
    double moment = 0;
    if (!parts || count < 1)
        return STATUS_ABSENT;
    for (int i = 0; i < count; i++) {
        if (!part_is_finite(&parts[i]))
            return STATUS_DOMAIN;
        const double share = parts[i].modulus_mpa * parts[i].area_mm2;
        stretch += share;
        moment += share * parts[i].centroid_mm;
    }
    if (!(stretch > 0))
        return STATUS_DOMAIN;
    const double axis_mm = moment / stretch;
    double stiffness = 0;
    for (int i = 0; i < count; i++) {
        const double arm = parts[i].centroid_mm - axis_mm;
        stiffness += parts[i].modulus_mpa * (parts[i].inertia_mm4 + parts[i].area_mm2 * arm * arm);
    }
    if (!isfinite(axis_mm) || !isfinite(stiffness))
        return STATUS_RANGE;
    if (!(stiffness > 0))
        return STATUS_DOMAIN;
    *ret_section = (struct section_stiffness){.axis_mm = axis_mm, .stiffness_nmm2 = stiffness};
    return STATUS_OK;
}

struct section_part section_rectangle(double modulus_mpa, double width_mm, double bottom_mm,
                                      double top_mm)
{
    const double height_mm = top_mm - bottom_mm;
    return (struct section_part){
        .modulus_mpa = modulus_mpa,
        .area_mm2 = width_mm * height_mm,
        .centroid_mm = (bottom_mm + top_mm) / 2,
        .inertia_mm4 = width_mm * height_mm * height_mm * height_mm / 12,
    };
}

static double outline_moment(double p, int k)
{
    const double a = (k + 1) / p, b = 1 + 1 / p;

    return tgamma(a) * tgamma(b) / tgamma(a + b) / p;
}

struct section_outline section_outline_of(double exponent)
{
    if (!(exponent != 2)) /* most of the time */
        return (struct section_outline){M_PI / 4, 1.0 / 3, M_PI / 16};
    return (struct section_outline){outline_moment(exponent, 0), outline_moment(exponent, 1),
                                    outline_moment(exponent, 2)};
}

struct section_part section_half(const struct section_outline *outline, double modulus_mpa,
                                 double width_mm, double depth_mm)
{
    const double own = outline->second - outline->first * outline->first / outline->area;

    return (struct section_part){
        .modulus_mpa = modulus_mpa,
        .area_mm2 = outline->area * width_mm * depth_mm,
        .centroid_mm = -outline->first / outline->area * depth_mm,
        .inertia_mm4 = own * width_mm * depth_mm * depth_mm * depth_mm,
    };
}

bool neck_make_is_good(const struct neck_make *make, enum neck_slot slot)
{
    if (!check_is_positive(make->board_thickness_mm) ||
        !check_is_positive(make->board_modulus_mpa) || !check_is_positive(make->shaft_modulus_mpa))
        return false;
    if (!check_is_not_negative(make->slot_width_mm) || !check_is_not_negative(make->slot_depth_mm))
        return false;
    if (!isfinite(make->fullness) || !(make->fullness > -2))
        return false;
    if (slot == NECK_SLOT_FOUND)
        return true;
    if (!check_is_positive(make->spline_modulus_mpa))
        return false;
    return slot == NECK_SLOT_FILLED || (check_is_not_negative(make->recut_width_mm) &&
                                        check_is_not_negative(make->recut_depth_mm));
}

/* A cut that reached the outside would leave a shape that the formulas do not describe. */
static bool cuts_fit(const struct neck_make *make, enum neck_slot slot, double width_mm,
                     double depth_mm)
{
    if (!(make->slot_width_mm < width_mm && make->slot_depth_mm < depth_mm))
        return false;
    return slot != NECK_SLOT_RECUT ||
           (make->recut_width_mm < width_mm && make->recut_depth_mm < depth_mm);
}

struct section_outline neck_make_outline(const struct neck_make *make)
{
    return section_outline_of(2 + make->fullness);
}

static int list_parts(const struct neck_make *make, const struct section_outline *outline,
                      enum neck_slot slot, double width_mm, double depth_mm,
                      struct section_part parts[NECK_PARTS_MAX])
{
    const double shaft = make->shaft_modulus_mpa;
    const double spline = make->spline_modulus_mpa;
    const double old_depth = make->slot_depth_mm;
    int n = 0;
    parts[n++] = section_half(outline, shaft, width_mm, depth_mm);
    parts[n++] = section_rectangle(make->board_modulus_mpa, width_mm, 0, make->board_thickness_mm);
    parts[n++] = section_rectangle(slot == NECK_SLOT_FOUND ? -shaft : spline - shaft,
                                   make->slot_width_mm, -old_depth, 0);
    if (slot != NECK_SLOT_RECUT)
        return n;
    const double in_spline = fmin(make->recut_depth_mm, old_depth);
    parts[n++] = section_rectangle(-spline, make->recut_width_mm, -in_spline, 0);
    if (make->recut_depth_mm > old_depth)
        parts[n++] =
            section_rectangle(-shaft, make->recut_width_mm, -make->recut_depth_mm, -old_depth);
    return n;
}

enum status neck_section_find(const struct neck_make *make, const struct section_outline *outline,
                              enum neck_slot slot, double width_mm, double depth_mm,
                              struct section_stiffness *ret_section)
{
    struct section_part parts[NECK_PARTS_MAX];
    if (!neck_make_is_good(make, slot) || !check_is_positive(width_mm) ||
        !check_is_positive(depth_mm) || !cuts_fit(make, slot, width_mm, depth_mm))
        return STATUS_DOMAIN;
    const int count = list_parts(make, outline, slot, width_mm, depth_mm, parts);
    return section_compose(parts, count, ret_section);
}
