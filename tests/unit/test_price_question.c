/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "model/derive/charges.h"
#include "model/reading/prices.h"

/* The shop's prices, typed from the number pad on Intake: * 7. On the full record rod, slots and
 * saddle are due, and new strings may follow. */

static struct app *ask(void)
{
    struct app *app = bench_open(build_record_full, "", LEAF_INTAKE);

    bench_press(app, "*7");
    assert_true(app_is_asked(app));
    return app;
}

static void expect_hint(const struct app *app, const char *words)
{
    char memory[200];
    struct strbuf hint = STRBUF(memory);

    app->asked->add_hint(app, &hint);
    if (!strstr(memory, words))
        fail_msg("\"%s\" is not in \"%s\"", words, memory);
}

static void expect_prompt(const struct app *app, const char *words)
{
    char memory[200];
    struct strbuf prompt = STRBUF(memory);

    app->asked->add_prompt(app, &prompt);
    assert_string_equal(memory, words);
}

static void a_price_is_kept_and_the_sum_follows(void **state)
{
    struct app *app = ask();

    (void)state;
    assert_int_equal(bench_press(app, "{Enter}").price, 0); /* a reset is priced by hand */
    expect_prompt(app, "price: rod >");
    expect_hint(app, "?; estimate ?, at most ?");
    bench_press(app, "25");
    assert_int_equal(bench_press(app, "{Enter}").price, 1 + MOVE_ROD);
    assert_near(app->prices.row[MOVE_ROD].value, 25, 1e-12);
    bench_press(app, "+40,50{Enter}");
    assert_near(app->prices.row[MOVE_SLOTS].value, 40.5, 1e-12);
    /* Before Enter, what it would come to: 25 + 40.50 + 30. */
    bench_press(app, "30");
    assert_string_equal(app->entry_view.words, "estimate 95.50, at most ?");
    assert_false(app->prices.row[MOVE_SADDLE].given);
    bench_press(app, "{Enter}20{Enter}");
    expect_prompt(app, "price: strings >");
    assert_int_equal(bench_press(app, "18{Enter}").price, 1 + PRICE_STRINGS);
    expect_prompt(app, "currency >");
    assert_int_equal(bench_press(app, "EUR{Enter}").price, 1 + PRICE_CURRENCY);
    assert_false(app_is_asked(app));
    assert_string_equal(app->message, "estimate 95.50 EUR, at most 113.50 EUR");
    bench_close(app);
}

static void one_steps_and_takes_out(void **state)
{
    struct app *app = ask();

    (void)state;
    app->prices.row[MOVE_ROD] = maybe_given(25);
    bench_press(app, "+");
    expect_hint(app, "25; estimate");
    assert_true(strstr(app->message, "rod 25, frets ?, slots ?") != NULL);
    assert_int_equal(bench_press(app, "{Del}").price, 1 + MOVE_ROD);
    assert_false(app->prices.row[MOVE_ROD].given);
    expect_prompt(app, "price: rod >");
    bench_press(app, "-");
    expect_prompt(app, "price: reset >");
    bench_press(app, "-");
    expect_prompt(app, "price: reset >");
    bench_press(app, "+++++++++");
    expect_prompt(app, "currency >");
    bench_press(app, "{Esc}");
    assert_false(app_is_asked(app));
    bench_close(app);
}

static void what_is_no_price_is_refused(void **state)
{
    static const char *const wrong[] = {"25x", "1/2", "2000000", "25 EUR", "."};

    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        struct app *app = ask();

        bench_press(app, wrong[i]);
        assert_false(app->entry_view.good);
        assert_int_equal(bench_press(app, "{Enter}").price, 0);
        assert_int_equal(app->tone, TONE_WARNING);
        expect_prompt(app, "price: reset >");
        assert_false(app->prices.row[MOVE_RESET].given);
        bench_close(app);
    }
}

/* Neither readings nor undo know of it. */
static void the_record_is_not_touched(void **state)
{
    struct app *app = ask();
    const size_t count = app->record.count;

    (void)state;
    assert_false(bench_press(app, "250{Enter}25{Enter}{Esc}").save);
    assert_int_equal(app->record.count, count);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_price_is_kept_and_the_sum_follows),
        cmocka_unit_test(one_steps_and_takes_out),
        cmocka_unit_test(what_is_no_price_is_refused),
        cmocka_unit_test(the_record_is_not_touched),
    };

    return cmocka_run_group_tests_name("price_question", tests, NULL, NULL) ? 1 : 0;
}
