/* SPDX-License-Identifier: MIT */
#include "model/reading/ticket.h"

#include <string.h>

#include "base/ascii.h"
#include "base/num.h"
#include "model/reading/moment.h"

enum { TICKET_MAX = 1000000 };

/* Without blanks: "shelf 3" is a place, not a number to count on from. */
static bool is_lead(const char *text, size_t length)
{
    static const char signs[] = "-/.#_";

    for (size_t i = 0; i < length; i++) {
        const char c = text[i];

        if (!is_ascii_letter(c) && !is_ascii_digit(c) && !memchr(signs, c, sizeof signs - 1))
            return false;
    }
    return length < TICKET_LEAD_SIZE;
}

bool ticket_read(const char *text, struct ticket *ret_ticket)
{
    const size_t length = text ? strlen(text) : 0;
    size_t lead = length;
    int number = 0;

    *ret_ticket = (struct ticket){.number = 0};
    while (lead > 0 && is_ascii_digit(text[lead - 1]))
        lead--;
    if (lead == length || !is_lead(text, lead) ||
        num_count(text + lead, length - lead, TICKET_MAX, &number) != STATUS_OK || number == 0)
        return false;
    memcpy(ret_ticket->lead, text, lead);
    ret_ticket->number = number;
    ret_ticket->digits = (int)(length - lead);
    return true;
}

static bool is_same_series(const struct ticket *one, const struct ticket *other)
{
    return strcmp(one->lead, other->lead) == 0;
}

struct ticket ticket_later(const struct ticket *one, const struct ticket *other)
{
    if (other->number == 0)
        return *one;
    if (one->number == 0)
        return *other;
    if (is_same_series(one, other) ? other->number > one->number : other->day > one->day)
        return *other;
    return *one;
}

/* The ticket of a visit. */
static bool read_visit(const struct record *record, int visit, struct ticket *ret_ticket)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_TICKET, visit);

    if (!ticket_read(record_text(record, &key), ret_ticket))
        return false;
    ret_ticket->day = maybe_or(moment_of_day(record, FIELD_VISIT_DATE, visit), 0);
    return true;
}

/* The higher of two numbers of a series, as of the day of the first. */
static struct ticket counted_on(const struct ticket *latest, const struct ticket *other)
{
    struct ticket higher = other->number > latest->number ? *other : *latest;

    higher.day = latest->day;
    return higher;
}

struct ticket ticket_last(const struct record *record)
{
    struct ticket latest = {.number = 0}, ticket;
    int visit = 0;

    while (record_next_visit(record, &visit))
        if (read_visit(record, visit, &ticket))
            latest = ticket;
    visit = 0;
    while (record_next_visit(record, &visit))
        if (read_visit(record, visit, &ticket) && is_same_series(&ticket, &latest))
            latest = counted_on(&latest, &ticket);
    return latest;
}

static void add(const struct ticket *ticket, int number, struct strbuf *out)
{
    strbuf_addf(out, "%s%0*d", ticket->lead, ticket->digits, number);
}

void ticket_add(const struct ticket *ticket, struct strbuf *out)
{
    if (ticket->number > 0)
        add(ticket, ticket->number, out);
}

void ticket_add_next(const struct ticket *ticket, struct strbuf *out)
{
    if (ticket->number > 0)
        add(ticket, ticket->number + 1, out);
}
