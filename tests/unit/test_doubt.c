/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "model/doubt/doubt.h"
#include "model/doubt/doubt_row.h"

/*
 * Entries that a tech would check twice, and those he would not: common practice and the usual
 * slips of the hand, no published source.
 */

#define IN 25.4

struct doubt_case {
    const char *line; /* as build_record takes it: what is typed */
    const char *more; /* what else the record holds, over the full one */
    bool whole;       /* digits alone */
    enum doubt_kind kind;
    double likely; /* 0: none is named */
    const char *why;
};

static const struct doubt_about nothing_about = {.today = "2026-03-02"};

/* Parses "section key = value" as build_record does, into a record of its own. */
static struct doubt find_in(struct record *record, const char *line, bool whole,
                            const struct doubt_about *about)
{
    struct record single;

    build_record(&single, line);
    assert_int_equal(single.count, 1);
    const struct doubt_entry entry = {.text = single.readings[0].text,
                                      .value = single.readings[0].value,
                                      .whole = whole,
                                      .bare = whole ? strtod(single.readings[0].text, NULL) : 0};
    const struct doubt doubt = doubt_find(record, &single.readings[0].key, &entry, about);
    record_done(&single);
    return doubt;
}

static struct doubt find(const char *more, const char *line, bool whole,
                         const struct doubt_about *about)
{
    struct record record;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    const struct doubt doubt = find_in(&record, line, whole, about);
    record_done(&record);
    return doubt;
}

static void check_case(const struct doubt_case *c)
{
    const struct doubt doubt = find(c->more, c->line, c->whole, &nothing_about);

    if (doubt.kind != c->kind)
        fail_msg("%s (%s): doubt %d, not %d", c->line, c->why, doubt.kind, c->kind);
    if (doubt.has_likely != (c->likely != 0))
        fail_msg("%s: likely %d thousandths of a mm", c->line, (int)(1000 * doubt.likely));
    if (c->likely != 0)
        assert_near(doubt.likely, c->likely, 1e-6);
}

static void check_cases(const struct doubt_case *cases, size_t count)
{
    for (size_t i = 0; i < count; i++)
        check_case(&cases[i]);
}

#define CHECK(cases) check_cases(cases, sizeof(cases) / sizeof(cases)[0])

/* A row of 7.5 to 6 64ths, one in mm, and a saddle. */
#define PARLOUR                                                                                    \
    "visit.1.pass.1 action.6 = 8/64 in\nvisit.1.pass.1 action.5 = 7.5/64 in\n"                     \
    "visit.1.pass.1 action.4 = 7/64 in\nvisit.1.pass.1 action.3 = 6.5/64 in\n"                     \
    "visit.1.pass.1 action.2 = 6/64 in\nvisit.1.pass.1 action.1 = 6/64 in\n"
/* All gaps as a level nut leaves them; one of them is typed anew. */
#define LEVEL_NUT                                                                                  \
    "visit.1.pass.1 nut_gap.1 = .019 in\nvisit.1.pass.1 nut_gap.2 = .019 in\n"                     \
    "visit.1.pass.1 nut_gap.3 = .019 in\nvisit.1.pass.1 nut_gap.4 = .019 in\n"                     \
    "visit.1.pass.1 nut_gap.5 = .019 in\nvisit.1.pass.1 nut_gap.6 = .019 in\n"
#define LOW     "visit.1.pass.1 action.4 = 2.6 mm\nvisit.1.pass.1 action.2 = 2.4 mm\n"
#define EXPOSED "visit.1.pass.1 exposure_treble = 4.3 mm\n"
#define STRINGS                                                                                    \
    "string.6 note = E2\nstring.6 gauge = .053 in\nstring.6 core = .020 in\n"                      \
    "string.6 build = round-wound\nstring.1 note = E4\nstring.1 gauge = .012 in\n"                 \
    "string.1 build = plain\n"

/* clang-format off */
static void what_is_outside_the_usual_is_doubted(void **state)
{
    static const struct doubt_case cases[] = {
        {"visit.1.pass.1 action.6 = 24 mm", "", true, DOUBT_LARGE, 2.4, "the point is missing"},
        {"visit.1.pass.1 action.6 = 42/64 in", "", true, DOUBT_LARGE, 0, "4.2 does not go with its row"},
        {"visit.1.pass.1 rod_turn = 2.9 turn", "", false, DOUBT_LARGE, 0.29, "0.29"},
        {"visit.1.pass.1 relief = 240 th", "", true, DOUBT_LARGE, .024 * IN, "a nought too many"},
        {"visit.1 humidity = 5", "", true, DOUBT_SMALL, 50, "a nought too few"},
        {"visit.1 temperature = 70 C", "", true, DOUBT_LARGE, 190 / 9.0, "70 F"},
        {"board strings = 2", "", true, DOUBT_SMALL, 0, "no board has two"},
        {"board frets = 2", "", true, DOUBT_SMALL, 0, "20 would be another board"},
        {"string.1 gauge = .12 in", "", false, DOUBT_NONE, 0, "a bass string's"},
        {"string.1 gauge = .003 in", "", true, DOUBT_SMALL, .03 * IN, "a nought too few"},
    };
    (void)state;
    CHECK(cases);
}

static void what_its_gauge_cannot_read_is_doubted(void **state)
{
    static const struct doubt_case cases[] = {
        {"visit.1.pass.1 relief = 0.003 mm", "", false, DOUBT_FINE, 0.03, "no leaf at all"},
        {"visit.1.pass.1 relief = 0.01 mm", "", true, DOUBT_FINE, 0.1, "no leaf is that thin"},
        {"visit.1.pass.1 relief = .001 in", "", true, DOUBT_NONE, 0, "the thinnest leaf"},
        {"visit.1.pass.1 relief = 0 mm", "", true, DOUBT_NONE, 0, "straight"},
        {"visit.1.pass.1 relief = -.002 in", "", false, DOUBT_NONE, 0, "a little back-bow"},
        {"visit.1.pass.1 exposure_bass = .012 mm", "", false, DOUBT_FINE, 0, "a gap, not a saddle"},
        {"visit.1.pass.1 exposure_bass = .012 in", "", false, DOUBT_FINE, 0, "a gap, not a saddle"},
        {"visit.1.pass.1 exposure_bass = 1/64 in", "", false, DOUBT_BESIDE, 0, "beside 4.5 mm"},
        {"visit.1.pass.1 exposure_bass = 2.6 mm", "", true, DOUBT_NONE, 0, "little is left"},
        {"visit.1.pass.1 relief = 0.015 mm", "", false, DOUBT_FINE, 0.15, "a nought too many"},
        {"targets relief = 0.015 mm", "", false, DOUBT_FINE, 0.15, "a nought too many"},
        {"targets relief = .006 in", "", false, DOUBT_NONE, 0, "leaves"},
        {"targets action_treble = 2.4/64 in", "", false, DOUBT_SMALL, 0, "mm are meant"},
        {"targets action_bass = 13/64 in", "", false, DOUBT_LARGE, 0, "3"},
        {"targets action_bass = 12/64 in", "", true, DOUBT_BESIDE, 0, "beside the treble's"},
        {"visit.1.pass.1 relief = 1.012 th", "", false, DOUBT_FINE, .012 * IN, "a comma too many"},
        {"visit.1.pass.1 relief = 12.5 th", "", false, DOUBT_NONE, 0, "a half"},
        {"visit.1.pass.1 action.6 = 7/46 in", "", false, DOUBT_PARTS, 0, "64 turned round"},
        {"visit.1.pass.1 action.6 = 6.5/46 in", "", false, DOUBT_PARTS, 0, "64 turned round"},
        {"visit.1.pass.1 action.6 = 6/65 in", "", false, DOUBT_PARTS, 0, "64"},
        {"visit.1.pass.1 action.6 = 6/64+1/65 in", "", false, DOUBT_PARTS, 0, "the second one"},
        {"visit.1.pass.1 action.6 = 8 1/4/64 in", "", false, DOUBT_NONE, 0, "a quarter"},
        {"visit.1.pass.1 action.6 = 7/46 in", "visit.1.pass.1 action.6 = 7/46 in\n", false, DOUBT_NONE, 0, "it is so in the file"},
        {"visit.1.pass.1 relief = 30/100 mm", "", true, DOUBT_NONE, 0, "hundredths"},
        {"visit.1.pass.2 rod_turn = .029 turn", "", false, DOUBT_FINE, 0, "a gap, not a turn"},
        {"visit.1.pass.2 rod_turn = 1/16 turn", "", false, DOUBT_NONE, 0, "a small turn"},
        {"visit.1.pass.2 rod_turn = -1/4 turn", "", false, DOUBT_NONE, 0, "slackened"},
        {"visit.1.pass.2 rod_turn = 0 turn", "", true, DOUBT_NONE, 0, "not turned"},
        {"visit.1.pass.1 relief = 0.02 mm", "model feeler_step = 0.05 mm\n", true, DOUBT_FINE, 0.2, "a coarse gauge"},
    };
    (void)state;
    CHECK(cases);
}

static void what_belongs_to_another_row_is_told(void **state)
{
    static const struct {
        const char *line;
        enum field_id other;
    } cases[] = {
        {"visit.1.pass.1 action.6 = .012 in", FIELD_NUT_GAP},
        {"visit.1.pass.1 action.6 = 0.30 mm", FIELD_NUT_GAP},
        {"visit.1.pass.1 nut_gap.6 = 7/64 in", FIELD_ACTION},
        {"visit.1.pass.1 nut_gap.6 = 2.4 mm", FIELD_ACTION},
        {"visit.1.pass.2 rod_turn = .029 turn", FIELD_NUT_GAP},
        {"visit.1.pass.1 exposure_bass = .012 in", FIELD_NUT_GAP},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct doubt doubt = find("", cases[i].line, false, &nothing_about);

        assert_int_not_equal(doubt.kind, DOUBT_NONE);
        assert_true(doubt.has_other);
        assert_int_equal(doubt.other, cases[i].other);
    }
}

/* The full record's gaps are .030 to .020, its actions 8.25 to 6 64ths. */
static void what_does_not_go_with_its_row_is_doubted(void **state)
{
    static const struct doubt_case cases[] = {
        {"visit.1.pass.1 nut_gap.3 = 4 th", "", true, DOUBT_BESIDE, 0, "24 without its 2"},
        {"visit.1.pass.1 nut_gap.3 = 2 th", "", true, DOUBT_BESIDE, .020 * IN, "20"},
        {"visit.1.pass.1 nut_gap.3 = 44 th", "", true, DOUBT_BESIDE, 0, "24"},
        {"visit.1.pass.1 nut_gap.3 = 15 th", "", true, DOUBT_NONE, 0, "a low slot"},
        {"visit.1.pass.1 nut_gap.1 = 9 th", LEVEL_NUT, true, DOUBT_BESIDE, 0, "19 for the other five"},
        {"visit.1.pass.1 nut_gap.3 = 9 th", LEVEL_NUT, true, DOUBT_BESIDE, 0, "19 for the other five"},
        {"visit.1.pass.1 nut_gap.6 = 29 th", LEVEL_NUT, true, DOUBT_BESIDE, 0, "19 for the other five"},
        {"visit.1.pass.1 nut_gap.1 = 10 th", LEVEL_NUT, true, DOUBT_NONE, 0, "a low slot"},
        {"visit.1.pass.1 nut_gap.6 = 38 th", "", true, DOUBT_NONE, 0, "a high one"},
        {"visit.1.pass.1 action.3 = 3/64 in", "", true, DOUBT_BESIDE, 3, "8 read as 3, or 3 mm"},
        {"visit.1.pass.1 action.3 = 8/64 in", "", true, DOUBT_NONE, 0, "a saddle set high"},
        {"visit.1.pass.1 action.3 = 5/64 in", "", true, DOUBT_NONE, 0, "a saddle set low"},
        {"visit.1.pass.1 action.1 = 4/64 in", "", true, DOUBT_NONE, 0, "the outer one"},
        {"visit.1.pass.1 action.6 = 4/64 in", PARLOUR, true, DOUBT_BESIDE, 4, "7 read as 4"},
        {"visit.1.pass.1 action.6 = 11/64 in", PARLOUR, true, DOUBT_BESIDE, 0, "beside 7.5"},
        {"visit.1.pass.1 action.6 = 8.5/64 in", PARLOUR, true, DOUBT_NONE, 0, "as the row leads"},
        {"visit.1.pass.1 action.3 = 3.5/64 in", PARLOUR, true, DOUBT_BESIDE, 0, "between 7 and 6"},
        {"visit.1.pass.1 action.3 = 4/64 in", PARLOUR, true, DOUBT_BESIDE, 0, "between 7 and 6"},
        {"visit.1.pass.1 action.3 = 9/64 in", PARLOUR, true, DOUBT_BESIDE, 0, "between 7 and 6"},
        {"visit.1.pass.1 action.3 = 7.5/64 in", PARLOUR, true, DOUBT_NONE, 0, "a saddle set high"},
        {"visit.1.pass.1 action.1 = 8/64 in", PARLOUR, true, DOUBT_BESIDE, 0, "beside 6"},
        {"visit.1.pass.1 action.1 = 5/64 in", PARLOUR, true, DOUBT_NONE, 0, "as the row leads"},
        {"visit.1.pass.1 action.3 = 1.6 mm", LOW, false, DOUBT_BESIDE, 0, "between 2.6 and 2.4"},
        {"visit.1.pass.1 exposure_bass = 4.4/64 in", EXPOSED, false, DOUBT_BESIDE, 0, "4.4 mm"},
        {"visit.1.pass.1 exposure_bass = 0.4 mm", EXPOSED, false, DOUBT_BESIDE, 4, "4.0"},
        {"visit.1.pass.1 exposure_bass = 9 mm", "", true, DOUBT_BESIDE, 0, "4.5 mm at the other end"},
    };
    (void)state;
    CHECK(cases);
}

/* One saddle that truly is off, once filed, puts none beside it in doubt: within the row, beyond
 * it, or where the pass has read no more than those two. */
static void beside_an_odd_one_nothing_is_doubted(void **state)
{
    static const char odd[] = "visit.1.pass.1 action.5 = 12/64 in\n";
    static const struct doubt_case cases[] = {
        {"visit.1.pass.1 action.6 = 8/64 in", odd, true, DOUBT_NONE, 0, "an end"},
        {"visit.1.pass.1 action.4 = 7/64 in", odd, true, DOUBT_NONE, 0, "the next one"},
        {"visit.1.pass.1 action.3 = 7/64 in", odd, true, DOUBT_NONE, 0, "one farther"},
        {"visit.1.pass.1 action.6 = 3/64 in", odd, true, DOUBT_BESIDE, 3, "off itself"},
    };

    (void)state;
    CHECK(cases);
}

/* What strings are: cores in them, plain ones, notes. */
static void no_string_is_made_so(void **state)
{
    static const struct doubt_case cases[] = {
        {"string.6 core = .060 in", STRINGS, false, DOUBT_CORE, 0, "thicker than .053"},
        {"string.6 core = .053 in", STRINGS, false, DOUBT_CORE, 0, "as thick"},
        {"string.6 core = .020 in", STRINGS, false, DOUBT_NONE, 0, "a core"},
        {"string.6 gauge = .019 in", STRINGS, false, DOUBT_GAUGE, 0, "thinner than its core"},
        {"string.1 gauge = 1/8 in", STRINGS, false, DOUBT_PLAIN, 0, "a cable"},
        {"string.1 gauge = .042 in", STRINGS, false, DOUBT_PLAIN, 0, "a bass string's"},
        {"string.1 gauge = .017 in", STRINGS, false, DOUBT_NONE, 0, "a plain third"},
        {"string.6 gauge = .054 in", STRINGS, false, DOUBT_NONE, 0, "a wound one"},
        {"string.6 note = E9", STRINGS, false, DOUBT_OCTAVE, 0, "E2"},
        {"string.6 note = e3", STRINGS, false, DOUBT_OCTAVE, 0, "E2"},
        {"string.6 note = A0", STRINGS, false, DOUBT_OCTAVE, 0, "E2"},
        {"string.6 note = C2", STRINGS, false, DOUBT_NONE, 0, "tuned down"},
        {"string.1 note = E2", STRINGS, false, DOUBT_OCTAVE, 0, "E4"},
        {"string.5 note = A7", STRINGS, false, DOUBT_OCTAVE, 0, "beside E2"},
        {"string.5 note = A2", STRINGS, false, DOUBT_NONE, 0, "beside E2"},
        {"board join_fret = 20", "board frets = 18\n", true, DOUBT_BEYOND, 0, "18 frets"},
        {"board join_fret = 14", "board frets = 18\n", true, DOUBT_NONE, 0, "18 frets"},
        {"board action_fret = 15", "board frets = 12\n", true, DOUBT_BEYOND, 0, "12 frets"},
    };

    (void)state;
    CHECK(cases);
}

static void another_board_is_doubted_once_it_was_measured(void **state)
{
    static const struct doubt_case cases[] = {
        {"board strings = 7", "", true, DOUBT_BOARD, 0, "all was measured with 6"},
        {"board strings = 6", "", true, DOUBT_NONE, 0, "the same"},
        {"board frets = 20", "", true, DOUBT_BOARD, 0, "19"},
        {"board scale = 23.9 in", "", false, DOUBT_BOARD, 0, "24.9"},
        {"board scale = 25 in", "", true, DOUBT_NONE, 0, "measured anew"},
    };
    struct record record;

    (void)state;
    CHECK(cases);
    build_record(&record, "board strings = 6\nboard scale = 24.9 in\n");
    assert_int_equal(find_in(&record, "board strings = 7", true, &nothing_about).kind, DOUBT_NONE);
    assert_int_equal(find_in(&record, "board scale = 22 in", true, &nothing_about).kind, DOUBT_NONE);
    record_done(&record);
}

static void the_driest_air_is_no_damper_than_the_dampest(void **state)
{
    static const char low[] = "instrument home_humidity_low = 35 %\n";
    static const char high[] = "instrument home_humidity_high = 60 %\n";
    static const struct doubt_case cases[] = {
        {"instrument home_humidity_low = 65 %", high, false, DOUBT_AIR, 0, "60"},
        {"instrument home_humidity_low = 60 %", high, false, DOUBT_NONE, 0, "the same"},
        {"instrument home_humidity_high = 30 %", low, false, DOUBT_AIR, 0, "35"},
        {"instrument home_humidity_high = 60 %", low, false, DOUBT_NONE, 0, "as it should be"},
    };

    (void)state;
    CHECK(cases);
}

static void a_day_out_of_sense_is_doubted(void **state)
{
    static const struct doubt_case cases[] = {
        {"visit.2 date = 2026-03-02", "", false, DOUBT_NONE, 0, "today"},
        {"visit.2 date = 2026-03-03", "", false, DOUBT_FUTURE, 0, "tomorrow"},
        {"visit.2 date = 2062-03-02", "", false, DOUBT_FUTURE, 0, "26 turned round"},
        {"visit.1 date = 1962-03-02", "", false, DOUBT_LONG_AGO, 0, "26 turned round"},
        {"visit.1 date = 1998-03-02", "", false, DOUBT_NONE, 0, "from an old card"},
        {"visit.2 date = 2025-01-01", "visit.1 date = 2025-02-01\n", false, DOUBT_ORDER, 0, "before the first"},
        {"visit.1 date = 2025-03-01", "visit.3 date = 2025-02-01\n", false, DOUBT_ORDER, 0, "after the third"},
        {"visit.2 date = 2025-02-01", "visit.1 date = 2025-02-01\n", false, DOUBT_NONE, 0, "the same day"},
        {"visit.1 promised = 2026-03-09", "visit.1 date = 2026-03-02\n", false, DOUBT_NONE, 0, "in a week"},
        {"visit.1 promised = 2027-03-03", "visit.1 date = 2026-03-02\n", false, DOUBT_NONE, 0, "in a year"},
        {"visit.1 promised = 2027-03-09", "visit.1 date = 2026-03-02\n", false, DOUBT_FUTURE, 0, "over a year ahead"},
        {"visit.1 promised = 2026-02-09", "visit.1 date = 2026-03-02\n", false, DOUBT_ORDER, 0, "before it came in"},
        {"visit.1 promised = 2026-02-09", "visit.1 date = 2026-02-02\n", false, DOUBT_NONE, 0, "overdue, from the card"},
        {"visit.1 handed_over = 2026-03-02", "visit.1 date = 2026-03-02\n", false, DOUBT_NONE, 0, "the same day"},
        {"visit.1 handed_over = 2026-03-01", "visit.1 date = 2026-03-02\n", false, DOUBT_ORDER, 0, "before it came in"},
        {"visit.1 handed_over = 2026-03-03", "visit.1 date = 2026-03-02\n", false, DOUBT_FUTURE, 0, "tomorrow"},
        {"visit.1.work.1 time = 2062-03-02T10:00", "", false, DOUBT_FUTURE, 0, "26 turned round"},
        {"visit.1.work.1 time = 10:00", "", false, DOUBT_NONE, 0, "a time of that day"},
        {"instrument built = 2062", "", false, DOUBT_FUTURE, 0, "not built yet"},
        {"instrument built = 1062", "", false, DOUBT_LONG_AGO, 0, "before there were any"},
        {"instrument built = 196", "", false, DOUBT_LONG_AGO, 0, "a digit too few"},
        {"instrument built = 20262", "", false, DOUBT_FUTURE, 0, "a digit too many"},
        {"instrument built = 1962", "", false, DOUBT_NONE, 0, "a year"},
        {"instrument built = about 2062", "", false, DOUBT_NONE, 0, "a text is a text"},
        {"instrument serial = 2062", "", false, DOUBT_NONE, 0, "a number of its own"},
    };
    (void)state;
    CHECK(cases);
    /* A clock that is not known says nothing about days to come. */
    const struct doubt_about unknown = {.today = ""};
    assert_int_equal(find("", "visit.2 date = 2062-03-02", false, &unknown).kind, DOUBT_NONE);
}
/* clang-format on */

static void what_is_far_from_the_pass_before_is_doubted(void **state)
{
    /* Read .024 in, slots to be cut to .018: what may be found, and what may not. */
    const struct doubt_about about = {.today = "2026-03-02",
                                      .before = {.value = .024 * IN, .given = true},
                                      .expected = {.value = .018 * IN, .given = true},
                                      .wanted = {.value = .018 * IN, .given = true}};
    static const struct {
        const char *line;
        enum doubt_kind kind;
    } cases[] = {
        {"visit.1.pass.2 nut_gap.6 = 24 th", DOUBT_NONE}, /* nothing was done yet */
        {"visit.1.pass.2 nut_gap.6 = 18 th", DOUBT_NONE}, /* as planned */
        {"visit.1.pass.2 nut_gap.6 = 14 th", DOUBT_NONE}, /* a stroke too many */
        {"visit.1.pass.2 nut_gap.6 = 28 th", DOUBT_NONE}, /* a leaf that sticks */
        {"visit.1.pass.2 nut_gap.6 = 4 th", DOUBT_BEFORE},
        {"visit.1.pass.2 nut_gap.6 = 44 th", DOUBT_BEFORE},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct doubt doubt = find("", cases[i].line, true, &about);

        if (doubt.kind != cases[i].kind)
            fail_msg("%s: %d", cases[i].line, doubt.kind);
        if (doubt.kind == DOUBT_BEFORE)
            assert_near(doubt.beside, .018 * IN, 1e-9);
    }
}

/* --- what is filed --- */

/* Gaps by the numbers given, bass last; 0: not read. */
static void fill_gaps(struct maybe *read, const double *th, int strings)
{
    for (int s = 1; s <= strings; s++)
        read[s] = (struct maybe){.value = th[s - 1] * IN / 1000, .given = th[s - 1] > 0};
}

static void one_odd_string_is_the_only_odd_one(void **state)
{
    static const double th[] = {20, 21, 4, 23, 24, 25};
    struct maybe read[STRINGS_MAX + 1] = {{.given = false}};

    (void)state;
    fill_gaps(read, th, 6);
    for (int s = 1; s <= 6; s++)
        assert_int_equal(doubt_is_odd_one(FIELD_NUT_GAP, read, 6, s), s == 3);
}

/* Of two nobody can say which is right. */
static void of_two_readings_none_is_odd(void **state)
{
    static const double th[] = {20, 0, 0, 0, 0, 2};
    struct maybe read[STRINGS_MAX + 1] = {{.given = false}};

    (void)state;
    fill_gaps(read, th, 6);
    for (int s = 1; s <= 6; s++)
        assert_false(doubt_is_odd_one(FIELD_NUT_GAP, read, 6, s));
}

static void drop_inner(struct record *record, const char *name, int string)
{
    char line[64];

    snprintf(line, sizeof line, "visit.1.pass.1 %s.%d", name, string);
    build_record_drop(record, line);
}

static struct derived derive_without(const char *more, const int *dropped, int count)
{
    struct record record;
    struct derived derived;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    for (int i = 0; i < count; i++)
        drop_inner(&record, "action", dropped[i]);
    derive_pass(place_of(&record, 1, 1), &derived);
    record_done(&record);
    return derived;
}

static enum known known_action(const struct derived *derived, int string)
{
    return derived->figures.at[FIGURE_ACTION][string].known;
}

/* String 6 at 42/64 is no action: strings 5 and 4 are taken from string 3, not from a line
 * between the two. */
static void nothing_is_taken_from_an_unusual_reading(void **state)
{
    static const int dropped[] = {5, 4};
    const struct derived derived =
        derive_without("visit.1.pass.1 action.6 = 42/64 in\n", dropped, 2);

    (void)state;
    for (int s = 4; s <= 5; s++) {
        assert_int_equal(known_action(&derived, s), KNOWN_INTERPOLATED);
        assert_near(derived.figures.at[FIGURE_ACTION][s].value, 6.75 / 64 * IN, 1e-9);
    }
    assert_int_equal(known_action(&derived, 6), KNOWN_READ);
    assert_near(derived.figures.at[FIGURE_ACTION][6].value, 42.0 / 64 * IN, 1e-9);
}

static void nothing_is_taken_from_an_odd_one(void **state)
{
    static const int dropped[] = {4, 2};
    const struct derived derived =
        derive_without("visit.1.pass.1 action.3 = 2.5/64 in\n", dropped, 2);

    (void)state;
    /* Between 7.75 on string 5 and 6 on string 1, by the number of the string. */
    assert_near(derived.figures.at[FIGURE_ACTION][4].value, (6 + 1.75 * 3 / 4) / 64 * IN, 1e-9);
    assert_near(derived.figures.at[FIGURE_ACTION][2].value, (6 + 1.75 / 4) / 64 * IN, 1e-9);
    assert_near(derived.figures.at[FIGURE_ACTION][3].value, 2.5 / 64 * IN, 1e-9);
}

static void where_all_are_unusual_nothing_is_taken(void **state)
{
    static const int dropped[] = {5, 4, 3, 2};
    const struct derived derived = derive_without("visit.1.pass.1 action.6 = 30/64 in\n"
                                                  "visit.1.pass.1 action.1 = 28/64 in\n",
                                                  dropped, 4);

    (void)state;
    for (int s = 2; s <= 5; s++) {
        assert_int_equal(known_action(&derived, s), KNOWN_ABSENT);
        assert_false(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, s).given);
    }
    assert_true(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, 6).given);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_outside_the_usual_is_doubted),
        cmocka_unit_test(what_its_gauge_cannot_read_is_doubted),
        cmocka_unit_test(what_belongs_to_another_row_is_told),
        cmocka_unit_test(what_does_not_go_with_its_row_is_doubted),
        cmocka_unit_test(beside_an_odd_one_nothing_is_doubted),
        cmocka_unit_test(no_string_is_made_so),
        cmocka_unit_test(another_board_is_doubted_once_it_was_measured),
        cmocka_unit_test(the_driest_air_is_no_damper_than_the_dampest),
        cmocka_unit_test(a_day_out_of_sense_is_doubted),
        cmocka_unit_test(what_is_far_from_the_pass_before_is_doubted),
        cmocka_unit_test(one_odd_string_is_the_only_odd_one),
        cmocka_unit_test(of_two_readings_none_is_odd),
        cmocka_unit_test(nothing_is_taken_from_an_unusual_reading),
        cmocka_unit_test(nothing_is_taken_from_an_odd_one),
        cmocka_unit_test(where_all_are_unusual_nothing_is_taken),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
