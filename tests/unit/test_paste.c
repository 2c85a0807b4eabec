/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "session/paste_split.h"
#include "bench_session.h"
#include "build_record.h"

/* --- taking apart --- */

struct taken {
    enum field_id field;
    const char *text, *values; /* parted by bars */
};

static void check_taken(const struct taken *taken)
{
    struct paste_split split = {.text = taken->text, .field = field_get(taken->field)};
    char memory[200] = "";
    struct strbuf values = STRBUF(memory);
    int count = 0;

    for (;; count++) {
        char value_memory[64];
        struct strbuf value = STRBUF(value_memory);

        if (!paste_next(&split, &value))
            break;
        strbuf_add(&values, count ? "|" : "");
        strbuf_add(&values, value_memory);
    }
    if (strcmp(memory, taken->values) != 0)
        fail_msg("\"%s\" is taken as %s, not %s", taken->text, memory, taken->values);
    assert_int_equal(paste_count(taken->text, split.field), count);
}

static void a_text_is_taken_apart(void **state)
{
    static const struct taken all[] = {
        {FIELD_NUT_GAP, "24", "24"},
        {FIELD_NUT_GAP, "24\n", "24"},
        {FIELD_NUT_GAP, "24\n23\n22", "24|23|22"},
        {FIELD_NUT_GAP, "24 23  22 ", "24|23|22"},
        {FIELD_NUT_GAP, "24\t23\t22\n", "24|23|22"},
        {FIELD_NUT_GAP, "24;23; 22", "24|23|22"},
        {FIELD_NUT_GAP, "24, 23, 22", "24|23|22"},
        {FIELD_NUT_GAP, "0,24 0,23", "0,24|0,23"},
        {FIELD_NUT_GAP, "24,23,22", "24,23,22"},
        {FIELD_NUT_GAP, "24\n\n22", "24||22"},
        {FIELD_NUT_GAP, "\t24", "|24"},
        {FIELD_NUT_GAP, "", ""},
        {FIELD_NUT_GAP, " \n", ""},
        {FIELD_ACTION, "8 1/4 8 7 3/4", "8 1/4|8|7 3/4"},
        {FIELD_ACTION, "7/64 15/128", "7/64|15/128"},
        {FIELD_ACTION, "8\n1/4", "8|1/4"},
        {FIELD_ACTION, "2.4 mm 2.3 mm", "2.4 mm|2.3 mm"},
        {FIELD_STRING_NOTE, "E2 A2 D3", "E2|A2|D3"},
        {FIELD_FRETS, "19 mm", "19|mm"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        check_taken(&all[i]);
}

/* --- at the bench --- */

static const char bare[] = "board scale = 24.9 in\nboard strings = 6\nboard frets = 19\n"
                           "board join_fret = 14\n";

static struct app_effects paste(struct app *app, const char *text)
{
    struct app_effects effects = bench_key(app, SILLET_KEY_PASTE_BEGIN);

    for (; *text; text++)
        assert_false(bench_key(app, *text == '\n'   ? SILLET_KEY_ENTER
                                    : *text == '\t' ? SILLET_KEY_TAB
                                                    : (uint32_t)(unsigned char)*text)
                         .save);
    effects = bench_key(app, SILLET_KEY_PASTE_END);
    return effects;
}

static void expect_gaps(const struct app *app, const char *const *gaps)
{
    for (int s = 6; s >= 1; s--) {
        char line[48];

        snprintf(line, sizeof line, "visit.1.pass.1 nut_gap.%d", s);
        const char *text = bench_text(app, line);
        if (gaps[6 - s])
            assert_string_equal(text, gaps[6 - s]);
        else
            assert_null(text);
    }
}

static void several_values_fill_the_route(void **state)
{
    static const char *const texts[] = {"24\n23\n22\n21\n20\n19\n", "24 23 22 21 20 19",
                                        "24\t23\t22\t21\t20\t19", "24;23;22;21;20;19",
                                        "24, 23, 22, 21, 20, 19"};
    static const char *const gaps[] = {"24 th", "23 th", "22 th", "21 th", "20 th", "19 th"};

    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct app *app = bench_open(bare, "", LEAF_BENCH);

        bench_press(app, "{Down}");
        assert_true(paste(app, texts[i]).save);
        expect_gaps(app, gaps);
        assert_int_equal(app_cell(app)->key.field, FIELD_ACTION);
        assert_non_null(strstr(app->message, "filed: 6"));
        /* One step of undo. */
        bench_press(app, "u");
        expect_gaps(app, (const char *const[6]){NULL});
        bench_close(app);
    }
}

static void it_ends_at_what_would_be_held(void **state)
{
    struct app *app = bench_open(bare, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "{Down}");
    assert_true(paste(app, "24 23 220 21").save);
    expect_gaps(app, (const char *const[6]){"24 th", "23 th"});
    assert_int_equal(app_cell(app)->key.string, 4);
    assert_false(app_is_typing(app));
    assert_int_equal(app->tone, TONE_WARNING);
    assert_non_null(strstr(app->message, "2 filed, ended at nut gap, string 4 by \"220\": "));
    assert_non_null(strstr(app->message, "more than usual"));
    /* What is typed on is this cell's alone. */
    bench_press(app, "{Enter}");
    expect_gaps(app, (const char *const[6]){"24 th", "23 th"});
    bench_close(app);
}

static void it_ends_at_what_is_refused(void **state)
{
    struct app *app = bench_open(bare, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "{Down}");
    assert_true(paste(app, "24 x 22").save);
    expect_gaps(app, (const char *const[6]){"24 th"});
    assert_non_null(strstr(app->message, "string 5 by \"x\": "));
    bench_close(app);
}

static void it_ends_with_the_cells(void **state)
{
    struct app *app = bench_open(bare, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "{End}{Back}{Back}");
    assert_true(paste(app, "11\n10\n9\n").save);
    assert_string_equal(bench_text(app, "visit.1.pass.1 exposure_treble"), "10/64 in");
    assert_non_null(strstr(app->message, "no cell left"));
    assert_int_equal(app->pass, 1);
    bench_close(app);
}

static void a_cell_left_out_stays_as_it_is(void **state)
{
    struct app *app = bench_open(bare, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "{Down}");
    (void)paste(app, "24\n\n22");
    expect_gaps(app, (const char *const[6]){"24 th", NULL, "22 th"});
    bench_close(app);
}

static void one_value_waits_for_enter(void **state)
{
    static const char *const texts[] = {"24", "24\n", "  24"};

    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct app *app = bench_open(bare, "", LEAF_BENCH);

        bench_press(app, "{Down}");
        assert_false(paste(app, texts[i]).save);
        assert_int_equal(app->entry_view.good, true);
        assert_true(bench_press(app, "{Enter}").save);
        expect_gaps(app, (const char *const[6]){"24 th"});
        bench_close(app);
    }
}

static void what_is_typed_is_not_mixed_with_several(void **state)
{
    struct app *app = bench_open(bare, "", LEAF_BENCH);

    (void)state;
    bench_press(app, "{Down}2");
    assert_false(paste(app, "24 23").save);
    assert_string_equal(app->entry.text, "2");
    assert_int_equal(app->tone, TONE_WARNING);
    bench_close(app);
}

static void in_a_cell_of_words_it_is_text(void **state)
{
    struct app *app = bench_open(bare, "", LEAF_INTAKE);

    (void)state;
    bench_press(app, "{Home}{Down}{Down}");
    assert_int_equal(app_cell(app)->key.field, FIELD_VISIT_REASON);
    assert_false(paste(app, "buzzes at 3,\nq ? * 4; since May\n").save);
    assert_true(bench_press(app, "{Enter}").save);
    assert_string_equal(bench_text(app, "visit.1 reason"), "buzzes at 3, q ? * 4; since May");
    bench_close(app);
}

/* Letters in a paste are no commands, whatever is open. */
static void a_paste_commands_nothing(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_BENCH);

    (void)state;
    assert_false(paste(app, "q\nv\nx").save);
    assert_int_equal(app->visit, 1);
    bench_press(app, "h");
    const struct app_effects effects = paste(app, "q\nq\n");
    assert_false(effects.quit || effects.save);
    bench_close(app);
}

static void more_than_a_paste_holds_is_refused_whole(void **state)
{
    struct app *app = bench_open(bare, "", LEAF_BENCH);
    static char text[PASTE_MAX + 3];

    (void)state;
    for (size_t i = 0; i + 1 < sizeof text; i++)
        text[i] = i % 3 == 2 ? '\n' : '2';
    assert_false(paste(app, text).save);
    assert_int_equal(app->tone, TONE_WARNING);
    assert_int_equal(record_last_pass(&app->record, 1), 0);
    bench_close(app);
}

/* Whose end never came: silence, Esc or Ctrl-C end it. */
static void a_paste_without_an_end_locks_nobody_in(void **state)
{
    struct app *app = bench_open(bare, "", LEAF_BENCH);
    const struct event silence = {.type = EVENT_NONE};

    (void)state;
    bench_key(app, SILLET_KEY_PASTE_BEGIN);
    bench_press(app, "2");
    (void)app_handle(app, &silence, &bench_clock);
    assert_string_equal(app->entry.text, "2");
    bench_press(app, "{Esc}");
    bench_key(app, SILLET_KEY_PASTE_BEGIN);
    bench_press(app, "{Esc}2");
    assert_string_equal(app->entry.text, "2");
    bench_press(app, "{Esc}");
    bench_key(app, SILLET_KEY_PASTE_BEGIN);
    assert_true(bench_press(app, "{^c}").quit);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_text_is_taken_apart),
        cmocka_unit_test(several_values_fill_the_route),
        cmocka_unit_test(it_ends_at_what_would_be_held),
        cmocka_unit_test(it_ends_at_what_is_refused),
        cmocka_unit_test(it_ends_with_the_cells),
        cmocka_unit_test(a_cell_left_out_stays_as_it_is),
        cmocka_unit_test(one_value_waits_for_enter),
        cmocka_unit_test(what_is_typed_is_not_mixed_with_several),
        cmocka_unit_test(in_a_cell_of_words_it_is_text),
        cmocka_unit_test(a_paste_commands_nothing),
        cmocka_unit_test(more_than_a_paste_holds_is_refused_whole),
        cmocka_unit_test(a_paste_without_an_end_locks_nobody_in),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
