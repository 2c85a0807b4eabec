/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "demo/demo_shop.h"
#include "model/reading/record_access.h"
#include "model/survey/proof.h"
#include "near.h"
#include "seeded.h"
#include "store/profile/preset.h"

/*
 * How right were we, on the made-up shop: the share of checks inside their +- that the program
 * counts is the one that follows from what is true there. What is true is known to the generator
 * alone; the gauges that read it err by half a step at most and a hand's error besides, so that
 * the chance of each check to come out inside can be reckoned without the reading that was made.
 */

enum { TRUTHS_MAX = 8000, DRAWS = 200, SHOPS = 5, KINDS_MAX = 16, ALL_MOVES = MOVE_COUNT_ };
enum { RELIEF, GAP, ACTION, ALL_ROWS, ROWS_ };

struct tally {
    int checked, inside;       /* as the program counts */
    int truly_inside;          /* by what is true, with no gauge between */
    double expected, variance; /* of `inside`, by what is true */
};

struct shop {
    struct demo_truth truth[TRUTHS_MAX];
    int truths;
    struct seeded seed;
    bool metric;                                   /* leaves of 0.05 mm, and a rule in 0.1 mm */
    int kind;                                      /* of the instrument in hand */
    struct tally of[KINDS_MAX + 1][ALL_MOVES + 1]; /* by kind and by move; the last: all */
    struct tally read[2][ROWS_][ALL_MOVES + 1];    /* by the gauges' units, and by what is read */
};

static void take_truth(void *taker, const struct demo_truth *truth)
{
    struct shop *shop = taker;

    assert_true(shop->truths < TRUTHS_MAX);
    shop->truth[shop->truths++] = *truth;
}

/* A reading that was questioned was taken again: the last one stands. */
static double true_mm(const struct shop *shop, const struct proof_check *check)
{
    const char *what = field_get(check->field)->key;

    for (int i = shop->truths - 1; i >= 0; i--) {
        const struct demo_truth *truth = &shop->truth[i];

        if (truth->visit == check->visit && truth->pass == check->pass &&
            truth->string == check->string && strcmp(truth->what, what) == 0) {
            assert_near(truth->read_mm, check->read_mm, 1e-3);
            return truth->true_mm;
        }
    }
    fail_msg("no truth of %s at %d, pass %d, string %d", what, check->visit, check->pass,
             check->string);
    return 0;
}

/* How often a gauge that reads what is true would read inside. */
static double chance_inside(struct shop *shop, const struct proof_check *check, double truth_mm)
{
    const bool rule = check->field == FIELD_ACTION;
    const double inch_mm = rule ? 25.4 / 128 : 0.0254, metric_mm = rule ? 0.1 : 0.05;
    const double step_mm = shop->metric ? metric_mm : inch_mm, error_mm = rule ? 0.04 : 0.008;
    int inside = 0;

    for (int i = 0; i < DRAWS; i++) {
        const double read_mm =
            step_mm * round((truth_mm + error_mm * seeded_normal(&shop->seed)) / step_mm);

        inside += fabs(read_mm - check->expected_mm) <= check->u_mm;
    }
    return (double)inside / DRAWS;
}

static void take_check(void *taker, const struct proof_check *check)
{
    struct shop *shop = taker;
    const double truth_mm = true_mm(shop, check);
    const double chance = chance_inside(shop, check, truth_mm);
    const int row = check->field == FIELD_ACTION    ? ACTION
                    : check->field == FIELD_NUT_GAP ? GAP
                                                    : RELIEF;
    struct tally *const of[] = {&shop->of[shop->kind][check->move],
                                &shop->of[shop->kind][ALL_MOVES],
                                &shop->of[KINDS_MAX][check->move],
                                &shop->of[KINDS_MAX][ALL_MOVES],
                                &shop->read[shop->metric][row][check->move],
                                &shop->read[shop->metric][ALL_ROWS][check->move]};

    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        of[i]->checked++;
        of[i]->inside += check->share <= 1;
        of[i]->truly_inside += fabs(truth_mm - check->expected_mm) <= check->u_mm;
        of[i]->expected += chance;
        of[i]->variance += chance * (1 - chance);
    }
}

static void start_of(const char *id, struct record *ret_record)
{
    const struct preset *preset = preset_find(id);

    assert_non_null(preset);
    assert_int_equal(preset_record(preset, ret_record), STATUS_OK);
}

static void walk(struct shop *shop, uint64_t seed)
{
    const struct demo_wish wish = {.seed = seed,
                                   .last_day = 740000,
                                   .metric = shop->metric,
                                   .tell = take_truth,
                                   .teller = shop};
    struct record start, record;

    for (int i = 0; demo_shop_preset(i); i++) {
        shop->truths = 0;
        start_of(demo_shop_preset(i), &start);
        assert_int_equal(demo_shop_make(i, &wish, &start, &record), STATUS_OK);
        shop->kind = (int)record_choice_or(&record, reading_key_one(FIELD_KIND), KINDS_MAX - 1);
        proof_walk(&record, take_check, shop);
        record_done(&record);
        record_done(&start);
    }
}

/* The share counted, within what chance leaves open of the share that follows from the truth. A
 * check shares its pass with others, so that it is not quite one of its own: 4 standard errors. */
static void check_tally(const char *name, const struct tally *tally)
{
    const double all = tally->checked, error = sqrt(tally->variance) / all;

    fprintf(
        stderr,
        "%s: %d checks: counted %.2f %%, by what is true %.2f +- %.2f %%, without gauge %.2f %%\n",
        name, tally->checked, 100 * tally->inside / all, 100 * tally->expected / all, 200 * error,
        100 * tally->truly_inside / all);
    assert_near(tally->inside / all, tally->expected / all, 4 * error);
}

enum { CHECKS_LEAST = 20 /* fewer say nothing */ };

/* 95.45 % is what k = 2 promises, and what the count leaves open of it: the binomial distribution's
 * standard errors, which say a little too little where the strings of a pass go together. Readings
 * fall on marks, and a +- that has to reach the next of them holds more: up to 98 %. */
static void check_promise(const struct shop *shop, bool metric, int row, int move, double errors)
{
    static const char *const read[ROWS_] = {"relief", "gap", "action", "all that is read"};
    const struct tally *of = &shop->read[metric][row][move];
    const double least = .9545, most = .98, all = of->checked, share = of->inside / all;

    if (of->checked < 200)
        return;
    fprintf(stderr, "%s, %s after %s: %d checks, %.2f %% inside\n", metric ? "mm" : "inch",
            read[row], work_mark_name((enum move_kind)move), of->checked, 100 * share);
    assert_true(share >= least - errors * sqrt(least * (1 - least) / all));
    assert_true(share <= most + errors * sqrt(most * (1 - most) / all));
}

static struct shop *begin(void)
{
    struct shop *shop = calloc(1, sizeof *shop);

    assert_non_null(shop);
    shop->seed = seeded_start("demo_proof");
    for (int metric = 0; metric < 2; metric++) {
        shop->metric = metric;
        for (uint64_t seed = 1; seed <= SHOPS; seed++)
            walk(shop, seed);
    }
    return shop;
}

static void each_move_keeps_what_its_doubt_promises(void **state)
{
    struct shop *shop = begin();

    (void)state;
    for (int metric = 0; metric < 2; metric++)
        for (int move = 0; move < ALL_MOVES; move++) {
            check_promise(shop, metric, ALL_ROWS, move, 3);
            for (int row = 0; row < ALL_ROWS; row++)
                check_promise(shop, metric, row, move, 4);
        }
    free(shop);
}

static void the_share_that_is_counted_is_the_one_that_is_true(void **state)
{
    struct shop *shop = begin();

    (void)state;
    const struct tally *all = &shop->of[KINDS_MAX][ALL_MOVES];
    for (int kind = 0; kind <= KINDS_MAX; kind++)
        for (int move = 0; move <= ALL_MOVES; move++) {
            char name[60], text[KIND_NAME_SIZE] = "all";

            if (shop->of[kind][move].checked < CHECKS_LEAST)
                continue;
            if (kind < KINDS_MAX)
                (void)field_choice(field_get(FIELD_KIND), kind, text, sizeof text);
            snprintf(name, sizeof name, "%s %s", text,
                     move < ALL_MOVES ? work_mark_name((enum move_kind)move) : "all");
            check_tally(name, &shop->of[kind][move]);
        }
    assert_true(all->checked > 1000);
    free(shop);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_share_that_is_counted_is_the_one_that_is_true),
        cmocka_unit_test(each_move_keeps_what_its_doubt_promises),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
