/* SPDX-License-Identifier: MIT */
#include "model/derive/derive.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "survey_record.h"
#include "near.h"

static bool has(const struct derived *derived, enum finding_id id, int number)
{
    for (int i = 0; i < derived->findings.count; i++)
        if (derived->findings.list[i].id == id && derived->findings.list[i].number == number)
            return true;
    return false;
}

static bool known(const struct derived *derived, enum figure_id id, int string)
{
    return derived->figures.at[id][string].known != KNOWN_ABSENT;
}

static double figure(const struct derived *derived, enum figure_id id, int string)
{
    const struct maybe figure = figures_get(&derived->figures, id, string);

    if (!figure.given)
        fail_msg("absent: %s, string %d", figure_info(id)->name, string);
    return figure.value;
}

/* The set-up figures in groups that hang on the same readings. */
enum group {
    CURVE = 1,       /* relief, curvature, tilt */
    ACTION = 1 << 1, /* as read */
    GAP = 1 << 2,    /* as read */
    LINE = 1 << 3,   /* nut and saddle height */
    ROD = 1 << 4,    /* what follows the rod */
    AT_TARGET = 1 << 5,
    SLOT = 1 << 6,   /* slot change, action after */
    SADDLE = 1 << 7, /* saddle change */
    TURNS = 1 << 8,
    CUT = 1 << 9, /* saddle bottom, top */
    AFTER_BASS = 1 << 10,
    AFTER_TREBLE = 1 << 11,
    ANGLE = 1 << 12,
    HEEL = 1 << 13,
    SHIM = 1 << 14,
    WEDGE = 1 << 15,
    /* All that hang on a group, it included. */
    FROM_ANGLE = ANGLE | HEEL | SHIM | WEDGE,
    FROM_SADDLE = SADDLE | TURNS | CUT | AFTER_BASS | AFTER_TREBLE | FROM_ANGLE,
    FROM_SLOT = SLOT | FROM_SADDLE,
    FROM_ROD = ROD | AT_TARGET | FROM_SLOT,
    FROM_LINE = LINE | FROM_ROD,
    FROM_CURVE = CURVE | FROM_LINE,
    ALL = FROM_CURVE | ACTION | GAP
};

static const struct {
    enum figure_id id;
    unsigned group;
} grouped[] = {
    {FIGURE_RELIEF, CURVE},
    {FIGURE_CURVATURE, CURVE},
    {FIGURE_TILT, CURVE},
    {FIGURE_ACTION, ACTION},
    {FIGURE_NUT_GAP, GAP},
    {FIGURE_NUT_HEIGHT, LINE},
    {FIGURE_SADDLE_HEIGHT, LINE},
    {FIGURE_ACTION_AFTER_ROD, ROD},
    {FIGURE_GAP_AFTER_ROD, ROD},
    {FIGURE_GAP_AT_TARGET, AT_TARGET},
    {FIGURE_SLOT_CHANGE, SLOT},
    {FIGURE_ACTION_AFTER_NUT, SLOT},
    {FIGURE_SADDLE_CHANGE, SADDLE},
    {FIGURE_SADDLE_TURNS, TURNS},
    {FIGURE_SADDLE_BOTTOM, CUT},
    {FIGURE_SADDLE_TOP, CUT},
    {FIGURE_EXPOSURE_BASS_AFTER, AFTER_BASS},
    {FIGURE_EXPOSURE_TREBLE_AFTER, AFTER_TREBLE},
    {FIGURE_ANGLE, ANGLE},
    {FIGURE_HEEL_CUT, HEEL},
    {FIGURE_POCKET_SHIM, SHIM},
    {FIGURE_TONGUE_WEDGE, WEDGE},
};

/* Known exactly where its group is there; CUT needs a blank, TURNS screws. */
static void check_groups(const char *what, const struct derived *derived, unsigned there,
                         bool blank)
{
    there &= blank ? ~(unsigned)TURNS : ~(unsigned)CUT;
    for (size_t i = 0; i < sizeof grouped / sizeof grouped[0]; i++) {
        const bool strings = figure_info(grouped[i].id)->per == PER_STRING;

        for (int s = strings ? 1 : 0; s <= (strings ? 6 : 0); s++)
            if (known(derived, grouped[i].id, s) != ((grouped[i].group & there) != 0))
                fail_msg("without %s: %s of string %d is %s", what,
                         figure_info(grouped[i].id)->name, s,
                         known(derived, grouped[i].id, s) ? "there" : "absent");
    }
}

struct absence {
    const char *reading;
    unsigned gone;
};

/* What a full record loses with each single reading. A reading of one string of six is
 * interpolated; what has a default stays. */
static const struct absence absences[] = {
    {"board scale", ALL},
    {"board strings", 0}, /* the strings described tell how many there are */
    {"board frets", ALL},
    {"board join_fret", FROM_CURVE},
    {"board heel_fret", 0},
    {"board action_fret", 0},
    {"board relief_fret", 0},
    {"board board_end", WEDGE},
    {"bridge kind", TURNS | CUT},
    {"bridge thread", TURNS},
    {"bridge exposure_min", 0},
    {"bridge exposure_new", 0},
    {"neck join", 0},
    {"neck heel_depth", HEEL},
    {"neck pocket_length", SHIM},
    {"neck rod", 0},
    {"string.1 setback", 0},
    {"string.6 setback", 0},
    {"targets relief", FROM_ROD},
    {"targets relief_tolerance", 0},
    {"targets action_tolerance", 0},
    {"targets nut_gap_tolerance", 0},
    {"visit.1.pass.1 relief", FROM_CURVE},
    {"visit.1.pass.1 nut_method", 0},
    {"visit.1.pass.1 nut_gap.1", 0},
    {"visit.1.pass.1 nut_gap.4", 0},
    {"visit.1.pass.1 action.2", 0},
    {"visit.1.pass.1 action.6", 0},
    {"visit.1.pass.1 exposure_bass", AFTER_BASS | FROM_ANGLE},
    {"visit.1.pass.1 exposure_treble", AFTER_TREBLE | FROM_ANGLE},
    {"visit.1 date", 0},
};

static void test_absent_stays_absent(void **state)
{
    (void)state;
    for (int blank = 0; blank <= 1; blank++) {
        struct record full;

        build_record(&full, build_record_full);
        if (blank)
            build_record_add(&full, "bridge kind = blank");
        for (size_t i = 0; i < sizeof absences / sizeof absences[0]; i++) {
            struct record record;
            struct derived derived;

            assert_int_equal(record_copy(&full, &record), STATUS_OK);
            build_record_drop(&record, absences[i].reading);
            derive_current(&record, &derived);
            check_groups(absences[i].reading, &derived, ALL & ~absences[i].gone, blank);
            record_done(&record);
        }
        record_done(&full);
    }
}

/* All the gaps, or all the actions, of a pass. */
static void test_absent_kind_of_reading(void **state)
{
    (void)state;
    for (int kind = 0; kind <= 1; kind++) {
        struct record record;
        struct derived derived;
        char line[64];

        build_record(&record, build_record_full);
        for (int s = 1; s <= 6; s++) {
            snprintf(line, sizeof line, "visit.1.pass.1 %s.%d", kind ? "action" : "nut_gap", s);
            build_record_drop(&record, line);
        }
        derive_current(&record, &derived);
        check_groups("one kind", &derived, CURVE | (kind ? GAP : ACTION), false);
        record_done(&record);
    }
}

/* An outer target takes its own string and all between with it, not the other side. */
static void test_absent_outer_target(void **state)
{
    struct record record;
    struct derived derived;

    (void)state;
    build_record(&record, build_record_full);
    build_record_drop(&record, "targets action_bass");
    derive_current(&record, &derived);
    for (int s = 1; s <= 6; s++) {
        assert_int_equal(known(&derived, FIGURE_GAP_AT_TARGET, s), s == 1);
        assert_int_equal(known(&derived, FIGURE_SLOT_CHANGE, s), s == 1);
        assert_int_equal(known(&derived, FIGURE_SADDLE_CHANGE, s), s == 1);
        assert_true(known(&derived, FIGURE_ACTION_AFTER_ROD, s));
    }
    assert_false(known(&derived, FIGURE_EXPOSURE_BASS_AFTER, 0));
    assert_true(known(&derived, FIGURE_EXPOSURE_TREBLE_AFTER, 0));
    assert_false(known(&derived, FIGURE_ANGLE, 0));
    assert_int_equal(move_set_reset(&derived.moves), RESET_UNKNOWN);
    build_record_add(&record, "targets action_bass = 6/64 in");
    build_record_drop(&record, "targets nut_gap_treble");
    derive_current(&record, &derived);
    for (int s = 1; s <= 6; s++) {
        assert_true(known(&derived, FIGURE_GAP_AT_TARGET, s));
        assert_int_equal(known(&derived, FIGURE_SLOT_CHANGE, s), s == 6);
    }
    record_done(&record);
}

/* A reading that was refused counts as absent, and one of zero as a reading. */
static void test_bad_and_zero(void **state)
{
    const struct reading_key relief = reading_key_pass(FIELD_RELIEF, 1, 1);
    struct record record;
    struct derived derived;

    (void)state;
    build_record(&record, build_record_full);
    assert_int_equal(record_put(&record, &relief, "about .013", true, NULL), STATUS_SYNTAX);
    derive_current(&record, &derived);
    check_groups("relief", &derived, ALL & ~(unsigned)FROM_CURVE, false);
    build_record_add(&record, "visit.1.pass.1 relief = 0 in");
    derive_current(&record, &derived);
    check_groups("nothing", &derived, ALL, false);
    assert_near(figure(&derived, FIGURE_RELIEF, 0), 0, 0);
    record_done(&record);
}

static void test_empty_and_no_pass(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    record_init(&record);
    derive_current(&record, &derived);
    check_groups("everything", &derived, 0, false);
    assert_true(has(&derived, FINDING_SCALE_ABSENT, 0));
    assert_true(has(&derived, FINDING_STRINGS_ABSENT, 0));
    assert_true(has(&derived, FINDING_FRETS_ABSENT, 0));
    assert_int_equal(move_set_reset(&derived.moves), RESET_UNKNOWN);
    build_record(&record, build_record_full);
    derive_pass(place_of(&record, 0, 0), &derived);
    check_groups("a pass", &derived, 0, false);
    assert_int_equal(derived.findings.count, 0);
    derive_pass(place_of(&record, 1, 2), &derived);
    check_groups("a pass", &derived, 0, false);
    record_done(&record);
}

struct impossible {
    const char *lines;
    enum finding_id finding;
    int number;
    unsigned gone;
};

static void test_impossible_geometry(void **state)
{
    static const struct impossible list[] = {
        {"board join_fret = 20", FINDING_JOIN_BEYOND_FRETS, 20, FROM_CURVE},
        {"board join_fret = 99", FINDING_JOIN_BEYOND_FRETS, 99, FROM_CURVE},
        {"board heel_fret = 20", FINDING_HEEL_OUTSIDE, 20, FROM_CURVE},
        {"board heel_fret = 0", FINDING_RELIEF_NO_LEVER, 0, FROM_CURVE},
        {"board relief_end_low = 12", FINDING_ENDS_CROSSED, 12, FROM_CURVE},
        {"board relief_end_high = 1", FINDING_ENDS_CROSSED, 1, FROM_CURVE},
        {"board relief_end_high = 20", FINDING_ENDS_CROSSED, 20, FROM_CURVE},
        {"board relief_fret = 1", FINDING_RELIEF_FRET_OUTSIDE, 1, FROM_CURVE},
        {"board relief_fret = 12", FINDING_RELIEF_FRET_OUTSIDE, 12, FROM_CURVE},
        {"board relief_fret = 99", FINDING_RELIEF_FRET_OUTSIDE, 99, FROM_CURVE},
        {"visit.1.pass.1 relief.12 = .005 in", FINDING_RELIEF_FRET_OUTSIDE, 12, 0},
        {"visit.1.pass.1 relief.1 = .005 in", FINDING_RELIEF_FRET_OUTSIDE, 1, 0},
        {"board action_fret = 0", FINDING_ACTION_FRET_ZERO, 0, FROM_LINE},
        {"board action_fret = 1", FINDING_ACTION_FRET_ZERO, 0, FROM_LINE},
        {"board action_fret = 20", FINDING_ACTION_FRET_BEYOND, 20, FROM_LINE},
        {"board frets = 2\nboard join_fret = 2\nboard heel_fret = 1\n"
         "visit.1.pass.1 nut_method = held-3",
         FINDING_HELD_NEEDS_FRETS, 0, ALL & ~(unsigned)ACTION},
        {"board frets = 0", FINDING_ACTION_FRET_BEYOND, 12, FROM_CURVE},
        {"string.1 setback = -40 mm\nstring.2 setback = -40 mm\nstring.3 setback = -40 mm\n"
         "string.4 setback = -40 mm\nstring.5 setback = -40 mm\nstring.6 setback = -40 mm\n"
         "board scale = 100 mm\nboard frets = 19",
         FINDING_CONTACT_SHORT, 6, FROM_LINE},
    };

    (void)state;
    for (size_t i = 0; i < sizeof list / sizeof list[0]; i++) {
        const struct derived derived = build_derived(build_record_full, list[i].lines);

        if (!has(&derived, list[i].finding, list[i].number))
            fail_msg("%s: no finding %s %d", list[i].lines, finding_name(list[i].finding),
                     list[i].number);
        assert_int_equal(finding_weight(list[i].finding), WEIGHT_FAULT);
        check_groups(list[i].lines, &derived, ALL & ~list[i].gone, false);
    }
}

static void test_advice(void **state)
{
    struct derived derived = build_derived(build_record_full, "");

    (void)state;
    assert_int_equal(derived.findings.count, 0);
    derived = build_derived(build_record_full, "neck rod = none");
    assert_true(has(&derived, FINDING_ROD_NONE, 0));
    derived = build_derived(build_record_full, "neck rod = fixed");
    assert_true(has(&derived, FINDING_ROD_NONE, 0));
    derived = build_derived(build_record_full, "visit.1.pass.1 relief = -.004 in");
    assert_true(has(&derived, FINDING_BACK_BOW, 0));
    derived = build_derived(build_record_full, "neck rod = one-way\nvisit.1.pass.1 relief = 0 in");
    assert_true(has(&derived, FINDING_ROD_ONE_WAY, 0));
    assert_false(has(&derived, FINDING_BACK_BOW, 0));
    derived = build_derived(build_record_full, "neck rod = one-way");
    assert_false(has(&derived, FINDING_ROD_ONE_WAY, 0));
    derived = build_derived(build_record_full, "visit.1.pass.1 relief = .034 in\n"
                                               "visit.1.pass.2 rod_turn = 0.5\n"
                                               "visit.1.pass.2 relief = .030 in\n");
    assert_true(has(&derived, FINDING_ROD_FAR, 0));
    derived = build_derived(build_record_full, "visit.1.pass.2 rod_turn = 0.5\n"
                                               "visit.1.pass.2 relief = .010 in\n");
    assert_false(has(&derived, FINDING_ROD_FAR, 0));
    derived = build_derived(build_record_full, "visit.1.pass.1 relief = .006 in\n"
                                               "visit.1.pass.1 nut_gap.3 = .014 in");
    assert_true(has(&derived, FINDING_SLOT_LOW, 3));
    /* So far from its neighbours that it is more likely misread. */
    derived = build_derived(build_record_full, "visit.1.pass.1 nut_gap.3 = .006 in");
    assert_true(has(&derived, FINDING_GAP_AGAIN, 3));
    assert_false(has(&derived, FINDING_SLOT_LOW, 3));
    assert_false(has(&derived, FINDING_SLOT_LOW, 2));
    derived = build_derived(build_record_full, "visit.1.pass.1 relief = .006 in\n"
                                               "visit.1.pass.1 exposure_bass = 3 mm");
    assert_true(has(&derived, FINDING_EXPOSURE_SHORT, 0));
}

/* The state is the last pass of the last visit that has one. */
static void test_current_pass(void **state)
{
    const struct derived derived =
        build_derived(build_record_full, "visit.1.pass.3 relief = .008 in\n"
                                         "visit.2 date = 2026-05-01\n"
                                         "visit.2.work.1 kind = strings");

    (void)state;
    assert_near(figure(&derived, FIGURE_RELIEF, 0), .008 * 25.4, 1e-12);
    assert_false(known(&derived, FIGURE_ACTION, 1));
}

/* --- passes one after another --- */

enum { VISITS = 6, PASSES = 3 };

/* Visits in changing air, with turns of the rod, and notes that are heard in some passes only. */
static void build_long(struct record *record)
{
    static char memory[20000];
    struct strbuf lines = STRBUF(memory);

    static const char *const notes[] = {"E4", "B3", "G3", "D3", "A2", "E2"};

    build_record(record, build_record_full);
    for (int s = 1; s <= 6; s++)
        strbuf_addf(&lines,
                    "string.%d note = %s\nstring.%d gauge = .0%d in\nstring.%d build = plain\n", s,
                    notes[s - 1], s, 10 + 7 * s, s);
    for (int v = 1; v <= VISITS; v++) {
        strbuf_addf(&lines, "visit.%d humidity = %d\nvisit.%d temperature = 20 C\n", v,
                    v % 2 ? 35 : 65, v);
        for (int p = 1; p <= PASSES; p++) {
            strbuf_addf(&lines, "visit.%d.pass.%d relief = .0%02d in\n", v, p,
                        10 + 4 * (v % 2 == 0) + v % 3 - p);
            for (int s = 1; s <= 6; s++)
                strbuf_addf(&lines,
                            "visit.%d.pass.%d action.%d = %d/64 in\n"
                            "visit.%d.pass.%d nut_gap.%d = .0%d in\n",
                            v, p, s, 3 + s / 3 + p % 2, v, p, s, 14 + s);
            if (p > 1)
                strbuf_addf(&lines, "visit.%d.pass.%d rod_turn = 1/8\n", v, p);
            if (p == 2 && v % 2 == 0)
                strbuf_addf(&lines,
                            "visit.%d.pass.2 buzz.6 = %d\nvisit.%d.pass.2 buzz.5 = 3\n"
                            "visit.%d.pass.2 clean.1 = 5 7\n",
                            v, 1 + v, v, v);
        }
    }
    assert_false(lines.truncated);
    build_record_add(record, memory);
}

static bool same_maybe(struct maybe a, struct maybe b)
{
    return a.given == b.given && (!a.given || a.value == b.value);
}

static void assert_same(const struct derived *a, const struct derived *b)
{
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++) {
            const struct figure *x = &a->figures.at[id][s], *y = &b->figures.at[id][s];

            assert_true(x->known == y->known &&
                        (x->known == KNOWN_ABSENT || (x->value == y->value && x->u == y->u)));
        }
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        const struct move *x = &a->moves.move[kind], *y = &b->moves.move[kind];

        assert_true(a->moves.season_first == b->moves.season_first && x->state == y->state &&
                    x->amount.due == y->amount.due && x->far.known == y->far.known &&
                    same_maybe(x->turns, y->turns));
    }
    for (int s = 1; s <= STRINGS_MAX; s++)
        assert_true(same_maybe(a->moves.gap[s].mm, b->moves.gap[s].mm) &&
                    same_maybe(a->moves.action[s].mm, b->moves.action[s].mm) &&
                    a->moves.action[s].u == b->moves.action[s].u);
    assert_int_equal(a->findings.count, b->findings.count);
    for (int i = 0; i < a->findings.count; i++)
        assert_int_equal(a->findings.list[i].id, b->findings.list[i].id);
    assert_true(a->touch.share == b->touch.share && same_maybe(a->touch.least, b->touch.least) &&
                same_maybe(a->touch.most, b->touch.most));
}

/* In time order, and back to the first and on again, each pass is what it is alone. */
static void test_passes_after_each_other(void **state)
{
    static struct derived alone, after;
    struct record record;
    int heard = 0, waiting = 0; /* passes after a note was heard; after a season */

    (void)state;
    build_long(&record);
    struct past past = past_of(&record);
    for (int round = 0; round < 2; round++)
        for (struct place place = place_of(&record, 0, 0); place_next(&place);) {
            derive_pass(place, &alone);
            derive_pass_after(place, &past, &after);
            assert_same(&alone, &after);
            heard += alone.touch.most.given;
            waiting += alone.moves.season_first;
        }
    /* The record is one in which the past matters. */
    assert_true(heard > 0 && heard < 2 * VISITS * PASSES);
    assert_true(waiting > 0);
    record_done(&record);
}

/* What gauges ask for rests on nothing that ear and tuner say. */
static void assert_same_gauged(const struct move_set *is, const struct move_set *should)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        const struct move *a = &is->move[kind], *b = &should->move[kind];

        assert_int_equal(a->done_by, b->done_by);
        if (!move_is_measured((enum move_kind)kind))
            continue;
        assert_int_equal(a->state, b->state);
        assert_near(a->amount.value, b->amount.value, 0);
        for (int s = 1; s <= STRINGS_MAX; s++)
            assert_near(a->string[s].value, b->string[s].value, 0);
    }
}

/* The short way finds what the long way does, whoever asks for the move. */
static void test_open_moves_alone(void **state)
{
    static const char at_targets[] = "targets relief = .013 in\n"
                                     "targets relief_tolerance = .1 in\n"
                                     "targets action_tolerance = 9 mm\n"
                                     "targets nut_gap_tolerance = .1 in\n";
    static const char *const more[] = {
        "",
        "visit.1.pass.1 cents.6.12 = 8",
        "visit.1.pass.1 cents.6.12 = 1",
        "visit.1.pass.1 spot.7 = .004 in",
        "visit.1.pass.1 buzz.6 = 5 6\nvisit.1.pass.1 clean.6 = 0-4 7-19",
        "visit.1.pass.1 clean.6 = 0-19",
        "visit.1.pass.1 exposure_bass = .5 mm\nvisit.1.pass.1 exposure_treble = .5 mm",
        "visit.2.pass.1 buzz.5 = 3",
    };
    bool by_count[MOVE_COUNT_ + 1] = {false};

    (void)state;
    for (size_t i = 0; i < 2 * sizeof more / sizeof more[0]; i++) {
        struct derived derived, measured, gauged;
        struct record record;

        survey_record_build(&record, more[i / 2]);
        build_record_add(&record, i % 2 ? at_targets : "");
        struct past past = past_of(&record);
        derive_current(&record, &derived);
        const int open = move_set_count(&derived.moves, move_is_open);
        derive_measured(place_current(&record), &past, &measured);
        assert_int_equal(move_set_count(&measured.moves, move_is_open), open);
        derive_gauged(place_current(&record), &past, &gauged);
        assert_same_gauged(&gauged.moves, &measured.moves);
        by_count[open] = true;
        record_done(&record);
    }
    assert_true(by_count[0] && by_count[1] && by_count[3]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_absent_stays_absent),
        cmocka_unit_test(test_absent_kind_of_reading),
        cmocka_unit_test(test_absent_outer_target),
        cmocka_unit_test(test_bad_and_zero),
        cmocka_unit_test(test_empty_and_no_pass),
        cmocka_unit_test(test_impossible_geometry),
        cmocka_unit_test(test_advice),
        cmocka_unit_test(test_current_pass),
        cmocka_unit_test(test_passes_after_each_other),
        cmocka_unit_test(test_open_moves_alone),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
