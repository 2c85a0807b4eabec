/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_TICKETS_H
#define SILLET_STORE_SHELF_SHELF_TICKETS_H

#include "store/shelf/shelf_entry.h"

/* The highest number of a ticket among the last visits of a shelf; 0 where there is none. */
int shelf_tickets_last(const struct shelf_entries *entries);

#endif
