/* SPDX-License-Identifier: MIT */
#include "commands/clock_day.h"

#include <time.h>

struct day clock_day(void)
{
    const time_t now = time(NULL);
    struct tm local;

    if (!localtime_r(&now, &local))
        return (struct day){1970, 1, 1};
    return (struct day){local.tm_year + 1900, local.tm_mon + 1, local.tm_mday};
}
