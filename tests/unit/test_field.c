/* SPDX-License-Identifier: MIT */
#include "model/reading/field.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "near.h"

/* Checks that a text is accepted, and returns its value. */
static double taken(enum field_id id, const char *text, enum unit bare, enum reading_state state)
{
    struct field_value value = {.value = (double)NAN};
    struct field_fault fault;

    if (field_read(field_get(id), text, bare, &value, &fault) != STATUS_OK)
        fail_msg("%s refused: %s", text, fault.words);
    if (value.state != state)
        fail_msg("%s: state %d, wanted %d", text, (int)value.state, (int)state);
    return value.value;
}

/* Checks that a text is refused with that status, words, a place in it, and no value. */
static void refused(enum field_id id, const char *text, enum status status)
{
    const struct field *field = field_get(id);
    const enum unit bare = field_file_unit(field);
    struct field_value value = {.value = 7, .state = READING_UNUSUAL};
    struct field_fault fault = {.status = STATUS_OK, .at = 0};
    const enum status got = field_read(field, text, bare, &value, &fault);

    if (got != status || fault.status != status)
        fail_msg("%s = %s: got %s, wanted %s", field->key, text, status_text(got),
                 status_text(status));
    assert_true(strlen(fault.words) > 10);
    assert_true(fault.at <= strlen(text));
    assert_near(value.value, 7, 0);
    assert_int_equal(value.state, READING_UNUSUAL);
    assert_int_equal(field_read(field, text, bare, &value, NULL), status);
}

static bool has_limits(const struct field *field)
{
    return field->kind == KIND_NUMBER || field->kind == KIND_COUNT || field->kind == KIND_RADIUS;
}

static void test_table_limits(void **state)
{
    (void)state;
    for (int id = 0; id < FIELD_COUNT_; id++) {
        const struct field *field = field_get((enum field_id)id);

        assert_int_equal(field->id, id);
        assert_true(strlen(field->key) > 0 && strlen(field->label) > 0 && strlen(field->help) > 10);
        assert_int_equal(strspn(field->key, "abcdefghijklmnopqrstuvwxyz0123456789_"),
                         strlen(field->key));
        assert_true(field->possible_min <= field->usual_min);
        assert_true(field->usual_min <= field->usual_max);
        assert_true(field->usual_max <= field->possible_max);
        if (has_limits(field))
            assert_true(field->possible_min < field->possible_max);
        if (field->kind == KIND_TEXT)
            assert_true(field->possible_max <= FIELD_TEXT_MAX && field->usual_max > 0);
        if (field->quantity == QUANTITY_LENGTH)
            assert_int_not_equal(field->measure, MEASURE_NONE);
    }
}

static void test_table_fallbacks(void **state)
{
    int found = 0;

    (void)state;
    for (int id = 0; id < FIELD_COUNT_; id++) {
        const struct field *field = field_get((enum field_id)id);

        if (field->fallback[0] == '\0')
            continue;
        taken(field->id, field->fallback, field_file_unit(field), READING_GOOD);
        found++;
    }
    assert_true(found > 10);
}

/* A key may stand for two fields only where one is numbered and the other is not. */
static void test_table_keys_unique(void **state)
{
    (void)state;
    for (int a = 0; a < FIELD_COUNT_; a++)
        for (int b = a + 1; b < FIELD_COUNT_; b++) {
            const struct field *one = field_get((enum field_id)a);
            const struct field *two = field_get((enum field_id)b);

            if (one->section == two->section && strcmp(one->key, two->key) == 0)
                assert_int_not_equal(one->per, two->per);
        }
}

static void test_choices(void **state)
{
    char choice[32];

    (void)state;
    for (int id = 0; id < FIELD_COUNT_; id++) {
        const struct field *field = field_get((enum field_id)id);
        int k = 0;

        for (; field_choice(field, k, choice, sizeof choice); k++)
            if (field->kind == KIND_CHOICE || field->kind == KIND_YESNO)
                assert_near(taken(field->id, choice, UNIT_NONE, READING_GOOD), k, 0);
        if (field->kind == KIND_CHOICE)
            assert_true(k >= 2);
        else
            assert_int_equal(k, field->kind == KIND_YESNO ? 2 : 0);
        assert_false(field_choice(field, -1, choice, sizeof choice));
    }
    refused(FIELD_BRIDGE_KIND, "Blank", STATUS_SYNTAX);
    refused(FIELD_BRIDGE_KIND, "", STATUS_SYNTAX);
    refused(FIELD_BRIDGE_KIND, "blank|screw", STATUS_SYNTAX);
    refused(FIELD_BRIDGE_KIND, "blan", STATUS_SYNTAX);
    refused(FIELD_BRIDGE_KIND, "blank ", STATUS_SYNTAX);
    refused(FIELD_HEX, "1", STATUS_SYNTAX);
}

static void test_numbers(void **state)
{
    const struct shop_units inch = shop_units_inch(), metric = shop_units_metric();
    const struct field *relief = field_get(FIELD_RELIEF), *action = field_get(FIELD_ACTION);

    (void)state;
    assert_near(taken(FIELD_RELIEF, ".010+.003 in", UNIT_NONE, READING_GOOD), .013 * 25.4, 1e-12);
    assert_near(taken(FIELD_RELIEF, "-.003 in", UNIT_NONE, READING_GOOD), -.003 * 25.4, 1e-12);
    assert_near(taken(FIELD_RELIEF, "0 mm", UNIT_NONE, READING_GOOD), 0, 0);
    assert_near(taken(FIELD_RELIEF, "13", field_bare_unit(relief, &inch), READING_GOOD),
                .013 * 25.4, 1e-12);
    assert_near(taken(FIELD_RELIEF, "33", field_bare_unit(relief, &metric), READING_GOOD), .33,
                1e-12);
    assert_near(taken(FIELD_ACTION, "6", field_bare_unit(action, &inch), READING_GOOD),
                6 * 25.4 / 64, 1e-12);
    assert_near(taken(FIELD_ACTION, "2.5", field_bare_unit(action, &metric), READING_GOOD), 2.5, 0);
    assert_near(taken(FIELD_TEMPERATURE, "70 F", UNIT_C, READING_GOOD), 21.1111, 0.0001);
    assert_near(taken(FIELD_BOLT_TORQUE, "2 Nm", UNIT_NM, READING_GOOD), 2, 0);
    assert_near(taken(FIELD_ROD_TURN, "-1/4 turn", UNIT_TURN, READING_GOOD), -.25, 0);
    assert_near(taken(FIELD_RELIEF, "3 mm", UNIT_NONE, READING_UNUSUAL), 3, 0);
    assert_near(taken(FIELD_RELIEF, "15 mm", UNIT_NONE, READING_UNUSUAL), 15, 0);
    refused(FIELD_RELIEF, "15.01 mm", STATUS_RANGE);
    refused(FIELD_RELIEF, "-10.01 mm", STATUS_RANGE);
    refused(FIELD_RELIEF, "13", STATUS_UNIT);
    refused(FIELD_RELIEF, "13 kg", STATUS_UNIT);
    refused(FIELD_RELIEF, "", STATUS_SYNTAX);
    refused(FIELD_RELIEF, "nan", STATUS_SYNTAX);
    refused(FIELD_RELIEF, "inf mm", STATUS_SYNTAX);
    refused(FIELD_RELIEF, "1e3 mm", STATUS_SYNTAX);
    refused(FIELD_HUMIDITY, "101", STATUS_RANGE);
}

static void test_counts(void **state)
{
    (void)state;
    assert_near(taken(FIELD_STRINGS, "6", UNIT_NONE, READING_GOOD), 6, 0);
    assert_near(taken(FIELD_STRINGS, "1", UNIT_NONE, READING_UNUSUAL), 1, 0);
    assert_near(taken(FIELD_FRETS, "0", UNIT_NONE, READING_UNUSUAL), 0, 0);
    refused(FIELD_STRINGS, "13", STATUS_RANGE);
    refused(FIELD_STRINGS, "0", STATUS_RANGE);
    refused(FIELD_STRINGS, "6.5", STATUS_SYNTAX);
    refused(FIELD_STRINGS, "-6", STATUS_SYNTAX);
    refused(FIELD_STRINGS, " 6", STATUS_SYNTAX);
    refused(FIELD_STRINGS, "99999999999999999999", STATUS_SYNTAX);
    refused(FIELD_STRINGS, "", STATUS_SYNTAX);
}

static void test_texts(void **state)
{
    static char text[FIELD_TEXT_MAX + 2];
    struct field_value value = {.value = 0};

    (void)state;
    taken(FIELD_OWNER, "", UNIT_NONE, READING_GOOD);
    taken(FIELD_OWNER, "anything \xc2\xbd ; # \"at all\"", UNIT_NONE, READING_GOOD);
    memset(text, 'x', 400);
    taken(FIELD_OWNER, text, UNIT_NONE, READING_UNUSUAL);
    memset(text, 'x', 401);
    refused(FIELD_OWNER, text, STATUS_TOO_LONG);
    memset(text, 'x', FIELD_TEXT_MAX);
    taken(FIELD_NOTE, text, UNIT_NONE, READING_UNUSUAL);
    memset(text, 'x', FIELD_TEXT_MAX + 1);
    assert_int_equal(field_read(field_get(FIELD_NOTE), text, UNIT_NONE, &value, NULL),
                     STATUS_TOO_LONG);
}

/* A4 is 69 and C4 60 where semitones are counted as electronic instruments do. */
static void test_notes(void **state)
{
    (void)state;
    assert_near(taken(FIELD_STRING_NOTE, "A4", UNIT_NONE, READING_GOOD), 69, 0);
    assert_near(taken(FIELD_STRING_NOTE, "C4", UNIT_NONE, READING_GOOD), 60, 0);
    assert_near(taken(FIELD_STRING_NOTE, "E2", UNIT_NONE, READING_GOOD), 40, 0);
    assert_near(taken(FIELD_STRING_NOTE, "F#3", UNIT_NONE, READING_GOOD), 54, 0);
    refused(FIELD_STRING_NOTE, "H2", STATUS_SYNTAX);
    refused(FIELD_STRING_NOTE, "E", STATUS_SYNTAX);
    refused(FIELD_STRING_NOTE, "E2x", STATUS_SYNTAX);
    refused(FIELD_STRING_NOTE, "", STATUS_SYNTAX);
}

static void test_fret_lists(void **state)
{
    const char *const wrong[] = {"37", "5-3", "-",   "3-",  "-3",  "1--2",       "1-2-3",
                                 "a",  "3.",  "1;2", "0x1", "\t3", "99999999999"};
    uint64_t frets = 5;

    (void)state;
    assert_near(taken(FIELD_BUZZ, "0 3 5-7", UNIT_NONE, READING_GOOD), 1 + 8 + 32 + 64 + 128, 0);
    assert_near(taken(FIELD_BUZZ, "0,3, 5-7", UNIT_NONE, READING_GOOD), 1 + 8 + 32 + 64 + 128, 0);
    assert_near(taken(FIELD_CLEAN, "0-36", UNIT_NONE, READING_GOOD), pow(2, 37) - 1, 0);
    assert_near(taken(FIELD_CLEAN, "", UNIT_NONE, READING_GOOD), 0, 0);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        refused(FIELD_BUZZ, wrong[i], STATUS_SYNTAX);
        assert_int_equal(field_read_frets(wrong[i], &frets), STATUS_SYNTAX);
        assert_true(frets == 5);
    }
}

static void test_radius(void **state)
{
    (void)state;
    assert_near(taken(FIELD_RADIUS_NUT, "flat", UNIT_NONE, READING_GOOD), 0, 0);
    assert_near(taken(FIELD_RADIUS_NUT, "16 in", UNIT_NONE, READING_GOOD), 406.4, 1e-12);
    refused(FIELD_RADIUS_NUT, "0 mm", STATUS_RANGE);
    refused(FIELD_RADIUS_NUT, "Flat", STATUS_SYNTAX);
    refused(FIELD_RADIUS_NUT, "flat ", STATUS_SYNTAX);
}

static void test_dates_and_times(void **state)
{
    const char *const good_dates[] = {"2026-03-02", "2024-02-29", "2000-02-29", "1999-12-31"};
    const char *const bad_dates[] = {"2026-02-29",  "1900-02-29", "2026-13-01", "2026-00-01",
                                     "2026-04-31",  "2026-03-00", "2026-3-2",   "02.03.2026",
                                     "2026-03-02 ", "2026/03/02", "2026-03",    "",
                                     "yesterday"};
    const char *const good_times[] = {"10:42", "00:00", "23:59:59", "2026-03-02T10:42",
                                      "2026-03-02 10:42:07"};
    const char *const bad_times[] = {
        "24:00", "10:60",      "10:42:60",         "1:42",        "10.42", "10:42 ",
        "",      "2026-03-02", "2026-02-30T10:42", "2026-03-02T", "10:",   "10"};

    (void)state;
    for (size_t i = 0; i < sizeof good_dates / sizeof good_dates[0]; i++)
        taken(FIELD_VISIT_DATE, good_dates[i], UNIT_NONE, READING_GOOD);
    for (size_t i = 0; i < sizeof bad_dates / sizeof bad_dates[0]; i++)
        refused(FIELD_VISIT_DATE, bad_dates[i], STATUS_SYNTAX);
    for (size_t i = 0; i < sizeof good_times / sizeof good_times[0]; i++)
        taken(FIELD_PASS_TIME, good_times[i], UNIT_NONE, READING_GOOD);
    for (size_t i = 0; i < sizeof bad_times / sizeof bad_times[0]; i++)
        refused(FIELD_PASS_TIME, bad_times[i], STATUS_SYNTAX);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table_limits),
        cmocka_unit_test(test_table_fallbacks),
        cmocka_unit_test(test_table_keys_unique),
        cmocka_unit_test(test_choices),
        cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_counts),
        cmocka_unit_test(test_texts),
        cmocka_unit_test(test_notes),
        cmocka_unit_test(test_fret_lists),
        cmocka_unit_test(test_radius),
        cmocka_unit_test(test_dates_and_times),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
