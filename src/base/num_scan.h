/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_NUM_SCAN_H
#define SILLET_BASE_NUM_SCAN_H

#include "base/num.h"

/* Private to base: a typed entry split into its terms, shared by the num_ sources. Offsets are in
 * bytes of the scanned text. */

/* How an amount is written. This decides what a missing suffix means. */
enum amount_form {
    AMOUNT_WHOLE,    /* 13 */
    AMOUNT_NUMBER,   /* 25.4, 1.0 */
    AMOUNT_POINT,    /* .010, 0.30: with a point, and below 1 */
    AMOUNT_FRACTION, /* 7/64, 6.25/64, 8 1/4/64, a vulgar fraction alone */
    AMOUNT_MIXED,    /* 8 1/4, 1-5/8, a whole number and a vulgar fraction */
};

struct num_term {
    enum amount_form form;
    double amount;  /* without the sign of the entry */
    double divisor; /* of an AMOUNT_FRACTION, the number after its last slash, 0 for a vulgar one */
    bool halves;    /* an AMOUNT_FRACTION below 1 of whole halves, quarters or eighths */
    size_t start;   /* where the amount starts */
    size_t line_at; /* where that slash starts, blanks before it included */
    size_t amount_end; /* where the amount ends */
    size_t suffix_end; /* where the term ends; equals amount_end without a suffix */
    enum unit suffix;  /* UNIT_NONE without */
    enum unit unit;    /* what the amount counts: its own suffix, the next one's, the cell's */
};

enum { NUM_TERMS_MAX = NUM_TEXT_MAX / 2 };

struct num_entry {
    bool negative;
    size_t start, end; /* the entry without the blanks around it */
    int count;         /* 1 to NUM_TERMS_MAX */
    struct num_term terms[NUM_TERMS_MAX];
};

/* Splits `text` into terms; their `unit` is left UNIT_NONE. Failures as num_parse; the entry then
 * holds nothing of use. */
enum status num_scan(const char *text, enum quantity_kind quantity, struct num_entry *ret_entry,
                     struct num_fault *ret_fault);

/* As num_scan, and settles the unit of every term in a cell of `bare`. ret_fault may be NULL. */
enum status num_read(const char *text, enum quantity_kind quantity, enum unit bare,
                     struct num_entry *ret_entry, struct num_fault *ret_fault);

/* The value of an entry from num_read in the pivot unit of its quantity. */
double num_entry_value(const struct num_entry *entry);

#endif
