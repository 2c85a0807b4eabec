/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>

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
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_posts_turn_by_what_the_bar_moves_there),
        cmocka_unit_test(without_their_distance_a_post_is_under_its_string),
        cmocka_unit_test(turns_logged_come_back_as_the_strings_heights),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
