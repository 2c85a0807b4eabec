/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_heard_moves.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "model/derive/card.h"
#include "model/derive/heard.h"
#include "model/reading/work_reach.h"
#include "near.h"
#include "survey_record.h"
#include "words/move_words.h"
#include "words/plan_text.h"

/* Frets and pitch as moves. What is heard is made on a board whose fret 10 stands high, as the
 * model's own headroom says; the moves then see the notes alone. Expected: common practice. */

static const char low_action[] = "visit.1.pass.1 action.1 = 4/64 in\n"
                                 "visit.1.pass.1 action.2 = 4.4/64 in\n"
                                 "visit.1.pass.1 action.3 = 4.8/64 in\n"
                                 "visit.1.pass.1 action.4 = 5.2/64 in\n"
                                 "visit.1.pass.1 action.5 = 5.6/64 in\n"
                                 "visit.1.pass.1 action.6 = 6/64 in\n"
                                 "targets relief = .013 in\n"
                                 "targets nut_gap_bass = .030 in\n"
                                 "targets nut_gap_treble = .020 in\n"
                                 "targets touch = soft\n";

/* Adds what is heard on a string with fret 10 so much higher. */
static void listen(struct record *record, int string, double height_mm)
{
    char memory[400];
    struct strbuf lines = STRBUF(memory);
    struct derived derived;
    struct record high;

    survey_record_build(&high, low_action);
    build_record_put_mm(&high, reading_key_pass_at(FIELD_SPOT, 1, 1, 0, 10), height_mm);
    derive_current(&high, &derived);
    for (int buzz = 0; buzz <= 1; buzz++) {
        strbuf_addf(&lines, "visit.1.pass.1 %s.%d =", buzz ? "buzz" : "clean", string);
        for (int n = 0; n < 19; n++)
            if (buzz ==
                (assert_given(derived.clearance[string].headroom_mm[n]) < derived.touch.mm[string]))
                strbuf_addf(&lines, " %d", n);
        strbuf_add(&lines, "\n");
    }
    build_record_add(record, memory);
    record_done(&high);
}

static void words_of(const struct derived *derived, enum move_kind kind, struct move_words *words)
{
    const struct shop_units units = shop_units_metric();

    move_words_make(derived, kind, &units, words);
}

/* Two strings buzz, and a third is 9 cents sharp. */
static void frets_and_pitch_are_left_to_do(void **state)
{
    struct derived derived;
    struct record record;
    struct move_words words;
    struct card card;

    (void)state;
    survey_record_build(&record, low_action);
    listen(&record, 3, 0.18);
    listen(&record, 4, 0.18);
    build_record_add(&record, "visit.1.pass.1 cents.6.12 = 9\n");
    derive_current(&record, &derived);
    assert_true(move_is_open(&derived.moves.move[MOVE_FRETS]));
    assert_true(move_is_open(&derived.moves.move[MOVE_PITCH]));
    assert_true(derived.moves.frets.fret[10].due);
    assert_true(derived.moves.frets.fret[10].value < -MOVE_CROWN_MM);
    assert_true(derived.moves.frets.fret[10].value > -0.18 - 1e-9);
    words_of(&derived, MOVE_FRETS, &words);
    assert_non_null(strstr(words.amount, "rock fret 10; if it is high, level "));
    assert_non_null(strstr(words.then, "clean on string 4, 3"));
    /* 24.9 in and a setback: half of it is left at fret 12, of which 9 cents are 0.52 %. */
    assert_near(derived.moves.move[MOVE_PITCH].string[6].value, 3.3, 0.1);
    words_of(&derived, MOVE_PITCH, &words);
    assert_non_null(strstr(words.amount, "saddle back 3."));
    assert_non_null(strstr(words.amount, " mm on string 6"));
    assert_non_null(strstr(words.then, "within 2 cents"));
    card_make(&record, &card);
    assert_true(card.moves_open);
    record_done(&record);
}

static void the_rocker_s_fret_explains_a_buzz(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_build(&record, low_action);
    listen(&record, 3, 0.4);
    build_record_add(&record, "visit.1.pass.1 spot.10 = 0.4 mm\n");
    derive_current(&record, &derived);
    assert_true(move_is_open(&derived.moves.move[MOVE_FRETS]));
    for (int n = 1; n <= 19; n++)
        assert_true(derived.moves.frets.fret[n].due == (n == 10));
    assert_near(derived.moves.frets.fret[10].value, -0.4, 1e-9);
    assert_true(derived.moves.frets.quiet[3]);
    record_done(&record);
}

static void nothing_read_asks_for_nothing(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record, low_action, &derived);
    assert_int_equal(derived.moves.move[MOVE_FRETS].state, MOVE_UNKNOWN);
    assert_int_equal(derived.moves.move[MOVE_PITCH].state, MOVE_UNKNOWN);
    assert_false(move_is_asked(&derived.moves.move[MOVE_FRETS]));
    assert_false(move_is_missed(&derived.moves.move[MOVE_PITCH]));
    build_record_add(&record, "visit.1.pass.1 cents.6.12 = 2\nvisit.1.pass.1 spot.10 = 0.01 mm\n");
    derive_current(&record, &derived);
    assert_int_equal(derived.moves.move[MOVE_FRETS].state, MOVE_GOOD);
    assert_int_equal(derived.moves.move[MOVE_PITCH].state, MOVE_GOOD);
    assert_false(derive_asks(place_current(&record), MOVE_PITCH, 6, 19));
    assert_false(derive_asks(place_current(&record), MOVE_FRETS, 6, 19));
    record_done(&record);
}

/* A leaf of .001 in tells a height to 2/sqrt(12) of it, and a tuner of 1 cent so much of a cent
 * (GUM 4.3.7): .0006 in, and 0.58 of 0.37 mm; both are said as a hand works, to more, and the
 * amounts to less. */
static void heard_amounts_have_their_doubt(void **state)
{
    struct derived derived;
    struct record record;
    struct move_words words;
    const struct shop_units inch = shop_units_inch();

    (void)state;
    survey_record_build(&record, low_action);
    build_record_add(&record, "model feeler_step = .001 in\n"
                              "visit.1.pass.1 spot.8 = .0036 in\n"
                              "visit.1.pass.1 cents.6.12 = 6\n");
    derive_current(&record, &derived);
    move_words_make(&derived, MOVE_FRETS, &inch, &words);
    assert_string_equal(words.amount, "level fret 8: .003 \xC2\xB1.001 in");
    words_of(&derived, MOVE_PITCH, &words);
    assert_string_equal(words.amount, "saddle back 2.2 \xC2\xB1"
                                      "0.3 mm on string 6");
    build_record_add(&record, "visit.1.pass.1 cents.5.12 = 9\nvisit.1.pass.1 spot.9 = .0021 in\n");
    derive_current(&record, &derived);
    move_words_make(&derived, MOVE_FRETS, &inch, &words);
    assert_string_equal(words.amount, "level fret 8: .003, fret 9: .002 \xC2\xB1.001 in");
    words_of(&derived, MOVE_PITCH, &words);
    assert_string_equal(words.amount, "saddle: string 6 back 2.2, 5 back 3.3 \xC2\xB1"
                                      "0.3 mm");
    /* Four strings, and two ways: each is said. */
    build_record_add(&record, "visit.1.pass.1 cents.2.12 = -6\nvisit.1.pass.1 cents.1.12 = 6\n");
    derive_current(&record, &derived);
    words_of(&derived, MOVE_PITCH, &words);
    assert_string_equal(words.amount,
                        "saddle: string 6 back 2.2, 5 back 3.3, 2 forward 2.2, 1 back 2.2 \xC2\xB1"
                        "0.3 mm");
    record_done(&record);
}

/* 6 and 9 cents at fret 12 are 2.2 and 3.3 mm: on a bridge that stands loose its feet move, and the
 * strings between go with them. */
static void a_floating_bridge_moves_as_a_whole(void **state)
{
    struct derived derived;
    struct record record;
    struct move_words words;
    const struct move *pitch = &derived.moves.move[MOVE_PITCH];

    (void)state;
    survey_record_build(&record, low_action);
    build_record_add(&record, "bridge floating = yes\n"
                              "visit.1.pass.1 cents.6.12 = 9\n"
                              "visit.1.pass.1 cents.3.12 = 20\n"
                              "visit.1.pass.1 cents.1.12 = 6\n");
    derive_current(&record, &derived);
    assert_true(move_is_open(pitch) && pitch->whole);
    assert_near(pitch->string[6].value, 3.3, 0.1);
    assert_near(pitch->string[1].value, 2.2, 0.1);
    for (int s = 2; s <= 5; s++)
        assert_false(pitch->string[s].due);
    words_of(&derived, MOVE_PITCH, &words);
    assert_string_equal(words.amount, "bridge: bass foot back 3.3, treble foot back 2.2 \xC2\xB1"
                                      "0.3 mm");
    /* As near as the tuner tells the two apart, or with one of them alone: both feet alike. */
    build_record_add(&record, "visit.1.pass.1 cents.6.12 = 6\n");
    derive_current(&record, &derived);
    words_of(&derived, MOVE_PITCH, &words);
    assert_non_null(strstr(words.amount, "bridge back 2.2 \xC2\xB1"));
    build_record_drop(&record, "visit.1.pass.1 cents.6.12");
    build_record_add(&record, "visit.1.pass.1 cents.1.12 = -6\n");
    derive_current(&record, &derived);
    words_of(&derived, MOVE_PITCH, &words);
    assert_non_null(strstr(words.amount, "bridge forward 2.1 \xC2\xB1"));
    /* The feet are right: what is off between them is the saddle's own. */
    build_record_add(&record, "visit.1.pass.1 cents.1.12 = 1\n");
    derive_current(&record, &derived);
    assert_false(pitch->whole);
    assert_true(pitch->string[3].due && !pitch->string[1].due);
    words_of(&derived, MOVE_PITCH, &words);
    assert_non_null(strstr(words.amount, "saddle back "));
    record_done(&record);
}

/* 2.2 mm are 2 3/4 turns of 0.8 mm. */
static void a_saddle_s_own_screw_is_turned(void **state)
{
    struct derived derived;
    struct record record;
    struct move_words words;

    (void)state;
    survey_record_build(&record, low_action);
    build_record_add(&record, "bridge intonation_thread = 0.8 mm\n"
                              "model feeler_step = .001 in\n"
                              "visit.1.pass.1 cents.6.12 = 6\n");
    derive_current(&record, &derived);
    words_of(&derived, MOVE_PITCH, &words);
    assert_string_equal(words.amount, "saddle back 2.2 \xC2\xB1"
                                      "0.3 mm (2 3/4 turns) on string 6");
    record_done(&record);
}

/* A setback tuned in before the heights are right is wrong after them: pitch waits, and is named.
 */
static void pitch_waits_for_the_heights(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record, "visit.1.pass.1 cents.6.12 = 9\n", &derived);
    assert_true(move_is_open(&derived.moves.move[MOVE_SADDLE]));
    assert_int_equal(derived.moves.move[MOVE_PITCH].state, MOVE_WAITS);
    assert_int_equal(derived.moves.move[MOVE_PITCH].waits, WAIT_SETUP);
    record_done(&record);
}

/* Metal comes off only once, as wood does: a crown waits where slots and saddle wait. */
static void a_reset_comes_first(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_build(&record,
                        "visit.1.pass.1 spot.10 = 0.1 mm\n"
                        "visit.1.pass.1 cents.6.12 = 9\n"
                        "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = 2 mm\n"
                        "visit.1.pass.1 exposure_treble = 2 mm\n");
    derive_current(&record, &derived);
    assert_int_equal(derived.moves.move[MOVE_RESET].state, MOVE_DUE);
    assert_int_equal(derived.moves.move[MOVE_FRETS].waits, WAIT_RESET);
    assert_int_equal(derived.moves.move[MOVE_PITCH].waits, WAIT_RESET);
    assert_false(derived.moves.frets.fret[10].due);
    record_done(&record);
}

static void a_mark_closes_it(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record,
                         "visit.1.pass.1 time = 10:00\n"
                         "visit.1.pass.1 spot.10 = 0.1 mm\n"
                         "visit.1.work.1 kind = frets\n"
                         "visit.1.work.1 time = 11:00\n",
                         &derived);
    assert_true(move_is_done(&derived.moves.move[MOVE_FRETS]));
    record_done(&record);
}

/* A second pass that reads the strings alone proves neither crown nor pitch. */
static void what_is_not_heard_again_is_not_ready(void **state)
{
    static const enum move_kind kinds[] = {MOVE_FRETS, MOVE_PITCH};
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record,
                         "visit.1.pass.1 spot.10 = 0.1 mm\n"
                         "visit.1.pass.1 buzz.3 = 9\n"
                         "visit.1.pass.1 cents.6.12 = 9\n"
                         "visit.1.work.1 kind = frets\n"
                         "visit.1.work.2 kind = pitch\n"
                         "visit.1.pass.2 relief = 0.15 mm\n",
                         &derived);
    struct move_words words;

    words_of(&derived, MOVE_FRETS, &words);
    assert_string_equal(words.amount, "due before: hear it again, rock fret 10");
    for (int i = 0; i < 2; i++) {
        assert_true(derive_asks(place_of(&record, 1, 2), kinds[i], 6, 19));
        assert_true(move_is_asked(&derived.moves.move[kinds[i]]));
    }
    build_record_add(&record, "visit.1.pass.2 spot.10 = 0 mm\nvisit.1.pass.2 cents.6.12 = 0\n");
    assert_true(derive_asks(place_of(&record, 1, 2), MOVE_FRETS, 6, 19)); /* string 3 */
    assert_false(derive_asks(place_of(&record, 1, 2), MOVE_PITCH, 6, 19));
    build_record_add(&record, "visit.1.pass.2 clean.3 = 9\n");
    assert_false(derive_asks(place_of(&record, 1, 2), MOVE_FRETS, 6, 19));
    derive_current(&record, &derived);
    for (int i = 0; i < 2; i++)
        assert_false(move_is_asked(&derived.moves.move[kinds[i]]));
    record_done(&record);
}

/* The strings of the second pass lie as those of the first do. */
static void read_again(struct record *record)
{
    static const enum field_id fields[] = {FIELD_NUT_GAP, FIELD_ACTION};

    for (int i = 0; i < 2; i++)
        for (int s = 1; s <= 6; s++)
            build_record_put_mm(
                record, reading_key_pass_at(fields[i], 1, 2, s, 0),
                assert_given(place_read_at(place_of(record, 1, 1), fields[i], s, 0)));
    build_record_put_mm(record, reading_key_pass(FIELD_RELIEF, 1, 2),
                        assert_given(place_read(place_of(record, 1, 1), FIELD_RELIEF)));
}

/* Nothing was done: of one string a single note was played again, and what the others did, and
 * its own others, they still do. */
static void what_was_heard_stays_true(void **state)
{
    static struct derived then, now;
    struct record record;

    (void)state;
    survey_record_build(&record, low_action);
    listen(&record, 3, 0.18);
    derive_current(&record, &then);
    assert_int_equal(then.moves.move[MOVE_FRETS].state, MOVE_DUE);
    const struct heard_notes heard = heard_at(place_of(&record, 1, 1), 3, 0, 19);
    assert_true((heard.clean & 1) != 0 && heard.buzzing != 0);
    build_record_add(&record, "visit.1.pass.2 clean.3 = 0\n");
    derive_current(&record, &now);
    assert_int_equal(now.moves.move[MOVE_FRETS].state, MOVE_DUE); /* nothing else was read */
    read_again(&record);
    derive_current(&record, &now);
    assert_int_equal(now.moves.move[MOVE_FRETS].state, MOVE_DUE);
    assert_near(now.moves.frets.fret[10].value, then.moves.frets.fret[10].value, 1e-9);
    record_done(&record);
}

/* What one string's slot does is heard on that string alone, and what is read of it again serves
 * the curve and the map of all. */
static void one_string_s_work_is_heard_on_it(void **state)
{
    static struct derived then, now;
    struct record record;

    (void)state;
    survey_record_build(&record, low_action);
    build_record_add(&record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n"
                              "visit.1.pass.1 buzz.3 = 9\nvisit.1.pass.1 buzz.6 = 9\n"
                              "visit.1.pass.1 cents.3.12 = 9\nvisit.1.pass.1 cents.6.12 = 9\n"
                              "visit.1.work.1 kind = slots\nvisit.1.work.1 time = 10:30\n"
                              "visit.1.work.1 amount = string 6 -.010 in\n"
                              "visit.1.pass.2 time = 11:00\n");
    derive_pass(place_of(&record, 1, 1), &then);
    for (int i = 0; i < 2; i++) {
        const enum field_id field = i == 0 ? FIELD_NUT_GAP : FIELD_ACTION;

        build_record_put_mm(&record, reading_key_pass_at(field, 1, 2, 6, 0),
                            assert_given(place_read_at(place_of(&record, 1, 1), field, 6, 0)) -
                                (i == 0 ? 0.23 : 0.12));
    }
    assert_true(heard_at(place_of(&record, 1, 2), 3, 0, 19).buzzing == 1 << 9);
    assert_true(heard_at(place_of(&record, 1, 2), 6, 0, 19).buzzing == 0);
    assert_true(heard_at(place_of(&record, 1, 2), 6, 0, 19).again == 1 << 9);
    derive_current(&record, &now);
    assert_near(now.clearance[3].headroom_mm[5].value, then.clearance[3].headroom_mm[5].value,
                1e-9);
    assert_true(now.clearance[6].headroom_mm[0].value < then.clearance[6].headroom_mm[0].value);
    /* The same with the relief read again; but not where it is another string that moved, untold.
     */
    build_record_add(&record, "visit.1.pass.2 cents.6.5 = 0\n");
    build_record_put_mm(&record, reading_key_pass(FIELD_RELIEF, 1, 2),
                        assert_given(place_read(place_of(&record, 1, 1), FIELD_RELIEF)));
    derive_current(&record, &now);
    assert_near(now.clearance[3].headroom_mm[5].value, then.clearance[3].headroom_mm[5].value,
                1e-9);
    build_record_add(&record, "visit.1.work.1 amount = string 5 -.010 in\n");
    derive_current(&record, &now);
    assert_int_equal(now.figures.at[FIGURE_ACTION][3].known, KNOWN_INTERPOLATED);
    build_record_add(&record, "visit.1.work.1 amount = string 6 -.010 in\n");
    assert_true(heard_cents_are_left(place_of(&record, 1, 2), 3, 19));
    assert_false(heard_cents_are_left(place_of(&record, 1, 2), 6, 19));
    record_done(&record);
}

/* A pass in which only ear and tuner were used has its curve and its map: by what the pass before
 * read, until something may have changed that. */
static void what_was_read_serves_ear_and_tuner(void **state)
{
    static const char *const changes[] = {
        "", "visit.1.work.1 kind = saddle\nvisit.1.work.1 time = 10:30\n",
        "visit.1.pass.3 rod_turn = 1/4\n",
        "visit.1.pass.2 action.3 = 6/64 in\n", /* another pass read it otherwise */
    };

    (void)state;
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
        static struct derived then, now;
        struct record record;

        survey_record_build(&record, low_action);
        build_record_add(&record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n"
                                  "visit.1.pass.1 spot.10 = 0.1 mm\n");
        derive_current(&record, &then);
        build_record_add(&record, "visit.1.pass.3 time = 12:00\nvisit.1.pass.3 cents.6.12 = 2\n"
                                  "visit.1.pass.3 clean.3 = 0-5\n");
        build_record_add(&record, changes[i]);
        derive_current(&record, &now);
        assert_int_equal(now.lines.has_now, i == 0);
        for (int n = 0; n < 19; n++) {
            assert_int_equal(now.clearance[3].headroom_mm[n].given, i == 0);
            if (i == 0)
                assert_near(now.clearance[3].headroom_mm[n].value,
                            then.clearance[3].headroom_mm[n].value, 1e-9);
        }
        assert_int_equal(figures_get(&now.figures, FIGURE_NUT_HEIGHT, 3).given, i == 0);
        /* A spot is of the crown alone. */
        assert_near(assert_given(now.setup.spot_mm[10]), 0.1, 1e-9);
        build_record_add(&record, "visit.1.work.2 kind = frets\nvisit.1.work.2 time = 11:00\n");
        derive_current(&record, &now);
        assert_false(now.setup.spot_mm[10].given);
        assert_int_equal(now.moves.move[MOVE_FRETS].needs, NEED_HEARING);
        record_done(&record);
    }
}

/* A note that is played again is as it is heard then, and a string that lies otherwise, or was
 * worked on, is heard again: each note of it that buzzed. */
static void newer_evidence_wins(void **state)
{
    static const char *const changes[] = {
        "visit.1.pass.2 action.3 = 6/64 in\n",
        "visit.1.pass.2 rod_turn = 1/4\n",
        "visit.1.work.1 kind = frets\n",
        "visit.1.work.1 kind = saddle\nvisit.1.work.1 time = 10:00\n",
        "visit.1.work.1 kind = polished the board\nvisit.1.work.1 time = 11:00\n",
    };

    (void)state;
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
        static struct derived now;
        struct record record;

        survey_record_build(&record, low_action);
        build_record_add(&record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n"
                                  "visit.1.pass.2 time = 12:00\nvisit.1.pass.1 buzz.3 = 5 7\n"
                                  "visit.1.pass.1 clean.3 = 0\n");
        read_again(&record);
        build_record_add(&record, "visit.1.pass.2 clean.3 = 5\n");
        struct heard_notes notes = heard_at(place_of(&record, 1, 2), 3, 0, 19);
        assert_true(notes.clean == (1U << 5 | 1U) && notes.buzzing == 1U << 7 && !notes.again);
        build_record_add(&record, changes[i]);
        notes = heard_at(place_of(&record, 1, 2), 3, 0, 19);
        assert_true(notes.clean == 1U << 5 && !notes.buzzing && notes.again == 1U << 7);
        derive_current(&record, &now);
        assert_true(move_is_asked(&now.moves.move[MOVE_FRETS]));
        build_record_add(&record, "visit.1.pass.2 clean.3 = 5 7\n");
        derive_current(&record, &now);
        assert_false(move_is_asked(&now.moves.move[MOVE_FRETS]));
        record_done(&record);
    }
}

/* A saddle that is set by fret 12 is right for the others too; nothing was done, they are off. */
static void a_note_off_stays_off_until_work(void **state)
{
    struct record record;

    (void)state;
    survey_record_build(&record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n"
                                 "visit.1.pass.1 cents.6.5 = 9\nvisit.1.pass.1 cents.6.12 = 9\n"
                                 "visit.1.pass.2 time = 12:00\nvisit.1.pass.2 cents.6.12 = 0\n");
    assert_true(derive_asks(place_of(&record, 1, 2), MOVE_PITCH, 6, 19));
    build_record_add(&record, "visit.1.work.1 kind = pitch\nvisit.1.work.1 time = 11:00\n");
    assert_false(derive_asks(place_of(&record, 1, 2), MOVE_PITCH, 6, 19));
    record_done(&record);
}

/* The rod changes how the strings lie, and with it what a buzz says of a fret; what the rocker
 * found does not change. */
static void a_guess_waits_for_the_rod(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_build(&record, low_action);
    listen(&record, 3, 0.4);
    build_record_add(&record, "visit.1.pass.1 relief = 0.9 mm\n");
    derive_current(&record, &derived);
    assert_int_equal(derived.moves.move[MOVE_ROD].state, MOVE_DUE);
    assert_int_equal(derived.moves.move[MOVE_FRETS].state, MOVE_WAITS);
    assert_int_equal(derived.moves.move[MOVE_FRETS].waits, WAIT_SETUP);
    build_record_add(&record, "visit.1.pass.1 spot.10 = 0.4 mm\n");
    derive_current(&record, &derived);
    assert_int_equal(derived.moves.move[MOVE_FRETS].state, MOVE_DUE);
    record_done(&record);
}

/* A fret that only the ear accuses: marked done it was rocked and nothing more, unless the tech
 * says that it was high. */
static void what_the_rocker_found_is_logged(void **state)
{
    static const struct {
        const char *keys, *amount, *said;
        bool again; /* what was heard has to be heard again */
    } cases[] = {
        {" ", "rocked fret 10: not high", "+ if it was high", false},
        {" {Enter}", "rocked fret 10: not high", "another fret is looked for", false},
        {" {Tab}", "rocked fret 10: not high", "", false},
        {" +", "level fret 10: ", "Filed as levelled", true},
        {" +*1", "rocked fret 10: not high", "", false},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = malloc(sizeof *app);
        struct record record;

        assert_non_null(app);
        survey_record_build(&record, low_action);
        build_record_add(&record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n");
        listen(&record, 3, 0.18);
        bench_start_record(app, &record, false, false);
        bench_press(app, "{F7}");
        bench_press(app, cases[i].keys);
        const char *amount = bench_text(app, "visit.1.work.1 amount");
        assert_non_null(amount);
        if (strncmp(amount, cases[i].amount, strlen(cases[i].amount)) != 0)
            fail_msg("%s: %s", cases[i].keys, amount);
        assert_true(plan_text_is(MOVE_FRETS, amount));
        assert_non_null(strstr(app->message, cases[i].said));

        build_record_add(&app->record, "visit.1.pass.2 time = 11:00\n");
        const struct heard_notes heard = heard_at(place_of(&app->record, 1, 2), 3, 0, 19);
        assert_int_equal(heard.again != 0, cases[i].again);
        bench_close(app);
    }
}

/* A fret that was rocked and not high is not accused again in the next pass; where nothing else
 * explains the buzz, that is what is said. Work on the frets opens it again. */
static void a_rocked_fret_is_known_to_be_level(void **state)
{
    static const char heard_again[] = "visit.1.pass.2 time = 11:00\n"
                                      "visit.1.pass.2 buzz.3 = 9\n";
    struct app *app = malloc(sizeof *app);
    struct derived *derived = malloc(sizeof *derived);
    struct record record;

    (void)state;
    assert_non_null(app);
    assert_non_null(derived);
    survey_record_build(&record, low_action);
    build_record_add(&record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n");
    listen(&record, 3, 0.18);
    bench_start_record(app, &record, false, false);
    bench_press(app, "{F7} ");
    assert_int_equal(work_rocked(place_of(&app->record, 1, 1), 1), UINT64_C(1) << 10);
    build_record_add(&app->record, "visit.1.work.1 time = 10:30\n");
    build_record_add(&app->record, heard_again);
    read_again(&app->record);
    derive_current(&app->record, derived);
    assert_near(assert_given(derived->setup.spot_mm[10]), 0, 1e-9);
    assert_false(derived->moves.frets.fret[10].due);
    const struct move *frets = &derived->moves.move[MOVE_FRETS];
    assert_true(frets->state != MOVE_GOOD);
    assert_true(frets->state == MOVE_DUE || frets->needs == NEED_CAUSE ||
                frets->needs == NEED_ROCKER);
    build_record_add(&app->record, "visit.1.work.2 kind = frets\n"
                                   "visit.1.work.2 amount = dressed them all\n"
                                   "visit.1.work.2 time = 10:40\n");
    derive_current(&app->record, derived);
    assert_false(derived->setup.spot_mm[10].given);
    free(derived);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(frets_and_pitch_are_left_to_do),
        cmocka_unit_test(the_rocker_s_fret_explains_a_buzz),
        cmocka_unit_test(nothing_read_asks_for_nothing),
        cmocka_unit_test(heard_amounts_have_their_doubt),
        cmocka_unit_test(a_floating_bridge_moves_as_a_whole),
        cmocka_unit_test(a_saddle_s_own_screw_is_turned),
        cmocka_unit_test(pitch_waits_for_the_heights),
        cmocka_unit_test(a_reset_comes_first),
        cmocka_unit_test(a_mark_closes_it),
        cmocka_unit_test(what_is_not_heard_again_is_not_ready),
        cmocka_unit_test(what_was_heard_stays_true),
        cmocka_unit_test(what_was_read_serves_ear_and_tuner),
        cmocka_unit_test(one_string_s_work_is_heard_on_it),
        cmocka_unit_test(newer_evidence_wins),
        cmocka_unit_test(a_note_off_stays_off_until_work),
        cmocka_unit_test(a_guess_waits_for_the_rod),
        cmocka_unit_test(what_the_rocker_found_is_logged),
        cmocka_unit_test(a_rocked_fret_is_known_to_be_level),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
