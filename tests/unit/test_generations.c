/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/file_read.h"
#include "store/generations.h"
#include "store/lockfile.h"
#include "store/profile.h"
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

static struct generations list_of(const char *path, size_t count)
{
    struct generations list;

    assert_int_equal(generations_list(path, &list), STATUS_OK);
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

    struct generations list = list_of(path, 2);
    assert_int_equal(list.items[0].number, 2);
    assert_int_equal(list.items[1].number, 1);
    assert_scale(list.items[0].path, "25.3 in");
    assert_scale(list.items[1].path, "25.5 in");
    assert_scale(path, "25.2 in");
    generations_done(&list);
}

static void a_session_without_a_change_keeps_nothing(void **state)
{
    const char *path = profile_at(state);
    struct record record;
    struct profile *profile = steps_open_to_change(path, &record);

    steps_save(profile, &record);
    steps_close(profile, &record);
    struct generations list = list_of(path, 0);
    generations_done(&list);
}

static void they_are_the_owners_alone(void **state)
{
    const char *path = profile_at(state);
    const mode_t mask = umask(0);
    struct stat facts;

    set_scale(path, "25.4 in");
    umask(mask);
    struct generations list = list_of(path, 1);
    assert_int_equal(stat(list.items[0].path, &facts), 0);
    assert_int_equal(facts.st_mode & 07777, 0600);
    generations_done(&list);
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
    assert_int_equal(generations_keep(path, &bytes), STATUS_OK);
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
    struct generations list = list_of(path, GENERATIONS_NEAR + 2);
    assert_int_equal(list.items[0].number, 62);
    for (size_t i = 1; i < GENERATIONS_NEAR; i++)
        assert_int_equal(list.items[i].number, 62 - (int)i);
    for (size_t i = GENERATIONS_NEAR; i < list.count; i++)
        if (strncmp(list.items[i].when, "2020-01", 7) == 0) {
            january = true;
            assert_int_equal(list.items[i].number, 33);
        }
    assert_true(january);
    generations_done(&list);
}

/* A clock that was wrong, or has gone back, does not put an older state on top. */
static void order_goes_by_number(void **state)
{
    const char *path = profile_at(state);

    keep_text(path, "; first\n");
    write_generation(state, 7, "2999-12-31T2359");
    keep_text(path, "; now\n");
    struct generations list = list_of(path, 3);
    assert_int_equal(list.items[0].number, 8);
    assert_int_equal(list.items[1].number, 7);
    assert_string_equal(list.items[1].when, "2999-12-31 23:59");
    tree_assert_text(list.items[0].path, "; now\n");
    generations_done(&list);
}

static void the_same_state_is_kept_once(void **state)
{
    const char *path = profile_at(state);

    keep_text(path, "; same\n");
    keep_text(path, "; same\n");
    keep_text(path, "; other\n");
    keep_text(path, "; same\n");
    struct generations list = list_of(path, 3);
    generations_done(&list);
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
    struct generations list = list_of(path, 1);
    generations_done(&list);
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

static void one_is_brought_back(void **state)
{
    const char *path = profile_at(state);

    set_scale(path, "25.4 in");
    set_scale(path, "25.3 in");
    struct generations list = list_of(path, 2);
    assert_int_equal(generations_bring_back(path, list.items[1].path), STATUS_OK);
    assert_scale(path, "25.5 in");
    generations_done(&list);
    list = list_of(path, 3);
    assert_scale(list.items[0].path, "25.3 in");
    generations_done(&list);
}

static void what_is_in_use_is_not_changed(void **state)
{
    const char *path = profile_at(state);
    struct lockfile_holder holder;
    struct lockfile lock;

    set_scale(path, "25.4 in");
    struct generations list = list_of(path, 1);
    assert_int_equal(lockfile_take(path, &lock, &holder), STATUS_OK);
    assert_int_equal(generations_bring_back(path, list.items[0].path), STATUS_LOCKED);
    lockfile_drop(&lock);
    assert_scale(path, "25.4 in");
    assert_int_equal(generations_bring_back(path, tree_path(*state, "none.ini")), STATUS_NOT_FOUND);
    generations_done(&list);
}

static void a_later_format_stays_where_it_is(void **state)
{
    const char *path = profile_at(state), *later = tree_path(*state, "later.ini");

    tree_write_text(later, "[profile]\nformat = 99\n[board]\nscale = 20 in\n");
    assert_int_equal(generations_bring_back(path, later), STATUS_NEWER);
    assert_scale(path, "25.5 in");
}

/* What became of the file does not matter, and it is kept too. */
static void a_broken_profile_is_replaced(void **state)
{
    static const char *const broken[] = {"no profile", "a\x01\x02\x03"};
    const char *path = profile_at(state), *found = tree_path(*state, "a.ini.as-found");

    set_scale(path, "25.4 in");
    struct generations list = list_of(path, 1);
    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++) {
        tree_write_text(path, broken[i]);
        assert_int_equal(generations_bring_back(path, list.items[0].path), STATUS_OK);
        assert_scale(path, "25.5 in");
        tree_assert_text(found, broken[i]);
        assert_int_equal(unlink(found), 0);
    }
    generations_done(&list);
}

/* A link's generations lie beside the file that it leads to. */
static void links_are_followed(void **state)
{
    const char *path = profile_at(state), *link = tree_path(*state, "link.ini");

    assert_int_equal(symlink(path, link), 0);
    set_scale(link, "25.4 in");
    struct generations list = list_of(path, 1);
    generations_done(&list);
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
        CASE(the_same_state_is_kept_once),
        CASE(other_files_are_left_alone),
        CASE(a_save_does_not_hang_on_it),
        CASE(one_is_brought_back),
        CASE(what_is_in_use_is_not_changed),
        CASE(a_later_format_stays_where_it_is),
        CASE(a_broken_profile_is_replaced),
        CASE(links_are_followed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
