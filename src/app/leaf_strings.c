/* SPDX-License-Identifier: MIT */
#include "app/leaf_strings.h"

#include "app/leaf.h"

enum field_id leaf_strings_field(enum string_column column)
{
    static const enum field_id fields[STRING_COLUMN_COUNT_] = {
        [STRING_COLUMN_NOTE] = FIELD_STRING_NOTE,
        [STRING_COLUMN_GAUGE] = FIELD_GAUGE,
        [STRING_COLUMN_CORE] = FIELD_CORE,
        [STRING_COLUMN_HEX] = FIELD_HEX,
        [STRING_COLUMN_BUILD] = FIELD_BUILD,
        [STRING_COLUMN_WRAP] = FIELD_WRAP_MATERIAL,
        [STRING_COLUMN_SETBACK] = FIELD_SETBACK,
        [STRING_COLUMN_MASS] = FIELD_MASS,
        [STRING_COLUMN_WEIGH_MASS] = FIELD_WEIGH_MASS,
        [STRING_COLUMN_WEIGH_LENGTH] = FIELD_WEIGH_LENGTH,
        [STRING_COLUMN_LABEL_TENSION] = FIELD_LABEL_TENSION,
        [STRING_COLUMN_LABEL_NOTE] = FIELD_LABEL_NOTE,
        [STRING_COLUMN_LABEL_SCALE] = FIELD_LABEL_SCALE,
        [STRING_COLUMN_CORE_MATERIAL] = FIELD_CORE_MATERIAL,
        [STRING_COLUMN_MODULUS] = FIELD_STRING_MODULUS,
    };
    return fields[column];
}

enum figure_id leaf_strings_figure(enum string_column column)
{
    switch (column) {
    case STRING_COLUMN_NOTE:
        return FIGURE_TENSION;
    case STRING_COLUMN_CORE:
    case STRING_COLUMN_HEX:
    case STRING_COLUMN_CORE_MATERIAL:
    case STRING_COLUMN_MODULUS:
        return FIGURE_STRESS_SHARE;
    case STRING_COLUMN_SETBACK:
        return FIGURE_SETBACK_PREDICTED;
    default:
        return FIGURE_UNIT_MASS;
    }
}

/* A packet is read gauge by gauge, so the route goes down each column, bass string first. */
void leaf_lay_strings(const struct leaf_place *place, struct route *route)
{
    for (int column = 0; column < STRING_COLUMN_COUNT_; column++)
        for (int s = place->strings; s >= 1; s--)
            route_add(route, reading_key_string(leaf_strings_field((enum string_column)column), s),
                      place->strings - s, column, s);
}
