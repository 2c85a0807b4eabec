/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_UNIT_H
#define SILLET_BASE_UNIT_H

#include <stdbool.h>
#include <stddef.h>

/*
 * The units that a reading can be typed in. Each quantity has one pivot unit,
 * the one the program calculates in. Conversions use the defining factors
 * (1 in = 25.4 mm exactly).
 */
enum quantity_kind {
    QUANTITY_PLAIN,       /* no unit */
    QUANTITY_LENGTH,      /* pivot mm */
    QUANTITY_TEMPERATURE, /* pivot degree Celsius */
    QUANTITY_PERCENT,     /* pivot % */
    QUANTITY_CENTS,       /* pivot cent */
    QUANTITY_FREQUENCY,   /* pivot Hz */
    QUANTITY_FORCE,       /* pivot N */
    QUANTITY_STRESS,      /* pivot N/mm2 (MPa) */
    QUANTITY_TORQUE,      /* pivot N m */
    QUANTITY_MASS,        /* pivot g */
    QUANTITY_UNIT_MASS,   /* pivot g/m (numerically 1000 kg/m) */
    QUANTITY_TURNS,       /* pivot turn */
};

enum unit {
    UNIT_NONE,   /* a bare length is then refused: a file must name its unit */
    UNIT_PLAIN,  /* a number without unit: counts, factors */
    UNIT_MM,     /* "mm" */
    UNIT_CM,     /* "cm" */
    UNIT_IN,     /* "in", "inch" or a double quote, straight, curled or prime */
    UNIT_TH,     /* "th" or "thou", thousandths of an inch */
    UNIT_64THS,  /* 64ths of an inch; has no suffix, is spelled "N/64 in" */
    UNIT_100THS, /* hundredths of a mm; has no suffix, is spelled "N/100 mm" */
    UNIT_C,      /* "C", also with the degree sign */
    UNIT_F,      /* likewise */
    UNIT_PERCENT,
    UNIT_CENT,
    UNIT_HZ,
    UNIT_N,
    UNIT_LB,  /* pound-force, 4.4482216152605 N exactly */
    UNIT_KGF, /* "kgf" or "kg", 9.80665 N exactly */
    UNIT_MPA, /* "N/mm2", "MPa" */
    UNIT_GPA,
    UNIT_NM,   /* "Nm", "N m" */
    UNIT_FTLB, /* "ft-lb", twelve of the next, 1.3558179483314004 N m exactly */
    UNIT_INLB, /* "in-lb", pound-force inches, 0.1129848290276167 N m exactly */
    UNIT_G,
    UNIT_GRAIN, /* "gr", 0.06479891 g exactly */
    UNIT_G_PER_M,
    UNIT_LB_PER_IN, /* string makers' unit weight, 17857.967 g/m */
    UNIT_TURN,
    UNIT_COUNT_ /* the number of units */
};

/* The quantity that a unit measures; QUANTITY_PLAIN for UNIT_NONE and UNIT_PLAIN. */
enum quantity_kind unit_quantity(enum unit unit);

/* The pivot unit of a quantity: UNIT_MM for a length and so on. */
enum unit unit_pivot(enum quantity_kind quantity);

/* The short name to print after a value and a blank ("mm", "in", "C", "%"), or right after the
 * value for UNIT_64THS and UNIT_100THS ("/64 in", "/100 mm"); "" for none. All labels but
 * those two are also suffixes. */
const char *unit_label(enum unit unit);

/* Converts `value` from `unit` to the pivot unit of its quantity, and back. 6/64 in and 6 64ths
 * give the same double; the defining factor and the product are each rounded once. */
double unit_to_pivot(enum unit unit, double value);
double unit_from_pivot(enum unit unit, double value);

/*
 * Finds the unit that a suffix names: `text` of `length` bytes, ASCII case ignored, no
 * blanks except the one in "N m" and "in lb". Returns false, *ret_unit untouched, when no unit
 * of `quantity` has that name.
 */
bool unit_from_suffix(enum quantity_kind quantity, const char *text, size_t length,
                      enum unit *ret_unit);

/* The unit that amounts are printed in where a bare number is in `bare`: thousandths as decimal
 * inches, hundredths as mm, the way leaves are marked. */
enum unit unit_printed(enum unit bare);

/* The message for a missing or wrong unit of a quantity; it ends with the main suffixes that the
 * quantity accepts, ": mm, cm, in, th". */
const char *unit_wanted(enum quantity_kind quantity);

#endif
