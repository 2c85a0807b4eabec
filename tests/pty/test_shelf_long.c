/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#include "terminal.h"
#include "tree.h"

/*
 * A shelf of ten thousand instruments on a terminal, without a cache: what is read is listed while
 * the rest is read, keys are answered meanwhile, and in the end nothing is missing.
 */

enum { NAMES = 100, EACH = 100 };

#define ALL     "10000 instruments on file"
#define READING "still to "

static const char *program;

struct stage {
    struct tree *tree;
    struct terminal *terminal;
    char home[300], shelf[300];
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
    return mkdir(stage->home, 0700) == 0 ? mkdir(stage->shelf, 0700) : -1;
}

static int close_stage(void **state)
{
    struct stage *stage = *state;
    void *tree = stage->tree;

    terminal_stop(stage->terminal);
    free(stage);
    return tree_teardown(&tree);
}

static const char *path_of(const struct stage *stage, int name, int copy)
{
    char path[64];

    snprintf(path, sizeof path, "shelf/number-%03d-%03d.ini", name, copy);
    return tree_path(stage->tree, path);
}

/* Another day for each name, so that the order is not that of the files; the neck needs the rod. */
static void write_one(const struct stage *stage, int name)
{
    char text[1200];

    snprintf(text, sizeof text,
             "[profile]\nformat = 1\n[instrument]\nname = Number %03d\nkind = steel-string\n"
             "owner = Marlo\n[board]\nscale = 25.5 in\nstrings = 6\nfrets = 20\njoin_fret = 14\n"
             "action_fret = 12\nrelief_fret = 6\n[neck]\nrod = two-way\n[targets]\n"
             "relief = .006 in\n[visit.1]\ndate = 20%02d-%02d-11\nhumidity = 45\n"
             "[visit.1.pass.1]\nrelief = .014 in\n",
             name, name * 37 % NAMES, 1 + name % 12);
    tree_write_text(path_of(stage, name, 0), text);
}

/* Links are as good as copies to the shelf, and made in no time. */
static void fill_shelf(const struct stage *stage)
{
    for (int name = 0; name < NAMES; name++) {
        write_one(stage, name);
        for (int copy = 1; copy < EACH; copy++)
            assert_int_equal(link(path_of(stage, name, 0), path_of(stage, name, copy)), 0);
    }
}

static struct terminal *begin(struct stage *stage)
{
    const char *const argv[] = {program, "--shelf", stage->shelf, NULL};
    const struct terminal_setup setup = {.argv = argv, .home = stage->home};

    terminal_stop(stage->terminal);
    stage->terminal = terminal_start(&setup);
    terminal_expect(stage->terminal, ALL);
    return stage->terminal;
}

static void expect_exit(struct terminal *terminal)
{
    const int status = terminal_expect_end(terminal);

    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
    assert_true(terminal_modes_restored(terminal));
}

/* A file's state is kept only once no other change could leave the same times. */
static void wait_until_settled(const struct stage *stage)
{
    enum { SETTLED_S = 4 };
    const struct timespec moment = {.tv_nsec = 20000000};
    struct stat facts;

    assert_int_equal(stat(path_of(stage, NAMES - 1, EACH - 1), &facts), 0);
    while (time(NULL) < facts.st_ctime + SETTLED_S)
        nanosleep(&moment, NULL);
}

/* What it has found so far is said with how much is left. */
static void a_key_is_answered_while_it_reads(struct terminal *terminal)
{
    terminal_expect(terminal, READING);
    terminal_type(terminal, "qqzz");
    terminal_expect(terminal, "0 of 10000 instruments found, ");
    terminal_expect(terminal, "None so far");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, ALL);
}

static void all_are_found(struct terminal *terminal)
{
    static const int names[] = {0, 42, NAMES - 1};

    /* With sanitizers on a loaded machine it takes longer than anything else is waited for. */
    for (int i = 0; i < 8 && !terminal_lost_sight_of(terminal, READING, TERMINAL_DEADLINE_MS); i++)
        ;
    terminal_expect_gone(terminal, READING);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char name[20];

        snprintf(name, sizeof name, "number %03d", names[i]);
        terminal_type(terminal, name);
        terminal_expect(terminal, "100 of 10000 instruments found");
        terminal_key(terminal, TERMINAL_ESCAPE);
        terminal_expect(terminal, ALL);
    }
    terminal_type(terminal, "marlo");
    terminal_expect(terminal, "10000 of 10000 instruments found");
    /* What is worked out has come for the last of them too; 27 * 37 is 99 more than hundreds. */
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, "Number 027");
    terminal_key(terminal, TERMINAL_END);
    terminal_expect(terminal, "Number 000");
    terminal_expect(terminal, "moves open");
}

static void a_long_shelf_is_read_behind_the_keys(void **state)
{
    struct stage *stage = *state;

    fill_shelf(stage);
    wait_until_settled(stage);
    struct terminal *terminal = begin(stage);
    a_key_is_answered_while_it_reads(terminal);
    all_are_found(terminal);
    terminal_type(terminal, "*q");
    expect_exit(terminal);
    /* Kept for the next time, which reads nothing. */
    terminal = begin(stage);
    terminal_check(terminal, terminal_find(terminal, READING, NULL) < 0);
    terminal_expect(terminal, "Number 027");
    terminal_type(terminal, "*q");
    expect_exit(terminal);
}

/* An instrument is opened and left, and then the shelf, before all is read. */
static void reading_is_no_hindrance_to_leave(void **state)
{
    struct stage *stage = *state;

    fill_shelf(stage);
    struct terminal *terminal = begin(stage);
    terminal_expect(terminal, READING);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, "[Bench]");
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, ALL ", ");
    terminal_type(terminal, "*q");
    expect_exit(terminal);
    terminal = begin(stage);
    all_are_found(terminal);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_long_shelf_is_read_behind_the_keys, open_stage,
                                        close_stage),
        cmocka_unit_test_setup_teardown(reading_is_no_hindrance_to_leave, open_stage, close_stage),
    };

    if (argc < 2) {
        fprintf(stderr, "usage: test_shelf_long PROGRAM\n");
        return 2;
    }
    program = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
