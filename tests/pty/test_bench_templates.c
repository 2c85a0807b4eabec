/* SPDX-License-Identifier: MIT */

/* The templates of a neck reset, written from the real program. */
#define _GNU_SOURCE /* prlimit */

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "bench_screen.h"
#include "reset_profile.h"

#define SEEN_TEMPLATES    "n templates/bench-2026-03-02.pdf"
#define SEEN_NO_TEMPLATES "No templates: "
#define SEEN_IN_MENU      "write the reset's templates"

static void need_cairo(void)
{
    if (!SILLET_HAS_CAIRO)
        skip();
}

/* Starts on a profile of these texts, and turns to Work. */
static struct terminal *start(struct bench *bench, const char *one, const char *two)
{
    char both[sizeof reset_asking + sizeof reset_strung];

    snprintf(both, sizeof both, "%s%s", one, two);
    tree_write_text(bench->profile, both);
    struct terminal *terminal = bench_start(bench);
    terminal_type(terminal, "*W");
    terminal_expect(terminal, "[Work]");
    return terminal;
}

/* Letters are text on Work. */
static void quit(struct terminal *terminal)
{
    terminal_type(terminal, "*B");
    terminal_expect(terminal, SEEN_BENCH);
    bench_quit(terminal);
}

/* The folder beside the profile. */
static const char *folder_of(const struct bench *bench)
{
    static char folder[512];
    const char *slash = strrchr(bench->profile, '/');

    assert_non_null(slash);
    snprintf(folder, sizeof folder, "%.*s/templates", (int)(slash - bench->profile),
             bench->profile);
    return folder;
}

static const char *file_of(const struct bench *bench)
{
    static char path[600];

    snprintf(path, sizeof path, "%s/bench-2026-03-02.pdf", folder_of(bench));
    return path;
}

/* Another message comes between, so that the next one is not the one before. */
static void ask_again(struct terminal *terminal)
{
    terminal_type(terminal, "*h");
    terminal_expect(terminal, SEEN_HELP);
    terminal_type(terminal, "h*5");
}

static void test_templates_lie_beside_the_profile(void **state)
{
    struct bench *bench = *state;
    size_t length;

    need_cairo();
    struct terminal *terminal = start(bench, reset_asking, "");
    terminal_type(terminal, "*");
    terminal_expect(terminal, SEEN_IN_MENU);
    terminal_type(terminal, "t");
    terminal_expect(terminal, SEEN_TEMPLATES);
    terminal_expect(terminal, "; missing for tongue: board end, on Intake.");
    char *first = tree_read(file_of(bench), &length);
    assert_non_null(first);
    assert_memory_equal(first, "%PDF-", 5);
    /* Once more takes its place, with the same bytes: the day is that of the readings. */
    ask_again(terminal);
    terminal_expect(terminal, SEEN_TEMPLATES);
    assert_int_equal(tree_count(folder_of(bench), ""), 1);
    quit(terminal);
    tree_assert_holds(file_of(bench), first, length);
    free(first);
}

/* After the reset they are still those of the pass that asked for it. */
static void test_templates_after_the_reset(void **state)
{
    struct bench *bench = *state;
    size_t length;

    need_cairo();
    struct terminal *terminal = start(bench, reset_asking, "");
    terminal_type(terminal, "*t");
    terminal_expect(terminal, SEEN_TEMPLATES);
    quit(terminal);
    char *before = tree_read(file_of(bench), &length);
    terminal = start(bench, reset_asking, reset_strung);
    terminal_type(terminal, "*t");
    terminal_expect(terminal, SEEN_TEMPLATES);
    quit(terminal);
    tree_assert_holds(file_of(bench), before, length);
    free(before);
}

static void test_no_templates_where_no_pass_asked(void **state)
{
    struct bench *bench = *state;
    struct terminal *terminal = bench_start_worked(bench);

    terminal_type(terminal, "*W");
    terminal_expect(terminal, "[Work]");
    terminal_type(terminal, "*");
    terminal_expect(terminal, "a line of your own work");
    terminal_check(terminal, terminal_find(terminal, SEEN_IN_MENU, NULL) < 0);
    terminal_type(terminal, "t*");
    terminal_expect_gone(terminal, "a line of your own work");
    quit(terminal);
    assert_int_not_equal(access(folder_of(bench), F_OK), 0);
}

static void test_templates_that_lack_all_readings(void **state)
{
    struct bench *bench = *state;
    char less[sizeof reset_asking];

    need_cairo();
    snprintf(less, sizeof less, "%s", reset_asking);
    char *depth = strstr(less, "heel_depth = 90 mm\n");
    assert_non_null(depth);
    memset(depth, ' ', strlen("heel_depth = 90 mm"));
    struct terminal *terminal = start(bench, less, "");
    terminal_type(terminal, "*t");
    terminal_expect(terminal, SEEN_NO_TEMPLATES "missing for heel: heel depth, on Neck");
    quit(terminal);
    assert_int_not_equal(access(folder_of(bench), F_OK), 0);
}

/* A file, or a link, has the folder's name: the session goes on, and what is there stays. */
static void test_templates_is_a_folder_here(void **state)
{
    struct bench *bench = *state;

    need_cairo();
    struct terminal *terminal = start(bench, reset_asking, "");
    tree_write_text(folder_of(bench), "not a folder");
    terminal_type(terminal, "*t");
    terminal_expect(terminal, SEEN_NO_TEMPLATES "templates is not a folder here");
    tree_assert_text(folder_of(bench), "not a folder");
    assert_int_equal(unlink(folder_of(bench)), 0);
    assert_int_equal(symlink(".", folder_of(bench)), 0);
    ask_again(terminal);
    terminal_expect(terminal, SEEN_NO_TEMPLATES "templates is not a folder here");
    quit(terminal);
    assert_int_equal(tree_count(folder_of(bench), "bench-2026-03-02"), 0);
}

/* A document of the tech's own by that name stays. */
static void test_templates_replace_no_other_document(void **state)
{
    static const char own[] = "%PDF-1.4\n% drawn by hand\n%%EOF\n";
    struct bench *bench = *state;

    need_cairo();
    struct terminal *terminal = start(bench, reset_asking, "");
    assert_int_equal(mkdir(folder_of(bench), 0700), 0);
    tree_write_text(file_of(bench), own);
    terminal_type(terminal, "*t");
    terminal_expect(terminal, SEEN_NO_TEMPLATES "templates/bench-2026-03-02.pdf was not made by");
    quit(terminal);
    tree_assert_text(file_of(bench), own);
}

/* The older page stays whole when there is no room for the new one. */
static void test_templates_on_a_full_disk(void **state)
{
    struct bench *bench = *state;
    struct rlimit limit;
    size_t length;

    need_cairo();
    struct terminal *terminal = start(bench, reset_asking, "");
    terminal_type(terminal, "*t");
    terminal_expect(terminal, SEEN_TEMPLATES);
    char *first = tree_read(file_of(bench), &length);
    assert_int_equal(prlimit(terminal_pid(terminal), RLIMIT_FSIZE, NULL, &limit), 0);
    limit.rlim_cur = 512;
    assert_int_equal(prlimit(terminal_pid(terminal), RLIMIT_FSIZE, &limit, NULL), 0);
    ask_again(terminal);
    terminal_expect(terminal, SEEN_NO_TEMPLATES);
    terminal_expect(terminal, "no room left");
    tree_assert_holds(file_of(bench), first, length);
    assert_int_equal(tree_count(folder_of(bench), ""), 1);
    quit(terminal);
    free(first);
}

static void test_templates_in_a_closed_folder(void **state)
{
    struct bench *bench = *state;

    need_cairo();
    if (geteuid() == 0)
        skip(); /* may write everywhere */
    struct terminal *terminal = start(bench, reset_asking, "");
    assert_int_equal(mkdir(folder_of(bench), 0500), 0);
    terminal_type(terminal, "*t");
    terminal_expect(terminal, SEEN_NO_TEMPLATES);
    terminal_expect(terminal, "may not be written");
    quit(terminal);
    assert_int_equal(tree_count(folder_of(bench), "bench"), 0);
    assert_int_equal(chmod(folder_of(bench), 0700), 0);
}

static void test_without_cairo_it_says_so(void **state)
{
    struct bench *bench = *state;

    if (SILLET_HAS_CAIRO)
        skip();
    struct terminal *terminal = start(bench, reset_asking, "");
    terminal_type(terminal, "*t");
    terminal_expect(terminal, SEEN_NO_TEMPLATES "this sillet is without cairo");
    quit(terminal);
    assert_int_not_equal(access(folder_of(bench), F_OK), 0);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_templates_lie_beside_the_profile),
        BENCH_CASE(test_templates_after_the_reset),
        BENCH_CASE(test_no_templates_where_no_pass_asked),
        BENCH_CASE(test_templates_that_lack_all_readings),
        BENCH_CASE(test_templates_is_a_folder_here),
        BENCH_CASE(test_templates_replace_no_other_document),
        BENCH_CASE(test_templates_on_a_full_disk),
        BENCH_CASE(test_templates_in_a_closed_folder),
        BENCH_CASE(test_without_cairo_it_says_so),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
