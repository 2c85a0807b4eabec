/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_KINDS_H
#define SILLET_TESTS_KINDS_H

#include "near.h"

#include <math.h>

#include "bench_session.h"
#include "session/app_place.h"
#include "words/move_words.h"

/*
 * Instruments that are not six strings over frets, taken from the profile to "ready" by keys, with
 * their pulls and pitches by hand. Pull: T = mu (2 L f)^2 (Mersenne; N. H. Fletcher, T. D. Rossing,
 * The Physics of Musical Instruments, 2nd ed., 2.2); pitch: equal temperament from 440 Hz (ISO 16);
 * mu = rho pi d^2 / 4 with steel of 7850 kg/m3 (docs/method.md).
 */

static inline double hz_of(int semitones_over_a4)
{
    return 440 * pow(2, semitones_over_a4 / 12.0);
}

static inline double plain_pull_n(double gauge_in, double length_mm, double hz)
{
    const double d = gauge_in * 0.0254, mu = 7850 * 3.14159265358979323846 * d * d / 4;

    return mu * pow(2 * length_mm / 1000 * hz, 2);
}

static inline double figure(const struct app *app, enum figure_id id, int string)
{
    return assert_given(figures_get(&app->now.figures, id, string));
}

static inline enum move_verdict verdict(const struct app *app)
{
    return move_set_verdict(&app->now.moves);
}

static inline int count_cells(const struct app *app, enum field_id field)
{
    int count = 0;

    for (int i = 0; i < app->route.count; i++)
        count += app->route.cells[i].key.field == field;
    return count;
}

/* Marks what is due done, as planned, and begins the next pass. */
static inline void do_the_work(struct app *app)
{
    app_take_leaf(app, LEAF_WORK);
    for (int i = 0; i < MOVE_COUNT_ && move_set_count(&app->now.moves, move_is_open) > 0; i++)
        bench_press(app, " ");
    assert_int_equal(move_set_count(&app->now.moves, move_is_open), 0);
    app_take_leaf(app, LEAF_BENCH);
    bench_press(app, "p");
    assert_int_equal(app->pass, 2);
}

static inline struct move_words words_of(const struct app *app, enum move_kind kind)
{
    struct move_words words;

    move_words_make(&app->now, kind, &app->units, &words);
    return words;
}

#define TARGETS                                                                                    \
    "targets relief = .008 in\ntargets action_bass = 6/64 in\n"                                    \
    "targets action_treble = 4/64 in\ntargets nut_gap_bass = .018 in\n"                            \
    "targets nut_gap_treble = .012 in\n"

#endif
