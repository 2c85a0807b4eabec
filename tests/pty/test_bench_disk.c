/* SPDX-License-Identifier: MIT */

/* What can go wrong with an open profile: changes by others, a full or read-only disk. */
#define _GNU_SOURCE /* prlimit, unshare */

#include <errno.h>
#include <pwd.h>
#include <sched.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "bench_screen.h"

/* --- two programs, one profile --- */

static void expect_reading_only(struct terminal *terminal)
{
    terminal_expect(terminal, SEEN_READ_ONLY);
    bench_enter(terminal, ".020");
    terminal_expect(terminal, SEEN_NOT_CHANGED);
    terminal_key(terminal, TERMINAL_ESCAPE);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
    terminal_key(terminal, TERMINAL_DELETE);
    terminal_expect(terminal, SEEN_NOT_CHANGED);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".013");
}

static void test_second_program_reads(void **state)
{
    struct bench *bench = *state;
    char holder[64];

    bench_copy(bench, "worked-example.ini");
    struct terminal *first = bench_start(bench);
    struct terminal *second = bench_start_other(bench);

    const struct passwd *user = getpwuid(geteuid());
    assert_non_null(user);
    snprintf(holder, sizeof holder, SEEN_IN_USE " %s, process %d", user->pw_name,
             (int)terminal_pid(first));
    terminal_expect(second, holder);
    expect_reading_only(second);
    bench_expect_line(bench, "relief = .013 in");
    bench_enter(first, ".014");
    bench_expect_gap(first, 6);
    bench_expect_line(bench, "relief = .014 in");
    bench_quit(second);
    bench_enter(first, "31"); /* its lock is still its own */
    bench_expect_gap(first, 5);
    assert_int_equal(tree_count(bench->tree->folder, ".lock"), 1);
    bench_quit(first);
    assert_int_equal(tree_count(bench->tree->folder, ".lock"), 0);
    bench_expect_line(bench, "nut_gap.6 = 31 th");
    first = bench_start(bench);
    terminal_check(first, terminal_find(first, SEEN_READ_ONLY, NULL) < 0);
}

/* The same profile by another name. */
static void test_second_program_through_a_link(void **state)
{
    struct bench *bench = *state;
    char link[320];

    bench_copy(bench, "worked-example.ini");
    bench_start(bench);
    snprintf(link, sizeof link, "%s/link.ini", bench->home);
    assert_int_equal(symlink(bench->profile, link), 0);
    const char *const argv[] = {bench_program(), link, NULL};
    bench->other = terminal_start(&(struct terminal_setup){.argv = argv, .home = bench->home});
    terminal_expect(bench->other, SEEN_IN_USE);
    expect_reading_only(bench->other);
}

/* --- somebody else's hand in the file --- */

static const char stranger[] = "; a stranger was here\n";

static char *write_over(const struct bench *bench, size_t *ret_length)
{
    size_t length;
    char *bytes = tree_read(bench->profile, &length);

    assert_non_null(bytes);
    bytes = realloc(bytes, length + sizeof stranger);
    assert_non_null(bytes);
    memcpy(bytes + length, stranger, sizeof stranger);
    *ret_length = length + sizeof stranger - 1;
    tree_write(bench->profile, bytes, *ret_length);
    return bytes;
}

static void expect_in_conflict_copy(const struct bench *bench, const char *text)
{
    char path[420];
    char *bytes;

    snprintf(path, sizeof path, "%s.conflict", bench->profile);
    bytes = tree_read(path, NULL);
    assert_non_null(bytes);
    assert_non_null(strstr(bytes, text));
    free(bytes);
}

static void test_changed_underneath(void **state)
{
    struct bench *bench = *state;
    size_t length;

    bench_copy(bench, "worked-example.ini");
    struct terminal *terminal = bench_start(bench);
    char *theirs = write_over(bench, &length);

    bench_enter(terminal, ".014");
    terminal_expect(terminal, SEEN_OTHER_CHANGE);
    terminal_expect(terminal, "bench.ini.conflict"); /* where ours is, not cut off */
    tree_assert_holds(bench->profile, theirs, length);
    expect_in_conflict_copy(bench, "\nrelief = .014 in\n");
    bench_enter(terminal, "31");
    bench_expect_gap(terminal, 5);
    tree_assert_holds(bench->profile, theirs, length);
    expect_in_conflict_copy(bench, "\nnut_gap.6 = 31 th\n");
    bench_quit(terminal);
    tree_assert_holds(bench->profile, theirs, length);
    assert_int_equal(tree_count(bench->tree->folder, ".conflict"), 1);
    free(theirs);
}

static void test_removed_underneath(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    struct terminal *terminal = bench_start(bench);
    assert_int_equal(unlink(bench->profile), 0);
    bench_enter(terminal, ".014");
    bench_expect_gap(terminal, 6);
    terminal_expect(terminal, SEEN_KEPT);
    bench_quit(terminal);
    bench_expect_line(bench, "relief = .014 in");
}

/* --- a full disk --- */

static void expect_not_on_disk(struct bench *bench)
{
    struct terminal *terminal = bench->terminal;

    bench_enter(terminal, ".014");
    terminal_expect(terminal, SEEN_NOT_ON_DISK);
    terminal_expect(terminal, SEEN_NOT_KEPT);
    bench_expect_row(terminal, ROW_TITLED_RELIEF, ".014"); /* held all the same */
    bench_expect_line(bench, "relief = .013 in");
    bench_enter(terminal, "31");
    bench_expect_gap(terminal, 5);
    terminal_expect(terminal, SEEN_NOT_KEPT);
    bench_expect_no_line(bench, "nut_gap.6 = 31 th");
}

/* Without a key: the program tries again by itself. */
static void expect_kept_by_itself(struct bench *bench)
{
    terminal_expect_gone(bench->terminal, SEEN_NOT_KEPT);
    terminal_expect(bench->terminal, SEEN_KEPT);
    terminal_expect_gone(bench->terminal, SEEN_NOT_ON_DISK);
    bench_expect_line(bench, "relief = .014 in");
    bench_expect_line(bench, "nut_gap.6 = 31 th");
    bench_quit(bench->terminal);
    assert_int_equal(tree_count(bench->tree->folder, ".tmp"), 0);
}

static void limit_files(const struct terminal *terminal, rlim_t bytes)
{
    struct rlimit limit;

    assert_int_equal(prlimit(terminal_pid(terminal), RLIMIT_FSIZE, NULL, &limit), 0);
    limit.rlim_cur = bytes;
    assert_int_equal(prlimit(terminal_pid(terminal), RLIMIT_FSIZE, &limit, NULL), 0);
}

static void test_file_size_limit(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    limit_files(bench_start(bench), 0);
    expect_not_on_disk(bench);
    limit_files(bench->terminal, RLIM_INFINITY);
    expect_kept_by_itself(bench);
}

/* Readings that are nowhere but here are not thrown away by one key. */
static void test_quit_while_full(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    limit_files(bench_start(bench), 0);
    expect_not_on_disk(bench);
    terminal_type(bench->terminal, "q");
    terminal_expect(bench->terminal, SEEN_AGAIN_QUITS);
    terminal_key(bench->terminal, TERMINAL_UP); /* no, not yet */
    terminal_expect_gone(bench->terminal, SEEN_AGAIN_QUITS);
    terminal_type(bench->terminal, "q");
    terminal_expect(bench->terminal, SEEN_AGAIN_QUITS);
    limit_files(bench->terminal, RLIM_INFINITY);
    terminal_expect_gone(bench->terminal, SEEN_NOT_KEPT);
    bench_quit(bench->terminal);
    bench_expect_line(bench, "nut_gap.6 = 31 th");
}

static void test_quit_all_the_same(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    limit_files(bench_start(bench), 0);
    expect_not_on_disk(bench);
    terminal_type(bench->terminal, "qq");
    const int status = terminal_expect_end(bench->terminal);
    terminal_check(bench->terminal, WIFEXITED(status) && WEXITSTATUS(status) == 3);
    terminal_expect(bench->terminal, SEEN_LOST);
    bench_expect_restored(bench->terminal);
}

/* Told to end while nothing can be written: said on the way out, by the exit status too. */
static void test_hangup_while_full(void **state)
{
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    limit_files(bench_start(bench), 0);
    expect_not_on_disk(bench);
    terminal_signal(bench->terminal, SIGTERM);
    const int status = terminal_expect_end(bench->terminal);
    terminal_check(bench->terminal, WIFEXITED(status) && WEXITSTATUS(status) == 3);
    terminal_expect(bench->terminal, SEEN_LOST);
    bench_expect_restored(bench->terminal);
    bench_expect_line(bench, "relief = .013 in");
}

/* Full, then changed by another hand, with room again: the conflict copy holds every reading. The
 * program is told to end before it tries again by itself. */
static void test_hangup_after_a_change(void **state)
{
    struct bench *bench = *state;
    size_t length;

    bench_copy(bench, "worked-example.ini");
    limit_files(bench_start(bench), 0);
    bench_enter(bench->terminal, ".014");
    terminal_expect(bench->terminal, SEEN_NOT_ON_DISK);
    char *theirs = write_over(bench, &length);
    limit_files(bench->terminal, RLIM_INFINITY);
    terminal_signal(bench->terminal, SIGTERM);
    const int status = terminal_expect_end(bench->terminal);
    terminal_check(bench->terminal, WIFEXITED(status) && WEXITSTATUS(status) == 0);
    terminal_expect(bench->terminal, SEEN_OTHER_CHANGE);
    terminal_expect(bench->terminal, "bench.ini.conflict");
    bench_expect_restored(bench->terminal);
    tree_assert_holds(bench->profile, theirs, length);
    expect_in_conflict_copy(bench, "\nrelief = .014 in\n");
    assert_int_equal(tree_count(tree_path(bench->tree, "home/state/sillet/aside"), ""), 0);
    free(theirs);
}

/* --- disks of our own --- */

static void write_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");

    if (file) {
        fputs(text, file);
        fclose(file);
    }
}

/* As root mounts of our own; else as root of a namespace of our own, where that is allowed. */
static bool try_private_mounts(void)
{
    char map[64];
    const uid_t user = geteuid();
    const gid_t group = getegid();

    if (unshare(CLONE_NEWNS) != 0) {
        if (unshare(CLONE_NEWUSER | CLONE_NEWNS) != 0)
            return false;
        write_file("/proc/self/setgroups", "deny");
        snprintf(map, sizeof map, "0 %u 1", (unsigned)user);
        write_file("/proc/self/uid_map", map);
        snprintf(map, sizeof map, "0 %u 1", (unsigned)group);
        write_file("/proc/self/gid_map", map);
    }
    return mount(NULL, "/", NULL, MS_REC | MS_PRIVATE, NULL) == 0;
}

static bool private_mounts(void)
{
    static int answer = -1;

    if (answer < 0)
        answer = try_private_mounts();
    return answer == 1;
}

/* Puts the profile on a small disk of its own; skips the test where that cannot be done. */
static void mount_disk(struct bench *bench, const char *options)
{
    char folder[280];

    snprintf(folder, sizeof folder, "%s/disk", bench->tree->folder);
    assert_int_equal(mkdir(folder, 0700), 0);
    if (!private_mounts() || mount("none", folder, "tmpfs", 0, options) != 0) {
        print_error("!!! NOT TESTED: no mount is allowed here: %s\n", strerror(errno));
        skip();
    }
    snprintf(bench->profile, sizeof bench->profile, "%s/bench.ini", folder);
    bench_copy(bench, "worked-example.ini");
}

static int close_disk(void **state)
{
    struct bench *bench = *state;
    char folder[280];

    terminal_stop(bench->other);
    terminal_stop(bench->terminal);
    bench->terminal = bench->other = NULL;
    snprintf(folder, sizeof folder, "%s/disk", bench->tree->folder);
    (void)umount(folder);
    return bench_close(state);
}

/* Fills the disk to the last byte. */
static void fill_disk(const char *path)
{
    static const char block[1024];
    FILE *file = fopen(path, "wb");

    assert_non_null(file);
    setvbuf(file, NULL, _IONBF, 0);
    while (fwrite(block, 1, sizeof block, file) == sizeof block) {
    }
    fclose(file);
}

static void test_full_disk(void **state)
{
    struct bench *bench = *state;
    char filler[300];

    mount_disk(bench, "size=64k");
    bench_start(bench);
    snprintf(filler, sizeof filler, "%s/disk/filler", bench->tree->folder);
    fill_disk(filler);
    expect_not_on_disk(bench);
    assert_int_equal(unlink(filler), 0);
    expect_kept_by_itself(bench);
}

static void test_read_only_folder(void **state)
{
    struct bench *bench = *state;
    char folder[280];
    size_t length;

    mount_disk(bench, "size=256k");
    snprintf(folder, sizeof folder, "%s/disk", bench->tree->folder);
    char *bytes = tree_read(bench->profile, &length);
    assert_int_equal(mount("none", folder, "tmpfs", MS_REMOUNT | MS_RDONLY, "size=256k"), 0);
    expect_reading_only(bench_start(bench));
    bench_quit(bench->terminal);
    tree_assert_holds(bench->profile, bytes, length);
    assert_int_equal(tree_count(folder, ""), 1);
    free(bytes);
}

/* The disk becomes read-only while the profile is open, as after an error on it. */
static void test_turns_read_only(void **state)
{
    struct bench *bench = *state;
    char folder[280];

    mount_disk(bench, "size=256k");
    snprintf(folder, sizeof folder, "%s/disk", bench->tree->folder);
    bench_start(bench);
    /* The lock is open for writing, so the mount would be busy; a bind over it is not. */
    assert_int_equal(mount(folder, folder, NULL, MS_BIND, NULL), 0);
    assert_int_equal(mount(NULL, folder, NULL, MS_BIND | MS_REMOUNT | MS_RDONLY, NULL), 0);
    expect_not_on_disk(bench);
    assert_int_equal(umount(folder), 0);
    expect_kept_by_itself(bench);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_second_program_reads),
        BENCH_CASE(test_second_program_through_a_link),
        BENCH_CASE(test_changed_underneath),
        BENCH_CASE(test_removed_underneath),
        BENCH_CASE(test_file_size_limit),
        BENCH_CASE(test_quit_while_full),
        BENCH_CASE(test_quit_all_the_same),
        BENCH_CASE(test_hangup_while_full),
        BENCH_CASE(test_hangup_after_a_change),
        cmocka_unit_test_setup_teardown(test_full_disk, bench_open, close_disk),
        cmocka_unit_test_setup_teardown(test_read_only_folder, bench_open, close_disk),
        cmocka_unit_test_setup_teardown(test_turns_read_only, bench_open, close_disk),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
