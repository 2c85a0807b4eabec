/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/profile/copies.h"
#include "store/profile/generations.h"
#include "store/profile/profile.h"
#include "tree.h"

#define FOLDER ".generations/a.ini"

static const char first[] = "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n";

static const char *profile_at(void **state)
{
    const char *path = tree_path(*state, "a.ini");

    steps_write_whole(path, first);
    tree_remove(*state, ".generations");
    return path;
}

static void set_scale(const char *path, const char *scale)
{
    struct record record;
    struct profile *profile = steps_open_to_change(path, &record);

    steps_put(&record, "board", "scale", scale);
    steps_save(profile, &record);
    steps_close(profile, &record);
}

static void assert_scale(const char *path, const char *scale)
{
    const struct reading_key key = reading_key_one(FIELD_SCALE);
    struct profile *profile;

    assert_int_equal(profile_open(path, PROFILE_TO_READ, NULL, &profile), STATUS_OK);
    assert_string_equal(record_text(profile_record(profile), &key), scale);
    profile_close(profile);
}

static struct copies list_of(const char *path, size_t count)
{
    struct copies list;

    assert_int_equal(copies_list(path, COPY_EARLIER, &list), STATUS_OK);
    assert_int_equal(list.count, count);
    return list;
}

static void each_session_keeps_what_it_found(void **state)
{
    const char *path = profile_at(state);
    struct record record;
    struct profile *profile = steps_open_to_change(path, &record);

    steps_put(&record, "board", "scale", "25.4 in");
    steps_save(profile, &record);
    steps_put(&record, "board", "scale", "25.3 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    set_scale(path, "25.2 in");

    struct copies list = list_of(path, 2);
    assert_int_equal(list.items[0].number, 2);
    assert_int_equal(list.items[1].number, 1);
    assert_scale(list.items[0].path, "25.3 in");
    assert_scale(list.items[1].path, "25.5 in");
    assert_scale(path, "25.2 in");
    copies_done(&list);
}

static void a_session_without_a_change_keeps_nothing(void **state)
{
    const char *path = profile_at(state);
    struct record record;
    struct profile *profile = steps_open_to_change(path, &record);

    steps_save(profile, &record);
    steps_close(profile, &record);
    struct copies list = list_of(path, 0);
    copies_done(&list);
}

static void they_are_the_owners_alone(void **state)
{
    const char *path = profile_at(state);
    const mode_t mask = umask(0);
    struct stat facts;

    set_scale(path, "25.4 in");
    umask(mask);
    struct copies list = list_of(path, 1);
    assert_int_equal(stat(list.items[0].path, &facts), 0);
    assert_int_equal(facts.st_mode & 07777, 0600);
    copies_done(&list);
    assert_int_equal(stat(tree_path(*state, FOLDER), &facts), 0);
    assert_int_equal(facts.st_mode & 07777, 0700);
    assert_int_equal(stat(tree_path(*state, ".generations"), &facts), 0);
    assert_int_equal(facts.st_mode & 07777, 0700);
}

static void keep_text(const char *path, const char *text)
{
    struct bytes bytes;

    bytes_init(&bytes);
    bytes_add_text(&bytes, text);
    assert_int_equal(generations_keep(path, &bytes, NULL), STATUS_OK);
    bytes_done(&bytes);
}

static void write_generation(void **state, int number, const char *when)
{
    char name[64], text[32];

    snprintf(name, sizeof name, FOLDER "/%06d-%s.ini", number, when);
    snprintf(text, sizeof text, "; %d\n", number);
    tree_write_text(tree_path(*state, name), text);
}

/* 60 of them, two a day, in January and February; the newest 20 stay with the new one, and
 * of the others the last of January. */
static void old_ones_thin_out_to_one_a_month(void **state)
{
    bool january = false;

    keep_text(profile_at(state), "; first\n");
    for (int i = 0; i < 60; i++) {
        char when[24];

        snprintf(when, sizeof when, "2020-%02d-%02dT%02d00", 1 + i / 32, 1 + i / 2 % 16,
                 8 + i % 2 * 4);
        write_generation(state, 2 + i, when);
    }
    const char *path = tree_path(*state, "a.ini");
    keep_text(path, "; last\n");
    struct copies list = list_of(path, GENERATIONS_NEAR + 2);
    assert_int_equal(list.items[0].number, 62);
    for (size_t i = 1; i < GENERATIONS_NEAR; i++)
        assert_int_equal(list.items[i].number, 62 - (int)i);
    for (size_t i = GENERATIONS_NEAR; i < list.count; i++)
        if (strncmp(list.items[i].when, "2020-01", 7) == 0) {
            january = true;
            assert_int_equal(list.items[i].number, 33);
        }
    assert_true(january);
    copies_done(&list);
}

/* A clock that was wrong, or has gone back, does not put an older state on top. */
static void order_goes_by_number(void **state)
{
    const char *path = profile_at(state);

    keep_text(path, "; first\n");
    write_generation(state, 7, "2999-12-31T2359");
    keep_text(path, "; now\n");
    struct copies list = list_of(path, 3);
    assert_int_equal(list.items[0].number, 8);
    assert_int_equal(list.items[1].number, 7);
    assert_string_equal(list.items[1].when, "2999-12-31 23:59");
    tree_assert_text(list.items[0].path, "; now\n");
    copies_done(&list);
}

/* A number that nobody counted up to takes no place among ours, and stays where it is. */
static void a_made_up_number_is_no_state_of_ours(void **state)
{
    static const int numbers[] = {999999, 999998, 500000};

    for (int held = 0; held < 2; held++) {
        const char *path = profile_at(state);

        if (held)
            keep_text(path, "; held\n");
        else
            assert_int_equal(mkdir(tree_path(*state, ".generations"), 0700), 0);
        if (!held)
            assert_int_equal(mkdir(tree_path(*state, FOLDER), 0700), 0);
        for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
            write_generation(state, numbers[i], "2026-11-28T1000");
        keep_text(path, "; first\n");
        keep_text(path, "; second, of the same minute\n");
        struct copies list = list_of(path, 2 + (size_t)held);
        assert_int_equal(list.items[0].number, 2 + held);
        assert_int_equal(list.items[1].number, 1 + held);
        tree_assert_text(list.items[0].path, "; second, of the same minute\n");
        copies_done(&list);
        assert_int_equal(tree_count(tree_path(*state, FOLDER), "2026-11-28T1000"), 3);
    }
}

/* Numbers that are used up are said, and nothing is put before the others. */
static void there_is_no_number_after_the_last(void **state)
{
    const char *path = profile_at(state);
    struct bytes bytes;

    keep_text(path, "; first\n");
    for (int number = 99999; number <= 999999; number += 100000)
        write_generation(state, number, "2026-11-28T1000");
    bytes_init(&bytes);
    bytes_add_text(&bytes, "; one more\n");
    assert_int_equal(generations_keep(path, &bytes, NULL), STATUS_FULL);
    bytes_done(&bytes);
    struct copies list = list_of(path, 11);
    assert_int_equal(list.items[10].number, 1);
    copies_done(&list);
}

static void a_folder_that_cannot_be_read_is_not_empty(void **state)
{
    const char *path = profile_at(state);
    struct copies list;

    if (geteuid() == 0) {
        print_error("!!! NOT TESTED: nothing is closed to an administrator\n");
        skip();
    }
    keep_text(path, "; first\n");
    assert_int_equal(chmod(tree_path(*state, FOLDER), 0300), 0);
    assert_int_equal(copies_list(path, COPY_EARLIER, &list), STATUS_READ_ONLY);
    assert_int_equal(chmod(tree_path(*state, FOLDER), 0700), 0);
}

static void the_same_state_is_kept_once(void **state)
{
    const char *path = profile_at(state);

    keep_text(path, "; same\n");
    keep_text(path, "; same\n");
    keep_text(path, "; other\n");
    keep_text(path, "; same\n");
    struct copies list = list_of(path, 3);
    copies_done(&list);
}

static void other_files_are_left_alone(void **state)
{
    static const char *const names[] = {
        FOLDER "/notes.txt",
        FOLDER "/000001-2026-11-25T1306.ini~",
        FOLDER "/00001a-2026-11-25T1306.ini",
        FOLDER "/000000-2026-11-25T1306.ini.x",
    };
    const char *path = profile_at(state);

    keep_text(path, "; first\n");
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        tree_write_text(tree_path(*state, names[i]), "mine");
    struct copies list = list_of(path, 1);
    copies_done(&list);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        tree_assert_text(tree_path(*state, names[i]), "mine");
}

/* Where nothing can be kept, the reading still is, and it is told. */
static void a_save_does_not_hang_on_it(void **state)
{
    const char *path = profile_at(state);
    struct record record;

    tree_write_text(tree_path(*state, ".generations"), "in the way");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "scale", "24 in");
    steps_save(profile, &record);
    assert_true(profile_notices(profile) & PROFILE_NO_GENERATION);
    steps_close(profile, &record);
    assert_scale(path, "24 in");
}

/* A link's generations lie beside the file that it leads to. */
static void links_are_followed(void **state)
{
    const char *path = profile_at(state), *link = tree_path(*state, "link.ini");

    assert_int_equal(symlink(path, link), 0);
    set_scale(link, "25.4 in");
    struct copies list = list_of(path, 1);
    copies_done(&list);
}

/* In the order of the kinds: a link of either sort, of any age, keeps nothing by itself. */
static void a_link_keeps_nothing(void **state)
{
    const char *newest = tree_path(*state, FOLDER "/000009-2026-11-25T1306.ini");

    for (int hard = 0; hard < 2; hard++) {
        const char *path = profile_at(state);
        size_t length;
        char *before = tree_read(path, &length);

        keep_text(path, "; older\n");
        assert_int_equal(hard ? link(path, newest) : symlink("../../a.ini", newest), 0);
        set_scale(path, "24 in");
        struct copies list = list_of(path, hard ? 3 : 2);
        assert_true(list.items[0].number != 9);
        tree_assert_holds(list.items[0].path, before, length);
        copies_done(&list);
        free(before);
    }
}

/* A folder that leads elsewhere is none of ours: nothing is read or written there. */
static void a_linked_folder_is_not_followed(void **state)
{
    static const char *const names[] = {".generations", FOLDER};

    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *path = profile_at(state);
        struct record record;

        tree_remove(*state, "far");
        assert_int_equal(mkdir(tree_path(*state, "far"), 0700), 0);
        tree_write_text(tree_path(*state, "far/000001-2026-11-25T1306.ini"), "mine");
        if (i == 1)
            assert_int_equal(mkdir(tree_path(*state, ".generations"), 0700), 0);
        assert_int_equal(symlink(tree_path(*state, "far"), tree_path(*state, names[i])), 0);
        struct copies list = list_of(path, 0);
        copies_done(&list);
        assert_int_equal(generations_room(path), GENERATIONS_CLOSED);
        struct profile *profile = steps_open_to_change(path, &record);
        assert_true(profile_notices(profile) & PROFILE_NO_GENERATION); /* said at open */
        steps_put(&record, "board", "scale", "24 in");
        steps_save(profile, &record);
        assert_int_equal(profile_generation_status(profile), STATUS_NOT_REGULAR);
        steps_close(profile, &record);
        assert_int_equal(tree_count(tree_path(*state, "far"), ""), 1);
        assert_int_equal(unlink(tree_path(*state, names[i])), 0);
    }
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(each_session_keeps_what_it_found),
        CASE(a_session_without_a_change_keeps_nothing),
        CASE(they_are_the_owners_alone),
        CASE(old_ones_thin_out_to_one_a_month),
        CASE(order_goes_by_number),
        CASE(a_made_up_number_is_no_state_of_ours),
        CASE(there_is_no_number_after_the_last),
        CASE(a_folder_that_cannot_be_read_is_not_empty),
        CASE(the_same_state_is_kept_once),
        CASE(other_files_are_left_alone),
        CASE(a_save_does_not_hang_on_it),
        CASE(links_are_followed),
        CASE(a_link_keeps_nothing),
        CASE(a_linked_folder_is_not_followed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
