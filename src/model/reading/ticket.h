/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_TICKET_H
#define SILLET_MODEL_READING_TICKET_H

#include "base/strbuf.h"
#include "model/reading/record.h"

/* A ticket that ends in a number, as a shop counts them on: "1043", "A-0123", "26/017". What stands
 * before the number is its series. */

enum { TICKET_LEAD_SIZE = 16, TICKET_SIZE = TICKET_LEAD_SIZE + 8 };

struct ticket {
    int number; /* 0: none */
    int digits; /* as written, with zeros in front */
    char lead[TICKET_LEAD_SIZE];
    double day; /* of the visit, as in moment.h; 0 where it has none */
};

/* False, and a ticket of none, for a text that is no such ticket. */
bool ticket_read(const char *text, struct ticket *ret_ticket);

/* Of two last tickets, the one to count on from: in one series the higher number, else that of
 * the later day. */
struct ticket ticket_later(const struct ticket *one, const struct ticket *other);

/* The highest number in a record, in the series of its latest visit that has one. */
struct ticket ticket_last(const struct record *record);

/* Appends the ticket as it is written, or the one after it; nothing for none. */
void ticket_add(const struct ticket *ticket, struct strbuf *out);
void ticket_add_next(const struct ticket *ticket, struct strbuf *out);

#endif
