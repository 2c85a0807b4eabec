/* SPDX-License-Identifier: MIT */
#include "app/doubt_words.h"

#include <math.h>
#include <string.h>

#include "app/entry.h"

/* A number with the decimals that it needs, at most so many. */
static void add_rounded(struct strbuf *out, double value, int decimals, bool inches)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);

    num_format_fixed(value, decimals, inches, &text);
    while (text.length > 1 && memory[text.length - 1] == '0')
        memory[--text.length] = '\0';
    if (memory[text.length - 1] == '.')
        memory[--text.length] = '\0';
    /* A leaf of .020 is marked with all its thousandths. */
    if (inches && memory[0] == '.')
        for (; text.length < 4;)
            strbuf_add_char(&text, '0');
    strbuf_add(out, memory);
}

static void add_number(struct strbuf *out, double value, bool inches)
{
    add_rounded(out, value, 4, inches);
}

/* The unit in which a field's amounts are said: leaves in inches or mm, as they are marked. */
static enum unit said_unit(const struct field *field, const struct shop_units *units)
{
    const enum unit bare = field_bare_unit(field, units);

    return bare == UNIT_TH ? UNIT_IN : bare == UNIT_100THS ? UNIT_MM : bare;
}

static void add_amount_to(struct strbuf *out, const struct field *field, double value, int decimals,
                          const struct shop_units *units)
{
    const enum unit unit = said_unit(field, units);

    add_rounded(out, unit_from_pivot(unit, value), decimals, unit == UNIT_IN);
    if (unit == UNIT_64THS) {
        strbuf_add(out, "/64");
    } else if (unit_label(unit)[0]) {
        strbuf_add_char(out, ' ');
        strbuf_add(out, unit_label(unit));
    }
}

static void add_amount(struct strbuf *out, const struct field *field, double value,
                       const struct shop_units *units)
{
    add_amount_to(out, field, value, 4, units);
}

/* What was computed, to a step of its gauge. */
static void add_expected(struct strbuf *out, const struct field *field, double value,
                         const struct shop_units *units)
{
    const enum unit unit = said_unit(field, units);

    add_amount_to(out, field, value, unit == UNIT_IN ? 3 : unit == UNIT_64THS ? 1 : 2, units);
}

/* "24 mm of action", "2.9 turn of the rod", "frets 2". */
static void add_reading(struct strbuf *out, const struct field *field, double value,
                        const struct shop_units *units)
{
    if (field->quantity == QUANTITY_PLAIN) {
        strbuf_add(out, field->label);
        strbuf_add_char(out, ' ');
        add_amount(out, field, value, units);
        return;
    }
    add_amount(out, field, value, units);
    strbuf_add(out, " of ");
    strbuf_add(out, field->id == FIELD_ROD_TURN ? "the rod" : field->label);
}

/* --- what was meant --- */

static bool reads_as(const char *typed, const struct field *field, double value,
                     const struct shop_units *units)
{
    struct entry_view view;

    entry_look(typed, field, units, NULL, &view);
    return view.good && fabs(view.value - value) <= 1e-6 * fabs(value);
}

/* How an amount is typed into its cell: a number alone, else with its unit; false, nothing
 * appended, where neither reads so. */
static bool add_typed(struct strbuf *out, const struct field *field, double value,
                      const struct shop_units *units)
{
    static const enum unit others[] = {UNIT_NONE, UNIT_MM, UNIT_IN, UNIT_F};
    const enum unit bare = field_bare_unit(field, units);

    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        const enum unit unit = i == 0 ? bare : others[i];
        char memory[48];
        struct strbuf typed = STRBUF(memory);

        if (unit_quantity(unit) != field->quantity)
            continue;
        add_number(&typed, unit_from_pivot(unit, value), unit == UNIT_IN);
        if (i > 0)
            strbuf_addf(&typed, " %s", unit_label(unit));
        if (reads_as(memory, field, value, units)) {
            strbuf_add(out, memory);
            return true;
        }
    }
    return false;
}

/* Degrees are typed again with their scale. */
static void add_meant(struct strbuf *out, const struct doubt *doubt, const struct field *field,
                      double value, const struct shop_units *units)
{
    char memory[48];
    struct strbuf typed = STRBUF(memory);

    if (doubt->has_other) {
        strbuf_add(out, "; that is what ");
        strbuf_add(out, doubt->other == FIELD_ACTION ? "action" : "a nut gap");
        strbuf_add(out, " reads");
    }
    if (!doubt->has_likely)
        return;
    strbuf_add(out, "; ");
    if (field->quantity == QUANTITY_TEMPERATURE && doubt->likely == unit_to_pivot(UNIT_F, value)) {
        add_number(out, value, false);
        strbuf_add(out, " F is typed ");
        add_number(out, value, false);
        strbuf_add(out, " F");
        return;
    }
    const bool known = add_typed(&typed, field, doubt->likely, units);
    strbuf_add(out, known ? "" : "perhaps ");
    add_amount(out, field, doubt->likely, units);
    if (known) {
        strbuf_add(out, " is typed ");
        strbuf_add(out, memory);
    }
}

/* --- why --- */

static const char *too_fine(const struct field *field)
{
    if (field->id == FIELD_ROD_TURN)
        return " is finer than a hand turns";
    return field->step == STEP_FEELER ? " is finer than a leaf reads"
                                      : " is finer than a rule reads";
}

static void add_comparison(struct strbuf *out, const struct doubt *doubt, const struct field *field,
                           const struct shop_units *units)
{
    switch (doubt->kind) {
    case DOUBT_BOARD:
        strbuf_add(out, ", and all was measured with ");
        add_amount(out, field, doubt->beside, units);
        return;
    case DOUBT_BESIDE:
        strbuf_add(out, " does not go with ");
        add_amount(out, field, doubt->beside, units);
        if (doubt->string > 0)
            strbuf_addf(out, " on string %d", doubt->string);
        else
            strbuf_add(out, " at the other end");
        return;
    case DOUBT_BEFORE:
        strbuf_add(out, " is far from the ");
        add_expected(out, field, doubt->beside, units);
        strbuf_add(out, " expected");
        return;
    default:
        return;
    }
}

static void add_number_doubt(struct strbuf *out, const struct doubt *doubt,
                             const struct field *field, double value,
                             const struct shop_units *units)
{
    add_reading(out, field, value, units);
    if (doubt->kind == DOUBT_LARGE)
        strbuf_add(out, " is more than usual");
    else if (doubt->kind == DOUBT_SMALL)
        strbuf_add(out, " is less than usual");
    else if (doubt->kind == DOUBT_FINE)
        strbuf_add(out, too_fine(field));
    else
        add_comparison(out, doubt, field, units);
    add_meant(out, doubt, field, value, units);
}

void doubt_words_add(struct strbuf *out, const struct doubt *doubt, const struct reading_key *key,
                     const struct doubt_entry *entry, const struct shop_units *units)
{
    switch (doubt->kind) {
    case DOUBT_NONE:
    case DOUBT_NAME:
        return;
    case DOUBT_FUTURE:
        strbuf_addf(out, "%s is yet to come", entry->text);
        return;
    case DOUBT_LONG_AGO:
        strbuf_addf(out, "%s is long ago", entry->text);
        return;
    case DOUBT_ORDER:
        strbuf_addf(out, "%s is %s visit %d", entry->text,
                    doubt->visit < key->visit ? "before" : "after", doubt->visit);
        return;
    case DOUBT_LARGE:
    case DOUBT_SMALL:
    case DOUBT_FINE:
    case DOUBT_BOARD:
    case DOUBT_BESIDE:
    case DOUBT_BEFORE:
        add_number_doubt(out, doubt, field_get(key->field), entry->value.value, units);
    }
}
