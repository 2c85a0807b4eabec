/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/profile/aside.h"
#include "store/profile/copies.h"
#include "store/profile/preset.h"
#include "store/shelf/shelf_change.h"
#include "tree.h"

static void expect_file_name(const char *name, const char *wanted)
{
    char memory[128];
    struct strbuf out = STRBUF(memory);

    profile_name_make(name, &out);
    assert_string_equal(memory, wanted);
}

static void names_become_file_names(void **state)
{
    char longest[401];

    (void)state;
    expect_file_name("Parlour No. 3", "parlour-no-3");
    expect_file_name("  --Anna's  Uke!  ", "anna-s-uke");
    expect_file_name("../../etc/passwd", "etc-passwd");
    expect_file_name("", "instrument");
    expect_file_name("...", "instrument");
    expect_file_name("\xE6\x97\xA5\xE6\x9C\xAC", "instrument");
    expect_file_name("e\xCC\x81t\xC3\xA9 \x1B[31m", "e-t-31m");
    memset(longest, 'A', sizeof longest - 1);
    longest[sizeof longest - 1] = '\0';
    char memory[512];
    struct strbuf out = STRBUF(memory);
    profile_name_make(longest, &out);
    assert_in_range(out.length, 20, 100);
}

static int mode_of(const char *path)
{
    struct stat facts;

    assert_int_equal(lstat(path, &facts), 0);
    return (int)(facts.st_mode & 0777);
}

static char *file_preset(struct tree *tree, const char *name)
{
    struct record record;
    char *file = NULL;

    assert_int_equal(preset_record(preset_get(0), &record), STATUS_OK);
    assert_int_equal(shelf_file_record(tree_path(tree, "home/shelf"), &record, name, &file),
                     STATUS_OK);
    record_done(&record);
    return file;
}

/* tree_path's texts do not last through a test. */
static void folder_of(struct tree *tree, char folder[300])
{
    snprintf(folder, 300, "%s", tree_path(tree, "home/shelf"));
}

static const char *path_of(struct tree *tree, const char *file)
{
    char name[200];

    snprintf(name, sizeof name, "home/shelf/%s", file);
    return tree_path(tree, name);
}

static void a_new_instrument_is_filed_privately(void **state)
{
    const struct reading_key key = reading_key_one(FIELD_NAME);
    char *file = file_preset(*state, "Parlour No. 3");

    assert_string_equal(file, "parlour-no-3.ini");
    assert_int_equal(mode_of(path_of(*state, file)), 0600);
    assert_int_equal(mode_of(tree_path(*state, "home/shelf")), 0700);
    struct profile *profile = steps_open(path_of(*state, file));
    assert_string_equal(record_text(profile_record(profile), &key), "Parlour No. 3");
    assert_int_equal(profile_notices(profile), 0);
    profile_close(profile);
    assert_int_equal(tree_count(tree_path(*state, "home/shelf"), ""), 1);
    free(file);
}

static void a_taken_name_gets_a_number(void **state)
{
    char *first = file_preset(*state, "Uke"), *second = file_preset(*state, "UKE");

    /* Also one that leads nowhere is taken. */
    assert_int_equal(symlink("nowhere", path_of(*state, "uke-3.ini")), 0);
    assert_string_equal(first, "uke.ini");
    assert_string_equal(second, "uke-2.ini");
    free(first);
    free(second);
}

/* What stays is its build, strings and targets. */
static void a_copy_leaves_behind_what_is_of_that_one_alone(void **state)
{
    char *file = file_preset(*state, "Uke"), *copy = NULL;
    struct record record;
    struct profile *profile = steps_open_to_change(path_of(*state, file), &record);

    steps_put(&record, "instrument", "owner", "Marlo");
    steps_put(&record, "instrument", "serial", "QFW-7");
    steps_put(&record, "instrument", "maker", "Quayside Fret Works");
    steps_put(&record, "string.1", "setback", "2 mm");
    steps_put(&record, "visit.1", "date", "2026-03-02");
    steps_put(&record, "visit.1.pass.1", "relief", ".013 in");
    steps_put(&record, "visit.1.work.1", "kind", "saddle");
    steps_save(profile, &record);
    steps_close(profile, &record);
    assert_int_equal(shelf_copy(tree_path(*state, "home/shelf"), file, "Uke, copy", &copy),
                     STATUS_OK);
    assert_string_equal(copy, "uke-copy.ini");
    profile = steps_open(path_of(*state, copy));
    const struct reading_key owner = steps_key("instrument", "owner");
    const struct reading_key serial = steps_key("instrument", "serial");
    const struct reading_key maker = steps_key("instrument", "maker");
    const struct reading_key setback = reading_key_string(FIELD_SETBACK, 1);
    const struct reading_key gauge = reading_key_string(FIELD_GAUGE, 1);
    assert_null(record_text(profile_record(profile), &owner));
    assert_null(record_text(profile_record(profile), &serial));
    assert_null(record_get(profile_record(profile), &setback));
    assert_string_equal(record_text(profile_record(profile), &maker), "Quayside Fret Works");
    assert_non_null(record_get(profile_record(profile), &gauge));
    assert_int_equal(record_last_visit(profile_record(profile)), 0);
    profile_close(profile);
    free(copy);
    assert_int_equal(shelf_copy(tree_path(*state, "home/shelf"), "none.ini", "x", &copy),
                     STATUS_NOT_FOUND);
    free(file);
}

/* What it is like after its last visit is what its copy begins with. */
static void a_copy_begins_with_the_last_changes(void **state)
{
    static const struct {
        const char *section, *name, *text;
    } wanted[] = {{"string.1", "gauge", ".024 in"},    {"string.1", "mass", NULL},
                  {"string.2", "gauge", ".031 in"},    {"targets", "relief", "rubbish"},
                  {"visit.1.string.1", "gauge", NULL}, {"profile", "format", "1"}};
    char *file = file_preset(*state, "Uke"), *copy = NULL;
    struct record record;
    struct profile *profile = steps_open_to_change(path_of(*state, file), &record);
    const struct reading_key bad = steps_key("visit.2.targets", "relief");

    steps_put(&record, "profile", "format", "2");
    steps_put(&record, "string.1", "mass", "0.5 g/m");
    steps_put(&record, "string.2", "gauge", ".030 in");
    steps_put(&record, "visit.1", "date", "2026-03-02");
    steps_put(&record, "visit.1.string.1", "gauge", ".023 in");
    steps_put(&record, "visit.1.string.2", "gauge", ".031 in");
    steps_put(&record, "visit.2", "date", "2026-04-02");
    steps_put(&record, "visit.2.string.1", "gauge", ".024 in");
    steps_put(&record, "visit.2.string.1", "mass", "absent");
    assert_int_not_equal(record_put(&record, &bad, "rubbish", true, NULL), STATUS_OK);
    steps_save(profile, &record);
    steps_close(profile, &record);
    assert_int_equal(shelf_copy(tree_path(*state, "home/shelf"), file, "Copy", &copy), STATUS_OK);
    profile = steps_open(path_of(*state, copy));
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        const struct reading_key key = steps_key(wanted[i].section, wanted[i].name);
        const struct reading *filed = record_find(profile_record(profile), &key);

        assert_true(!filed == !wanted[i].text);
        if (filed)
            assert_string_equal(filed->text, wanted[i].text);
    }
    assert_int_equal(record_last_visit(profile_record(profile)), 0);
    profile_close(profile);
    free(copy);
    free(file);
}

static void the_archive_takes_a_file_whole_and_overwrites_none(void **state)
{
    char folder[300];
    char *file = file_preset(*state, "Uke"), *kept = NULL;
    size_t length;
    char *bytes = tree_read(path_of(*state, file), &length);

    folder_of(*state, folder);

    assert_int_equal(shelf_archive(folder, file, &kept), STATUS_OK);
    assert_string_equal(kept, "uke.ini");
    free(kept);
    assert_int_equal(access(path_of(*state, file), F_OK), -1);
    tree_assert_holds(path_of(*state, "archive/uke.ini"), bytes, length);
    assert_int_equal(mode_of(path_of(*state, "archive")), 0700);
    tree_write_text(path_of(*state, "uke.ini"), "another\n");
    assert_int_equal(shelf_archive(folder, "uke.ini", &kept), STATUS_OK);
    assert_string_equal(kept, "uke-2.ini");
    tree_assert_holds(path_of(*state, "archive/uke.ini"), bytes, length);
    tree_assert_text(path_of(*state, "archive/uke-2.ini"), "another\n");
    assert_int_equal(tree_count(folder, ""), 1);
    free(kept);
    free(file);
    free(bytes);
}

/* Changes one reading, so that there is an earlier state. */
static void change_it(struct tree *tree, const char *file)
{
    struct record record;
    struct profile *profile = steps_open_to_change(path_of(tree, file), &record);

    steps_put(&record, "instrument", "owner", "Marlo");
    steps_save(profile, &record);
    steps_close(profile, &record);
}

static size_t count_earlier(struct tree *tree, const char *file)
{
    struct copies list;

    assert_int_equal(copies_list(path_of(tree, file), COPY_EARLIER, &list), STATUS_OK);
    const size_t count = list.count;
    copies_done(&list);
    return count;
}

/* Its earlier states go with it, and a new one of its name has none of them. */
static void the_archive_takes_earlier_states_with_it(void **state)
{
    char folder[300];

    folder_of(*state, folder);
    for (int round = 1; round <= 2; round++) {
        char *file = file_preset(*state, "Uke"), *kept = NULL;

        assert_string_equal(file, "uke.ini");
        assert_int_equal(count_earlier(*state, file), 0);
        change_it(*state, file);
        assert_int_equal(count_earlier(*state, file), 1);
        assert_int_equal(shelf_archive(folder, file, &kept), STATUS_OK);
        assert_string_equal(kept, round == 1 ? "uke.ini" : "uke-2.ini");
        assert_int_equal(
            count_earlier(*state, round == 1 ? "archive/uke.ini" : "archive/uke-2.ini"), 1);
        free(file);
        free(kept);
    }
}

/* And so do the other versions beside it, by its new name. */
static void the_archive_takes_versions_with_it(void **state)
{
    static const char *const versions[] = {"conflict", "aside.2"};
    char folder[300], name[64], kept_name[64];

    folder_of(*state, folder);
    for (int round = 1; round <= 2; round++) {
        const char *stem = round == 1 ? "uke" : "uke-2";
        char *file = file_preset(*state, "Uke"), *kept = NULL;

        for (size_t i = 0; i < sizeof versions / sizeof versions[0]; i++) {
            snprintf(name, sizeof name, "uke.ini.%s", versions[i]);
            tree_write_text(path_of(*state, name), versions[i]);
        }
        assert_int_equal(shelf_archive(folder, file, &kept), STATUS_OK);
        for (size_t i = 0; i < sizeof versions / sizeof versions[0]; i++) {
            snprintf(name, sizeof name, "uke.ini.%s", versions[i]);
            assert_int_not_equal(access(path_of(*state, name), F_OK), 0);
            snprintf(kept_name, sizeof kept_name, "archive/%s.ini.%s", stem, versions[i]);
            tree_assert_text(path_of(*state, kept_name), versions[i]);
        }
        free(file);
        free(kept);
    }
}

/* What an instrument left that is gone by another way is not for a new one of its name. */
static void a_new_one_finds_nothing_of_another(void **state)
{
    static const char *const left[] = {"lock", "as-found", "conflict", "aside"};
    char *file = file_preset(*state, "Uke");

    change_it(*state, file);
    assert_int_equal(unlink(path_of(*state, file)), 0);
    free(file);
    file = file_preset(*state, "Uke");
    assert_string_equal(file, "uke-2.ini");
    assert_int_equal(count_earlier(*state, file), 0);
    free(file);
    for (size_t i = 0; i < sizeof left / sizeof left[0]; i++) {
        char name[40], wanted[40];

        snprintf(name, sizeof name, "uke-%zu.ini.%s", i + 3, left[i]);
        tree_write_text(path_of(*state, name), "left");
        snprintf(wanted, sizeof wanted, "uke-%zu.ini", i + 4);
        file = file_preset(*state, "Uke");
        assert_string_equal(file, wanted);
        assert_int_equal(unlink(path_of(*state, file)), 0);
        free(file);
    }
}

static void readings_aside_are_not_for_a_new_one(void **state)
{
    char *file = file_preset(*state, "Uke"), *aside = NULL;
    struct record record;

    assert_int_equal(setenv("XDG_STATE_HOME", tree_path(*state, "state"), 1), 0);
    struct profile *profile = steps_open_to_change(path_of(*state, file), &record);
    steps_put(&record, "instrument", "owner", "Marlo");
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_OK);
    steps_close(profile, &record);
    assert_int_equal(unlink(path_of(*state, file)), 0);
    free(file);
    file = file_preset(*state, "Uke");
    assert_string_equal(file, "uke-2.ini");
    assert_int_equal(access(aside, F_OK), 0);
    assert_int_equal(unsetenv("XDG_STATE_HOME"), 0);
    free(aside);
    free(file);
}

static void links_and_folders_are_not_archived(void **state)
{
    char folder[300];
    char *file = file_preset(*state, "Uke"), *kept = NULL;

    folder_of(*state, folder);
    tree_write_text(tree_path(*state, "far.ini"), "far\n");
    assert_int_equal(symlink(tree_path(*state, "far.ini"), path_of(*state, "l.ini")), 0);
    assert_int_equal(mkdir(path_of(*state, "f.ini"), 0700), 0);
    assert_int_equal(shelf_archive(folder, "l.ini", &kept), STATUS_NOT_REGULAR);
    assert_int_equal(shelf_archive(folder, "f.ini", &kept), STATUS_NOT_REGULAR);
    assert_int_equal(shelf_archive(folder, "none.ini", &kept), STATUS_NOT_FOUND);
    assert_int_equal(shelf_archive(folder, "x", &kept), STATUS_NOT_REGULAR);
    tree_assert_text(tree_path(*state, "far.ini"), "far\n");
    assert_int_equal(access(path_of(*state, "l.ini"), F_OK), 0);
    /* An archive/ that is a link leads who knows where. */
    assert_int_equal(symlink(tree_path(*state, "home"), path_of(*state, "archive")), 0);
    assert_int_equal(shelf_archive(folder, file, &kept), STATUS_NOT_REGULAR);
    assert_int_equal(access(path_of(*state, file), F_OK), 0);
    assert_null(kept);
    free(file);
}

static void what_is_in_use_stays(void **state)
{
    char folder[300];
    char *file = file_preset(*state, "Uke"), *kept = NULL;
    struct profile *profile;

    folder_of(*state, folder);
    assert_int_equal(profile_open(path_of(*state, file), PROFILE_TO_EDIT, NULL, &profile),
                     STATUS_OK);
    assert_int_equal(shelf_archive(folder, file, &kept), STATUS_LOCKED);
    assert_int_equal(access(path_of(*state, file), F_OK), 0);
    profile_close(profile);
    assert_int_equal(shelf_archive(folder, file, &kept), STATUS_OK);
    free(kept);
    free(file);
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_become_file_names),
        CASE(a_new_instrument_is_filed_privately),
        CASE(a_taken_name_gets_a_number),
        CASE(a_copy_leaves_behind_what_is_of_that_one_alone),
        CASE(a_copy_begins_with_the_last_changes),
        CASE(the_archive_takes_a_file_whole_and_overwrites_none),
        CASE(the_archive_takes_earlier_states_with_it),
        CASE(the_archive_takes_versions_with_it),
        CASE(a_new_one_finds_nothing_of_another),
        CASE(readings_aside_are_not_for_a_new_one),
        CASE(links_and_folders_are_not_archived),
        CASE(what_is_in_use_stays),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
