/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "base/num.h"

#include <stdio.h>
#include <string.h>

enum { SEED = 20240917, ROUNDS = 20000 };

struct spelled {
    const char *typed;
    enum unit bare;
    const char *spelled;
    const char *shortened; /* of the spelled text, in the same cell */
};

static const struct spelled cases[] = {
    {"13", UNIT_TH, "13 th", "13"},
    {"6", UNIT_64THS, "6/64 in", "6"},
    {"6.5", UNIT_64THS, "6.5/64 in", "6.5"},
    {"8 1/4", UNIT_64THS, "8 1/4/64 in", "8 1/4"},
    {"8-1/4", UNIT_64THS, "8-1/4/64 in", "8-1/4"},
    {"8\xC2\xBC", UNIT_64THS, "8\xC2\xBC/64 in", "8\xC2\xBC"},
    {"\xC2\xBD", UNIT_64THS, "\xC2\xBD in", "\xC2\xBD"},
    {".010 in+8", UNIT_TH, ".010 in+8 th", ".010 in+8 th"},
    {"8 th+.010", UNIT_TH, "8 th+.010 in", "8 th+.010 in"},
    {".010+.008", UNIT_TH, ".010+.008 in", ".010+.008"},
    {"12.5", UNIT_TH, "12.5 th", "12.5"},
    {"0.5 th", UNIT_TH, "0.5 th", "0.5 th"},
    {"6+.5", UNIT_64THS, "6/64+.5/64 in", "6+.5"},
    {".5+6", UNIT_64THS, ".5/64+6/64 in", ".5+6"},
    {"6+1/2", UNIT_64THS, "6/64+0 1/2/64 in", "6+0 1/2"},
    {"6+\xC2\xBD", UNIT_64THS, "6/64+0 \xC2\xBD/64 in", "6+0 \xC2\xBD"},
    {"7/64+.5", UNIT_64THS, "7/64+.5/64 in", "7+.5"},
    {"6+1/64", UNIT_64THS, "6/64+1/64 in", "6+1"},
    {".094+.008", UNIT_64THS, ".094+.008 in", ".094+.008"},
    {"10+8", UNIT_TH, "10+8 th", "10+8"},
    {"10 + 8", UNIT_TH, "10 + 8 th", "10 + 8"},
    {"6+7", UNIT_64THS, "6/64+7/64 in", "6+7"},
    {"6+7/64", UNIT_64THS, "6/64+7/64 in", "6+7"},
    {"6/64+7/32", UNIT_64THS, "6/64+7/32 in", "6/64+7/32"},
    {"-10+8", UNIT_TH, "-10+8 th", "-10+8"},
    {".010+.002 in", UNIT_TH, ".010+.002 in", ".010+.002"},
    {".010+.002 in", UNIT_MM, ".010+.002 in", ".010+.002 in"},
    {"7/64", UNIT_64THS, "7/64 in", "7"},
    {"7/64", UNIT_TH, "7/64 in", "7/64"},
    {"7/64", UNIT_MM, "7/64 in", "7/64"},
    {"7/64\"", UNIT_MM, "7/64\"", "7/64"},
    {"7/64in", UNIT_64THS, "7/64in", "7"},
    {"1 5/8", UNIT_MM, "1 5/8 in", "1 5/8"},
    {"1 5/64 in", UNIT_64THS, "1 5/64 in", "1 5/64 in"},
    {"1 5/8 in", UNIT_TH, "1 5/8 in", "1 5/8 in"},
    {".013", UNIT_TH, ".013 in", ".013"},
    {"0.013 in", UNIT_TH, "0.013 in", "0.013"},
    {"0.013", UNIT_TH, "0.013 in", "0.013"},
    {"0.013", UNIT_IN, "0.013 in", "0.013"},
    {"25", UNIT_100THS, "25/100 mm", "25"},
    {".25", UNIT_100THS, ".25 mm", ".25"},
    {"0.30", UNIT_100THS, "0.30 mm", "0.30"},
    {"1.2", UNIT_100THS, "1.2 mm", "1.2"},
    {"1.2/100 mm", UNIT_100THS, "1.2/100 mm", "1.2/100 mm"},
    {"30+5", UNIT_100THS, "30/100+5/100 mm", "30+5"},
    {"0.30+0.05", UNIT_100THS, "0.30+0.05 mm", "0.30+0.05"},
    {"25/100 mm", UNIT_64THS, "25/100 mm", "25/100 mm"},
    {"1.5 mm", UNIT_64THS, "1.5 mm", "1.5 mm"},
    {"1.5", UNIT_MM, "1.5 mm", "1.5"},
    {"10 th+.25 mm", UNIT_TH, "10 th+.25 mm", "10 th+.25 mm"},
    {"10 th+8", UNIT_TH, "10 th+8 th", "10+8"},
    {" 13 ", UNIT_TH, "13 th", "13"},
    {" 13 th ", UNIT_TH, "13 th", "13"},
    {"21", UNIT_C, "21 C", "21"},
    {"70 F", UNIT_C, "70 F", "70 F"},
    {"70", UNIT_F, "70 F", "70"},
    {"41", UNIT_PERCENT, "41 %", "41"},
    {"-3", UNIT_CENT, "-3 cents", "-3"},
    {"1/4", UNIT_TURN, "1/4 turn", "1/4"},
    {"10", UNIT_INLB, "10 in-lb", "10"},
    {"2 N m", UNIT_NM, "2 N m", "2"},
    {"11", UNIT_GPA, "11 GPa", "11"},
    {"0 mm", UNIT_64THS, "0 mm", "0"},
    {"2.5", UNIT_PLAIN, "2.5", "2.5"},
};

static void spelling_names_every_unit(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof(cases) / sizeof(cases[0]); i++) {
        char memory[80];
        struct strbuf buf = STRBUF(memory);

        assert_int_equal(
            num_spell(cases[i].typed, unit_quantity(cases[i].bare), cases[i].bare, &buf),
            STATUS_OK);
        assert_string_equal(memory, cases[i].spelled);
    }
}

static void shortening_drops_what_the_cell_says(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof(cases) / sizeof(cases[0]); i++) {
        char memory[80];
        struct strbuf buf = STRBUF(memory);

        assert_int_equal(
            num_shorten(cases[i].spelled, unit_quantity(cases[i].bare), cases[i].bare, &buf),
            STATUS_OK);
        assert_string_equal(memory, cases[i].shortened);
    }
}

static void both_append_or_leave_alone(void **state)
{
    char memory[10];
    struct strbuf buf = STRBUF(memory);

    (void)state;
    strbuf_add(&buf, "a: ");
    assert_int_equal(num_spell("6", QUANTITY_LENGTH, UNIT_64THS, &buf), STATUS_TOO_LONG);
    assert_string_equal(memory, "a: ");
    assert_false(buf.truncated);
    assert_int_equal(num_spell("13", QUANTITY_LENGTH, UNIT_TH, &buf), STATUS_OK);
    assert_string_equal(memory, "a: 13 th");
    assert_int_equal(num_shorten("13 th", QUANTITY_LENGTH, UNIT_TH, &buf), STATUS_TOO_LONG);
    assert_string_equal(memory, "a: 13 th");
}

/* What is spelled must be readable again, so a spelling over the limit is refused. */
static void spelling_over_the_limit_is_refused(void **state)
{
    static const char stack[] = "1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1";
    char memory[200];
    struct strbuf buf = STRBUF(memory);

    (void)state;
    assert_int_equal(num_spell(stack, QUANTITY_LENGTH, UNIT_64THS, &buf), STATUS_TOO_LONG);
    assert_int_equal(buf.length, 0);
    assert_int_equal(num_spell(stack, QUANTITY_LENGTH, UNIT_TH, &buf), STATUS_OK);
}

static uint32_t random_below(uint64_t *seed, uint32_t limit)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (uint32_t)(*seed >> 33) % limit;
}

static void add_random_decimal(uint64_t *seed, struct strbuf *out)
{
    static const uint32_t tens[] = {10, 100, 1000, 10000};
    uint32_t decimals = random_below(seed, 4);

    if (random_below(seed, 3) > 0)
        strbuf_addf(out, "%u", random_below(seed, tens[random_below(seed, 3)]));
    else
        decimals = 2;
    if (decimals > 0)
        strbuf_addf(out, ".%0*u", (int)decimals, random_below(seed, tens[decimals - 1]));
}

static void add_random_amount(uint64_t *seed, struct strbuf *out)
{
    static const char *const vulgar[] = {"\xC2\xBD",     "\xC2\xBC",     "\xC2\xBE",
                                         "\xE2\x85\x9B", "\xE2\x85\x9C", "\xE2\x85\x9D",
                                         "\xE2\x85\x9E"};
    static const char *const joints[] = {" ", "-", "  "};
    static const uint32_t below[] = {2, 3, 4, 7, 8, 16, 32, 64, 100, 128};
    uint32_t line = below[random_below(seed, 10)];

    switch (random_below(seed, 6)) {
    case 0:
        add_random_decimal(seed, out);
        strbuf_addf(out, "/%u", line);
        break;
    case 1:
        strbuf_addf(out, "%u%s%u/%u", random_below(seed, 40), joints[random_below(seed, 3)],
                    random_below(seed, line), line);
        break;
    case 2:
        if (random_below(seed, 2))
            strbuf_addf(out, "%u", random_below(seed, 40));
        strbuf_add(out, vulgar[random_below(seed, 7)]);
        break;
    default:
        add_random_decimal(seed, out);
    }
}

/* An entry that the grammar allows in a cell of `bare`, about one term in four with a unit. */
static void type_random(uint64_t *seed, enum unit bare, struct strbuf *out)
{
    static const char *const lengths[] = {"mm", " in", "\"", " th", " cm", " mm"};
    enum quantity_kind quantity = unit_quantity(bare);
    uint32_t terms = quantity == QUANTITY_TEMPERATURE ? 1 : 1 + random_below(seed, 3);

    if (random_below(seed, 4) == 0)
        strbuf_add_char(out, '-');
    for (uint32_t i = 0; i < terms; i++) {
        if (i > 0)
            strbuf_add(out, random_below(seed, 2) ? "+" : " + ");
        add_random_amount(seed, out);
        if (random_below(seed, 4) > 0)
            continue;
        if (quantity == QUANTITY_LENGTH)
            strbuf_add(out, lengths[random_below(seed, 6)]);
        else
            strbuf_addf(out, " %s", unit_label(unit_pivot(quantity)));
    }
}

/* Whether a random stack is one of mixed kinds, which is refused by its own words. */
static bool is_mixed_stack(const char *text, enum unit bare)
{
    struct num_fault fault = {STATUS_OK, 0, ""};
    double value;

    return num_parse(text, unit_quantity(bare), bare, &value, &fault) == STATUS_UNIT &&
           strstr(fault.what, "a stack is all ");
}

/* The value of a text, which must be accepted. */
static double value_of(const char *text, enum unit bare, enum unit cell)
{
    struct num_fault fault = {STATUS_OK, 0, ""};
    double value = 0.0;

    if (num_parse(text, unit_quantity(bare), cell, &value, &fault) != STATUS_OK)
        fail_msg("\"%s\" in cell %d: %s at %zu", text, (int)cell, fault.what, fault.at);
    return value;
}

static void typing_spelling_shortening_read_the_same(void **state)
{
    uint64_t seed = SEED;
    int changed = 0, dropped = 0, mixed = 0;

    (void)state;
    print_message("seed %d\n", SEED);
    for (int unit = UNIT_PLAIN; unit < UNIT_COUNT_; unit++)
        for (int i = 0; i < ROUNDS; i++) {
            enum unit bare = (enum unit)unit;
            enum quantity_kind quantity = unit_quantity(bare);
            char typed[80], spelled[80], shortened[80];
            struct strbuf typed_buf = STRBUF(typed), spelled_buf = STRBUF(spelled);
            struct strbuf shortened_buf = STRBUF(shortened);
            double value;

            type_random(&seed, bare, &typed_buf);
            if (is_mixed_stack(typed, bare)) {
                mixed++;
                continue;
            }
            value = value_of(typed, bare, bare);
            assert_int_equal(num_spell(typed, quantity, bare, &spelled_buf), STATUS_OK);
            if (num_shorten(spelled, quantity, bare, &shortened_buf) != STATUS_OK)
                fail_msg("cell %d: \"%s\", \"%s\"", unit, typed, spelled);
            if (!near_is(value_of(spelled, bare, UNIT_NONE), value, 0.0) ||
                !near_is(value_of(shortened, bare, bare), value, 0.0))
                fail_msg("cell %d: \"%s\", \"%s\", \"%s\"", unit, typed, spelled, shortened);
            changed += strcmp(typed, spelled) != 0;
            dropped += strlen(shortened) < strlen(spelled);
        }
    assert_true(changed > ROUNDS);
    assert_true(dropped > ROUNDS);
    assert_true(mixed > ROUNDS / 10 && mixed < 3 * ROUNDS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(spelling_names_every_unit),
        cmocka_unit_test(shortening_drops_what_the_cell_says),
        cmocka_unit_test(both_append_or_leave_alone),
        cmocka_unit_test(spelling_over_the_limit_is_refused),
        cmocka_unit_test(typing_spelling_shortening_read_the_same),
    };

    return cmocka_run_group_tests_name("num_spell", tests, NULL, NULL) ? 1 : 0;
}
