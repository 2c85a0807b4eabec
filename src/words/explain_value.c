/* SPDX-License-Identifier: MIT */
#include "words/explain_value.h"

#include <math.h>
#include <string.h>

#include "base/num.h"
#include "model/reading/note_name.h"
#include "words/amount.h"

/* The unit of a printed key as a person writes it. */
static const char *unit_words(const char *unit)
{
    static const char *const words[][2] = {
        {"per_m", "1/m"}, {"hz", "Hz"},    {"g_per_m", "g/m"},
        {"n", "N"},       {"nm2", "N m2"}, {"pct", "%"},
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strcmp(unit, words[i][0]) == 0)
            return words[i][1];
    return unit;
}

/* Enough decimals to tell readings apart, without pretending to more. */
static int decimals_for(double value)
{
    const double size = fabs(value);

    if (size >= 100)
        return 1;
    return size >= 10 ? 2 : 3;
}

/* The shop's unit, and the other one, which stands in brackets. */
static enum unit unit_of(const struct explain_from *from, bool other)
{
    const struct shop_units *units = from->units;
    const bool metric = !units || units->bare[MEASURE_FEELER] == UNIT_MM;

    return metric == other ? UNIT_IN : UNIT_MM;
}

static void add_in_unit(struct strbuf *out, double mm, enum unit unit)
{
    const bool metric = unit == UNIT_MM;

    num_format_fixed(unit_from_pivot(unit, mm), metric ? decimals_for(mm) : 4, !metric, out);
    amount_add_unit(out, unit);
}

static void add_length(const struct explain_from *from, double mm, struct strbuf *out)
{
    add_in_unit(out, mm, unit_of(from, false));
    strbuf_add(out, " (");
    add_in_unit(out, mm, unit_of(from, true));
    strbuf_add_char(out, ')');
}

static void add_supported(const struct explain_from *from, double mm, double u_mm,
                          struct strbuf *out)
{
    for (int other = 0; other <= 1; other++) {
        const enum unit unit = unit_of(from, other);

        strbuf_add(out, other ? " (" : "");
        amount_add_supported_mm(out, mm, u_mm, unit, AMOUNT_ANY_WIDTH);
        amount_add_unit(out, unit);
        strbuf_add(out, other ? ")" : "");
    }
}

static void add_u(const struct explain_from *from, const struct figure_info *info, double u,
                  struct strbuf *out)
{
    strbuf_add(out, " \xC2\xB1");
    if (strcmp(info->unit, "mm") == 0) {
        add_in_unit(out, u, unit_of(from, false));
        return;
    }
    num_format_fixed(u, 3, false, out);
    strbuf_add(out, info->unit[0] ? " " : "");
    strbuf_add(out, unit_words(info->unit));
}

void explain_add_figure(const struct explain_from *from, enum figure_id id, int string,
                        struct strbuf *out)
{
    const struct figure_info *info = figure_info(id);
    const int at = info->per == PER_STRING ? string : 0;
    const struct figure *figure = &from->derived->figures.at[id][at];
    const double value = figure->value * info->factor, u = figure->u * info->factor;
    bool u_said = false;

    if (figure->known == KNOWN_ABSENT) {
        strbuf_add(out, "not known");
        return;
    }
    if (explain_is_predicted(id)) {
        add_supported(from, value, u, out);
        u_said = true;
    } else if (strcmp(info->unit, "mm") == 0) {
        add_length(from, value, out);
    } else {
        num_format_fixed(value, decimals_for(value), false, out);
        strbuf_add(out, info->unit[0] ? " " : "");
        strbuf_add(out, unit_words(info->unit));
    }
    if (u > 0 && !u_said)
        add_u(from, info, u, out);
    if (figure->known == KNOWN_INTERPOLATED)
        strbuf_add(out, at > 0 && !outfit_is_read(&from->derived->setup.outfit, at)
                            ? ", from its course"
                            : ", from the neighbouring strings");
}

/* Adds inches to a length typed in mm, and mm to one typed in inches. */
static void add_other_unit(struct strbuf *out, const char *text, double mm)
{
    const bool metric = strchr(text, 'm') != NULL;

    strbuf_add(out, " = ");
    num_format_fixed(metric ? unit_from_pivot(UNIT_IN, mm) : mm, metric ? 4 : decimals_for(mm),
                     metric, out);
    strbuf_add(out, metric ? " in" : " mm");
}

void explain_add_field(const struct explain_from *from, struct reading_key key, struct strbuf *out)
{
    const struct record *record = &from->place.record;
    const struct field *field = field_get(key.field);
    const char *text = record_text(record, &key);
    const struct maybe value = record_entered_or_fallback(record, key);

    if (!text && field->fallback[0])
        text = field->fallback;
    if (!text) {
        strbuf_add(out, "not given");
        return;
    }
    if (key.field == FIELD_STRING_NOTE && note_name_of(record, key.string, out))
        return;
    strbuf_add(out, text);
    if (field->quantity == QUANTITY_LENGTH && value.given)
        add_other_unit(out, text, value.value);
    if (!record_get(record, &key))
        strbuf_add(out, " (default)");
}

void explain_add_item(const struct explain_from *from, enum setup_item item, int string,
                      struct strbuf *out)
{
    const struct maybe mm = explain_item(from->derived, item, string);

    if (mm.given)
        add_length(from, mm.value, out);
    else
        strbuf_add(out, "not known");
}
