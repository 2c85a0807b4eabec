/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/crc32.h"
#include "store/shelf/shelf_cache.h"
#include "tree.h"

static const char folder[] = "/quayside/shelf";

static void add(struct shelf_entries *entries, const char *file, const char *name, int number)
{
    struct shelf_entry *entry = shelf_entries_add(entries);
    struct card card = shelf_blank_card();
    struct shelf_facts facts = *shelf_facts_blank();

    assert_non_null(entry);
    facts.number[FACT_PROMISED_DAY] = maybe_given(740000 + number);
    facts.number[FACT_LEFT_RELIEF] = maybe_given(-0.1524);
    shelf_facts_put_text(&facts, FACT_ALSO, "guitar-standard 2026");
    shelf_facts_put_text(&facts, FACT_TICKET, "T\t%41 \xC3\xA9");
    shelf_facts_put_text(&facts, FACT_PROOF_SADDLE, "0D`n\\");
    card.name = name;
    card.owner = "Marlo";
    card.visit = "2026-03-02";
    card.moves_open = number % 2 == 1;
    if (number == 3)
        card.rod = (struct rod_neck){.per_turn_mm = -0.203125, .per_turn_u_mm = 0.0125};
    assert_int_equal(shelf_entry_set(entry, &card, &facts), STATUS_OK);
    entry->file = file;
    entry->read = entry->settled = true;
    entry->newer = number == 2;
    entry->stamp = (struct shelf_stamp){.device = 1,
                                        .inode = (uint64_t)number,
                                        .size = 4000,
                                        .written_s = 1700000000 + number,
                                        .written_ns = 999999999,
                                        .touched_s = -5,
                                        .touched_ns = 1};
}

static void fill(struct shelf_entries *entries)
{
    *entries = (struct shelf_entries){.items = NULL};
    add(entries, "a.ini", "Parlour No. 3", 1);
    add(entries, "b\t%41\n.ini", "tab\there, 100 %, line\nand \x7F", 2);
    add(entries, "c\xFF.ini", "\xE6\x97\xA5\xE6\x9C\xAC \xE2\x80\xAE", 3);
    add(entries, "d.ini", "", 4);
    entries->items[3].status = STATUS_BINARY;
}

static void assert_same(const struct shelf_entry *a, const struct shelf_entry *b)
{
    assert_string_equal(a->file, b->file);
    assert_string_equal(a->card.name, b->card.name);
    assert_string_equal(a->card.owner, b->card.owner);
    assert_string_equal(a->card.visit, b->card.visit);
    for (int i = 0; i < FACT_NUMBERS_; i++) {
        assert_int_equal(a->facts->number[i].given, b->facts->number[i].given);
        if (b->facts->number[i].given)
            assert_near(a->facts->number[i].value, b->facts->number[i].value, 1e-9);
    }
    for (int i = 0; i < FACT_TEXTS_; i++)
        assert_string_equal(shelf_facts_text(a->facts, (enum fact_text)i),
                            shelf_facts_text(b->facts, (enum fact_text)i));
    assert_int_equal(a->card.moves_open, b->card.moves_open);
    assert_near(a->card.rod.per_turn_mm, b->card.rod.per_turn_mm, 1e-6);
    assert_near(a->card.rod.per_turn_u_mm, b->card.rod.per_turn_u_mm, 1e-6);
    assert_int_equal(a->newer, b->newer);
    assert_int_equal(a->status, b->status);
    assert_true(shelf_stamp_equal(&a->stamp, &b->stamp));
}

static void what_is_written_comes_back(void **state)
{
    const char *path = tree_path(*state, "new/below/cache");
    struct shelf_entries wrote, got;
    struct stat facts;

    fill(&wrote);
    assert_int_equal(shelf_cache_write(path, folder, &wrote), STATUS_OK);
    assert_int_equal(shelf_cache_read(path, folder, &got), STATUS_OK);
    assert_int_equal(got.count, wrote.count);
    for (size_t i = 0; i < got.count; i++)
        assert_same(&got.items[i], &wrote.items[i]);
    assert_int_equal(stat(path, &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0600);
    assert_int_equal(stat(tree_path(*state, "new"), &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0700);
    shelf_entries_done(&got);
    shelf_entries_done(&wrote);
}

static void only_what_holds_for_everyone_is_kept(void **state)
{
    const char *path = tree_path(*state, "cache");
    struct shelf_entries entries, got;

    fill(&entries);
    entries.items[0].settled = false;
    entries.items[1].read = false;
    entries.items[2].status = STATUS_IO;
    assert_int_equal(shelf_cache_write(path, folder, &entries), STATUS_OK);
    assert_int_equal(shelf_cache_read(path, folder, &got), STATUS_OK);
    assert_int_equal(got.count, 1);
    assert_same(&got.items[0], &entries.items[3]);
    shelf_entries_done(&got);
    shelf_entries_done(&entries);
}

static char *write_whole(struct tree *tree, size_t *ret_length)
{
    const char *path = tree_path(tree, "cache");
    struct shelf_entries entries;

    fill(&entries);
    assert_int_equal(shelf_cache_write(path, folder, &entries), STATUS_OK);
    shelf_entries_done(&entries);
    char *bytes = tree_read(path, ret_length);
    assert_non_null(bytes);
    return bytes;
}

static void assert_refused(struct tree *tree, const char *bytes, size_t length)
{
    const char *path = tree_path(tree, "broken");
    struct shelf_entries got = {.count = 77};

    tree_write(path, bytes, length);
    assert_int_equal(shelf_cache_read(path, folder, &got), STATUS_DAMAGED);
    assert_int_equal(got.count, 77);
}

static void one_cut_short_anywhere_is_refused(void **state)
{
    size_t length;
    char *bytes = write_whole(*state, &length);

    for (size_t cut = 0; cut < length; cut++)
        assert_refused(*state, bytes, cut);
    free(bytes);
}

static void one_with_a_flipped_bit_is_refused(void **state)
{
    size_t length;
    char *bytes = write_whole(*state, &length);

    for (size_t at = 0; at < length; at++)
        for (int bit = 0; bit < 8; bit++) {
            bytes[at] = (char)(bytes[at] ^ (1 << bit));
            assert_refused(*state, bytes, length);
            bytes[at] = (char)(bytes[at] ^ (1 << bit));
        }
    free(bytes);
}

static void one_of_another_folder_is_refused(void **state)
{
    struct shelf_entries got;
    size_t length;
    char *bytes = write_whole(*state, &length);

    assert_int_equal(shelf_cache_read(tree_path(*state, "cache"), "/elsewhere", &got),
                     STATUS_DAMAGED);
    free(bytes);
}

/* A folder of that name makes the last line of the head look like the checksum, and a right
 * one. */
static void a_head_is_no_tail(void **state)
{
    struct shelf_entries got;
    char name[40], text[200];
    size_t length;
    char *bytes = write_whole(*state, &length);
    const size_t line = strcspn(bytes, "\n") + 1;

    snprintf(name, sizeof name, "crc32 %08lx", (unsigned long)crc32_of(bytes, line));
    snprintf(text, sizeof text, "%.*s%s\n", (int)line, bytes, name);
    tree_write_text(tree_path(*state, "cache"), text);
    assert_int_equal(shelf_cache_read(tree_path(*state, "cache"), name, &got), STATUS_DAMAGED);
    free(bytes);
}

/* With a limit of file sizes, which fails like a full disk. */
static void a_full_disk_is_a_failure_and_no_more(void **state)
{
    const char *path = tree_path(*state, "cache");
    struct rlimit before, none;
    struct shelf_entries entries;
    size_t length;
    char *bytes = write_whole(*state, &length);

    (void)signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    none = before;
    none.rlim_cur = 100;
    fill(&entries);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &none), 0);
    const enum status status = shelf_cache_write(path, folder, &entries);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    assert_int_equal(status, STATUS_FULL);
    tree_assert_holds(path, bytes, length);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, "tmp"), 0);
    shelf_entries_done(&entries);
    free(bytes);
}

static void one_that_is_a_link_is_not_written_through(void **state)
{
    const char *path = tree_path(*state, "cache"), *victim = tree_path(*state, "victim.ini");
    struct shelf_entries wrote;

    tree_write_text(victim, "mine");
    assert_int_equal(symlink("victim.ini", path), 0);
    fill(&wrote);
    assert_int_equal(shelf_cache_write(path, folder, &wrote), STATUS_NOT_REGULAR);
    tree_assert_text(victim, "mine");
    shelf_entries_done(&wrote);
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(what_is_written_comes_back),           CASE(only_what_holds_for_everyone_is_kept),
        CASE(one_cut_short_anywhere_is_refused),    CASE(one_with_a_flipped_bit_is_refused),
        CASE(one_of_another_folder_is_refused),     CASE(a_head_is_no_tail),
        CASE(a_full_disk_is_a_failure_and_no_more), CASE(one_that_is_a_link_is_not_written_through),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
