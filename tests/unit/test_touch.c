/* SPDX-License-Identifier: MIT */
#include "model/derive/touch.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "near.h"
#include "preset_record.h"
#include "seeded.h"
#include "survey_record.h"
#include "words/frets_plan.h"

/*
 * How hard the owner plays. A usual set-up of a kind is just clean at a medium touch, and a lower
 * one buzzes (common practice, no published source): the presets at their own targets are the
 * usual set-ups. What the ear says is made from a touch that the model does not know.
 */

/* Over the notes whose headroom is known: the open one at least. */
static double least_share(const struct derived *derived, int string)
{
    const struct maybe *headroom_mm = derived->clearance[string].headroom_mm;
    const int open = derived->setup.board.start_fret[string];
    double least = assert_given(headroom_mm[open]);

    for (int n = open + 1; n < derived->setup.board.frets; n++)
        least = fmin(least, maybe_or(headroom_mm[n], least));
    return least / derived->touch.mm[string];
}

static void a_usual_set_up_is_just_clean(void **state)
{
    (void)state;
    for (int i = 0; preset_get(i); i++) {
        struct record record;
        struct derived derived;
        double closest = (double)INFINITY;

        if (preset_is_barred(i))
            continue;
        preset_at_targets(i, 0, &record, &derived);
        for (int s = 1; s <= derived.setup.board.strings; s++) {
            const double share = least_share(&derived, s);

            if (!(share >= 1))
                fail_msg("%s string %d: %.3f", preset_get(i)->id, s, share);
            closest = fmin(closest, share);
        }
        /* Just clean: the next harder touch but one would buzz somewhere. */
        if (!(closest < 1.35 * 1.35))
            fail_msg("%s is clean by far: %.3f", preset_get(i)->id, closest);
        record_done(&record);
    }
}

/* Lower all over by 0.15 mm, the notes that touch first are named, the tightest first. */
static void a_lower_one_names_its_tightest_notes(void **state)
{
    (void)state;
    for (int i = 0; preset_get(i); i++) {
        struct record record;
        struct derived derived;
        struct frets_plan plan;
        double least = (double)INFINITY;
        char memory[240];
        struct strbuf words = STRBUF(memory);
        const struct shop_units units = shop_units_metric();

        if (preset_is_barred(i))
            continue;
        preset_at_targets(i, 0.15, &record, &derived);
        frets_plan_make(place_current(&record), &derived, &plan);
        for (int s = 1; s <= derived.setup.board.strings; s++)
            least = fmin(least, least_share(&derived, s));
        assert_near(plan.tight.note[0].share, least, 1e-12);
        for (int k = 1; k < plan.tight.count; k++)
            assert_true(plan.tight.note[k].share >= plan.tight.note[k - 1].share);
        assert_true(assert_given(plan.tight.raised_mm) > 0);
        assert_true(frets_add_tightest(&plan, &words));
        assert_non_null(strstr(memory, "tightest: string "));
        strbuf_clear(&words);
        assert_true(frets_add_gains(&plan, &units, &words));
        /* One below the touch may buzz at least; one that would lies below it. */
        assert_true(least >= 1 ||
                    frets_count(&plan, HEADROOM_BUZZES) + frets_count(&plan, HEADROOM_MAY) > 0);
        assert_true(least < 1 || frets_count(&plan, HEADROOM_BUZZES) == 0);
        record_done(&record);
    }
}

/* Adds what is heard of every third note or so, played at that share of a medium touch. */
static void play(struct record *record, const struct derived *derived, double share,
                 struct seeded *seed)
{
    for (int s = 1; s <= derived->setup.board.strings; s++) {
        const double mm = share * derived->touch.mm[s] / derived->touch.share;

        for (int buzz = 0; buzz <= 1; buzz++) {
            char memory[400];
            struct strbuf lines = STRBUF(memory);
            bool any = false;
            struct seeded again = {.state = seed->state + (uint64_t)s};

            strbuf_addf(&lines, "visit.1.pass.1 %s.%d =", buzz ? "buzz" : "clean", s);
            for (int n = 0; n < derived->setup.board.frets; n++) {
                const bool played = seeded_between(&again, 0, 1) < 0.35;

                const struct maybe headroom = derived->clearance[s].headroom_mm[n];

                if (played && headroom.given && buzz == (headroom.value < mm)) {
                    strbuf_addf(&lines, " %d", n);
                    any = true;
                }
            }
            strbuf_add(&lines, "\n");
            if (any)
                build_record_add(record, memory);
        }
    }
    (void)seeded_bits(seed);
}

static void the_ear_bounds_the_touch(void **state)
{
    enum { PRESETS = 20 };
    struct seeded seed = seeded_start("touch");
    int by_ear = 0;

    (void)state;
    for (int i = 0; i < 200; i++) {
        const double share = seeded_between(&seed, 0.6, 1.3);
        struct record record;
        struct derived derived;
        struct frets_plan plan;

        if (preset_is_barred(i % PRESETS))
            continue;
        preset_at_targets(i % PRESETS, 0.1, &record, &derived);
        play(&record, &derived, share, &seed);
        derive_current(&record, &derived);
        frets_plan_make(place_current(&record), &derived, &plan);
        if (derived.touch.by_ear) {
            by_ear++;
            assert_true(derived.touch.least.value <= share && share <= derived.touch.most.value);
            assert_true(derived.touch.least.value < derived.touch.share &&
                        derived.touch.share < derived.touch.most.value);
        } else if (derived.touch.most.given) {
            assert_true(derived.touch.share <= derived.touch.most.value);
        }
        for (int s = 1; s <= derived.setup.board.strings; s++)
            for (int n = 0; n < derived.setup.board.frets; n++)
                if (plan.buzz[s].clean >> n & 1)
                    assert_true(plan.headroom[s][n] < HEADROOM_MAY);
        record_done(&record);
    }
    assert_true(by_ear > 40);
}

/* The owner plays the next pass, and in the next visit, as before. */
static void a_touch_is_remembered(void **state)
{
    struct record record;
    struct derived then, now;
    struct seeded seed = {.state = 7};

    (void)state;
    preset_at_targets(0, 0.3, &record, &then);
    play(&record, &then, 0.9, &seed);
    derive_current(&record, &then);
    assert_true(then.touch.most.given);
    build_record_add(&record, "visit.2.pass.1 relief = .008 in\n");
    derive_current(&record, &now);
    assert_near(now.touch.share, then.touch.share, 1e-12);
    assert_int_equal(now.touch.by_ear, then.touch.by_ear);
    record_done(&record);
}

/* One note more is heard, and the saddle was raised: that tells no less than before. */
static void a_touch_is_not_forgotten_for_a_note(void **state)
{
    struct record record;
    struct derived then, now;
    struct seeded seed = {.state = 7};

    (void)state;
    preset_at_targets(0, 0.3, &record, &then);
    play(&record, &then, 0.9, &seed);
    derive_current(&record, &then);
    assert_true(then.touch.by_ear);
    build_record_add(&record, "visit.1.work.1 kind = saddle\nvisit.1.pass.2 clean.1 = 0\n"
                              "visit.1.pass.2 relief = .008 in\n");
    derive_current(&record, &now);
    assert_near(now.touch.share, then.touch.share, 1e-12);
    assert_true(now.touch.by_ear);
    record_done(&record);
}

/* Notes heard clean bound the touch from above; what is stated after them counts within that. */
static void a_touch_stated_later_is_the_touch(void **state)
{
    struct record record;
    struct derived then, now;

    (void)state;
    survey_record_build(&record, "visit.1.pass.1 clean.6 = 0\n");
    derive_current(&record, &then);
    assert_near(then.touch.share, 1, 1e-12);
    assert_true(assert_given(then.touch.most) > 1);
    build_record_add(&record, "visit.2.pass.1 relief = .008 in\nvisit.2.targets touch = soft\n");
    derive_current(&record, &now);
    assert_near(now.touch.share, 0.75, 1e-12);
    assert_near(assert_given(now.touch.most), then.touch.most.value, 1e-12);
    derive_pass(place_of(&record, 1, 1), &then);
    assert_near(then.touch.share, 1, 1e-12);
    record_done(&record);
}

/* A buzz far beyond the touch that was stated is a fret's, not the player's. */
static void a_fret_is_not_taken_for_a_heavy_hand(void **state)
{
    struct record record;
    struct derived derived;

    (void)state;
    survey_record_derive(&record, "visit.1.pass.1 buzz.6 = 1-4\nvisit.1.pass.1 clean.6 = 5-15\n",
                         &derived);
    assert_false(derived.touch.by_ear);
    assert_true(derived.clearance[6].has_high);
    assert_int_equal(derived.clearance[6].high.fret, 5);
    record_done(&record);
}

static void nothing_heard_leaves_what_was_stated(void **state)
{
    static const struct {
        const char *line;
        double share;
    } stated[] = {{"targets touch = soft\n", 0.75},
                  {"targets touch = medium\n", 1},
                  {"targets touch = hard\n", 1.35},
                  {"", 1}};

    (void)state;
    for (size_t i = 0; i < sizeof stated / sizeof stated[0]; i++) {
        struct record record;
        struct derived derived;

        survey_record_derive(&record, stated[i].line, &derived);
        assert_near(derived.touch.share, stated[i].share, 1e-12);
        assert_false(derived.touch.by_ear);
        record_done(&record);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_usual_set_up_is_just_clean),
        cmocka_unit_test(a_lower_one_names_its_tightest_notes),
        cmocka_unit_test(the_ear_bounds_the_touch),
        cmocka_unit_test(a_touch_is_remembered),
        cmocka_unit_test(a_touch_is_not_forgotten_for_a_note),
        cmocka_unit_test(a_touch_stated_later_is_the_touch),
        cmocka_unit_test(a_fret_is_not_taken_for_a_heavy_hand),
        cmocka_unit_test(nothing_heard_leaves_what_was_stated),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
