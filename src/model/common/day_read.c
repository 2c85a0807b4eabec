/* SPDX-License-Identifier: MIT */
#include "model/common/day.h"

#include <string.h>

#include "base/ascii.h"
#include "base/num.h"

/* A typed day taken apart: numbers, and at most one month's name. */
struct parts {
    int count;
    int number[3];
    size_t digits[3];
    int named;  /* which of them was a month's name; -1: none */
    char signs; /* what stood between them: '.', '/' or '-'; 0 for blanks */
};

enum { AWAY_MAX = 3660 }; /* days, ten years */

static enum status refuse(struct day_fault *ret_fault, enum status status, const char *words)
{
    struct strbuf text = STRBUF(ret_fault->words);

    strbuf_add(&text, words);
    return status;
}

/* Whether `length` letters are the beginning of a word in lower case. */
static bool begins(const char *text, size_t length, const char *word)
{
    for (size_t i = 0; i < length; i++)
        if (ascii_lower(text[i]) != word[i])
            return false;
    return true;
}

static int month_named(const char *text, size_t length)
{
    static const char *const months[] = {"january",   "february", "march",    "april",
                                         "may",       "june",     "july",     "august",
                                         "september", "october",  "november", "december"};

    for (int m = 0; m < 12; m++)
        if (length >= 3 && length <= strlen(months[m]) && begins(text, length, months[m]))
            return m + 1;
    return 0;
}

/* Of the 1st, 2nd, 3rd, 24th. */
static size_t ordinal_length(const char *text)
{
    static const char *const endings[] = {"st", "nd", "rd", "th"};

    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++)
        if (strlen(text) >= 2 && begins(text, 2, endings[i]))
            return 2;
    return 0;
}

/* The next number or month; false where neither is there, or there are too many. */
static bool take_part(const char **text, struct parts *parts)
{
    const size_t digits = strspn(*text, "0123456789");
    const size_t letters = strcspn(*text, "0123456789.,/- ");
    int *number = &parts->number[parts->count];

    if (parts->count == 3)
        return false;
    parts->digits[parts->count] = digits;
    if (digits > 0) {
        if (num_count(*text, digits, 99999999, number) != STATUS_OK)
            return false;
    } else {
        *number = month_named(*text, letters);
        if (*number == 0 || parts->named >= 0)
            return false;
        parts->named = parts->count;
    }
    *text += digits > 0 ? digits : letters;
    if (digits == 1 || digits == 2)
        *text += ordinal_length(*text);
    parts->count++;
    return true;
}

/* Blanks, with one sign among them at most, the same everywhere. */
static bool take_sign(const char **text, struct parts *parts)
{
    *text += strspn(*text, " ");
    if (**text && strchr(".,/-", **text)) {
        const char sign = **text == ',' ? '.' : **text;

        if (parts->signs && parts->signs != sign)
            return false;
        parts->signs = sign;
        (*text)++;
    }
    *text += strspn(*text, " ");
    return true;
}

static bool take_apart(const char *text, struct parts *ret_parts)
{
    struct parts parts = {.named = -1};

    text += strspn(text, " ");
    while (*text)
        if (!take_part(&text, &parts) || !take_sign(&text, &parts))
            return false;
    *ret_parts = parts;
    return parts.count > 0;
}

/* Of a year's last two digits, this century's. */
static int full_year(int number, size_t digits)
{
    return digits <= 2 ? 2000 + number : number;
}

/* The day and the month in either order, as far as one of them cannot be a month. */
static enum status read_either(int first, int second, int year, struct day *ret_day,
                               struct day_fault *ret_fault)
{
    struct strbuf words = STRBUF(ret_fault->words);

    if (first <= 12 && second <= 12 && first != second) {
        strbuf_addf(&words, "%d/%d can be two days; type %d.%d. or year-month-day", first, second,
                    first, second);
        return STATUS_SYNTAX;
    }
    *ret_day = first > 12 ? (struct day){year, second, first} : (struct day){year, first, second};
    return STATUS_OK;
}

/* 20260624; where that is no day, 24062026. */
static struct day read_run(int number)
{
    const struct day year_first = {number / 10000, number / 100 % 100, number % 100};

    return day_is_real(&year_first)
               ? year_first
               : (struct day){number % 10000, number / 10000 % 100, number / 1000000};
}

/* The day that the parts make, which the calendar need not have. */
static enum status order(const struct parts *parts, const struct day *today, struct day *ret_day,
                         struct day_fault *ret_fault)
{
    const int *n = parts->number;
    const bool has_year = parts->count == 3;
    const int year = has_year ? full_year(n[2], parts->digits[2]) : today->year;

    if (parts->count == 1 && parts->digits[0] == 8) {
        *ret_day = read_run(n[0]);
        return STATUS_OK;
    }
    if (parts->count < 2)
        return refuse(ret_fault, STATUS_SYNTAX,
                      "a day is wanted, as 2026-03-02, 2.3.2026 or today");
    if (has_year && parts->digits[0] == 4) {
        *ret_day = (struct day){n[0], n[1], n[2]};
        return STATUS_OK;
    }
    if (has_year && parts->digits[2] != 2 && parts->digits[2] != 4)
        return refuse(ret_fault, STATUS_SYNTAX,
                      "the year is wanted with four digits, as 2026-03-02");
    if (parts->named >= 0) {
        if (parts->named == 2)
            return refuse(ret_fault, STATUS_SYNTAX, "the month stands last; type 2 March 2026");
        *ret_day = (struct day){year, n[parts->named], n[1 - parts->named]};
        return STATUS_OK;
    }
    if (parts->signs == '.') {
        *ret_day = (struct day){year, n[1], n[0]};
        return STATUS_OK;
    }
    if (parts->signs == '-' && has_year && parts->digits[2] == 2)
        return refuse(ret_fault, STATUS_SYNTAX,
                      "the year is wanted with four digits, as 2026-03-02");
    return read_either(n[0], n[1], year, ret_day, ret_fault);
}

/* So many days before or after today. */
static bool read_count(const char *text, enum day_way way, int *ret_on)
{
    const bool back = text[0] == '-', on = way == DAY_NEXT && text[0] == '+';
    const char *digits = text + (back || on);
    int count;

    if (num_count(digits, strlen(digits), AWAY_MAX, &count) != STATUS_OK ||
        (way == DAY_LAST && !back && strcmp(text, "0") != 0))
        return false;
    *ret_on = back ? -count : count;
    return true;
}

/* today, yesterday, 0, -3; false for anything else. */
static bool read_away(const char *text, const struct day *today, enum day_way way,
                      struct day *ret_day)
{
    const size_t length = strlen(text);
    int on = 0;

    if (length > 0 && begins(text, length, "yesterday"))
        on = -1;
    else if (way == DAY_NEXT && length > strlen("to") && begins(text, length, "tomorrow"))
        on = 1;
    else if (!read_count(text, way, &on) && !(length > 0 && begins(text, length, "today")))
        return false;
    *ret_day = day_of_number(day_number(today) + on);
    return true;
}

bool day_is_counted(const char *text, enum day_way way)
{
    const struct day any = {.year = 2000, .month = 3, .day = 1};
    struct day day;

    return read_away(text, &any, way, &day);
}

/* Without its year a day is the last one up to today, or the next one from today on. */
static bool choose_year(bool has_year, const struct day *today, enum day_way way, struct day *day)
{
    if (!day_is_real(day))
        return false;
    if (!has_year && way == DAY_LAST && day_number(day) > day_number(today))
        day->year--;
    if (!has_year && way == DAY_NEXT && day_number(day) < day_number(today))
        day->year++;
    return day_is_real(day);
}

enum status day_read(const char *text, const struct day *today, enum day_way way,
                     struct day *ret_day, struct day_fault *ret_fault)
{
    struct parts parts;
    struct day day;

    ret_fault->words[0] = '\0';
    if (read_away(text, today, way, ret_day))
        return STATUS_OK;
    if (!take_apart(text, &parts))
        return refuse(ret_fault, STATUS_SYNTAX,
                      "a day is wanted, as 2026-03-02, 2.3.2026 or today");
    const enum status status = order(&parts, today, &day, ret_fault);

    if (status != STATUS_OK)
        return status;
    if (!choose_year(parts.count != 2, today, way, &day))
        return refuse(ret_fault, STATUS_RANGE,
                      "the calendar has no such day; look at day and month");
    *ret_day = day;
    return STATUS_OK;
}
