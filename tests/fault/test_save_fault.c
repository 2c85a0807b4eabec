/* SPDX-License-Identifier: MIT */
/* Every call that a save makes fails once, in turn: afterwards either the old file or the new one
 * is there, byte for byte, and the next save works. */
#define _GNU_SOURCE /* O_TMPFILE */
#include "near.h"

#include <errno.h>
#include <fcntl.h>
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "faults.h"
#include "store/profile/generations.h"
#include "store/profile/profile.h"
#include "store/shop.h"
#include "store/shop_targets.h"
#include "tree.h"

static const char by_hand[] = "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n";

static char before[256], after[512];
static size_t before_length, after_length;

static void change(struct record *record)
{
    const struct reading_key note = reading_key_one(FIELD_NOTE);
    const struct reading_key scale = reading_key_one(FIELD_SCALE);

    assert_int_equal(record_put(record, &scale, "24.9 in", false, NULL), STATUS_OK);
    assert_int_equal(record_put(record, &note, "two\nlines", false, NULL), STATUS_OK);
}

static struct profile *open_changed(const char *path, struct record *ret_record)
{
    struct profile *profile;

    assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
    assert_int_equal(record_copy(profile_record(profile), ret_record), STATUS_OK);
    change(ret_record);
    return profile;
}

static void take_bytes(const char *path, char *out, size_t size, size_t *ret_length)
{
    char *bytes = tree_read(path, ret_length);

    assert_non_null(bytes);
    assert_true(*ret_length < size);
    memcpy(out, bytes, *ret_length + 1);
    free(bytes);
}

/* Fills in `before` (a whole file or one by hand) and what a save makes of it. */
static void prepare(const struct tree *tree, bool is_whole)
{
    const char *path = tree_path(tree, "sample.ini");
    struct record record;

    tree_write_text(path, by_hand);
    if (is_whole) {
        struct profile *profile;

        assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
        assert_int_equal(profile_save(profile, profile_record(profile)), STATUS_OK);
        profile_close(profile);
        assert_int_equal(unlink(tree_path(tree, "sample.ini.as-found")), 0);
    }
    take_bytes(path, before, sizeof before, &before_length);
    struct profile *profile = open_changed(path, &record);
    assert_int_equal(profile_save(profile, &record), STATUS_OK);
    record_done(&record);
    profile_close(profile);
    take_bytes(path, after, sizeof after, &after_length);
    assert_int_equal(unlink(path), 0);
    unlink(tree_path(tree, "sample.ini.as-found"));
    tree_remove(tree, ".generations");
    assert_int_equal(tree_count(tree->folder, ""), 0);
}

static bool holds(const char *path, const char *bytes, size_t length)
{
    size_t got_length;
    char *got = tree_read(path, &got_length);
    const bool same = got && got_length == length && memcmp(got, bytes, length) == 0;

    free(got);
    return same;
}

static void assert_old_or_new(const char *path, enum status status, const char *what, int nth)
{
    if (holds(path, after, after_length))
        return;
    if (status == STATUS_OK || !holds(path, before, before_length))
        fail_msg("%s, call %d: %s, but the file is neither the old nor the new one", what, nth,
                 status_text(status));
}

static void clear(const struct tree *tree)
{
    static const char *const names[] = {"a.ini", "a.ini.lock", "a.ini.as-found", "a.ini.conflict"};

    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        unlink(tree_path(tree, names[i]));
    tree_remove(tree, ".generations");
}

/* One save with its nth call failing. Returns false when there was no nth call. */
static bool save_with_fault(const struct tree *tree, enum fault_call call, enum fault_way way,
                            int nth, int error)
{
    const char *path = tree_path(tree, "a.ini");
    struct record record;

    clear(tree);
    tree_write(path, before, before_length);
    struct profile *profile = open_changed(path, &record);
    fault_arm(call, way, nth, error);
    errno = 0;
    const enum status status = profile_save(profile, &record);
    const int got_errno = errno;
    const bool reached = fault_disarm() >= nth;
    assert_old_or_new(path, status, fault_name(call), nth);
    if ((status == STATUS_IO || status == STATUS_FULL) && got_errno != error)
        fail_msg("%s, call %d: errno %d instead of %d", fault_name(call), nth, got_errno, error);
    if (call != FAULT_UNLINK && tree_count(tree->folder, ".tmp") != 0)
        fail_msg("%s, call %d left a temporary file", fault_name(call), nth);
    if (!reached)
        assert_int_equal(status, STATUS_OK);
    if (status != STATUS_CHANGED)
        assert_int_equal(profile_save(profile, &record), STATUS_OK);
    assert_true(holds(path, after, after_length));
    record_done(&record);
    profile_close(profile);
    return reached;
}

static void remove_temps(const struct tree *tree)
{
    glob_t found;

    if (glob(tree_path(tree, ".sillet-*"), 0, NULL, &found) != 0)
        return;
    for (size_t i = 0; i < found.gl_pathc; i++)
        assert_int_equal(unlink(found.gl_pathv[i]), 0);
    globfree(&found);
}

static int fail_each_call(const struct tree *tree, enum fault_call call, enum fault_way way,
                          int error)
{
    int nth = 1;

    while (save_with_fault(tree, call, way, nth, error)) {
        remove_temps(tree);
        nth++;
    }
    return nth - 1;
}

static void fail_every_kind(const struct tree *tree)
{
    static const enum fault_call needed[] = {FAULT_OPEN,  FAULT_STAT,   FAULT_READ,
                                             FAULT_WRITE, FAULT_MODE,   FAULT_SYNC,
                                             FAULT_CLOSE, FAULT_RENAME, FAULT_MEMORY};

    for (enum fault_call call = FAULT_OPEN; call < FAULT_COUNT_; call++) {
        const int count = fail_each_call(tree, call, FAULT_ONCE, EIO);

        print_message("%s: %d calls\n", fault_name(call), count);
        for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
            assert_true(needed[i] != call || count > 0);
        fail_each_call(tree, call, FAULT_STAYS, ENOSPC);
        if (fault_can_lie(call))
            fail_each_call(tree, call, FAULT_LIES, EIO);
    }
}

/* Over a network a rename may be done and its answer lost, and what was written be seen only
 * later: that is no change by somebody else. */
static void a_late_rename_is_our_own(void **state)
{
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "a.ini");
    const struct reading_key note = reading_key_one(FIELD_NOTE);
    struct record record;

    prepare(tree, true);
    tree_write(path, before, before_length);
    struct profile *profile = open_changed(path, &record);
    fault_arm(FAULT_RENAME, FAULT_ONCE, 1, EIO);
    assert_int_equal(profile_save(profile, &record), STATUS_IO);
    assert_int_equal(fault_disarm(), 1);
    tree_write(path, after, after_length);
    assert_int_equal(record_put(&record, &note, "three", false, NULL), STATUS_OK);
    assert_int_equal(profile_save(profile, &record), STATUS_OK);
    assert_null(profile_conflict_path(profile));
    assert_int_equal(tree_count(tree->folder, ".conflict"), 0);
    record_done(&record);
    profile_close(profile);
}

static void a_whole_file_survives_any_failure(void **state)
{
    prepare(*state, true);
    fail_every_kind(*state);
}

static void a_file_by_hand_survives_any_failure(void **state)
{
    prepare(*state, false);
    fail_every_kind(*state);
}

/* Of a new profile there is nothing, or all of it. */
static void a_new_file_survives_any_failure(void **state)
{
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "a.ini");

    for (int i = 2 * FAULT_OPEN; i < 2 * FAULT_COUNT_; i++) {
        const enum fault_call call = (enum fault_call)(i / 2);
        const enum fault_way way = i % 2 ? FAULT_LIES : FAULT_ONCE;
        bool reached = way != FAULT_LIES || fault_can_lie(call);

        for (int nth = 1; reached; nth++) {
            struct profile *profile;
            struct record record;

            clear(tree);
            remove_temps(tree);
            assert_int_equal(profile_create(path, &profile), STATUS_OK);
            assert_int_equal(record_copy(profile_record(profile), &record), STATUS_OK);
            change(&record);
            fault_arm(call, way, nth, EIO);
            const enum status status = profile_save(profile, &record);
            reached = fault_disarm() >= nth;
            if (status == STATUS_OK || access(path, F_OK) == 0) {
                struct profile *again;

                assert_int_equal(profile_open(path, PROFILE_TO_READ, NULL, &again), STATUS_OK);
                assert_int_equal(profile_notices(again), 0);
                assert_true(record_equal(profile_record(again), &record));
                profile_close(again);
            }
            assert_int_equal(profile_save(profile, &record), STATUS_OK);
            record_done(&record);
            profile_close(profile);
        }
    }
}

static void short_transfers_are_continued(void **state)
{
    const struct tree *tree = *state;

    prepare(tree, true);
    for (enum fault_call call = FAULT_READ; call <= FAULT_WRITE; call++) {
        struct record record;

        clear(tree);
        tree_write(tree_path(tree, "a.ini"), before, before_length);
        struct profile *profile = open_changed(tree_path(tree, "a.ini"), &record);
        fault_arm(call, FAULT_SHORT, 0, 0);
        assert_int_equal(profile_save(profile, &record), STATUS_OK);
        assert_true(fault_disarm() > 20);
        record_done(&record);
        profile_close(profile);
        assert_true(holds(tree_path(tree, "a.ini"), after, after_length));
    }
}

/* A file system without one of these is no reason not to save. */
static void what_a_system_lacks_is_done_without(void **state)
{
    static const struct {
        enum fault_call call;
        int error;
        unsigned notices;
    } cases[] = {
        {FAULT_LOCK, ENOLCK, PROFILE_NO_LOCK},
        {FAULT_LOCK, EOPNOTSUPP, PROFILE_NO_LOCK},
        {FAULT_LINK, EPERM, 0},
        {FAULT_LINK, EOPNOTSUPP, 0},
        {FAULT_MEMFD, ENOSYS, 0},
    };
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "a.ini");

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct profile *profile;
        struct record record;

        clear(tree);
        fault_arm(cases[i].call, FAULT_STAYS, 1, cases[i].error);
        assert_int_equal(profile_create(path, &profile), STATUS_OK);
        assert_int_equal(record_copy(profile_record(profile), &record), STATUS_OK);
        change(&record);
        assert_int_equal(profile_save(profile, &record), STATUS_OK);
        assert_int_equal(profile_notices(profile), cases[i].notices);
        profile_close(profile);
        assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
        assert_true(record_equal(profile_record(profile), &record));
        assert_true(fault_disarm() > 0);
        record_done(&record);
        profile_close(profile);
        assert_int_equal(tree_count(tree->folder, ".tmp"), 0);
    }
}

/* The file before its name is taken over, the folder after. */
static void a_save_syncs_file_and_folder(void **state)
{
    const struct tree *tree = *state;
    struct record record;

    const struct bytes generation = {.data = before, .length = before_length};

    prepare(tree, true);
    tree_write(tree_path(tree, "a.ini"), before, before_length);
    /* Kept already, so that of the generation only the folder is synced, and no file written. */
    assert_int_equal(generations_keep(tree_path(tree, "a.ini"), &generation, NULL), STATUS_OK);
    struct profile *profile = open_changed(tree_path(tree, "a.ini"), &record);
    fault_arm(FAULT_SYNC, FAULT_STAYS, 1, EIO);
    assert_int_equal(profile_save(profile, &record), STATUS_IO);
    assert_int_equal(fault_disarm(), 2);
    assert_true(holds(tree_path(tree, "a.ini"), before, before_length));
    fault_arm(FAULT_SYNC, FAULT_ONCE, 3, EIO);
    assert_int_equal(profile_save(profile, &record), STATUS_IO);
    assert_int_equal(fault_disarm(), 3);
    assert_true(holds(tree_path(tree, "a.ini"), after, after_length));
    /* What may not have reached the disk is written once more. */
    fault_arm(FAULT_SYNC, FAULT_ONCE, 99, EIO);
    assert_int_equal(profile_save(profile, &record), STATUS_OK);
    assert_int_equal(fault_disarm(), 2);
    assert_int_equal(profile_save(profile, &record), STATUS_OK);
    record_done(&record);
    profile_close(profile);
}

static void a_folder_that_cannot_be_synced_is_borne(void **state)
{
    const struct tree *tree = *state;

    prepare(tree, true);
    assert_true(save_with_fault(tree, FAULT_SYNC, FAULT_ONCE, 2, EINVAL));
    clear(tree);
}

/* Opening fails cleanly, too. */
static void opening_survives_any_failure(void **state)
{
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "a.ini");

    tree_write_text(path, by_hand);
    for (enum fault_call call = FAULT_OPEN; call < FAULT_COUNT_; call++) {
        bool reached = true;

        for (int nth = 1; reached; nth++) {
            struct problems problems;
            struct profile *profile = NULL;

            problems_init(&problems);
            fault_arm(call, FAULT_ONCE, nth, EIO);
            const enum status status = profile_open(path, PROFILE_TO_EDIT, &problems, &profile);
            reached = fault_disarm() >= nth;
            assert_true(status == STATUS_OK || (reached && !profile));
            profile_close(profile);
            problems_done(&problems);
            tree_assert_text(path, by_hand);
        }
    }
}

/* The power goes at each call in turn. */
static void a_kill_at_any_call_leaves_a_whole_file(void **state)
{
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "a.ini");
    int killed = 0, old = 0, status;

    prepare(tree, true);
    do {
        struct profile *profile;

        clear(tree);
        tree_write(path, before, before_length);
        const pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0) {
            struct record record;

            profile = open_changed(path, &record);
            fault_arm(FAULT_ANY, FAULT_KILL, killed + 1, 0);
            _exit(profile_save(profile, &record) == STATUS_OK ? 0 : 1);
        }
        assert_int_equal(waitpid(child, &status, 0), child);
        assert_old_or_new(path, WIFEXITED(status) ? STATUS_OK : STATUS_IO, "kill", killed + 1);
        killed += WIFSIGNALED(status);
        old += holds(path, before, before_length);
        assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
        assert_int_equal(profile_editable(profile), STATUS_OK);
        assert_int_equal(profile_notices(profile), 0);
        profile_close(profile);
        assert_int_equal(tree_count(tree->folder, ".tmp"), 0); /* swept */
    } while (WIFSIGNALED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
    print_message("killed at each of %d calls: %d old, %d new\n", killed, old, killed - old);
    assert_true(old > 5 && old < killed);
}

/* Where there are no files in memory, what is read passes through a folder of the system's; a
 * customer's record must not be left there, whenever the process ends. */
static void no_copy_stays_in_the_temporary_folder(void **state)
{
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "a.ini"), *folder = tree_path(tree, "temporary");
    int killed = 0, status;

    assert_int_equal(mkdir(folder, 0700), 0);
    const int fd = open(folder, O_TMPFILE | O_RDWR, 0600);
    if (fd < 0) {
        print_error("!!! NOT TESTED: no file without a name can be made here\n");
        skip();
    }
    close(fd);
    tree_write_text(path, by_hand);
    do {
        const pid_t child = fork();

        assert_true(child >= 0);
        if (child == 0) {
            struct profile *profile;

            setenv("TMPDIR", folder, 1);
            fault_lack(FAULT_MEMFD, ENOSYS);
            fault_arm(FAULT_ANY, FAULT_KILL, killed + 1, 0);
            _exit(profile_open(path, PROFILE_TO_READ, NULL, &profile) == STATUS_OK ? 0 : 1);
        }
        assert_int_equal(waitpid(child, &status, 0), child);
        killed += WIFSIGNALED(status);
        assert_int_equal(tree_count(folder, ""), 0);
    } while (WIFSIGNALED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
    assert_true(killed > 5);
}

static void the_settings_survive_any_failure(void **state)
{
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "shop.ini");
    const struct shop_units metric = shop_units_metric();

    for (enum fault_call call = FAULT_OPEN; call < FAULT_COUNT_; call++) {
        bool reached = true;

        for (int nth = 1; reached; nth++) {
            remove_temps(tree);
            tree_write_text(path, "[shop]\nunits = inch\n");
            fault_arm(call, FAULT_ONCE, nth, EIO);
            const enum status status = shop_write(path, &metric);
            reached = fault_disarm() >= nth;
            if (status == STATUS_OK || !holds(path, "[shop]\nunits = inch\n", 20))
                tree_assert_text(path, "[shop]\nunits = metric\n");
        }
    }
}

/* Each time the old targets or the new ones are there, whole, and the other section as it was. */
static void the_targets_of_the_shop_survive_any_failure(void **state)
{
    static const char old[] = "[shop]\nunits = inch\n\n[targets.bass]\nrelief = .012 in\n";
    static const char new[] = "[shop]\nunits = inch\n\n[targets.bass]\nrelief = .014 in\n";
    static const int errors[] = {EIO, ENOSPC, EROFS};
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "shop.ini");
    const struct reading_key kind = reading_key_one(FIELD_KIND),
                             relief = reading_key_one(FIELD_TARGET_RELIEF);
    struct record record;

    record_init(&record);
    assert_int_equal(record_put(&record, &kind, "bass", false, NULL), STATUS_OK);
    assert_int_equal(record_put(&record, &relief, ".014 in", false, NULL), STATUS_OK);
    for (size_t i = 0; i < sizeof errors / sizeof errors[0]; i++)
        for (enum fault_call call = FAULT_OPEN; call < FAULT_COUNT_; call++) {
            bool reached = true;

            for (int nth = 1; reached; nth++) {
                remove_temps(tree);
                tree_write_text(path, old);
                fault_arm(call, FAULT_ONCE, nth, errors[i]);
                const enum status status = shop_targets_keep(path, &record);
                reached = fault_disarm() >= nth;
                if (status == STATUS_OK || !holds(path, old, sizeof old - 1))
                    tree_assert_text(path, new);
            }
        }
    assert_true(fault_seen(FAULT_LOCK) > 0);
    record_done(&record);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(a_late_rename_is_our_own),
        IN_TREE(a_whole_file_survives_any_failure),
        IN_TREE(a_file_by_hand_survives_any_failure),
        IN_TREE(a_new_file_survives_any_failure),
        IN_TREE(short_transfers_are_continued),
        IN_TREE(what_a_system_lacks_is_done_without),
        IN_TREE(a_save_syncs_file_and_folder),
        IN_TREE(a_folder_that_cannot_be_synced_is_borne),
        IN_TREE(opening_survives_any_failure),
        IN_TREE(a_kill_at_any_call_leaves_a_whole_file),
        IN_TREE(no_copy_stays_in_the_temporary_folder),
        IN_TREE(the_settings_survive_any_failure),
        IN_TREE(the_targets_of_the_shop_survive_any_failure),
    };

    return cmocka_run_group_tests_name("save_fault", tests, NULL, NULL) ? 1 : 0;
}
