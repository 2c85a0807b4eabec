/* SPDX-License-Identifier: MIT */
#include "commands/when.h"

#include <string.h>

#include "base/num.h"
#include "commands/clock_day.h"
#include "commands/report.h"

enum { YEAR_LENGTH = 4, MONTH_LENGTH = 7 /* "2026-11" */, YEAR_LAST = 9998 };

static bool take_month(const char *text, struct when *ret_when)
{
    const size_t length = strlen(text);
    const bool year = length == YEAR_LENGTH;
    struct day first = {.month = 1, .day = 1};

    if ((!year && (length != MONTH_LENGTH || text[YEAR_LENGTH] != '-')) ||
        num_count(text, YEAR_LENGTH, YEAR_LAST, &first.year) != STATUS_OK ||
        (!year && num_count(text + YEAR_LENGTH + 1, 2, 12, &first.month) != STATUS_OK) ||
        !day_is_real(&first))
        return false;
    const bool new_year = year || first.month == 12;
    const struct day end = {first.year + new_year, new_year ? 1 : first.month + 1, 1};
    *ret_when = (struct when){day_number(&first), day_number(&end)};
    return true;
}

bool when_read(const char *text, const char *who, struct when *ret_when)
{
    const struct day now = clock_day();
    struct day_fault fault;
    struct day day;

    if (take_month(text, ret_when))
        return true;
    if (day_read(text, &now, DAY_LAST, &day, &fault) != STATUS_OK) {
        fprintf(stderr, "sillet: %s '%s': %s; or a month, as 2026-11\n", who,
                shown_string(text).text, fault.words);
        return false;
    }
    *ret_when = (struct when){day_number(&day), day_number(&day) + 1};
    return true;
}
