/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "words/move_words.h"
#include "base/utf8.h"
#include "build_record.h"
#include "seeded.h"

/* The words for moves that are due, done or good. */
struct made {
    struct move move[MOVE_COUNT_];
    struct move_words words[MOVE_COUNT_];
};

static void make_words(const struct derived *derived, bool metric, struct made *made)
{
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();

    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        made->move[kind] = derived->moves.move[kind];
        move_words_make(derived, (enum move_kind)kind, &units, &made->words[kind]);
    }
}

static struct made make(const char *lines, bool metric)
{
    struct derived *derived = malloc(sizeof *derived);
    struct record record;
    struct made made;

    build_record(&record, build_record_full);
    build_record_add(&record, lines);
    derive_current(&record, derived);
    make_words(derived, metric, &made);
    record_done(&record);
    free(derived);
    return made;
}

static void a_due_move_says_what_follows_and_what_to_mind(void **state)
{
    const struct made made = make("", false);

    (void)state;
    for (int kind = MOVE_ROD; kind < MOVE_COUNT_; kind++) {
        if (!move_is_measured((enum move_kind)kind))
            continue;
        assert_int_equal(made.move[kind].state, MOVE_DUE);
        assert_true(strlen(made.words[kind].caution) > 0);
        assert_true(strlen(made.words[kind].then) > 0);
    }
}

/* The worked numbers: relief .013 as read, .006 wanted. */
static void rod_says_which_way_and_how_far(void **state)
{
    const struct made high = make("", false);
    const struct made low = make("visit.1.pass.1 relief = -.004 in\n"
                                 "bridge exposure_min = 1 mm",
                                 false);
    const struct made none = make("neck rod = none", false);

    (void)state;
    assert_non_null(strstr(high.words[MOVE_ROD].amount, "tighten"));
    assert_non_null(strstr(high.words[MOVE_ROD].amount, "-.007"));
    assert_non_null(strstr(high.words[MOVE_ROD].amount, " in"));
    /* What a turn of it does is not known: it is turned until the relief is right. */
    assert_non_null(strstr(high.words[MOVE_ROD].amount, "1/4 turn at a time, reading: "));
    assert_non_null(strstr(high.words[MOVE_ROD].then, "relief .006 in, action 7.3 to 5.1"));
    assert_true(high.words[MOVE_ROD].foretold);
    assert_non_null(strstr(low.words[MOVE_ROD].amount, "slacken"));
    assert_non_null(strstr(low.words[MOVE_ROD].amount, "+.010"));
    assert_string_equal(none.words[MOVE_ROD].amount, "no rod turns: relief stays .007 in high");
}

static void expect_rod(const char *lines, const char *amount, const char *then)
{
    const struct made made = make(lines, true);
    const struct move_words *rod = &made.words[MOVE_ROD];

    if (strncmp(rod->amount, amount, strlen(amount)) != 0 ||
        strncmp(rod->then, then, strlen(then)) != 0)
        fail_msg("%s; then %s", rod->amount, rod->then);
    assert_true(rod->foretold);
}

/* Half a turn took 0.245 mm out. 0.12 mm to let in are .245 turn, which no hand tells from a
 * quarter; of 0.20 mm to take out a quarter turn takes 0.1225 and leaves 0.08. */
static void rod_that_answers_is_turned_by_the_nearest_eighth(void **state)
{
#define ANSWERS "visit.1.pass.2 rod_turn = 0.5\nmodel feeler_step = .01 mm\n"
    (void)state;
    expect_rod(ANSWERS "targets relief = .2 mm\nvisit.1.pass.1 relief = .325 mm\n"
                       "visit.1.pass.2 relief = .08 mm\n",
               "slacken 1/4 turn: relief +0.12 ", "relief 0.20 mm");
    expect_rod(ANSWERS "targets relief = 0 mm\nvisit.1.pass.1 relief = .445 mm\n"
                       "visit.1.pass.2 relief = .2 mm\n",
               "tighten 1/4 turn, then read: relief -0.20 ", "relief about 0.08 mm");
    /* 0.10 mm are .204 turn: a quarter would be too far. */
    expect_rod(ANSWERS "targets relief = .18 mm\nvisit.1.pass.1 relief = .325 mm\n"
                       "visit.1.pass.2 relief = .08 mm\n",
               "slacken 1/8 turn, then read: relief +0.10 ", "relief about 0.14 mm");
}

/* A row of the bench on 80 columns, behind the margin of its lines. */
enum { CAUTION_COLUMNS = 75 };

static void expect_caution(const char *lines, const char *words)
{
    const struct made made = make(lines, false);
    const char *caution = made.words[MOVE_ROD].caution;

    assert_int_equal(made.move[MOVE_ROD].state, MOVE_DUE);
    if (!strstr(caution, words))
        fail_msg("%s: %s", lines, caution);
    assert_non_null(strstr(caution, "eye protection"));
    assert_true(utf8_columns(caution) <= CAUTION_COLUMNS);
}

/* Half a turn took .004 in out; .024 in more is farther than a rod has left. */
static void rod_says_what_it_may_not_do(void **state)
{
    static const char low[] = "visit.1.pass.1 relief = -.004 in\nbridge exposure_min = 1 mm\n";
    char lines[160];

    (void)state;
    expect_caution("", "eye protection, strings slack; stop when it binds");
    expect_caution("visit.1.pass.1 relief = .034 in\nvisit.1.pass.2 rod_turn = 0.5\n"
                   "visit.1.pass.2 relief = .030 in\nbridge exposure_min = 1 mm\n",
                   " turns in all, rods have about 2");
    expect_caution(low, "it may go slack or bind");
    /* That it pushes as well is not known of a rod before it has. */
    snprintf(lines, sizeof lines, "%sneck rod = two-way", low);
    expect_caution(lines, "it may go slack or bind");
    snprintf(lines, sizeof lines, "%sneck rod = one-way", low);
    expect_caution(lines, "string pull and time");
}

static void rod_on_target_is_left_alone(void **state)
{
    const struct made list = make("visit.1.pass.1 relief = .006 in", false);
    const struct made edge = make("visit.1.pass.1 relief = .007 in", false);

    (void)state;
    assert_int_equal(list.move[MOVE_ROD].state, MOVE_GOOD);
    assert_int_equal(edge.move[MOVE_ROD].state, MOVE_GOOD);
}

/* A change smaller than what the leaves can tell is said to be so. */
static void a_small_move_is_within_measuring_error(void **state)
{
    const struct made list = make("visit.1.pass.1 relief = .008 in\n"
                                  "model feeler_step = .005 in\n",
                                  false);

    (void)state;
    assert_int_equal(list.move[MOVE_ROD].state, MOVE_GOOD);
}

static void strings_have_their_own_amounts(void **state)
{
    const struct made list = make("bridge kind = blank\n"
                                  "visit.1.pass.1 action.1 = 4/64 in\n"
                                  "visit.1.pass.1 relief = .006 in\n",
                                  false);
    const struct move_words *saddle = &list.words[MOVE_SADDLE];

    (void)state;
    assert_true(saddle->by_string);
    assert_int_equal(saddle->string[6][0], '-');
    assert_non_null(strstr(saddle->amount, " in"));
    for (int s = 1; s <= 6; s++)
        assert_true(strlen(saddle->string[s]) > 0);
    for (int s = 7; s <= STRINGS_MAX; s++)
        assert_string_equal(saddle->string[s], "");
}

static void turned_saddles_count_turns(void **state)
{
    const struct made screw = make("", false);
    const struct made post = make("bridge kind = post", false);

    (void)state;
    assert_non_null(strstr(screw.words[MOVE_SADDLE].amount, "turns \xC2\xB1"));
    assert_null(strchr(screw.words[MOVE_SADDLE].amount, '.'));
    /* A key is turned by eighths, and nobody turns 2.12 of a turn. */
    for (int s = 1; s <= 6; s++)
        assert_null(strchr(screw.words[MOVE_SADDLE].string[s], '.'));
    assert_non_null(strchr(screw.words[MOVE_SADDLE].string[6], '/'));
    /* Posts raise a whole side. */
    assert_true(strlen(post.words[MOVE_SADDLE].string[1]) > 0);
    assert_true(strlen(post.words[MOVE_SADDLE].string[6]) > 0);
    for (int s = 2; s <= 5; s++)
        assert_string_equal(post.words[MOVE_SADDLE].string[s], "");
}

/* Between outer strings that are right nothing can be done on posts, and that is said. */
static void inner_strings_follow_the_posts(void **state)
{
    const char *lines = "nut kind = zero-fret\ntargets nut_gap_tolerance = .02 in\n"
                        "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 action.1 = 4/64 in\n"
                        "visit.1.pass.1 action.6 = 6/64 in\nbridge kind = post";
    const struct made list = make(lines, false);
    const struct move_words *saddle = &list.words[MOVE_SADDLE];

    (void)state;
    assert_int_equal(list.move[MOVE_SADDLE].state, MOVE_GOOD);
    assert_non_null(strstr(saddle->amount, "inner ones follow"));
}

/* A saddle that is right as it is says so, also where others are turned. */
static void turned_saddles_say_which_are_right(void **state)
{
    const struct made list = make("visit.1.pass.1 relief = .006 in\n"
                                  "visit.1.pass.1 nut_gap.1 = .012 in\n"
                                  "visit.1.pass.1 action.1 = 4/64 in\n",
                                  false);

    (void)state;
    assert_string_equal(list.words[MOVE_SADDLE].string[1], "ok");
    assert_int_equal(list.words[MOVE_SADDLE].string[6][0], '-');
}

static void a_low_saddle_brings_a_reset(void **state)
{
    const struct made list =
        make("visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = 1.5 mm\n"
             "visit.1.pass.1 exposure_treble = 1.5 mm\n",
             false);

    (void)state;
    assert_int_equal(list.move[MOVE_RESET].state, MOVE_DUE);
    assert_non_null(strstr(list.words[MOVE_RESET].amount, " deg, heel taper ."));
    assert_ptr_equal(strstr(list.words[MOVE_RESET].then, "exposure "), list.words[MOVE_RESET].then);
    assert_non_null(strstr(list.words[MOVE_RESET].caution, "heat, steam"));
}

/* Of screws the exposure counts from the saddles turned all the way down, not from a bridge. */
static void a_reset_under_screws_names_no_bridge_top(void **state)
{
    const char *lines = "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = 1.5 mm\n"
                        "visit.1.pass.1 exposure_treble = 1.5 mm\n";
    char blank[200];
    struct strbuf text = STRBUF(blank);

    (void)state;
    strbuf_addf(&text, "%sbridge kind = blank\n", lines);
    const struct made screws = make(lines, false), saddle = make(blank, false);
    assert_non_null(strstr(screws.words[MOVE_RESET].then, " once the action is right"));
    assert_non_null(strstr(screws.words[MOVE_RESET].then, " the lowest saddles"));
    assert_null(strstr(screws.words[MOVE_RESET].then, "bridge top"));
    assert_non_null(strstr(saddle.words[MOVE_RESET].then, " bridge top"));
}

/* A shim in a pocket is no work for heat. */
static void a_pocket_shim_needs_no_heat(void **state)
{
    struct derived *derived = malloc(sizeof *derived);
    struct record record;
    struct made list;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record,
                     "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = 1.5 mm\n"
                     "visit.1.pass.1 exposure_treble = 1.5 mm\n");
    const struct reading_key depth = reading_key_one(FIELD_HEEL_DEPTH);
    assert_true(record_remove(&record, &depth));
    derive_pass(place_of(&record, 1, 1), derived);
    make_words(derived, false, &list);
    record_done(&record);
    free(derived);
    assert_non_null(strstr(list.words[MOVE_RESET].amount, "pocket shim ."));
    assert_null(strstr(list.words[MOVE_RESET].caution, "heat"));
    assert_non_null(strstr(list.words[MOVE_RESET].caution, "strings slack"));
    assert_non_null(strstr(list.words[MOVE_RESET].caution, " long, thick end to the bridge"));
}

static const char *missing(const char *lines)
{
    static struct made made;
    struct derived *derived = malloc(sizeof *derived);
    struct record record;
    int first = MOVE_ROD;

    build_record(&record, lines);
    derive_pass(place_of(&record, 1, 1), derived);
    make_words(derived, false, &made);
    record_done(&record);
    free(derived);
    assert_int_equal(made.move[MOVE_SADDLE].state, MOVE_UNKNOWN);
    /* Named once, at the first move that waits for it. */
    while (made.move[first].state != MOVE_UNKNOWN || !move_is_measured((enum move_kind)first))
        first++;
    for (int kind = first + 1; kind < MOVE_COUNT_; kind++)
        assert_string_equal(made.words[kind].amount, "");
    return made.words[first].amount;
}

/* An instrument from nothing: each time the next thing to do is named. */
static void what_is_missing_is_named(void **state)
{
#define NECK   "board scale = 25.5 in\nboard strings = 6\nboard frets = 22\nboard join_fret = 16\n"
#define RELIEF NECK "visit.1.pass.1 relief = .01 in\n"
#define WANTED RELIEF "targets relief = .006 in\n"
#define GAP    WANTED "visit.1.pass.1 nut_gap.6 = .02 in\n"
    (void)state;
    assert_non_null(strstr(missing(""), "scale"));
    assert_non_null(strstr(missing(NECK), "relief"));
    assert_non_null(strstr(missing(RELIEF), "target"));
    assert_non_null(strstr(missing(WANTED), "nut gap"));
    assert_non_null(strstr(missing(GAP), "action"));
    assert_non_null(strstr(missing(GAP "visit.1.pass.1 action.6 = 6/64 in\n"), "targets"));
}

/* --- every text in its place --- */

/* A text that fills its array was most likely cut. */
static void check_text(const char *text, size_t size, const char *what)
{
    const char *end = memchr(text, '\0', size);

    assert_non_null(end);
    if ((size_t)(end - text) + 2 > size)
        fail_msg("%s does not fit: %s", what, text);
    assert_true(utf8_valid(text, (size_t)(end - text)));
}

static void check_made(const struct made *made)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        const struct move_words *words = &made->words[kind];

        check_text(words->amount, sizeof words->amount, "amount");
        check_text(words->then, sizeof words->then, "then");
        check_text(words->caution, sizeof words->caution, "caution");
        for (int s = 1; s <= STRINGS_MAX; s++)
            assert_non_null(memchr(words->string[s], '\0', sizeof words->string[s]));
    }
}

static void put_length(struct record *record, struct reading_key key, struct seeded *seed)
{
    const struct field *field = field_get(key.field);
    const bool extreme = seeded_whole(seed, 0, 7) == 0;
    char text[64];

    if (seeded_whole(seed, 0, 9) == 0) {
        record_remove(record, &key);
        return;
    }
    const double mm = extreme
                          ? (seeded_whole(seed, 0, 1) ? field->possible_min : field->possible_max)
                          : seeded_between(seed, field->usual_min, field->usual_max);
    snprintf(text, sizeof text, "%.4f mm", mm);
    /* Some random lengths are refused, which is as good as absent. */
    (void)record_put(record, &key, text, false, NULL);
}

static void put_choice(struct record *record, enum field_id id, struct seeded *seed)
{
    const struct reading_key key = reading_key_one(id);
    char choice[32];

    if (field_choice(field_get(id), seeded_whole(seed, 0, 4), choice, sizeof choice))
        (void)record_put(record, &key, choice, false, NULL);
    else
        record_remove(record, &key);
}

static void put_readings(struct record *record, int strings, struct seeded *seed)
{
    static const enum field_id ones[] = {
        FIELD_SCALE,
        FIELD_THREAD,
        FIELD_HEEL_DEPTH,
        FIELD_POCKET_LENGTH,
        FIELD_TARGET_RELIEF,
        FIELD_TARGET_ACTION_BASS,
        FIELD_TARGET_GAP_BASS,
        FIELD_TARGET_ACTION_TREBLE,
        FIELD_TARGET_GAP_TREBLE,
        FIELD_EXPOSURE_MIN,
        FIELD_EXPOSURE_NEW,
        FIELD_FEELER_STEP,
        FIELD_RULE_STEP,
    };
    const struct reading_key count = reading_key_one(FIELD_STRINGS);
    char text[16];

    snprintf(text, sizeof text, "%d", strings);
    assert_int_equal(record_put(record, &count, text, false, NULL), STATUS_OK);
    for (size_t i = 0; i < sizeof ones / sizeof ones[0]; i++)
        put_length(record, reading_key_one(ones[i]), seed);
    put_length(record, reading_key_pass(FIELD_RELIEF, 1, 1), seed);
    put_length(record, reading_key_pass(FIELD_EXPOSURE_BASS, 1, 1), seed);
    put_length(record, reading_key_pass(FIELD_EXPOSURE_TREBLE, 1, 1), seed);
    for (int s = 1; s <= strings; s++) {
        put_length(record, reading_key_pass_at(FIELD_NUT_GAP, 1, 1, s, 0), seed);
        put_length(record, reading_key_pass_at(FIELD_ACTION, 1, 1, s, 0), seed);
    }
}

static void texts_fit_whatever_the_readings(void **state)
{
    struct seeded seed = seeded_start("moves");
    struct derived *derived = malloc(sizeof *derived);

    (void)state;
    for (int run = 0; run < 1200; run++) {
        struct record record;

        build_record(&record, build_record_full);
        put_readings(&record, 1 + run % STRINGS_MAX, &seed);
        put_choice(&record, FIELD_BRIDGE_KIND, &seed);
        put_choice(&record, FIELD_ROD, &seed);
        put_choice(&record, FIELD_JOIN, &seed);
        derive_pass(place_of(&record, 1, 1), derived);
        for (int shop = 0; shop < 2; shop++) {
            struct made made;

            make_words(derived, shop == 1, &made);
            check_made(&made);
        }
        record_done(&record);
    }
    free(derived);
}

static void put_amounts(struct move *move, double value)
{
    const struct move_amount amount = {.known = true, .due = true, .value = value, .u = value};

    move->state = MOVE_DUE;
    move->amount = amount;
    move->most_u = value;
    move->turns = move->raise = (struct maybe){.value = value, .given = true};
    for (int s = 1; s <= STRINGS_MAX; s++) {
        move->string[s] = amount;
        move->gap_then[s] = move->action_then[s] = move->turns;
    }
}

/* Figures that no instrument has, put in by hand. */
static void texts_hold_for_huge_and_tiny_figures(void **state)
{
    static const double values[] = {
        1e-300, -1e-300, 1e-9,   -0.004,           1e3,        -1e6, 1e15,
        -1e15,  1e300,   -1e300, (double)INFINITY, (double)NAN};
    struct derived *derived = malloc(sizeof *derived);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        derive_current(&record, derived);
        for (int id = 0; id < FIGURE_COUNT_; id++)
            for (int s = 0; s <= STRINGS_MAX; s++)
                derived->figures.at[id][s] =
                    (struct figure){.value = values[i], .u = fabs(values[i]), .known = KNOWN_READ};
        for (int kind = 0; kind < MOVE_COUNT_; kind++)
            put_amounts(&derived->moves.move[kind], values[i]);
        for (int shop = 0; shop < 2; shop++) {
            struct made made;

            make_words(derived, shop == 1, &made);
            for (int kind = 0; kind < MOVE_COUNT_; kind++) {
                const struct move_words *words = &made.words[kind];

                assert_non_null(memchr(words->amount, '\0', sizeof words->amount));
                assert_non_null(memchr(words->then, '\0', sizeof words->then));
                for (int s = 0; s <= STRINGS_MAX; s++)
                    assert_non_null(memchr(words->string[s], '\0', sizeof words->string[s]));
            }
        }
    }
    record_done(&record);
    free(derived);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_due_move_says_what_follows_and_what_to_mind),
        cmocka_unit_test(rod_says_which_way_and_how_far),
        cmocka_unit_test(rod_that_answers_is_turned_by_the_nearest_eighth),
        cmocka_unit_test(rod_says_what_it_may_not_do),
        cmocka_unit_test(rod_on_target_is_left_alone),
        cmocka_unit_test(inner_strings_follow_the_posts),
        cmocka_unit_test(a_small_move_is_within_measuring_error),
        cmocka_unit_test(strings_have_their_own_amounts),
        cmocka_unit_test(turned_saddles_count_turns),
        cmocka_unit_test(turned_saddles_say_which_are_right),
        cmocka_unit_test(a_low_saddle_brings_a_reset),
        cmocka_unit_test(a_reset_under_screws_names_no_bridge_top),
        cmocka_unit_test(a_pocket_shim_needs_no_heat),
        cmocka_unit_test(what_is_missing_is_named),
        cmocka_unit_test(texts_fit_whatever_the_readings),
        cmocka_unit_test(texts_hold_for_huge_and_tiny_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
