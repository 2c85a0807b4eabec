/* SPDX-License-Identifier: MIT */
/* The second place for a record that cannot be saved to its own file. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/profile/aside.h"
#include "tree.h"

static const char start[] = "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n";

static const char *begin(void **state)
{
    const char *path = tree_path(*state, "a.ini");

    assert_int_equal(setenv("XDG_STATE_HOME", tree_path(*state, "state"), 1), 0);
    steps_write_whole(path, start);
    return path;
}

/* As a session that could not save leaves it, nor saw what one before it had left. */
static void leave_aside(const char *path, const char *frets)
{
    char *aside = NULL;
    struct record record;
    struct profile *profile = steps_open_to_change(path, &record);

    steps_put(&record, "board", "frets", frets);
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_OK);
    steps_close(profile, &record);
    free(aside);
}

static int count_aside(void **state)
{
    return tree_count(tree_path(*state, "state/sillet/aside"), "");
}

static void what_was_kept_comes_back(void **state)
{
    const char *path = begin(state);
    const struct reading_key frets = steps_key("board", "frets");
    struct record record;
    char *aside = NULL;

    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "frets", "20");
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_OK);
    steps_put(&record, "board", "frets", "21"); /* the later one counts */
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_OK);
    steps_close(profile, &record);
    free(aside);
    aside = NULL;
    assert_int_equal(count_aside(state), 1);
    profile = steps_open(path);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_RECORD);
    assert_string_equal(record_text(&record, &frets), "21");
    steps_save(profile, &record);
    steps_close(profile, &record);
    aside_drop(&aside);
    assert_null(aside);
    assert_int_equal(count_aside(state), 0);
}

static void expect_frets(const char *path, const char *wanted)
{
    const struct reading_key frets = steps_key("board", "frets");
    struct profile *profile;

    assert_int_equal(profile_open(path, PROFILE_TO_READ, NULL, &profile), STATUS_OK);
    assert_string_equal(record_text(profile_record(profile), &frets), wanted);
    profile_close(profile);
}

/* Opened, and what was found is saved. */
static enum aside_found open_and_save(const char *path)
{
    char *aside = NULL;
    struct record record;
    struct profile *profile = steps_open(path);
    const enum aside_found found = aside_find(profile, &record, &aside);

    if (found == ASIDE_RECORD) {
        steps_save(profile, &record);
        record_done(&record);
        aside_drop(&aside);
    }
    profile_close(profile);
    free(aside);
    return found;
}

/* A session that could not see what another left keeps its own under a name that is free. */
static void no_session_destroys_what_another_left(void **state)
{
    const char *path = begin(state);

    leave_aside(path, "20");
    leave_aside(path, "21");
    leave_aside(path, "22");
    assert_int_equal(count_aside(state), 3);
    assert_int_equal(open_and_save(path), ASIDE_RECORD);
    expect_frets(path, "20");
    assert_int_equal(open_and_save(path), ASIDE_BESIDE);
    assert_int_equal(open_and_save(path), ASIDE_BESIDE);
    assert_int_equal(open_and_save(path), ASIDE_NONE);
    expect_frets(tree_path(*state, "a.ini.aside"), "21");
    expect_frets(tree_path(*state, "a.ini.aside.2"), "22");
    assert_int_equal(count_aside(state), 0);
}

/* That there is none is another thing than that nobody can tell. */
static void a_folder_that_cannot_be_read_is_told(void **state)
{
    const char *path = begin(state), *folder = tree_path(*state, "state/sillet/aside");
    struct record record;
    char *aside = NULL;

    assert_int_equal(mkdir(tree_path(*state, "state"), 0700), 0);
    assert_int_equal(mkdir(tree_path(*state, "state/sillet"), 0700), 0);
    tree_write_text(folder, "no folder");
    struct profile *profile = steps_open(path);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_UNSEEN);
    assert_string_equal(aside, folder);
    profile_close(profile);
    free(aside);
}

static void it_is_the_owners_alone(void **state)
{
    const char *path = begin(state);
    const mode_t mask = umask(0);
    struct stat facts;
    struct record record;
    char *aside = NULL;

    leave_aside(path, "20");
    umask(mask);
    struct profile *profile = steps_open(path);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_RECORD);
    steps_close(profile, &record);
    assert_int_equal(stat(aside, &facts), 0);
    assert_int_equal(facts.st_mode & 07777, 0600);
    assert_int_equal(stat(tree_path(*state, "state/sillet/aside"), &facts), 0);
    assert_int_equal(facts.st_mode & 07777, 0700);
    free(aside);
}

/* Neither of two states is thrown away. */
static void one_of_another_state_goes_beside(void **state)
{
    const char *path = begin(state);
    const struct reading_key frets = steps_key("board", "frets");
    struct record record;
    char *aside = NULL;

    leave_aside(path, "20");
    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\n");
    struct profile *profile = steps_open(path);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_BESIDE);
    assert_string_equal(aside, tree_path(*state, "a.ini.aside"));
    profile_close(profile);
    profile = steps_open(aside);
    assert_string_equal(record_text(profile_record(profile), &frets), "20");
    profile_close(profile);
    assert_int_equal(count_aside(state), 0);
    free(aside);
}

static void damaged_ones_are_kept_too(void **state)
{
    const char *path = begin(state);
    struct record record;
    char *aside = NULL;

    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "frets", "21");
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_OK);
    tree_write_text(aside, "\x01 not a profile");
    free(aside);
    record_done(&record);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_BESIDE);
    tree_assert_text(aside, "\x01 not a profile");
    profile_close(profile);
    free(aside);
}

/* While the profile can only be read, it is told of and nothing is moved. */
static void it_waits_for_a_profile_that_can_be_written(void **state)
{
    const char *path = begin(state);
    struct profile *profile;
    struct record record;
    char *aside = NULL;

    leave_aside(path, "20");
    assert_int_equal(profile_open(path, PROFILE_TO_READ, NULL, &profile), STATUS_OK);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_STAYS);
    assert_int_equal(access(aside, R_OK), 0);
    profile_close(profile);
    free(aside);
    assert_int_equal(count_aside(state), 1);
}

static void what_is_on_disk_already_goes_silently(void **state)
{
    const char *path = begin(state);
    struct record record;
    char *aside = NULL;

    leave_aside(path, "20");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "frets", "20");
    steps_save(profile, &record);
    record_done(&record);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_NONE);
    assert_null(aside);
    profile_close(profile);
    assert_int_equal(count_aside(state), 0);
}

/* Two files of one name in two folders are two files. */
static void others_are_left_alone(void **state)
{
    const char *path = begin(state), *other = tree_path(*state, "other/a.ini");
    struct record record;
    char *aside = NULL;

    assert_int_equal(mkdir(tree_path(*state, "other"), 0700), 0);
    steps_write_whole(other, start);
    leave_aside(path, "20");
    struct profile *profile = steps_open(other);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_NONE);
    profile_close(profile);
    assert_int_equal(count_aside(state), 1);
}

/* Nothing is written through a link that has the name, and none is taken for readings. */
static void a_link_aside_is_not_followed(void **state)
{
    const char *path = begin(state), *victim = tree_path(*state, "victim.ini");
    struct record record;
    char *aside = NULL, *found = NULL;
    struct profile *profile = steps_open_to_change(path, &record);

    steps_put(&record, "board", "frets", "20");
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_OK);
    assert_int_equal(rename(aside, victim), 0);
    assert_int_equal(symlink(victim, aside), 0);
    steps_put(&record, "board", "frets", "21");
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_NOT_REGULAR);
    record_done(&record);
    assert_int_equal(aside_find(profile, &record, &found), ASIDE_STAYS);
    profile_close(profile);
    profile = steps_open(victim);
    const struct reading_key frets = steps_key("board", "frets");
    assert_string_equal(record_text(profile_record(profile), &frets), "20");
    profile_close(profile);
    free(aside);
    free(found);
}

static void without_a_place_it_fails(void **state)
{
    const char *path = begin(state);
    struct record record;
    char *aside = NULL;
    struct profile *profile = steps_open_to_change(path, &record);

    tree_write_text(tree_path(*state, "file"), "");
    assert_int_equal(setenv("XDG_STATE_HOME", tree_path(*state, "file"), 1), 0);
    assert_int_not_equal(aside_keep(profile, &record, &aside), STATUS_OK);
    assert_int_equal(unsetenv("XDG_STATE_HOME"), 0);
    assert_int_equal(unsetenv("HOME"), 0);
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_NOT_FOUND);
    assert_null(aside);
    steps_close(profile, &record);
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(what_was_kept_comes_back),
        CASE(no_session_destroys_what_another_left),
        CASE(a_folder_that_cannot_be_read_is_told),
        CASE(it_is_the_owners_alone),
        CASE(one_of_another_state_goes_beside),
        CASE(damaged_ones_are_kept_too),
        CASE(it_waits_for_a_profile_that_can_be_written),
        CASE(what_is_on_disk_already_goes_silently),
        CASE(others_are_left_alone),
        CASE(a_link_aside_is_not_followed),
        CASE(without_a_place_it_fails),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
