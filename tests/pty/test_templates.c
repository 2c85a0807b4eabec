/* SPDX-License-Identifier: MIT */
/* sillet layout from the command line: what it says, what it writes, and what it leaves alone. */
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

#include "bench_command.h"
#include "raster.h"
#include "reset_profile.h"

enum { FINDINGS = 1, USAGE = 2, CANNOT = 3 };

static const char old[] = "what was there before\n";

static const char *profile(const char *name)
{
    static char path[64];

    snprintf(path, sizeof path, "../../profiles/%s.ini", name);
    return bench_data(path);
}

static void run(struct bench *bench, const char *file, const char *output, const char *more,
                struct command *ret_command)
{
    const char *const words[] = {"layout", file, "-o", output, more, NULL};

    command_run_words(bench, words, ret_command);
    assert_false(ret_command->signalled);
    assert_int_equal(ret_command->out_length, 0);
}

static void expect(struct bench *bench, const char *file, const char *output, const char *more,
                   int code, const char *words)
{
    struct command command;

    run(bench, file, output, more, &command);
    assert_int_equal(command.code, code);
    if (!strstr(command.err, words))
        fail_msg("'%s' is not in '%s'", words, command.err);
    assert_true(command_is_harmless(command.err, command.err_length));
    command_done(&command);
}

static void need_cairo(void)
{
    if (!SILLET_HAS_CAIRO)
        skip();
}

/* --- what is on the pages --- */

static void need_text(void)
{
    need_cairo();
    if (!raster_can_draw())
        skip();
}

static char *text_of(const char *pdf)
{
    char command[500];

    snprintf(command, sizeof command, "pdftotext -layout '%s' -", pdf);
    return raster_command(command);
}

static int count_of(const char *text, const char *part)
{
    int count = 0;

    for (; (text = strstr(text, part)) != NULL; text++)
        count++;
    return count;
}

static void every_page_says_how_to_check_it(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");

    need_text();
    expect(bench, profile("bass"), pdf, NULL, 0, "");
    char *text = text_of(pdf);
    const int pages = count_of(text, "\f");
    assert_int_equal(pages, 4); /* nut and saddle share the last one */
    assert_int_equal(count_of(text, "100 mm"), 2 * pages);
    assert_int_equal(count_of(text, " 4 in "), pages);
    assert_int_equal(count_of(text, "Measure the bars first."), pages);
    assert_int_equal(count_of(text, "Print at 100 %, no scaling."), pages);
    assert_int_equal(count_of(text, "Long Pier Bass, readings of visit "), pages + 1);
    assert_int_equal(count_of(text, "respirator") + count_of(text, "hands behind"), pages + 4);
    assert_non_null(strstr(text, "page 2 of 3"));
    assert_non_null(strstr(text, "column 1, row 3"));
    assert_non_null(strstr(text, "glue A to A of page 1"));
    assert_non_null(strstr(text, "glue B to B of page 2"));
    assert_non_null(strstr(text, "431.80 mm 17.000 in"));
    /* Midway between frets 2 and 3 of 34 in: 863.6 mm by the twelfth root of two. */
    assert_non_null(strstr(text, "dot 115.81 mm"));
    free(text);
}

static void expect_size(struct bench *bench, const char *pdf, const char *size)
{
    char command[500];

    expect(bench, profile("parlour"), pdf, "nut", 0, "");
    snprintf(command, sizeof command, "pdfinfo '%s'", pdf);
    char *text = raster_command(command);
    assert_non_null(strstr(text, size));
    free(text);
}

static void the_paper_is_the_one_asked_for(void **state)
{
    static const struct {
        const char *name, *size, *pages;
    } papers[] = {{"a4", "595.276 x 841.89 pts", "Pages:           2\n"},
                  {"letter", "612 x 792 pts", "Pages:           2\n"}};
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");
    char command[500];

    need_text();
    snprintf(command, sizeof command, "pdfinfo '%s'", pdf);
    for (size_t i = 0; i < sizeof papers / sizeof papers[0]; i++) {
        const char *const words[] = {"layout",           "-o",    pdf, "--paper", papers[i].name,
                                     profile("parlour"), "board", NULL};
        struct command made;

        command_run_words(bench, words, &made);
        assert_int_equal(made.code, 0);
        command_done(&made);
        char *text = raster_command(command);
        assert_non_null(strstr(text, papers[i].size));
        assert_non_null(strstr(text, papers[i].pages));
        free(text);
    }
}

/* Where nobody says, a metric shop prints on A4 and one of inches on Letter. */
static void the_paper_goes_with_the_shops_units(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");
    char path[400];

    need_text();
    expect_size(bench, pdf, "612 x 792 pts");
    snprintf(path, sizeof path, "%s/.config", bench->home);
    assert_int_equal(mkdir(path, 0700), 0);
    strcat(path, "/sillet");
    assert_int_equal(mkdir(path, 0700), 0);
    strcat(path, "/shop.ini");
    tree_write_text(path, "[shop]\nunits = metric\n");
    expect_size(bench, pdf, "595.276 x 841.89 pts");
}

static void the_same_profile_gives_the_same_file(void **state)
{
    static const char *const names[] = {"x.pdf", "x.svg"};
    struct bench *bench = *state;

    need_cairo();
    for (size_t i = 0; i < 2; i++) {
        const char *path = tree_path(bench->tree, names[i]);
        size_t length;

        expect(bench, profile("bolt-on"), path, NULL, 0, "");
        char *first = tree_read(path, &length);
        expect(bench, profile("bolt-on"), path, NULL, 0, "");
        tree_assert_holds(path, first, length);
        free(first);
    }
}

/* --- readings that are missing --- */

static const char bare[] = "[profile]\nformat = 1\n[board]\nscale = 650 mm\nstrings = 6\n"
                           "frets = 19\njoin_fret = 12\n[nut]\nmargin_bass = 4 mm\n";

static void what_is_missing_is_named(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");

    need_cairo();
    tree_write_text(bench->profile, bare);
    expect(bench, bench->profile, pdf, NULL, 0,
           "nut left out: missing nut width, on Intake; treble margin, on Intake");
    expect(bench, bench->profile, pdf, "board", 0, "");
    assert_int_equal(unlink(pdf), 0);
    expect(bench, bench->profile, pdf, "saddle", FINDINGS,
           "missing spread at the saddle, on Intake; nut spread, on Intake");
    expect(bench, bench->profile, pdf, "saddle", FINDINGS, "; gauge, string 6, on Strings");
    expect(bench, bench->profile, pdf, "heel", FINDINGS, "heel depth, on Neck");
    expect(bench, bench->profile, pdf, "heel", FINDINGS, "; bass exposure, on Bench");
    tree_write_text(bench->profile, "[profile]\nformat = 1\n[board]\nstrings = 6\n");
    expect(bench, bench->profile, pdf, "board", FINDINGS,
           "missing scale length, on Intake; frets, on Intake");
    tree_write_text(bench->profile, "[profile]\nformat = 1\n[board]\nstrings = 6\n"
                                    "scale = 90 in\nfrets = 20\n");
    expect(bench, bench->profile, pdf, "board", FINDINGS, "missing scale length, on Intake\n");
    tree_write_text(bench->profile, "[profile]\nformat = 1\n[board]\nstrings = 6\n"
                                    "scale = 25 in\nfrets = 0\n");
    expect(bench, bench->profile, pdf, "board", FINDINGS, "a board with frets\n");
    assert_int_equal(access(pdf, F_OK), -1);
}

/* --- the pass that asked for a reset --- */

static void lay_heel(struct bench *bench, const char *option, const char *number, int code,
                     const char *words)
{
    const char *pdf = tree_path(bench->tree, "x.pdf");
    const char *const line[] = {"layout", bench->profile, "-o", pdf, "heel", option, number, NULL};
    struct command command;

    command_run_words(bench, line, &command);
    assert_int_equal(command.code, code);
    if (!strstr(command.err, words))
        fail_msg("'%s' is not in '%s'", words, command.err);
    command_done(&command);
}

static void expect_on_page(struct bench *bench, const char *words)
{
    char *text = text_of(tree_path(bench->tree, "x.pdf"));

    if (!strstr(text, words))
        fail_msg("'%s' is not in '%s'", words, text);
    free(text);
}

static void the_plan_is_there_after_the_reset(void **state)
{
    struct bench *bench = *state;
    char both[sizeof reset_asking + sizeof reset_strung];

    need_text();
    snprintf(both, sizeof both, "%s%s", reset_asking, reset_strung);
    tree_write_text(bench->profile, both);
    lay_heel(bench, NULL, NULL, 0, "");
    expect_on_page(bench, "visit 1, pass 1, 2026-03-02");
    expect_on_page(bench, "A straightedge on the frets then meets the saddle");
    expect_on_page(bench, "The neck leans: over the bridge's width 1.40 mm");
    expect_on_page(bench, "bass low");
    /* A pass that is named is drawn from, and says for itself that it does not ask. */
    lay_heel(bench, "--pass", "2", 0, "");
    expect_on_page(bench, "visit 1, pass 2, 2026-03-04");
    expect_on_page(bench, "no reset is due");
    lay_heel(bench, "--pass", "3", USAGE, "nothing was read in visit 1, pass 3");
    lay_heel(bench, "--visit", "2", USAGE, "no pass was read in visit 2");
    lay_heel(bench, "--pass", "none", USAGE, "a number is wanted");
}

static void a_drawing_has_the_date_of_its_visit(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");
    char both[sizeof reset_asking + 200], command[500];

    need_text();
    snprintf(both, sizeof both, "%s%s", reset_asking,
             "[visit.2]\ndate = 2026-09-07\n[visit.2.pass.1]\ntime = 10:00\nrelief = 0.2 mm\n");
    tree_write_text(bench->profile, both);
    lay_heel(bench, "--visit", "1", 0, "");
    snprintf(command, sizeof command, "pdfinfo -isodates '%s'", pdf);
    char *text = raster_command(command);
    if (!strstr(text, "2026-03-02"))
        fail_msg("not the first visit's date: %s", text);
    free(text);
}

static void a_reset_that_nobody_asked_for_is_not_drawn(void **state)
{
    struct bench *bench = *state;

    need_text();
    expect(bench, profile("parlour"), tree_path(bench->tree, "x.pdf"), "heel", FINDINGS,
           "asks for a neck reset");
    assert_int_equal(access(tree_path(bench->tree, "x.pdf"), F_OK), -1);
}

static void wrong_words_say_what_is_right(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");

    expect(bench, profile("bass"), pdf, "bridge", USAGE, "board nut saddle heel shim tongue");
    expect(bench, profile("bass"), "x.txt", NULL, USAGE, ".pdf or .svg");
    expect(bench, profile("bass"), pdf, "--paper", USAGE, "needs a value");
    expect(bench, profile("bass"), pdf, "--big", USAGE, "-o --paper");
    assert_int_equal(access(pdf, F_OK), -1);
}

/* --- disks --- */

static void a_failed_write_leaves_the_old_file(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");
    const struct rlimit small = {.rlim_cur = 8192, .rlim_max = RLIM_INFINITY};
    struct rlimit before;

    need_cairo();
    tree_write_text(pdf, old);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &(struct rlimit){small.rlim_cur, before.rlim_max}), 0);
    expect(bench, profile("bass"), pdf, NULL, CANNOT, "no room left");
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    tree_assert_text(pdf, old);
    assert_int_equal(tree_count(bench->tree->folder, ".sillet-"), 0);
    expect(bench, profile("bass"), pdf, NULL, 0, "");
    size_t length;
    char *made = tree_read(pdf, &length);
    assert_memory_equal(made, "%PDF-", 5);
    free(made);
}

static void a_full_device_is_not_replaced(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");
    struct stat facts;

    need_cairo();
    assert_int_equal(symlink("/dev/full", pdf), 0);
    expect(bench, profile("bass"), pdf, NULL, CANNOT, "not a regular file");
    assert_int_equal(stat("/dev/full", &facts), 0);
    assert_true(S_ISCHR(facts.st_mode));
}

static void a_folder_must_be_there_and_writable(void **state)
{
    struct bench *bench = *state;
    char folder[300], pdf[320];

    need_cairo();
    expect(bench, profile("bass"), tree_path(bench->tree, "none/x.pdf"), NULL, CANNOT,
           "o such file");
    snprintf(folder, sizeof folder, "%s", tree_path(bench->tree, "closed"));
    snprintf(pdf, sizeof pdf, "%s/x.pdf", folder);
    assert_int_equal(mkdir(folder, 0500), 0);
    if (geteuid() != 0) {
        expect(bench, profile("bass"), pdf, NULL, CANNOT, "may not be written");
        assert_int_equal(tree_count(folder, "x"), 0);
    }
    assert_int_equal(chmod(folder, 0700), 0);
}

static void without_cairo_it_says_so(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");

    if (SILLET_HAS_CAIRO)
        skip();
    tree_write_text(pdf, old);
    expect(bench, profile("bass"), pdf, NULL, CANNOT, "without cairo");
    tree_assert_text(pdf, old);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(every_page_says_how_to_check_it),
        BENCH_CASE(the_paper_is_the_one_asked_for),
        BENCH_CASE(the_paper_goes_with_the_shops_units),
        BENCH_CASE(the_same_profile_gives_the_same_file),
        BENCH_CASE(what_is_missing_is_named),
        BENCH_CASE(the_plan_is_there_after_the_reset),
        BENCH_CASE(a_drawing_has_the_date_of_its_visit),
        BENCH_CASE(a_reset_that_nobody_asked_for_is_not_drawn),
        BENCH_CASE(wrong_words_say_what_is_right),
        BENCH_CASE(a_failed_write_leaves_the_old_file),
        BENCH_CASE(a_full_device_is_not_replaced),
        BENCH_CASE(a_folder_must_be_there_and_writable),
        BENCH_CASE(without_cairo_it_says_so),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
