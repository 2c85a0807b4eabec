/* SPDX-License-Identifier: MIT */

/* The shelf, in the real program on a terminal. */
#define _GNU_SOURCE /* prlimit */

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "shelf_stage.h"

/* The words on screen that the tests rely on. */
#define SEEN_EMPTY   "begins the first instrument"
#define SEEN_PRESETS "which of these is it most like?"
#define SEEN_NAMING  "its name >"
#define SEEN_ARCHIVE "move to archive/ ?"

static void an_empty_shelf_leads_to_a_first_instrument(void **state)
{
    struct shelf_stage *stage = *state;
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    struct stat facts;

    terminal_expect(terminal, SEEN_EMPTY);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_PRESETS);
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_NAMING);
    terminal_type(terminal, "Tansy's No. 2");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, "Tansy's No. 2");
    assert_int_equal(stat(shelf_stage_path(stage, "tansy-s-no-2.ini"), &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0600);
    assert_int_equal(stat(stage->shelf, &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0700);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, SEEN_SHELF);
    shelf_stage_expect_in_hand(terminal, "Tansy's No. 2");
    terminal_expect(terminal, "classical");
    terminal_key(terminal, TERMINAL_ESCAPE); /* never quits */
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "To quit: *");
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
}

/* A new instrument from the first starting point; leaves it open. */
static void begin_steel_string(struct terminal *terminal, const char *name)
{
    terminal_expect(terminal, SEEN_PRESETS);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_NAMING);
    terminal_type(terminal, name);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, name);
}

static void press_on_intake(struct terminal *terminal, const char *menu)
{
    terminal_key(terminal, TERMINAL_BACKTAB);
    terminal_expect(terminal, "[Intake]");
    terminal_type(terminal, menu);
}

static void the_shop_keeps_targets_of_its_own(void **state)
{
    struct shelf_stage *stage = *state;
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    const char *shop = tree_path(stage->tree, "home/.config/sillet/shop.ini");

    terminal_key(terminal, TERMINAL_ENTER);
    begin_steel_string(terminal, "Tansy");
    terminal_type(terminal, "*");
    terminal_expect(terminal, "lower");
    terminal_type(terminal, "5"); /* the relief wanted, a thousandth less */
    terminal_expect(terminal, ".007");
    press_on_intake(terminal, "*4");
    terminal_expect(terminal, "Kept in shop.ini for steel-string: 6 targets");
    tree_assert_text(
        shop,
        "[shop]\nunits = inch\n\n[targets.steel-string]\nrelief = .007 in\naction_bass = 6/64 in\n"
        "action_treble = 4/64 in\nnut_gap_bass = .018 in\n"
        "nut_gap_treble = .012 in\ntouch = medium\n");
    terminal_key(terminal, TERMINAL_ESCAPE);
    shelf_stage_expect_in_hand(terminal, "Tansy");
    terminal_type(terminal, "*4");
    begin_steel_string(terminal, "Sorrel");
    terminal_expect(terminal, "6 of its targets, tolerances and steps are the shop's own");
    terminal_expect(terminal, ".007");
    press_on_intake(terminal, "*5");
    terminal_expect(terminal, "No targets of the shop's own any more");
    tree_assert_text(shop, "[shop]\nunits = inch\n\n");
    terminal_key(terminal, TERMINAL_ESCAPE);
    shelf_stage_expect_in_hand(terminal, "Sorrel");
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
}

/* Asked before the first one is filed: its lengths are round in the shop's own units. */
static void a_metric_shop_never_sees_inches(void **state)
{
    struct shelf_stage *stage = *state;
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    const char *shop = tree_path(stage->tree, "home/.config/sillet/shop.ini");
    char *text;
    size_t length;

    for (int i = 0; i < 3; i++)
        terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "the shop's gauges read in? 1 inches  2 millimetres >");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "1 for inches, 2 for millimetres.");
    assert_int_equal(access(shop, F_OK), -1);
    terminal_type(terminal, "2");
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, "metric");
    terminal_expect(terminal, "2.4 to 1.6 mm");
    tree_assert_text(shop, "[shop]\nunits = metric\n");
    terminal_type(terminal, "q");
    terminal_expect(terminal, "1 instrument on file");
    /* Known now: nothing is asked for the next one. */
    terminal_type(terminal, "*4");
    terminal_expect(terminal, SEEN_PRESETS);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_NAMING);
    terminal_type(terminal, "Sorrel");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, "metric");
    text = tree_read(shelf_stage_path(stage, "sorrel.ini"), &length);
    assert_non_null(text);
    assert_non_null(strstr(text, "action_bass = 2.4 mm"));
    free(text);
    terminal_type(terminal, "q");
    terminal_expect(terminal, "2 instruments on file");
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
}

/* That, and how its rod took .003 in out in a quarter turn. */
static void put_turned(const struct shelf_stage *stage, const char *file, const char *name)
{
    static const char turned[] = "\n[visit.1.pass.2]\nrod_turn = 1/4 turn\nrelief = .010 in\n";
    size_t length;

    shelf_stage_put(stage, file, name, "Anna");
    char *bytes = tree_read(shelf_stage_path(stage, file), &length);
    assert_non_null(bytes);
    char *whole = malloc(length + sizeof turned);
    assert_non_null(whole);
    snprintf(whole, length + sizeof turned, "%s%s", bytes, turned);
    tree_write_text(shelf_stage_path(stage, file), whole);
    free(whole);
    free(bytes);
}

static void open_by_name(struct terminal *terminal, const char *name)
{
    terminal_type(terminal, name);
    shelf_stage_expect_in_hand(terminal, name);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
}

/* Two say nothing about a third, which does not count for itself; three do about a fourth. */
static void necks_of_its_kind_tell_of_a_rod(void **state)
{
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "sorrel.ini", "Sorrel", "Anna");
    put_turned(stage, "tansy.ini", "Tansy");
    put_turned(stage, "yarrow.ini", "Yarrow");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 50, 80);
    open_by_name(terminal, "Sorrel");
    terminal_expect(terminal, "tighten 1/4 turn at a time, reading");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, SEEN_SHELF);
    put_turned(stage, "willow.ini", "Willow");
    terminal_key(terminal, TERMINAL_ESCAPE); /* lists all */
    terminal_expect(terminal, "Willow");
    open_by_name(terminal, "Sorrel");
    terminal_expect(terminal, "tighten 1/4 turn as its kind, then read");
    terminal_type(terminal, "?");
    terminal_expect(terminal, "(3 necks, the median)");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, SEEN_SHELF);
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
}

static void an_instrument_is_found_opened_and_left(void **state)
{
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "a.ini", "Parlour", "Marlo");
    shelf_stage_put(stage, "b.ini", "Bolt-on", "Tansy");
    shelf_stage_put(stage, "c.ini", "Bass", "Bram");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    terminal_expect(terminal, "3 instruments on file");
    terminal_expect(terminal, "moves open");
    terminal_type(terminal, "tan");
    terminal_expect(terminal, "1 of 3 instruments found");
    terminal_expect_gone(terminal, "Parlour");
    shelf_stage_expect_in_hand(terminal, "Bolt-on");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, "Shelf ");
    /* A reading that is taken there is on disk, and its mark on the shelf. */
    terminal_type(terminal, "q");
    terminal_expect(terminal, SEEN_SHELF);
    shelf_stage_expect_in_hand(terminal, "Bolt-on");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "Parlour");
    shelf_stage_expect_in_hand(terminal, "Bolt-on");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    /* Before the first leaf lies the shelf. */
    terminal_key(terminal, TERMINAL_PAGE_UP);
    terminal_expect(terminal, "[Intake]");
    terminal_key(terminal, TERMINAL_PAGE_UP);
    terminal_expect(terminal, SEEN_SHELF);
    terminal_type(terminal, "*");
    terminal_expect(terminal, SEEN_MENU);
    terminal_type(terminal, "q");
    shelf_stage_expect_exit(terminal, 0);
}

static void copies_and_the_archive(void **state)
{
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "a.ini", "Parlour", "Marlo");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    terminal_expect(terminal, "Parlour");
    terminal_type(terminal, "*");
    terminal_type(terminal, "f");
    terminal_expect(terminal, SEEN_NAMING);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_type(terminal, "q");
    terminal_expect(terminal, "2 instruments on file");
    shelf_stage_expect_in_hand(terminal, "Parlour, copy");
    assert_int_equal(access(shelf_stage_path(stage, "parlour-copy.ini"), F_OK), 0);
    terminal_type(terminal, "*");
    terminal_type(terminal, "g");
    terminal_expect(terminal, SEEN_ARCHIVE);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect_gone(terminal, SEEN_ARCHIVE);
    assert_int_equal(access(shelf_stage_path(stage, "parlour-copy.ini"), F_OK), 0);
    terminal_type(terminal, "*");
    terminal_type(terminal, "g");
    terminal_expect(terminal, SEEN_ARCHIVE);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "archive/parlour-copy.ini");
    terminal_expect(terminal, "1 instrument on file");
    assert_int_equal(access(shelf_stage_path(stage, "archive/parlour-copy.ini"), F_OK), 0);
    assert_int_equal(access(shelf_stage_path(stage, "a.ini"), F_OK), 0);
    terminal_key(terminal, TERMINAL_ESCAPE); /* never quits */
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "To quit: *");
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
}

static void what_others_file_and_edit_is_seen(void **state)
{
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "a.ini", "Parlour", "Marlo");
    tree_write(shelf_stage_path(stage, "z.ini"), "a\0b", 3);
    struct terminal *one = stage->terminal = shelf_stage_begin(stage, 30, 100);
    struct terminal *two = stage->other = shelf_stage_begin(stage, 24, 80);
    terminal_expect(one, "damaged");
    terminal_type(two, "parlour");
    terminal_key(two, TERMINAL_ENTER);
    terminal_expect(two, SEEN_BENCH);
    terminal_expect(one, "in use");
    shelf_stage_put(stage, "b.ini", "Bolt-on", "Tansy");
    terminal_expect(one, "3 instruments on file");
    terminal_type(two, "q");
    terminal_expect(two, SEEN_SHELF);
    terminal_expect_gone(one, "in use");
    /* One that cannot be read says so, and the shelf stays. */
    terminal_type(one, "z.ini");
    terminal_key(one, TERMINAL_ENTER);
    terminal_expect(one, "cannot be opened");
    terminal_key(one, TERMINAL_ESCAPE);
    terminal_expect(one, "Parlour");
    terminal_type(one, "\x03");
    shelf_stage_expect_exit(one, 0);
}

static void the_folder_may_vanish(void **state)
{
    struct shelf_stage *stage = *state;
    char elsewhere[400];
    int status = 0;

    shelf_stage_put(stage, "a.ini", "Parlour", "Marlo");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    terminal_expect(terminal, "Parlour");
    snprintf(elsewhere, sizeof elsewhere, "%s-gone", stage->shelf);
    assert_int_equal(rename(stage->shelf, elsewhere), 0);
    terminal_expect(terminal, SEEN_EMPTY);
    assert_int_equal(rename(elsewhere, stage->shelf), 0);
    terminal_expect(terminal, "Parlour");
    terminal_resize(terminal, 10, 40);
    terminal_expect(terminal, "needs 80x24");
    terminal_resize(terminal, 43, 132);
    terminal_expect(terminal, "Parlour");
    terminal_hang_up(terminal);
    assert_true(terminal_ended(terminal, TERMINAL_DEADLINE_MS, &status));
}

#define CASE(function)                                                                             \
    cmocka_unit_test_setup_teardown(function, shelf_stage_open_inch, shelf_stage_close)

int main(int count, char **words)
{
    const struct CMUnitTest tests[] = {
        CASE(an_empty_shelf_leads_to_a_first_instrument),
        CASE(the_shop_keeps_targets_of_its_own),
        cmocka_unit_test_setup_teardown(a_metric_shop_never_sees_inches, shelf_stage_open,
                                        shelf_stage_close),
        CASE(necks_of_its_kind_tell_of_a_rod),
        CASE(an_instrument_is_found_opened_and_left),
        CASE(copies_and_the_archive),
        CASE(what_others_file_and_edit_is_seen),
        CASE(the_folder_may_vanish),
    };

    if (!shelf_stage_arguments(count, words))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
