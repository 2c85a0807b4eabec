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

#include "terminal.h"
#include "tree.h"

/* The words on screen that the tests rely on. */
#define SEEN_SHELF   "[Shelf]"
#define SEEN_BENCH   "[Bench]"
#define SEEN_EMPTY   "begins the first instrument"
#define SEEN_PRESETS "which of these is it most like?"
#define SEEN_NAMING  "its name >"
#define SEEN_ARCHIVE "move to archive/ ?"
#define SEEN_MENU    "a new instrument"

static const char *program, *data_folder;

struct stage {
    struct tree *tree;
    char home[300], shelf[340];
    struct terminal *terminal, *other;
};

static int open_stage(void **state)
{
    struct stage *stage = calloc(1, sizeof *stage);
    void *tree = NULL;

    if (!stage || tree_setup(&tree) != 0)
        return -1;
    stage->tree = tree;
    snprintf(stage->home, sizeof stage->home, "%s/home", stage->tree->folder);
    snprintf(stage->shelf, sizeof stage->shelf, "%s/shelf", stage->tree->folder);
    *state = stage;
    return mkdir(stage->home, 0700);
}

/* Of a shop that has said its units. */
static int open_inch_stage(void **state)
{
    if (open_stage(state) != 0)
        return -1;
    const struct stage *stage = *state;

    if (mkdir(tree_path(stage->tree, "home/.config"), 0700) != 0 ||
        mkdir(tree_path(stage->tree, "home/.config/sillet"), 0700) != 0)
        return -1;
    tree_write_text(tree_path(stage->tree, "home/.config/sillet/shop.ini"),
                    "[shop]\nunits = inch\n");
    return 0;
}

static int close_stage(void **state)
{
    struct stage *stage = *state;
    void *tree = stage->tree;

    terminal_stop(stage->other);
    terminal_stop(stage->terminal);
    free(stage);
    return tree_teardown(&tree);
}

static struct terminal *begin(const struct stage *stage, int rows, int columns)
{
    const char *const argv[] = {program, "--shelf", stage->shelf, NULL};
    const struct terminal_setup setup = {
        .argv = argv, .home = stage->home, .rows = rows, .columns = columns};
    struct terminal *terminal = terminal_start(&setup);

    terminal_expect(terminal, SEEN_SHELF);
    return terminal;
}

static const char *path_of(const struct stage *stage, const char *file)
{
    char name[200];

    snprintf(name, sizeof name, "shelf/%s", file);
    return tree_path(stage->tree, name);
}

/* A profile on the shelf: the worked example under a name and an owner. */
static void put(const struct stage *stage, const char *file, const char *name, const char *owner)
{
    char from[1024], text[300];
    size_t length;

    (void)mkdir(stage->shelf, 0700);
    snprintf(from, sizeof from, "%s/worked-example.ini", data_folder);
    char *bytes = tree_read(from, &length);
    assert_non_null(bytes);
    char *whole = malloc(length + sizeof text);
    assert_non_null(whole);
    snprintf(text, sizeof text, "\n[instrument]\nname = %s\nowner = %s\n", name, owner);
    snprintf(whole, length + sizeof text, "%s%s", bytes, text);
    tree_write_text(path_of(stage, file), whole);
    free(whole);
    free(bytes);
}

/* Another version beside that, as a save that met somebody else's change leaves one. */
static void put_beside(const struct stage *stage, const char *file)
{
    char beside[100];

    put(stage, "other.ini", "Nutmeg Parlour", "Hedda Quill");
    snprintf(beside, sizeof beside, "%s.conflict", file);
    assert_int_equal(rename(path_of(stage, "other.ini"), path_of(stage, beside)), 0);
}

static void expect_exit(struct terminal *terminal, int code)
{
    const int status = terminal_expect_end(terminal);

    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), code);
    assert_true(terminal_modes_restored(terminal));
}

/* The row of the one in hand begins with a mark. */
static void expect_in_hand(struct terminal *terminal, const char *name)
{
    char wanted[100];

    snprintf(wanted, sizeof wanted, ">%s", name);
    terminal_expect(terminal, wanted);
}

static void an_empty_shelf_leads_to_a_first_instrument(void **state)
{
    struct stage *stage = *state;
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
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
    assert_int_equal(stat(path_of(stage, "tansy-s-no-2.ini"), &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0600);
    assert_int_equal(stat(stage->shelf, &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0700);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, SEEN_SHELF);
    expect_in_hand(terminal, "Tansy's No. 2");
    terminal_expect(terminal, "classical");
    terminal_key(terminal, TERMINAL_ESCAPE); /* never quits */
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "To quit: *");
    terminal_type(terminal, "*q");
    expect_exit(terminal, 0);
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
    struct stage *stage = *state;
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
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
    expect_in_hand(terminal, "Tansy");
    terminal_type(terminal, "*4");
    begin_steel_string(terminal, "Sorrel");
    terminal_expect(terminal, "6 of its targets, tolerances and steps are the shop's own");
    terminal_expect(terminal, ".007");
    press_on_intake(terminal, "*5");
    terminal_expect(terminal, "No targets of the shop's own any more");
    tree_assert_text(shop, "[shop]\nunits = inch\n\n");
    terminal_key(terminal, TERMINAL_ESCAPE);
    expect_in_hand(terminal, "Sorrel");
    terminal_type(terminal, "*q");
    expect_exit(terminal, 0);
}

/* Asked before the first one is filed: its lengths are round in the shop's own units. */
static void a_metric_shop_never_sees_inches(void **state)
{
    struct stage *stage = *state;
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
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
    text = tree_read(path_of(stage, "sorrel.ini"), &length);
    assert_non_null(text);
    assert_non_null(strstr(text, "action_bass = 2.4 mm"));
    free(text);
    terminal_type(terminal, "q");
    terminal_expect(terminal, "2 instruments on file");
    terminal_type(terminal, "*q");
    expect_exit(terminal, 0);
}

/* That, and how its rod took .003 in out in a quarter turn. */
static void put_turned(const struct stage *stage, const char *file, const char *name)
{
    static const char turned[] = "\n[visit.1.pass.2]\nrod_turn = 1/4 turn\nrelief = .010 in\n";
    size_t length;

    put(stage, file, name, "Anna");
    char *bytes = tree_read(path_of(stage, file), &length);
    assert_non_null(bytes);
    char *whole = malloc(length + sizeof turned);
    assert_non_null(whole);
    snprintf(whole, length + sizeof turned, "%s%s", bytes, turned);
    tree_write_text(path_of(stage, file), whole);
    free(whole);
    free(bytes);
}

static void open_by_name(struct terminal *terminal, const char *name)
{
    terminal_type(terminal, name);
    expect_in_hand(terminal, name);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
}

/* Two say nothing about a third, which does not count for itself; three do about a fourth. */
static void necks_of_its_kind_tell_of_a_rod(void **state)
{
    struct stage *stage = *state;

    put(stage, "sorrel.ini", "Sorrel", "Anna");
    put_turned(stage, "tansy.ini", "Tansy");
    put_turned(stage, "yarrow.ini", "Yarrow");
    struct terminal *terminal = stage->terminal = begin(stage, 50, 80);
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
    expect_exit(terminal, 0);
}

static void an_instrument_is_found_opened_and_left(void **state)
{
    struct stage *stage = *state;

    put(stage, "a.ini", "Parlour", "Marlo");
    put(stage, "b.ini", "Bolt-on", "Tansy");
    put(stage, "c.ini", "Bass", "Bram");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
    terminal_expect(terminal, "3 instruments on file");
    terminal_expect(terminal, "moves open");
    terminal_type(terminal, "tan");
    terminal_expect(terminal, "1 of 3 instruments found");
    terminal_expect_gone(terminal, "Parlour");
    expect_in_hand(terminal, "Bolt-on");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, "Shelf ");
    /* A reading that is taken there is on disk, and its mark on the shelf. */
    terminal_type(terminal, "q");
    terminal_expect(terminal, SEEN_SHELF);
    expect_in_hand(terminal, "Bolt-on");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "Parlour");
    expect_in_hand(terminal, "Bolt-on");
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
    expect_exit(terminal, 0);
}

static void copies_and_the_archive(void **state)
{
    struct stage *stage = *state;

    put(stage, "a.ini", "Parlour", "Marlo");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
    terminal_expect(terminal, "Parlour");
    terminal_type(terminal, "*");
    terminal_type(terminal, "f");
    terminal_expect(terminal, SEEN_NAMING);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_type(terminal, "q");
    terminal_expect(terminal, "2 instruments on file");
    expect_in_hand(terminal, "Parlour, copy");
    assert_int_equal(access(path_of(stage, "parlour-copy.ini"), F_OK), 0);
    terminal_type(terminal, "*");
    terminal_type(terminal, "g");
    terminal_expect(terminal, SEEN_ARCHIVE);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect_gone(terminal, SEEN_ARCHIVE);
    assert_int_equal(access(path_of(stage, "parlour-copy.ini"), F_OK), 0);
    terminal_type(terminal, "*");
    terminal_type(terminal, "g");
    terminal_expect(terminal, SEEN_ARCHIVE);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "archive/parlour-copy.ini");
    terminal_expect(terminal, "1 instrument on file");
    assert_int_equal(access(path_of(stage, "archive/parlour-copy.ini"), F_OK), 0);
    assert_int_equal(access(path_of(stage, "a.ini"), F_OK), 0);
    terminal_key(terminal, TERMINAL_ESCAPE); /* never quits */
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "To quit: *");
    terminal_type(terminal, "*q");
    expect_exit(terminal, 0);
}

/* One reading in a session of its own. */
static void take_reading(struct terminal *terminal, const char *relief)
{
    char cell[40];

    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, "relief at fret 6 >");
    terminal_type(terminal, relief);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "kept ");
    snprintf(cell, sizeof cell, "in   %s", relief);
    terminal_expect(terminal, cell);
    terminal_type(terminal, "q");
    terminal_expect(terminal, SEEN_SHELF);
}

static void open_earlier(struct terminal *terminal)
{
    terminal_type(terminal, "*");
    terminal_expect(terminal, SEEN_MENU);
    terminal_type(terminal, "e");
}

static void earlier_states_are_looked_at_and_brought_back(void **state)
{
    struct stage *stage = *state;

    put(stage, "a.ini", "Parlour", "Marlo");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
    terminal_expect(terminal, "Parlour");
    open_earlier(terminal);
    terminal_expect(terminal, "No earlier state yet");
    take_reading(terminal, ".017");
    take_reading(terminal, ".009");
    open_earlier(terminal);
    terminal_expect(terminal, "earlier state of a.ini");
    terminal_expect(terminal, "different now: relief");
    /* The newest: the relief that the second session found. It cannot be changed. */
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "reading only");
    terminal_expect(terminal, "in   .017");
    terminal_type(terminal, ".001");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "open for reading only");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_type(terminal, "q");
    terminal_expect(terminal, "earlier state of a.ini");
    terminal_type(terminal, "+");
    terminal_expect(terminal, "Back as it was at ");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "in   .017");
    terminal_type(terminal, "q");
    terminal_expect(terminal, SEEN_SHELF);
    terminal_key(terminal, TERMINAL_ESCAPE); /* never quits */
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "To quit: *");
    terminal_type(terminal, "*q");
    expect_exit(terminal, 0);
}

/* What cannot be kept first is not replaced, and neither is what is the same. */
static void nothing_is_brought_back_over_what_cannot_be_kept(void **state)
{
    struct stage *stage = *state;
    struct rlimit limit;
    size_t length;

    put(stage, "a.ini", "Parlour", "Marlo");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
    terminal_expect(terminal, "Parlour");
    take_reading(terminal, ".017");
    take_reading(terminal, ".009");
    char *present = tree_read(path_of(stage, "a.ini"), &length);
    open_earlier(terminal);
    terminal_expect(terminal, "earlier state of a.ini");
    assert_int_equal(prlimit(terminal_pid(terminal), RLIMIT_FSIZE, NULL, &limit), 0);
    const rlim_t before = limit.rlim_cur;
    /* Room for all but the last bytes of it. */
    limit.rlim_cur = length - 4;
    assert_int_equal(prlimit(terminal_pid(terminal), RLIMIT_FSIZE, &limit, NULL), 0);
    terminal_type(terminal, "+");
    terminal_expect(terminal, "Nothing was changed");
    terminal_expect(terminal, "cannot be kept first");
    tree_assert_holds(path_of(stage, "a.ini"), present, length);
    limit.rlim_cur = before;
    assert_int_equal(prlimit(terminal_pid(terminal), RLIMIT_FSIZE, &limit, NULL), 0);
    open_earlier(terminal);
    terminal_expect(terminal, "earlier state of a.ini");
    terminal_type(terminal, "+");
    terminal_expect(terminal, "Back as it was at ");
    open_earlier(terminal);
    terminal_expect(terminal, "earlier state of a.ini");
    terminal_key(terminal, TERMINAL_DOWN); /* below what it replaced: the one it is */
    terminal_type(terminal, "+");
    terminal_expect(terminal, "already; nothing was changed");
    terminal_type(terminal, "*q");
    expect_exit(terminal, 0);
    free(present);
}

static void what_others_file_and_edit_is_seen(void **state)
{
    struct stage *stage = *state;

    put(stage, "a.ini", "Parlour", "Marlo");
    tree_write(path_of(stage, "z.ini"), "a\0b", 3);
    struct terminal *one = stage->terminal = begin(stage, 30, 100);
    struct terminal *two = stage->other = begin(stage, 24, 80);
    terminal_expect(one, "damaged");
    terminal_type(two, "parlour");
    terminal_key(two, TERMINAL_ENTER);
    terminal_expect(two, SEEN_BENCH);
    terminal_expect(one, "in use");
    put(stage, "b.ini", "Bolt-on", "Tansy");
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
    expect_exit(one, 0);
}

static void the_folder_may_vanish(void **state)
{
    struct stage *stage = *state;
    char elsewhere[400];
    int status = 0;

    put(stage, "a.ini", "Parlour", "Marlo");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
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

#define CASE(function) cmocka_unit_test_setup_teardown(function, open_inch_stage, close_stage)

static struct terminal *list_versions(struct stage *stage)
{
    put(stage, "a.ini", "Parlour", "Hedda Quill");
    put_beside(stage, "a.ini");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);

    terminal_expect(terminal, "versions");
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "Other versions beside it");
    terminal_expect(terminal, "conflict: visit 1, 1 pass; 1 entry different now");
    return terminal;
}

static void a_version_beside_it_is_put_away(void **state)
{
    struct stage *stage = *state;
    struct terminal *terminal = list_versions(stage);

    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Nutmeg Parlour");
    terminal_type(terminal, "q");
    terminal_expect(terminal, "Other versions beside it");
    terminal_type(terminal, "p");
    terminal_expect(terminal, "It is an earlier state now");
    terminal_expect(terminal, "Earlier states, each");
    terminal_type(terminal, "\x1b");
    terminal_expect_gone(terminal, "versions");
    terminal_expect(terminal, "Parlour");
    assert_int_not_equal(access(path_of(stage, "a.ini.conflict"), F_OK), 0);
    assert_int_equal(tree_count(path_of(stage, ".generations/a.ini"), ""), 1);
}

/* What it replaces stays as an earlier state, and so does the version as it was. */
static void a_version_beside_it_is_brought_back(void **state)
{
    struct stage *stage = *state;
    struct terminal *terminal = list_versions(stage);

    terminal_type(terminal, "b");
    terminal_expect(terminal, "Back as it was at");
    terminal_expect(terminal, "Nutmeg Parlour");
    terminal_expect_gone(terminal, "versions");
    assert_int_not_equal(access(path_of(stage, "a.ini.conflict"), F_OK), 0);
    assert_int_equal(tree_count(path_of(stage, ".generations/a.ini"), ""), 2);
}

static void rewrite(const struct stage *stage, const char *file, const char *old, const char *new)
{
    size_t length;
    char *bytes = tree_read(path_of(stage, file), &length), *at = bytes ? strstr(bytes, old) : NULL;
    char *whole = malloc(length + strlen(new) + 1);

    assert_non_null(at);
    assert_non_null(whole);
    sprintf(whole, "%.*s%s%s", (int)(at - bytes), bytes, new, at + strlen(old));
    tree_write_text(path_of(stage, file), whole);
    free(whole);
    free(bytes);
}

/* Three cells that differ, one of them with a text that would steer the terminal: seven keys from
 * the shelf to one record. */
static struct terminal *put_three_together(struct stage *stage, int rows, int columns)
{
    put(stage, "a.ini", "Parlour", "Hedda Quill");
    put_beside(stage, "a.ini");
    rewrite(stage, "a.ini.conflict", "relief = .013 in", "relief = .014 in");
    rewrite(stage, "a.ini.conflict", "owner = Hedda Quill", "owner = \x1b[31mHedda\x07 Quill");
    struct terminal *terminal = stage->terminal = begin(stage, rows, columns);

    terminal_expect(terminal, "versions");
    terminal_type(terminal, "*e/");
    terminal_expect(terminal, "3 differ, 3 open; no earlier state is known");
    terminal_expect(terminal, "right: conflict");
    terminal_expect(terminal, ".013 in");
    terminal_expect(terminal, ".014 in");
    return terminal;
}

static void two_versions_are_put_together(void **state)
{
    struct stage *stage = *state;
    struct terminal *terminal = put_three_together(stage, 24, 80);
    size_t length;

    /* Nothing is saved while anything is open. */
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Not yet: where a ? stands");
    terminal_type(terminal, "4");
    terminal_expect(terminal, "3 differ, 2 open");
    terminal_expect(terminal, "[Parlour]");
    terminal_key(terminal, TERMINAL_RIGHT);
    terminal_expect(terminal, "3 differ, 1 open");
    terminal_type(terminal, "6");
    terminal_expect(terminal, "Nothing is open any more: Enter saves it.");
    terminal_expect(terminal, "[.014 in]");
    assert_int_equal(access(path_of(stage, "a.ini.conflict"), F_OK), 0);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Put together. Both are kept as earlier states");
    terminal_expect_gone(terminal, "versions");
    char *bytes = tree_read(path_of(stage, "a.ini"), &length);
    assert_non_null(bytes);
    assert_non_null(strstr(bytes, "name = Parlour"));
    assert_non_null(strstr(bytes, "relief = .014 in"));
    assert_non_null(strstr(bytes, "%1B[31mHedda%07 Quill"));
    free(bytes);
    assert_int_not_equal(access(path_of(stage, "a.ini.conflict"), F_OK), 0);
    assert_int_equal(tree_count(path_of(stage, ".generations/a.ini"), ""), 2);
    /* The newest earlier state is what the file was; back to it, it is undone. */
    terminal_type(terminal, "*e+");
    terminal_expect(terminal, "Back as it was at");
    bytes = tree_read(path_of(stage, "a.ini"), &length);
    assert_non_null(bytes);
    assert_non_null(strstr(bytes, "relief = .013 in"));
    free(bytes);
    terminal_type(terminal, "*q");
    expect_exit(terminal, 0);
}

/* Of three, one after the other. */
static void a_third_version_is_not_forgotten(void **state)
{
    struct stage *stage = *state;
    struct terminal *terminal;

    put(stage, "a.ini", "Parlour", "Hedda Quill");
    put_beside(stage, "a.ini");
    put(stage, "other.ini", "Sorrel Parlour", "Hedda Quill");
    assert_int_equal(rename(path_of(stage, "other.ini"), path_of(stage, "a.ini.conflict.2")), 0);
    terminal = stage->terminal = begin(stage, 24, 80);
    terminal_type(terminal, "*e/");
    terminal_expect(terminal, "1 differs, 1 open");
    terminal_type(terminal, "6");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Put together. Another version still lies beside it");
    terminal_expect(terminal, "Nutmeg Parlour");
    terminal_type(terminal, "*e/");
    terminal_expect(terminal, "right: conflict.2");
    terminal_expect(terminal, "1 differs, ");
    terminal_type(terminal, "6");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Put together. Both are kept as earlier states");
    terminal_expect(terminal, "Sorrel Parlour");
    terminal_expect_gone(terminal, "versions");
    assert_int_equal(tree_count(path_of(stage, ".generations/a.ini"), ""), 4);
}

/* Left alone, in a terminal that knows no UTF-8 too: both stay, and so does whoever has it open. */
static void nothing_is_put_together_unasked(void **state)
{
    struct stage *stage = *state;
    struct terminal *terminal = put_three_together(stage, 43, 132);

    terminal_type(terminal, "9");
    terminal_expect(terminal, "Nothing is open any more");
    terminal_type(terminal, "x"); /* a slip drops nothing */
    terminal_type(terminal, "5");
    terminal_expect(terminal, "Both can be taken of two notes only");
    /* Another bench sees who has it. */
    struct terminal *other = stage->other = begin(stage, 30, 100);
    terminal_expect(other, "in use");
    terminal_type(other, "*e/");
    terminal_expect(other, "Not now: it is in use by");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect_gone(terminal, "putting together");
    assert_int_equal(access(path_of(stage, "a.ini.conflict"), F_OK), 0);
    assert_int_not_equal(access(path_of(stage, ".generations"), F_OK), 0);
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "Other versions beside it");
    terminal_type(terminal, "/");
    terminal_expect(terminal, "3 differ, 3 open");
    terminal_type(terminal, "\x03");
    expect_exit(terminal, 0);
    assert_int_equal(tree_count(stage->shelf, ".lock"), 0);
}

/* And on the bench, whoever opens it. */
static void a_version_beside_it_is_said_on_the_bench(void **state)
{
    struct stage *stage = *state;

    put(stage, "a.ini", "Parlour", "Hedda Quill");
    put_beside(stage, "a.ini");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Another version lies beside it; on the shelf, * then e");
}

/* What holds no profile can be no earlier state of one: who reads that knows what to do. */
static void a_version_that_is_none_is_for_the_tech_to_remove(void **state)
{
    struct stage *stage = *state;

    put(stage, "a.ini", "Parlour", "Hedda Quill");
    tree_write_text(path_of(stage, "a.ini.conflict"), "");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "Other versions beside it");
    terminal_type(terminal, "p");
    terminal_expect(terminal, "it holds no profile. Remove that file, or rename it, yourself.");
    tree_assert_text(path_of(stage, "a.ini.conflict"), "");
}

static void closed_earlier_states_are_not_none(void **state)
{
    struct stage *stage = *state;

    put(stage, "a.ini", "Parlour", "Hedda Quill");
    tree_write_text(path_of(stage, ".generations"), "in the way");
    struct terminal *terminal = stage->terminal = begin(stage, 24, 80);
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "closed to you, or something else has their name.");
    terminal_check(terminal, terminal_find(terminal, "No earlier state yet", NULL) < 0);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        CASE(an_empty_shelf_leads_to_a_first_instrument),
        cmocka_unit_test_setup_teardown(a_metric_shop_never_sees_inches, open_stage, close_stage),
        CASE(the_shop_keeps_targets_of_its_own),
        CASE(necks_of_its_kind_tell_of_a_rod),
        CASE(an_instrument_is_found_opened_and_left),
        CASE(copies_and_the_archive),
        CASE(earlier_states_are_looked_at_and_brought_back),
        CASE(nothing_is_brought_back_over_what_cannot_be_kept),
        CASE(what_others_file_and_edit_is_seen),
        CASE(the_folder_may_vanish),
        CASE(a_version_beside_it_is_put_away),
        CASE(a_version_beside_it_is_brought_back),
        CASE(two_versions_are_put_together),
        CASE(a_third_version_is_not_forgotten),
        CASE(nothing_is_put_together_unasked),
        CASE(a_version_beside_it_is_said_on_the_bench),
        CASE(a_version_that_is_none_is_for_the_tech_to_remove),
        CASE(closed_earlier_states_are_not_none),
    };

    if (argc < 3) {
        fprintf(stderr, "usage: %s PATH_OF_SILLET FOLDER_OF_TEST_DATA\n", argv[0]);
        return 2;
    }
    program = argv[1];
    data_folder = argv[2];
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
