/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/num.h"

/*
 * The number parser. Input: the quantity, the cell's unit, then the text. What it accepts keeps
 * its value when spelled out and shortened, and when printed and read back.
 */

enum { QUANTITIES = QUANTITY_TURNS + 1 };

static const double untouched = 271828.0, rounding = 0x1p-52;

static void check_refusal(const char *text, enum status status, double value,
                          const struct num_fault *fault)
{
    FUZZ_CHECK(value == untouched);
    FUZZ_CHECK(fault->status == status);
    FUZZ_CHECK(fault->at <= strlen(text));
    FUZZ_CHECK(fault->what != NULL && fault->what[0]);
    FUZZ_CHECK(status == STATUS_SYNTAX || status == STATUS_UNIT || status == STATUS_TOO_LONG ||
               status == STATUS_DOMAIN);
}

/* A text that must read as a value, `slack` away at most. */
static void expect_near(const char *text, enum quantity_kind quantity, enum unit bare,
                        double wanted, double slack)
{
    double value = untouched;

    FUZZ_CHECK(num_parse(text, quantity, bare, &value, NULL) == STATUS_OK);
    FUZZ_CHECK(fabs(value - wanted) <= slack);
}

static void check_spelling(const char *text, enum quantity_kind quantity, enum unit bare,
                           double value)
{
    char spelled_memory[NUM_TEXT_MAX + 1], shortened_memory[NUM_TEXT_MAX + 1];
    struct strbuf spelled = STRBUF(spelled_memory), shortened = STRBUF(shortened_memory);
    const enum status status = num_spell(text, quantity, bare, &spelled);

    FUZZ_CHECK(status == STATUS_OK || status == STATUS_TOO_LONG);
    if (status != STATUS_OK) {
        FUZZ_CHECK(spelled.length == 0);
        return;
    }
    expect_near(spelled_memory, quantity, UNIT_NONE, value, 0);
    FUZZ_CHECK(num_shorten(spelled_memory, quantity, bare, &shortened) == STATUS_OK);
    FUZZ_CHECK(shortened.length <= spelled.length);
    expect_near(shortened_memory, quantity, bare, value, 0);
}

static bool parses_as_decimal(const char *text)
{
    return !strchr(text, 'e') && strlen(text) <= 24;
}

/* Nine digits: half a unit of the ninth away at most, and a rounding. */
static void check_format(double value)
{
    char memory[64];
    struct strbuf out = STRBUF(memory);

    num_format(value, &out);
    FUZZ_CHECK(!out.truncated);
    if (parses_as_decimal(memory))
        expect_near(memory, QUANTITY_PLAIN, UNIT_PLAIN, value, fabs(value) * 5.0001e-9);
    FUZZ_CHECK(fabs(strtod(memory, NULL) - value) <= fabs(value) * 5.0001e-9);
}

static void check_format_fixed(double value, int decimals, bool drop_zero)
{
    char memory[400];
    struct strbuf out = STRBUF(memory);
    const double slack = 0.5001 * pow(10, -decimals) + fabs(value) * rounding;

    num_format_fixed(value, decimals, drop_zero, &out);
    FUZZ_CHECK(!out.truncated);
    if (fabs(value) < 1e5)
        expect_near(memory, QUANTITY_PLAIN, UNIT_PLAIN, value, slack);
}

static void check_format_fraction(double value, int denominator)
{
    char memory[64];
    struct strbuf out = STRBUF(memory);

    num_format_fraction(value, denominator, &out);
    FUZZ_CHECK(!out.truncated);
    if (fabs(value) < 0x1p31)
        expect_near(memory, QUANTITY_PLAIN, UNIT_PLAIN, value,
                    0.5000001 / denominator + fabs(value) * rounding);
}

/* The whole text as one decimal, against the C library (in the C locale: nearest). */
static void check_decimal(const char *text)
{
    double value = untouched;

    if (num_decimal(text, strlen(text), &value) == STATUS_OK)
        FUZZ_CHECK(value == strtod(text, NULL));
    else
        FUZZ_CHECK(value == untouched);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct fuzz_bytes bytes = {data, size};
    const enum quantity_kind quantity = (enum quantity_kind)fuzz_whole(&bytes, QUANTITIES - 1);
    const enum unit wish = (enum unit)fuzz_whole(&bytes, UNIT_COUNT_ - 1);
    const enum unit bare = unit_quantity(wish) == quantity ? wish : UNIT_NONE;
    const int decimals = fuzz_byte(&bytes);
    char *text = fuzz_text(&bytes, size);
    struct num_fault fault;
    double value = untouched;

    check_decimal(text);
    const enum status status = num_parse(text, quantity, bare, &value, &fault);
    if (status == STATUS_OK) {
        FUZZ_CHECK(isfinite(value) && !(value == 0 && signbit(value)));
        check_spelling(text, quantity, bare, value);
        check_format(value);
        check_format_fixed(value, decimals % 10, decimals & 16);
        check_format_fraction(value, 1 << (decimals % 8));
    } else {
        check_refusal(text, status, value, &fault);
    }
    free(text);
    return 0;
}
