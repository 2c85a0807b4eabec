/* SPDX-License-Identifier: MIT */
/* Every call that the shelf makes fails once, in turn: nothing on file is lost or half written,
 * nothing wrong is cached, and the next try works. */
#include "near.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "faults.h"
#include "profile_steps.h"
#include "store/paths.h"
#include "store/profile/preset.h"
#include "store/shelf/shelf.h"
#include "store/shelf/shelf_change.h"
#include "store/shop.h"
#include "tree.h"

static const char bass[] = "[profile]\nformat = 1\n[instrument]\nname = Long Pier Bass\n"
                           "owner = Marlo\n[board]\nscale = 34 in\n[visit.1]\ndate = 2026-03-02\n";
static const char banjo[] = "[profile]\nformat = 1\n[instrument]\nname = Banjo\n";

time_t __real_time(time_t *out);
time_t __wrap_time(time_t *out);
time_t __wrap_time(time_t *out)
{
    const time_t ahead = __real_time(NULL) + 60;

    if (out)
        *out = ahead;
    return ahead;
}

/* Something done to a shelf while a call fails: how it went, and whether all is well after. */
struct deed {
    const char *name;
    enum status (*run)(const struct tree *tree);
    void (*check)(const struct tree *tree, enum status status);
    bool makes_calls[FAULT_COUNT_]; /* that it must be seen to make */
    void (*prepare)(const struct tree *tree);
};

static void clear(const struct tree *tree)
{
    tree_remove(tree, "shelf");
    tree_remove(tree, "cache");
}

static void prepare(const struct tree *tree)
{
    clear(tree);
    assert_int_equal(mkdir(tree_path(tree, "shelf"), 0700), 0);
    setenv("XDG_CACHE_HOME", tree_path(tree, "cache"), 1);
    tree_write_text(tree_path(tree, "shelf/bass.ini"), bass);
    tree_write_text(tree_path(tree, "shelf/bass.ini.lock"), "");
    tree_write_text(tree_path(tree, "shelf/bass (1).ini"), bass);
    tree_write_text(tree_path(tree, "shelf/broken.ini"), "no profile at all");
    tree_write_text(tree_path(tree, "shelf/notes.txt"), "no profile");
    tree_write_text(tree_path(tree, "banjo.ini"), banjo);
    assert_int_equal(symlink("../banjo.ini", tree_path(tree, "shelf/linked.ini")), 0);
}

static void what_was_there_is_as_it_was(const struct tree *tree)
{
    tree_assert_text(tree_path(tree, "shelf/broken.ini"), "no profile at all");
    tree_assert_text(tree_path(tree, "shelf/notes.txt"), "no profile");
    tree_assert_text(tree_path(tree, "banjo.ini"), banjo);
    tree_assert_text(tree_path(tree, "shelf/bass (1).ini"), bass);
}

/* --- listing and reading --- */

static enum status read_shelf(const struct tree *tree)
{
    struct shelf *shelf;
    enum status status = shelf_open(tree_path(tree, "shelf"), &shelf);

    if (status != STATUS_OK)
        return status;
    while (shelf_read_next(shelf))
        ;
    shelf_keep_cache(shelf);
    (void)shelf_is_stale(shelf);
    status = shelf_status(shelf);
    if (status == STATUS_OK)
        assert_int_equal(shelf_entries(shelf)->count, 4);
    else
        assert_int_equal(shelf_entries(shelf)->count, 0);
    shelf_close(shelf);
    return status;
}

static void expect_entry(const struct shelf *shelf, const char *file, enum status status,
                         const char *name)
{
    const struct shelf_entry *entry = shelf_entries_find(shelf_entries(shelf), file);

    assert_non_null(entry);
    assert_true(entry->read);
    assert_int_equal(entry->status, status);
    assert_string_equal(entry->card.name, name);
}

/* Whatever went wrong before, the cache says nothing of it. */
static void the_shelf_is_whole(const struct tree *tree, enum status status)
{
    struct shelf *shelf;

    (void)status;
    what_was_there_is_as_it_was(tree);
    tree_assert_text(tree_path(tree, "shelf/bass.ini"), bass);
    assert_int_equal(tree_count(tree_path(tree, "shelf"), ""), 6);
    assert_int_equal(shelf_open(tree_path(tree, "shelf"), &shelf), STATUS_OK);
    while (shelf_read_next(shelf))
        ;
    assert_int_equal(shelf_status(shelf), STATUS_OK);
    expect_entry(shelf, "bass.ini", STATUS_OK, "Long Pier Bass");
    assert_true(shelf_entries_find(shelf_entries(shelf), "bass.ini")->versions);
    expect_entry(shelf, "broken.ini", STATUS_SYNTAX, "");
    expect_entry(shelf, "linked.ini", STATUS_OK, "Banjo");
    shelf_close(shelf);
}

/* --- new, copied, archived --- */

static enum status file_new(const struct tree *tree)
{
    struct record record;
    char *file = NULL;
    enum status status = preset_record(preset_get(0), &record);

    if (status != STATUS_OK)
        return status;
    status = shelf_file_record(tree_path(tree, "shelf"), &record, "Parlour", &file);
    assert_true((status == STATUS_OK) == (file != NULL));
    free(file);
    record_done(&record);
    return status;
}

static enum status file_copy(const struct tree *tree)
{
    char *file = NULL;
    const enum status status = shelf_copy(tree_path(tree, "shelf"), "bass.ini", "Parlour", &file);

    assert_true((status == STATUS_OK) == (file != NULL));
    free(file);
    return status;
}

/* Nothing, or a whole profile. After a failure only a folder that could not be synced, and so
 * may yet lose it, leaves one. */
static void the_new_one_is_whole(const struct tree *tree, enum status status)
{
    const struct reading_key key = reading_key_one(FIELD_NAME);
    const char *path = tree_path(tree, "shelf/parlour.ini");

    what_was_there_is_as_it_was(tree);
    tree_assert_text(tree_path(tree, "shelf/bass.ini"), bass);
    assert_true(status != STATUS_OK || access(path, F_OK) == 0);
    if (access(path, F_OK) != 0)
        return;
    struct profile *profile = steps_open(path);
    assert_int_equal(profile_notices(profile), 0);
    assert_string_equal(record_text(profile_record(profile), &key), "Parlour");
    assert_int_equal(record_last_visit(profile_record(profile)), 0);
    profile_close(profile);
}

static enum status put_away(const struct tree *tree)
{
    char *file = NULL;
    const enum status status = shelf_archive(tree_path(tree, "shelf"), "bass.ini", &file);

    assert_true((status == STATUS_OK) == (file != NULL));
    free(file);
    return status;
}

#define GENERATION ".generations/bass.ini/000001-2026-03-02T1042.ini"

static void add_generation(const struct tree *tree)
{
    assert_int_equal(paths_make_folder(tree_path(tree, "shelf/.generations/bass.ini")), STATUS_OK);
    tree_write_text(tree_path(tree, "shelf/" GENERATION), "earlier");
}

/* With its earlier state, which is never in the other place. */
static void it_is_in_one_place(const struct tree *tree, enum status status)
{
    const char *here = tree_path(tree, "shelf/bass.ini");
    const char *there = tree_path(tree, "shelf/archive/bass.ini");

    what_was_there_is_as_it_was(tree);
    assert_true((access(here, F_OK) == 0) == (status != STATUS_OK));
    tree_assert_text(status == STATUS_OK ? there : here, bass);
    tree_assert_text(
        tree_path(tree, status == STATUS_OK ? "shelf/archive/" GENERATION : "shelf/" GENERATION),
        "earlier");
}

/* --- settings --- */

static enum status read_settings(const struct tree *tree)
{
    struct shop_units units;
    struct problems problems;

    problems_init(&problems);
    const enum status status = shop_read(tree_path(tree, "shelf/notes.txt"), &problems, &units);
    problems_done(&problems);
    return status;
}

static void nothing_is_written(const struct tree *tree, enum status status)
{
    (void)status;
    what_was_there_is_as_it_was(tree);
}

static const struct deed deeds[] = {
    {"read the shelf",
     read_shelf,
     the_shelf_is_whole,
     {[FAULT_OPEN] = true,
      [FAULT_STAT] = true,
      [FAULT_READ] = true,
      [FAULT_WRITE] = true,
      [FAULT_RENAME] = true,
      [FAULT_FOLDER] = true,
      [FAULT_MEMORY] = true},
     NULL},
    {"file a new one",
     file_new,
     the_new_one_is_whole,
     {[FAULT_OPEN] = true,
      [FAULT_WRITE] = true,
      [FAULT_LINK] = true,
      [FAULT_LOCK] = true,
      [FAULT_MEMORY] = true},
     NULL},
    {"copy",
     file_copy,
     the_new_one_is_whole,
     {[FAULT_READ] = true, [FAULT_WRITE] = true, [FAULT_LINK] = true, [FAULT_MEMORY] = true},
     NULL},
    {"archive",
     put_away,
     it_is_in_one_place,
     {[FAULT_OPEN] = true,
      [FAULT_STAT] = true,
      [FAULT_LINK] = true,
      [FAULT_UNLINK] = true,
      [FAULT_RENAME] = true,
      [FAULT_SYNC] = true,
      [FAULT_FOLDER] = true,
      [FAULT_MEMORY] = true},
     add_generation},
    {"read the settings",
     read_settings,
     nothing_is_written,
     {[FAULT_OPEN] = true, [FAULT_READ] = true, [FAULT_MEMORY] = true},
     NULL},
};

/* False when there was no nth call. */
static bool fail_call(const struct tree *tree, const struct deed *deed, enum fault_call call,
                      enum fault_way way, int nth, int error)
{
    prepare(tree);
    if (deed->prepare)
        deed->prepare(tree);
    fault_arm(call, way, nth, error);
    const enum status status = deed->run(tree);
    const bool reached = fault_disarm() >= nth;

    if (!reached && status != STATUS_OK)
        fail_msg("%s: %s, though no call failed", deed->name, status_text(status));
    deed->check(tree, status);
    if (call != FAULT_UNLINK)
        assert_int_equal(tree_count(tree_path(tree, "shelf"), ".tmp"), 0);
    return reached;
}

static void fail_each_call(const struct tree *tree, const struct deed *deed, enum fault_way way,
                           int error)
{
    for (enum fault_call call = FAULT_OPEN; call < FAULT_COUNT_; call++) {
        int nth = 1;

        if (way == FAULT_LIES && !fault_can_lie(call))
            continue;
        while (fail_call(tree, deed, call, way, nth, error))
            nth++;
        if (deed->makes_calls[call] && nth == 1)
            fail_msg("%s makes no %s call", deed->name, fault_name(call));
    }
}

static void nothing_is_lost_by_any_failure(void **state)
{
    for (size_t i = 0; i < sizeof deeds / sizeof deeds[0]; i++) {
        fail_each_call(*state, &deeds[i], FAULT_ONCE, EIO);
        fail_each_call(*state, &deeds[i], FAULT_STAYS, ENOSPC);
        fail_each_call(*state, &deeds[i], FAULT_LIES, EIO);
        fail_each_call(*state, &deeds[i], FAULT_ONCE, EACCES);
    }
    clear(*state);
}

/* After a kill it may have both names; its earlier state has one, and trying again ends it. */
static void it_is_in_either_place(const struct tree *tree)
{
    const char *here = tree_path(tree, "shelf/bass.ini");
    const char *there = tree_path(tree, "shelf/archive/bass.ini");
    const bool stays = access(tree_path(tree, "shelf/" GENERATION), F_OK) == 0;

    assert_true(access(here, F_OK) == 0 || access(there, F_OK) == 0);
    assert_true(stays ? access(here, F_OK) == 0 : access(there, F_OK) == 0);
    tree_assert_text(tree_path(tree, stays ? "shelf/" GENERATION : "shelf/archive/" GENERATION),
                     "earlier");
    if (access(here, F_OK) == 0)
        assert_int_equal(put_away(tree), STATUS_OK);
    it_is_in_one_place(tree, STATUS_OK);
    assert_int_equal(tree_count(tree_path(tree, "shelf/archive"), "bass"), 1);
}

static void the_new_one_is_whole_or_missing(const struct tree *tree)
{
    the_new_one_is_whole(tree, STATUS_IO);
}

/* The process ends before each call in turn. */
static int kill_at_every_call(const struct tree *tree, const struct deed *deed,
                              void (*check)(const struct tree *tree))
{
    int killed = 0, status;

    do {
        prepare(tree);
        if (deed->prepare)
            deed->prepare(tree);
        const pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0) {
            fault_arm(FAULT_ANY, FAULT_KILL, killed + 1, 0);
            _exit(deed->run(tree) == STATUS_OK ? 0 : 1);
        }
        assert_int_equal(waitpid(child, &status, 0), child);
        check(tree);
        killed += WIFSIGNALED(status);
    } while (WIFSIGNALED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
    print_message("%s: killed at each of %d calls\n", deed->name, killed);
    return killed;
}

static void nothing_is_lost_by_any_kill(void **state)
{
    for (size_t i = 0; i < sizeof deeds / sizeof deeds[0]; i++) {
        if (deeds[i].run == put_away)
            assert_true(kill_at_every_call(*state, &deeds[i], it_is_in_either_place) > 15);
        else if (deeds[i].check == the_new_one_is_whole)
            assert_true(kill_at_every_call(*state, &deeds[i], the_new_one_is_whole_or_missing) >
                        15);
    }
    clear(*state);
}

/* A second time over what the cache holds: it is read, and its failures too are borne. */
static void a_cache_that_fails_is_done_without(void **state)
{
    for (enum fault_call call = FAULT_OPEN; call < FAULT_COUNT_; call++) {
        bool reached = true;

        for (int nth = 1; reached; nth++) {
            prepare(*state);
            assert_int_equal(read_shelf(*state), STATUS_OK);
            assert_int_equal(tree_count(tree_path(*state, "cache/sillet"), "shelf-"), 1);
            fault_arm(call, FAULT_ONCE, nth, EIO);
            (void)read_shelf(*state);
            reached = fault_disarm() >= nth;
            the_shelf_is_whole(*state, STATUS_OK);
        }
    }
    clear(*state);
}

/* A file system without hard links: an archived file is moved by another way, over none. */
static void an_archive_without_links_overwrites_none(void **state)
{
    static const int errors[] = {EPERM, EOPNOTSUPP, ENOSYS, EMLINK};

    for (size_t i = 0; i < sizeof errors / sizeof errors[0]; i++) {
        char *file = NULL;

        prepare(*state);
        add_generation(*state);
        assert_int_equal(mkdir(tree_path(*state, "shelf/archive"), 0700), 0);
        tree_write_text(tree_path(*state, "shelf/archive/bass.ini"), "another");
        fault_arm(FAULT_LINK, FAULT_STAYS, 1, errors[i]);
        assert_int_equal(shelf_archive(tree_path(*state, "shelf"), "bass.ini", &file), STATUS_OK);
        assert_true(fault_disarm() > 0);
        assert_string_equal(file, "bass-2.ini");
        tree_assert_text(tree_path(*state, "shelf/archive/bass.ini"), "another");
        tree_assert_text(tree_path(*state, "shelf/archive/bass-2.ini"), bass);
        tree_assert_text(
            tree_path(*state, "shelf/archive/.generations/bass-2.ini/000001-2026-03-02T1042.ini"),
            "earlier");
        free(file);
    }
    clear(*state);
}

/* Made and said to have failed, in each of the words for it: it has left its old name, or it has
 * no second one. */
static void a_link_that_was_made_counts(void **state)
{
    static const int errors[] = {EIO, EEXIST, EPERM};

    for (size_t i = 0; i < sizeof errors / sizeof errors[0]; i++) {
        char *file = NULL;

        prepare(*state);
        add_generation(*state);
        fault_arm(FAULT_LINK, FAULT_LIES, 1, errors[i]);
        assert_int_equal(shelf_archive(tree_path(*state, "shelf"), "bass.ini", &file), STATUS_OK);
        assert_true(fault_disarm() > 0);
        assert_string_equal(file, "bass.ini");
        it_is_in_one_place(*state, STATUS_OK);
        assert_int_equal(tree_count(tree_path(*state, "shelf/archive"), "bass"), 1);
        free(file);
    }
    clear(*state);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(nothing_is_lost_by_any_failure),
        IN_TREE(nothing_is_lost_by_any_kill),
        IN_TREE(a_cache_that_fails_is_done_without),
        IN_TREE(an_archive_without_links_overwrites_none),
        IN_TREE(a_link_that_was_made_counts),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
