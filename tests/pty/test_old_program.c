/* SPDX-License-Identifier: MIT */

/* Every profile of the tree in the real program: opened, looked at on all leaves, edited once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "old_files.h"
#include "shop_day.h"

static struct old_files files;

static void look_at_all(struct terminal *terminal)
{
    static const char *const leaves[] = {"Intake", "Strings", "Pitch",   "Frets",
                                         "Neck",   "Work",    "History", "Strings"};

    for (size_t i = 0; i < sizeof leaves / sizeof leaves[0]; i++)
        day_turn_to(terminal, leaves[i]);
}

static void check_file(struct bench *bench, const char *path)
{
    char *before = tree_read(path, NULL);

    assert_non_null(before);
    tree_write_text(bench->profile, before);
    struct terminal *terminal = bench_start(bench);
    look_at_all(terminal);
    tree_assert_text(bench->profile, before);
    terminal_key(terminal, TERMINAL_RIGHT);
    terminal_expect(terminal, " gauge, string ");
    bench_enter(terminal, ".0995");
    terminal_settle(terminal);
    terminal_key(terminal, TERMINAL_ENTER); /* such a gauge may be asked about */
    terminal_expect(terminal, SEEN_KEPT);
    bench_quit(terminal);
    old_files_check(path, before, tree_read(bench->profile, NULL));
}

static void an_old_file_opens_and_changes_only_where_it_is_edited(void **state)
{
    assert_true(files.count > 0);
    for (int i = 0; i < files.count; i++)
        check_file(*state, files.path[i]);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(an_old_file_opens_and_changes_only_where_it_is_edited),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    for (int i = 3; i < argc; i++)
        old_files_find(argv[i], &files);
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
