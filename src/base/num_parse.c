/* SPDX-License-Identifier: MIT */
#include "base/num_scan.h"

static const char *const says_unit[] = {
    [QUANTITY_PLAIN] = "this is a plain number, without a unit",
    [QUANTITY_LENGTH] = "the unit of a length is needed here: mm, cm, in, th",
    [QUANTITY_TEMPERATURE] = "the unit of a temperature is needed here: C, F",
    [QUANTITY_PERCENT] = "the unit is needed here: %",
    [QUANTITY_CENTS] = "the unit is needed here: cents",
    [QUANTITY_FREQUENCY] = "the unit is needed here: Hz",
    [QUANTITY_FORCE] = "the unit of a force is needed here: N, lb, kgf",
    [QUANTITY_STRESS] = "the unit of a modulus is needed here: N/mm2, MPa, GPa",
    [QUANTITY_TORQUE] = "the unit of a torque is needed here: Nm, in-lb",
    [QUANTITY_MASS] = "the unit of a mass is needed here: g, gr",
    [QUANTITY_UNIT_MASS] = "the unit of a mass by length is needed here: g/m, lb/in",
    [QUANTITY_TURNS] = "the unit is needed here: turn",
};

const char *num_unit_words(enum quantity_kind quantity)
{
    return says_unit[quantity];
}

/* What an amount without a suffix counts, in a cell of `bare`. */
static enum unit unit_by_form(enum amount_form form, enum quantity_kind quantity, enum unit bare)
{
    bool metric = bare == UNIT_MM || bare == UNIT_CM || bare == UNIT_100THS;

    if (quantity == QUANTITY_PLAIN)
        return UNIT_PLAIN;
    if (quantity != QUANTITY_LENGTH || bare == UNIT_NONE)
        return bare;
    if (form == AMOUNT_FRACTION || (form == AMOUNT_MIXED && metric))
        return UNIT_IN;
    if (form == AMOUNT_POINT && (bare == UNIT_TH || bare == UNIT_64THS))
        return UNIT_IN;
    if (form == AMOUNT_POINT && bare == UNIT_100THS)
        return UNIT_MM;
    return bare;
}

/* Gives every term its unit; from the right, as a suffix serves the terms before it. */
static enum status settle_units(enum quantity_kind quantity, enum unit bare,
                                struct num_entry *entry, struct num_fault *fault)
{
    enum unit carried = UNIT_NONE;

    for (int i = entry->count - 1; i >= 0; i--) {
        struct num_term *term = &entry->terms[i];

        if (term->suffix != UNIT_NONE)
            carried = term->suffix;
        term->unit = carried != UNIT_NONE ? carried : unit_by_form(term->form, quantity, bare);
        if (term->unit != UNIT_NONE)
            continue;
        *fault = (struct num_fault){STATUS_UNIT, term->amount_end, num_unit_words(quantity)};
        return STATUS_UNIT;
    }
    return STATUS_OK;
}

static enum status read_entry(const char *text, enum quantity_kind quantity, enum unit bare,
                              struct num_entry *entry, struct num_fault *fault)
{
    enum status status;

    if (bare != UNIT_NONE && unit_quantity(bare) != quantity) {
        *fault = (struct num_fault){STATUS_UNIT, 0, "the unit of the cell does not measure this"};
        return STATUS_UNIT;
    }
    status = num_scan(text, quantity, entry, fault);
    return status == STATUS_OK ? settle_units(quantity, bare, entry, fault) : status;
}

enum status num_read(const char *text, enum quantity_kind quantity, enum unit bare,
                     struct num_entry *ret_entry, struct num_fault *ret_fault)
{
    struct num_entry entry;
    struct num_fault fault;
    enum status status = read_entry(text, quantity, bare, &entry, &fault);

    if (status == STATUS_OK)
        *ret_entry = entry;
    else if (ret_fault)
        *ret_fault = fault;
    return status;
}

double num_entry_value(const struct num_entry *entry)
{
    double sum = 0.0;

    /* The sign goes on each amount: -4 F is below zero Fahrenheit, not minus (4 F). */
    for (int i = 0; i < entry->count; i++) {
        const struct num_term *term = &entry->terms[i];

        sum += unit_to_pivot(term->unit, entry->negative ? -term->amount : term->amount);
    }
    return sum;
}

enum status num_parse(const char *text, enum quantity_kind quantity, enum unit bare,
                      double *ret_value, struct num_fault *ret_fault)
{
    struct num_entry entry;
    enum status status = num_read(text, quantity, bare, &entry, ret_fault);

    if (status == STATUS_OK)
        *ret_value = num_entry_value(&entry);
    return status;
}
