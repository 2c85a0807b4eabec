/* SPDX-License-Identifier: MIT */
#include "model/reading/ticket.h"

#include <string.h>

#include "base/num.h"

enum { TICKET_MAX = 1000000 };

int ticket_number(const char *text)
{
    int number = 0;

    return text && num_count(text, strlen(text), TICKET_MAX, &number) == STATUS_OK ? number : 0;
}

int ticket_last(const struct record *record)
{
    int last = 0, visit = 0;

    while (record_next_visit(record, &visit)) {
        const struct reading_key key = reading_key_visit(FIELD_VISIT_TICKET, visit);
        const int number = ticket_number(record_text(record, &key));

        last = number > last ? number : last;
    }
    return last;
}
