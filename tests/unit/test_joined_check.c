/* SPDX-License-Identifier: MIT */
/* What was put together passes the check that both passed: numbers without gaps, visits in the
 * order of their days, a format for what it holds. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "demo/demo_shop.h"
#include "join_edits.h"
#include "model/common/day.h"
#include "model/reading/record_join.h"
#include "profile_steps.h"
#include "store/profile/preset.h"
#include "tree.h"

enum { PAIRS = 150, DIFFERENCES_MAX = 2000 };

static void make_instrument(int index, struct record *ret_record)
{
    const struct day last = {.year = 2026, .month = 11, .day = 1};
    const struct demo_wish wish = {.seed = 11, .last_day = day_number(&last)};
    struct record start;
    int preset = 0;

    while (strcmp(preset_get(preset)->id, demo_shop_preset(index)) != 0)
        preset++;
    assert_int_equal(preset_record(preset_get(preset), &start), STATUS_OK);
    assert_int_equal(demo_shop_make(index, &wish, &start, ret_record), STATUS_OK);
    record_done(&start);
}

/* Every problem of the record as a profile of its own. */
static void find_problems(const struct tree *tree, struct record *record, struct problems *problems)
{
    const char *path = tree_path(tree, "a.ini");
    struct profile *profile;

    tree_remove(tree, "a.ini");
    assert_int_equal(profile_create(path, &profile), STATUS_OK);
    assert_int_equal(profile_save(profile, record), STATUS_OK);
    profile_close(profile);
    problems_init(problems);
    assert_int_equal(profile_open(path, PROFILE_TO_READ, problems, &profile), STATUS_OK);
    profile_close(profile);
}

/* The same fault, of whichever visit or pass. */
static bool knows(const struct problems *problems, const char *words)
{
    const size_t length = strcspn(words, "0123456789");

    for (size_t i = 0; i < problems->count; i++)
        if (strncmp(problems->items[i].words, words, length) == 0)
            return true;
    return false;
}

static void join_at_random(struct seeded *seed, struct record side[2], const struct record *base,
                           struct record *ret_record)
{
    static struct join_difference differences[DIFFERENCES_MAX];
    struct record_join *join = calloc(1, sizeof *join);

    assert_non_null(join);
    assert_int_equal(record_join_begin(join, &side[0], &side[1], base), STATUS_OK);
    const size_t count = record_join_list(join, differences, DIFFERENCES_MAX);
    assert_true(count <= DIFFERENCES_MAX);
    for (size_t i = 0; i < count; i++)
        if (differences[i].side == JOIN_OPEN || seeded_whole(seed, 0, 3) == 0)
            differences[i].side = seeded_whole(seed, 0, 1) ? JOIN_AS_LEFT : JOIN_AS_RIGHT;
    assert_int_equal(record_join_make(join, differences, count, ret_record), STATUS_OK);
    record_join_done(join);
    free(join);
}

static void no_problem_comes_from_joining(void **state)
{
    struct seeded seed = seeded_start("joined_check");
    int visits = 0;

    for (int i = 0; i < PAIRS; i++) {
        struct join_bench bench[2] = {{.seed = &seed, .side = 0}, {.seed = &seed, .side = 1}};
        struct record base, side[2], joined;
        struct problems problems[3];

        make_instrument(i % 5, &base);
        for (int of = 0; of < 2; of++) {
            assert_int_equal(record_copy(&base, &side[of]), STATUS_OK);
            for (int n = seeded_whole(&seed, 0, 8); n > 0; n--)
                join_edit(&bench[of], &side[of]);
        }
        join_at_random(&seed, side, i % 2 ? &base : NULL, &joined);
        visits += record_last_visit(&joined) > record_last_visit(&side[0]);
        find_problems(*state, &side[0], &problems[0]);
        find_problems(*state, &side[1], &problems[1]);
        find_problems(*state, &joined, &problems[2]);
        for (size_t p = 0; p < problems[2].count; p++) {
            const struct problem *problem = &problems[2].items[p];

            if (problem->severity != PROBLEM_NOTE && !knows(&problems[0], problem->words) &&
                !knows(&problems[1], problem->words))
                fail_msg("pair %d: %s", i, problem->words);
        }
        for (int of = 0; of < 3; of++)
            problems_done(&problems[of]);
        record_done(&joined);
        record_done(&side[0]);
        record_done(&side[1]);
        record_done(&base);
    }
    assert_true(visits > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(no_problem_comes_from_joining, tree_setup, tree_teardown),
    };

    return cmocka_run_group_tests_name("joined_check", tests, NULL, NULL) ? 1 : 0;
}
