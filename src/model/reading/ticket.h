/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_TICKET_H
#define SILLET_MODEL_READING_TICKET_H

#include "model/reading/record.h"

/* The number of a ticket that is digits alone, up to a million; 0 for any other text. */
int ticket_number(const char *text);

/* The highest such number in a record; 0 for none. */
int ticket_last(const struct record *record);

#endif
