/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <fcntl.h>
#include <unistd.h>

#include "model/reading/record_access.h"
#include "model/reading/shop_own.h"
#include "store/shop.h"
#include "store/shop_targets.h"
#include "tree.h"

static void put(struct record *record, enum field_id field, const char *text)
{
    const struct reading_key key = reading_key_one(field);

    assert_int_equal(record_put(record, &key, text, true, NULL),
                     strcmp(text, "nan in") == 0 ? STATUS_SYNTAX : STATUS_OK);
}

static struct record record_of(const char *kind)
{
    struct record record;

    record_init(&record);
    if (kind)
        put(&record, FIELD_KIND, kind);
    return record;
}

static int take(const char *path, struct record *record)
{
    int count = -1;

    assert_int_equal(shop_targets_take(path, record, &count), STATUS_OK);
    return count;
}

static size_t problems_of(const char *path)
{
    struct problems problems;
    struct shop_units units;

    problems_init(&problems);
    assert_int_equal(shop_read(path, &problems, &units), STATUS_OK);
    const size_t count = problems.count;
    problems_done(&problems);
    return count;
}

static void targets_come_back_for_their_kind_alone(void **state)
{
    const char *path = tree_path(*state, "new/folder/shop.ini");
    struct record from = record_of("steel-string"), same = record_of("steel-string"),
                  other = record_of("bass");
    unsigned kinds;

    put(&from, FIELD_TARGET_RELIEF, ".006 in");
    put(&from, FIELD_TARGET_ACTION_BASS, "5.5/64 in");
    put(&from, FIELD_GAP_TOLERANCE, "0.03 mm");
    put(&from, FIELD_FEELER_STEP, ".0005 in");
    put(&from, FIELD_NAME, "not a target");
    put(&same, FIELD_TARGET_RELIEF, ".008 in");
    put(&same, FIELD_TARGET_GAP_BASS, ".018 in");
    assert_int_equal(shop_targets_keep(path, &from), STATUS_OK);
    tree_assert_text(path, "[targets.steel-string]\nrelief = .006 in\naction_bass = 5.5/64 in\n"
                           "nut_gap_tolerance = 0.03 mm\nfeeler_step = .0005 in\n");
    assert_int_equal(problems_of(path), 0);
    assert_int_equal(take(path, &same), 4);
    assert_string_equal(shop_own_text(&same, FIELD_TARGET_RELIEF), ".006 in");
    assert_string_equal(shop_own_text(&same, FIELD_FEELER_STEP), ".0005 in");
    assert_string_equal(shop_own_text(&same, FIELD_TARGET_GAP_BASS), ".018 in");
    assert_int_equal(take(path, &other), 0);
    assert_int_equal(shop_own_count(&other), 0);
    assert_int_equal(shop_targets_kinds(path, &kinds), STATUS_OK);
    assert_int_equal(kinds, SHOP_TARGETS_BIT(0));
    record_done(&from);
    record_done(&same);
    record_done(&other);
}

static void keeping_again_takes_the_place_of_what_was_kept(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct record record = record_of("bass");

    tree_write_text(path,
                    "# ours\n[targets.bass]\n; low\nrelief = .010 in ; was .012\ntouch = light\n"
                    "colour = red\n\n[shop]\nunits = metric\nname = Quayside\n");
    put(&record, FIELD_TARGET_RELIEF, ".014 in");
    assert_int_equal(shop_targets_keep(path, &record), STATUS_OK);
    tree_assert_text(path, "# ours\n[targets.bass]\n; low\nrelief = .014 in ; was .012\n"
                           "colour = red\n\n[shop]\nunits = metric\nname = Quayside\n");
    assert_int_equal(shop_targets_forget(path, &record), STATUS_OK);
    tree_assert_text(path, "# ours\n[targets.bass]\n; low\ncolour = red\n\n"
                           "[shop]\nunits = metric\nname = Quayside\n");
    record_done(&record);
}

static void forgetting_leaves_nothing_of_its_own(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct record record = record_of("bass");
    unsigned kinds;

    tree_write_text(path, "[shop]\nunits = metric\n");
    put(&record, FIELD_TARGET_RELIEF, ".014 in");
    assert_int_equal(shop_targets_keep(path, &record), STATUS_OK);
    assert_int_equal(shop_targets_forget(path, &record), STATUS_OK);
    tree_assert_text(path, "[shop]\nunits = metric\n\n");
    assert_int_equal(shop_targets_kinds(path, &kinds), STATUS_OK);
    assert_int_equal(kinds, 0);
    assert_int_equal(take(path, &record), 0);
    record_done(&record);
}

static void nothing_to_keep_writes_nothing(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct record no_kind = record_of(NULL), no_target = record_of("bass"), bad = record_of("bass");

    put(&no_kind, FIELD_TARGET_RELIEF, ".014 in");
    put(&bad, FIELD_TARGET_RELIEF, "nan in");
    assert_int_equal(shop_targets_keep(path, &no_kind), STATUS_ABSENT);
    assert_int_equal(shop_targets_keep(path, &no_target), STATUS_ABSENT);
    assert_int_equal(shop_targets_keep(path, &bad), STATUS_ABSENT);
    assert_int_equal(access(path, F_OK), -1);
    record_done(&no_kind);
    record_done(&no_target);
    record_done(&bad);
}

/* What is not understood is said, and never used: the starting point's own value stays. */
static void hostile_values_are_left_out(void **state)
{
    static const char *const values[] = {
        "nan",    "nan in", "inf mm", "1e999 mm", "-60 in", "99999999999999999999 mm", ".006", "",
        "%1B[2J", "%00",    "6/0 in", "0x10 mm",  "\"%0A\""};
    const char *path = tree_path(*state, "shop.ini");

    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        struct record record = record_of("bass");
        char text[200];

        put(&record, FIELD_TARGET_RELIEF, ".012 in");
        snprintf(text, sizeof text, "[targets.bass]\nrelief = %s\naction_bass = 5/64 in\n",
                 values[i]);
        tree_write_text(path, text);
        assert_int_equal(problems_of(path), 1);
        assert_int_equal(take(path, &record), 1);
        assert_string_equal(shop_own_text(&record, FIELD_TARGET_RELIEF), ".012 in");
        record_done(&record);
    }
}

static void an_unknown_kind_or_key_is_said(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    struct record record = record_of("bass");

    tree_write_text(path, "[targets.kazoo]\nrelief = .01 in\n[targets]\nrelief = .01 in\n"
                          "[targets.bass]\nscale = 34 in\n");
    assert_int_equal(problems_of(path), 3);
    assert_int_equal(take(path, &record), 0);
    record_done(&record);
}

static void a_damaged_file_is_left_alone(void **state)
{
    const char *path = tree_path(*state, "shop.ini");
    const char bytes[] = "[targets.bass]\nrelief = .01 in\n\0\n";
    struct record record = record_of("bass");
    size_t length;
    int count = -1;

    tree_write(path, bytes, sizeof bytes - 1);
    put(&record, FIELD_TARGET_RELIEF, ".014 in");
    assert_int_equal(shop_targets_take(path, &record, &count), STATUS_BINARY);
    assert_int_equal(count, 0);
    assert_int_equal(shop_targets_keep(path, &record), STATUS_BINARY);
    assert_int_equal(shop_targets_forget(path, &record), STATUS_BINARY);
    char *now = tree_read(path, &length);
    assert_int_equal(length, sizeof bytes - 1);
    assert_memory_equal(now, bytes, length);
    free(now);
    record_done(&record);
}

static void a_folder_that_may_not_be_written_is_said(void **state)
{
    if (geteuid() == 0)
        skip();

    const char *path = tree_path(*state, "shut/shop.ini");
    struct record record = record_of("bass");

    assert_int_equal(mkdir(tree_path(*state, "shut"), 0500), 0);
    put(&record, FIELD_TARGET_RELIEF, ".014 in");
    assert_int_equal(shop_targets_keep(path, &record), STATUS_READ_ONLY);
    assert_int_equal(access(path, F_OK), -1);
    record_done(&record);
}

enum { ROUNDS = 40 };

static void change_again_and_again(const char *path, const char *kind)
{
    struct record record = record_of(kind);

    for (int i = 0; i < ROUNDS; i++) {
        const bool odd = i % 2 != 0;

        put(&record, FIELD_TARGET_RELIEF, odd ? ".014 in" : ".016 in");
        enum status kept;

        do
            kept = shop_targets_keep(path, &record);
        while (kept == STATUS_LOCKED);
        if (kept != STATUS_OK)
            _exit(1);
    }
    _exit(0);
}

/* Each changes its own section; a program that wrote what it had read before the other wrote would
 * take the other's out. */
static void programs_at_once_lose_nothing(void **state)
{
    static const char *const kinds[] = {"bass", "electric", "banjo", "ukulele"};
    enum { PROGRAMS = 4 };
    const char *path = tree_path(*state, "shop.ini");
    struct shop_units units = shop_units_metric();

    tree_write_text(path, "[shop]\nname = Quayside\n");
    for (int i = 0; i < PROGRAMS; i++)
        if (fork() == 0)
            change_again_and_again(path, kinds[i]);
    for (int i = 0; i < ROUNDS; i++) {
        units = i % 2 == 0 ? shop_units_inch() : shop_units_metric();
        /* On a busy machine the others may hold it for longer than one waits: then it is said. */
        enum status written;
        do
            written = shop_write(path, &units);
        while (written == STATUS_LOCKED);
        assert_int_equal(written, STATUS_OK);
    }
    for (int i = 0; i < PROGRAMS; i++) {
        int status;

        assert_true(wait(&status) > 0);
        assert_int_equal(status, 0);
    }
    for (int i = 0; i < PROGRAMS; i++) {
        struct record record = record_of(kinds[i]);

        assert_int_equal(take(path, &record), 1);
        assert_string_equal(shop_own_text(&record, FIELD_TARGET_RELIEF), ".014 in");
        record_done(&record);
    }
    struct shop_letterhead head;
    assert_int_equal(shop_read_letterhead(path, &head), STATUS_OK);
    assert_string_equal(head.name, "Quayside");
}

static void a_lock_that_is_held_is_not_waited_for_without_end(void **state)
{
    const char *path = tree_path(*state, "held/shop.ini");
    struct record record = record_of("bass");

    assert_int_equal(mkdir(tree_path(*state, "held"), 0700), 0);
    const int fd = open(tree_path(*state, "held"), O_RDONLY | O_DIRECTORY);
    assert_int_equal(flock(fd, LOCK_EX), 0);
    put(&record, FIELD_TARGET_RELIEF, ".014 in");
    assert_int_equal(shop_targets_keep(path, &record), STATUS_LOCKED);
    assert_int_equal(access(path, F_OK), -1);
    close(fd);
    assert_int_equal(shop_targets_keep(path, &record), STATUS_OK);
    record_done(&record);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(targets_come_back_for_their_kind_alone),
        IN_TREE(keeping_again_takes_the_place_of_what_was_kept),
        IN_TREE(forgetting_leaves_nothing_of_its_own),
        IN_TREE(nothing_to_keep_writes_nothing),
        IN_TREE(hostile_values_are_left_out),
        IN_TREE(an_unknown_kind_or_key_is_said),
        IN_TREE(a_damaged_file_is_left_alone),
        IN_TREE(a_folder_that_may_not_be_written_is_said),
        IN_TREE(programs_at_once_lose_nothing),
        IN_TREE(a_lock_that_is_held_is_not_waited_for_without_end),
    };

    return cmocka_run_group_tests_name("shop_targets", tests, NULL, NULL) ? 1 : 0;
}
