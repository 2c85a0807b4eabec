/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "build_record.h"
#include "course_record.h"
#include "sheet/sheet_make.h"
#include "sheet/sheet_text.h"
#include "survey_record.h"

static struct sheet_ask ask_of(int visit)
{
    return (struct sheet_ask){.visit = visit, .units = shop_units_inch()};
}

/* The sheet as text, to be freed. */
static char *text_of_ask(const struct record *record, const struct sheet_ask *ask, bool utf8)
{
    struct sheet sheet;
    char *text = NULL;

    assert_int_equal(sheet_make(record, ask, &sheet), STATUS_OK);
    assert_int_equal(sheet_write_text(&sheet, utf8, &text), STATUS_OK);
    sheet_done(&sheet);
    return text;
}

static char *text_of(const char *lines, bool utf8)
{
    const struct sheet_ask ask = ask_of(0);
    struct record record;

    build_record(&record, lines);
    char *text = text_of_ask(&record, &ask, utf8);
    record_done(&record);
    return text;
}

static void assert_has(const char *text, const char *words)
{
    if (!text || !strstr(text, words))
        fail_msg("'%s' is not in:\n%s", words, text ? text : "nothing");
}

static void assert_lacks(const char *text, const char *words)
{
    if (!text || strstr(text, words))
        fail_msg("'%s' is in:\n%s", words, text ? text : "nothing");
}

/* No line too wide, no blanks at an end, nothing that a terminal acts on, and with `ascii`
 * nothing but ASCII. */
static void assert_is_clean(const char *text, bool ascii)
{
    assert_true(utf8_valid(text, strlen(text)));
    while (*text) {
        const size_t length = strcspn(text, "\n");
        char line[1024];

        assert_true(length < sizeof line);
        memcpy(line, text, length);
        line[length] = '\0';
        if (utf8_columns(line) > SHEET_TEXT_COLUMNS || (length > 0 && line[length - 1] == ' '))
            fail_msg("too wide, or a blank at its end: '%s'", line);
        for (size_t i = 0; i < length; i++) {
            const unsigned char c = (unsigned char)line[i];

            if (c < ' ' || c == 0x7F || (ascii && c > 0x7F))
                fail_msg("byte %02x in: %s", c, line);
        }
        assert_int_equal(text[length], '\n');
        text += length + 1;
    }
}

/* The readings of build_record_full in both units, by hand: .013 in is 0.33 mm, 8.25/64 in
 * 3.27 mm, .030 in 0.76 mm. */
static void readings_stand_beside_what_was_wanted(void **state)
{
    char *text = text_of(build_record_full, true);

    (void)state;
    assert_is_clean(text, false);
    assert_has(text, "2 March 2026");
    assert_has(text, "As found\n");
    assert_has(text, ".013 (0.33)");
    assert_has(text, ".006 (0.15)  high");
    assert_has(text, ".030 (0.76)");
    assert_has(text, "8.3 (3.27)");
    assert_has(text, "6.0 (2.38)");
    assert_has(text, "12.6 (5.00)  over 7.6 (3.00)");
    assert_has(text, "the neck bows too far: tighten until the relief is .006 in");
    /* With one pass there is no other side, and nothing was done. */
    assert_lacks(text, "as left");
    assert_lacks(text, "What was done");
    free(text);
}

static const char second_pass[] = "visit.1.pass.2 label = as left\n"
                                  "visit.1.pass.2 time = 12:00\n"
                                  "visit.1.pass.2 relief = .006 in\n"
                                  "visit.1.pass.2 nut_gap.6 = .018 in\n"
                                  "visit.1.pass.2 nut_gap.1 = .012 in\n"
                                  "visit.1.pass.2 action.6 = 6/64 in\n"
                                  "visit.1.pass.2 action.1 = 4/64 in\n"
                                  "visit.1.pass.2 cents.6.12 = 1\n"
                                  "visit.1.pass.1 cents.6.12 = 7\n"
                                  "visit.1.work.1 kind = rod\n"
                                  "visit.1.work.1 amount = tightened 1/4 turn\n"
                                  "visit.1.work.1 time = 11:00\n"
                                  "visit.1.work.2 kind = polished the frets\n"
                                  "visit.1.work.2 time = 11:30\n";

/* Only string 6 was moved after all were read: the others are as left by that pass. */
static void cents_hold_until_their_string_is_worked_on(void **state)
{
    const struct sheet_ask ask = ask_of(1);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, second_pass);
    build_record_add(&record, "visit.1.pass.1 cents.5.12 = 3\nvisit.1.pass.2 cents.5.12 = -1\n"
                              "visit.1.pass.2 cents.4.12 = 4\n"
                              "visit.1.work.3 kind = pitch\n"
                              "visit.1.work.3 amount = string 6 +.020 in\n"
                              "visit.1.work.3 time = 12:30\n"
                              "visit.1.pass.3 time = 13:00\nvisit.1.pass.3 cents.6.12 = 0\n");
    char *text = text_of_ask(&record, &ask, true);
    assert_has(text, "+7                 0  in tune");
    assert_has(text, "+3                -1  in tune");
    assert_has(text, "+4  sharp");
    free(text);
    build_record_add(&record, "visit.1.work.4 kind = saddle\nvisit.1.work.4 time = 12:40\n");
    text = text_of_ask(&record, &ask, true);
    assert_has(text, "+7                 0  in tune");
    assert_lacks(text, "+4  sharp");
    free(text);
    record_done(&record);
}

static void first_and_last_pass_stand_side_by_side(void **state)
{
    const struct sheet_ask ask = ask_of(1);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, second_pass);
    char *text = text_of_ask(&record, &ask, true);
    assert_is_clean(text, false);
    assert_has(text, "As found, as left");
    assert_has(text, ".013 (0.33)  .006 (0.15)      .006 (0.15)  good");
    assert_has(text, ".030 (0.76) .018 (0.46) .018 (0.46)");
    /* String 5 was not read again: its cell stays empty, nothing is put in its place. */
    assert_has(text, ".028 (0.71)             .017 (0.43)");
    assert_has(text, "Truss rod           tightened 1/4 turn");
    assert_has(text, "Polished the frets");
    assert_has(text, "+7                +1  in tune");
    assert_has(text, "Leave the truss rod as it is set");
    free(text);
    record_done(&record);
}

/* Work after the last pass is not proved by it. */
static void work_that_was_not_measured_again_is_said(void **state)
{
    struct record record;
    const struct sheet_ask ask = ask_of(1);

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.pass.1 time = 10:00\nvisit.1.work.1 kind = rod\n"
                              "visit.1.work.1 time = 10:30\n");
    char *text = text_of_ask(&record, &ask, true);
    assert_has(text, "Not everything was measured again");
    assert_lacks(text, "tighten until");
    free(text);
    record_done(&record);
}

static void a_record_of_nothing_gives_a_short_sheet(void **state)
{
    char *text = text_of("", true);

    (void)state;
    assert_is_clean(text, false);
    assert_has(text, "Nothing has been measured on this instrument yet.");
    assert_lacks(text, "What to watch");
    assert_lacks(text, "Strings");
    assert_true(strlen(text) < 500);
    free(text);
    text = text_of("instrument name = Ferry\nvisit.1 date = 2026-03-02\n"
                   "visit.1 reason = Sounds dull.\n",
                   true);
    assert_has(text, "Ferry");
    assert_has(text, "Sounds dull.");
    assert_has(text, "No set-up readings were taken in this visit.");
    free(text);
}

/* A lone reading without a board is shown, and nothing is made of it. */
static void one_reading_is_shown_alone(void **state)
{
    char *text = text_of("visit.1.pass.1 relief = .013 in\n", true);

    (void)state;
    assert_is_clean(text, false);
    assert_has(text, ".013 (0.33)");
    assert_lacks(text, "target");
    assert_lacks(text, "state");
    assert_lacks(text, "nan");
    assert_lacks(text, "action at");
    free(text);
}

/* A saddle is read without knowing the board. */
static void exposure_is_shown_without_a_board(void **state)
{
    char *text = text_of("visit.1.pass.1 exposure_bass = 4 mm\n", true);

    (void)state;
    assert_has(text, "saddle, bass");
    assert_has(text, "(4.00)");
    assert_lacks(text, "saddle, treble");
    assert_lacks(text, "No set-up readings");
    free(text);
}

static void a_visit_that_is_not_there_is_refused(void **state)
{
    const struct sheet_ask ask = ask_of(3);
    struct record record;
    struct sheet sheet;

    (void)state;
    build_record(&record, build_record_full);
    assert_int_equal(sheet_make(&record, &ask, &sheet), STATUS_NOT_FOUND);
    record_done(&record);
}

static void add_twelve(struct record *record)
{
    static const char *const notes[] = {"E4", "E4", "B3", "B3", "G4", "G3",
                                        "D4", "D3", "A3", "A2", "E3", "E2"};
    char memory[64];

    build_record_add(record, "board strings = 12\nboard frets = 24\n");
    for (int s = 1; s <= 12; s++)
        for (int pass = 1; pass <= 2; pass++) {
            struct strbuf line = STRBUF(memory);

            strbuf_addf(&line, "string.%d note = %s\n", s, notes[s - 1]);
            build_record_add(record, memory);
            strbuf_clear(&line);
            strbuf_addf(&line, "visit.1.pass.%d nut_gap.%d = .1%02d in\n", pass, s, s);
            build_record_add(record, memory);
            strbuf_clear(&line);
            strbuf_addf(&line, "visit.1.pass.%d action.%d = 10.%d/64 in\n", pass, s, s % 10);
            build_record_add(record, memory);
        }
}

static void twelve_strings_fit_the_width(void **state)
{
    const struct sheet_ask ask = ask_of(0);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    add_twelve(&record);
    char *text = text_of_ask(&record, &ask, false);
    assert_is_clean(text, true);
    assert_has(text, "12 E2");
    assert_has(text, ".112 (2.84)");
    free(text);
    record_done(&record);
}

static void put(struct record *record, enum field_id field, const char *text)
{
    const struct reading_key key = field == FIELD_VISIT_REASON || field == FIELD_VISIT_FOR_OWNER
                                       ? reading_key_visit(field, 1)
                                       : reading_key_one(field);

    assert_int_equal(record_put(record, &key, text, true, NULL), STATUS_OK);
}

/* A name in another script, and one that goes on and on. */
static void any_name_keeps_within_the_page(void **state)
{
    const struct sheet_ask ask = ask_of(0);
    struct record record;
    char longest[400];

    (void)state;
    memset(longest, 'w', sizeof longest - 1);
    longest[sizeof longest - 1] = '\0';
    build_record(&record, build_record_full);
    /* "Shamisen of the harbour" in kanji and kana. */
    put(&record, FIELD_NAME,
        "\xE6\xB8\xAF\xE3\x81\xAE\xE4\xB8\x89\xE5\x91\xB3\xE7\xB7\x9A\xE6\xB8\xAF\xE3\x81\xAE");
    put(&record, FIELD_OWNER, longest);
    char *text = text_of_ask(&record, &ask, true);
    assert_is_clean(text, false);
    assert_has(text, "\xE4\xB8\x89\xE5\x91\xB3\xE7\xB7\x9A");
    free(text);
    text = text_of_ask(&record, &ask, false);
    assert_is_clean(text, true);
    assert_has(text, "??????");
    free(text);
    record_done(&record);
}

static void texts_cannot_steer_a_terminal(void **state)
{
    const struct sheet_ask ask = {.units = shop_units_inch(),
                                  .shop = "Quay\x1B]0;title\x07side",
                                  .address = "3 Quay Steps\nupstairs",
                                  .contact = "\xE2\x80\xAE"
                                             "bell"};
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    put(&record, FIELD_NAME, "\x1B[2J\x1B[31mred\x07");
    put(&record, FIELD_MAKER, "line\nbreak\ttab");
    put(&record, FIELD_SERIAL, "\xFF\xFE bad bytes \xC2\x9B");
    put(&record, FIELD_VISIT_REASON, "turned \xE2\x80\xAE round");
    put(&record, FIELD_VISIT_FOR_OWNER, "%s%n%d");
    for (int utf8 = 0; utf8 < 2; utf8++) {
        char *text = text_of_ask(&record, &ask, utf8);

        assert_is_clean(text, !utf8);
        assert_has(text, "line break tab");
        assert_has(text, "[31mred");
        assert_has(text, "%s%n%d");
        assert_has(text, "3 Quay Steps upstairs");
        assert_lacks(text, "\xE2\x80\xAE");
        free(text);
    }
    record_done(&record);
}

/* Whatever the shop notes for itself stays in the shop. */
static void the_shop_s_own_notes_are_never_printed(void **state)
{
    static const char *const words[] = {"grumbles", "overpaid", "cracked", "brace",
                                        "glueless", "shims",    "wobbly",  "tuners"};
    const struct sheet_ask asks[] = {ask_of(1), ask_of(0)};

    (void)state;
    for (size_t i = 0; i < sizeof asks / sizeof asks[0]; i++)
        for (int utf8 = 0; utf8 < 2; utf8++) {
            struct record record;

            build_record(&record, build_record_full);
            build_record_add(&record, second_pass);
            build_record_add(&record, "instrument note = grumbles overpaid\n"
                                      "visit.1 note = cracked brace\n"
                                      "visit.1 for_owner = plays as you asked\n"
                                      "visit.1.pass.1 note = glueless\n"
                                      "visit.1.pass.2 note = shims\n"
                                      "visit.1.work.1 note = wobbly\n"
                                      "visit.1.work.2 note = tuners\n");
            char *text = text_of_ask(&record, &asks[i], utf8);
            assert_has(text, "Notes");
            assert_has(text, "plays as you asked");
            for (size_t k = 0; k < sizeof words / sizeof words[0]; k++)
                assert_lacks(text, words[k]);
            free(text);
            record_done(&record);
        }
}

/* A note as long as a profile takes it. */
static void long_notes_are_not_cut(void **state)
{
    const struct sheet_ask ask = ask_of(0);
    char note[FIELD_TEXT_MAX + 1] = "";
    struct strbuf text = STRBUF(note);
    struct record record;

    (void)state;
    while (text.length + 20 < FIELD_TEXT_MAX)
        strbuf_add(&text, "word after word, ");
    strbuf_add(&text, "the end.");
    build_record(&record, build_record_full);
    put(&record, FIELD_VISIT_FOR_OWNER, note);
    char *made = text_of_ask(&record, &ask, true);
    assert_is_clean(made, false);
    assert_has(made, "the end.");
    free(made);
    record_done(&record);
}

static void metric_shops_read_mm_first(void **state)
{
    const struct sheet_ask ask = {.units = shop_units_metric()};
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    char *text = text_of_ask(&record, &ask, true);
    assert_has(text, "0.33 (.013)");
    assert_has(text, "3.27 (8.3)");
    assert_has(text, "632.5 mm (24.9 in)"); /* 24.9 x 25.4 = 632.46 */
    free(text);
    record_done(&record);
}

/* What holds of several strings is said once: these cores are drawn far past their strength. */
static void findings_are_said_once(void **state)
{
    const struct sheet_ask ask = ask_of(0);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "string.1 note = E5\nstring.1 gauge = .012 in\n"
                              "string.1 build = plain\nstring.2 note = E5\n"
                              "string.2 gauge = .012 in\nstring.2 build = plain\n");
    char *text = text_of_ask(&record, &ask, true);
    assert_has(text, "String 1 is near its strength");
    assert_has(text, "The same of");
    assert_lacks(text, "String 2 is near its strength");
    free(text);
    record_done(&record);
}

/* Sides that differ by more than 0.8 mm after the move lean (move.c). */
static void a_neck_that_leans_is_said(void **state)
{
    static const char *const bass[] = {"0.2 mm", "1.6 mm"};

    (void)state;
    for (int i = 0; i < 2; i++) {
        const struct sheet_ask ask = ask_of(0);
        struct record record;
        char more[200];

        build_record(&record, build_record_full);
        snprintf(more, sizeof more,
                 "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = "
                 "%s\nvisit.1.pass.1 exposure_treble = 1.6 mm",
                 bass[i]);
        build_record_add(&record, more);
        char *text = text_of_ask(&record, &ask, true);
        assert_has(text, "set the neck back");
        (i == 0 ? assert_has : assert_lacks)(text, "it also leans");
        free(text);
        record_done(&record);
    }
}

/* A rod that was turned and not measured proves nothing: what waits for it is left, and is said. */
static void what_waits_is_said_to_be_left(void **state)
{
    const struct sheet_ask ask = ask_of(0);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.pass.1 time = 10:00\n"
                              "visit.1.work.1 kind = rod\n"
                              "visit.1.work.1 amount = 1/8 turn\n"
                              "visit.1.work.1 time = 10:30\n");
    char *text = text_of_ask(&record, &ask, true);
    assert_has(text, "Still to do");
    assert_has(text, "off its target as last measured");
    free(text);
    record_done(&record);
}

/* Why it came in: what buzzed, and that it does no longer, as far as it was played again. */
static void what_buzzed_is_said_in_one_line(void **state)
{
    static const struct {
        const char *more, *words, *never;
    } steps[] = {
        {"visit.1.pass.1 clean.3 = 0-3\n", "As found\n", "buzzed"},
        {"visit.1.pass.1 buzz.3 = 4 5\n", "  As found string 3 buzzed at frets 4 and 5.\n",
         "afterwards"},
        {"visit.1.pass.2 relief = .006 in\nvisit.1.pass.2 clean.1 = 0-17\n",
         "  As found string 3 buzzed at frets 4 and 5.\n", "afterwards"},
        {"visit.1.pass.2 clean.3 = 5\n", "  As found string 3 buzzed at frets 4 and 5.\n",
         "afterwards"},
        {"visit.1.pass.2 buzz.3 = 5\n", "frets 4 and 5. Played afterwards: string 3 buzzed",
         "no buzz"},
        {"visit.1.pass.3 clean.3 = 0-17\n",
         "As found string 3 buzzed at frets 4 and 5. Played again afterwards: no buzz",
         "at fret 5"},
        {"visit.1.pass.1 buzz.5 = 0 2\nvisit.1.pass.3 clean.5 = 0-17\n",
         "  As found string 5 buzzed open and at fret 2, string 3 at frets 4 and 5.", "fret 5"},
        {"visit.1.pass.4 relief = .006 in\n", "no buzz where", "fret 5"},
    };
    const struct sheet_ask ask = ask_of(0);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        build_record_add(&record, steps[i].more);
        char *text = text_of_ask(&record, &ask, true);
        assert_is_clean(text, false);
        assert_has(text, steps[i].words);
        assert_lacks(text, steps[i].never);
        free(text);
    }
    record_done(&record);
}

/* Typed by its fret or as 0. Two strings that buzz tell how hard it is played. */
static void a_short_strings_open_note_is_open_on_the_sheet(void **state)
{
    static const char heard[] =
        "string.6 from_fret = 5\n"
        "visit.1.pass.1 nut_gap.6 = .010 in\nvisit.1.pass.1 action.6 = 3.5/64 in\n"
        "visit.1.pass.1 nut_gap.5 = .018 in\nvisit.1.pass.1 action.5 = 5.5/64 in\n"
        "visit.1.pass.1 clean.6 = 12-17\nvisit.1.pass.1 clean.5 = 14\n"
        "visit.1.pass.1 buzz.5 = 6\n";
    static const char *const typed[] = {"visit.1.pass.1 buzz.6 = 5\n",
                                        "visit.1.pass.1 buzz.6 = 0\n"};
    const struct sheet_ask ask = ask_of(0);

    (void)state;
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        struct record record;

        build_record(&record, build_record_full);
        build_record_add(&record, survey_record_strings);
        build_record_add(&record, heard);
        build_record_add(&record, typed[i]);
        char *text = text_of_ask(&record, &ask, true);
        assert_has(text, "string 6 buzzed open, string 5 at fret 6");
        assert_has(text, "string 6 open, string 3");
        assert_lacks(text, "at fret 5");
        free(text);
        record_done(&record);
    }
}

/* Off by the numbers, but by less than anybody would work on. */
static void what_is_off_and_left_is_explained(void **state)
{
    char lines[4000];

    (void)state;
    snprintf(lines, sizeof lines, "%svisit.1.pass.1 relief = .006 in\n", build_record_full);
    for (int s = 1; s <= 6; s++) {
        const size_t length = strlen(lines);

        snprintf(lines + length, sizeof lines - length,
                 "visit.1.pass.1 nut_gap.%d = %.4f in\nvisit.1.pass.1 action.%d = %.2f/64 in\n", s,
                 .0108 + .0012 * s - (s == 2 ? .0024 : 0), s, 3.6 + .4 * s);
    }
    char *text = text_of(lines, true);
    assert_has(text, " low ");
    assert_has(text, "By what was measured, nothing asks for work.");
    assert_lacks(text, "where they are wanted");
    assert_lacks(text, "Still to do");
    free(text);
}

/* 4.5 mm stand over it on the treble side, 3 mm have to. */
static void what_is_left_of_the_saddle_does_not_frighten(void **state)
{
    const struct sheet_ask ask = {.units = shop_units_metric()};
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "bridge kind = blank\n");
    char *text = text_of_ask(&record, &ask, true);
    assert_has(text, "Saddle: 4.50 mm");
    assert_has(text, "There is 1.50");
    assert_has(text, "left to lower it in");
    assert_lacks(text, "set anew");
    free(text);
    /* Where a reset is still to be done there are no years to come. */
    build_record_add(&record, "bridge exposure_min = 4.4 mm\nvisit.1.pass.1 relief = .006 in\n");
    text = text_of_ask(&record, &ask, true);
    assert_has(text, "Neck reset");
    assert_has(text, "stands over the bridge. The neck's angle");
    assert_lacks(text, "left to lower it in");
    free(text);
    record_done(&record);
}

/* After as many turns as a rod usually has, no more of them are promised. */
static void a_rod_turned_in_all_the_way_is_not_to_be_tightened(void **state)
{
    static const char turned[] =
        "visit.1.pass.1 relief = .034 in\n"
        "visit.1.pass.2 relief = .024 in\nvisit.1.pass.2 rod_turn = 1 turn\n"
        "visit.1.pass.3 relief = .018 in\n"
        "visit.1.pass.3 rod_turn = 1/2 turn\n";
    const struct sheet_ask ask = ask_of(1);

    (void)state;
    for (int far = 0; far <= 1; far++) {
        struct record record;

        build_record(&record, build_record_full);
        build_record_add(&record, turned);
        if (far)
            build_record_add(&record, "visit.1.pass.4 relief = .012 in\n"
                                      "visit.1.pass.4 rod_turn = 3/4 turn\n");
        char *text = text_of_ask(&record, &ask, true);
        assert_int_equal(strstr(text, "the rod has nothing left") != NULL, far);
        assert_int_equal(strstr(text, "bows too far: tighten") != NULL, !far);
        free(text);
        record_done(&record);
    }
}

/* Saddles of their own: the table has the outer two, and one between them is said where it stands
 * lower than both. */
static void an_inner_saddle_is_said_where_it_is_lowest(void **state)
{
    static const struct {
        const char *line, *words;
        bool low;
    } read[] = {
        {"visit.1.pass.1 exposure.3 = 1 mm\n", "with 1.00 mm (.039 in) of travel", true},
        {"visit.1.pass.1 exposure.3 = 4 mm\n", "with 4.00 mm (.157 in) of travel", false},
        {"visit.1.pass.1 exposure.3 = 4.8 mm\n", NULL, false},
        {"", NULL, false},
    };
    const struct sheet_ask ask = {.units = shop_units_metric()};

    (void)state;
    for (size_t i = 0; i < sizeof read / sizeof read[0]; i++) {
        struct record record;

        build_record(&record, build_record_full);
        build_record_add(&record, read[i].line);
        char *text = text_of_ask(&record, &ask, true);
        assert_int_equal(strstr(text, "that of string 3 stands lowest") != NULL,
                         read[i].words != NULL);
        if (read[i].words)
            assert_has(text, read[i].words);
        assert_int_equal(strstr(text, "it should not go lower") != NULL, read[i].low);
        free(text);
        record_done(&record);
    }
}

static void tables_take_no_more_than_they_hold(void **state)
{
    struct sheet sheet;

    (void)state;
    sheet_init(&sheet);
    sheet_add_cell(&sheet, "of no table");
    sheet_begin_table(&sheet, "lr");
    sheet_add_cell(&sheet, "of no row");
    sheet_begin_row(&sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(&sheet, "one");
    sheet_add_span(&sheet, 5, "two");
    sheet_add_cell(&sheet, "three too many");
    for (int i = 0; i < 2 * SHEET_ROWS_MAX; i++)
        sheet_begin_row(&sheet, SHEET_ROW_PLAIN);
    assert_int_equal(sheet.status, STATUS_OK);
    const struct sheet_table *table = sheet.blocks[0].table;
    assert_int_equal(table->rows, SHEET_ROWS_MAX);
    assert_string_equal(sheet_cell(table, 0, 1)->text, "two");
    assert_int_equal(sheet_cell(table, 0, 1)->span, 1);
    sheet_done(&sheet);
}

/* The curve that is worked out for the lowest string. */
static bool has_curve(const char *dropped)
{
    const struct sheet_ask ask = ask_of(0);
    struct record record;
    struct sheet sheet;

    build_record(&record, build_record_full);
    build_record_add(&record,
                     "visit.1.pass.1 cents.6.12 = 10\nvisit.1.pass.1 cents.1.12 = 4\n"
                     "string.6 note = E2\nstring.6 gauge = .053 in\nstring.6 core = .018 in\n"
                     "string.6 build = round-wound\nstring.6 wrap_material = phosphor-bronze\n");
    if (dropped)
        build_record_drop(&record, dropped);
    assert_int_equal(sheet_make(&record, &ask, &sheet), STATUS_OK);
    assert_true(sheet.picture[SHEET_CENTS_CURVE].spot_count > 0);
    const bool answer = picture_has(&sheet.picture[SHEET_CENTS_CURVE], PICTURE_MAIN);
    sheet_done(&sheet);
    record_done(&record);
    return answer;
}

static void no_curve_from_a_setback_that_is_not_entered(void **state)
{
    (void)state;
    assert_true(has_curve(NULL));
    assert_false(has_curve("string.6 setback"));
}

/* What the drawing of the cents says of its curve, with these lines more. */
static bool says_not_measured(const char *more)
{
    const struct sheet_ask ask = ask_of(0);
    struct record record;
    struct sheet sheet;
    bool answer = false, drawn = false;

    build_record(&record, build_record_full);
    build_record_add(&record,
                     "visit.1.pass.1 time = 09:00\nvisit.1.pass.1 setback.6 = .140 in\n"
                     "visit.1.pass.1 cents.6.12 = 8\n"
                     "string.6 note = E2\nstring.6 gauge = .053 in\nstring.6 core = .018 in\n"
                     "string.6 build = round-wound\nstring.6 wrap_material = phosphor-bronze\n");
    build_record_add(&record, more);
    assert_int_equal(sheet_make(&record, &ask, &sheet), STATUS_OK);
    assert_true(picture_has(&sheet.picture[SHEET_CENTS_CURVE], PICTURE_MAIN));
    for (size_t i = 0; i < sheet.count; i++)
        if (sheet.blocks[i].kind == SHEET_DRAWING && sheet.blocks[i].drawing == SHEET_CENTS_CURVE) {
            drawn = true;
            answer = strstr(sheet.blocks[i].aside, "not measured since the saddle was moved");
        }
    assert_true(drawn);
    sheet_done(&sheet);
    record_done(&record);
    return answer;
}

static void a_curve_from_a_saddle_that_was_moved_says_so(void **state)
{
    static const char moved[] = "visit.1.work.1 kind = pitch\n"
                                "visit.1.work.1 amount = string 6 +.020 in\n"
                                "visit.1.work.1 time = 10:00\n"
                                "visit.1.pass.2 time = 11:00\nvisit.1.pass.2 cents.6.12 = 1\n";
    char read[400];

    (void)state;
    assert_false(says_not_measured(""));
    assert_true(says_not_measured(moved));
    snprintf(read, sizeof read, "%svisit.1.pass.2 setback.6 = .158 in\n", moved);
    assert_false(says_not_measured(read));
}

/* Of the lowest string, which is the second of its course. */
static void a_second_strings_curve_needs_its_courses_setback_only(void **state)
{
    const struct sheet_ask ask = ask_of(0);
    struct record record;
    struct sheet sheet;

    (void)state;
    build_record(&record, course_record);
    build_record_add(&record, "visit.1.pass.1 cents.12.12 = 10\n");
    assert_int_equal(sheet_make(&record, &ask, &sheet), STATUS_OK);
    assert_true(picture_has(&sheet.picture[SHEET_CENTS_CURVE], PICTURE_MAIN));
    sheet_done(&sheet);
    build_record_drop(&record, "string.11 setback");
    assert_int_equal(sheet_make(&record, &ask, &sheet), STATUS_OK);
    assert_false(picture_has(&sheet.picture[SHEET_CENTS_CURVE], PICTURE_MAIN));
    sheet_done(&sheet);
    record_done(&record);
}

/* Once it went back, nobody asks any more for when it was promised. */
static void the_sheet_says_when_it_went_back(void **state)
{
    static const char job[] = "board strings = 6\nvisit.1 date = 2026-03-02\n"
                              "visit.1 ticket = 1043\nvisit.1 promised = 2026-03-09\n";
    char lines[400];

    (void)state;
    char *text = text_of(job, true);
    assert_has(text, "ticket        1043");
    assert_has(text, "promised for  9 March 2026");
    free(text);
    snprintf(lines, sizeof lines, "%svisit.1 handed_over = 2026-03-06\n", job);
    text = text_of(lines, true);
    assert_has(text, "handed over  6 March 2026");
    assert_lacks(text, "promised");
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_curve_from_a_setback_that_is_not_entered),
        cmocka_unit_test(a_short_strings_open_note_is_open_on_the_sheet),
        cmocka_unit_test(a_curve_from_a_saddle_that_was_moved_says_so),
        cmocka_unit_test(a_second_strings_curve_needs_its_courses_setback_only),
        cmocka_unit_test(readings_stand_beside_what_was_wanted),
        cmocka_unit_test(first_and_last_pass_stand_side_by_side),
        cmocka_unit_test(cents_hold_until_their_string_is_worked_on),
        cmocka_unit_test(work_that_was_not_measured_again_is_said),
        cmocka_unit_test(a_record_of_nothing_gives_a_short_sheet),
        cmocka_unit_test(one_reading_is_shown_alone),
        cmocka_unit_test(exposure_is_shown_without_a_board),
        cmocka_unit_test(a_visit_that_is_not_there_is_refused),
        cmocka_unit_test(twelve_strings_fit_the_width),
        cmocka_unit_test(any_name_keeps_within_the_page),
        cmocka_unit_test(texts_cannot_steer_a_terminal),
        cmocka_unit_test(the_shop_s_own_notes_are_never_printed),
        cmocka_unit_test(long_notes_are_not_cut),
        cmocka_unit_test(metric_shops_read_mm_first),
        cmocka_unit_test(findings_are_said_once),
        cmocka_unit_test(a_neck_that_leans_is_said),
        cmocka_unit_test(what_waits_is_said_to_be_left),
        cmocka_unit_test(what_buzzed_is_said_in_one_line),
        cmocka_unit_test(what_is_off_and_left_is_explained),
        cmocka_unit_test(what_is_left_of_the_saddle_does_not_frighten),
        cmocka_unit_test(a_rod_turned_in_all_the_way_is_not_to_be_tightened),
        cmocka_unit_test(an_inner_saddle_is_said_where_it_is_lowest),
        cmocka_unit_test(tables_take_no_more_than_they_hold),
        cmocka_unit_test(the_sheet_says_when_it_went_back),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
