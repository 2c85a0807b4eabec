/* SPDX-License-Identifier: MIT */
/* The reader of published tables: what it accepts, and above all what it refuses. */
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
                               "source    Somebody, Something, p. 1,\n"
                               "          printed to 1\n"
                               "function  twice\n"
                               "given     a 1 mm   b word\n"
                               "\n"
                               "case      first\n"
                               "expect    out 2 mm   within 0.5 mm\n"
                               "\n"
                               "case      second\n"
                               "source    Somebody else\n"
                               "given     a 3 mm\n"
                               "expect    failure STATUS_DOMAIN\n";
    struct published_case *cases = NULL;
    size_t count = 0;
    char fault[200];

    assert_true(read_table(text, &cases, &count, fault, sizeof fault));
    assert_int_equal(count, 2);
    assert_string_equal(cases[0].title, "first");
    assert_string_equal(cases[0].source, "Somebody, Something, p. 1, printed to 1");
    assert_string_equal(cases[0].function, "twice");
    assert_int_equal(cases[0].given_count, 2);
    assert_near(published_number(&cases[0], "a", "mm"), 1, 0);
    assert_near(published_number_or(&cases[0], "c", "mm", 9), 9, 0);
    assert_string_equal(published_text(&cases[0], "b"), "word");
    assert_string_equal(cases[0].expect[0].name, "out");
    assert_near(cases[0].expect[0].within, 0.5, 0);
    assert_string_equal(cases[1].source, "Somebody else");
    assert_int_equal(cases[1].given_count, 2);
    assert_near(published_number(&cases[1], "a", "mm"), 3, 0);
    free(cases);
}

static void test_what_is_refused(void **state)
{
    (void)state;
    check_refused("case x\nfunction f\nexpect a 1   within 1\n", "needs a source");
    check_refused("case x\nsource  \nfunction f\nexpect a 1   within 1\n", "needs a source");
    check_refused("case x\nsource s\nexpect a 1   within 1\n", "needs a function");
    check_refused("case x\nsource s\nfunction f\n", "something to expect");
    check_refused("case x\nsource s\nfunction f\nexpect a 1\n", "expect is");
    check_refused("case x\nsource s\nfunction f\nexpect a 1 mm   within 1\n", "expect is");
    check_refused("case x\nsource s\nfunction f\nexpect a 1   within -1\n", "expect is");
    check_refused("case x\nsource s\nfunction f\nexpect a 1   within nan\n", "expect is");
    check_refused("case x\nsource s\nfunction f\nexpect a 1   within lots\n", "expect is");
    check_refused("case x\nsource s\nfunction f\ngiven a\nexpect a 1   within 1\n", "an item is");
    check_refused("case x\nsource s\nfunction f\ngiven a 1 b 2\n", "an item is");
    check_refused("case x\nsources s\n", "a line begins with");
    check_refused("all x\nsource s\nfunction f\nexpect a 1   within 1\n", "a line begins with");
    check_refused("case x\n  loose\n", "go on with a source");
    check_refused("", "no case");
    /* The case without a source need not be the last. */
    check_refused("case x\nfunction f\nexpect a 1   within 1\ncase y\nsource s\n",
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

    assert_true(read_table(text, &cases, &count, fault, sizeof fault));
    assert_int_equal(count, 1);
    only = cases[0];
    free(cases);
    published_check(&only, tables);
}

#define HEAD "case x\nsource s\n"

static void test_good_answers_pass(void **state)
{
    (void)state;
    run_text(HEAD "function twice\ngiven a 1.5 mm\nexpect out 3 mm   within 0 mm\n");
    run_text(HEAD "function failing\nexpect failure STATUS_DOMAIN\n");
}

/* Each of these has to fail; run_failures turns that round. */
static const char *const failing[] = {
    HEAD "function twice\ngiven a 1.5 mm\nexpect out 3.1 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a 1.5 in\nexpect out 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a x mm\nexpect out 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven b 1.5 mm\nexpect out 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a 1.5 mm   b 2\nexpect out 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a 1.5 mm\nexpect other 3 mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a 1.5 mm\nexpect out 3 cm   within 0.05 cm\n",
    HEAD "function twice\ngiven a 1.5 mm\nexpect out nan mm   within 0.05 mm\n",
    HEAD "function twice\ngiven a 1.5 mm\nexpect out 3 mm   within inf mm\n",
    HEAD "function twice\ngiven a 1.5 mm\nexpect failure STATUS_DOMAIN\n",
    HEAD "function nan\nexpect out 3 mm   within 1 mm\n",
    HEAD "function nan\nexpect out nan mm   within 1 mm\n",
    HEAD "function failing\nexpect out 3 mm   within 1 mm\n",
    HEAD "function failing\nexpect failure STATUS_RANGE\n",
    HEAD "function nobody\nexpect out 3 mm   within 1 mm\n",
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_table_is_read),
        cmocka_unit_test(test_what_is_refused),
        cmocka_unit_test(test_good_answers_pass),
    };
    int good = run_failures();

    return cmocka_run_group_tests(tests, NULL, NULL) || !good ? 1 : 0;
}
