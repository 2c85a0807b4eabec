/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "session/app.h"
#include "session/app_place.h"
#include "bench_session.h"
#include "build_record.h"

/* --- the menu itself --- */

static void fill(struct menu *menu)
{
    menu_clear(menu);
    menu_add(menu, 30, ON_MORE(7), 'm');
    menu_add(menu, 11, ON_FIRST(1), 'u');
    menu_add(menu, 22, ON_LEAVES(2), 'B');
    menu_add(menu, 12, ON_FIRST(4), 'p');
    menu_add(menu, 21, ON_LEAVES(1), 'I');
}

static int press(struct menu *menu, const char *keys)
{
    int id = -1;

    for (; *keys; keys++)
        if (menu_handle(menu, (uint32_t)*keys, &id) > MENU_LACKS)
            return id;
    return -1;
}

static void a_digit_is_for_its_page_and_a_letter_for_all(void **state)
{
    static const struct {
        const char *keys;
        int id;
    } cases[] = {
        {"1", 11},  {"4", 12},    {"01", 21},   {"02", 22},  {"007", 30}, {".7", 30},
        {",7", 30}, {"0001", 11}, {"m", 30},    {"B", 22},   {"0u", 11},  {"2", -1},
        {"04", -1}, {"b", -1},    {"2004", -1}, {".01", 11},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct menu menu;

        fill(&menu);
        assert_int_equal(press(&menu, cases[i].keys), cases[i].id);
    }
}

/* A second point goes to the rest; without a rest it stays. */
static void a_second_point_goes_to_the_rest(void **state)
{
    struct menu menu;

    (void)state;
    fill(&menu);
    menu_add(&menu, 40, ON_REST(7), 'J');
    assert_int_equal(press(&menu, "..7"), 40);
    fill(&menu);
    menu_add(&menu, 40, ON_REST(7), 'J');
    assert_int_equal(press(&menu, ".7"), 30);
    fill(&menu);
    menu_add(&menu, 40, ON_REST(7), 'J');
    assert_int_equal(press(&menu, "...7"), 30);
    fill(&menu);
    assert_int_equal(press(&menu, "..7"), 30);
}

/* A page without items keeps its place, so that 0 and a digit mean the same at any time. */
static void an_empty_page_is_not_passed_over(void **state)
{
    struct menu menu;
    int id = -1;

    (void)state;
    fill(&menu);
    menu_keep_page(&menu, ON_VISIT(3));
    assert_int_equal(press(&menu, "00"), -1);
    assert_int_equal(menu_page(&menu), ON_VISIT(0) / 10);
    assert_int_equal(menu_handle(&menu, '7', &id), MENU_LACKS);
    fill(&menu);
    menu_keep_page(&menu, ON_VISIT(3));
    assert_int_equal(press(&menu, "0007"), 30);
    fill(&menu);
    menu_keep_page(&menu, ON_VISIT(3));
    assert_int_equal(press(&menu, "00"), -1);
    assert_int_equal(menu_handle(&menu, SILLET_KEY_DOWN, &id), MENU_STAYS);
    assert_int_equal(menu.items[menu.at].id, 30);
    (void)menu_handle(&menu, SILLET_KEY_LEFT, &id);
    assert_int_equal(menu.at, -1);
    assert_int_equal(menu_handle(&menu, SILLET_KEY_ENTER, &id), MENU_CLOSES);
}

static enum menu_answer answer(uint32_t key)
{
    struct menu menu;
    int id;

    fill(&menu);
    return menu_handle(&menu, key, &id);
}

static void what_is_no_item_closes_passes_or_does_nothing(void **state)
{
    (void)state;
    assert_int_equal(answer('*'), MENU_CLOSES);
    assert_int_equal(answer(SILLET_KEY_ESCAPE), MENU_CLOSES);
    assert_int_equal(answer(SILLET_KEY_BACKSPACE), MENU_CLOSES);
    assert_int_equal(answer('9'), MENU_LACKS);
    assert_int_equal(answer(' '), MENU_STAYS);
    assert_int_equal(answer(SILLET_KEY_UNKNOWN), MENU_STAYS);
    assert_int_equal(answer(SILLET_KEY_TAB), MENU_PASSES);
    assert_int_equal(answer(SILLET_KEY_CTRL('c')), MENU_PASSES);
    assert_int_equal(answer(SILLET_KEY_F1), MENU_PASSES);
}

static void arrows_and_enter_do_as_well(void **state)
{
    struct menu menu;
    int id = -1;

    (void)state;
    fill(&menu);
    assert_int_equal(menu_handle(&menu, SILLET_KEY_DOWN, &id), MENU_STAYS);
    assert_int_equal(menu.items[menu.at].id, 11);
    assert_int_equal(menu_handle(&menu, SILLET_KEY_RIGHT, &id), MENU_STAYS);
    assert_int_equal(menu.items[menu.at].id, 21);
    (void)menu_handle(&menu, SILLET_KEY_LEFT, &id);
    assert_int_equal(menu.items[menu.at].id, 11);
    (void)menu_handle(&menu, SILLET_KEY_UP, &id);
    assert_int_equal(menu.items[menu.at].id, 30);
    (void)menu_handle(&menu, SILLET_KEY_DOWN, &id);
    assert_int_equal(menu_handle(&menu, SILLET_KEY_ENTER, &id), MENU_TAKES);
    assert_int_equal(id, 11);
}

/* Opened, or turned to a page, it has nothing in hand that Enter could do. */
static void enter_alone_does_nothing(void **state)
{
    static const uint32_t first[] = {0, '0', '.', SILLET_KEY_RIGHT, SILLET_KEY_PAGE_UP};
    static const int firsts[] = {11, 21, 30, 21, 30};

    (void)state;
    for (size_t i = 0; i < sizeof first / sizeof first[0]; i++)
        for (uint32_t step = SILLET_KEY_UP; step <= SILLET_KEY_DOWN; step++) {
            struct menu menu;
            int id = -1;

            fill(&menu);
            if (first[i])
                assert_int_equal(menu_handle(&menu, first[i], &id), MENU_STAYS);
            struct menu other = menu;
            assert_int_equal(menu_handle(&other, SILLET_KEY_ENTER, &id), MENU_CLOSES);
            assert_int_equal(id, -1);
            assert_int_equal(menu_handle(&menu, step, &id), MENU_STAYS);
            assert_int_equal(menu_handle(&menu, SILLET_KEY_ENTER, &id), MENU_TAKES);
            assert_int_equal(id, firsts[i]);
        }
}

/* --- in a session --- */

static const char one_pass[] = "board scale = 25.5 in\nboard strings = 6\nboard frets = 22\n"
                               "board join_fret = 16\nvisit.1.pass.1 relief = .013 in\n";

#define HANDED_OVER                                                                                \
    "board strings = 6\nvisit.1 date = 2026-03-01\nvisit.1 handed_over = 2026-03-01\n"            \
    "visit.1.pass.1 relief = .013 in\nvisit.1.pass.2 relief = .010 in\n"

static const struct {
    const char *lines;
    const char *keys; /* on the leaf, before the menu is opened */
} states[] = {
    {"", ""},
    {build_record_full, ""},
    {build_record_full, "{Right}{Right}"},
    {build_record_full, "{Down}1{Enter}"},
    {build_record_full, "1"},
    {build_record_full, "*1{Esc}{End}"},
    {build_record_full, "{Down}1{Enter}*1"},
    {build_record_full, "*4"},
    {build_record_full, "*4*5*7"},
    {one_pass, "*4"},
    {one_pass, "{End}"},
    {one_pass, "*.4"},
    {one_pass, "*7"},
};
enum { STATES = sizeof states / sizeof states[0] };

static struct app *open_state(int state, int leaf, bool read_only)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    assert_non_null(app);
    build_record(&record, states[state].lines);
    bench_start_record(app, &record, false, read_only);
    app_take_leaf(app, (enum leaf)leaf);
    bench_press(app, states[state].keys);
    return app;
}

static void expect_no_double(const struct menu *menu)
{
    for (int a = 0; a < menu->count; a++)
        for (int b = a + 1; b < menu->count; b++) {
            const struct menu_item *one = &menu->items[a], *other = &menu->items[b];

            assert_true(one->page != other->page || one->digit != other->digit);
            if (one->letter == other->letter)
                fail_msg("%s and %s have one letter", one->words, other->words);
        }
}

/* Given from the menu, nothing that it lists is refused. */
static void expect_done(int state, int leaf, bool read_only, int item)
{
    struct app *app = open_state(state, leaf, read_only);

    if (app->overlay != OVERLAY_MENU)
        bench_press(app, "*");
    const struct menu_item given = app->menu.items[item];
    app->menu.at = item;
    bench_key(app, SILLET_KEY_ENTER);
    if (app->tone == TONE_WARNING)
        fail_msg("state %d, leaf %d: \"%s\" is listed, but: %s", state, leaf, given.words,
                 app->message);
    bench_close(app);
}

static void check_menu(int state, int leaf, bool read_only)
{
    struct app *app = open_state(state, leaf, read_only);

    if (app->overlay != OVERLAY_MENU)
        bench_press(app, "*");
    const int count = app->menu.count;
    if (app->overlay == OVERLAY_MENU) {
        assert_true(count > 0);
        expect_no_double(&app->menu);
    }
    const bool open = app->overlay == OVERLAY_MENU;
    bench_close(app);
    for (int item = 0; open && item < count; item++)
        expect_done(state, leaf, read_only, item);
}

static void it_lists_what_can_be_done_and_nothing_twice(void **state)
{
    (void)state;
    for (int i = 0; i < STATES; i++)
        for (int leaf = 0; leaf < LEAF_COUNT_; leaf++)
            check_menu(i, leaf, false);
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++)
        check_menu(1, leaf, true);
}

static const struct menu_item *find_item(struct app *app, enum command_id id)
{
    bench_press(app, "*");
    for (int i = 0; i < app->menu.count; i++)
        if (app->menu.items[i].id == (int)id)
            return &app->menu.items[i];
    return NULL;
}

static void undo_says_what_it_takes_back(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_BENCH);

    (void)state;
    assert_null(find_item(app, COMMAND_UNDO));
    bench_press(app, "{Esc}{Down}.019{Enter}");
    assert_string_equal(find_item(app, COMMAND_UNDO)->words, "undo: nut gap, string 6");
    bench_press(app, "1");
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.6"), ".030 in");
    assert_string_equal(find_item(app, COMMAND_REDO)->words, "redo: nut gap, string 6");
    bench_press(app, "*.02");
    assert_string_equal(find_item(app, COMMAND_UNDO)->words, "undo: drop what is typed");
    assert_null(find_item(app, COMMAND_PASS));
    bench_press(app, "{Esc}*1");
    assert_false(app_is_typing(app));
    assert_string_equal(bench_text(app, "visit.1.pass.1 nut_gap.6"), ".030 in");
    bench_close(app);
}

static void it_names_what_it_takes_out(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_BENCH);

    (void)state;
    assert_string_equal(find_item(app, COMMAND_CLEAR)->words, "take out: relief at fret 6, .013");
    bench_press(app, "{Enter}");
    assert_int_equal(app->overlay, OVERLAY_NONE);
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".013 in");
    /* Enter went on, so it is the next cell's. */
    bench_press(app, "14{Enter}");
    assert_string_equal(find_item(app, COMMAND_CLEAR)->words, "take out: nut gap, string 6, .030");
    bench_press(app, "2");
    assert_string_equal(app->message, "nut gap, string 6: .030 taken out; * 1 brings it back.");
    assert_null(bench_text(app, "visit.1.pass.1 nut_gap.6"));
    bench_close(app);
}

static void there_is_no_done_where_nothing_is_to_be_done(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_WORK);

    (void)state;
    assert_string_equal(find_item(app, COMMAND_WORK_DONE)->words, "the move is done: rod");
    bench_press(app, "4{Enter}");
    assert_int_equal(record_last_work(&app->record, 1), 1);
    assert_null(find_item(app, COMMAND_WORK_DONE));
    bench_close(app);
}

static void every_leaf_has_its_digit_and_its_key(void **state)
{
    (void)state;
    for (int from = 0; from < LEAF_COUNT_; from++)
        for (int to = 0; to < LEAF_COUNT_; to++) {
            const char digit[] = {'*', '0', (char)('1' + to), '\0'};
            struct app *app = bench_open(build_record_full, "", (enum leaf)from);

            bench_press(app, digit);
            assert_int_equal(app->leaf, to);
            bench_press(app, "*");
            app_take_leaf(app, (enum leaf)from);
            bench_key(app, SILLET_KEY_F1 + (uint32_t)to);
            assert_int_equal(app->leaf, to);
            assert_int_equal(app->overlay, OVERLAY_NONE);
            bench_close(app);
        }
}

/* A digit of something that cannot be done now closes the menu and says why, so that the next
 * digits do not seem to be lost in it; they are for the cell. */
static void a_digit_that_is_not_listed_says_why(void **state)
{
    static const struct {
        const char *lines, *keys, *said;
        enum leaf leaf;
    } cases[] = {
        {build_record_full, "*1", "Nothing to undo", LEAF_BENCH},
        {build_record_full, "*.1", "Nothing to redo", LEAF_BENCH},
        {build_record_full, "*.2", "There is no earlier pass", LEAF_BENCH},
        {one_pass, "*4*4", "This pass has no reading yet", LEAF_BENCH},
        /* Nothing of its page can be done: the digit does not become that of another page. */
        {HANDED_OVER, "*003", "It was handed over already", LEAF_BENCH},
        {HANDED_OVER, "*003", "It was handed over already", LEAF_STRINGS},
        {one_pass, "{Down}*2", "take out", LEAF_BENCH},
        {one_pass, "*5", "That digit does nothing here", LEAF_HISTORY},
        {build_record_full, "14*3", "Enter takes what is typed", LEAF_BENCH},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = bench_open(cases[i].lines, "", cases[i].leaf);

        assert_false(bench_press(app, cases[i].keys).save);
        assert_int_equal(app->overlay, OVERLAY_NONE);
        assert_int_equal(app->tone, TONE_WARNING);
        if (!strstr(app->message, cases[i].said))
            fail_msg("%s: \"%s\"", cases[i].keys, app->message);
        bench_close(app);
    }
}

/* Off the menu too: nobody presses F7 to close a text. */
static void a_leaf_key_turns_through_an_explanation(void **state)
{
    (void)state;
    for (int to = 0; to < LEAF_COUNT_; to++)
        for (const char *open = "?h"; *open; open++) {
            struct app *app = bench_open(build_record_full, "", LEAF_BENCH);

            bench_key(app, (uint32_t)*open);
            bench_key(app, SILLET_KEY_F1 + (uint32_t)to);
            assert_int_equal(app->overlay, OVERLAY_NONE);
            assert_int_equal(app->leaf, to);
            bench_close(app);
        }
}

static void it_opens_over_a_number_and_is_a_character_of_a_text(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_INTAKE);

    (void)state;
    bench_press(app, "{Down}star*");
    assert_int_equal(app->overlay, OVERLAY_NONE);
    assert_string_equal(app->entry.text, "star*");
    bench_press(app, "{Esc}{Down}{Down}{Down}4*");
    assert_int_equal(app->overlay, OVERLAY_MENU);
    bench_press(app, "*6{Enter}");
    assert_string_equal(bench_text(app, "visit.1 humidity"), "46 %");
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_digit_is_for_its_page_and_a_letter_for_all),
        cmocka_unit_test(a_second_point_goes_to_the_rest),
        cmocka_unit_test(an_empty_page_is_not_passed_over),
        cmocka_unit_test(what_is_no_item_closes_passes_or_does_nothing),
        cmocka_unit_test(arrows_and_enter_do_as_well),
        cmocka_unit_test(enter_alone_does_nothing),
        cmocka_unit_test(it_lists_what_can_be_done_and_nothing_twice),
        cmocka_unit_test(undo_says_what_it_takes_back),
        cmocka_unit_test(it_names_what_it_takes_out),
        cmocka_unit_test(there_is_no_done_where_nothing_is_to_be_done),
        cmocka_unit_test(every_leaf_has_its_digit_and_its_key),
        cmocka_unit_test(a_digit_that_is_not_listed_says_why),
        cmocka_unit_test(a_leaf_key_turns_through_an_explanation),
        cmocka_unit_test(it_opens_over_a_number_and_is_a_character_of_a_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
