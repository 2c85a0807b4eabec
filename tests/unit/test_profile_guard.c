/* SPDX-License-Identifier: MIT */
/* A profile is protected from other programs, other versions and other names. */
#include "near.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/host.h"
#include "tree.h"

static void each_found_state_is_kept_once(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    for (int round = 0; round < 2; round++) {
        tree_write_text(path, steps_tiny);
        struct profile *profile = steps_open_to_change(path, &record);
        steps_put(&record, "board", "frets", "20");
        steps_save(profile, &record);
        steps_put(&record, "board", "frets", "21");
        steps_save(profile, &record);
        steps_close(profile, &record);
    }
    assert_int_equal(tree_count(((struct tree *)*state)->folder, "as-found"), 1);
    tree_write_text(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\n");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_save(profile, &record);
    steps_close(profile, &record);
    tree_assert_text(tree_path(*state, "a.ini.as-found"), steps_tiny);
    tree_assert_text(tree_path(*state, "a.ini.as-found.2"),
                     "[profile]\nformat = 1\n[board]\nscale = 24 in\n");
}

static void a_change_by_someone_else_keeps_both(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    static const char theirs[] = "[profile]\nformat = 1\n\n[board]\nscale = 25.6 in\n";
    struct record record;

    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    tree_write_text(path, theirs);
    steps_put(&record, "board", "frets", "20");
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    tree_assert_text(path, theirs);
    assert_string_equal(profile_conflict_path(profile), tree_path(*state, "a.ini.conflict"));
    assert_int_equal(profile_notices(profile), PROFILE_CONFLICT);
    steps_put(&record, "board", "frets", "21");
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    steps_close(profile, &record);
    tree_assert_text(path, theirs);
    steps_assert_saved(tree_path(*state, "a.ini.conflict"),
                       "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nfrets = 21\n\n");
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 2);
}

/* Same size and, as far as the clock can tell, the same moment. */
static void a_change_is_noticed_without_the_clock(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct stat facts;
    struct record record;

    tree_write_text(path, steps_tiny);
    assert_int_equal(stat(path, &facts), 0);
    struct profile *profile = steps_open_to_change(path, &record);
    tree_write_text(path, "[profile]\nformat = 1\n\n[board]\nscale = 25.6 in\n");
    const struct timespec times[2] = {facts.st_atim, facts.st_mtim};
    assert_int_equal(utimensat(AT_FDCWD, path, times, 0), 0);
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    steps_close(profile, &record);
}

static void a_file_only_touched_is_no_conflict(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    tree_write_text(path, steps_tiny);
    struct profile *profile = steps_open_to_change(path, &record);
    tree_write_text(tree_path(*state, "b"), steps_tiny);
    assert_int_equal(rename(tree_path(*state, "b"), path), 0);
    steps_save(profile, &record);
    steps_close(profile, &record);
}

static void a_removed_file_is_written_anew(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    assert_int_equal(unlink(path), 0);
    steps_put(&record, "board", "frets", "20");
    steps_save(profile, &record);
    assert_int_equal(profile_notices(profile), PROFILE_WRITTEN_ANEW);
    steps_assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nfrets = 20\n\n");
    steps_put(&record, "board", "frets", "21");
    steps_save(profile, &record);
    assert_int_equal(profile_notices(profile), 0);
    steps_close(profile, &record);
}

/* A stick or a share that was mounted there is taken away, and what is under it is writable. */
static void nothing_is_begun_in_another_folder(void **state)
{
    const char *folder = tree_path(*state, "stick"), *away = tree_path(*state, "away");
    const char *path = tree_path(*state, "stick/a.ini");
    struct record record;

    assert_int_equal(mkdir(folder, 0700), 0);
    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "frets", "20");
    assert_int_equal(rename(folder, away), 0);
    assert_int_equal(mkdir(folder, 0700), 0);
    assert_int_equal(profile_save(profile, &record), STATUS_MOVED);
    assert_int_equal(tree_count(folder, ""), 0);
    /* Nor is an older copy there a change by somebody else. */
    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\n\n");
    assert_int_equal(profile_save(profile, &record), STATUS_MOVED);
    assert_int_equal(tree_count(folder, ""), 1);
    tree_remove(*state, "stick");
    assert_int_equal(rename(away, folder), 0);
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nfrets = 20\n\n");
}

/* Nor what goes beside it, once somebody else's change has sent ours there. */
static void nor_is_a_conflict_begun_there(void **state)
{
    const char *folder = tree_path(*state, "stick"), *away = tree_path(*state, "away");
    const char *path = tree_path(*state, "stick/a.ini");
    struct record record;

    assert_int_equal(mkdir(folder, 0700), 0);
    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\n\n");
    steps_put(&record, "board", "frets", "20");
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    assert_int_equal(rename(folder, away), 0);
    assert_int_equal(mkdir(folder, 0700), 0);
    steps_put(&record, "board", "frets", "21");
    assert_int_equal(profile_save(profile, &record), STATUS_MOVED);
    assert_int_equal(tree_count(folder, ""), 0);
    tree_remove(*state, "stick");
    assert_int_equal(rename(away, folder), 0);
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    steps_close(profile, &record);
    assert_int_equal(tree_count(folder, ".conflict"), 1);
    steps_assert_saved(tree_path(*state, "stick/a.ini.conflict"),
                       "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nfrets = 21\n\n");
}

/* Each notice is one thing to tell, and no other. */
static void a_version_and_a_taken_lock_are_two_things(void **state)
{
    const char *path = tree_path(*state, "a.ini");

    for (unsigned which = 0; which < 4; which++) {
        tree_write_text(path, steps_tiny);
        tree_remove(*state, "a.ini.conflict");
        tree_remove(*state, "a.ini.lock");
        if (which & 1)
            tree_write_text(tree_path(*state, "a.ini.conflict"), steps_tiny);
        if (which & 2)
            tree_write_text(tree_path(*state, "a.ini.lock"), "mine");
        struct profile *profile = steps_open(path);
        const unsigned notices = profile_notices(profile);
        assert_int_equal((notices & PROFILE_VERSIONS) != 0, (which & 1) != 0);
        assert_int_equal((notices & PROFILE_LOCK_TAKEN) != 0, (which & 2) != 0);
        profile_close(profile);
    }
}

/* Plugged in again it may be another file system to the machine. */
static void the_same_file_in_another_folder_is_saved(void **state)
{
    const char *folder = tree_path(*state, "stick"), *away = tree_path(*state, "away");
    const char *path = tree_path(*state, "stick/a.ini");
    struct record record;

    assert_int_equal(mkdir(folder, 0700), 0);
    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    assert_int_equal(rename(folder, away), 0);
    assert_int_equal(mkdir(folder, 0700), 0);
    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n");
    steps_put(&record, "board", "frets", "20");
    steps_save(profile, &record);
    assert_int_equal(unlink(path), 0);
    steps_put(&record, "board", "frets", "21");
    steps_save(profile, &record); /* it lives here now */
    steps_close(profile, &record);
}

static void a_newer_format_is_never_rewritten(void **state)
{
    static const char *const formats[] = {"3", "999999999999", "1.5", "one"};
    const char *path = tree_path(*state, "a.ini");

    for (size_t i = 0; i < sizeof formats / sizeof formats[0]; i++) {
        char memory[128];
        struct strbuf file = STRBUF(memory);
        struct record record;

        strbuf_addf(&file, "[profile]\nformat = %s\n[board]\nscale = 25 in\n", formats[i]);
        tree_write_text(path, memory);
        struct profile *profile = steps_open_to_change(path, &record);
        assert_int_equal(profile_editable(profile), STATUS_NEWER);
        steps_put(&record, "board", "scale", "26 in");
        assert_int_equal(profile_save(profile, &record), STATUS_NEWER);
        steps_close(profile, &record);
        tree_assert_text(path, memory);
    }
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
}

static void the_second_program_reads_only(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    tree_write_text(path, steps_tiny);
    assert_int_equal(symlink("a.ini", tree_path(*state, "link.ini")), 0);
    struct profile *first = steps_open(path);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 1);
    struct profile *second = steps_open_to_change(tree_path(*state, "link.ini"), &record);
    char memory[64];
    struct strbuf holder = STRBUF(memory);
    host_add_user(&holder, geteuid());
    strbuf_addf(&holder, ", process %d on ", (int)getpid());
    assert_int_equal(profile_editable(second), STATUS_LOCKED);
    assert_ptr_equal(strstr(profile_lock_holder(second), memory), profile_lock_holder(second));
    assert_int_equal(profile_save(second, &record), STATUS_LOCKED);
    steps_close(second, &record);
    /* The second one's end must not take the first one's lock away. */
    second = steps_open(path);
    assert_int_equal(profile_editable(second), STATUS_LOCKED);
    profile_close(second);
    profile_close(first);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 0);
    first = steps_open(path);
    assert_int_equal(profile_editable(first), STATUS_OK);
    profile_close(first);
}

static void a_dead_ones_lock_is_taken_over(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    int status;

    tree_write_text(path, steps_tiny);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        struct profile *profile;

        _exit(profile_open(path, PROFILE_TO_EDIT, NULL, &profile) == STATUS_OK ? 0 : 1);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 1);
    struct profile *profile = steps_open(path);
    assert_int_equal(profile_editable(profile), STATUS_OK);
    profile_close(profile);
}

/* A lock file that leads elsewhere must not have anything written through it. */
static void a_planted_lock_does_no_harm(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    tree_write_text(path, steps_tiny);
    tree_write_text(tree_path(*state, "victim"), "precious");
    assert_int_equal(symlink("victim", tree_path(*state, "a.ini.lock")), 0);
    struct profile *profile = steps_open_to_change(path, &record);
    assert_int_equal(profile_editable(profile), STATUS_OK);
    assert_true(profile_notices(profile) & PROFILE_NO_LOCK);
    steps_save(profile, &record);
    steps_close(profile, &record);
    tree_assert_text(tree_path(*state, "victim"), "precious");
    assert_int_equal(unlink(tree_path(*state, "a.ini.lock")), 0);
    assert_int_equal(symlink("made", tree_path(*state, "a.ini.lock")), 0);
    profile = steps_open(path);
    assert_true(profile_notices(profile) & PROFILE_NO_LOCK);
    profile_close(profile);
    assert_int_equal(access(tree_path(*state, "made"), F_OK), -1);
    assert_int_equal(unlink(tree_path(*state, "a.ini.lock")), 0);
    assert_int_equal(mkfifo(tree_path(*state, "a.ini.lock"), 0600), 0);
    profile = steps_open(path);
    assert_true(profile_notices(profile) & PROFILE_NO_LOCK);
    profile_close(profile);
}

/* Saves one reading into a profile by hand, which keeps it as found. */
static void save_frets(const char *path, const char *frets, unsigned notices)
{
    struct record record;
    struct profile *profile = steps_open_to_change(path, &record);

    assert_int_equal(profile_editable(profile), STATUS_OK);
    assert_int_equal(profile_notices(profile) & PROFILE_LOCK_TAKEN, notices & PROFILE_LOCK_TAKEN);
    steps_put(&record, "board", "frets", frets);
    steps_save(profile, &record);
    steps_close(profile, &record);
}

/* Whatever of somebody's own is called like one of ours is neither written nor taken away. */
static void somebodys_own_file_with_the_locks_name_stays(void **state)
{
    static const char *const texts[] = {
        "[profile]\nformat = 1\n[board]\nscale = 13 in\n",
        "sillet is a fine word to begin with\n",
        "sillet 12 bench\nand a second line\n",
        "sillet 12 bench",
    };
    const char *path = tree_path(*state, "a.ini"), *lock = tree_path(*state, "a.ini.lock");

    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        tree_write_text(path, steps_tiny);
        tree_write_text(lock, texts[i]);
        save_frets(path, "20", PROFILE_LOCK_TAKEN);
        tree_assert_text(lock, texts[i]);
    }
    /* An empty one may be another program's lock: it is used, and stays as it was. */
    tree_write_text(lock, "");
    struct profile *profile = steps_open(path), *second = steps_open(path);
    assert_int_equal(profile_editable(profile), STATUS_OK);
    assert_int_equal(profile_editable(second), STATUS_LOCKED);
    profile_close(second);
    profile_close(profile);
    tree_assert_text(lock, "");
    /* A second name of a profile is one, whatever it says. */
    tree_write_text(tree_path(*state, "b"), "sillet 1 bench\n");
    assert_int_equal(unlink(lock), 0);
    assert_int_equal(link(tree_path(*state, "b"), lock), 0);
    save_frets(path, "21", PROFILE_LOCK_TAKEN);
    tree_assert_text(tree_path(*state, "b"), "sillet 1 bench\n");
}

/* The copy that a rewrite or a conflict needs is a file of its own: no link, no profile. */
static void a_copy_is_never_a_link(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    const char *victim = tree_path(*state, "victim.ini");

    for (int way = 0; way < 4; way++) {
        const char *found = tree_path(*state, "a.ini.as-found");
        const char *next = tree_path(*state, "a.ini.as-found.2");

        tree_write_text(path, steps_tiny);
        tree_write_text(victim, "mine");
        unlink(found);
        unlink(next);
        if (way == 0)
            assert_int_equal(symlink("a.ini", found), 0); /* holds the same, for now */
        else if (way == 1)
            assert_int_equal(link(path, found), 0);
        else if (way == 2)
            assert_int_equal(symlink("nowhere", found), 0);
        else
            assert_int_equal(symlink("victim.ini", found), 0);
        save_frets(path, "20", 0);
        tree_assert_text(next, steps_tiny);
        tree_assert_text(victim, "mine");
        assert_int_equal(access(tree_path(*state, "nowhere"), F_OK), -1);
    }
}

static void a_conflict_copy_is_never_a_link(void **state)
{
    const char *path = tree_path(*state, "a.ini"), *victim = tree_path(*state, "victim.ini");
    const char *beside = tree_path(*state, "a.ini.conflict");
    size_t length;
    struct record record;

    steps_write_whole(path, steps_tiny);
    struct profile *profile = steps_open_to_change(path, &record);
    tree_write_text(path, steps_tiny);
    steps_put(&record, "board", "frets", "20");
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    char *ours = tree_read(beside, &length);
    /* What was our copy is a link to the same bytes now. */
    tree_write(victim, ours, length);
    assert_int_equal(unlink(beside), 0);
    assert_int_equal(symlink("victim.ini", beside), 0);
    steps_put(&record, "board", "frets", "21");
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    tree_assert_holds(victim, ours, length);
    assert_string_equal(profile_conflict_path(profile), tree_path(*state, "a.ini.conflict.2"));
    steps_close(profile, &record);
    free(ours);
}

/* --- what could never be saved --- */

/* Every name that a file can have leaves room for what is made beside it. */
static void the_longest_name_can_be_saved(void **state)
{
    for (size_t length = 225; length <= 255; length += 5) {
        char name[270] = "long/", other[270];
        const char *folder = tree_path(*state, "long");
        struct record record;

        memset(name + 5, 'n', length);
        memcpy(name + 5 + length - 4, ".ini", 5);
        memcpy(other, name, sizeof other);
        other[length] = 'm'; /* not the same when cut */
        assert_int_equal(mkdir(folder, 0700), 0);
        const char *path = tree_path(*state, name);
        tree_write_text(path, steps_tiny);
        tree_write_text(tree_path(*state, other), steps_tiny);
        struct profile *profile = steps_open_to_change(path, &record);
        assert_int_equal(profile_notices(profile) & PROFILE_NO_LOCK, 0);
        struct profile *second = steps_open(path), *third = steps_open(tree_path(*state, other));
        assert_int_equal(profile_editable(second), STATUS_LOCKED);
        assert_int_equal(profile_editable(third), STATUS_OK);
        profile_close(second);
        profile_close(third);
        steps_put(&record, "board", "frets", "20");
        steps_save(profile, &record);
        assert_int_equal(profile_notices(profile), PROFILE_END_MISSING | PROFILE_KEPT_AS_FOUND);
        tree_write_text(path, steps_tiny);
        steps_put(&record, "board", "frets", "21");
        assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
        steps_close(profile, &record);
        assert_int_equal(tree_count(folder, ".as-found"), 1);
        assert_int_equal(tree_count(folder, ".conflict"), 1);
        tree_remove(*state, "long");
    }
}

static void a_thousand_copies_are_no_end(void **state)
{
    char name[40], path[300];

    snprintf(path, sizeof path, "%s", tree_path(*state, "a.ini"));
    tree_write_text(path, steps_tiny);
    tree_write_text(tree_path(*state, "a.ini.as-found"), "1");
    for (int i = 2; i <= 1000; i++) {
        snprintf(name, sizeof name, "a.ini.as-found.%d", i);
        tree_write_text(tree_path(*state, name), "other");
    }
    save_frets(path, "20", 0);
    tree_assert_text(tree_path(*state, "a.ini.as-found.1001"), steps_tiny);
}

static void a_link_that_leads_nowhere_is_said(void **state)
{
    const char *link = tree_path(*state, "a.ini");
    struct profile *profile;

    assert_int_equal(symlink("nowhere.ini", link), 0);
    assert_int_equal(profile_open(link, PROFILE_TO_EDIT, NULL, &profile), STATUS_NOWHERE);
    assert_int_equal(profile_create(link, &profile), STATUS_NOWHERE);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
}

static void a_new_profile_never_overwrites(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct profile *profile;
    struct record record;

    assert_int_equal(profile_create(tree_path(*state, "none/a.ini"), &profile), STATUS_NOT_FOUND);
    assert_int_equal(profile_create(path, &profile), STATUS_OK);
    assert_int_equal(record_copy(profile_record(profile), &record), STATUS_OK);
    steps_put(&record, "board", "scale", "25.5 in");
    tree_write_text(path, steps_tiny);
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    tree_assert_text(path, steps_tiny);
    profile_close(profile);
    assert_int_equal(profile_create(path, &profile), STATUS_CHANGED);
    assert_int_equal(unlink(path), 0);
    assert_int_equal(profile_create(path, &profile), STATUS_OK);
    steps_save(profile, &record);
    assert_int_equal(profile_notices(profile), 0);
    steps_put(&record, "instrument", "name", "Parlour No. 3");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 1\n\n[instrument]\nname = Parlour No. 3\n\n"
                             "[board]\nscale = 25.5 in\n\n");
    struct stat facts;
    assert_int_equal(stat(path, &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0600);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(each_found_state_is_kept_once),
        IN_TREE(a_change_by_someone_else_keeps_both),
        IN_TREE(a_change_is_noticed_without_the_clock),
        IN_TREE(a_file_only_touched_is_no_conflict),
        IN_TREE(a_removed_file_is_written_anew),
        IN_TREE(nothing_is_begun_in_another_folder),
        IN_TREE(nor_is_a_conflict_begun_there),
        IN_TREE(a_version_and_a_taken_lock_are_two_things),
        IN_TREE(the_same_file_in_another_folder_is_saved),
        IN_TREE(a_newer_format_is_never_rewritten),
        IN_TREE(the_second_program_reads_only),
        IN_TREE(a_dead_ones_lock_is_taken_over),
        IN_TREE(a_planted_lock_does_no_harm),
        IN_TREE(somebodys_own_file_with_the_locks_name_stays),
        IN_TREE(a_copy_is_never_a_link),
        IN_TREE(a_conflict_copy_is_never_a_link),
        IN_TREE(the_longest_name_can_be_saved),
        IN_TREE(a_thousand_copies_are_no_end),
        IN_TREE(a_link_that_leads_nowhere_is_said),
        IN_TREE(a_new_profile_never_overwrites),
    };

    return cmocka_run_group_tests_name("profile_guard", tests, NULL, NULL) ? 1 : 0;
}
