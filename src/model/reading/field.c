/* SPDX-License-Identifier: MIT */
#include "model/reading/field.h"

#include <stddef.h>

#define FIELD(id_, section_, per_, key_, label_, kind_, quantity_, measure_, step_, pmin, pmax,    \
              umin, umax, fallback_, choices_, help_)                                              \
    [FIELD_##id_] = {.id = FIELD_##id_,                                                            \
                     .section = SECTION_##section_,                                                \
                     .per = PER_##per_,                                                            \
                     .key = key_,                                                                  \
                     .label = label_,                                                              \
                     .kind = KIND_##kind_,                                                         \
                     .quantity = QUANTITY_##quantity_,                                             \
                     .measure = MEASURE_##measure_,                                                \
                     .step = STEP_##step_,                                                         \
                     .possible_min = pmin,                                                         \
                     .possible_max = pmax,                                                         \
                     .usual_min = umin,                                                            \
                     .usual_max = umax,                                                            \
                     .fallback = fallback_,                                                        \
                     .choices = choices_,                                                          \
                     .help = help_},

static const struct field fields[FIELD_COUNT_] = {
#include "model/reading/field_table.h"
};

const struct field *field_get(enum field_id id)
{
    return &fields[id];
}

bool field_is_number(const struct field *field)
{
    return field->kind == KIND_NUMBER || field->kind == KIND_RADIUS;
}

bool section_is_of_instrument(enum section section)
{
    return section < SECTION_VISIT;
}

bool field_may_change(enum field_id id)
{
    static const bool corrections[FIELD_COUNT_] = {
#define CORRECTION(field) [FIELD_##field] = true,
#include "model/reading/correction_table.h"
#undef CORRECTION
    };

    return section_is_of_instrument(fields[id].section) && !corrections[id];
}

struct shop_units shop_units_inch(void)
{
    return (struct shop_units){.bare = {
                                   [MEASURE_FEELER] = UNIT_TH,
                                   [MEASURE_RULE] = UNIT_64THS,
                                   [MEASURE_DEPTH] = UNIT_64THS,
                                   [MEASURE_GAUGE] = UNIT_TH,
                                   [MEASURE_SMALL] = UNIT_IN,
                                   [MEASURE_LONG] = UNIT_IN,
                                   [MEASURE_TEMPERATURE] = UNIT_F,
                               }};
}

struct shop_units shop_units_metric(void)
{
    return (struct shop_units){.bare = {
                                   [MEASURE_FEELER] = UNIT_100THS,
                                   [MEASURE_RULE] = UNIT_MM,
                                   [MEASURE_DEPTH] = UNIT_MM,
                                   [MEASURE_GAUGE] = UNIT_MM,
                                   [MEASURE_SMALL] = UNIT_MM,
                                   [MEASURE_LONG] = UNIT_MM,
                                   [MEASURE_TEMPERATURE] = UNIT_C,
                               }};
}

enum unit field_bare_unit(const struct field *field, const struct shop_units *units)
{
    if (field->measure != MEASURE_NONE)
        return units->bare[field->measure];
    return unit_pivot(field->quantity);
}

enum unit field_file_unit(const struct field *field)
{
    if (field->quantity == QUANTITY_LENGTH)
        return UNIT_NONE;
    return unit_pivot(field->quantity);
}

bool field_choice(const struct field *field, int k, char *out, size_t size)
{
    const char *choices = field->kind == KIND_YESNO ? "no|yes" : field->choices;
    struct strbuf text = strbuf_over(out, size);

    for (; *choices; choices++) {
        if (*choices == '|') {
            if (k-- == 0)
                return true;
        } else if (k == 0) {
            strbuf_add_char(&text, *choices);
        }
    }
    return k == 0 && text.length > 0;
}
