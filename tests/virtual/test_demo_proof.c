/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "demo/demo_shop.h"
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

enum { TRUTHS_MAX = 8000, DRAWS = 200, SHOPS = 3 };

struct shop {
    struct demo_truth truth[TRUTHS_MAX];
    int truths;
    struct seeded seed;
    int checked, inside;       /* as the program counts */
    int truly_inside;          /* by what is true, with no gauge between */
    double expected, variance; /* of `inside`, by what is true */
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
    const double step_mm = rule ? 25.4 / 128 : 0.0254, error_mm = rule ? 0.04 : 0.008;
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

    shop->checked++;
    shop->inside += check->share <= 1;
    shop->truly_inside += fabs(truth_mm - check->expected_mm) <= check->u_mm;
    shop->expected += chance;
    shop->variance += chance * (1 - chance);
}

static void start_of(const char *id, struct record *ret_record)
{
    const struct preset *preset;
    int i = 0;

    while ((preset = preset_get(i)) != NULL && strcmp(preset->id, id) != 0)
        i++;
    assert_non_null(preset);
    assert_int_equal(preset_record(preset, ret_record), STATUS_OK);
}

static void walk(struct shop *shop, uint64_t seed)
{
    const struct demo_wish wish = {
        .seed = seed, .last_day = 740000, .tell = take_truth, .teller = shop};
    struct record start, record;

    for (int i = 0; demo_shop_preset(i); i++) {
        shop->truths = 0;
        start_of(demo_shop_preset(i), &start);
        assert_int_equal(demo_shop_make(i, &wish, &start, &record), STATUS_OK);
        proof_walk(&record, take_check, shop);
        record_done(&record);
        record_done(&start);
    }
}

static void the_share_that_is_counted_is_the_one_that_is_true(void **state)
{
    struct shop *shop = calloc(1, sizeof *shop);

    (void)state;
    assert_non_null(shop);
    shop->seed = seeded_start("demo_proof");
    for (uint64_t seed = 1; seed <= SHOPS; seed++)
        walk(shop, seed);
    const double all = shop->checked, error = sqrt(shop->variance) / all;
    fprintf(stderr,
            "%d checks: counted %.2f %%, by what is true %.2f +- %.2f %%, without gauge %.2f %%\n",
            shop->checked, 100 * shop->inside / all, 100 * shop->expected / all, 200 * error,
            100 * shop->truly_inside / all);
    assert_true(shop->checked > 1000);
    assert_near(shop->inside / all, shop->expected / all, 3 * error);
    /* 95 % is what the +- promises. */
    assert_near(shop->inside / all, .95, .02);
    free(shop);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_share_that_is_counted_is_the_one_that_is_true),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
