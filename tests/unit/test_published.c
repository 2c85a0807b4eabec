/* SPDX-License-Identifier: MIT */
/* Published tables: what the reader accepts, and above all what it refuses; what is printed. */
#include "near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../published/published.h"

static bool read_table(const char *text, struct published_case **ret_cases, size_t *ret_count,
                       char *fault, size_t size)
{
    FILE *file = tmpfile();

    assert_non_null(file);
    fputs(text, file);
    rewind(file);

    bool good = published_read(file, ret_cases, ret_count, fault, size);

    fclose(file);
    return good;
}

static void check_refused(const char *text, const char *why)
{
    struct published_case *cases = NULL;
    size_t count = 0;
    char fault[200] = "";

    if (read_table(text, &cases, &count, fault, sizeof fault))
        fail_msg("taken: %s", text);
    if (strstr(fault, why) == NULL)
        fail_msg("refused for \"%s\", not for \"%s\"", fault, why);
    assert_null(cases);
}

static void test_a_table_is_read(void **state)
{
    (void)state;
    static const char text[] = "# a comment\n"
                               "all       both\n"
                               "source    Somebody, Something,\n"
                               "          second edition\n"
                               "place     p. 1\n"
                               "origin    read\n"
                               "function  twice\n"
                               "given     a 1 mm   b word\n"
                               "\n"
                               "case      first\n"
                               "expect    out 2 mm   within 0.5 mm\n"
                               "\n"
                               "case      second\n"
                               "source    Somebody else\n"
                               "origin    memory\n"
                               "given     a 3 mm\n"
                               "exception not yet\n"
                               "expect    out 7/4 mm   within 0 mm\n";
    struct published_case *cases = NULL;
    size_t count = 0;
    char fault[200];

    assert_true(read_table(text, &cases, &count, fault, sizeof fault));
    assert_int_equal(count, 2);
    assert_string_equal(cases[0].group, "both");
    assert_string_equal(cases[0].title, "first");
    assert_string_equal(cases[0].source, "Somebody, Something, second edition");
    assert_string_equal(cases[0].place, "p. 1");
    assert_string_equal(cases[0].origin, "read");
    assert_string_equal(cases[0].function, "twice");
    assert_string_equal(cases[0].exception, "");
    assert_int_equal(cases[0].given_count, 2);
    assert_near(published_number(&cases[0], "a", "mm"), 1, 0);
    assert_near(published_number_or(&cases[0], "c", "mm", 9), 9, 0);
    assert_string_equal(published_text(&cases[0], "b"), "word");
    assert_string_equal(cases[0].expect[0].name, "out");
    assert_near(cases[0].expect[0].within, 0.5, 0);
    assert_string_equal(cases[1].source, "Somebody else");
    assert_string_equal(cases[1].origin, "memory");
    assert_string_equal(cases[1].exception, "not yet");
    assert_int_equal(cases[1].given_count, 2);
    assert_near(published_number(&cases[1], "a", "mm"), 3, 0);
    free(cases);
}

#define WHOLE "all g\nsource s\nplace p\norigin read\nfunction f\n"

static void test_rows_are_cases(void **state)
{
    (void)state;
    struct published_case *cases = NULL;
    size_t count = 0;
    char fault[200];

    assert_true(read_table(WHOLE "given a 1 mm   b 2\n"
                                 "columns a mm   c   out %   within 0.5 %\n"
                                 "row 3 x 41\norigin practice\nrow 4 y 42\n",
                           &cases, &count, fault, sizeof fault));
    assert_int_equal(count, 2);
    assert_string_equal(cases[0].title, "a 3 mm, c x");
    assert_string_equal(cases[0].origin, "practice");
    assert_string_equal(cases[1].origin, "read");
    assert_near(published_number(&cases[1], "a", "mm"), 4, 0);
    assert_near(published_number(&cases[1], "b", ""), 2, 0);
    assert_string_equal(published_text(&cases[1], "c"), "y");
    assert_string_equal(cases[1].expect[0].text, "42");
    assert_string_equal(cases[1].expect[0].unit, "%");
    assert_near(cases[1].expect[0].within, 0.5, 0);
    free(cases);
    check_refused(WHOLE "row 1 2\n", "a row has");
    check_refused(WHOLE "columns a   out   within 0.5\nrow 1\n", "a row has");
    check_refused(WHOLE "columns a   out   within 0.5\nrow 1 2 3\n", "a row has");
    check_refused(WHOLE "columns a   out\n", "columns are");
    check_refused(WHOLE "columns out   within 0.5\n", "columns are");
    check_refused(WHOLE "columns a   out mm   within 0.5\n", "columns are");
}

#define NEARLY "all g\nsource s\nplace p\nfunction f\n"

/* What somebody here computed from the formula under test says nothing about it. */
static void test_what_was_computed_is_refused(void **state)
{
    (void)state;
    check_refused(NEARLY "origin computed\ncase x\nexpect a 1   within 0.5\n",
                  "what was computed here is not published");
    check_refused(WHOLE "case x\norigin computed\nexpect a 1   within 0.5\ncase y\n",
                  "what was computed here is not published");
    check_refused(WHOLE "columns b   a   within 0.5\nrow 1 1\norigin computed\n",
                  "what was computed here is not published");
    check_refused(NEARLY "case x\nexpect a 1   within 0.5\n", "needs an origin");
    check_refused(NEARLY "origin hearsay\ncase x\nexpect a 1   within 0.5\n", "needs an origin");
}

/* A tolerance is half the last printed digit, or there is a reason. */
static void test_wide_tolerances_are_refused(void **state)
{
    (void)state;
    static const char *const wide[] = {"1.50   within 0.0051",    "68   within 0.51",
                                       "3.4e13   within 0.06e13", "5/384   within 0.001",
                                       "2.1e-05   within 1e-6",   "12600   within 50"};
    char text[200];

    for (size_t i = 0; i < sizeof wide / sizeof wide[0]; i++) {
        struct published_case *cases = NULL;
        size_t count = 0;
        char fault[200];

        snprintf(text, sizeof text, WHOLE "case x\nexpect a %s\n", wide[i]);
        check_refused(text, "needs a because");
        strcat(text, "because the print is rough\n");
        assert_true(read_table(text, &cases, &count, fault, sizeof fault));
        free(cases);
    }
}

static void test_what_is_refused(void **state)
{
    (void)state;
    check_refused("case x\nsource s\nplace p\norigin read\nfunction f\nexpect a 1   within 0.5\n",
                  "needs a group");
    check_refused("all g\nplace p\norigin read\ncase x\nfunction f\nexpect a 1   within 0.5\n",
                  "needs a source");
    check_refused(
        "all g\nsource  \nplace p\norigin read\ncase x\nfunction f\nexpect a 1   within 0.5\n",
        "needs a source");
    check_refused("all g\nsource s\norigin read\ncase x\nfunction f\nexpect a 1   within 0.5\n",
                  "needs a place");
    check_refused("all g\nsource s\nplace p\norigin read\ncase x\nexpect a 1   within 0.5\n",
                  "needs a function");
    check_refused(WHOLE "case x\n", "something to expect");
    check_refused(WHOLE "case x\nexpect a 1\n", "expect is");
    check_refused(WHOLE "case x\nexpect a 1 mm   within 0.5\n", "expect is");
    check_refused(WHOLE "case x\nexpect a 1   within -0.5\n", "expect is");
    check_refused(WHOLE "case x\nexpect a 1   within nan\n", "expect is");
    check_refused(WHOLE "case x\nexpect a 1   within inf\n", "expect is");
    check_refused(WHOLE "case x\nexpect a 1   within lots\n", "expect is");
    check_refused(WHOLE "case x\ngiven a\nexpect a 1   within 0.5\n", "an item is");
    check_refused(WHOLE "case x\ngiven a 1 b 2\n", "an item is");
    check_refused("case x\nsources s\n", "a line begins with");
    check_refused(WHOLE "expect a 1   within 0.5\n", "a line begins with");
    check_refused("case x\n  loose\n", "go on with a text");
    check_refused("", "no case");
    check_refused(WHOLE "case x\nexception e\nexpect a 1   within 0.5\nexpect b 1   within 0.5\n",
                  "an exception expects one number");
    /* The case that lacks something need not be the last. */
    check_refused("all g\nplace p\norigin read\nfunction f\ncase x\nexpect a 1   within 0.5\n"
                  "case y\nsource s\n",
                  "needs a source");
}

static enum status run_twice(struct published_case *c, struct published_answers *answers)
{
    published_answer(answers, "out", 2 * published_number(c, "a", "mm"), "mm");
    return STATUS_OK;
}

static enum status run_nan(struct published_case *c, struct published_answers *answers)
{
    (void)c;
    published_answer(answers, "out", (double)NAN, "mm");
    return STATUS_OK;
}

static enum status run_failing(struct published_case *c, struct published_answers *answers)
{
    (void)c;
    (void)answers;
    return STATUS_DOMAIN;
}

static const struct published_function functions[] = {
    {"twice", run_twice}, {"nan", run_nan}, {"failing", run_failing}, {NULL, NULL}};
static const struct published_function *const tables[] = {functions, NULL};

/* Runs the one case of a text. */
static void run_text(const char *text)
{
    struct published_case *cases = NULL, only;
    size_t count = 0;
    char fault[200];

    if (!read_table(text, &cases, &count, fault, sizeof fault))
        fail_msg("%s", fault);
    assert_int_equal(count, 1);
    only = cases[0];
    free(cases);
    published_check(&only, tables);
}

#define HEAD  "all g\nsource s\nplace p\norigin read\nbecause it is rough\ncase x\n"
#define TWICE HEAD "function twice\ngiven a 1.5 mm\n"

static void test_good_answers_pass(void **state)
{
    (void)state;
    run_text(TWICE "expect out 3 mm   within 0 mm\n");
    run_text(TWICE "expect out 6/2 mm   within 0 mm\n");
    run_text(TWICE "expect out 3.1 mm   within 0.05 mm\nexception known to be off\n");
}

/* Each of these has to fail; run_failures turns that round. */
static const char *const failing[] = {
    TWICE "expect out 3.1 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a 1.5 in\nexpect out 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a x mm\nexpect out 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a 3/0 mm\nexpect out 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven b 1.5 mm\nexpect out 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a 1.5 mm   b 2\nexpect out 3 mm   within 0.05 mm\n",
    TWICE "expect other 3 mm   within 0.05 mm\n",
    TWICE "expect out 3 cm   within 0.05 cm\n",
    TWICE "expect out nan mm   within 0.05 mm\n",
    HEAD "function nan\nexpect out 3 mm   within 1 mm\n",
    HEAD "function nan\nexpect out nan mm   within 1 mm\n",
    HEAD "function failing\nexpect out 3 mm   within 1 mm\n",
    HEAD "function nobody\nexpect out 3 mm   within 1 mm\n",
    /* An exception that comes out right has lost its reason; none excuses nonsense. */
    TWICE "exception known to be off\nexpect out 3 mm   within 0.05 mm\n",
    TWICE "exception known to be off\nexpect other 3 mm   within 0.05 mm\n",
    HEAD "function nan\nexception known to be off\nexpect out 3 mm   within 1 mm\n",
    HEAD "function failing\nexception known to be off\nexpect out 3 mm   within 1 mm\n",
};

enum { FAILING = sizeof failing / sizeof failing[0] };

static void must_fail(void **state)
{
    run_text(failing[*(const size_t *)*state]);
}

static int run_failures(void)
{
    struct CMUnitTest tests[FAILING];
    size_t which[FAILING];

    for (size_t i = 0; i < FAILING; i++) {
        which[i] = i;
        tests[i] = (struct CMUnitTest){"must fail", must_fail, NULL, NULL, &which[i]};
    }
    fprintf(stderr, "the next %d are to fail:\n", FAILING);

    int failed = _cmocka_run_group_tests("failures", tests, FAILING, NULL, NULL);

    if (failed != FAILING)
        fprintf(stderr, "%d of %d failed as they should\n", failed, FAILING);
    return failed == FAILING;
}

/* What is printed says what was found, and counts exceptions apart. */
static void test_what_is_printed(void **state)
{
    (void)state;
    static const char text[] =
        "all g\nsource s\nplace p\norigin read\nfunction twice\nbecause rough\n"
        "case one\ngiven a 1.5 mm\nexpect out 3.1 mm   within 0.2 mm\n"
        "case two\norigin memory\ngiven a 2 mm\nexception off\nexpect out 9 mm   within 1 mm\n";
    struct published_case *cases = NULL;
    size_t count = 0, length;
    char fault[200], printed[2000];
    FILE *out = tmpfile();

    assert_non_null(out);
    assert_true(read_table(text, &cases, &count, fault, sizeof fault));
    for (size_t i = 0; i < count; i++)
        published_check(&cases[i], tables);
    published_print(out, cases, count);
    published_print_summary(out, cases, count);
    free(cases);
    rewind(out);
    length = fread(printed, 1, sizeof printed - 1, out);
    fclose(out);
    printed[length] = '\0';
    assert_non_null(strstr(printed, "s | p | one | out | 3.1 mm | 3 mm | -0.1"));
    assert_non_null(strstr(printed, "exception: off"));
    assert_non_null(strstr(printed, "2 checks: 1 read, 1 from memory, 0 of practice; 1 of them"));
    assert_non_null(strstr(printed, "| g | out | 2 | 1 | 1 | 0 | 1 | 0.1 mm (3.2 %) |"));
    assert_non_null(strstr(printed, "| g: two | 9 mm | 4 | off |"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_table_is_read),
        cmocka_unit_test(test_rows_are_cases),
        cmocka_unit_test(test_what_was_computed_is_refused),
        cmocka_unit_test(test_wide_tolerances_are_refused),
        cmocka_unit_test(test_what_is_refused),
        cmocka_unit_test(test_what_is_printed),
        cmocka_unit_test(test_good_answers_pass),
    };
    int good = run_failures();

    return cmocka_run_group_tests(tests, NULL, NULL) || !good ? 1 : 0;
}
