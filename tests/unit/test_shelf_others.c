/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_others.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "near.h"
#include "store/shelf/shelf_cache.h"
#include "tree.h"

/* What others say to the one that is open, over cards and facts written by hand: live, and from the
 * cache of their folder. */

enum { ENTRIES = 5 };

static const char *const files[ENTRIES] = {"a.ini", "b.ini", "c.ini", "d.ini", "e.ini"};

static int open_tree(void **state)
{
    if (tree_setup(state) != 0)
        return -1;
    mkdir(tree_path(*state, "shelf"), 0700);
    setenv("XDG_CACHE_HOME", tree_path(*state, "cache"), 1);
    return 0;
}

static const char *path_of(struct tree *tree, const char *file)
{
    char name[60];

    snprintf(name, sizeof name, "shelf/%s", file);
    return tree_path(tree, name);
}

static void add(struct tree *tree, struct shelf_entries *entries, int i)
{
    struct shelf_entry *entry = shelf_entries_add(entries);
    struct shelf_facts facts = *shelf_facts_blank();
    struct card card = shelf_blank_card();
    char ticket[12];
    struct stat stamp;

    assert_non_null(entry);
    if (access(path_of(tree, files[i]), F_OK) != 0)
        tree_write_text(path_of(tree, files[i]), "[profile]\n");
    assert_int_equal(stat(path_of(tree, files[i]), &stamp), 0);
    facts.number[FACT_WANTED_RELIEF] = maybe_given(0.1 + 0.01 * i);
    snprintf(ticket, sizeof ticket, "%d", 40 + i);
    shelf_facts_put_text(&facts, FACT_TICKET_LAST, ticket);
    card.kind = i < 4 ? "electric" : "bass";
    card.rod = (struct rod_neck){-0.3, 0.01};
    assert_int_equal(shelf_entry_set(entry, &card, &facts), STATUS_OK);
    entry->file = files[i];
    entry->stamp = shelf_stamp_of(&stamp);
    entry->read = entry->settled = true;
}

static struct shelf_entries make(struct tree *tree)
{
    struct shelf_entries entries = {.items = NULL};

    for (int i = 0; i < ENTRIES; i++)
        add(tree, &entries, i);
    return entries;
}

static void keep(struct tree *tree, const struct shelf_entries *entries)
{
    char *folder = realpath(tree_path(tree, "shelf"), NULL), *cache;

    assert_non_null(folder);
    assert_int_equal(shelf_cache_path(folder, &cache), STATUS_OK);
    assert_int_equal(shelf_cache_write(cache, folder, entries), STATUS_OK);
    free(cache);
    free(folder);
}

static void expect(const struct shelf_others *others, int usuals, double median_mm, int necks)
{
    const struct usual *usual = &others->usuals.wanted[0];

    assert_string_equal(others->usuals.kind, "electric");
    assert_int_equal(usual->count, usuals);
    assert_near(usual->median_mm, median_mm, 1e-9);
    assert_int_equal(others->usuals.wanted[1].count, 0);
    assert_int_equal(others->last_ticket.number, 44);
    int all = 0;
    for (int kind = 0; kind < ROD_KINDS_MAX; kind++)
        all += others->priors.of[kind].necks;
    assert_int_equal(all, necks);
}

/* b, c and d want .11, .12 and .13. */
static void others_of_its_kind_say_what_is_usual(void **state)
{
    struct shelf_entries entries = make(*state);
    struct shelf_others others;

    shelf_others_read(&entries, "a.ini", "electric", &others);
    expect(&others, 3, 0.12, 3);
    shelf_others_read(&entries, "new.ini", "electric", &others);
    expect(&others, 4, 0.115, 4);
    shelf_others_read(&entries, "a.ini", "", &others);
    assert_int_equal(others.usuals.wanted[0].count, 0);
    shelf_entries_done(&entries);
}

/* By its path alone, whatever that is called; what has changed since says nothing, and a folder
 * without a cache nothing at all. */
static void the_cache_says_the_same_of_files_that_stayed(void **state)
{
    struct shelf_entries entries = make(*state);
    struct shelf_others others;

    shelf_others_read_cached(path_of(*state, "a.ini"), "electric", &others);
    assert_int_equal(others.usuals.wanted[0].count, 0);
    assert_int_equal(others.last_ticket.number, 0);
    keep(*state, &entries);
    shelf_others_read_cached(path_of(*state, "a.ini"), "electric", &others);
    expect(&others, 3, 0.12, 3);
    assert_int_equal(symlink("a.ini", path_of(*state, "by-another-name.ini")), 0);
    shelf_others_read_cached(path_of(*state, "by-another-name.ini"), "electric", &others);
    expect(&others, 3, 0.12, 3);
    tree_write_text(path_of(*state, "d.ini"), "[profile]\n# changed\n");
    shelf_others_read_cached(path_of(*state, "a.ini"), "electric", &others);
    expect(&others, 2, 0.115, 0);
    shelf_entries_done(&entries);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(others_of_its_kind_say_what_is_usual, open_tree,
                                        tree_teardown),
        cmocka_unit_test_setup_teardown(the_cache_says_the_same_of_files_that_stayed, open_tree,
                                        tree_teardown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
