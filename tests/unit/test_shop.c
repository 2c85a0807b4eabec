/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/paths.h"
#include "store/shop.h"
#include "tree.h"

static bool same_units(const struct shop_units *a, const struct shop_units *b)
{
    return memcmp(a, b, sizeof *a) == 0;
}

static struct shop_units read_units(const char *path, size_t problem_count)
{
    struct problems problems;
    struct shop_units units;

    problems_init(&problems);
    assert_int_equal(shop_read(path, &problems, &units), STATUS_OK);
    assert_int_equal(problems.count, problem_count);
    problems_done(&problems);
    return units;
}

static void a_missing_file_is_an_inch_shop(void **state)
{
    const struct shop_units inch = shop_units_inch();
    const struct shop_units units = read_units(tree_path(*state, "shop.ini"), 0);

    assert_true(same_units(&units, &inch));
}

static void settings_are_read(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    const struct shop_units metric = shop_units_metric();
    struct shop_units wanted = shop_units_inch();

    tree_write_text(path, "[shop]\nunits = metric\n");
    struct shop_units units = read_units(path, 0);
    assert_true(same_units(&units, &metric));
    tree_write_text(path, "; ours\n[Shop]\nfeeler = mm ; leaves\nrule = \"th\"\ndepth = 64ths\n"
                          "gauge = mm\nsmall = in\nlong = mm\ntemperature = F\nunits = inch\n");
    units = read_units(path, 0);
    wanted.bare[MEASURE_FEELER] = UNIT_MM;
    wanted.bare[MEASURE_RULE] = UNIT_TH;
    wanted.bare[MEASURE_DEPTH] = UNIT_64THS;
    wanted.bare[MEASURE_GAUGE] = UNIT_MM;
    wanted.bare[MEASURE_SMALL] = UNIT_IN;
    wanted.bare[MEASURE_LONG] = UNIT_MM;
    wanted.bare[MEASURE_TEMPERATURE] = UNIT_F;
    assert_true(same_units(&units, &wanted));
}

static void what_is_not_understood_is_said(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    const struct shop_units inch = shop_units_inch();

    tree_write_text(path, "[shop]\nunits = furlong\nfeeler = in\ncolour = red\nword\n");
    const struct shop_units units = read_units(path, 4);
    assert_true(same_units(&units, &inch));
}

static void the_letterhead_is_read(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct shop_letterhead head;
    char line[600] = "[shop]\nname = ";

    assert_int_equal(shop_read_letterhead(path, &head), STATUS_OK);
    assert_string_equal(head.name, "");
    assert_int_equal(head.paper, SHOP_PAPER_UNSAID);
    tree_write_text(path, "[shop]\nunits = metric\nname = Quayside Fret Works\n"
                          "address = \"3 Quay Steps%3B upstairs\"\npaper = letter\n");
    assert_int_equal(shop_read_letterhead(path, &head), STATUS_OK);
    assert_string_equal(head.name, "Quayside Fret Works");
    assert_string_equal(head.address, "3 Quay Steps; upstairs");
    assert_string_equal(head.contact, "");
    assert_int_equal(head.paper, SHOP_PAPER_LETTER);
    read_units(path, 0);
    tree_write_text(path, "[shop]\npaper = a5\n");
    read_units(path, 1);
    assert_int_equal(shop_read_letterhead(path, &head), STATUS_OK);
    assert_int_equal(head.paper, SHOP_PAPER_UNSAID);
    memset(line + strlen(line), 'w', 500);
    tree_write_text(path, line);
    assert_int_equal(shop_read_letterhead(path, &head), STATUS_OK);
    assert_int_equal(strlen(head.name), sizeof head.name - 1);
}

static void writing_keeps_the_other_lines(void **state)
{
    const char *path = tree_path(*state, "new/folder/shop.ini");
    struct shop_units units = shop_units_metric();
    struct stat facts;

    units.bare[MEASURE_TEMPERATURE] = UNIT_F;
    assert_int_equal(shop_write(path, &units), STATUS_OK);
    tree_assert_text(path, "[shop]\nunits = metric\ntemperature = F\n");
    assert_int_equal(stat(tree_path(*state, "new/folder"), &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0700);
    tree_write_text(path,
                    "# mine\n[other]\nx = 1\n[shop]\n; leaves\nrule = 64ths ; steel\n[more]\n");
    units = shop_units_metric();
    assert_int_equal(shop_write(path, &units), STATUS_OK);
    tree_assert_text(path, "# mine\n[other]\nx = 1\n[shop]\nunits = metric\n; leaves\n"
                           "rule = mm ; steel\n[more]\n");
    const struct shop_units again = read_units(path, 1);
    assert_true(same_units(&again, &units));
}

static void any_units_survive(void **state)
{
    static const enum unit some[] = {UNIT_TH, UNIT_100THS, UNIT_MM, UNIT_64THS};
    const char *path = tree_path(*state, "shop.ini");

    for (size_t feeler = 0; feeler < 3; feeler++)
        for (size_t gauge = 0; gauge < 3; gauge += 2)
            for (size_t rule = 2; rule < 4; rule++) {
                struct shop_units units = shop_units_inch();

                units.bare[MEASURE_FEELER] = some[feeler];
                units.bare[MEASURE_GAUGE] = some[gauge];
                units.bare[MEASURE_RULE] = some[rule];
                assert_int_equal(shop_write(path, &units), STATUS_OK);
                const struct shop_units again = read_units(path, 0);
                assert_true(same_units(&again, &units));
            }
}

static void assert_folders(const char *data, const char *config)
{
    char *path;

    assert_int_equal(paths_data_folder(&path), STATUS_OK);
    assert_string_equal(path, data);
    free(path);
    assert_int_equal(paths_config_folder(&path), STATUS_OK);
    assert_string_equal(path, config);
    free(path);
}

static void folders_follow_the_environment(void **state)
{
    char *path;

    (void)state;
    setenv("HOME", "/home/bench", 1);
    setenv("XDG_DATA_HOME", "/data", 1);
    setenv("XDG_CONFIG_HOME", "/config/", 1);
    assert_folders("/data/sillet", "/config/sillet");
    setenv("XDG_DATA_HOME", "", 1);
    setenv("XDG_CONFIG_HOME", "not/absolute", 1);
    assert_folders("/home/bench/.local/share/sillet", "/home/bench/.config/sillet");
    unsetenv("XDG_DATA_HOME");
    unsetenv("XDG_CONFIG_HOME");
    assert_folders("/home/bench/.local/share/sillet", "/home/bench/.config/sillet");
    assert_int_equal(shop_path(&path), STATUS_OK);
    assert_string_equal(path, "/home/bench/.config/sillet/shop.ini");
    free(path);
    unsetenv("HOME");
    assert_int_equal(paths_data_folder(&path), STATUS_NOT_FOUND);
    assert_int_equal(shop_path(&path), STATUS_NOT_FOUND);
}

static void folders_are_made(void **state)
{
    const char *path = tree_path(*state, "a/b/c");
    struct stat facts;

    assert_int_equal(paths_make_folder(path), STATUS_OK);
    assert_int_equal(stat(path, &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0700);
    assert_int_equal(paths_make_folder(path), STATUS_OK);
    tree_write_text(tree_path(*state, "file"), "x");
    assert_int_equal(paths_make_folder(tree_path(*state, "file")), STATUS_IO);
    assert_int_equal(paths_make_folder(tree_path(*state, "file/x")), STATUS_IO);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(a_missing_file_is_an_inch_shop),          IN_TREE(settings_are_read),
        IN_TREE(what_is_not_understood_is_said),          IN_TREE(the_letterhead_is_read),
        IN_TREE(writing_keeps_the_other_lines),           IN_TREE(any_units_survive),
        cmocka_unit_test(folders_follow_the_environment), IN_TREE(folders_are_made),
    };

    return cmocka_run_group_tests_name("shop", tests, NULL, NULL) ? 1 : 0;
}
