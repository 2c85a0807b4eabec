/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "store/profile/profile.h"
#include "store/shelf/shelf.h"
#include "tree.h"

static const char profile[] = "[profile]\nformat = 1\n[instrument]\nname = %s\nowner = Marlo\n"
                              "[visit.1]\ndate = 2026-03-02\n";

/* The shelf's clock goes on when a test says so (-Wl,--wrap). */
static time_t ahead_s;

time_t __real_time(time_t *out);
time_t __wrap_time(time_t *out);
time_t __wrap_time(time_t *out)
{
    const time_t now = __real_time(NULL) + ahead_s;

    if (out)
        *out = now;
    return now;
}

/* Home and shelf in the test's own folder. */
static int open_tree(void **state)
{
    ahead_s = 0;
    if (tree_setup(state) != 0)
        return -1;
    mkdir(tree_path(*state, "shelf"), 0700);
    setenv("XDG_CACHE_HOME", tree_path(*state, "cache"), 1);
    return 0;
}

static void put(struct tree *tree, const char *file, const char *name)
{
    char text[300], path[300];

    snprintf(text, sizeof text, profile, name);
    snprintf(path, sizeof path, "shelf/%s", file);
    tree_write_text(tree_path(tree, path), text);
}

static struct shelf *open_shelf(struct tree *tree)
{
    struct shelf *shelf;

    assert_int_equal(shelf_open(tree_path(tree, "shelf"), &shelf), STATUS_OK);
    return shelf;
}

static int read_all(struct shelf *shelf)
{
    int count = 0;

    while (shelf_read_next(shelf))
        count++;
    return count;
}

static const struct shelf_entry *entry_of(const struct shelf *shelf, const char *file)
{
    const struct shelf_entry *entry = shelf_entries_find(shelf_entries(shelf), file);

    if (!entry)
        fail_msg("%s is not listed", file);
    return entry;
}

static void names_come_first_and_cards_follow(void **state)
{
    put(*state, "a.ini", "Tenor");
    put(*state, "b.ini", "Bass");
    put(*state, ".hidden.ini", "no");
    put(*state, "a.ini.as-found", "no");
    put(*state, ".ini", "no");
    put(*state, "notes.txt", "no");
    struct shelf *shelf = open_shelf(*state);
    assert_int_equal(shelf_status(shelf), STATUS_OK);
    assert_int_equal(shelf_entries(shelf)->count, 2);
    assert_int_equal(shelf_unread(shelf), 2);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "");
    assert_int_equal(read_all(shelf), 2);
    assert_int_equal(shelf_unread(shelf), 0);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "Tenor");
    assert_string_equal(entry_of(shelf, "a.ini")->card.visit, "2026-03-02");
    assert_string_equal(entry_of(shelf, "b.ini")->card.name, "Bass");
    shelf_close(shelf);
}

static size_t look_next(struct shelf *shelf)
{
    size_t at = SIZE_MAX;

    assert_true(shelf_look_next(shelf, &at));
    assert_true(at < shelf_entries(shelf)->count);
    return at;
}

/* Each file is looked at before any is read, and then read once; what was seen stays. */
static void all_are_looked_at_before_any_is_read(void **state)
{
    size_t at;

    put(*state, "a.ini", "Tenor");
    put(*state, "b.ini", "Bass");
    tree_write_text(tree_path(*state, "shelf/junk.ini"), "this is no profile\n");
    struct shelf *shelf = open_shelf(*state);
    assert_int_equal(shelf_unseen(shelf), 3);
    for (int i = 0; i < 3; i++)
        assert_false(shelf_entries(shelf)->items[look_next(shelf)].read);
    assert_int_equal(shelf_unseen(shelf), 0);
    assert_int_equal(shelf_unread(shelf), 3);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "Tenor");
    assert_string_equal(entry_of(shelf, "a.ini")->card.visit, "2026-03-02");
    assert_int_equal(entry_of(shelf, "junk.ini")->status, STATUS_SYNTAX);
    for (int i = 0; i < 3; i++)
        assert_true(shelf_entries(shelf)->items[look_next(shelf)].read);
    assert_int_equal(shelf_unread(shelf), 0);
    assert_false(shelf_look_next(shelf, &at));
    assert_string_equal(entry_of(shelf, "b.ini")->card.name, "Bass");
    assert_string_equal(shelf_facts_text(entry_of(shelf, "b.ini")->facts, FACT_TO_DO), "measure");
    assert_int_equal(entry_of(shelf, "junk.ini")->status, STATUS_SYNTAX);
    shelf_close(shelf);
}

/* What was looked at is not kept for the next start as if it had been read. */
static void what_was_only_looked_at_is_not_kept(void **state)
{
    put(*state, "a.ini", "Tenor");
    put(*state, "b.ini", "Bass");
    ahead_s = 60;
    struct shelf *shelf = open_shelf(*state);
    (void)look_next(shelf);
    (void)look_next(shelf);
    const size_t read = look_next(shelf);
    assert_true(shelf_entries(shelf)->items[read].read);
    /* Listed again, what was seen of an unchanged file is still seen. */
    assert_int_equal(shelf_scan(shelf), STATUS_OK);
    assert_int_equal(shelf_unread(shelf), 1);
    assert_true(shelf_entries(shelf)->items[1 - read].glanced);
    shelf_keep_cache(shelf);
    shelf_close(shelf);
    shelf = open_shelf(*state);
    assert_int_equal(shelf_unread(shelf), 1);
    assert_true(shelf_entries(shelf)->items[read].read);
    shelf_close(shelf);
}

/* A file that is spoilt between the look and the reading is damaged, and loses its name. */
static void a_file_spoilt_after_the_look_is_damaged(void **state)
{
    put(*state, "a.ini", "Tenor");
    struct shelf *shelf = open_shelf(*state);
    (void)look_next(shelf);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "Tenor");
    tree_write(tree_path(*state, "shelf/a.ini"), "a\0b", 3);
    (void)look_next(shelf);
    assert_int_equal(entry_of(shelf, "a.ini")->status, STATUS_BINARY);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "");
    assert_ptr_equal(entry_of(shelf, "a.ini")->facts, shelf_facts_blank());
    shelf_close(shelf);
}

static void what_cannot_be_read_is_listed_with_its_reason(void **state)
{
    tree_write(tree_path(*state, "shelf/binary.ini"), "a\0b", 3);
    tree_write_text(tree_path(*state, "shelf/junk.ini"), "this is no profile\n");
    tree_write_text(tree_path(*state, "shelf/empty.ini"), "");
    tree_write_text(tree_path(*state, "shelf/newer.ini"), "[profile]\nformat = 9\n"
                                                          "[instrument]\nname = Later\n");
    assert_int_equal(mkdir(tree_path(*state, "shelf/folder.ini"), 0700), 0);
    assert_int_equal(mkfifo(tree_path(*state, "shelf/pipe.ini"), 0600), 0);
    assert_int_equal(symlink("/nowhere/at/all", tree_path(*state, "shelf/lost.ini")), 0);
    assert_int_equal(symlink("loop.ini", tree_path(*state, "shelf/loop.ini")), 0);
    struct shelf *shelf = open_shelf(*state);
    read_all(shelf);
    assert_int_equal(shelf_entries(shelf)->count, 8);
    assert_int_equal(entry_of(shelf, "binary.ini")->status, STATUS_BINARY);
    assert_int_equal(entry_of(shelf, "junk.ini")->status, STATUS_SYNTAX);
    assert_int_equal(entry_of(shelf, "empty.ini")->status, STATUS_OK);
    assert_true(entry_of(shelf, "newer.ini")->newer);
    assert_int_equal(entry_of(shelf, "folder.ini")->status, STATUS_NOT_REGULAR);
    assert_int_equal(entry_of(shelf, "pipe.ini")->status, STATUS_NOT_REGULAR);
    assert_int_equal(entry_of(shelf, "lost.ini")->status, STATUS_NOT_FOUND);
    assert_true(entry_of(shelf, "lost.ini")->linked);
    assert_int_equal(entry_of(shelf, "loop.ini")->status, STATUS_IO);
    shelf_close(shelf);
}

static void a_link_out_of_the_shelf_is_read_through(void **state)
{
    char text[300];

    snprintf(text, sizeof text, profile, "Elsewhere");
    tree_write_text(tree_path(*state, "far.ini"), text);
    assert_int_equal(symlink("../far.ini", tree_path(*state, "shelf/near.ini")), 0);
    struct shelf *shelf = open_shelf(*state);
    read_all(shelf);
    assert_string_equal(entry_of(shelf, "near.ini")->card.name, "Elsewhere");
    assert_true(entry_of(shelf, "near.ini")->linked);
    shelf_close(shelf);
}

static void what_is_being_edited_is_in_use(void **state)
{
    struct profile *edited;

    put(*state, "a.ini", "Tenor");
    put(*state, "b.ini", "Bass");
    assert_int_equal(symlink("b.ini", tree_path(*state, "shelf/l.ini")), 0);
    tree_write_text(tree_path(*state, "shelf/a.ini.lock"), "rubbish");
    assert_int_equal(profile_open(tree_path(*state, "shelf/b.ini"), PROFILE_TO_EDIT, NULL, &edited),
                     STATUS_OK);
    struct shelf *shelf = open_shelf(*state);
    assert_false(entry_of(shelf, "a.ini")->in_use);
    assert_true(entry_of(shelf, "b.ini")->in_use);
    assert_true(entry_of(shelf, "l.ini")->in_use);
    profile_close(edited);
    shelf_scan(shelf);
    assert_false(entry_of(shelf, "b.ini")->in_use);
    assert_false(entry_of(shelf, "l.ini")->in_use);
    shelf_close(shelf);
}

/* Files that were touched this very moment could change once more without a sign. The clock goes
 * on; the pause is for the times of files, which come from the system and in steps. */
static void wait_until_settled(void)
{
    const struct timespec pause = {.tv_nsec = 50000000};

    ahead_s += 4;
    nanosleep(&pause, NULL);
}

static void unchanged_files_are_not_read_again(void **state)
{
    put(*state, "a.ini", "Tenor");
    put(*state, "b.ini", "Bass");
    put(*state, "c.ini", "Banjo");
    wait_until_settled();
    struct shelf *shelf = open_shelf(*state);
    assert_int_equal(read_all(shelf), 3);
    assert_int_equal(shelf_scan(shelf), STATUS_OK);
    assert_int_equal(shelf_unread(shelf), 0);
    assert_false(shelf_is_stale(shelf));
    shelf_keep_cache(shelf);
    shelf_close(shelf);

    shelf = open_shelf(*state);
    assert_int_equal(shelf_unread(shelf), 0);
    assert_string_equal(entry_of(shelf, "c.ini")->card.name, "Banjo");
    /* One changed, one gone, one new: two to read. */
    put(*state, "a.ini", "Tenon");
    put(*state, "d.ini", "Uke");
    assert_int_equal(unlink(tree_path(*state, "shelf/b.ini")), 0);
    assert_true(shelf_is_stale(shelf));
    shelf_scan(shelf);
    assert_int_equal(shelf_entries(shelf)->count, 3);
    assert_int_equal(read_all(shelf), 2);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "Tenon");
    shelf_close(shelf);

    /* The cache still tells of the shelf as it was; only the files count. */
    shelf = open_shelf(*state);
    assert_int_equal(shelf_unread(shelf), 2);
    assert_string_equal(entry_of(shelf, "c.ini")->card.name, "Banjo");
    read_all(shelf);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "Tenon");
    shelf_close(shelf);
}

/* Same size, same inode, times put back: a change that only the last change of the inode
 * tells. */
static void a_change_with_its_times_put_back_is_noticed(void **state)
{
    const char *path = tree_path(*state, "shelf/a.ini");
    struct stat facts;

    put(*state, "a.ini", "Tenor");
    wait_until_settled();
    struct shelf *shelf = open_shelf(*state);
    read_all(shelf);
    assert_int_equal(stat(path, &facts), 0);
    put(*state, "a.ini", "Tenon");
    const struct timespec times[2] = {facts.st_atim, facts.st_mtim};
    assert_int_equal(utimensat(AT_FDCWD, path, times, 0), 0);
    shelf_scan(shelf);
    assert_int_equal(read_all(shelf), 1);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "Tenon");
    shelf_close(shelf);
}

static void fresh_files_are_not_kept(void **state)
{
    put(*state, "a.ini", "Tenor");
    struct shelf *shelf = open_shelf(*state);
    read_all(shelf);
    shelf_keep_cache(shelf);
    shelf_close(shelf);
    shelf = open_shelf(*state);
    assert_int_equal(shelf_unread(shelf), 1);
    assert_true(shelf_is_stale(shelf));
    shelf_close(shelf);
}

static void folders_come_and_go(void **state)
{
    struct shelf *shelf;

    assert_int_equal(shelf_open(tree_path(*state, "later"), &shelf), STATUS_OK);
    assert_int_equal(shelf_status(shelf), STATUS_NOT_FOUND);
    assert_int_equal(shelf_entries(shelf)->count, 0);
    assert_false(shelf_is_stale(shelf));
    assert_false(shelf_read_next(shelf));
    shelf_keep_cache(shelf);
    assert_int_equal(rename(tree_path(*state, "shelf"), tree_path(*state, "later")), 0);
    assert_true(shelf_is_stale(shelf));
    assert_int_equal(shelf_scan(shelf), STATUS_OK);
    tree_write_text(tree_path(*state, "later/a.ini"), "[instrument]\nname = A\n");
    assert_int_equal(shelf_scan(shelf), STATUS_OK);
    assert_int_equal(shelf_entries(shelf)->count, 1);
    /* It vanishes between listing and reading. */
    assert_int_equal(rename(tree_path(*state, "later"), tree_path(*state, "gone")), 0);
    assert_int_equal(read_all(shelf), 1);
    assert_int_equal(entry_of(shelf, "a.ini")->status, STATUS_NOT_FOUND);
    assert_true(shelf_is_stale(shelf));
    assert_int_equal(shelf_scan(shelf), STATUS_NOT_FOUND);
    assert_int_equal(shelf_entries(shelf)->count, 0);
    tree_write_text(tree_path(*state, "later"), "a file");
    assert_int_equal(shelf_scan(shelf), STATUS_NOT_REGULAR);
    shelf_close(shelf);
}

static void a_folder_that_may_not_be_read_says_so(void **state)
{
    const bool root = geteuid() == 0;

    put(*state, "a.ini", "Tenor");
    assert_int_equal(chmod(tree_path(*state, "shelf"), 0), 0);
    /* No folder is closed to root. */
    if (root)
        assert_int_equal(seteuid(65534), 0);
    struct shelf *shelf = open_shelf(*state);
    if (root)
        assert_int_equal(seteuid(0), 0);
    assert_int_equal(shelf_status(shelf), STATUS_IO);
    assert_int_equal(shelf_error(shelf), EACCES);
    assert_int_equal(shelf_entries(shelf)->count, 0);
    assert_int_equal(chmod(tree_path(*state, "shelf"), 0700), 0);
    assert_true(shelf_is_stale(shelf));
    assert_int_equal(shelf_scan(shelf), STATUS_OK);
    assert_int_equal(read_all(shelf), 1);
    shelf_close(shelf);
}

static void it_works_without_a_cache(void **state)
{
    tree_write_text(tree_path(*state, "cache"), "not a folder\n");
    put(*state, "a.ini", "Tenor");
    struct shelf *shelf = open_shelf(*state);
    assert_int_equal(read_all(shelf), 1);
    shelf_keep_cache(shelf);
    assert_string_equal(entry_of(shelf, "a.ini")->card.name, "Tenor");
    shelf_close(shelf);
    tree_assert_text(tree_path(*state, "cache"), "not a folder\n");
}

/* Each keeps what it read last; either way the files decide. */
static void two_programs_share_a_cache(void **state)
{
    put(*state, "a.ini", "Tenor");
    put(*state, "b.ini", "Bass");
    wait_until_settled();
    struct shelf *one = open_shelf(*state), *two = open_shelf(*state);
    assert_true(shelf_read_next(one));
    read_all(two);
    shelf_keep_cache(two);
    shelf_keep_cache(one);
    shelf_close(two);
    two = open_shelf(*state);
    assert_int_equal(shelf_unread(two), 1);
    read_all(two);
    shelf_keep_cache(two);
    shelf_close(one);
    shelf_close(two);
    one = open_shelf(*state);
    assert_int_equal(shelf_unread(one), 0);
    assert_string_equal(entry_of(one, "a.ini")->card.name, "Tenor");
    assert_string_equal(entry_of(one, "b.ini")->card.name, "Bass");
    shelf_close(one);
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, open_tree, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(names_come_first_and_cards_follow),
        CASE(all_are_looked_at_before_any_is_read),
        CASE(what_was_only_looked_at_is_not_kept),
        CASE(a_file_spoilt_after_the_look_is_damaged),
        CASE(what_cannot_be_read_is_listed_with_its_reason),
        CASE(a_link_out_of_the_shelf_is_read_through),
        CASE(what_is_being_edited_is_in_use),
        CASE(unchanged_files_are_not_read_again),
        CASE(a_change_with_its_times_put_back_is_noticed),
        CASE(fresh_files_are_not_kept),
        CASE(folders_come_and_go),
        CASE(a_folder_that_may_not_be_read_says_so),
        CASE(it_works_without_a_cache),
        CASE(two_programs_share_a_cache),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
