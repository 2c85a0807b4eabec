/* SPDX-License-Identifier: MIT */
/* Two users who share a group's setgid folder, which only root can set up for a test. Each user
 * is a separate process. */
#define _GNU_SOURCE /* setresuid, setgroups */
#include "near.h"

#include <errno.h>
#include <fcntl.h>
#include <grp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/profile/bring_back.h"
#include "store/profile/copies.h"
#include "store/profile/lockfile.h"
#include "store/profile/preset.h"
#include "store/shelf/shelf_change.h"
#include "tree.h"

enum { ANNA = 51001, BERT = 51002, SHOP = 52000 };

#define FOLDER "shop"
#define PATH   FOLDER "/a.ini"

static const char start[] = "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n";

static struct tree *tree_of(void **state)
{
    return *state;
}

/* FOLDER of the group, and a profile of Anna's in it. */
static void begin(void **state, mode_t folder_mode)
{
    if (geteuid() != 0) {
        print_error("!!! NOT TESTED: only an administrator can be two users\n");
        skip();
    }
    const char *folder = tree_path(*state, FOLDER), *path = tree_path(*state, PATH);

    assert_int_equal(chmod(tree_of(state)->folder, 0755), 0);
    assert_int_equal(mkdir(folder, 0700), 0);
    assert_int_equal(chown(folder, 0, SHOP), 0);
    assert_int_equal(chmod(folder, folder_mode), 0);
    steps_write_whole(path, start);
    assert_int_equal(chown(path, ANNA, SHOP), 0);
    assert_int_equal(chmod(path, 0664), 0);
}

static void become(uid_t user)
{
    const gid_t group = SHOP;

    /* A group of one's own, and the shop's. */
    assert_int_equal(setgroups(1, &group), 0);
    assert_int_equal(setresgid(user, user, user), 0);
    assert_int_equal(setresuid(user, user, user), 0);
    umask(022);
}

/* Does it as that user; what it returns is an exit code. */
static int as(uid_t user, int (*work)(const struct tree *tree), void **state)
{
    int status;
    const pid_t child = fork();

    assert_true(child >= 0);
    if (child == 0) {
        become(user);
        _exit(work(tree_of(state)));
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static struct stat facts_of(void **state, const char *name)
{
    struct stat facts;

    assert_int_equal(lstat(tree_path(*state, name), &facts), 0);
    return facts;
}

static void expect_shared(void **state, const char *name, mode_t mode)
{
    const struct stat facts = facts_of(state, name);

    if ((facts.st_mode & 0777) != mode || facts.st_gid != SHOP)
        fail_msg("%s: mode %o of group %u", name, (unsigned)facts.st_mode, (unsigned)facts.st_gid);
}

/* --- what each of them does --- */

/* Changes the profile; the exit code says what was noticed. */
static int save_scale(const struct tree *tree, const char *scale)
{
    const struct reading_key key = reading_key_one(FIELD_SCALE);
    struct profile *profile;
    struct record record;

    if (profile_open(tree_path(tree, PATH), PROFILE_TO_EDIT, NULL, &profile) != STATUS_OK)
        return 100;
    if (profile_editable(profile) != STATUS_OK)
        return 101;
    const unsigned before = profile_notices(profile);
    if (record_copy(profile_record(profile), &record) != STATUS_OK ||
        record_put(&record, &key, scale, false, NULL) != STATUS_OK ||
        profile_save(profile, &record) != STATUS_OK)
        return 102;
    const unsigned after = profile_notices(profile);
    record_done(&record);
    profile_close(profile);
    if (before & PROFILE_CLOSED_GENERATIONS)
        return 1;
    if (before & PROFILE_NO_GENERATION)
        return after & PROFILE_NO_GENERATION ? 2 : 103;
    return after & PROFILE_NO_GENERATION ? 104 : 0;
}

static int save_24(const struct tree *tree)
{
    return save_scale(tree, "24 in");
}

static int save_23(const struct tree *tree)
{
    return save_scale(tree, "23 in");
}

/* Ends in the middle, as in a crash: the lock file stays. */
static int crash(const struct tree *tree)
{
    struct profile *profile;

    if (profile_open(tree_path(tree, PATH), PROFILE_TO_EDIT, NULL, &profile) != STATUS_OK)
        return 100;
    return profile_editable(profile) == STATUS_OK ? 0 : 101;
}

static int bring_oldest_back(const struct tree *tree)
{
    struct copies list;
    enum brought brought = BROUGHT_NOTHING;

    if (copies_list(tree_path(tree, PATH), COPY_EARLIER, &list) != STATUS_OK || list.count == 0)
        return 100;
    const enum status status =
        bring_back(tree_path(tree, PATH), list.items[list.count - 1].path, &brought);
    copies_done(&list);
    return status == STATUS_OK && brought == BROUGHT_BACK ? 0 : 101;
}

static int file_a_new_one(const struct tree *tree)
{
    struct record record;
    char *file = NULL;

    if (preset_record(preset_get(0), &record) != STATUS_OK)
        return 100;
    const enum status status = shelf_file_record(tree_path(tree, FOLDER), &record, "Uke", &file);
    record_done(&record);
    free(file);
    return status == STATUS_OK ? 0 : 101;
}

static int put_away(const struct tree *tree)
{
    char *file = NULL;
    const enum status status = shelf_archive(tree_path(tree, FOLDER), "a.ini", &file);

    free(file);
    return status == STATUS_OK ? 0 : 101;
}

static int see_why_not(const struct tree *tree)
{
    struct profile *profile;

    if (profile_open(tree_path(tree, PATH), PROFILE_TO_EDIT, NULL, &profile) != STATUS_OK)
        return 100;
    const enum status status = profile_editable(profile);
    profile_close(profile);
    return -(int)status;
}

/* --- */

static void rights_and_group_stay(void **state)
{
    static const mode_t modes[] = {0664, 0660, 0666};

    begin(state, 02770);
    for (size_t i = 0; i < sizeof modes / sizeof modes[0]; i++) {
        tree_remove(*state, FOLDER "/.generations");
        assert_int_equal(chmod(tree_path(*state, PATH), modes[i]), 0);
        assert_int_equal(as(BERT, save_24, state), 0);
        expect_shared(state, PATH, modes[i]);
        assert_int_equal(as(ANNA, save_23, state), 0);
        expect_shared(state, PATH, modes[i]);
    }
    /* Also where the folder gives no group. */
    assert_int_equal(chmod(tree_path(*state, FOLDER), 0777), 0);
    assert_int_equal(as(BERT, save_24, state), 0);
    expect_shared(state, PATH, 0666);
}

/* A group that cannot be given is not replaced by another that gets its rights. */
static void no_other_group_gets_the_rights(void **state)
{
    begin(state, 0777);
    assert_int_equal(chown(tree_path(*state, PATH), ANNA, SHOP + 1), 0);
    assert_int_equal(chmod(tree_path(*state, PATH), 0666), 0);
    assert_int_equal(as(BERT, save_24, state), 0);
    const struct stat facts = facts_of(state, PATH);
    assert_int_equal(facts.st_mode & 0777, 0606);
}

static void earlier_states_are_shared(void **state)
{
    begin(state, 02770);
    assert_int_equal(as(ANNA, save_24, state), 0);
    assert_int_equal(as(BERT, save_23, state), 0);
    expect_shared(state, FOLDER "/.generations", 0770);
    expect_shared(state, FOLDER "/.generations/a.ini", 0770);
    struct copies list;
    assert_int_equal(copies_list(tree_path(*state, PATH), COPY_EARLIER, &list), STATUS_OK);
    assert_int_equal(list.count, 2);
    for (size_t i = 0; i < list.count; i++)
        expect_shared(state, list.items[i].path + strlen(tree_of(state)->folder) + 1, 0660);
    copies_done(&list);
    /* Each can bring back what the other kept. */
    assert_int_equal(as(BERT, bring_oldest_back, state), 0);
    expect_shared(state, PATH, 0664);
    assert_int_equal(tree_count(tree_path(*state, FOLDER "/.generations/a.ini"), ".ini"), 3);
}

/* A folder of Anna's from before the profile was shared: both are told, and her next change opens
 * it to him. */
static void where_none_can_be_kept_both_are_told(void **state)
{
    begin(state, 02770);
    assert_int_equal(chmod(tree_path(*state, PATH), 0644), 0);
    assert_int_equal(as(ANNA, save_24, state), 0);
    assert_int_equal(facts_of(state, FOLDER "/.generations").st_mode & 0777, 0700);
    assert_int_equal(chmod(tree_path(*state, PATH), 0664), 0);
    assert_int_equal(as(BERT, save_23, state), 2);
    assert_int_equal(as(ANNA, save_24, state), 1);
    expect_shared(state, FOLDER "/.generations/a.ini", 0770);
    assert_int_equal(as(BERT, save_23, state), 0);
}

/* Who has it is said to either, and a crash of one does not keep the other out. */
static void a_lock_is_shared(void **state)
{
    static const uid_t users[] = {ANNA, BERT};

    begin(state, 02770);
    for (int i = 0; i < 2; i++) {
        char name[40];

        assert_int_equal(as(users[i], crash, state), 0);
        expect_shared(state, PATH ".lock", 0660);
        assert_true(!lockfile_is_held(tree_path(*state, PATH)));
        assert_int_equal(as(users[1 - i], save_24, state), 0);
        assert_int_equal(access(tree_path(*state, PATH ".lock"), F_OK), -1);
        snprintf(name, sizeof name, "user_%u, process ", (unsigned)users[i]);
        int ready[2], go[2];
        assert_int_equal(pipe(ready), 0);
        assert_int_equal(pipe(go), 0);
        const pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0) {
            char byte = 'x';

            become(users[i]);
            byte = (char)crash(tree_of(state));
            _exit(write(ready[1], &byte, 1) == 1 && close(go[1]) == 0 && read(go[0], &byte, 1) == 0
                      ? 0
                      : 1);
        }
        char byte = 'x';
        assert_int_equal(read(ready[0], &byte, 1), 1);
        assert_int_equal(byte, 0);
        assert_int_equal(as(users[1 - i], see_why_not, state), -STATUS_LOCKED);
        struct profile *profile = steps_open(tree_path(*state, PATH));
        assert_int_equal(profile_editable(profile), STATUS_LOCKED);
        assert_ptr_equal(strstr(profile_lock_holder(profile), name), profile_lock_holder(profile));
        profile_close(profile);
        for (int end = 0; end < 2; end++) {
            close(ready[end]);
            close(go[end]);
        }
        assert_int_equal(waitpid(child, NULL, 0), child);
    }
}

/* A lock that Bert may not read, as an earlier sillet made them: he is told whose it is. */
static void a_closed_lock_is_no_riddle(void **state)
{
    begin(state, 02770);
    tree_write_text(tree_path(*state, PATH ".lock"), "sillet 1 elsewhere\n");
    assert_int_equal(chown(tree_path(*state, PATH ".lock"), ANNA, SHOP), 0);
    assert_int_equal(chmod(tree_path(*state, PATH ".lock"), 0600), 0);
    assert_int_equal(as(BERT, see_why_not, state), -STATUS_LOCKED);
}

/* A crash of the administrator's leaves nothing that shuts the owner out. */
static void the_administrators_leavings_are_the_owners(void **state)
{
    int status;

    begin(state, 02770);
    assert_int_equal(chmod(tree_path(*state, PATH), 0600), 0);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0)
        _exit(save_24(tree_of(state)) != 0 ? 99 : crash(tree_of(state)));
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(WEXITSTATUS(status), 0);
    static const char *const made[] = {PATH, PATH ".lock", FOLDER "/.generations",
                                       FOLDER "/.generations/a.ini"};
    for (size_t i = 0; i < sizeof made / sizeof made[0]; i++) {
        const struct stat facts = facts_of(state, made[i]);

        assert_int_equal(facts.st_uid, ANNA);
        assert_int_equal(facts.st_mode & 077, 0);
    }
    assert_int_equal(as(ANNA, save_23, state), 0);
    assert_int_equal(as(ANNA, bring_oldest_back, state), 0);
}

static void new_ones_and_the_archive_are_shared(void **state)
{
    begin(state, 02770);
    assert_int_equal(as(ANNA, save_24, state), 0);
    assert_int_equal(as(ANNA, file_a_new_one, state), 0);
    expect_shared(state, FOLDER "/uke.ini", 0660);
    assert_int_equal(as(BERT, put_away, state), 0);
    expect_shared(state, FOLDER "/archive", 0770);
    expect_shared(state, FOLDER "/archive/a.ini", 0664);
    expect_shared(state, FOLDER "/archive/.generations/a.ini", 0770);
}

/* In a sticky folder the system would refuse every save: said before the first. */
static void anothers_file_in_a_sticky_folder_is_for_reading(void **state)
{
    begin(state, 03770);
    assert_int_equal(as(BERT, see_why_not, state), -STATUS_NOT_OURS);
    assert_int_equal(as(ANNA, save_24, state), 0);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(rights_and_group_stay),
        CASE(no_other_group_gets_the_rights),
        CASE(earlier_states_are_shared),
        CASE(where_none_can_be_kept_both_are_told),
        CASE(a_lock_is_shared),
        CASE(a_closed_lock_is_no_riddle),
        CASE(the_administrators_leavings_are_the_owners),
        CASE(new_ones_and_the_archive_are_shared),
        CASE(anothers_file_in_a_sticky_folder_is_for_reading),
    };
    return cmocka_run_group_tests_name("share", tests, NULL, NULL) ? 1 : 0;
}
