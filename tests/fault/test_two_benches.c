/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <dirent.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/profile/copies.h"
#include "store/profile/together.h"
#include "seeded.h"
#include "tree.h"

/*
 * Two benches, one profile: programs of their own that open, change, save, close and are killed in
 * any order. Either both are in one folder, or each has a folder of its own and something copies
 * what changed from one to the other, late and out of order, and keeps both where both changed.
 * Whatever a bench was told is kept must be in some file in the end: the profile, another version
 * beside it, or an earlier state. Then the versions are put together with the profile: what any of
 * them held is in it.
 */

enum {
    ROUNDS = 1000,
    STEPS = 16,
    NAMES = 12,
    PENDING = 4,
    EDITS_MAX = 400,
    NAME_SIZE = 256,
    PATH_SIZE = 800
};

static const char profile[] = "parlour.ini";

struct bench {
    pid_t pid;
    int to, from; /* pipes */
    bool open, may_edit;
};

struct pending {
    char name[NAME_SIZE];
    bool to_second;     /* else to the first folder */
    char *bytes, *seen; /* what is under way, and what stood there when it left; NULL: nothing */
};

struct shop {
    struct tree *tree;
    struct seeded seed;
    char folder[2][300];
    bool shared;
    struct bench bench[2];
    bool kept[EDITS_MAX];
    int edits, kept_count, kills, versions, locked, joined, asked;
    char name[NAMES][NAME_SIZE]; /* what both folders had alike, by name */
    char *base[NAMES];
    struct pending pending[PENDING];
};

/* --- a bench: a process that does what it is told --- */

static void change(struct record *record, int edit)
{
    struct reading_key key = reading_key_visit(FIELD_VISIT_NOTE, 1 + edit);
    char text[40];

    snprintf(text, sizeof text, "edit-%d-", edit);
    if (record_put(record, &key, text, false, NULL) != STATUS_OK)
        _exit(9);
}

static char do_open(const char *path, struct profile **profile_, struct record *record)
{
    if (profile_open(path, PROFILE_TO_EDIT, NULL, profile_) != STATUS_OK)
        return 'n';
    if (profile_editable(*profile_) != STATUS_OK) {
        const char answer =
            profile_editable(*profile_) == STATUS_LOCKED && profile_lock_holder(*profile_)[0] ? 'l'
                                                                                              : '?';
        profile_close(*profile_);
        *profile_ = NULL;
        return answer;
    }
    if (record_copy(profile_record(*profile_), record) != STATUS_OK)
        _exit(9);
    return 'y';
}

static void work(int from, int to, const char *path)
{
    struct profile *opened = NULL;
    struct record record;
    int words[2];

    while (read(from, words, sizeof words) == (ssize_t)sizeof words) {
        char answer = 'y';

        if (words[0] == 'o') {
            answer = do_open(path, &opened, &record);
        } else if (words[0] == 'e') {
            change(&record, words[1]);
            const enum status status = profile_save(opened, &record);
            answer = status == STATUS_OK || status == STATUS_CHANGED ? 'y' : 'n';
        } else {
            record_done(&record);
            profile_close(opened);
            opened = NULL;
        }
        if (write(to, &answer, 1) != 1)
            _exit(9);
    }
    _exit(0);
}

static void hire(struct shop *shop, int i)
{
    int down[2], up[2];
    char path[PATH_SIZE];

    snprintf(path, sizeof path, "%s/%s", shop->folder[i], profile);
    assert_int_equal(pipe(down), 0);
    assert_int_equal(pipe(up), 0);
    shop->bench[i] = (struct bench){.pid = fork(), .to = down[1], .from = up[0]};
    assert_true(shop->bench[i].pid >= 0);
    if (shop->bench[i].pid == 0) {
        close(down[1]);
        close(up[0]);
        if (i == 1) { /* or the first would never see its end */
            close(shop->bench[0].to);
            close(shop->bench[0].from);
        }
        work(down[0], up[1], path);
    }
    close(down[0]);
    close(up[1]);
}

static void say(struct bench *bench, int what, int edit)
{
    const int words[2] = {what, edit};

    assert_int_equal(write(bench->to, words, sizeof words), (ssize_t)sizeof words);
}

static char answer(struct bench *bench)
{
    char text = '-';

    assert_int_equal(read(bench->from, &text, 1), 1);
    return text;
}

static void dismiss(struct bench *bench, bool killed)
{
    int status;

    if (killed)
        kill(bench->pid, SIGKILL);
    close(bench->to);
    assert_int_equal(waitpid(bench->pid, &status, 0), bench->pid);
    assert_true(killed || (WIFEXITED(status) && WEXITSTATUS(status) == 0));
    close(bench->from);
}

/* --- steps at a bench --- */

static void open_or_close(struct shop *shop, int i)
{
    struct bench *bench = &shop->bench[i];

    if (bench->open) {
        say(bench, 'c', 0);
        assert_int_equal(answer(bench), 'y');
        bench->open = false;
        return;
    }
    say(bench, 'o', 0);
    const char said = answer(bench);
    bench->open = said == 'y';
    /* In one folder the other one has it, and that is said; else nobody does. */
    if (said != 'y') {
        assert_int_equal(said, 'l');
        assert_true(shop->shared && shop->bench[!i].open);
        shop->locked++;
    }
}

static void edit(struct shop *shop, int i)
{
    struct bench *bench = &shop->bench[i];

    if (!bench->open || shop->edits == EDITS_MAX)
        return;
    say(bench, 'e', shop->edits);
    shop->kept[shop->edits] = answer(bench) == 'y';
    assert_true(shop->kept[shop->edits]);
    shop->kept_count++;
    shop->edits++;
}

/* In the middle of a save, or before it. What was not answered need not be kept. */
static void kill_one(struct shop *shop, int i)
{
    struct bench *bench = &shop->bench[i];

    if (bench->open && shop->edits < EDITS_MAX) {
        say(bench, 'e', shop->edits++);
        nanosleep(&(struct timespec){.tv_nsec = 1000L * seeded_whole(&shop->seed, 0, 1500)}, NULL);
    }
    dismiss(bench, true);
    shop->kills++;
    hire(shop, i);
}

/* --- what copies from one folder to the other --- */

static void path_in(char out[PATH_SIZE], const char *folder, const char *name)
{
    struct strbuf path = strbuf_over(out, PATH_SIZE);

    strbuf_addf(&path, "%s/%s", folder, name);
    assert_false(path.truncated);
}

static char *content(const struct shop *shop, int side, const char *name)
{
    char path[PATH_SIZE];
    size_t length;

    path_in(path, shop->folder[side], name);
    return tree_read(path, &length);
}

static void deliver(const struct shop *shop, int side, const char *name, const char *bytes)
{
    char path[PATH_SIZE], aside[PATH_SIZE];

    path_in(path, shop->folder[side], name);
    snprintf(aside, sizeof aside, "%s/.arriving", shop->folder[side]);
    tree_write_text(aside, bytes);
    assert_int_equal(rename(aside, path), 0);
}

static bool same(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

static char **base_of(struct shop *shop, const char *name)
{
    int i = 0;

    while (i < NAMES - 1 && shop->name[i][0] && strcmp(shop->name[i], name) != 0)
        i++;
    struct strbuf text = STRBUF(shop->name[i]);
    strbuf_add(&text, name);
    return &shop->base[i];
}

/* A free name of a version beside the profile, in both folders. */
static void free_name(const struct shop *shop, char *out, size_t size)
{
    for (int number = 2;; number++) {
        char path[2][PATH_SIZE];

        snprintf(out, size, "%s.conflict.%d", profile, number);
        for (int i = 0; i < 2; i++)
            snprintf(path[i], sizeof path[i], "%s/%s", shop->folder[i], out);
        if (access(path[0], F_OK) != 0 && access(path[1], F_OK) != 0)
            return;
    }
}

static void arrive(struct shop *shop, struct pending *pending)
{
    const int side = pending->to_second;
    char *now = content(shop, side, pending->name), name[NAME_SIZE];
    char **base = base_of(shop, pending->name);

    if (same(now, pending->seen)) {
        deliver(shop, side, pending->name, pending->bytes);
        free(*base);
        *base = strdup(pending->bytes);
    } else { /* it changed here meanwhile: both are kept */
        free_name(shop, name, sizeof name);
        deliver(shop, side, name, pending->bytes);
    }
    free(now);
    free(pending->bytes);
    free(pending->seen);
    *pending = (struct pending){.bytes = NULL};
}

/* Both changed: the second folder's is kept beside, and gets the first one's. */
static void keep_both(struct shop *shop, const char *name, const char *first, const char *second)
{
    char beside[NAME_SIZE];

    free_name(shop, beside, sizeof beside);
    deliver(shop, 0, beside, second);
    deliver(shop, 1, beside, second);
    deliver(shop, 1, name, first);
    char **base = base_of(shop, name);
    free(*base);
    *base = strdup(first);
}

static bool is_under_way(const struct shop *shop, const char *name)
{
    for (int i = 0; i < PENDING; i++)
        if (shop->pending[i].bytes && strcmp(shop->pending[i].name, name) == 0)
            return true;
    return false;
}

/* Looks at one file; true if it has to go on its way, or was settled just now. */
static bool look(struct shop *shop, const char *name)
{
    char *first = content(shop, 0, name), *second = content(shop, 1, name);
    char **base = base_of(shop, name);
    struct pending *pending = shop->pending;
    bool busy = false;

    while (pending < shop->pending + PENDING && pending->bytes)
        pending++;
    if (same(first, second)) {
        free(*base);
        *base = first ? strdup(first) : NULL;
    } else if (same(first, *base) || same(second, *base)) {
        const bool to_second = same(second, *base);

        busy = pending < shop->pending + PENDING && !is_under_way(shop, name);
        if (busy) {
            *pending = (struct pending){.to_second = to_second,
                                        .bytes = strdup(to_second ? first : second),
                                        .seen = *base ? strdup(*base) : NULL};
            struct strbuf text = STRBUF(pending->name);
            strbuf_add(&text, name);
        }
    } else if (first && second && !is_under_way(shop, name)) {
        keep_both(shop, name, first, second);
        busy = true;
    }
    free(first);
    free(second);
    return busy;
}

/* The profile and the versions beside it; locks and what is being written stay. */
static bool look_at_all(struct shop *shop)
{
    bool busy = false;

    for (int side = 0; side < 2; side++) {
        DIR *names = opendir(shop->folder[side]);
        struct dirent *found;
        char list[NAMES][NAME_SIZE];
        int count = 0;

        assert_non_null(names);
        while ((found = readdir(names)) != NULL)
            if (strcmp(found->d_name, profile) == 0 || strstr(found->d_name, ".conflict"))
                if (count < NAMES && !strstr(found->d_name, ".new") && found->d_name[0] != '.')
                    snprintf(list[count++], sizeof list[0], "%s", found->d_name);
        closedir(names);
        for (int i = 0; i < count; i++)
            busy = look(shop, list[i]) || busy;
    }
    return busy;
}

static void copy_some(struct shop *shop)
{
    struct pending *pending = &shop->pending[seeded_whole(&shop->seed, 0, PENDING - 1)];

    if (shop->shared)
        return;
    if (pending->bytes && seeded_whole(&shop->seed, 0, 1))
        arrive(shop, pending);
    else
        (void)look_at_all(shop);
}

/* --- a round --- */

static void step(struct shop *shop)
{
    const int i = seeded_whole(&shop->seed, 0, 1), what = seeded_whole(&shop->seed, 0, 19);

    if (what < (shop->bench[i].open ? 3 : 12))
        open_or_close(shop, i);
    else if (what < 13)
        edit(shop, i);
    else if (what < 14)
        kill_one(shop, i);
    else
        copy_some(shop);
}

static bool holds(const char *folder, const char *text)
{
    DIR *names = opendir(folder);
    struct dirent *found;
    bool held = false;

    assert_non_null(names);
    while (!held && (found = readdir(names)) != NULL) {
        char path[1200];
        struct stat facts;
        size_t length;

        snprintf(path, sizeof path, "%s/%s", folder, found->d_name);
        if (strcmp(found->d_name, ".") == 0 || strcmp(found->d_name, "..") == 0 ||
            lstat(path, &facts) != 0)
            continue;
        if (S_ISDIR(facts.st_mode)) {
            held = holds(path, text);
        } else if (S_ISREG(facts.st_mode)) {
            char *bytes = tree_read(path, &length);

            held = bytes && strstr(bytes, text);
            free(bytes);
        }
    }
    closedir(names);
    return held;
}

static void name_edit(int edit, char *out, size_t size)
{
    snprintf(out, size, "edit-%d-", edit);
}

static void expect_all(struct shop *shop, int round)
{
    for (int i = 0; i < shop->edits; i++) {
        char text[40];

        name_edit(i, text, sizeof text);
        if (shop->kept[i] && !holds(shop->folder[0], text) && !holds(shop->folder[1], text))
            fail_msg("round %d: %s was kept, and is gone", round, text);
    }
}

/* --- putting together --- */

static bool file_holds(const char *path, const char *text)
{
    size_t length;
    char *bytes = tree_read(path, &length);
    const bool held = bytes && strstr(bytes, text);

    free(bytes);
    return held;
}

/* Where something is open, one side has an edit that the other lacks: each is an entry of its own.
 */
static void join(struct shop *shop, const char *path, const struct copy *version)
{
    char memory[200];
    struct strbuf holder = STRBUF(memory);
    struct together *together;
    struct problems problems;
    enum joined joined;

    assert_int_equal(together_open(path, version, &holder, &together), STATUS_OK);
    for (size_t i = 0; i < together->count; i++) {
        struct join_difference *difference = &together->differences[i];

        shop->asked += difference->side == JOIN_OPEN;
        if (difference->side == JOIN_OPEN)
            difference->side = record_join_size(together->join, difference, JOIN_LEFT) > 0
                                   ? JOIN_AS_LEFT
                                   : JOIN_AS_RIGHT;
    }
    problems_init(&problems);
    assert_int_equal(together_save(together, &problems, &joined), STATUS_OK);
    problems_done(&problems);
    together_close(together);
    shop->joined++;
}

/* Whatever stood in the profile or in a version beside it stands in the profile afterwards, and no
 * version is left. */
static void put_together(struct shop *shop, int round)
{
    bool there[EDITS_MAX] = {false};
    char path[PATH_SIZE], text[40];
    struct copies versions;

    path_in(path, shop->folder[0], profile);
    assert_int_equal(copies_list(path, COPY_VERSIONS, &versions), STATUS_OK);
    for (int i = 0; i < shop->edits; i++) {
        name_edit(i, text, sizeof text);
        there[i] = file_holds(path, text);
        for (size_t v = 0; v < versions.count; v++)
            there[i] = there[i] || file_holds(versions.items[v].path, text);
    }
    for (size_t v = 0; v < versions.count; v++)
        join(shop, path, &versions.items[v]);
    copies_done(&versions);
    for (int i = 0; i < shop->edits; i++) {
        name_edit(i, text, sizeof text);
        if (there[i] && !file_holds(path, text))
            fail_msg("round %d: %s is not in what was put together", round, text);
    }
    assert_int_equal(tree_count(shop->folder[0], ".conflict"), 0);
}

static void begin(struct shop *shop, int round)
{
    char path[PATH_SIZE];

    shop->shared = seeded_whole(&shop->seed, 0, 2) == 0;
    for (int i = 0; i < 2; i++) {
        snprintf(shop->folder[i], sizeof shop->folder[i], "%s/%d-%d", shop->tree->folder, round,
                 shop->shared ? 0 : i);
        assert_true(mkdir(shop->folder[i], 0700) == 0 || (i == 1 && shop->shared));
        snprintf(path, sizeof path, "%s/%s", shop->folder[i], profile);
        steps_write_whole(path, steps_tiny);
    }
    shop->edits = 0;
    for (int i = 0; i < 2; i++)
        hire(shop, i);
}

static void end(struct shop *shop, int round)
{
    for (int i = 0; i < 2; i++) {
        if (shop->bench[i].open)
            open_or_close(shop, i);
        dismiss(&shop->bench[i], false);
    }
    for (int times = 0; !shop->shared && times < 20; times++) {
        for (int i = 0; i < PENDING; i++)
            if (shop->pending[i].bytes)
                arrive(shop, &shop->pending[i]);
        (void)look_at_all(shop);
    }
    shop->versions += tree_count(shop->folder[0], ".conflict") > 0;
    expect_all(shop, round);
    put_together(shop, round);
    expect_all(shop, round);
    for (int i = 0; i < PENDING; i++)
        assert_null(shop->pending[i].bytes);
    for (int i = 0; i < NAMES; i++) {
        free(shop->base[i]);
        shop->base[i] = NULL;
        shop->name[i][0] = '\0';
    }
    for (int i = 0; i < (shop->shared ? 1 : 2); i++)
        tree_remove(shop->tree, strrchr(shop->folder[i], '/') + 1);
}

static void nothing_that_was_kept_is_lost(void **state)
{
    struct shop *shop = calloc(1, sizeof *shop);

    assert_non_null(shop);
    shop->tree = *state;
    shop->seed = seeded_start("two_benches");
    signal(SIGPIPE, SIG_IGN);
    for (int round = 0; round < ROUNDS; round++) {
        memset(shop->kept, 0, sizeof shop->kept);
        begin(shop, round);
        for (int i = 0; i < STEPS; i++)
            step(shop);
        end(shop, round);
    }
    fprintf(stderr,
            "%d kept, %d kills, %d rounds with other versions, %d times it was in use, %d put "
            "together, %d entries asked about\n",
            shop->kept_count, shop->kills, shop->versions, shop->locked, shop->joined, shop->asked);
    assert_true(shop->kept_count > 1000 && shop->kills > 300 && shop->versions > 50 &&
                shop->locked > 50 && shop->joined > 50);
    free(shop);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(nothing_that_was_kept_is_lost, tree_setup, tree_teardown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
