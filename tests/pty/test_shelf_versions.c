/* SPDX-License-Identifier: MIT */

/* Earlier states and other versions on the shelf, in the real program on a terminal. */
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
#include <unistd.h>

#include <cmocka.h>

#include "shelf_stage.h"

/* --- earlier states --- */

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
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "a.ini", "Parlour", "Marlo");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
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
    shelf_stage_expect_exit(terminal, 0);
}

/* What cannot be kept first is not replaced, and neither is what is the same. */
static void nothing_is_brought_back_over_what_cannot_be_kept(void **state)
{
    struct shelf_stage *stage = *state;
    struct rlimit limit;
    size_t length;

    shelf_stage_put(stage, "a.ini", "Parlour", "Marlo");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    terminal_expect(terminal, "Parlour");
    take_reading(terminal, ".017");
    take_reading(terminal, ".009");
    char *present = tree_read(shelf_stage_path(stage, "a.ini"), &length);
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
    tree_assert_holds(shelf_stage_path(stage, "a.ini"), present, length);
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
    shelf_stage_expect_exit(terminal, 0);
    free(present);
}

/* --- versions --- */

/* Another version beside that, as a save that met somebody else's change leaves one. */
static void put_beside(const struct shelf_stage *stage, const char *file)
{
    char beside[100];

    shelf_stage_put(stage, "other.ini", "Nutmeg Parlour", "Hedda Quill");
    snprintf(beside, sizeof beside, "%s.conflict", file);
    assert_int_equal(rename(shelf_stage_path(stage, "other.ini"), shelf_stage_path(stage, beside)),
                     0);
}

static struct terminal *list_versions(struct shelf_stage *stage)
{
    shelf_stage_put(stage, "a.ini", "Parlour", "Hedda Quill");
    put_beside(stage, "a.ini");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);

    terminal_expect(terminal, "versions");
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "Other versions beside it");
    terminal_expect(terminal, "conflict: visit 1, 1 pass; 1 entry different now");
    return terminal;
}

static void a_version_beside_it_is_put_away(void **state)
{
    struct shelf_stage *stage = *state;
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
    assert_int_not_equal(access(shelf_stage_path(stage, "a.ini.conflict"), F_OK), 0);
    assert_int_equal(tree_count(shelf_stage_path(stage, ".generations/a.ini"), ""), 1);
}

/* What it replaces stays as an earlier state, and so does the version as it was. */
static void a_version_beside_it_is_brought_back(void **state)
{
    struct shelf_stage *stage = *state;
    struct terminal *terminal = list_versions(stage);

    terminal_type(terminal, "b");
    terminal_expect(terminal, "Back as it was at");
    terminal_expect(terminal, "Nutmeg Parlour");
    terminal_expect_gone(terminal, "versions");
    assert_int_not_equal(access(shelf_stage_path(stage, "a.ini.conflict"), F_OK), 0);
    assert_int_equal(tree_count(shelf_stage_path(stage, ".generations/a.ini"), ""), 2);
}

static void rewrite(const struct shelf_stage *stage, const char *file, const char *old,
                    const char *new)
{
    size_t length;
    char *bytes = tree_read(shelf_stage_path(stage, file), &length),
         *at = bytes ? strstr(bytes, old) : NULL;
    char *whole = malloc(length + strlen(new) + 1);

    assert_non_null(at);
    assert_non_null(whole);
    sprintf(whole, "%.*s%s%s", (int)(at - bytes), bytes, new, at + strlen(old));
    tree_write_text(shelf_stage_path(stage, file), whole);
    free(whole);
    free(bytes);
}

/* Three cells that differ, one of them with a text that would steer the terminal: seven keys from
 * the shelf to one record. */
static struct terminal *put_three_together(struct shelf_stage *stage, int rows, int columns)
{
    shelf_stage_put(stage, "a.ini", "Parlour", "Hedda Quill");
    put_beside(stage, "a.ini");
    rewrite(stage, "a.ini.conflict", "relief = .013 in", "relief = .014 in");
    rewrite(stage, "a.ini.conflict", "owner = Hedda Quill", "owner = \x1b[31mHedda\x07 Quill");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, rows, columns);

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
    struct shelf_stage *stage = *state;
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
    assert_int_equal(access(shelf_stage_path(stage, "a.ini.conflict"), F_OK), 0);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Put together. Both are kept as earlier states");
    terminal_expect_gone(terminal, "versions");
    char *bytes = tree_read(shelf_stage_path(stage, "a.ini"), &length);
    assert_non_null(bytes);
    assert_non_null(strstr(bytes, "name = Parlour"));
    assert_non_null(strstr(bytes, "relief = .014 in"));
    assert_non_null(strstr(bytes, "%1B[31mHedda%07 Quill"));
    free(bytes);
    assert_int_not_equal(access(shelf_stage_path(stage, "a.ini.conflict"), F_OK), 0);
    assert_int_equal(tree_count(shelf_stage_path(stage, ".generations/a.ini"), ""), 2);
    /* The newest earlier state is what the file was; back to it, it is undone. */
    terminal_type(terminal, "*e+");
    terminal_expect(terminal, "Back as it was at");
    bytes = tree_read(shelf_stage_path(stage, "a.ini"), &length);
    assert_non_null(bytes);
    assert_non_null(strstr(bytes, "relief = .013 in"));
    free(bytes);
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
}

/* Of three, one after the other. */
static void a_third_version_is_not_forgotten(void **state)
{
    struct shelf_stage *stage = *state;
    struct terminal *terminal;

    shelf_stage_put(stage, "a.ini", "Parlour", "Hedda Quill");
    put_beside(stage, "a.ini");
    shelf_stage_put(stage, "other.ini", "Sorrel Parlour", "Hedda Quill");
    assert_int_equal(
        rename(shelf_stage_path(stage, "other.ini"), shelf_stage_path(stage, "a.ini.conflict.2")),
        0);
    terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
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
    assert_int_equal(tree_count(shelf_stage_path(stage, ".generations/a.ini"), ""), 4);
}

/* Left alone, in a terminal that knows no UTF-8 too: both stay, and so does whoever has it open. */
static void nothing_is_put_together_unasked(void **state)
{
    struct shelf_stage *stage = *state;
    struct terminal *terminal = put_three_together(stage, 43, 132);

    terminal_type(terminal, "9");
    terminal_expect(terminal, "Nothing is open any more");
    terminal_type(terminal, "x"); /* a slip drops nothing */
    terminal_type(terminal, "5");
    terminal_expect(terminal, "Both can be taken of two notes only");
    /* Another bench sees who has it. */
    struct terminal *other = stage->other = shelf_stage_begin(stage, 30, 100);
    terminal_expect(other, "in use");
    terminal_type(other, "*e/");
    terminal_expect(other, "Not now: it is in use by");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect_gone(terminal, "putting together");
    assert_int_equal(access(shelf_stage_path(stage, "a.ini.conflict"), F_OK), 0);
    assert_int_not_equal(access(shelf_stage_path(stage, ".generations"), F_OK), 0);
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "Other versions beside it");
    terminal_type(terminal, "/");
    terminal_expect(terminal, "3 differ, 3 open");
    terminal_type(terminal, "\x03");
    shelf_stage_expect_exit(terminal, 0);
    assert_int_equal(tree_count(stage->shelf, ".lock"), 0);
}

/* What a program that copies folders made of a change on each machine: no name of ours, and an
 * instrument of its own on the list until it is put together. */
static void a_copy_of_another_machine_is_a_version(void **state)
{
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "a.ini", "Parlour", "Hedda Quill");
    shelf_stage_put(stage, "a (other bench).ini", "Parlour", "Hedda Quill");
    shelf_stage_put(stage, "a (2).ini", "Nutmeg", "Marlo");
    rewrite(stage, "a (other bench).ini", "relief = .013 in", "relief = .014 in");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    terminal_expect(terminal, "3 instruments on file");
    terminal_type(terminal, "hedda");
    terminal_expect(terminal, "versions");
    terminal_expect(terminal, " version, moves");
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "A version of the file without the (...): take that in hand");
    terminal_key(terminal, TERMINAL_DOWN);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Another version lies beside it; on the shelf, * then e");
    terminal_type(terminal, "q");
    terminal_expect(terminal, SEEN_SHELF);
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "(other bench).ini: visit 1, 1 pass; 1 entry different now");
    terminal_type(terminal, "/");
    terminal_expect(terminal, "right: (other");
    terminal_expect(terminal, "1 differs, 1 open");
    terminal_type(terminal, "6");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Put together. Both are kept as earlier states");
    terminal_expect_gone(terminal, "versions");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "2 instruments on file");
    assert_int_equal(tree_count(shelf_stage_path(stage, ".generations/a.ini"), ""), 2);
    assert_int_equal(access(shelf_stage_path(stage, "a (2).ini"), F_OK), 0);
}

/* And on the bench, whoever opens it. */
static void a_version_beside_it_is_said_on_the_bench(void **state)
{
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "a.ini", "Parlour", "Hedda Quill");
    put_beside(stage, "a.ini");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "Another version lies beside it; on the shelf, * then e");
}

/* What holds no profile can be no earlier state of one: who reads that knows what to do. */
static void a_version_that_is_none_is_for_the_tech_to_remove(void **state)
{
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "a.ini", "Parlour", "Hedda Quill");
    tree_write_text(shelf_stage_path(stage, "a.ini.conflict"), "");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "Other versions beside it");
    terminal_type(terminal, "p");
    terminal_expect(terminal, "it holds no profile. Remove that file, or rename it, yourself.");
    tree_assert_text(shelf_stage_path(stage, "a.ini.conflict"), "");
}

static void closed_earlier_states_are_not_none(void **state)
{
    struct shelf_stage *stage = *state;

    shelf_stage_put(stage, "a.ini", "Parlour", "Hedda Quill");
    tree_write_text(shelf_stage_path(stage, ".generations"), "in the way");
    struct terminal *terminal = stage->terminal = shelf_stage_begin(stage, 24, 80);
    terminal_type(terminal, "*e");
    terminal_expect(terminal, "closed to you, or something else has their name.");
    terminal_check(terminal, terminal_find(terminal, "No earlier state yet", NULL) < 0);
}

#define CASE(function)                                                                             \
    cmocka_unit_test_setup_teardown(function, shelf_stage_open_inch, shelf_stage_close)

int main(int count, char **words)
{
    const struct CMUnitTest tests[] = {
        CASE(earlier_states_are_looked_at_and_brought_back),
        CASE(nothing_is_brought_back_over_what_cannot_be_kept),
        CASE(a_version_beside_it_is_put_away),
        CASE(a_version_beside_it_is_brought_back),
        CASE(two_versions_are_put_together),
        CASE(a_third_version_is_not_forgotten),
        CASE(nothing_is_put_together_unasked),
        CASE(a_copy_of_another_machine_is_a_version),
        CASE(a_version_beside_it_is_said_on_the_bench),
        CASE(a_version_that_is_none_is_for_the_tech_to_remove),
        CASE(closed_earlier_states_are_not_none),
    };

    if (!shelf_stage_arguments(count, words))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
