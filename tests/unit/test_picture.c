/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>

#include "leaf/history/picture_trend.h"
#include "picture/pictures.h"
#include <string.h>

#include "build_record.h"

static const struct shop_units units = {
    .bare = {[MEASURE_FEELER] = UNIT_MM, [MEASURE_RULE] = UNIT_MM, [MEASURE_DEPTH] = UNIT_MM}};

static const struct picture_line *line_of(const struct picture *picture, enum picture_role role)
{
    int at = 0;

    assert_true(picture_has(picture, role));
    while (picture->lines[at].role != role)
        at++;
    return &picture->lines[at];
}

static struct picture_point point(const struct picture *picture, enum picture_role role, int i)
{
    const struct picture_line *line = line_of(picture, role);

    assert_in_range(i, 0, line->count - 1);
    return picture->points[line->first + i];
}

static void points_are_placed_between_the_ends(void **state)
{
    struct picture picture;

    (void)state;
    picture_begin(&picture, (struct picture_point){0, 0}, (struct picture_point){10, 2});
    picture_segment(&picture, PICTURE_MAIN, (struct picture_point){-10, 1},
                    (struct picture_point){10, 4});
    assert_near(picture_across(&picture, -10), 0, 1e-12);
    assert_near(picture_across(&picture, 0), 0.5, 1e-12);
    assert_near(picture_across(&picture, 10), 1, 1e-12);
    assert_near(picture_down(&picture, 4), 0, 1e-12);
    assert_near(picture_down(&picture, 3), 0.25, 1e-12);
    assert_near(picture_down(&picture, 0), 1, 1e-12);
    /* 20 over 4 in a square: five times as high as long. */
    assert_near(picture_times(&picture, 7, 7), 5, 1e-12);
}

static void what_has_no_width_stands_in_the_middle(void **state)
{
    struct picture picture;

    (void)state;
    picture_begin(&picture, (struct picture_point){3, 3}, (struct picture_point){3, 3});
    assert_near(picture_across(&picture, 3), 0.5, 1e-12);
    assert_near(picture_down(&picture, 3), 0.5, 1e-12);
}

static void what_there_is_no_room_for_is_dropped(void **state)
{
    struct picture *picture = malloc(sizeof *picture);

    (void)state;
    picture_begin(picture, (struct picture_point){0, 0}, (struct picture_point){0, 0});
    for (int i = 0; i < 2 * PICTURE_POINTS_MAX; i++) {
        picture_begin_line(picture, PICTURE_MAIN);
        picture_to(picture, i, i);
        picture_add_spot(picture, &(struct picture_spot){.at = {i, 0}}, 0.5);
        picture_add_level(picture, i);
    }
    assert_int_equal(picture->point_count, PICTURE_POINTS_MAX);
    assert_int_equal(picture->line_count, PICTURE_LINES_MAX);
    assert_int_equal(picture->spot_count, PICTURE_SPOTS_MAX);
    assert_int_equal(picture->level_count, PICTURE_LEVELS_MAX);
    int points = 0;
    for (int i = 0; i < picture->line_count; i++)
        points += picture->lines[i].count;
    assert_int_equal(points, PICTURE_POINTS_MAX);
    free(picture);
}

/* 24.9 in of scale: fret 12 stands in the middle of it. The relief, .012 in at fret 6 or so, lies
 * under the chord, and the string over the nut as high as its slot leaves it. */
static void the_side_view_has_crowns_and_string_where_they_are(void **state)
{
    const struct derived derived = build_derived(build_record_full, "");
    const int relief_fret = derived.setup.board.relief_fret;
    double nut_mm;
    struct picture picture;

    (void)state;
    assert_true(picture_side(&picture, &derived, 6, NULL));
    const double relief_mm = assert_given(figures_get(&derived.figures, FIGURE_RELIEF, 0));
    nut_mm = derived.lines.now[6].nut_mm;
    assert_int_equal(line_of(&picture, PICTURE_CROWN)->count, 20);
    assert_near(point(&picture, PICTURE_CROWN, 12).x, 24.9 * 25.4 / 2, 1e-6);
    assert_near(point(&picture, PICTURE_CROWN, relief_fret).y, -relief_mm, 1e-6);
    assert_near(point(&picture, PICTURE_NUT, 1).y, nut_mm, 1e-9);
    assert_near(point(&picture, PICTURE_MAIN, 0).y, nut_mm, 1e-9);
    assert_near(point(&picture, PICTURE_MAIN, 1).x, point(&picture, PICTURE_CROWN, 19).x, 1e-9);
    assert_true(picture.high.y >= point(&picture, PICTURE_MAIN, 1).y);
    assert_true(picture.low.y <= -relief_mm);
    assert_false(picture_has(&picture, PICTURE_OTHER));
    assert_int_equal(picture.tick_count, 19);
    for (int n = 1; n <= 19; n++) {
        assert_int_equal(picture.ticks[n - 1].number, n);
        assert_int_equal(picture.ticks[n - 1].word != NULL, n == derived.setup.board.join_fret);
    }
}

static int labels_of(const struct picture *picture, enum picture_role role, const char *word,
                     struct picture_point *ret_last)
{
    int count = 0;

    for (int i = 0; i < picture->label_count; i++)
        if (picture->labels[i].role == role && strcmp(picture->labels[i].word, word) == 0) {
            *ret_last = picture->labels[i].at;
            count++;
        }
    return count;
}

/* Now and afterwards have words at their ends, and afterwards a mark of its own along it. */
static void lines_are_told_apart_without_colour(void **state)
{
    const struct derived derived = build_derived(build_record_full, "");
    struct picture_point at = {0, 0};
    struct picture picture;

    (void)state;
    assert_true(picture_side(&picture, &derived, 6, &derived.lines.after[6]));
    picture_side_name(&picture, &derived, 6, "now", "after");
    assert_int_equal(labels_of(&picture, PICTURE_MAIN, "now", &at), 1);
    assert_near(at.y, point(&picture, PICTURE_MAIN, 1).y, 1e-9);
    assert_int_equal(labels_of(&picture, PICTURE_OTHER, "after", &at), 1);
    assert_near(at.y, point(&picture, PICTURE_OTHER, 1).y, 1e-9);
    assert_true(labels_of(&picture, PICTURE_OTHER, "x", &at) >= 3);
    assert_int_equal(labels_of(&picture, PICTURE_MAIN, "x", &at), 0);
    assert_int_equal(labels_of(&picture, PICTURE_CROWN, "A", &at), 0);
}

/* The one that the rocker found; without it, the top of a back-bow. */
static void the_highest_crown_is_marked(void **state)
{
    const struct derived rocked =
        build_derived(build_record_full, "visit.1.pass.1 spot.8 = .003 in\n"
                                         "visit.1.pass.1 spot.3 = .001 in\n");
    const struct derived bowed =
        build_derived(build_record_full, "visit.1.pass.1 relief = -.010 in\n");
    struct picture_point at = {0, 0};
    struct picture picture;

    (void)state;
    assert_true(picture_side(&picture, &rocked, 6, NULL));
    picture_side_name(&picture, &rocked, 6, "now", "after");
    assert_int_equal(labels_of(&picture, PICTURE_CROWN, "A", &at), 1);
    assert_near(at.x, point(&picture, PICTURE_CROWN, 8).x, 1e-9);
    assert_string_equal(picture.ticks[8 - 1].word, "high");
    assert_true(picture_side(&picture, &bowed, 6, NULL));
    picture_side_name(&picture, &bowed, 6, "now", "after");
    assert_int_equal(labels_of(&picture, PICTURE_CROWN, "A", &at), 1);
    assert_in_range((int)at.x, (int)point(&picture, PICTURE_CROWN, 4).x,
                    (int)point(&picture, PICTURE_CROWN, 9).x);
}

static void another_string_line_stands_beside(void **state)
{
    const struct derived derived = build_derived(build_record_full, "");
    const struct string_line other = {.known = true, .nut_mm = 9, .saddle_mm = 9};
    const struct string_line unknown = {.known = false, .nut_mm = 9, .saddle_mm = 9};
    struct picture picture;

    (void)state;
    assert_true(picture_side(&picture, &derived, 1, &other));
    assert_near(point(&picture, PICTURE_OTHER, 1).y, 9, 1e-9);
    assert_near(picture.high.y, 9, 1e-9);
    assert_true(picture_side(&picture, &derived, 1, &unknown));
    assert_false(picture_has(&picture, PICTURE_OTHER));
}

static void without_a_curve_or_a_string_there_is_no_side_view(void **state)
{
    const struct derived full = build_derived(build_record_full, "");
    const struct derived empty = build_derived("", "");
    struct picture picture;

    (void)state;
    assert_false(picture_side(&picture, &full, 0, NULL));
    assert_false(picture_side(&picture, &full, 7, NULL));
    assert_false(picture_side(&picture, &empty, 1, NULL));
}

static void what_a_reading_measures_is_marked(void **state)
{
    const struct derived derived = build_derived(build_record_full, "");
    struct picture picture;

    (void)state;
    assert_true(picture_side(&picture, &derived, 6, NULL));
    picture_side_mark(&picture, &derived, 6, 20, false);
    assert_false(picture_has(&picture, PICTURE_MARK));
    picture_side_mark(&picture, &derived, 6, 12, false);
    const double action_mm = assert_given(figures_get(&derived.figures, FIGURE_ACTION, 6));
    assert_near(point(&picture, PICTURE_MARK, 0).y - point(&picture, PICTURE_MARK, 1).y, action_mm,
                1e-6);
    assert_true(picture.ticks[11].in_hand);
    assert_true(picture_side(&picture, &derived, 6, NULL));
    picture_side_mark(&picture, &derived, 6, 6, true);
    assert_near(point(&picture, PICTURE_MARK, 0).y, 0, 1e-12);
}

static void cents_reach_to_whole_ones(void **state)
{
    static const struct maybe cents[] = {{0, true}, {1.2, true}, {7.4, true}, {-5.1, true}};
    struct picture picture;

    (void)state;
    picture_cents_begin(&picture, 3, 2);
    assert_true(picture_cents_curve(&picture, PICTURE_MAIN, cents));
    picture_cents_end(&picture, 3);
    assert_near(picture.high.y, 8, 0);
    assert_near(picture.low.y, -6, 0);
    assert_int_equal(picture.level_count, 3);
    assert_string_equal(picture.levels[0].text, "+8");
    assert_string_equal(picture.levels[1].text, "-6");
    assert_string_equal(picture.levels[2].text, "0");
    assert_near(picture.band_high, 2, 0);
    assert_near(picture.band_low, -2, 0);
    assert_int_equal(picture.tick_count, 3);
    assert_false(picture.ticks[1].in_hand);
    assert_true(picture.ticks[2].in_hand);
    /* Small ones make no hills, and the band is all seen. */
    picture_cents_begin(&picture, 3, 2);
    picture_cents_end(&picture, 0);
    assert_near(picture.high.y, 5, 0);
    picture_cents_begin(&picture, 3, 12);
    picture_cents_end(&picture, 0);
    assert_near(picture.low.y, -12, 0);
}

static void a_curve_is_broken_where_a_note_is_not_known(void **state)
{
    static const struct maybe cents[] = {{0, false}, {1, true}, {2, true}, {99, false}, {4, true}};
    static const struct maybe none[5] = {{0, false}};
    struct picture picture;

    (void)state;
    picture_cents_begin(&picture, 4, 2);
    assert_false(picture_cents_curve(&picture, PICTURE_OTHER, none));
    assert_true(picture_cents_curve(&picture, PICTURE_MAIN, cents));
    assert_int_equal(picture.line_count, 2);
    assert_int_equal(picture.lines[0].count, 2);
    assert_int_equal(picture.lines[1].count, 1);
    assert_near(picture.points[2].x, 4, 0);
    assert_near(picture.high.y, 5, 0);
}

/* Cents of three strings at fret 12: two lie on each other, the third is 0.9 away from the first
 * though 0.4 from the second. None gets lost. */
static void readings_on_each_other_are_one_spot(void **state)
{
    static const double cents[] = {0, 3, 3.4, 3.9};
    struct picture picture;

    (void)state;
    picture_cents_begin(&picture, 20, 2);
    for (int s = 1; s <= 3; s++) {
        const struct cents_read read = {.count = 1, .at = {{.fret = 12, .cents = cents[s]}}};

        picture_cents_read(&picture, s, &read, s == 3 ? 12 : 0);
    }
    assert_int_equal(picture.spot_count, 2);
    assert_int_equal(picture.spots[0].strings, 1U << 1 | 1U << 2);
    assert_int_equal(picture.spots[1].strings, 1U << 3);
    assert_false(picture.spots[0].in_hand);
    assert_true(picture.spots[1].in_hand);
    assert_near(picture.spots[1].at.y, 3.9, 0);
}

static struct history_pass pass_on(double day, double bass_mm)
{
    struct history_pass pass = {.visit = 1, .day = maybe_given(day)};

    pass.value[HISTORY_ACTION][HISTORY_BASS] = (struct history_value){bass_mm, true, false};
    return pass;
}

static void a_trend_is_spaced_by_its_days(void **state)
{
    struct history *history = calloc(1, sizeof *history);
    struct picture picture;

    (void)state;
    history->count = 4;
    history->passes[0] = pass_on(100, 2.5);
    history->passes[1] = pass_on(110, 2.0);
    history->passes[2] = pass_on(140, 1.5);
    history->passes[3] = pass_on(140, 1.75);
    history->passes[1].value[HISTORY_ACTION][HISTORY_TREBLE] =
        (struct history_value){1.25, true, false};
    assert_true(picture_trend(&picture, history, HISTORY_ACTION, 1, &units));
    assert_near(picture_across(&picture, point(&picture, PICTURE_MAIN, 1).x), 0.25, 1e-12);
    assert_near(picture.low.y, 1.25, 1e-12);
    assert_near(picture.high.y, 2.5, 1e-12);
    assert_int_equal(line_of(&picture, PICTURE_OTHER)->count, 1);
    assert_true(line_of(&picture, PICTURE_MAIN)->read);
    assert_near(point(&picture, PICTURE_POST, 0).x, 110, 0);
    assert_int_equal(picture.ticks[0].number, 0);
    assert_int_equal(picture.ticks[1].number, 3);
    assert_int_equal(picture.level_count, 2);
    assert_string_equal(picture.levels[0].text, "2.5");
    assert_string_equal(picture.levels[1].text, "1.25");
    /* Out of the days that are shown there is no post. */
    history->count = 3;
    history->passes[3] = (struct history_pass){.day = maybe_given(150)};
    assert_true(picture_trend(&picture, history, HISTORY_ACTION, 3, &units));
    assert_false(picture_has(&picture, PICTURE_POST));
    free(history);
}

static void what_never_changed_runs_through_the_middle(void **state)
{
    struct history *history = calloc(1, sizeof *history);
    struct picture picture;

    (void)state;
    history->count = 2;
    history->passes[0] = pass_on(100, 2.5);
    history->passes[1] = pass_on(110, 2.5);
    assert_true(picture_trend(&picture, history, HISTORY_ACTION, 0, &units));
    assert_near(picture_down(&picture, 2.5), 0.5, 1e-12);
    assert_int_equal(picture.level_count, 1);
    assert_string_equal(picture.levels[0].text, "2.5");
    history->passes[0].day = history->passes[1].day = maybe_absent();
    assert_false(picture_trend(&picture, history, HISTORY_ACTION, 0, &units));
    free(history);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(points_are_placed_between_the_ends),
        cmocka_unit_test(what_has_no_width_stands_in_the_middle),
        cmocka_unit_test(what_there_is_no_room_for_is_dropped),
        cmocka_unit_test(the_side_view_has_crowns_and_string_where_they_are),
        cmocka_unit_test(lines_are_told_apart_without_colour),
        cmocka_unit_test(the_highest_crown_is_marked),
        cmocka_unit_test(another_string_line_stands_beside),
        cmocka_unit_test(without_a_curve_or_a_string_there_is_no_side_view),
        cmocka_unit_test(what_a_reading_measures_is_marked),
        cmocka_unit_test(cents_reach_to_whole_ones),
        cmocka_unit_test(a_curve_is_broken_where_a_note_is_not_known),
        cmocka_unit_test(readings_on_each_other_are_one_spot),
        cmocka_unit_test(a_trend_is_spaced_by_its_days),
        cmocka_unit_test(what_never_changed_runs_through_the_middle),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
