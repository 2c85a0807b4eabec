/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_LEAF_STRINGS_H
#define SILLET_APP_LEAF_STRINGS_H

#include "model/field.h"
#include "model/figure.h"

/* The columns of the strings' table: what a set's packet says first, then what gives a unit
 * mass that is better known. */
enum string_column {
    STRING_COLUMN_NOTE,
    STRING_COLUMN_GAUGE,
    STRING_COLUMN_CORE,
    STRING_COLUMN_HEX,
    STRING_COLUMN_BUILD,
    STRING_COLUMN_WRAP,
    STRING_COLUMN_SETBACK,
    STRING_COLUMN_MASS,
    STRING_COLUMN_WEIGH_MASS,
    STRING_COLUMN_WEIGH_LENGTH,
    STRING_COLUMN_LABEL_TENSION,
    STRING_COLUMN_LABEL_NOTE,
    STRING_COLUMN_LABEL_SCALE,
    STRING_COLUMN_CORE_MATERIAL,
    STRING_COLUMN_MODULUS,
    STRING_COLUMN_COUNT_
};

enum field_id leaf_strings_field(enum string_column column);

/* The figure that a column bears on first. */
enum figure_id leaf_strings_figure(enum string_column column);

#endif
