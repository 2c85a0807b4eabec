/* SPDX-License-Identifier: MIT */
/* An earlier state replaces the present one, which is never lost by that. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/profile/bring_back.h"
#include "store/profile/copies.h"
#include "store/profile/generations.h"
#include "store/profile/lockfile.h"
#include "tree.h"

static const char first[] = "; the shop's own file\n[profile]\nformat = 1\n\n"
                            "; measured with the strings off\n[board]\nscale = 25.5 in\n";

struct bytes_of {
    char *data;
    size_t length;
};

static struct bytes_of read_all(const char *path)
{
    struct bytes_of bytes;

    bytes.data = tree_read(path, &bytes.length);
    assert_non_null(bytes.data);
    return bytes;
}

static void set_scale(const char *path, const char *scale)
{
    struct record record;
    struct profile *profile = steps_open_to_change(path, &record);

    steps_put(&record, "board", "scale", scale);
    steps_save(profile, &record);
    steps_close(profile, &record);
}

static struct copies list_of(const char *path, size_t count)
{
    struct copies list;

    assert_int_equal(copies_list(path, COPY_EARLIER, &list), STATUS_OK);
    assert_int_equal(list.count, count);
    return list;
}

/* A profile with one earlier state, whose path is filled in. */
static const char *begin(void **state, char earlier[400])
{
    const char *path = tree_path(*state, "a.ini");

    tree_remove(*state, ".generations");
    steps_write_whole(path, first);
    set_scale(path, "25.4 in");
    struct copies list = list_of(path, 1);
    snprintf(earlier, 400, "%s", list.items[0].path);
    copies_done(&list);
    return path;
}

static void expect(const char *path, const char *earlier, enum status status, enum brought wanted)
{
    enum brought brought;

    assert_int_equal(bring_back(path, earlier, &brought), status);
    assert_int_equal(brought, wanted);
}

/* Byte for byte, with the comments of that time; what it replaced is the newest earlier one. */
static void one_is_brought_back(void **state)
{
    char earlier[400];
    const char *path = begin(state, earlier);
    struct bytes_of was = read_all(earlier), present;

    tree_write_text(path, "; another hand\n[profile]\nformat = 1\n[board]\nscale = 20 in\n");
    present = read_all(path);
    expect(path, earlier, STATUS_OK, BROUGHT_BACK);
    tree_assert_holds(path, was.data, was.length);
    struct copies list = list_of(path, 2);
    tree_assert_holds(list.items[0].path, present.data, present.length);
    copies_done(&list);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 0);
    free(was.data);
    free(present.data);
}

static void the_same_state_changes_nothing(void **state)
{
    char earlier[400];
    const char *path = begin(state, earlier);
    struct bytes_of was = read_all(earlier);
    struct stat before, after;

    tree_write(path, was.data, was.length);
    assert_int_equal(stat(path, &before), 0);
    expect(path, earlier, STATUS_OK, BROUGHT_SAME);
    assert_int_equal(stat(path, &after), 0);
    assert_int_equal(before.st_ino, after.st_ino);
    struct copies list = list_of(path, 1);
    copies_done(&list);
    free(was.data);
}

/* Nothing is replaced that could not be kept first. */
static void without_a_place_to_keep_it_nothing_changes(void **state)
{
    char earlier[400], elsewhere[400];
    const char *path = begin(state, earlier);
    struct bytes_of present = read_all(path);

    snprintf(elsewhere, sizeof elsewhere, "%s", tree_path(*state, "earlier.ini"));
    assert_int_equal(rename(earlier, elsewhere), 0);
    tree_remove(*state, ".generations");
    tree_write_text(tree_path(*state, ".generations"), "in the way");
    expect(path, elsewhere, STATUS_NOT_REGULAR, BROUGHT_UNKEPT);
    tree_assert_holds(path, present.data, present.length);
    assert_int_equal(unlink(tree_path(*state, ".generations")), 0);
    assert_int_equal(symlink("nowhere", tree_path(*state, ".generations")), 0);
    expect(path, elsewhere, STATUS_NOT_REGULAR, BROUGHT_UNKEPT);
    tree_assert_holds(path, present.data, present.length);
    free(present.data);
}

/* A newest earlier state that is the profile itself by another name has not kept it. */
static void a_link_to_the_profile_keeps_nothing(void **state)
{
    for (int hard = 0; hard < 2; hard++) {
        char earlier[400];
        const char *path = begin(state, earlier);
        const char *newest = tree_path(*state, ".generations/a.ini/000009-2026-11-25T1306.ini");
        struct bytes_of was = read_all(earlier), present = read_all(path);

        assert_int_equal(hard ? link(path, newest) : symlink("../../a.ini", newest), 0);
        expect(path, earlier, STATUS_OK, BROUGHT_BACK);
        tree_assert_holds(path, was.data, was.length);
        struct copies list = list_of(path, hard ? 3 : 2);
        tree_assert_holds(list.items[0].path, present.data, present.length);
        assert_string_not_equal(list.items[0].path, newest);
        copies_done(&list);
        free(was.data);
        free(present.data);
    }
}

/* More states than stay: the oldest is wanted, and is over as soon as the present one is kept. */
static void the_one_asked_for_is_not_dropped(void **state)
{
    char earlier[400];
    const char *path = begin(state, earlier);
    struct bytes_of was = read_all(earlier);

    for (int i = 0; i < GENERATIONS_NEAR; i++) {
        char name[64];

        snprintf(name, sizeof name, ".generations/a.ini/%06d-%.15s.ini", i + 2,
                 strrchr(earlier, '/') + 8);
        tree_write_text(tree_path(*state, name), name);
    }
    expect(path, earlier, STATUS_OK, BROUGHT_BACK);
    tree_assert_holds(earlier, was.data, was.length);
    tree_assert_holds(path, was.data, was.length);
    free(was.data);
}

static void what_is_in_use_is_not_changed(void **state)
{
    char earlier[400];
    const char *path = begin(state, earlier);
    struct bytes_of present = read_all(path);
    struct lockfile_holder holder;
    struct lockfile lock;

    assert_int_equal(lockfile_take(path, &lock, &holder), STATUS_OK);
    expect(path, earlier, STATUS_LOCKED, BROUGHT_NOTHING);
    lockfile_drop(&lock);
    expect(path, tree_path(*state, "none.ini"), STATUS_NOT_FOUND, BROUGHT_NOTHING);
    tree_assert_holds(path, present.data, present.length);
    free(present.data);
}

static void a_later_format_stays_where_it_is(void **state)
{
    static const char later[] = "[profile]\nformat = 99\n[board]\nscale = 20 in\n";
    char earlier[400];
    const char *path = begin(state, earlier), *other = tree_path(*state, "later.ini");
    struct bytes_of present = read_all(path);

    tree_write_text(other, later);
    expect(path, other, STATUS_NEWER, BROUGHT_NOTHING);
    tree_assert_holds(path, present.data, present.length);
    tree_write_text(path, later);
    expect(path, earlier, STATUS_NEWER, BROUGHT_NOTHING);
    tree_assert_text(path, later);
    free(present.data);
}

/* What became of the file does not matter, and it is kept too. */
static void a_broken_profile_is_replaced(void **state)
{
    static const char *const broken[] = {"no profile", "a\x01\x02\x03", ""};

    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++) {
        char earlier[400];
        const char *path = begin(state, earlier);
        struct bytes_of was = read_all(earlier);

        tree_write_text(path, broken[i]);
        expect(path, earlier, STATUS_OK, BROUGHT_BACK);
        tree_assert_holds(path, was.data, was.length);
        struct copies list = list_of(path, 2);
        tree_assert_text(list.items[0].path, broken[i]);
        copies_done(&list);
        free(was.data);
    }
}

/* One that is no profile itself is no help. */
static void a_broken_state_is_refused(void **state)
{
    char earlier[400];
    const char *path = begin(state, earlier);
    struct bytes_of present = read_all(path);

    tree_write_text(earlier, "no profile");
    expect(path, earlier, STATUS_SYNTAX, BROUGHT_NOTHING);
    assert_int_equal(unlink(earlier), 0);
    assert_int_equal(symlink(path, earlier), 0);
    expect(path, earlier, STATUS_NOT_REGULAR, BROUGHT_NOTHING);
    tree_assert_holds(path, present.data, present.length);
    free(present.data);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(one_is_brought_back),
        CASE(the_same_state_changes_nothing),
        CASE(without_a_place_to_keep_it_nothing_changes),
        CASE(a_link_to_the_profile_keeps_nothing),
        CASE(the_one_asked_for_is_not_dropped),
        CASE(what_is_in_use_is_not_changed),
        CASE(a_later_format_stays_where_it_is),
        CASE(a_broken_profile_is_replaced),
        CASE(a_broken_state_is_refused),
    };
    return cmocka_run_group_tests_name("bring_back", tests, NULL, NULL) ? 1 : 0;
}
