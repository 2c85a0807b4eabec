/* SPDX-License-Identifier: MIT */
#include "base/unit.h"

#include <string.h>

#include "base/ascii.h"

/* pivot = value / parts * factor: `parts` of this unit make the one that `factor` defines. */
struct unit_facts {
    enum quantity_kind quantity;
    const char *label;
    double parts, factor;
};

/*
 * NIST SP 811 (2008), B.8 and footnotes: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg,
 * 1 lbf = 4.448 221 615 260 5 N, 1 gr = 64.798 91 mg, 1 kgf = 9.806 65 N, all exact.
 */
static const struct unit_facts unit_table[UNIT_COUNT_] = {
    [UNIT_NONE] = {QUANTITY_PLAIN, "", 1, 1},
    [UNIT_PLAIN] = {QUANTITY_PLAIN, "", 1, 1},
    [UNIT_MM] = {QUANTITY_LENGTH, "mm", 1, 1},
    [UNIT_CM] = {QUANTITY_LENGTH, "cm", 1, 10},
    [UNIT_IN] = {QUANTITY_LENGTH, "in", 1, 25.4},
    [UNIT_TH] = {QUANTITY_LENGTH, "th", 1000, 25.4},
    [UNIT_64THS] = {QUANTITY_LENGTH, "/64 in", 64, 25.4},
    [UNIT_100THS] = {QUANTITY_LENGTH, "/100 mm", 100, 1},
    [UNIT_C] = {QUANTITY_TEMPERATURE, "C", 1, 1},
    [UNIT_F] = {QUANTITY_TEMPERATURE, "F", 9, 5},
    [UNIT_PERCENT] = {QUANTITY_PERCENT, "%", 1, 1},
    [UNIT_CENT] = {QUANTITY_CENTS, "cents", 1, 1},
    [UNIT_HZ] = {QUANTITY_FREQUENCY, "Hz", 1, 1},
    [UNIT_N] = {QUANTITY_FORCE, "N", 1, 1},
    [UNIT_LB] = {QUANTITY_FORCE, "lb", 1, 4.4482216152605},
    [UNIT_KGF] = {QUANTITY_FORCE, "kgf", 1, 9.80665},
    [UNIT_MPA] = {QUANTITY_STRESS, "N/mm2", 1, 1},
    [UNIT_GPA] = {QUANTITY_STRESS, "GPa", 1, 1000},
    [UNIT_NM] = {QUANTITY_TORQUE, "Nm", 1, 1},
    [UNIT_FTLB] = {QUANTITY_TORQUE, "ft-lb", 1, 1.3558179483314004},
    [UNIT_INLB] = {QUANTITY_TORQUE, "in-lb", 1, 0.1129848290276167},
    [UNIT_G] = {QUANTITY_MASS, "g", 1, 1},
    [UNIT_GRAIN] = {QUANTITY_MASS, "gr", 1, 0.06479891},
    [UNIT_G_PER_M] = {QUANTITY_UNIT_MASS, "g/m", 1, 1},
    [UNIT_LB_PER_IN] = {QUANTITY_UNIT_MASS, "lb/in", 25.4, 453592.37},
    [UNIT_TURN] = {QUANTITY_TURNS, "turn", 1, 1},
};

static const struct {
    enum unit unit;
    const char *name;
} suffix_table[] = {
    {UNIT_MM, "mm"},
    {UNIT_CM, "cm"},
    {UNIT_IN, "in"},
    {UNIT_IN, "\""},
    {UNIT_IN, "\xE2\x80\xB3"}, /* U+2033, the double prime */
    {UNIT_IN, "\xE2\x80\x9D"}, /* U+201D, what a text program makes of the double quote */
    {UNIT_IN, "inch"},
    {UNIT_IN, "inches"},
    {UNIT_TH, "th"},
    {UNIT_TH, "thou"},
    {UNIT_C, "C"},
    {UNIT_C, "\xC2\xB0"
             "C"},
    {UNIT_F, "F"},
    {UNIT_F, "\xC2\xB0"
             "F"},
    {UNIT_PERCENT, "%"},
    {UNIT_CENT, "cents"},
    {UNIT_CENT, "cent"},
    {UNIT_HZ, "Hz"},
    {UNIT_N, "N"},
    {UNIT_LB, "lb"},
    {UNIT_LB, "lbf"},
    {UNIT_LB, "lbs"},
    {UNIT_KGF, "kgf"},
    {UNIT_KGF, "kg"},
    {UNIT_MPA, "N/mm2"},
    {UNIT_MPA, "N/mm\xC2\xB2"},
    {UNIT_MPA, "MPa"},
    {UNIT_GPA, "GPa"},
    {UNIT_NM, "Nm"},
    {UNIT_NM, "N m"},
    {UNIT_NM, "N\xC2\xB7m"},
    {UNIT_FTLB, "ft-lb"},
    {UNIT_FTLB, "ft lb"},
    {UNIT_FTLB, "ftlb"},
    {UNIT_FTLB, "lb-ft"},
    {UNIT_INLB, "in-lb"},
    {UNIT_INLB, "in lb"},
    {UNIT_INLB, "inlb"},
    {UNIT_INLB, "lb-in"},
    {UNIT_G, "g"},
    {UNIT_GRAIN, "gr"},
    {UNIT_GRAIN, "grain"},
    {UNIT_GRAIN, "grains"},
    {UNIT_G_PER_M, "g/m"},
    {UNIT_LB_PER_IN, "lb/in"},
    {UNIT_TURN, "turn"},
    {UNIT_TURN, "turns"},
};

static const struct unit_facts *facts_of(enum unit unit)
{
    unsigned index = (unsigned)unit;

    return &unit_table[index < UNIT_COUNT_ ? index : UNIT_NONE];
}

enum quantity_kind unit_quantity(enum unit unit)
{
    return facts_of(unit)->quantity;
}

enum unit unit_pivot(enum quantity_kind quantity)
{
    switch (quantity) {
    case QUANTITY_PLAIN:
        return UNIT_PLAIN;
    case QUANTITY_LENGTH:
        return UNIT_MM;
    case QUANTITY_TEMPERATURE:
        return UNIT_C;
    case QUANTITY_PERCENT:
        return UNIT_PERCENT;
    case QUANTITY_CENTS:
        return UNIT_CENT;
    case QUANTITY_FREQUENCY:
        return UNIT_HZ;
    case QUANTITY_FORCE:
        return UNIT_N;
    case QUANTITY_STRESS:
        return UNIT_MPA;
    case QUANTITY_TORQUE:
        return UNIT_NM;
    case QUANTITY_MASS:
        return UNIT_G;
    case QUANTITY_UNIT_MASS:
        return UNIT_G_PER_M;
    case QUANTITY_TURNS:
        return UNIT_TURN;
    }
    return UNIT_NONE;
}

const char *unit_label(enum unit unit)
{
    return facts_of(unit)->label;
}

double unit_to_pivot(enum unit unit, double value)
{
    const struct unit_facts *facts = facts_of(unit);

    if (unit == UNIT_F)
        value -= 32.0;
    return value / facts->parts * facts->factor;
}

double unit_from_pivot(enum unit unit, double value)
{
    const struct unit_facts *facts = facts_of(unit);
    const double shown = value / facts->factor * facts->parts;

    return unit == UNIT_F ? shown + 32.0 : shown;
}

static bool same_name(const char *name, const char *text, size_t length)
{
    if (strlen(name) != length)
        return false;
    for (size_t i = 0; i < length; i++)
        if (ascii_lower(name[i]) != ascii_lower(text[i]))
            return false;
    return true;
}

bool unit_from_suffix(enum quantity_kind quantity, const char *text, size_t length,
                      enum unit *ret_unit)
{
    for (size_t i = 0; i < sizeof(suffix_table) / sizeof(suffix_table[0]); i++) {
        if (unit_quantity(suffix_table[i].unit) != quantity)
            continue;
        if (!same_name(suffix_table[i].name, text, length))
            continue;
        *ret_unit = suffix_table[i].unit;
        return true;
    }
    return false;
}

static const char *const says_unit[] = {
    [QUANTITY_PLAIN] = "this is a plain number, without a unit",
    [QUANTITY_LENGTH] = "the unit of a length is needed here: mm, cm, in, th",
    [QUANTITY_TEMPERATURE] = "the unit of a temperature is needed here: C, F",
    [QUANTITY_PERCENT] = "the unit is needed here: %",
    [QUANTITY_CENTS] = "the unit is needed here: cents",
    [QUANTITY_FREQUENCY] = "the unit is needed here: Hz",
    [QUANTITY_FORCE] = "the unit of a force is needed here: N, lb, kgf",
    [QUANTITY_STRESS] = "the unit of a modulus is needed here: N/mm2, MPa, GPa",
    [QUANTITY_TORQUE] = "the unit of a torque is needed here: Nm, ft-lb, in-lb",
    [QUANTITY_MASS] = "the unit of a mass is needed here: g, gr",
    [QUANTITY_UNIT_MASS] = "the unit of a mass by length is needed here: g/m, lb/in",
    [QUANTITY_TURNS] = "the unit is needed here: turn",
};

const char *unit_wanted(enum quantity_kind quantity)
{
    return says_unit[quantity];
}

enum unit unit_printed(enum unit bare)
{
    if (bare == UNIT_TH)
        return UNIT_IN;
    return bare == UNIT_100THS ? UNIT_MM : bare;
}
