/* SPDX-License-Identifier: MIT */
#include "model/setup/break_angle.h"

#include <math.h>
#include <stdio.h>

#include "build_record.h"
#include "model/derive/derive.h"
#include "near.h"

#define DEGREE (3.14159265358979323846 / 180)

/* A string that goes down as far as it goes along leaves at 45 degrees; 30 degrees on both sides
 * press as hard as the string pulls. */
static void angles_and_forces_by_hand(void **state)
{
    const struct string_break steep = {.drop_mm = 10, .distance_mm = 10, .pull_n = 100};
    const struct string_break both = {.drop_mm = tan(30 * DEGREE) * 20,
                                      .distance_mm = 20,
                                      .front_rad = 29 * DEGREE,
                                      .tilt_rad = 1 * DEGREE,
                                      .pull_n = 80};
    double angle = 0, force = 0;

    (void)state;
    assert_int_equal(break_angle_find(&steep, &angle), STATUS_OK);
    assert_near(angle / DEGREE, 45, 1e-9);
    assert_int_equal(break_angle_find_force(&steep, &force), STATUS_OK);
    assert_near(force, 100 / sqrt(2), 1e-9);
    assert_int_equal(break_angle_find(&both, &angle), STATUS_OK);
    assert_near(angle / DEGREE, 60, 1e-9);
    assert_int_equal(break_angle_find_force(&both, &force), STATUS_OK);
    assert_near(force, 80, 1e-9);
}

static void what_is_no_angle_is_refused(void **state)
{
    const double bad[] = {0, -1, (double)NAN, (double)INFINITY};
    double out = 7;

    (void)state;
    for (int i = 0; i < 4; i++) {
        struct string_break at = {.drop_mm = 3, .distance_mm = bad[i], .pull_n = 70};

        assert_int_equal(break_angle_find(&at, &out), STATUS_DOMAIN);
        assert_int_equal(break_angle_find_force(&at, &out), STATUS_DOMAIN);
        if (i < 2)
            continue;
        at = (struct string_break){.drop_mm = bad[i], .distance_mm = 12};
        assert_int_equal(break_angle_find(&at, &out), STATUS_DOMAIN);
        at = (struct string_break){.drop_mm = 3, .distance_mm = 12, .pull_n = bad[i]};
        assert_int_equal(break_angle_find_force(&at, &out), STATUS_DOMAIN);
        at = (struct string_break){.drop_mm = 3, .distance_mm = 12, .front_rad = bad[i]};
        assert_int_equal(break_angle_find(&at, &out), STATUS_DOMAIN);
    }
    assert_near(out, 7, 0);
}

static struct maybe angle_of(const char *more)
{
    struct record record;
    struct derived derived;

    build_record(&record, build_record_full);
    build_record_add(&record, "bridge anchor_distance = 12 mm\n");
    build_record_add(&record, more);
    derive_current(&record, &derived);
    record_done(&record);
    return figures_get(&derived.figures, FIGURE_BREAK_ANGLE, 6);
}

/* The exposure is the drop on a flat top with a blank saddle alone; a drop that was read is one
 * everywhere. */
static void defined_where_it_means_something(void **state)
{
    static const char *const drop_needed[] = {"electric",  "bass",     "archtop",
                                              "resonator", "mandolin", "banjo"};
    char lines[120];

    (void)state;
    assert_given(angle_of("bridge kind = blank\n"));
    assert_given(angle_of("bridge kind = blank\ninstrument kind = steel-string\n"));
    assert_given(angle_of("bridge kind = blank\ninstrument kind = classical\n"));
    assert_false(angle_of("bridge kind = screw\n").given);
    assert_false(angle_of("bridge kind = wheel\ninstrument kind = steel-string\n").given);
    for (size_t i = 0; i < sizeof drop_needed / sizeof drop_needed[0]; i++) {
        snprintf(lines, sizeof lines, "bridge kind = blank\ninstrument kind = %s\n",
                 drop_needed[i]);
        assert_false(angle_of(lines).given);
        snprintf(lines, sizeof lines, "bridge anchor_drop = 5 mm\ninstrument kind = %s\n",
                 drop_needed[i]);
        assert_near(assert_given(angle_of(lines)), atan(5.0 / 12), 1e-12);
    }
    /* The exposure of 5 mm, and the string's own slope in front: about 5 mm on 632. */
    assert_near(assert_given(angle_of("bridge kind = blank\n")), atan(5.0 / 12) + 5.7 / 636,
                0.0005);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(angles_and_forces_by_hand),
        cmocka_unit_test(what_is_no_angle_is_refused),
        cmocka_unit_test(defined_where_it_means_something),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
