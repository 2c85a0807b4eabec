/* SPDX-License-Identifier: MIT */
/* Real disks that are full or read-only, and processes that are killed, as far as the machine
 * allows it. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* unshare */
#endif
#include "near.h"

#include <errno.h>
#include <fcntl.h>
#include <sched.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "seeded.h"
#include "store/profile/profile.h"
#include "store/safefile.h"
#include "tree.h"

static const char tiny[] = "[profile]\nformat = 1\n\n[board]\nscale = 25.5 in\n";

static void put_note(struct record *record, const char *text)
{
    const struct reading_key key = reading_key_one(FIELD_NOTE);

    assert_int_equal(record_put(record, &key, text, false, NULL), STATUS_OK);
}

static struct profile *open_to_change(const char *path, struct record *ret_record)
{
    struct profile *profile;

    assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
    assert_int_equal(record_copy(profile_record(profile), ret_record), STATUS_OK);
    return profile;
}

static void write_id_map(const char *path, unsigned id)
{
    char text[64];
    const int fd = open(path, O_WRONLY);

    snprintf(text, sizeof text, "0 %u 1", id);
    if (fd < 0 || write(fd, text, strlen(text)) < 0)
        print_message("%s could not be written\n", path);
    if (fd >= 0)
        close(fd);
}

/* A name space of our own, so that nothing mounted here is seen by others. */
static bool own_mounts(void)
{
    const unsigned user = geteuid(), group = getegid();

    if (unshare(CLONE_NEWNS) != 0) {
        if (unshare(CLONE_NEWUSER | CLONE_NEWNS) != 0)
            return false;
        write_id_map("/proc/self/uid_map", user);
        const int fd = open("/proc/self/setgroups", O_WRONLY);
        if (fd >= 0 && (write(fd, "deny", 4) < 0 || close(fd) < 0))
            return false;
        write_id_map("/proc/self/gid_map", group);
    }
    return mount("none", "/", NULL, MS_REC | MS_PRIVATE, NULL) == 0;
}

/* Runs in a child: its mounts, limits and user end with it. */
static void in_child(void (*run)(const struct tree *tree), const struct tree *tree)
{
    int status;
    const pid_t child = fork();

    assert_true(child >= 0);
    if (child == 0) {
        run(tree);
        _exit(0);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    if (WIFEXITED(status) && WEXITSTATUS(status) == 77) {
        print_message("SKIPPED: this machine does not let a test mount a small disk\n");
        skip();
    }
    if (status != 0)
        fail_msg("the child ended with status %d", status);
}

/* In the child, where a failed assertion of cmocka's would jump into the parent's frames. */
#define CHECK(condition) check((condition), #condition, __LINE__)
static void check(bool good, const char *words, int line)
{
    if (good)
        return;
    fprintf(stderr, "line %d: %s (errno %d)\n", line, words, errno);
    _exit(1);
}

static bool file_holds(const char *path, const char *text)
{
    char *bytes = tree_read(path, NULL);
    const bool same = bytes && strcmp(bytes, text) == 0;

    free(bytes);
    return same;
}

static void mount_small_disk(const struct tree *tree, const char *options)
{
    if (!own_mounts() || mount("none", tree->folder, "tmpfs", 0, options) != 0)
        _exit(77);
}

/* Fills the disk but for `pages`. */
static void fill_disk(const char *path, int pages)
{
    static char page[4096];
    const int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    off_t length = 0;

    memset(page, 'x', sizeof page);
    while (write(fd, page, sizeof page) == (ssize_t)sizeof page)
        length += (off_t)sizeof page;
    length -= pages * (off_t)sizeof page;
    CHECK(ftruncate(fd, length > 0 ? length : 0) == 0);
    CHECK(close(fd) == 0);
}

static void save_on_a_full_disk(const struct tree *tree)
{
    const char *path = tree_path(tree, "a.ini"), *fill = tree_path(tree, "fill");
    char note[FIELD_TEXT_MAX + 1];
    struct record record;
    struct profile *profile;
    enum status status = STATUS_FULL;
    int pages = 0;

    mount_small_disk(tree, "size=128k");
    memset(note, ';', sizeof note - 1);
    note[sizeof note - 1] = '\0';
    tree_write_text(path, tiny);
    profile = open_to_change(path, &record);
    put_note(&record, note);
    for (; status != STATUS_OK; pages++) {
        fill_disk(fill, pages);
        status = profile_save(profile, &record);
        if (status == STATUS_OK)
            break;
        CHECK(status == STATUS_FULL && errno == ENOSPC);
        CHECK(file_holds(path, tiny));
        CHECK(tree_count(tree->folder, ".tmp") == 0);
        CHECK(pages < 30);
    }
    CHECK(pages > 3);
    profile_close(profile);
    profile = open_to_change(path, &record);
    CHECK(profile_notices(profile) == 0);
    CHECK(file_holds(tree_path(tree, "a.ini.as-found"), tiny));
    profile_close(profile);
}

static void a_full_disk_loses_nothing(void **state)
{
    in_child(save_on_a_full_disk, *state);
}

static void save_on_a_read_only_disk(const struct tree *tree)
{
    const char *path = tree_path(tree, "a.ini");
    struct record record;
    struct profile *profile;

    mount_small_disk(tree, "size=128k");
    tree_write_text(path, tiny);
    profile = open_to_change(path, &record);
    put_note(&record, "x");
    /* The lock file is open for writing, which would keep the disk from being remounted. */
    profile_close(profile);
    CHECK(mount("none", tree->folder, NULL, MS_REMOUNT | MS_RDONLY, NULL) == 0);
    CHECK(profile_open(path, PROFILE_TO_EDIT, NULL, &profile) == STATUS_OK);
    CHECK(profile_editable(profile) == STATUS_READ_ONLY);
    CHECK(profile_save(profile, &record) == STATUS_READ_ONLY);
    profile_close(profile);
    struct safefile file;
    CHECK(safefile_begin(path, SAFEFILE_REPLACE, &file) == STATUS_READ_ONLY && errno == EROFS);
    CHECK(profile_create(tree_path(tree, "b.ini"), &profile) == STATUS_READ_ONLY);
    CHECK(file_holds(path, tiny));
}

static void a_read_only_disk_is_said(void **state)
{
    in_child(save_on_a_read_only_disk, *state);
}

/* To root everything may be written: become somebody. */
static void become_somebody(const struct tree *tree)
{
    if (geteuid() != 0)
        return;
    CHECK(chown(tree->folder, 65534, 65534) == 0);
    CHECK(chown(tree_path(tree, "a.ini"), 65534, 65534) == 0);
    CHECK(setgid(65534) == 0 && setuid(65534) == 0);
}

static void save_without_permission(const struct tree *tree)
{
    const char *path = tree_path(tree, "a.ini");
    struct record record;
    struct profile *profile;
    struct safefile file;

    tree_write_text(path, tiny);
    become_somebody(tree);
    CHECK(chmod(path, 0444) == 0);
    profile = open_to_change(path, &record);
    CHECK(profile_editable(profile) == STATUS_READ_ONLY);
    CHECK(profile_save(profile, &record) == STATUS_READ_ONLY);
    profile_close(profile);
    CHECK(tree_count(tree->folder, ".lock") == 0);
    CHECK(safefile_begin(path, SAFEFILE_REPLACE, &file) == STATUS_READ_ONLY && errno == EACCES);
    CHECK(chmod(path, 0644) == 0);
    profile = open_to_change(path, &record);
    CHECK(profile_editable(profile) == STATUS_OK);
    CHECK(chmod(tree->folder, 0555) == 0);
    put_note(&record, "x");
    CHECK(profile_save(profile, &record) == STATUS_READ_ONLY);
    CHECK(errno == EACCES);
    CHECK(file_holds(path, tiny));
    CHECK(chmod(tree->folder, 0755) == 0);
    CHECK(profile_save(profile, &record) == STATUS_OK);
    profile_close(profile);
    CHECK(chmod(tree->folder, 0555) == 0);
    profile = open_to_change(path, &record);
    CHECK(profile_editable(profile) == STATUS_READ_ONLY);
    profile_close(profile);
    CHECK(chmod(path, 0) == 0);
    CHECK(profile_open(path, PROFILE_TO_READ, NULL, &profile) == STATUS_IO && errno == EACCES);
    CHECK(chmod(tree->folder, 0755) == 0);
}

static void missing_permission_is_said(void **state)
{
    in_child(save_without_permission, *state);
}

static void save_under_a_limit(const struct tree *tree)
{
    const char *path = tree_path(tree, "a.ini");
    struct rlimit limit = {.rlim_cur = 90, .rlim_max = RLIM_INFINITY};
    struct record record;
    struct profile *profile;

    /* As main does. */
    CHECK(signal(SIGXFSZ, SIG_IGN) != SIG_ERR);
    tree_write_text(path, tiny);
    profile = open_to_change(path, &record);
    put_note(&record, "a text that goes over the limit");
    CHECK(setrlimit(RLIMIT_FSIZE, &limit) == 0);
    const enum status status = profile_save(profile, &record);
    const int error = errno;
    limit.rlim_cur = RLIM_INFINITY;
    CHECK(setrlimit(RLIMIT_FSIZE, &limit) == 0); /* for the report as well */
    CHECK(status == STATUS_FULL && error == EFBIG);
    CHECK(file_holds(path, tiny));
    CHECK(tree_count(tree->folder, ".tmp") == 0);
    CHECK(profile_save(profile, &record) == STATUS_OK);
    profile_close(profile);
}

static void a_size_limit_is_said(void **state)
{
    in_child(save_under_a_limit, *state);
}

/* Tells through `told` which save was the last to be done. */
static void save_for_ever(const char *path, int told)
{
    struct record record;
    struct profile *profile = open_to_change(path, &record);

    for (int i = 0;; i++) {
        char note[600];

        memset(note, 'a' + i % 20, sizeof note - 1);
        note[sizeof note - 1 - (size_t)(i % 300)] = '\0';
        put_note(&record, note);
        if (profile_save(profile, &record) != STATUS_OK ||
            write(told, &i, sizeof i) != (ssize_t)sizeof i)
            _exit(1);
    }
}

/* A note whose letters are all the same: it was saved whole. */
static bool is_of_one_letter(const char *text)
{
    for (size_t i = 0; text[i]; i++)
        if (text[i] != text[0])
            return false;
    return true;
}

/* How many saves were done until the child was killed. */
static int save_until_killed(const char *path, const struct timespec *pause)
{
    int told[2], status, last = -1;

    assert_int_equal(pipe(told), 0);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0)
        save_for_ever(path, told[1]);
    close(told[1]);
    nanosleep(pause, NULL);
    assert_int_equal(kill(child, SIGKILL), 0);
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status));
    while (read(told[0], &last, sizeof last) == (ssize_t)sizeof last) {
    }
    close(told[0]);
    return last + 1;
}

/* The last save that was done is there, or the one that was under way. */
static void expect_save(const char *text, int done)
{
    if (done == 0 && !text)
        return;
    assert_true(text && is_of_one_letter(text));
    const char next = (char)('a' + done % 20), last = (char)('a' + (done + 19) % 20);
    if (text[0] != next && (text[0] != last || done == 0))
        fail_msg("%d saves were done, but '%c' is there", done, text[0]);
}

static int kills = 200;

static void killed_at_any_moment_the_file_is_whole(void **state)
{
    const struct tree *tree = *state;
    const char *path = tree_path(tree, "a.ini");
    const struct reading_key key = reading_key_one(FIELD_NOTE);
    struct seeded seeded = seeded_start("killed at any moment");
    int left = 0, saves = 0;

    for (int round = 0; round < kills; round++) {
        const struct timespec pause = {.tv_nsec = seeded_whole(&seeded, 1000000, 19000000)};
        struct record record;

        tree_write_text(path, tiny);
        const int done = save_until_killed(path, &pause);
        saves += done;
        left += tree_count(tree->folder, ".tmp");
        struct profile *profile = open_to_change(path, &record);
        assert_int_equal(profile_editable(profile), STATUS_OK);
        /* Before its first save the child had only the file by hand to lose. */
        if (profile_notices(profile) != 0)
            tree_assert_text(path, tiny);
        expect_save(record_text(&record, &key), done);
        record_done(&record);
        profile_close(profile);
        assert_int_equal(tree_count(tree->folder, ".tmp"), 0);
    }
    print_message("%d kills after %d saves: 0 damaged, 0 lost, %d temporary files swept\n", kills,
                  saves, left);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

/* The number of kills may be given. */
int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(a_full_disk_loses_nothing),
        IN_TREE(a_read_only_disk_is_said),
        IN_TREE(missing_permission_is_said),
        IN_TREE(a_size_limit_is_said),
        IN_TREE(killed_at_any_moment_the_file_is_whole),
    };

    if (argc > 1)
        kills = atoi(argv[1]);
    return cmocka_run_group_tests_name("save_disk", tests, NULL, NULL) ? 1 : 0;
}
