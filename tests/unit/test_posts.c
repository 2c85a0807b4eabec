/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "model/setup/work_done.h"
#include "survey_record.h"
#include "words/move_words.h"

/* A bridge on two posts: a straight bar, by hand. */

static const char posts[] = "bridge kind = wheel\n"
                            "bridge thread = 0.8 mm\n"
                            "bridge spread = 50 mm\n"
                            "bridge post_spread = 75 mm\n";

/* Where a bar through two heights over the outer strings, 50 mm apart, stands over posts that are
 * 12.5 mm farther out on either side. */
static double bar_at(double bass, double treble, double from_bass_mm)
{
    return bass + (treble - bass) * from_bass_mm / 50;
}

static void the_posts_turn_by_what_the_bar_moves_there(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_build(&record, posts);
    build_record_add(&record, "visit.1.pass.1 action.6 = 3.4 mm\n");
    derive_current(&record, &derived);
    const double bass = assert_given(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, 6));
    const double treble = assert_given(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, 1));

    assert_true(fabs(bass - treble) > 0.2);
    assert_near(assert_given(figures_get(&derived.figures, FIGURE_SADDLE_TURNS, 6)),
                bar_at(bass, treble, -12.5) / 0.8, 1e-9);
    assert_near(assert_given(figures_get(&derived.figures, FIGURE_SADDLE_TURNS, 1)),
                bar_at(bass, treble, 62.5) / 0.8, 1e-9);
    /* Screws at every saddle know nothing of posts. */
    build_record_add(&record, "bridge kind = screw\n");
    derive_current(&record, &derived);
    assert_near(assert_given(figures_get(&derived.figures, FIGURE_SADDLE_TURNS, 6)), bass / 0.8,
                1e-9);
    record_done(&record);
}

/* Where nothing says how far apart they stand, each is taken to stand under its string. */
static void without_their_distance_a_post_is_under_its_string(void **state)
{
    static const char *const lacking[] = {"bridge spread", "bridge post_spread"};

    (void)state;
    for (size_t i = 0; i < sizeof lacking / sizeof lacking[0]; i++) {
        struct derived derived;
        struct record record;

        survey_record_build(&record, posts);
        build_record_add(&record, "visit.1.pass.1 action.6 = 3.4 mm\n");
        build_record_drop(&record, lacking[i]);
        derive_current(&record, &derived);
        assert_near(assert_given(figures_get(&derived.figures, FIGURE_SADDLE_TURNS, 6)),
                    assert_given(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, 6)) / 0.8,
                    1e-12);
        record_done(&record);
    }
}

/* What the words ask for in turns, logged as done, is what the strings move by. */
static void turns_logged_come_back_as_the_strings_heights(void **state)
{
    const struct shop_units units = shop_units_metric();
    struct derived derived;
    struct record record;
    struct move_words words;
    struct work_done done;
    char memory[200];
    struct strbuf line = STRBUF(memory);

    (void)state;
    survey_record_build(&record, posts);
    build_record_add(&record, "visit.1.pass.1 action.6 = 3.4 mm\n"
                              "visit.1.pass.1 action.1 = 1.8 mm\n");
    derive_current(&record, &derived);
    const struct move *saddle = &derived.moves.move[MOVE_SADDLE];
    assert_int_equal(saddle->state, MOVE_DUE);
    move_words_make(&derived, MOVE_SADDLE, &units, &words);
    strbuf_addf(&line,
                "visit.1.work.1 kind = saddle\nvisit.1.work.1 amount = \"string 6 %s, string 1 %s "
                "turns\"\n",
                words.string[6], words.string[1]);
    build_record_add(&record, memory);

    struct move_set planned = derived.moves;
    planned.move[MOVE_SADDLE].done_by = 1;
    work_done_find(place_of(&record, 1, 1), &derived.setup, &planned, MOVE_SADDLE, &done);
    assert_true(done.is_said);
    /* Turns are said to an eighth, 0.1 mm of this thread: half of that is lost at a post. */
    assert_near(done.mm[6], saddle->string[6].value, 0.06);
    assert_near(done.mm[1], saddle->string[1].value, 0.06);
    /* The bar carries the strings between them. */
    for (int s = 2; s <= 5; s++)
        assert_near(done.mm[s], done.mm[1] + (done.mm[6] - done.mm[1]) * (s - 1) / 5, 1e-12);
    record_done(&record);
}

/* --- a tremolo's plate --- */

static const char tremolo[] = "bridge kind = post\nbridge thread = 0.8 mm\n"
                              "bridge post_to_saddle = 18 mm\nbridge post_to_rest = 60 mm\n";

/* How far a saddle, 18 mm behind the posts and 8 mm over the plate, rises when a stiff plate that
 * rests 60 mm behind its posts is lifted there by so much: the plate turned about its rest, in the
 * plane, without small angles. */
static double lifted(double posts_mm)
{
    const double angle = asin(posts_mm / 60);

    return (60 - 18) * sin(angle) + 8 * cos(angle) - 8;
}

static void a_plate_on_its_rest_lifts_its_saddles_by_less(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_build(&record, tremolo);
    build_record_add(&record, "visit.1.pass.1 action.6 = 3.4 mm\n");
    derive_current(&record, &derived);
    for (int s = 1; s <= 6; s += 5) {
        const double change = assert_given(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, s));
        const double turns = assert_given(figures_get(&derived.figures, FIGURE_SADDLE_TURNS, s));

        assert_true(fabs(change) > 0.3);
        assert_near(lifted(turns * 0.8), change, 0.02);
        /* Not what the posts would lift under themselves. */
        assert_true(fabs(turns * 0.8) > 1.4 * fabs(change));
    }
    record_done(&record);
}

/* Both posts have an amount; what is logged in turns comes back as the saddles' heights. */
static void turns_of_a_resting_plate_come_back(void **state)
{
    const struct shop_units units = shop_units_metric();
    struct derived derived;
    struct record record;
    struct move_words words;
    struct work_done done;

    (void)state;
    survey_record_build(&record, tremolo);
    build_record_add(&record, "visit.1.pass.1 action.6 = 3.4 mm\n"
                              "visit.1.work.1 kind = saddle\n"
                              "visit.1.work.1 amount = \"string 6 -1, string 1 -1/2 turns\"\n");
    derive_current(&record, &derived);
    move_words_make(&derived, MOVE_SADDLE, &units, &words);
    assert_string_not_equal(words.string[6], "");
    assert_string_not_equal(words.string[1], "");
    assert_string_equal(words.string[3], "");
    assert_null(strstr(words.caution, "level"));

    struct move_set planned = derived.moves;
    planned.move[MOVE_SADDLE].done_by = 1;
    work_done_find(place_of(&record, 1, 1), &derived.setup, &planned, MOVE_SADDLE, &done);
    assert_near(done.mm[6], -0.8 * 42 / 60, 1e-9);
    assert_near(done.mm[1], -0.4 * 42 / 60, 1e-9);
    record_done(&record);
}

/* It rises as the posts do once it is level again, and one degree of tilt is 18 mm tan(1 deg). */
static void a_floating_plate_is_brought_level_again(void **state)
{
    const struct shop_units units = shop_units_metric();
    struct derived derived;
    struct record record;
    struct move_words words;

    (void)state;
    survey_record_build(&record, tremolo);
    build_record_add(&record, "visit.1.pass.1 action.6 = 3.4 mm\n");
    build_record_drop(&record, "bridge post_to_rest");
    derive_current(&record, &derived);
    move_words_make(&derived, MOVE_SADDLE, &units, &words);
    assert_near(assert_given(figures_get(&derived.figures, FIGURE_SADDLE_TURNS, 6)),
                assert_given(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, 6)) / 0.8, 1e-12);
    assert_non_null(strstr(words.caution, "level a tremolo plate again: 1 degree is 0.31 mm"));
    build_record_drop(&record, "bridge post_to_saddle");
    derive_current(&record, &derived);
    move_words_make(&derived, MOVE_SADDLE, &units, &words);
    assert_non_null(strstr(words.caution, "level a tremolo plate again"));
    record_done(&record);
}

static bool is_found(const struct findings *findings, enum finding_id id)
{
    for (int i = 0; i < findings->count; i++)
        if (findings->list[i].id == id)
            return true;
    return false;
}

/* A rest in front of the saddles, or at them, is no lever, and that is said. */
static void a_rest_before_the_saddles_is_no_lever(void **state)
{
    static const char *const rests[] = {"18 mm", "4 mm"};

    (void)state;
    for (size_t i = 0; i < sizeof rests / sizeof rests[0]; i++) {
        struct derived derived;
        struct record record;
        char line[60];

        survey_record_build(&record, tremolo);
        (void)snprintf(line, sizeof line, "bridge post_to_rest = %s\n", rests[i]);
        build_record_add(&record, line);
        build_record_add(&record, "visit.1.pass.1 action.6 = 3.4 mm\n");
        derive_current(&record, &derived);
        assert_true(is_found(&derived.findings, FINDING_REST_BEFORE_SADDLES));
        assert_near(assert_given(figures_get(&derived.figures, FIGURE_SADDLE_TURNS, 6)),
                    assert_given(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, 6)) / 0.8,
                    1e-12);
        record_done(&record);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_posts_turn_by_what_the_bar_moves_there),
        cmocka_unit_test(without_their_distance_a_post_is_under_its_string),
        cmocka_unit_test(turns_logged_come_back_as_the_strings_heights),
        cmocka_unit_test(a_plate_on_its_rest_lifts_its_saddles_by_less),
        cmocka_unit_test(turns_of_a_resting_plate_come_back),
        cmocka_unit_test(a_floating_plate_is_brought_level_again),
        cmocka_unit_test(a_rest_before_the_saddles_is_no_lever),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
