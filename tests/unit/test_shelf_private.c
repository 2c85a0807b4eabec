/* SPDX-License-Identifier: MIT */
/* Whatever an instrument is called, it is filed in the shelf's own folder and for the owner
 * alone, even with a umask of 0. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/profile/preset.h"
#include "store/shelf/shelf_change.h"
#include "store/shop.h"
#include "tree.h"

static const char *const hostile[] = {
    "../../x",    "/etc/passwd",  ".hidden",    "..",       ".",          "a/../../b", "~root",
    "x.ini/../y", "\\..\\x",      "a\nb",       "%2e%2e/x", "a b",        "con",       "-rf",
    "archive",    ".generations", "x.ini.lock", "\x7F",     "\xC0\xAE/x", "*?[]",      "$(x) `x`",
};

static char *file_as(void **state, const char *name)
{
    struct record record;
    char *file = NULL;

    assert_int_equal(preset_record(preset_get(0), &record), STATUS_OK);
    const enum status status =
        shelf_file_record(tree_path(*state, "home/shelf"), &record, name, &file);
    record_done(&record);
    /* A text that no reading can hold is refused before anything is made. */
    if (status != STATUS_OK)
        assert_null(file);
    return file;
}

static void expect_plain_inside(void **state, const char *file)
{
    char inside[400];
    struct stat facts;

    assert_null(strchr(file, '/'));
    assert_true(file[0] != '.' && file[0] != '-' && strlen(file) < 100);
    snprintf(inside, sizeof inside, "home/shelf/%s", file);
    assert_int_equal(lstat(tree_path(*state, inside), &facts), 0);
    assert_true(S_ISREG(facts.st_mode));
    assert_int_equal(facts.st_mode & 07777, 0600);
}

static void no_name_leads_out_of_the_shelf(void **state)
{
    const struct tree *tree = *state;
    char longest[FIELD_TEXT_MAX + 1];
    int filed = 0;

    for (size_t i = 0; i < sizeof hostile / sizeof hostile[0]; i++) {
        char *file = file_as(state, hostile[i]);

        if (file) {
            expect_plain_inside(state, file);
            filed++;
        }
        free(file);
    }
    memset(longest, 'a', sizeof longest - 1);
    longest[300] = '\0';
    char *file = file_as(state, longest);
    assert_non_null(file);
    expect_plain_inside(state, file);
    free(file);
    assert_true(filed > 15);
    /* And nothing else came to be, here or in home/. */
    assert_int_equal(tree_count(tree_path(tree, "home/shelf"), ""), filed + 1);
    assert_int_equal(tree_count(tree_path(tree, "home"), ""), 1);
    assert_int_equal(tree_count(tree->folder, ""), 1);
}

static int mode_of(void **state, const char *name)
{
    struct stat facts;

    assert_int_equal(lstat(tree_path(*state, name), &facts), 0);
    return (int)(facts.st_mode & 07777);
}

/* With a umask of 0 nothing is left to the user's settings. */
static void everything_is_for_the_owner_alone(void **state)
{
    const mode_t mask = umask(0);
    const struct shop_units metric = shop_units_metric();
    struct record record;
    char *file = file_as(state, "Uke"), *kept = NULL;

    assert_int_equal(shop_write(tree_path(*state, "shop.ini"), &metric), STATUS_OK);
    const char *path = tree_path(*state, "home/shelf/uke.ini");
    struct profile *profile = steps_open_to_change(path, &record);
    assert_int_equal(mode_of(state, "home/shelf/uke.ini.lock"), 0600);
    tree_write_text(path, steps_tiny); /* somebody else's hand: ours goes beside it */
    assert_int_equal(chmod(path, 0600), 0);
    steps_put(&record, "instrument", "owner", "Marlo");
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    steps_close(profile, &record);
    profile = steps_open_to_change(path, &record);
    steps_put(&record, "instrument", "owner", "Marlo");
    steps_save(profile, &record); /* the one by hand is kept as found */
    steps_close(profile, &record);
    assert_int_equal(shelf_archive(tree_path(*state, "home/shelf"), file, &kept), STATUS_OK);
    umask(mask);
    assert_int_equal(mode_of(state, "shop.ini"), 0600);
    assert_int_equal(mode_of(state, "home"), 0700);
    assert_int_equal(mode_of(state, "home/shelf"), 0700);
    assert_int_equal(mode_of(state, "home/shelf/archive"), 0700);
    assert_int_equal(mode_of(state, "home/shelf/archive/uke.ini"), 0600);
    assert_int_equal(mode_of(state, "home/shelf/archive/uke.ini.conflict"), 0600);
    assert_int_equal(mode_of(state, "home/shelf/uke.ini.as-found"), 0600);
    free(file);
    free(kept);
}

/* Rights that the owner gave are the owner's affair. */
static void an_old_files_rights_are_kept(void **state)
{
    struct record record;
    char *file = file_as(state, "Uke");
    const char *path = tree_path(*state, "home/shelf/uke.ini");

    assert_int_equal(chmod(path, 0640), 0);
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "instrument", "owner", "Marlo");
    steps_save(profile, &record);
    steps_close(profile, &record);
    assert_int_equal(mode_of(state, "home/shelf/uke.ini"), 0640);
    free(file);
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(no_name_leads_out_of_the_shelf),
        CASE(everything_is_for_the_owner_alone),
        CASE(an_old_files_rights_are_kept),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
