/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_tickets.h"

#include <string.h>

static struct ticket ticket_of(const struct shelf_entry *entry)
{
    struct ticket ticket;

    (void)ticket_read(shelf_facts_text(entry->facts, FACT_TICKET_LAST), &ticket);
    ticket.day = maybe_or(entry->facts->number[FACT_LAST_DAY], 0);
    return ticket;
}

struct ticket shelf_tickets_last(const struct shelf_entries *entries)
{
    struct ticket latest = {.number = 0};

    for (size_t i = 0; i < entries->count; i++) {
        const struct ticket ticket = ticket_of(&entries->items[i]);

        if (ticket.number > 0 && (latest.number == 0 || ticket.day > latest.day))
            latest = ticket;
    }
    for (size_t i = 0; i < entries->count; i++) {
        const struct ticket ticket = ticket_of(&entries->items[i]);

        if (strcmp(ticket.lead, latest.lead) == 0)
            latest = ticket_later(&latest, &ticket);
    }
    return latest;
}
