/* SPDX-License-Identifier: MIT */
#include "base/num_scan.h"

#include <string.h>

#include "base/ascii.h"

/* A double holds every whole number up to here exactly. */
#define EXACT_WHOLE_MAX 9007199254740992.0

static const char says_number[] = "a number is needed, like 13, .013, 7/64 or 8 1/4";
static const char says_comma[] = "write a point, not a comma";
static const char says_plus[] = "no + in front; + only joins leaves, like 10+8";
static const char says_minus[] = "a minus goes only in front, or as in 1-5/8";
static const char says_below[] = "a fraction needs a whole number below the line";
static const char says_zero[] = "a fraction cannot have 0 below the line";
static const char says_line[] = "one line too many; a second only as in 8 1/4/64";
static const char says_proper[] = "a mixed number's fraction is smaller than 1: 8 1/4";
static const char says_apart[] = "two numbers side by side; leaves are joined by +";
static const char says_point[] = "one point, with digits after it: 1.5 or .013";
static const char says_exponent[] = "write the number out, without an exponent";
static const char says_digits[] = "write the number in decimal digits, like 16";
static const char says_long_mixed[] = "this mixed number is too long to be exact";
static const char says_long_text[] = "an entry has at most 64 characters";
static const char says_strange[] = "only digits, . / + - and a unit are read here";
static const char says_stack[] = "temperatures are not added; write one, like 21 C";

static const struct {
    const char *bytes;
    int above, below;
} vulgar_table[] = {
    {"\xC2\xBD", 1, 2},     /* U+00BD */
    {"\xC2\xBC", 1, 4},     /* U+00BC */
    {"\xC2\xBE", 3, 4},     /* U+00BE */
    {"\xE2\x85\x9B", 1, 8}, /* U+215B */
    {"\xE2\x85\x9C", 3, 8}, /* U+215C */
    {"\xE2\x85\x9D", 5, 8}, /* U+215D */
    {"\xE2\x85\x9E", 7, 8}, /* U+215E */
};

/* A text being read from left to right; the text ends in NUL at `end` or later. */
struct scanner {
    const char *text;
    size_t start, at, end;
    enum quantity_kind quantity;
    struct num_fault fault;
};

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static char peek(const struct scanner *s)
{
    return s->at < s->end ? s->text[s->at] : '\0';
}

static char peek_after(const struct scanner *s)
{
    return s->at + 1 < s->end ? s->text[s->at + 1] : '\0';
}

static void skip_blanks(struct scanner *s)
{
    while (is_blank(peek(s)))
        s->at++;
}

static bool refuse(struct scanner *s, enum status status, size_t at, const char *what)
{
    s->fault = (struct num_fault){.status = status, .at = at, .what = what};
    return false;
}

/* Refuses with the reason why no number starts here. */
static bool refuse_start(struct scanner *s)
{
    switch (peek(s)) {
    case '+':
        return refuse(s, STATUS_SYNTAX, s->at, s->at == s->start ? says_plus : says_number);
    case '-':
        return refuse(s, STATUS_SYNTAX, s->at, says_minus);
    case ',':
        return refuse(s, STATUS_SYNTAX, s->at, says_comma);
    case '.':
        return refuse(s, STATUS_SYNTAX, s->at, says_point);
    default:
        return refuse(s, STATUS_SYNTAX, s->at, says_number);
    }
}

/* Reads a decimal; *ret_whole is true when it has no point. */
static bool scan_decimal(struct scanner *s, double *ret_value, bool *ret_whole)
{
    size_t start = s->at;

    while (is_ascii_digit(peek(s)))
        s->at++;
    *ret_whole = s->at > start;
    if (peek(s) == '.' && (s->at > start || is_ascii_digit(peek_after(s)))) {
        *ret_whole = false;
        s->at++;
        if (!is_ascii_digit(peek(s)))
            return refuse(s, STATUS_SYNTAX, s->at - 1, says_point);
        while (is_ascii_digit(peek(s)))
            s->at++;
    }
    if (s->at == start)
        return refuse_start(s);
    (void)num_decimal(s->text + start, s->at - start, ret_value);
    return true;
}

/* Reads the slash of a fraction and the whole number after it. */
static bool scan_below(struct scanner *s, double *ret_below)
{
    bool whole;
    size_t start;

    s->at++;
    skip_blanks(s);
    start = s->at;
    if (!is_ascii_digit(peek(s)))
        return refuse(s, STATUS_SYNTAX, start, says_below);
    if (!scan_decimal(s, ret_below, &whole))
        return false;
    if (!whole)
        return refuse(s, STATUS_SYNTAX, start, says_below);
    if (*ret_below == 0.0)
        return refuse(s, STATUS_DOMAIN, start, says_zero);
    return true;
}

static bool scan_vulgar(struct scanner *s, double *ret_above, double *ret_below)
{
    for (size_t i = 0; i < sizeof(vulgar_table) / sizeof(vulgar_table[0]); i++) {
        size_t length = strlen(vulgar_table[i].bytes);

        if (s->end - s->at < length || memcmp(s->text + s->at, vulgar_table[i].bytes, length) != 0)
            continue;
        s->at += length;
        *ret_above = vulgar_table[i].above;
        *ret_below = vulgar_table[i].below;
        return true;
    }
    return false;
}

/*
 * Reads the fraction of a mixed number after the whole number that ends at s->at.
 * When there is none, *ret_found is false and s->at is unchanged.
 */
static bool scan_mixed(struct scanner *s, double *ret_above, double *ret_below, bool *ret_found)
{
    size_t whole_end = s->at;
    size_t above_at;
    bool whole;

    *ret_found = false;
    if (peek(s) == '-')
        s->at++;
    else
        skip_blanks(s);
    if (scan_vulgar(s, ret_above, ret_below)) {
        *ret_found = true;
        return true;
    }
    above_at = s->at;
    if (above_at == whole_end || !is_ascii_digit(peek(s))) {
        s->at = whole_end;
        return true;
    }
    if (!scan_decimal(s, ret_above, &whole))
        return false;
    skip_blanks(s);
    if (!whole || peek(s) != '/') {
        bool minus = s->text[whole_end] == '-';

        return refuse(s, STATUS_SYNTAX, minus ? whole_end : above_at,
                      minus ? says_minus : says_apart);
    }
    if (!scan_below(s, ret_below))
        return false;
    if (*ret_above >= *ret_below)
        return refuse(s, STATUS_SYNTAX, above_at, says_proper);
    *ret_found = true;
    return true;
}

/* Reads "/ integer" after the amount of `term`, if there is one. */
static bool scan_line(struct scanner *s, struct num_term *term)
{
    size_t amount_end = s->at;

    skip_blanks(s);
    if (peek(s) != '/') {
        s->at = amount_end;
        return true;
    }
    if (!scan_below(s, &term->divisor))
        return false;
    term->line_at = amount_end;
    term->amount /= term->divisor;
    term->halves = term->form == AMOUNT_WHOLE && term->amount < 1 &&
                   (term->divisor == 2 || term->divisor == 4 || term->divisor == 8);
    term->form = AMOUNT_FRACTION;
    return true;
}

static bool scan_amount(struct scanner *s, struct num_term *term)
{
    const size_t start = s->at;
    double above, below;
    bool whole, mixed = false;

    term->start = start;
    if (scan_vulgar(s, &above, &below)) {
        term->form = AMOUNT_FRACTION;
        term->halves = true;
        term->amount = above / below;
        return true;
    }
    if (!scan_decimal(s, &term->amount, &whole))
        return false;
    term->form = whole ? AMOUNT_WHOLE : term->amount < 1 ? AMOUNT_POINT : AMOUNT_NUMBER;
    if (whole && !scan_mixed(s, &above, &below, &mixed))
        return false;
    if (mixed) {
        /* One division of whole numbers, so that the mixed number is the nearest double. */
        double parts = term->amount * below + above;

        if (parts > EXACT_WHOLE_MAX)
            return refuse(s, STATUS_TOO_LONG, start, says_long_mixed);
        term->form = AMOUNT_MIXED;
        term->amount = parts / below;
    }
    return scan_line(s, term);
}

/* The message about text after an amount that cannot start a unit. */
static const char *tail_words(const struct scanner *s)
{
    struct scanner ahead = *s;
    double above, below;
    char c = peek(s);
    char next = peek_after(s);

    if (c == ',')
        return says_comma;
    if (c == '.')
        return says_point;
    if (c == '-')
        return says_minus;
    if (c == '/')
        return says_line;
    if (is_ascii_digit(c) || scan_vulgar(&ahead, &above, &below))
        return says_apart;
    if ((c == 'e' || c == 'E') && (is_ascii_digit(next) || next == '+' || next == '-'))
        return says_exponent;
    if ((c == 'x' || c == 'X') && is_ascii_digit(next))
        return says_digits;
    if (is_ascii_letter(c) || c == '"' || c == '%' || (unsigned char)c >= 0x80)
        return NULL;
    return says_strange;
}

/* Reads the unit after an amount, up to the next + or the end. */
static bool scan_suffix(struct scanner *s, struct num_term *term)
{
    size_t start, end;
    const char *words;

    term->amount_end = term->suffix_end = s->at;
    skip_blanks(s);
    start = s->at;
    if (s->at == s->end || peek(s) == '+')
        return true;
    words = tail_words(s);
    if (words)
        return refuse(s, STATUS_SYNTAX, start, words);
    while (s->at < s->end && peek(s) != '+') {
        if (peek(s) == '-' && (is_ascii_digit(peek_after(s)) || is_blank(peek_after(s))))
            return refuse(s, STATUS_SYNTAX, s->at, says_minus);
        s->at++;
    }
    for (end = s->at; is_blank(s->text[end - 1]);)
        end--;
    if (!unit_from_suffix(s->quantity, s->text + start, end - start, &term->suffix))
        return refuse(s, STATUS_UNIT, start, unit_wanted(s->quantity));
    term->suffix_end = end;
    return true;
}

static bool scan_entry(struct scanner *s, struct num_entry *entry)
{
    entry->start = s->start = s->at;
    entry->end = s->end;
    entry->negative = peek(s) == '-';
    if (entry->negative)
        s->at++;
    for (;;) {
        struct num_term *term = &entry->terms[entry->count];

        *term = (struct num_term){.start = s->at};
        skip_blanks(s);
        if (!scan_amount(s, term) || !scan_suffix(s, term))
            return false;
        entry->count++;
        if (s->at == s->end)
            return true;
        if (s->quantity == QUANTITY_TEMPERATURE)
            return refuse(s, STATUS_SYNTAX, s->at, says_stack);
        s->at++;
    }
}

static bool scan_text(struct scanner *s, struct num_entry *entry)
{
    size_t length = strnlen(s->text, NUM_TEXT_MAX + 1);

    if (length > NUM_TEXT_MAX)
        return refuse(s, STATUS_TOO_LONG, NUM_TEXT_MAX, says_long_text);
    s->end = length;
    while (s->end > 0 && is_blank(s->text[s->end - 1]))
        s->end--;
    skip_blanks(s);
    return scan_entry(s, entry);
}

enum status num_scan(const char *text, enum quantity_kind quantity, struct num_entry *ret_entry,
                     struct num_fault *ret_fault)
{
    struct scanner scanner = {.text = text, .quantity = quantity};

    ret_entry->count = 0;
    if (!scan_text(&scanner, ret_entry)) {
        *ret_fault = scanner.fault;
        return scanner.fault.status;
    }
    return STATUS_OK;
}
