/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/crc32.h"
#include "store/shelf/shelf_cache.h"
#include "store/shelf/shelf_change.h"
#include "tree.h"

/*
 * A cache whose checksum is right and whose lines are not, as a modified program or
 * somebody with a text editor might leave it; signs of a change, one by one; and a shelf where
 * every name is taken.
 */

static const char folder[] = "/quayside/shelf";

#define STAMP "1\t2\t3\t4\t5\t6\t7"
/* Nothing is known but the card: one tab for each fact. */
#define FACTS "\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t\t"
static_assert(sizeof FACTS - 1 == FACT_NUMBERS_ + FACT_TEXTS_, "a tab for each fact");
#define CARD "-203125\t12500\tUke\tukulele\tMarlo\tQuayside Fret Works\t7\t2026-03-02" FACTS
#define GOOD "a.ini\t" STAMP "\t0\t0\t" CARD "\n"

/* With the first two lines and the checksum that belong to it. */
static void write_cache(const char *path, const char *entries)
{
    char memory[4096];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "sillet shelf 11 %s\n%s\n%s", SILLET_TEST_VERSION, folder, entries);
    strbuf_addf(&text, "crc32 %08x\n", (unsigned)crc32_of(memory, text.length));
    assert_false(text.truncated);
    tree_write(path, memory, text.length);
}

static size_t count_of(const char *path)
{
    struct shelf_entries entries;

    if (shelf_cache_read(path, folder, &entries) != STATUS_OK)
        return SIZE_MAX;
    const size_t count = entries.count;
    shelf_entries_done(&entries);
    return count;
}

/* The cache of an earlier version had two fields less: the files are read again. */
static void an_old_cache_is_no_cache(void **state)
{
    const char *path = tree_path(*state, "cache");
    char memory[1024];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "sillet shelf 3 %s\n%s\n", SILLET_TEST_VERSION, folder);
    strbuf_add(&text, "a.ini\t" STAMP "\t0\t0\tUke\tukulele\tMarlo\t\t7\t2026-03-02\t\n");
    strbuf_addf(&text, "crc32 %08x\n", (unsigned)crc32_of(memory, text.length));
    tree_write(path, memory, text.length);
    assert_int_equal(count_of(path), SIZE_MAX);
}

/* An answer that no rod has is none; the rest of the line counts. */
static void a_rod_that_no_neck_has_is_not_taken(void **state)
{
    static const char *const answers[] = {"0\t0", "203125\t1", "-203125\t-1", "-7oooooooooo\t1",
                                          "-1\t7oooooooooo"};
    const char *path = tree_path(*state, "cache");

    for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++) {
        struct shelf_entries entries;
        char memory[300];
        struct strbuf line = STRBUF(memory);

        strbuf_addf(&line, "a.ini\t" STAMP "\t0\t0\t%s\tUke\t\t\t\t\t" FACTS "\n", answers[i]);
        write_cache(path, memory);
        assert_int_equal(shelf_cache_read(path, folder, &entries), STATUS_OK);
        assert_int_equal(entries.count, 1);
        assert_string_equal(entries.items[0].card.name, "Uke");
        assert_false(rod_neck_is_known(&entries.items[0].card.rod));
        assert_near(entries.items[0].card.rod.per_turn_mm, 0, 0);
        shelf_entries_done(&entries);
    }
}

static void a_line_that_is_none_refuses_the_whole_cache(void **state)
{
    static const char *const lines[] = {
        "b.ini\n",
        "b.ini\t" STAMP "\t0\t0\t0\t0\tUke\n",         /* too few */
        "b.ini\t" STAMP "\t0\t0\t" CARD "\tmore\n",    /* too many */
        "b.ini\t" STAMP "\t0\t0\t" CARD,               /* no end */
        "b.ini\t\t2\t3\t4\t5\t6\t7\t0\t0\t" CARD "\n", /* no number */
        "b.ini\t-\t2\t3\t4\t5\t6\t7\t0\t0\t" CARD "\n",
        "b.ini\t1p\t2\t3\t4\t5\t6\t7\t0\t0\t" CARD "\n",
        "b.ini\t 1\t2\t3\t4\t5\t6\t7\t0\t0\t" CARD "\n",
        "b.ini\t80000000000\t2\t3\t4\t5\t6\t7\t0\t0\t" CARD "\n", /* 2^63 */
        "b.ini\t" STAMP "\t-:\t0\t" CARD "\n", /* a reason that is not the file's own */
        "b.ini\t" STAMP "\t1\t0\t" CARD "\n",  /* no status at all */
        "a.ini\t" STAMP "\t0\t0\t" CARD "\n",  /* twice */
        "A.ini\t" STAMP "\t0\t0\t" CARD "\n",  /* not sorted */
        "\n",
    };
    const char *path = tree_path(*state, "cache");

    write_cache(path, GOOD "b.ini\t7oooooooooo\t2\t3\t-4\t5\t6\t7\t-3\t0\t" CARD "\n");
    assert_int_equal(count_of(path), 2);
    write_cache(path, "");
    assert_int_equal(count_of(path), 0);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        char memory[1024];
        struct strbuf entries = STRBUF(memory);

        strbuf_addf(&entries, "%s%s", GOOD, lines[i]);
        write_cache(path, memory);
        if (count_of(path) != SIZE_MAX)
            fail_msg("line %zu was taken", i);
    }
}

/* Any one of them tells: size and times can be the same by chance or on purpose. */
static void a_change_in_any_sign_is_a_change(void **state)
{
    const struct shelf_stamp stamp = {1, 2, 3, 4, 5, 6, 7};

    (void)state;
    assert_true(shelf_stamp_equal(&stamp, &stamp));
    for (int i = 0; i < 7; i++) {
        struct shelf_stamp other = stamp;

        other.device += i == 0;
        other.inode += i == 1;
        other.size += i == 2;
        other.written_s += i == 3;
        other.written_ns += i == 4;
        other.touched_s += i == 5;
        other.touched_ns += i == 6;
        assert_false(shelf_stamp_equal(&stamp, &other));
        assert_false(shelf_stamp_equal(&other, &stamp));
    }
}

static void nothing_is_found_among_none(void **state)
{
    const struct shelf_entries none = {.items = NULL};

    (void)state;
    assert_null(shelf_entries_find(&none, "a.ini"));
}

static void take_name(const struct tree *tree, const char *where, int number)
{
    char name[100];

    snprintf(name, sizeof name, "%s/uke-%d.ini", where, number);
    tree_write_text(tree_path(tree, name), "taken");
}

/* No name is left: nothing is filed, and nothing written over. */
static void where_every_name_is_taken_nothing_is_filed(void **state)
{
    char shelf[300]; /* tree_path's texts do not last */
    static const char profile[] = "[profile]\nformat = 1\n[board]\nscale = 25 in\n";
    char *file = NULL;

    snprintf(shelf, sizeof shelf, "%s", tree_path(*state, "shelf"));
    assert_int_equal(mkdir(shelf, 0700), 0);
    assert_int_equal(mkdir(tree_path(*state, "shelf/archive"), 0700), 0);
    tree_write_text(tree_path(*state, "shelf/uke.ini"), profile);
    tree_write_text(tree_path(*state, "shelf/archive/uke.ini"), "taken");
    for (int i = 2; i <= 999; i++) {
        take_name(*state, "shelf", i);
        take_name(*state, "shelf/archive", i);
    }
    assert_int_equal(shelf_copy(shelf, "uke.ini", "Uke", &file), STATUS_FULL);
    assert_int_equal(shelf_archive(shelf, "uke.ini", &file), STATUS_FULL);
    assert_null(file);
    tree_assert_text(tree_path(*state, "shelf/uke.ini"), profile);
    for (int i = 2; i <= 999; i += 333) {
        char name[40];

        snprintf(name, sizeof name, "shelf/archive/uke-%d.ini", i);
        tree_assert_text(tree_path(*state, name), "taken");
    }
}

static void only_a_profile_of_the_shelf_is_archived(void **state)
{
    static const char *const names[] = {"", ".ini", "uke", "uke.txt", "uke.ini.lock"};
    const char *shelf = tree_path(*state, "shelf");
    char *file = NULL;

    assert_int_equal(mkdir(shelf, 0700), 0);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        assert_int_equal(shelf_archive(shelf, names[i], &file), STATUS_NOT_REGULAR);
    assert_int_equal(tree_count(shelf, ""), 0);
    /* Of a later format only a part would be copied. */
    tree_write_text(tree_path(*state, "shelf/new.ini"), "[profile]\nformat = 3\n");
    assert_int_equal(shelf_copy(shelf, "new.ini", "Copy", &file), STATUS_NEWER);
    /* What archive/ is, decides where a file would go. */
    tree_write_text(tree_path(*state, "shelf/archive"), "a file");
    assert_int_equal(shelf_archive(shelf, "new.ini", &file), STATUS_NOT_REGULAR);
    assert_int_equal(unlink(tree_path(*state, "shelf/archive")), 0);
    assert_int_equal(symlink("/tmp", tree_path(*state, "shelf/archive")), 0);
    assert_int_equal(shelf_archive(shelf, "new.ini", &file), STATUS_NOT_REGULAR);
    tree_assert_text(tree_path(*state, "shelf/new.ini"), "[profile]\nformat = 3\n");
    assert_null(file);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(a_line_that_is_none_refuses_the_whole_cache),
        IN_TREE(an_old_cache_is_no_cache),
        IN_TREE(a_rod_that_no_neck_has_is_not_taken),
        cmocka_unit_test(a_change_in_any_sign_is_a_change),
        cmocka_unit_test(nothing_is_found_among_none),
        IN_TREE(where_every_name_is_taken_nothing_is_filed),
        IN_TREE(only_a_profile_of_the_shelf_is_archived),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
