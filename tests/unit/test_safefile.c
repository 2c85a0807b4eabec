/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "base/strbuf.h"
#include "store/host.h"
#include "store/safefile.h"
#include "tree.h"

static enum status write_text(const char *path, enum safefile_mode mode, const char *text)
{
    struct safefile file;
    const enum status status = safefile_begin(path, mode, &file);

    if (status != STATUS_OK)
        return status;
    safefile_write(&file, text, strlen(text));
    return safefile_commit(&file);
}

static mode_t mode_of(const char *path)
{
    struct stat facts;

    assert_int_equal(lstat(path, &facts), 0);
    return facts.st_mode;
}

static void a_file_is_made_and_replaced(void **state)
{
    const char *path = tree_path(*state, "a");

    assert_int_equal(write_text(path, SAFEFILE_REPLACE, "one"), STATUS_OK);
    tree_assert_text(path, "one");
    assert_int_equal(mode_of(path) & 07777, 0600);
    assert_int_equal(chmod(path, 0640), 0);
    assert_int_equal(write_text(path, SAFEFILE_REPLACE, "two"), STATUS_OK);
    tree_assert_text(path, "two");
    assert_int_equal(mode_of(path) & 07777, 0640);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
}

static void a_cancelled_file_leaves_nothing(void **state)
{
    const char *path = tree_path(*state, "a");
    struct safefile file;

    tree_write_text(path, "old");
    assert_int_equal(safefile_begin(path, SAFEFILE_REPLACE, &file), STATUS_OK);
    assert_int_equal(safefile_write(&file, "new", 3), STATUS_OK);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".tmp"), 1);
    errno = E2BIG;
    safefile_cancel(&file);
    assert_int_equal(errno, E2BIG);
    tree_assert_text(path, "old");
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
}

static void two_at_a_time_do_not_meet(void **state)
{
    const char *path = tree_path(*state, "a");
    struct safefile one, two;

    assert_int_equal(safefile_begin(path, SAFEFILE_REPLACE, &one), STATUS_OK);
    assert_int_equal(safefile_begin(path, SAFEFILE_REPLACE, &two), STATUS_OK);
    safefile_write(&one, "one", 3);
    safefile_write(&two, "two", 3);
    assert_int_equal(safefile_commit(&two), STATUS_OK);
    tree_assert_text(path, "two");
    assert_int_equal(safefile_commit(&one), STATUS_OK);
    tree_assert_text(path, "one");
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
}

static void a_new_file_overwrites_nothing(void **state)
{
    const char *path = tree_path(*state, "a");
    struct safefile file;

    assert_int_equal(safefile_begin(path, SAFEFILE_NEW, &file), STATUS_OK);
    safefile_write(&file, "new", 3);
    tree_write_text(path, "theirs");
    assert_int_equal(safefile_commit(&file), STATUS_CHANGED);
    tree_assert_text(path, "theirs");
    assert_int_equal(write_text(path, SAFEFILE_NEW, "new"), STATUS_CHANGED);
    assert_int_equal(unlink(path), 0);
    assert_int_equal(write_text(path, SAFEFILE_NEW, "new"), STATUS_OK);
    tree_assert_text(path, "new");
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
}

static void a_link_is_written_through(void **state)
{
    const char *folder = tree_path(*state, "real"), *path = tree_path(*state, "real/a");
    const char *link = tree_path(*state, "link");

    assert_int_equal(mkdir(folder, 0700), 0);
    tree_write_text(path, "old");
    assert_int_equal(symlink("real/a", link), 0);
    assert_int_equal(write_text(link, SAFEFILE_REPLACE, "new"), STATUS_OK);
    assert_true(S_ISLNK(mode_of(link)));
    tree_assert_text(path, "new");
    assert_int_equal(tree_count(folder, ""), 1);
    assert_int_equal(unlink(path), 0);
    assert_int_equal(write_text(link, SAFEFILE_REPLACE, "new"), STATUS_NOWHERE);
    assert_true(S_ISLNK(mode_of(link)));
}

/* What sillet makes by itself takes the name or leaves it, and touches nothing behind a link. */
static void its_own_files_go_through_no_link(void **state)
{
    const char *path = tree_path(*state, "a"), *soft = tree_path(*state, "soft");
    const char *hard = tree_path(*state, "hard"), *nowhere = tree_path(*state, "nowhere");

    tree_write_text(path, "mine");
    assert_int_equal(symlink("a", soft), 0);
    assert_int_equal(symlink("made", nowhere), 0);
    assert_int_equal(link(path, hard), 0);
    assert_int_equal(write_text(soft, SAFEFILE_OWN, "x"), STATUS_NOT_REGULAR);
    assert_int_equal(write_text(nowhere, SAFEFILE_OWN, "x"), STATUS_NOT_REGULAR);
    assert_int_equal(write_text(soft, SAFEFILE_NEW, "x"), STATUS_CHANGED);
    assert_int_equal(write_text(nowhere, SAFEFILE_NEW, "x"), STATUS_CHANGED);
    assert_int_equal(write_text(hard, SAFEFILE_OWN, "x"), STATUS_OK);
    tree_assert_text(path, "mine");
    tree_assert_text(hard, "x");
    assert_int_equal(access(tree_path(*state, "made"), F_OK), -1);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".tmp"), 0);
}

static void only_files_are_replaced(void **state)
{
    const char *fifo = tree_path(*state, "fifo");

    assert_int_equal(mkfifo(fifo, 0600), 0);
    assert_int_equal(write_text(fifo, SAFEFILE_REPLACE, "x"), STATUS_NOT_REGULAR);
    assert_int_equal(write_text(((struct tree *)*state)->folder, SAFEFILE_REPLACE, "x"),
                     STATUS_NOT_REGULAR);
    assert_true(S_ISFIFO(mode_of(fifo)));
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
    assert_int_equal(write_text(tree_path(*state, "none/a"), SAFEFILE_REPLACE, "x"),
                     STATUS_NOT_FOUND);
}

static void paths_without_a_folder_work(void **state)
{
    char before[1024];
    char *target;

    assert_non_null(getcwd(before, sizeof before));
    assert_int_equal(chdir(((struct tree *)*state)->folder), 0);
    assert_int_equal(write_text("a", SAFEFILE_REPLACE, "one"), STATUS_OK);
    assert_int_equal(write_text("./b", SAFEFILE_NEW, "two"), STATUS_OK);
    assert_int_equal(chdir(before), 0);
    tree_assert_text(tree_path(*state, "a"), "one");
    tree_assert_text(tree_path(*state, "b"), "two");
    target = safefile_target("/no-such-file");
    assert_string_equal(target, "/no-such-file");
    free(target);
    assert_null(safefile_target("no-such-folder/x/"));
}

static void a_name_of_any_length_works(void **state)
{
    char name[256];

    memset(name, 'n', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    const char *path = tree_path(*state, name);
    assert_int_equal(write_text(path, SAFEFILE_REPLACE, "x"), STATUS_OK);
    tree_assert_text(path, "x");
}

/* The id of a process that is gone. */
static long dead_process(void)
{
    const pid_t child = fork();

    assert_true(child >= 0);
    if (child == 0)
        _exit(0);
    assert_int_equal(waitpid(child, NULL, 0), child);
    return child;
}

/* Writes a file of that name and text; `end` is what follows the process. */
static const char *write_temp(const struct tree *tree, const char *host, long process,
                              const char *end, const char *text)
{
    char name[400];

    snprintf(name, sizeof name, ".sillet-%s-%ld-%s", host, process, end);
    const char *path = tree_path(tree, name);
    tree_write_text(path, text);
    return path;
}

static void only_dead_ones_files_are_swept(void **state)
{
    const struct tree *tree = *state;
    char host[64], elsewhere[80], now[40], name[200];
    struct strbuf text = STRBUF(host);
    const long dead = dead_process();
    const long long seconds = (long long)time(NULL);

    host_add_name(&text);
    snprintf(elsewhere, sizeof elsewhere, "%s.elsewhere", host);
    snprintf(now, sizeof now, "%lld-0.tmp", seconds);
    write_temp(tree, host, dead, now, "x");
    snprintf(now, sizeof now, "%lld-17.tmp", seconds - 3600);
    write_temp(tree, host, dead, now, "x");
    write_temp(tree, host, getpid(), now, "mine");
    write_temp(tree, elsewhere, dead, now, "another machine's");
    snprintf(name, sizeof name, "%lld-0.tmp.ini", seconds);
    write_temp(tree, host, dead, name, "a profile");
    snprintf(name, sizeof name, ".sillet-%s-%ld-%lld-1.tmp", host, dead, seconds);
    assert_int_equal(mkdir(tree_path(tree, name), 0700), 0);
    assert_int_equal(safefile_sweep(tree->folder), 2);
    assert_int_equal(tree_count(tree->folder, ""), 4);
    /* What only happens to be called so was not made at the time that it tells. */
    write_temp(tree, host, dead, "0.tmp", "mine");
    write_temp(tree, host, dead, "1000-0.tmp", "mine");
    snprintf(now, sizeof now, "%lld-0.tmp", seconds + 90000);
    write_temp(tree, host, dead, now, "mine");
    assert_int_equal(safefile_sweep(tree->folder), 0);
    assert_int_equal(tree_count(tree->folder, ""), 7);
    assert_int_equal(safefile_sweep(tree->folder), 0);
    assert_int_equal(safefile_sweep(tree_path(tree, "none")), 0);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(a_file_is_made_and_replaced),    IN_TREE(a_cancelled_file_leaves_nothing),
        IN_TREE(two_at_a_time_do_not_meet),      IN_TREE(a_new_file_overwrites_nothing),
        IN_TREE(a_link_is_written_through),      IN_TREE(only_files_are_replaced),
        IN_TREE(paths_without_a_folder_work),    IN_TREE(a_name_of_any_length_works),
        IN_TREE(only_dead_ones_files_are_swept), IN_TREE(its_own_files_go_through_no_link),
    };

    return cmocka_run_group_tests_name("safefile", tests, NULL, NULL) ? 1 : 0;
}
