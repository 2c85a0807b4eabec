/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "base/num.h"

#include <string.h>

/* What num_parse refuses: with which status, where, and in which words. */

static const struct refusal {
    const char *text;
    enum unit bare;
    enum status status;
    size_t at;
    const char *words; /* part of the sentence */
} refusals[] = {
    {"", UNIT_MM, STATUS_SYNTAX, 0, "a number is needed"},
    {"  ", UNIT_MM, STATUS_SYNTAX, 0, "a number is needed"},
    {"in", UNIT_MM, STATUS_SYNTAX, 0, "a number is needed"},
    {"nan", UNIT_MM, STATUS_SYNTAX, 0, "a number is needed"},
    {"inf", UNIT_MM, STATUS_SYNTAX, 0, "a number is needed"},
    {"-", UNIT_MM, STATUS_SYNTAX, 1, "a number is needed"},
    {"10+", UNIT_TH, STATUS_SYNTAX, 3, "a number is needed"},
    {"10++8", UNIT_TH, STATUS_SYNTAX, 3, "a number is needed"},
    {"10 th + in", UNIT_TH, STATUS_SYNTAX, 8, "a number is needed"},
    {"/64", UNIT_MM, STATUS_SYNTAX, 0, "a number is needed"},
    {"+5", UNIT_MM, STATUS_SYNTAX, 0, "no + in front"},
    {" +5", UNIT_MM, STATUS_SYNTAX, 1, "no + in front"},
    {"--5", UNIT_MM, STATUS_SYNTAX, 1, "a minus goes only in front"},
    {"5-3", UNIT_MM, STATUS_SYNTAX, 1, "a minus goes only in front"},
    {"5 - 3", UNIT_MM, STATUS_SYNTAX, 2, "a minus goes only in front"},
    {"5-", UNIT_MM, STATUS_SYNTAX, 1, "a minus goes only in front"},
    {"1.5-1/2", UNIT_MM, STATUS_SYNTAX, 3, "a minus goes only in front"},
    {"1 - 1/2", UNIT_MM, STATUS_SYNTAX, 2, "a minus goes only in front"},
    {"5 mm-3", UNIT_MM, STATUS_SYNTAX, 4, "a minus goes only in front"},
    {"5 mm - 3 mm", UNIT_MM, STATUS_SYNTAX, 5, "a minus goes only in front"},
    {"10+-8", UNIT_TH, STATUS_SYNTAX, 3, "a minus goes only in front"},
    {"7/64-1/64", UNIT_MM, STATUS_SYNTAX, 4, "a minus goes only in front"},
    {"1,5", UNIT_MM, STATUS_SYNTAX, 1, "write a point, not a comma"},
    {",5", UNIT_MM, STATUS_SYNTAX, 0, "write a point, not a comma"},
    {"5.", UNIT_MM, STATUS_SYNTAX, 1, "one point, with digits after it"},
    {".", UNIT_MM, STATUS_SYNTAX, 0, "one point, with digits after it"},
    {"1.2.3", UNIT_MM, STATUS_SYNTAX, 3, "one point, with digits after it"},
    {"5. mm", UNIT_MM, STATUS_SYNTAX, 1, "one point, with digits after it"},
    {"1e5", UNIT_MM, STATUS_SYNTAX, 1, "without an exponent"},
    {"1E-5", UNIT_MM, STATUS_SYNTAX, 1, "without an exponent"},
    {"1e+5", UNIT_MM, STATUS_SYNTAX, 1, "without an exponent"},
    {"0x10", UNIT_MM, STATUS_SYNTAX, 1, "decimal digits"},
    {"7/", UNIT_MM, STATUS_SYNTAX, 2, "a whole number below the line"},
    {"7/ in", UNIT_MM, STATUS_SYNTAX, 3, "a whole number below the line"},
    {"7/6.4", UNIT_MM, STATUS_SYNTAX, 2, "a whole number below the line"},
    {"7/.5", UNIT_MM, STATUS_SYNTAX, 2, "a whole number below the line"},
    {"7/-64", UNIT_MM, STATUS_SYNTAX, 2, "a whole number below the line"},
    {"8 1/", UNIT_MM, STATUS_SYNTAX, 4, "a whole number below the line"},
    {"7/0", UNIT_MM, STATUS_DOMAIN, 2, "0 below the line"},
    {"0/0 in", UNIT_MM, STATUS_DOMAIN, 2, "0 below the line"},
    {"8 1/00", UNIT_MM, STATUS_DOMAIN, 4, "0 below the line"},
    {"8 1/4/0", UNIT_MM, STATUS_DOMAIN, 6, "0 below the line"},
    {"1/4/64", UNIT_MM, STATUS_SYNTAX, 3, "one line too many"},
    {"8 1/4/64/2", UNIT_MM, STATUS_SYNTAX, 8, "one line too many"},
    {"\xC2\xBC/64", UNIT_MM, STATUS_SYNTAX, 2, "one line too many"},
    {"8 5/4", UNIT_64THS, STATUS_SYNTAX, 2, "smaller than 1"},
    {"8 4/4", UNIT_64THS, STATUS_SYNTAX, 2, "smaller than 1"},
    {"5-3/2", UNIT_64THS, STATUS_SYNTAX, 2, "smaller than 1"},
    {"8 1", UNIT_64THS, STATUS_SYNTAX, 2, "two numbers side by side"},
    {"8 1.5/4", UNIT_64THS, STATUS_SYNTAX, 2, "two numbers side by side"},
    {"8.5 1/4", UNIT_64THS, STATUS_SYNTAX, 4, "two numbers side by side"},
    {"8.5\xC2\xBC", UNIT_64THS, STATUS_SYNTAX, 3, "two numbers side by side"},
    {"\xC2\xBC"
     "8",
     UNIT_64THS, STATUS_SYNTAX, 2, "two numbers side by side"},
    {"7/64 3", UNIT_64THS, STATUS_SYNTAX, 5, "two numbers side by side"},
    {"5)", UNIT_MM, STATUS_SYNTAX, 1, "only digits"},
    {"5*2", UNIT_MM, STATUS_SYNTAX, 1, "only digits"},
    {"5\x01", UNIT_MM, STATUS_SYNTAX, 1, "only digits"},
    {"5 m", UNIT_MM, STATUS_UNIT, 2, "a length is needed here: mm, cm, in, th"},
    {"5 m m", UNIT_MM, STATUS_UNIT, 2, "mm, cm, in, th"},
    {"5 in.", UNIT_MM, STATUS_UNIT, 2, "mm, cm, in, th"},
    {"5 N", UNIT_MM, STATUS_UNIT, 2, "mm, cm, in, th"},
    {"5 mm 3", UNIT_MM, STATUS_UNIT, 2, "mm, cm, in, th"},
    {"10 xx+8 th", UNIT_TH, STATUS_UNIT, 3, "mm, cm, in, th"},
    {"5 \xFF", UNIT_MM, STATUS_UNIT, 2, "mm, cm, in, th"},
    {"21 K", UNIT_C, STATUS_UNIT, 3, "C, F"},
    {"5 mm", UNIT_PLAIN, STATUS_UNIT, 2, "without a unit"},
    {"41 mm", UNIT_PERCENT, STATUS_UNIT, 3, "%"},
    {"5 mm", UNIT_CENT, STATUS_UNIT, 2, "cents"},
    {"440 mm", UNIT_HZ, STATUS_UNIT, 4, "Hz"},
    {"5 mm", UNIT_N, STATUS_UNIT, 2, "N, lb, kgf"},
    {"5 mm", UNIT_MPA, STATUS_UNIT, 2, "N/mm2, MPa, GPa"},
    {"5 mm", UNIT_NM, STATUS_UNIT, 2, "Nm, ft-lb, in-lb"},
    {"5 mm", UNIT_G, STATUS_UNIT, 2, "g, gr"},
    {"5 mm", UNIT_G_PER_M, STATUS_UNIT, 2, "g/m, lb/in"},
    {"1/4 mm", UNIT_TURN, STATUS_UNIT, 4, "turn"},
    {"21+2", UNIT_C, STATUS_SYNTAX, 2, "temperatures are not added"},
    {"900719925474 1/20000", UNIT_IN, STATUS_TOO_LONG, 0, "too long to be exact"},
    {".010+8", UNIT_TH, STATUS_UNIT, 5, "10+8 or .010+.008"},
    {"10+.008", UNIT_TH, STATUS_UNIT, 3, "10+8 or .010+.008"},
    {"10+.5", UNIT_TH, STATUS_UNIT, 3, "10+8 or .010+.008"},
    {"10+1/64", UNIT_TH, STATUS_UNIT, 3, "10+8 or .010+.008"},
    {".010+8 th", UNIT_TH, STATUS_UNIT, 0, "10+8 or .010+.008"},
    {".010+8 th", UNIT_MM, STATUS_UNIT, 0, "10+8 or .010+.008"},
    {"1 mm+.010+8", UNIT_TH, STATUS_UNIT, 10, "10+8 or .010+.008"},
    {"6+.012", UNIT_64THS, STATUS_UNIT, 2, "6+.5 or .094+.008"},
    {".012+6", UNIT_64THS, STATUS_UNIT, 5, "6+.5 or .094+.008"},
    {"6+7/32", UNIT_64THS, STATUS_UNIT, 2, "6+.5 or .094+.008"},
    {"6+1/3", UNIT_64THS, STATUS_UNIT, 2, "6+.5 or .094+.008"},
    {"6.5+1/16", UNIT_64THS, STATUS_UNIT, 4, "6+.5 or .094+.008"},
    {"0.30+5", UNIT_100THS, STATUS_UNIT, 5, "30+5 or 0.30+0.05"},
    {"30+.05", UNIT_100THS, STATUS_UNIT, 3, "30+5 or 0.30+0.05"},
    {"1.2+5", UNIT_100THS, STATUS_UNIT, 4, "30+5 or 0.30+0.05"},
    {"5+1/64", UNIT_100THS, STATUS_UNIT, 2, "30+5 or 0.30+0.05"},
    {"2+1/64", UNIT_MM, STATUS_UNIT, 2, "2+0.5 or 5/64+1/64"},
    {"1 1/2+.5", UNIT_MM, STATUS_UNIT, 6, "2+0.5 or 5/64+1/64"},
    {"1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1+1", UNIT_MM, STATUS_TOO_LONG,
     64, "64 characters"},
};

static void check_refusal(const struct refusal *refusal)
{
    double value = 7.0;
    struct num_fault fault = {STATUS_OK, 999, "nothing said"};
    enum status status =
        num_parse(refusal->text, unit_quantity(refusal->bare), refusal->bare, &value, &fault);

    if (status != refusal->status || fault.status != status || fault.at != refusal->at ||
        !strstr(fault.what, refusal->words) || !near_is(value, 7.0, 0.0))
        fail_msg("\"%s\": status %d at %zu, \"%s\"", refusal->text, (int)status, fault.at,
                 fault.what);
    assert_int_equal(
        num_parse(refusal->text, unit_quantity(refusal->bare), refusal->bare, &value, NULL),
        refusal->status);
}

static void refusals_say_where_and_why(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof(refusals) / sizeof(refusals[0]); i++)
        check_refusal(&refusals[i]);
}

static void spelling_refuses_the_same(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof(refusals) / sizeof(refusals[0]); i++) {
        char memory[80];
        struct strbuf buf = STRBUF(memory);
        enum quantity_kind quantity = unit_quantity(refusals[i].bare);

        assert_int_equal(num_spell(refusals[i].text, quantity, refusals[i].bare, &buf),
                         refusals[i].status);
        assert_int_equal(num_shorten(refusals[i].text, quantity, refusals[i].bare, &buf),
                         refusals[i].status);
        assert_int_equal(buf.length, 0);
    }
}

static void a_missing_unit_is_named(void **state)
{
    struct num_fault fault;
    double value = 7.0;

    (void)state;
    assert_int_equal(num_parse("5 ", QUANTITY_LENGTH, UNIT_NONE, &value, &fault), STATUS_UNIT);
    assert_int_equal(fault.at, 1);
    assert_non_null(strstr(fault.what, "mm, cm, in, th"));
    assert_int_equal(num_parse("7/64", QUANTITY_LENGTH, UNIT_NONE, &value, &fault), STATUS_UNIT);
    assert_int_equal(num_parse("5 mm+3", QUANTITY_LENGTH, UNIT_NONE, &value, &fault), STATUS_UNIT);
    assert_int_equal(fault.at, 6);
    assert_int_equal(num_parse("21", QUANTITY_TEMPERATURE, UNIT_NONE, &value, &fault), STATUS_UNIT);
    assert_non_null(strstr(fault.what, "C, F"));
    assert_near(value, 7.0, 0.0);
}

static void a_cell_of_another_quantity_is_refused(void **state)
{
    struct num_fault fault;
    double value = 7.0;

    (void)state;
    assert_int_equal(num_parse("5", QUANTITY_LENGTH, UNIT_N, &value, &fault), STATUS_UNIT);
    assert_int_equal(num_parse("5", QUANTITY_FORCE, UNIT_PLAIN, &value, &fault), STATUS_UNIT);
    assert_int_equal(num_parse("5 mm", QUANTITY_LENGTH, UNIT_C, &value, &fault), STATUS_UNIT);
    assert_near(value, 7.0, 0.0);
}

static void unit_words_list_the_suffixes(void **state)
{
    (void)state;
    for (int q = QUANTITY_LENGTH; q <= QUANTITY_TURNS; q++) {
        enum quantity_kind quantity = (enum quantity_kind)q;
        struct num_fault fault;
        double value;

        assert_int_equal(num_parse("1", quantity, UNIT_NONE, &value, &fault), STATUS_UNIT);
        assert_non_null(strstr(fault.what, unit_wanted(quantity)));
    }
}

/* Every text of up to four of these characters is refused or read, and never hangs or
 * reads outside the text (run under the sanitizers); what is read is finite. */
static void short_texts_are_read_or_refused(void **state)
{
    static const char alphabet[] = "01./+- ie\"\xC2\xBD";
    enum { LETTERS = sizeof(alphabet) - 1, LENGTH = 5 };
    long total = 1, read = 0;

    (void)state;
    for (int i = 0; i < LENGTH; i++)
        total *= LETTERS;
    for (long n = 0; n < total; n++) {
        char text[LENGTH + 1] = {0};
        struct num_fault fault = {STATUS_OK, 999, NULL};
        double value = 0.0;
        long rest = n;

        for (int i = 0; i < LENGTH; i++, rest /= LETTERS)
            text[i] = alphabet[rest % LETTERS];
        if (num_parse(text, QUANTITY_LENGTH, UNIT_64THS, &value, &fault) == STATUS_OK) {
            read++;
            assert_near(value, value, 0.0);
        } else {
            assert_true(fault.at <= LENGTH);
            assert_non_null(fault.what);
        }
    }
    assert_true(read > 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refusals_say_where_and_why),
        cmocka_unit_test(spelling_refuses_the_same),
        cmocka_unit_test(a_missing_unit_is_named),
        cmocka_unit_test(a_cell_of_another_quantity_is_refused),
        cmocka_unit_test(unit_words_list_the_suffixes),
        cmocka_unit_test(short_texts_are_read_or_refused),
    };

    return cmocka_run_group_tests_name("num_refusal", tests, NULL, NULL) ? 1 : 0;
}
