/* SPDX-License-Identifier: MIT */
/* A version beside a profile is put together with it: what both come from is found, nothing is
 * written before it is chosen, and nothing is lost by it. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/profile/bring_back.h"
#include "store/profile/copies.h"
#include "store/profile/lockfile.h"
#include "store/profile/together.h"
#include "tree.h"

#define ROOT "[profile]\nformat = 1\n\n[board]\nscale = 650 mm\n"
static const char origin[] = ROOT "frets = 20\n\n[visit.1]\ndate = 2026-03-02\n";
static const char theirs[] =
    ROOT "frets = 20\n\n[visit.1]\ndate = 2026-03-02\nnote = call first\nhumidity = 45 %\n";

static const char *path_of(void **state)
{
    return tree_path(*state, "a.ini");
}

/* The profile as a session left it that began with `origin`, and a version beside it. */
static const char *begin(void **state, const char *version)
{
    const char *path = path_of(state);
    struct record record;

    tree_remove(*state, ".generations");
    steps_write_whole(path, origin);
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "frets", "21");
    steps_put(&record, "visit.1", "humidity", "50 %");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_write_whole(tree_path(*state, "a.ini.conflict"), version);
    return path;
}

static enum status open_first(const char *path, struct together **ret_together)
{
    char memory[200];
    struct strbuf holder = STRBUF(memory);
    struct copies list;

    assert_int_equal(copies_list(path, COPY_VERSIONS, &list), STATUS_OK);
    assert_int_equal(list.count, 1);
    const enum status status = together_open(path, &list.items[0], &holder, ret_together);
    assert_int_equal(holder.length > 0, status == STATUS_LOCKED);
    copies_done(&list);
    return status;
}

static struct together *open_it(const char *path)
{
    struct together *together = NULL;

    assert_int_equal(open_first(path, &together), STATUS_OK);
    return together;
}

/* What is asked about. */
static void choose(struct together *together, enum join_side side)
{
    for (size_t i = 0; i < together->count; i++)
        if (together->differences[i].side == JOIN_OPEN)
            together->differences[i].side = side;
}

static void expect_save(struct together *together, enum status status, enum joined wanted)
{
    struct problems problems;
    enum joined how;

    problems_init(&problems);
    assert_int_equal(together_save(together, &problems, &how), status);
    assert_int_equal(how, wanted);
    assert_int_equal(problems.errors > 0, wanted == JOINED_WRONG);
    problems_done(&problems);
    together_close(together);
}

static bool exists(void **state, const char *name)
{
    return access(tree_path(*state, name), F_OK) == 0;
}

static void expect_text(const char *path, const char *section, const char *name, const char *text)
{
    const struct reading_key key = steps_key(section, name);
    struct profile *profile = steps_open(path);
    const char *got = record_text(profile_record(profile), &key);

    assert_non_null(got);
    assert_string_equal(got, text);
    profile_close(profile);
}

static char *read_all(const char *path, size_t *length)
{
    char *bytes = tree_read(path, length);

    assert_non_null(bytes);
    return bytes;
}

/* The frets are the profile's, the note is the version's, and the humidity is asked about. Both
 * are kept, and bringing back the newest earlier state undoes it. */
static void it_is_joined_and_undone(void **state)
{
    const char *path = begin(state, theirs);
    size_t length[2];
    char *before = read_all(path, &length[0]);
    char *version = read_all(tree_path(*state, "a.ini.conflict"), &length[1]);
    struct together *together = open_it(path);
    struct copies list;
    enum brought brought;

    assert_string_not_equal(together->since, "");
    assert_int_equal(together->count, 3);
    assert_int_equal(join_count_open(together->differences, together->count), 1);
    choose(together, JOIN_AS_RIGHT);
    expect_save(together, STATUS_OK, JOINED_ALL);
    expect_text(path, "visit.1", "humidity", "45 %");
    expect_text(path, "visit.1", "note", "call first");
    expect_text(path, "board", "frets", "21");
    assert_false(exists(state, "a.ini.conflict"));
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 0);
    assert_int_equal(copies_list(path, COPY_EARLIER, &list), STATUS_OK);
    assert_int_equal(list.count, 3);
    tree_assert_holds(list.items[0].path, before, length[0]);
    tree_assert_holds(list.items[1].path, version, length[1]);
    assert_int_equal(bring_back(path, list.items[0].path, &brought), STATUS_OK);
    assert_int_equal(brought, BROUGHT_BACK);
    tree_assert_holds(path, before, length[0]);
    copies_done(&list);
    free(before);
    free(version);
}

/* Without a state that both come from, all that differs is asked about. */
static void without_a_common_state_all_is_asked(void **state)
{
    const char *path = begin(state, theirs);

    tree_remove(*state, ".generations");
    struct together *together = open_it(path);
    assert_string_equal(together->since, "");
    assert_int_equal(together->count, 3);
    assert_int_equal(join_count_open(together->differences, together->count), 2);
    together_close(together);
}

/* Not a later one, against which what both changed would look as if the version alone had. */
static void the_state_that_both_come_from_is_found(void **state)
{
    const char *path = begin(state, theirs);

    for (int i = 0; i < 3; i++) {
        struct record record;
        char text[20];

        struct profile *profile = steps_open_to_change(path, &record);
        snprintf(text, sizeof text, "%d", 22 + i);
        steps_put(&record, "board", "frets", text);
        steps_save(profile, &record);
        steps_close(profile, &record);
    }
    struct together *together = open_it(path);
    assert_int_equal(together->count, 3);
    assert_int_equal(join_count_open(together->differences, together->count), 1);
    choose(together, JOIN_AS_RIGHT);
    expect_save(together, STATUS_OK, JOINED_ALL);
    expect_text(path, "board", "frets", "24");
    expect_text(path, "visit.1", "humidity", "45 %");
}

static void nothing_is_written_before_it_is_saved(void **state)
{
    const char *path = begin(state, theirs);
    size_t length;
    char *before = read_all(path, &length);

    together_close(open_it(path));
    tree_assert_holds(path, before, length);
    assert_true(exists(state, "a.ini.conflict"));
    free(before);
}

static void what_is_in_use_is_left_alone(void **state)
{
    const char *path = begin(state, theirs);
    struct lockfile_holder holder;
    struct lockfile lock;
    struct together *together = NULL;

    assert_int_equal(lockfile_take(path, &lock, &holder), STATUS_OK);
    assert_int_equal(open_first(path, &together), STATUS_LOCKED);
    assert_null(together);
    lockfile_drop(&lock);
}

/* Nobody has chosen from what a file holds that was changed since it was looked at. */
static void what_changed_meanwhile_is_not_joined(void **state)
{
    static const char *const names[] = {"a.ini", "a.ini.conflict"};

    for (int i = 0; i < 2; i++) {
        struct together *together = open_it(begin(state, theirs));

        choose(together, JOIN_AS_LEFT);
        tree_write_text(tree_path(*state, names[i]), origin);
        expect_save(together, STATUS_CHANGED, JOINED_NOTHING);
        tree_assert_text(tree_path(*state, names[i]), origin);
        assert_true(exists(state, "a.ini.conflict"));
        assert_false(exists(state, "a.ini.conflict.2"));
    }
}

static void what_cannot_be_kept_is_not_replaced(void **state)
{
    const char *path = begin(state, theirs);
    size_t length;
    char *before = read_all(path, &length);

    tree_remove(*state, ".generations");
    tree_write_text(tree_path(*state, ".generations"), "in the way");
    struct together *together = open_it(path);
    choose(together, JOIN_AS_RIGHT);
    expect_save(together, STATUS_NOT_REGULAR, JOINED_UNKEPT);
    tree_assert_holds(path, before, length);
    assert_true(exists(state, "a.ini.conflict"));
    assert_int_equal(unlink(tree_path(*state, ".generations")), 0);
    free(before);
}

/* One scale beside two others: neither version said so, and no profile may. */
static void what_contradicts_itself_is_refused(void **state)
{
    static const char fanned[] = "[profile]\nformat = 1\n\n[board]\nscale_treble = 640 mm\n"
                                 "scale_bass = 660 mm\nfrets = 20\n";
    const char *path = begin(state, fanned);
    size_t length;
    char *before = read_all(path, &length);
    struct together *together = open_it(path);

    for (size_t i = 0; i < together->count; i++) {
        const enum field_id field = together->differences[i].key.field;

        together->differences[i].side =
            field == FIELD_SCALE_BASS || field == FIELD_SCALE ? JOIN_AS_RIGHT : JOIN_AS_LEFT;
    }
    expect_save(together, STATUS_SYNTAX, JOINED_WRONG);
    tree_assert_holds(path, before, length);
    assert_true(exists(state, "a.ini.conflict"));
    free(before);
}

static void what_is_no_profile_cannot_be_joined(void **state)
{
    const char *path = begin(state, theirs);
    struct together *together = NULL;

    tree_write_text(tree_path(*state, "a.ini.conflict"), "no profile");
    assert_int_equal(open_first(path, &together), STATUS_SYNTAX);
    tree_write_text(tree_path(*state, "a.ini.conflict"), "[profile]\nformat = 99\n");
    assert_int_equal(open_first(path, &together), STATUS_NEWER);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 0);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(it_is_joined_and_undone),
        CASE(without_a_common_state_all_is_asked),
        CASE(the_state_that_both_come_from_is_found),
        CASE(nothing_is_written_before_it_is_saved),
        CASE(what_is_in_use_is_left_alone),
        CASE(what_changed_meanwhile_is_not_joined),
        CASE(what_cannot_be_kept_is_not_replaced),
        CASE(what_contradicts_itself_is_refused),
        CASE(what_is_no_profile_cannot_be_joined),
    };
    return cmocka_run_group_tests_name("together", tests, NULL, NULL) ? 1 : 0;
}
