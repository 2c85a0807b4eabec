/* SPDX-License-Identifier: MIT */
#include "base/num_scan.h"

/* The unit of an amount without a suffix, in a cell of `bare`. */
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
    if (form != AMOUNT_WHOLE && bare == UNIT_100THS)
        return UNIT_MM;
    return bare;
}

/* --- stacks --- */

/* No feeler leaf is a tenth of an inch thick or more, so in a stack .5 is half a 64th. */
static bool is_part_of_64th(const struct num_term *term)
{
    return term->halves || (term->form == AMOUNT_POINT && term->amount >= 0.1);
}

static bool is_over_64(const struct num_term *term)
{
    return term->form == AMOUNT_FRACTION && term->divisor == 64;
}

/* In a cell of 64ths: if one term counts 64ths, halves and the like are parts of a 64th. */
static void settle_64ths(struct num_entry *entry, int first)
{
    bool counts = false;

    for (int i = first; i < entry->count; i++)
        counts = counts || entry->terms[i].unit == UNIT_64THS || is_over_64(&entry->terms[i]);
    for (int i = first; counts && i < entry->count; i++)
        if (is_part_of_64th(&entry->terms[i]))
            entry->terms[i].unit = UNIT_64THS;
}

static const char *stack_words(enum unit bare)
{
    switch (bare) {
    case UNIT_TH:
        return "a stack is all thousandths or all inches: 10+8 or .010+.008";
    case UNIT_64THS:
        return "a stack is all 64ths or all inches: 6+.5 or .094+.008";
    case UNIT_100THS:
        return "a stack is all hundredths or all mm: 30+5 or 0.30+0.05";
    default:
        return "a stack is all mm or all inches: 2+0.5 or 5/64+1/64";
    }
}

static enum status refuse(struct num_fault *fault, size_t at, const char *what)
{
    *fault = (struct num_fault){STATUS_UNIT, at, what};
    return STATUS_UNIT;
}

/* Checks that the terms without a suffix, from `first` on, are of one kind. */
static enum status settle_stack(enum unit bare, int first, struct num_entry *entry,
                                struct num_fault *fault)
{
    const struct num_term *other = NULL;

    if (bare == UNIT_64THS)
        settle_64ths(entry, first);
    for (int i = first; i < entry->count; i++) {
        const struct num_term *term = &entry->terms[i];

        if (bare == UNIT_64THS && is_over_64(term))
            continue;
        if (other && other->unit != term->unit)
            return refuse(fault, term->start, stack_words(bare));
        other = term;
    }
    return STATUS_OK;
}

/* Gives every term its unit. Goes from the right, as a suffix holds for the terms before it. */
static enum status settle_units(enum quantity_kind quantity, enum unit bare,
                                struct num_entry *entry, struct num_fault *fault)
{
    enum unit carried = UNIT_NONE;
    int first = entry->count;

    for (int i = entry->count - 1; i >= 0; i--) {
        struct num_term *term = &entry->terms[i];

        if (term->suffix != UNIT_NONE)
            carried = term->suffix;
        else if (carried == UNIT_NONE)
            first = i;
        term->unit = carried != UNIT_NONE ? carried : unit_by_form(term->form, quantity, bare);
        if (term->unit == UNIT_NONE)
            return refuse(fault, term->amount_end, unit_wanted(quantity));
        /* .010+8 th: nobody means a hundredth of a thousandth. In a file, where bare is UNIT_NONE,
         * it is taken literally. */
        if (bare != UNIT_NONE && term->suffix == UNIT_NONE && carried == UNIT_TH &&
            term->form == AMOUNT_POINT)
            return refuse(fault, term->start, stack_words(UNIT_TH));
    }
    return settle_stack(bare, first, entry, fault);
}

static enum status read_entry(const char *text, enum quantity_kind quantity, enum unit bare,
                              struct num_entry *entry, struct num_fault *fault)
{
    enum status status;

    if (bare != UNIT_NONE && unit_quantity(bare) != quantity)
        return refuse(fault, 0, "the unit of the cell does not measure this");
    status = num_scan(text, quantity, entry, fault);
    return status == STATUS_OK ? settle_units(quantity, bare, entry, fault) : status;
}

enum status num_read(const char *text, enum quantity_kind quantity, enum unit bare,
                     struct num_entry *ret_entry, struct num_fault *ret_fault)
{
    struct num_fault fault;
    enum status status = read_entry(text, quantity, bare, ret_entry, &fault);

    if (status != STATUS_OK && ret_fault)
        *ret_fault = fault;
    return status;
}

double num_entry_value(const struct num_entry *entry)
{
    double sum = 0.0;

    /* The sign goes on each amount: -4 F is four below zero Fahrenheit, not minus (4 F). */
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
