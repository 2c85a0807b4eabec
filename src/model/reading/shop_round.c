/* SPDX-License-Identifier: MIT */
#include "model/reading/shop_round.h"

#include <math.h>
#include <string.h>

#include "model/reading/outfit.h"

/* What is round, in the unit that it is written in. */
struct step {
    enum unit unit;
    double step;
    int decimals;
    const char *behind;
};

static bool is_metric(enum unit unit)
{
    return unit == UNIT_MM || unit == UNIT_CM || unit == UNIT_100THS;
}

/* Leaves come in .001 in and 0.05 mm; a rule is read to half a 64th and to 0.1 mm. */
static struct step step_of(const struct field *field, const struct shop_units *units)
{
    const enum unit unit = field_bare_unit(field, units);
    const bool metric = is_metric(unit);

    if (unit == UNIT_64THS)
        return (struct step){UNIT_64THS, field->measure == MEASURE_DEPTH ? 1 : 0.5, 1, "/64 in"};
    if (field->kind == KIND_RADIUS)
        return metric ? (struct step){UNIT_MM, 10, 0, " mm"}
                      : (struct step){UNIT_IN, 0.5, 1, " in"};
    switch (field->measure) {
    case MEASURE_FEELER:
        return metric ? (struct step){UNIT_MM, 0.05, 2, " mm"}
                      : (struct step){UNIT_IN, 0.001, 3, " in"};
    case MEASURE_RULE:
        return metric ? (struct step){UNIT_MM, 0.1, 1, " mm"}
                      : (struct step){UNIT_IN, 0.005, 3, " in"};
    case MEASURE_LONG:
        return metric ? (struct step){UNIT_MM, 1, 0, " mm"}
                      : (struct step){UNIT_IN, 0.05, 2, " in"};
    default:
        return metric ? (struct step){UNIT_MM, 0.5, 1, " mm"}
                      : (struct step){UNIT_IN, 0.01, 2, " in"};
    }
}

static void add_steps(const struct step *step, double count, struct strbuf *out)
{
    const double value = count * step->step;
    const bool whole = step->unit == UNIT_64THS && value == floor(value);

    num_format_fixed(value, whole ? 0 : step->decimals, step->unit == UNIT_IN, out);
    strbuf_add(out, step->behind);
}

void shop_round_add(const struct field *field, const struct shop_units *units, double mm,
                    struct strbuf *out)
{
    const struct step step = step_of(field, units);

    add_steps(&step, round(unit_from_pivot(step.unit, mm) / step.step), out);
}

void shop_round_add_next(const struct field *field, const struct shop_units *units, double mm,
                         int by, struct strbuf *out)
{
    const struct step step = step_of(field, units);
    const double at = unit_from_pivot(step.unit, mm) / step.step, rounding = 1e-6;

    add_steps(&step, by > 0 ? floor(at + rounding) + 1 : ceil(at - rounding) - 1, out);
}

/* What holds unsaid (the field's fallback), said in the system where that is not round. */
static const struct {
    enum field_id field;
    bool metric;
    const char *text;
} unsaid[] = {
    {FIELD_RELIEF_TOLERANCE, true, "0.02 mm"}, {FIELD_ACTION_TOLERANCE, true, "0.2 mm"},
    {FIELD_GAP_TOLERANCE, true, "0.02 mm"},    {FIELD_FEELER_STEP, true, "0.02 mm"},
    {FIELD_RULE_STEP, true, "0.2 mm"},         {FIELD_EXPOSURE_MIN, false, "4/64 in"},
    {FIELD_EXPOSURE_NEW, false, "10/64 in"},
};

static bool is_rounded(const struct field *field)
{
    return field->quantity == QUANTITY_LENGTH && field->measure != MEASURE_GAUGE &&
           field->id != FIELD_THREAD && field->section <= SECTION_MODEL;
}

static enum status round_reading(struct record *record, const struct reading *reading,
                                 const struct shop_units *units)
{
    const struct reading_key key = reading->key;
    const struct field *field = field_get(key.field);
    const bool written_metric = strstr(reading->text, "mm") || strstr(reading->text, "cm");
    char memory[32];
    struct strbuf text = STRBUF(memory);

    /* No rounding may make nothing of something; a flat radius has no unit. */
    if (!is_rounded(field) || reading->value.state == READING_BAD || reading->value.value == 0 ||
        written_metric == is_metric(field_bare_unit(field, units)))
        return STATUS_OK;
    shop_round_add(field, units, reading->value.value, &text);
    return record_put(record, &key, memory, false, NULL);
}

enum status shop_round_record(struct record *record, const struct shop_units *units)
{
    for (size_t i = 0; i < record->count; i++) {
        const enum status status = round_reading(record, &record->readings[i], units);

        if (status == STATUS_NO_MEMORY)
            return status;
    }
    struct outfit outfit;

    outfit_read(&outfit, record, 0);
    for (size_t i = 0; i < sizeof unsaid / sizeof unsaid[0]; i++) {
        const struct reading_key key = reading_key_one(unsaid[i].field);

        if (unsaid[i].metric != is_metric(field_bare_unit(field_get(unsaid[i].field), units)) ||
            !outfit_asks(&outfit, unsaid[i].field, 0) || record_get(record, &key))
            continue;
        if (record_put(record, &key, unsaid[i].text, false, NULL) == STATUS_NO_MEMORY)
            return STATUS_NO_MEMORY;
    }
    return STATUS_OK;
}
