/* SPDX-License-Identifier: MIT */
#include "model/common/day.h"

#include <string.h>

#include "base/num.h"

static const char *const month_names[] = {"January",   "February", "March",    "April",
                                          "May",       "June",     "July",     "August",
                                          "September", "October",  "November", "December"};

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

bool day_is_real(const struct day *day)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

    return day->year >= 0 && day->year <= 9999 && day->month >= 1 && day->month <= 12 &&
           day->day >= 1 &&
           day->day <= days[day->month - 1] + (day->month == 2 && is_leap(day->year));
}

/* A number of exactly that many digits. */
static bool take_digits(const char *text, size_t digits, int *ret_number)
{
    return strspn(text, "0123456789") >= digits &&
           num_count(text, digits, 9999, ret_number) == STATUS_OK;
}

bool day_parse(const char *text, struct day *ret_day)
{
    struct day day;

    if (!take_digits(text, 4, &day.year) || text[4] != '-' ||
        !take_digits(text + 5, 2, &day.month) || text[7] != '-' ||
        !take_digits(text + 8, 2, &day.day) || !day_is_real(&day))
        return false;
    *ret_day = day;
    return true;
}

void day_add(const struct day *day, struct strbuf *out)
{
    strbuf_addf(out, "%04d-%02d-%02d", day->year, day->month, day->day);
}

void day_add_words(const struct day *day, struct strbuf *out)
{
    /* The first of March of the year 0 was a Wednesday. */
    static const char *const weekdays[] = {"Wednesday", "Thursday", "Friday", "Saturday",
                                           "Sunday",    "Monday",   "Tuesday"};
    const int weekday = (day_number(day) % 7 + 7) % 7;

    strbuf_addf(out, "%s, %d %s %d", weekdays[weekday], day->day, month_names[day->month - 1],
                day->year);
}

/* Counted from March on, the leap day is a year's last and months go 31 30 31 30 31. */
int day_number(const struct day *day)
{
    const int year = day->month < 3 ? day->year - 1 : day->year;
    const int month = (day->month + 9) % 12;
    const int leaps = year < 0 ? -1 : year / 4 - year / 100 + year / 400;

    return 365 * year + leaps + (153 * month + 2) / 5 + day->day - 1;
}

struct day day_of_number(int number)
{
    struct day day = {.year = (int)(number / 365.2425) + 1, .month = 3, .day = 1};

    while (day_number(&day) > number)
        day.year--;
    const int in_year = number - day_number(&day);
    const int month = (5 * in_year + 2) / 153;

    day.day = in_year - (153 * month + 2) / 5 + 1;
    day.month = month < 10 ? month + 3 : month - 9;
    day.year += month >= 10;
    return day;
}
