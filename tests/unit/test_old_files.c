/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>

#include "bench_session.h"
#include "old_files.h"
#include "profile_steps.h"
#include "tree.h"

/*
 * Every profile of the tree, those of earlier versions too, found in the folders that are given as
 * arguments: opened, turned through and edited once, its file is what it was but for that edit.
 */

static struct old_files files;

/* Opened and turned through it is not written; then a gauge is changed in its last visit. */
static void check_file(const char *path, const char *copy)
{
    char *before = tree_read(path, NULL);
    struct record record;

    assert_non_null(before);
    tree_write_text(copy, before);
    struct profile *profile = steps_open_to_change(copy, &record);
    struct app *app = malloc(sizeof *app);
    assert_non_null(app);
    bench_start_record(app, &record, false, false);
    if (bench_press(app, "{F1}{F2}{F3}{F4}{F5}{F6}{F7}{F8}{F3}{Right}").save)
        fail_msg("%s is written though nothing was changed", path);
    assert_true(bench_press(app, ".0995{Enter}{Enter}").save);
    steps_save(profile, &app->record);
    profile_close(profile);
    bench_close(app);
    old_files_check(path, before, tree_read(copy, NULL));
}

static void an_old_file_changes_only_where_it_is_edited(void **state)
{
    assert_true(files.count > 0);
    for (int i = 0; i < files.count; i++)
        check_file(files.path[i], tree_path(*state, "copy.ini"));
}

static void another_change_would_be_found(void **state)
{
    static const char was[] = "[profile]\nformat = 1\n\n[string.1]\ngauge = .010 in\ncore = 1 mm\n";
    static const char same[] =
        "[profile]\nformat = 1\n\n[string.1]\ngauge = .0995 in\ncore = 1 mm\n"
        "\n[end]\nlines = 6\n";
    static const char added[] =
        "[profile]\nformat = 2\n\n[string.1]\ngauge = .010 in\ncore = 1 mm\n"
        "\n[visit.1.string.1]\ngauge = .0995 in\n";
    static const char *const others[] = {
        "[profile]\nformat = 1\n\n[string.1]\ngauge = .0995 in\n",
        "[profile]\nformat = 1\n\n[string.1]\ngauge = .0995 in\ncore = 2 mm\n",
        "[profile]\nformat = 1\n[string.1]\ngauge = .0995 in\ncore = 1 mm\n",
        "[profile]\nformat = 1\n\n[string.1]\ngauge = .010 in\ncore = 1 mm\n",
    };

    (void)state;
    assert_true(old_files_is_edited(was, same, OLD_FILES_EDIT));
    assert_true(old_files_is_edited(was, added, OLD_FILES_EDIT));
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        assert_false(old_files_is_edited(was, others[i], OLD_FILES_EDIT));
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(an_old_file_changes_only_where_it_is_edited, tree_setup,
                                        tree_teardown),
        cmocka_unit_test(another_change_would_be_found),
    };

    for (int i = 1; i < argc; i++)
        old_files_find(argv[i], &files);
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
