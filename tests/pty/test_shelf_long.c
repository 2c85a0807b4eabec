/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#include "shelf_stage.h"

/*
 * A shelf of ten thousand instruments on a terminal, without a cache: what is read is listed while
 * the rest is read, keys are answered meanwhile, and in the end nothing is missing.
 */

enum { NAMES = 100, EACH = 100 };

#define ALL     "10000 instruments on file"
#define READING "still to "

static const char *path_of(const struct shelf_stage *stage, int name, int copy)
{
    char file[64];

    snprintf(file, sizeof file, "number-%03d-%03d.ini", name, copy);
    return shelf_stage_path(stage, file);
}

/* Another day for each name, so that the order is not that of the files; the neck needs the rod. */
static void write_one(const struct shelf_stage *stage, int name)
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
static void fill_shelf(const struct shelf_stage *stage)
{
    assert_int_equal(mkdir(stage->shelf, 0700), 0);
    for (int name = 0; name < NAMES; name++) {
        write_one(stage, name);
        for (int copy = 1; copy < EACH; copy++)
            assert_int_equal(link(path_of(stage, name, 0), path_of(stage, name, copy)), 0);
    }
}

static struct terminal *begin(struct shelf_stage *stage)
{
    terminal_stop(stage->terminal);
    stage->terminal = shelf_stage_begin(stage, 0, 0);
    terminal_expect(stage->terminal, ALL);
    return stage->terminal;
}

/* A file's state is kept only once no other change could leave the same times. */
static void wait_until_settled(const struct shelf_stage *stage)
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
    struct shelf_stage *stage = *state;

    fill_shelf(stage);
    wait_until_settled(stage);
    struct terminal *terminal = begin(stage);
    a_key_is_answered_while_it_reads(terminal);
    all_are_found(terminal);
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
    /* Kept for the next time, which reads nothing. */
    terminal = begin(stage);
    terminal_check(terminal, terminal_find(terminal, READING, NULL) < 0);
    terminal_expect(terminal, "Number 027");
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
}

/* An instrument is opened and left, and then the shelf, before all is read. */
static void reading_is_no_hindrance_to_leave(void **state)
{
    struct shelf_stage *stage = *state;

    fill_shelf(stage);
    struct terminal *terminal = begin(stage);
    terminal_expect(terminal, READING);
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_key(terminal, TERMINAL_ESCAPE);
    terminal_expect(terminal, ALL ", ");
    terminal_type(terminal, "*q");
    shelf_stage_expect_exit(terminal, 0);
    terminal = begin(stage);
    all_are_found(terminal);
}

int main(int count, char **words)
{
#define STAGED(test) cmocka_unit_test_setup_teardown(test, shelf_stage_open, shelf_stage_close)
    const struct CMUnitTest tests[] = {
        STAGED(a_long_shelf_is_read_behind_the_keys),
        STAGED(reading_is_no_hindrance_to_leave),
    };

    if (!shelf_stage_arguments(count, words))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
