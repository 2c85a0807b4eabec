/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_TICKETS_H
#define SILLET_STORE_SHELF_SHELF_TICKETS_H

#include "model/reading/ticket.h"
#include "store/shelf/shelf_entry.h"

/* The highest ticket of all visits of all instruments on a shelf, in the series that was written
 * last; one of none where there is no such ticket. */
struct ticket shelf_tickets_last(const struct shelf_entries *entries);

#endif
