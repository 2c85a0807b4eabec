/* SPDX-License-Identifier: MIT */
/* Other versions beside a profile: reported until one is chosen, and never thrown away. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/paths.h"
#include "store/profile/copies.h"
#include "store/profile/profile_synced.h"
#include "store/shelf/shelf.h"
#include "tree.h"

static const char mine[] = "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n";
static const char theirs[] = "[profile]\nformat = 1\n[board]\nscale = 24 in ; by hand\n";

static const char *begin(void **state)
{
    const char *path = tree_path(*state, "a.ini");

    assert_int_equal(setenv("XDG_CACHE_HOME", tree_path(*state, "cache"), 1), 0);
    steps_write_whole(path, mine);
    return path;
}

static bool is_said(const char *path)
{
    struct problems problems;
    struct profile *profile;
    bool said = false;

    problems_init(&problems);
    assert_int_equal(profile_open(path, PROFILE_TO_READ, &problems, &profile), STATUS_OK);
    for (size_t i = 0; i < problems.count; i++)
        said = said ||
               (strstr(problems.items[i].words, "another version lies beside it") &&
                strstr(problems.items[i].words, "; on the shelf, * then e puts both together"));
    assert_int_equal((profile_notices(profile) & PROFILE_VERSIONS) != 0, said);
    profile_close(profile);
    problems_done(&problems);
    return said;
}

static bool is_marked(void **state, const char *file)
{
    struct shelf *shelf;

    assert_int_equal(shelf_open(((struct tree *)*state)->folder, &shelf), STATUS_OK);
    const struct shelf_entry *entry = shelf_entries_find(shelf_entries(shelf), file);
    assert_non_null(entry);
    const bool marked = entry->versions;
    shelf_close(shelf);
    return marked;
}

static void names_are_told_apart(void **state)
{
    (void)state;
    assert_int_equal(copies_profile_length("a.ini.conflict"), 5);
    assert_int_equal(copies_profile_length("a.ini.aside.12"), 5);
    assert_int_equal(copies_profile_length("a.ini"), 0);
    assert_int_equal(copies_profile_length("a.ini.as-found"), 0);
    assert_int_equal(copies_profile_length("a.ini.conflict.1"), 0);
    assert_int_equal(copies_profile_length("a.ini.conflict.1000000"), 0);
    assert_int_equal(copies_profile_length("a.ini.conflicts"), 0);
    assert_int_equal(copies_profile_length("conflict"), 0);
    assert_int_equal(copies_profile_length(".aside"), 0);
}

static void one_is_said_everywhere_until_it_is_put_away(void **state)
{
    static const char *const names[] = {"a.ini.conflict", "a.ini.conflict.3", "a.ini.aside",
                                        "a.ini.aside.2"};
    const char *path = begin(state);

    assert_int_equal(symlink("a.ini", tree_path(*state, "link.ini")), 0);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *beside = tree_path(*state, names[i]);
        struct copies list;

        assert_false(is_said(path));
        assert_false(is_marked(state, "a.ini"));
        tree_write_text(beside, theirs);
        assert_true(is_said(path));
        assert_true(is_said(tree_path(*state, "link.ini")));
        assert_true(is_marked(state, "a.ini"));
        assert_true(is_marked(state, "link.ini"));
        assert_int_equal(copies_list(path, COPY_VERSIONS, &list), STATUS_OK);
        assert_int_equal(list.count, 1);
        assert_string_equal(paths_name_of(list.items[0].path), names[i]);
        assert_int_equal(copies_put_away(path, &list.items[0]), STATUS_OK);
        assert_int_equal(access(beside, F_OK), -1);
        copies_done(&list);
    }
    assert_false(is_said(path));
}

/* Byte for byte, comments and all. */
static void what_is_put_away_is_an_earlier_state(void **state)
{
    const char *path = begin(state);
    struct copies list;
    struct copies generations;

    tree_write_text(tree_path(*state, "a.ini.conflict"), theirs);
    assert_int_equal(copies_list(path, COPY_VERSIONS, &list), STATUS_OK);
    assert_int_equal(copies_put_away(path, &list.items[0]), STATUS_OK);
    copies_done(&list);
    assert_int_equal(copies_list(path, COPY_EARLIER, &generations), STATUS_OK);
    assert_int_equal(generations.count, 1);
    tree_assert_text(generations.items[0].path, theirs);
    copies_done(&generations);
}

/* A second name keeps what it holds. */
static void one_with_two_names_can_be_put_away(void **state)
{
    const char *path = begin(state), *beside = tree_path(*state, "a.ini.conflict");
    struct copies list;

    tree_write_text(beside, theirs);
    assert_int_equal(link(beside, tree_path(*state, "other")), 0);
    assert_int_equal(copies_list(path, COPY_VERSIONS, &list), STATUS_OK);
    assert_int_equal(copies_put_away(path, &list.items[0]), STATUS_OK);
    copies_done(&list);
    assert_int_equal(access(beside, F_OK), -1);
    tree_assert_text(tree_path(*state, "other"), theirs);
}

/* Somebody's own file of that name, or one that cannot be kept as an earlier state, stays. */
static void what_cannot_be_put_away_stays(void **state)
{
    const char *path = begin(state), *beside = tree_path(*state, "a.ini.conflict");
    static const char *const others[] = {"", "notes of mine\n", "[other]\nk = v\n"};
    struct copies list;

    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        tree_write_text(beside, others[i]);
        assert_int_equal(copies_list(path, COPY_VERSIONS, &list), STATUS_OK);
        assert_int_equal(list.count, 1);
        assert_int_equal(copies_put_away(path, &list.items[0]), STATUS_SYNTAX);
        copies_done(&list);
        tree_assert_text(beside, others[i]);
    }
    tree_write_text(beside, theirs);
    tree_write_text(tree_path(*state, ".generations"), "in the way");
    assert_int_equal(copies_list(path, COPY_VERSIONS, &list), STATUS_OK);
    assert_int_not_equal(copies_put_away(path, &list.items[0]), STATUS_OK);
    copies_done(&list);
    tree_assert_text(beside, theirs);
}

static void folders_and_links_of_that_name_are_none(void **state)
{
    const char *path = begin(state);

    assert_int_equal(mkdir(tree_path(*state, "a.ini.conflict"), 0700), 0);
    assert_int_equal(symlink("a.ini", tree_path(*state, "a.ini.aside")), 0);
    assert_false(is_said(path));
    assert_false(is_marked(state, "a.ini"));
}

/* --- copies that other programs made --- */

static void a_name_in_brackets_is_one_of_anothers(void **state)
{
    static const struct {
        const char *file;
        size_t stem;
    } names[] = {
        {"dove (1).ini", 4},       {"dove(1).ini", 4},
        {"dove (a (2) b).ini", 4}, {"dove (alto) (1).ini", 11},
        {"dove ().ini", 4},        {"d\xC3\xB6ve  (x y).ini", 5},
        {"dove.ini", 0},           {"(1).ini", 0},
        {" (1).ini", 0},           {".dove (1).ini", 0},
        {"dove 1).ini", 0},        {"dove (1.ini", 0},
        {"dove (1) x.ini", 0},     {"dove (1).txt", 0},
        {"dove ((1).ini", 6},      {".ini", 0},
    };

    (void)state;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (synced_stem_length(names[i].file) != names[i].stem)
            fail_msg("%s: %zu", names[i].file, synced_stem_length(names[i].file));
    assert_string_equal(copies_label("dove (1).ini"), "(1).ini");
    assert_string_equal(copies_label("dove.ini.conflict.2"), "conflict.2");
}

static size_t count_versions(const char *path)
{
    struct copies list;

    assert_int_equal(copies_list(path, COPY_VERSIONS, &list), STATUS_OK);
    const size_t count = list.count;
    copies_done(&list);
    return count;
}

/* A name alone does not make it one: somebody may have two instruments so. */
static void it_is_a_version_if_it_is_of_the_same_instrument(void **state)
{
    static const struct {
        const char *mine, *other;
        bool is;
    } pairs[] = {
        {"name = Dove\n", "name = Dove\nowner = Marlo\n", true},
        {"name = Dove\nserial = 7\n", "name = Dove\n", true},
        {"serial = 7\n", "name = Dove\nserial = 7\n", true},
        {"name = Dove\n[visit.1]\ndate = 2026-03-02\n",
         "name = Dove\n[visit.1]\ndate = 2026-03-02\n[visit.2]\ndate = 2026-04-02\n", true},
        {"name = Dove\n", "name = Tern\n", false},
        {"name = Dove\nserial = 7\n", "name = Dove\nserial = 8\n", false},
        {"name = Dove\nserial = 7\n", "name = Tern\nserial = 7\n", false},
        {"name = Dove\n[visit.1]\ndate = 2026-03-02\n",
         "name = Dove\n[visit.1]\ndate = 2025-03-02\n", false},
        {"owner = Marlo\n", "owner = Marlo\n", false},
        {"name = Dove\n", "owner = Marlo\n", false},
    };
    const char *path = begin(state), *other = tree_path(*state, "a (their change).ini");
    char text[200];

    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        snprintf(text, sizeof text, "[instrument]\n%s", pairs[i].mine);
        tree_write_text(path, text);
        snprintf(text, sizeof text, "[instrument]\n%s", pairs[i].other);
        tree_write_text(other, text);
        if (is_marked(state, "a.ini") != pairs[i].is || (count_versions(path) == 1) != pairs[i].is)
            fail_msg("pair %zu", i);
        /* It is nobody else's version. */
        assert_false(is_marked(state, "a (their change).ini"));
    }
    tree_write_text(other, "no profile");
    assert_false(is_marked(state, "a.ini"));
    assert_int_equal(count_versions(path), 0);
    assert_int_equal(unlink(other), 0);
    assert_int_equal(mkdir(other, 0700), 0);
    assert_false(is_marked(state, "a.ini"));
    assert_int_equal(count_versions(path), 0);
}

/* Each under its own name, and whoever opens the profile to edit it is told; reading many files is
 * not held up by it. */
static void all_of_them_are_listed_and_can_be_put_away(void **state)
{
    static const char *const names[] = {"a (1).ini", "a (2).ini", "a(x).ini"};
    static const char text[] = "[profile]\nformat = 1\n[instrument]\nname = Dove\n";
    const char *path = begin(state);
    struct profile *profile;
    struct copies list;

    steps_write_whole(path, text);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        tree_write_text(tree_path(*state, names[i]), text);
    assert_int_equal(copies_none(path), STATUS_CHANGED);
    assert_int_equal(copies_list(path, COPY_VERSIONS, &list), STATUS_OK);
    assert_int_equal(list.count, 3);
    for (size_t i = 0; i < list.count; i++) {
        assert_string_equal(paths_name_of(list.items[i].path), names[i]);
        assert_int_equal(list.items[i].number, i + 1);
        assert_int_equal(strlen(list.items[i].when), sizeof list.items[i].when - 1);
    }
    assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
    assert_true(profile_notices(profile) & PROFILE_VERSIONS);
    profile_close(profile);
    assert_false(is_said(path));
    for (size_t i = 0; i < list.count; i++) {
        assert_true(is_marked(state, "a.ini"));
        assert_int_equal(copies_put_away(path, &list.items[i]), STATUS_OK);
        assert_int_equal(access(list.items[i].path, F_OK), -1);
    }
    copies_done(&list);
    assert_false(is_marked(state, "a.ini"));
    assert_int_equal(copies_none(tree_path(*state, "b.ini")), STATUS_OK);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(names_are_told_apart),
        IN_TREE(one_is_said_everywhere_until_it_is_put_away),
        IN_TREE(what_is_put_away_is_an_earlier_state),
        IN_TREE(one_with_two_names_can_be_put_away),
        IN_TREE(what_cannot_be_put_away_stays),
        IN_TREE(folders_and_links_of_that_name_are_none),
        IN_TREE(a_name_in_brackets_is_one_of_anothers),
        IN_TREE(it_is_a_version_if_it_is_of_the_same_instrument),
        IN_TREE(all_of_them_are_listed_and_can_be_put_away),
    };

    return cmocka_run_group_tests_name("versions", tests, NULL, NULL) ? 1 : 0;
}
