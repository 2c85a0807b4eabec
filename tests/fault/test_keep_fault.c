/* SPDX-License-Identifier: MIT */
/* Every call made to keep a generation or bring one back, to keep a record aside or take it back,
 * or to put two versions together, fails once, in turn. Whatever fails, no state is lost or half
 * written, and the next try works. */
#include "near.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "faults.h"
#include "profile_steps.h"
#include "store/paths.h"
#include "store/profile/aside.h"
#include "store/profile/bring_back.h"
#include "store/profile/copies.h"
#include "store/profile/generations.h"
#include "store/profile/together.h"
#include "tree.h"

static const char body[] = "[profile]\nformat = 1\n\n[instrument]\nname = Uke\n\n"
                           "[board]\nscale = 13.5 in\nfrets = 12\n";
static const char earlier[] = "[profile]\nformat = 1\n\n[instrument]\nname = Uke\n\n"
                              "[board]\nscale = 13 in\n";

/* One thing done again and again. */
struct action {
    const char *name;
    enum status (*run)(const struct tree *tree);
    void (*check)(const struct tree *tree, enum status status);
    void (*prepare)(const struct tree *tree);
};

static char uke[512]; /* the instrument on file */
static size_t uke_length;

#define SHELF   "home/shelf"
#define UKE     SHELF "/uke.ini"
#define EARLIER SHELF "/.generations/uke.ini/000001-2026-03-02T1042.ini"

static bool holds_uke(const struct tree *tree, const char *name)
{
    size_t length;
    char *bytes = tree_read(tree_path(tree, name), &length);
    const bool same = bytes && length == uke_length && memcmp(bytes, uke, length) == 0;

    free(bytes);
    return same;
}

/* There, whole, and as it should be. */
static bool is_whole(const struct tree *tree, const char *name, const char *key_section,
                     const char *key_name, const char *text)
{
    const struct reading_key key = steps_key(key_section, key_name);
    struct profile *profile;

    if (profile_open(tree_path(tree, name), PROFILE_TO_READ, NULL, &profile) != STATUS_OK)
        return false;
    const char *got = record_text(profile_record(profile), &key);
    const bool good = (profile_notices(profile) & ~(unsigned)PROFILE_VERSIONS) == 0 && got &&
                      strcmp(got, text) == 0;
    profile_close(profile);
    return good;
}

/* --- generations --- */

static enum status keep_generation(const struct tree *tree)
{
    struct bytes bytes;

    bytes_init(&bytes);
    bytes_add(&bytes, uke, uke_length);
    enum status status = bytes_status(&bytes);
    if (status == STATUS_OK)
        status = generations_keep(tree_path(tree, UKE), &bytes, NULL);
    bytes_done(&bytes);
    return status;
}

static size_t count_generations(const struct tree *tree, char path[400])
{
    struct copies kept;

    assert_int_equal(copies_list(tree_path(tree, UKE), COPY_EARLIER, &kept), STATUS_OK);
    const size_t count = kept.count;
    path[0] = '\0';
    if (count > 0)
        strncat(path, kept.items[count - 1].path, 399);
    copies_done(&kept);
    return count;
}

static void make_folder(const struct tree *tree, const char *name)
{
    assert_int_equal(paths_make_folder(tree_path(tree, name)), STATUS_OK);
}

static void write_earlier_generation(const struct tree *tree)
{
    make_folder(tree, SHELF "/.generations/uke.ini");
    steps_write_whole(tree_path(tree, EARLIER), earlier);
}

static void check_generation(const struct tree *tree, enum status status)
{
    char oldest[400];
    const size_t count = count_generations(tree, oldest);

    assert_true(holds_uke(tree, UKE));
    /* One whose temporary name stays is a link, and the next try does not take it for kept. */
    assert_in_range(count, status == STATUS_OK ? 2 : 1, 3);
    assert_true(is_whole(tree, oldest + strlen(tree->folder) + 1, "board", "scale", "13 in"));
}

static enum brought brought;

static enum status bring(const struct tree *tree)
{
    return bring_back(tree_path(tree, UKE), tree_path(tree, EARLIER), &brought);
}

static bool newest_holds_uke(const struct tree *tree)
{
    struct copies kept;

    assert_int_equal(copies_list(tree_path(tree, UKE), COPY_EARLIER, &kept), STATUS_OK);
    const bool holds =
        kept.count > 1 && holds_uke(tree, kept.items[0].path + strlen(tree->folder) + 1);
    copies_done(&kept);
    return holds;
}

/* Nothing is replaced that is not a generation by then, whatever failed; and what is said of it
 * is so. */
static void check_bring_back(const struct tree *tree, enum status status)
{
    char oldest[400];
    const bool back = is_whole(tree, UKE, "board", "scale", "13 in");

    assert_true(back ? newest_holds_uke(tree) : holds_uke(tree, UKE));
    if (status == STATUS_OK)
        assert_true(back);
    if (brought != BROUGHT_SAME)
        assert_int_equal(back, brought == BROUGHT_BACK || brought == BROUGHT_UNSYNCED);
    assert_true(count_generations(tree, oldest) >= 1);
    assert_true(is_whole(tree, oldest + strlen(tree->folder) + 1, "board", "scale", "13 in"));
}

/* --- aside --- */

static enum status keep_aside(const struct tree *tree)
{
    struct profile *profile;
    struct record record;
    char *path = NULL;
    enum status status = profile_open(tree_path(tree, UKE), PROFILE_TO_READ, NULL, &profile);

    if (status != STATUS_OK)
        return status;
    status = record_copy(profile_record(profile), &record);
    if (status == STATUS_OK) {
        const struct reading_key key = reading_key_one(FIELD_SCALE);

        status = record_put(&record, &key, "14 in", false, NULL);
        if (status == STATUS_OK)
            status = aside_keep(profile, &record, &path);
        record_done(&record);
    }
    free(path);
    profile_close(profile);
    return status;
}

/* Looked for and saved, as a session begins. */
static enum status find_aside(const struct tree *tree)
{
    struct profile *profile;
    struct record record;
    char *path = NULL;
    enum status status = profile_open(tree_path(tree, UKE), PROFILE_TO_EDIT, NULL, &profile);

    if (status != STATUS_OK)
        return status;
    if (aside_find(profile, &record, &path) == ASIDE_RECORD) {
        status = profile_save(profile, &record);
        record_done(&record);
        if (status == STATUS_OK)
            aside_drop(&path);
    }
    free(path);
    profile_close(profile);
    return status;
}

/* In the file, beside it, or still aside. */
static void check_aside(const struct tree *tree, enum status status)
{
    const int aside = tree_count(tree_path(tree, "state/sillet/aside"), ".ini");

    (void)status;
    if (is_whole(tree, UKE, "board", "scale", "14 in"))
        return;
    assert_true(holds_uke(tree, UKE));
    /* One whose temporary name stays is a link, and the next try keeps one beside it. */
    assert_true(aside >= 1 || is_whole(tree, UKE ".aside", "board", "scale", "14 in"));
}

static void check_keep_aside(const struct tree *tree, enum status status)
{
    assert_true(holds_uke(tree, UKE));
    if (status == STATUS_OK)
        check_aside(tree, status);
}

static void put_aside(const struct tree *tree)
{
    assert_int_equal(keep_aside(tree), STATUS_OK);
}

/* --- putting together --- */

static const char beside[] = "[profile]\nformat = 1\n\n[instrument]\nname = Ukulele\n\n"
                             "[board]\nscale = 13.5 in\nfrets = 12\n\n[visit.1]\nnote = n\n";

static void write_version(const struct tree *tree)
{
    write_earlier_generation(tree);
    steps_write_whole(tree_path(tree, UKE ".conflict"), beside);
}

/* Nothing to do once the version is gone: a removal may be done and reported as failed. */
static enum status put_together(const struct tree *tree)
{
    char memory[200];
    struct strbuf holder = STRBUF(memory);
    struct together *together;
    struct problems problems;
    struct copies list;
    enum joined joined;
    enum status status = copies_list(tree_path(tree, UKE), COPY_VERSIONS, &list);

    /* One that could not be seen is not gone. */
    if (status == STATUS_OK && list.count == 0 &&
        access(tree_path(tree, UKE ".conflict"), F_OK) == 0)
        status = STATUS_IO;
    if (status == STATUS_OK && list.count > 0)
        status = together_open(tree_path(tree, UKE), &list.items[0], &holder, &together);
    if (status == STATUS_OK && list.count > 0) {
        record_join_choose_all(together->join, JOIN_AS_RIGHT, together->differences,
                               together->count);
        problems_init(&problems);
        status = together_save(together, &problems, &joined);
        problems_done(&problems);
        together_close(together);
    }
    copies_done(&list);
    return status;
}

static bool is_kept(const struct tree *tree, const char *section, const char *name,
                    const char *text)
{
    struct copies list;
    bool kept = is_whole(tree, UKE ".conflict", section, name, text);

    assert_int_equal(copies_list(tree_path(tree, UKE), COPY_EARLIER, &list), STATUS_OK);
    for (size_t i = 0; i < list.count; i++)
        kept = kept ||
               is_whole(tree, list.items[i].path + strlen(tree->folder) + 1, section, name, text);
    copies_done(&list);
    return kept;
}

/* The profile is as it was or joined, and both that it comes from are whole somewhere. */
static void check_together(const struct tree *tree, enum status status)
{
    const bool joined = is_whole(tree, UKE, "instrument", "name", "Ukulele");

    assert_true(joined || holds_uke(tree, UKE));
    if (joined)
        assert_true(is_kept(tree, "instrument", "name", "Uke"));
    assert_true(is_kept(tree, "visit.1", "note", "n"));
    if (status == STATUS_OK) {
        assert_true(joined && is_whole(tree, UKE, "visit.1", "note", "n"));
        assert_int_equal(access(tree_path(tree, UKE ".conflict"), F_OK), -1);
    }
}

/* --- all of them --- */

static void clear(const struct tree *tree)
{
    tree_remove(tree, "home");
    tree_remove(tree, "state");
    make_folder(tree, SHELF);
    tree_write(tree_path(tree, UKE), uke, uke_length);
}

/* Returns false when there was no nth call. */
static bool run_with_fault(const struct tree *tree, const struct action *action,
                           enum fault_call call, enum fault_way way, int nth)
{
    clear(tree);
    if (action->prepare)
        action->prepare(tree);
    fault_arm(call, way, nth, way == FAULT_STAYS ? ENOSPC : EIO);
    const enum status status = action->run(tree);
    const bool reached = fault_disarm() >= nth;
    action->check(tree, status);
    if (!reached)
        assert_int_equal(status, STATUS_OK);
    if (status != STATUS_OK) {
        assert_int_equal(action->run(tree), STATUS_OK);
        action->check(tree, STATUS_OK);
    }
    return reached;
}

static void fail_every_call(const struct tree *tree, const struct action *action)
{
    int rounds = 0;

    for (enum fault_way way = FAULT_ONCE; way <= FAULT_LIES; way++)
        for (enum fault_call call = FAULT_OPEN; call < FAULT_COUNT_; call++)
            for (int nth = 1; (way != FAULT_LIES || fault_can_lie(call)) &&
                              run_with_fault(tree, action, call, way, nth);
                 nth++)
                rounds++;
    print_message("%s: %d failures\n", action->name, rounds);
    assert_true(rounds > 20);
}

/* The process ends before each call in turn. */
static void kill_at_every_call(const struct tree *tree, const struct action *action)
{
    int killed = 0, status;

    do {
        clear(tree);
        if (action->prepare)
            action->prepare(tree);
        const pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0) {
            fault_arm(FAULT_ANY, FAULT_KILL, killed + 1, 0);
            _exit(action->run(tree) == STATUS_OK ? 0 : 1);
        }
        assert_int_equal(waitpid(child, &status, 0), child);
        brought = BROUGHT_SAME; /* what it said is gone with it */
        action->check(tree, WIFEXITED(status) ? STATUS_OK : STATUS_IO);
        killed += WIFSIGNALED(status);
        assert_int_equal(action->run(tree), STATUS_OK);
        action->check(tree, STATUS_OK);
    } while (WIFSIGNALED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
    print_message("%s: killed at each of %d calls\n", action->name, killed);
    assert_true(killed > 20);
}

static void begin(const struct tree *tree)
{
    size_t length;

    assert_int_equal(setenv("XDG_STATE_HOME", tree_path(tree, "state"), 1), 0);
    steps_write_whole(tree_path(tree, "uke.ini"), body);
    char *bytes = tree_read(tree_path(tree, "uke.ini"), &length);
    assert_true(length < sizeof uke);
    memcpy(uke, bytes, length);
    uke_length = length;
    free(bytes);
}

static const struct action actions[] = {
    {"keep a generation", keep_generation, check_generation, write_earlier_generation},
    {"bring one back", bring, check_bring_back, write_earlier_generation},
    {"keep aside", keep_aside, check_keep_aside, NULL},
    {"take from aside", find_aside, check_aside, put_aside},
    {"put together", put_together, check_together, write_version},
};

static void nothing_is_lost_whatever_fails(void **state)
{
    begin(*state);
    for (size_t i = 0; i < sizeof actions / sizeof actions[0]; i++)
        fail_every_call(*state, &actions[i]);
}

static void nothing_is_lost_whenever_it_is_killed(void **state)
{
    begin(*state);
    for (size_t i = 0; i < sizeof actions / sizeof actions[0]; i++)
        kill_at_every_call(*state, &actions[i]);
}

/* As many as stay, all of one month: the first is over once another is kept. */
static void write_all_generations(const struct tree *tree)
{
    write_earlier_generation(tree);
    for (int i = 2; i <= GENERATIONS_NEAR; i++) {
        char name[80];

        snprintf(name, sizeof name, SHELF "/.generations/uke.ini/%06d-2026-03-02T1042.ini", i);
        tree_write_text(tree_path(tree, name), name);
    }
}

/* The state that is wanted is there until it has the profile's place, whatever fails. */
static void the_one_asked_for_stays(void **state)
{
    static const enum fault_call calls[] = {FAULT_RENAME, FAULT_OPEN, FAULT_WRITE, FAULT_SYNC};
    const struct tree *tree = *state;
    int failed = 0;

    begin(tree);
    for (size_t i = 0; i < sizeof calls / sizeof calls[0]; i++)
        for (int nth = 1, reached = 1; reached; nth++) {
            clear(tree);
            write_all_generations(tree);
            fault_arm(calls[i], FAULT_ONCE, nth, EIO);
            failed += bring(tree) != STATUS_OK;
            reached = fault_disarm() >= nth;
            assert_true(is_whole(tree, EARLIER, "board", "scale", "13 in"));
        }
    assert_true(failed > 4);
}

/* What cannot be read is not empty: a new first one beside twenty others would be the next to go.
 */
static void no_number_is_given_unseen(void **state)
{
    const struct tree *tree = *state;
    int failed = 0;

    begin(tree);
    for (int nth = 1, reached = 1; reached; nth++) {
        clear(tree);
        write_all_generations(tree);
        fault_arm(FAULT_FOLDER, FAULT_ONCE, nth, EMFILE);
        const enum status status = keep_generation(tree);
        reached = fault_disarm() >= nth;
        failed += status != STATUS_OK;
        assert_int_equal(tree_count(tree_path(tree, SHELF "/.generations/uke.ini"), "000021-"),
                         status == STATUS_OK);
        assert_int_equal(tree_count(tree_path(tree, SHELF "/.generations/uke.ini"), ""),
                         GENERATIONS_NEAR);
    }
    /* The folder's opening and each of its names. */
    assert_true(failed > GENERATIONS_NEAR);
}

/* Readings of a session before it are there still, when they could not be seen for a moment. */
static void what_could_not_be_seen_is_not_overwritten(void **state)
{
    static const enum fault_call calls[] = {FAULT_OPEN, FAULT_FOLDER, FAULT_READ};
    const struct tree *tree = *state;
    const char *aside = tree_path(tree, "state/sillet/aside");
    int unseen = 0;

    begin(tree);
    for (size_t i = 0; i < sizeof calls / sizeof calls[0]; i++)
        for (int nth = 1, reached = 1; reached; nth++) {
            struct record record;
            char *path = NULL;

            clear(tree);
            put_aside(tree);
            struct profile *profile = steps_open(tree_path(tree, UKE));
            fault_arm(calls[i], FAULT_ONCE, nth, EMFILE);
            const enum aside_found found = aside_find(profile, &record, &path);
            reached = fault_disarm() >= nth;
            unseen += found == ASIDE_UNSEEN;
            assert_int_not_equal(found, ASIDE_NONE);
            if (found == ASIDE_RECORD)
                record_done(&record);
            free(path);
            path = NULL;
            assert_int_equal(record_copy(profile_record(profile), &record), STATUS_OK);
            steps_put(&record, "board", "scale", "15 in");
            assert_int_equal(aside_keep(profile, &record, &path), STATUS_OK);
            free(path);
            steps_close(profile, &record);
            assert_int_equal(tree_count(aside, ".ini"), 2);
        }
    assert_true(unseen > 0);
}

/* The files after one that cannot be moved are moved all the same, and the reason given is that of
 * the one that stays. */
static void the_first_failure_of_a_move_is_told(void **state)
{
    const struct tree *tree = *state;
    const char *const from = tree_path(tree, UKE), *const to = tree_path(tree, SHELF "/harp.ini");

    begin(tree);
    for (int nth = 1; nth <= 3; nth++) {
        clear(tree);
        tree_write_text(tree_path(tree, UKE ".conflict"), body);
        tree_write_text(tree_path(tree, UKE ".conflict.2"), body);
        tree_write_text(tree_path(tree, UKE ".aside"), body);
        fault_arm(FAULT_RENAME, FAULT_ONCE, nth, EIO);
        errno = 0;
        assert_int_equal(copies_move(from, to), STATUS_IO);
        assert_int_equal(errno, EIO);
        assert_int_equal(fault_disarm(), 3);
    }
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(nothing_is_lost_whatever_fails),
        IN_TREE(nothing_is_lost_whenever_it_is_killed),
        IN_TREE(the_one_asked_for_stays),
        IN_TREE(no_number_is_given_unseen),
        IN_TREE(what_could_not_be_seen_is_not_overwritten),
        IN_TREE(the_first_failure_of_a_move_is_told),
    };

    return cmocka_run_group_tests_name("keep_fault", tests, NULL, NULL) ? 1 : 0;
}
