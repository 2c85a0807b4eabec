/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_tickets.h"

#include "model/reading/ticket.h"

int shelf_tickets_last(const struct shelf_entries *entries)
{
    int last = 0;

    for (size_t i = 0; i < entries->count; i++) {
        const int number = ticket_number(shelf_facts_text(entries->items[i].facts, FACT_TICKET));

        last = number > last ? number : last;
    }
    return last;
}
