/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <string.h>

#include "model/reading/shop_round.h"
#include "store/profile/preset.h"

/* Starting points in round numbers of the shop's units, and steps from one to the next. */

static struct shop_units shop(bool metric)
{
    return metric ? shop_units_metric() : shop_units_inch();
}

static const char *rounded(enum field_id field, bool metric, double mm)
{
    static char memory[32];
    struct strbuf text = STRBUF(memory);
    const struct shop_units units = shop(metric);

    shop_round_add(field_get(field), &units, mm, &text);
    return memory;
}

static const char *next(enum field_id field, bool metric, double mm, int by)
{
    static char memory[32];
    struct strbuf text = STRBUF(memory);
    const struct shop_units units = shop(metric);

    shop_round_add_next(field_get(field), &units, mm, by, &text);
    return memory;
}

static void lengths_become_round(void **state)
{
    static const struct {
        enum field_id field;
        bool metric;
        double mm;
        const char *text;
    } cases[] = {
        {FIELD_TARGET_ACTION_BASS, true, 6.0 / 64 * 25.4, "2.4 mm"},
        {FIELD_TARGET_ACTION_BASS, true, 5.0 / 64 * 25.4, "2.0 mm"},
        {FIELD_TARGET_ACTION_TREBLE, true, 4.0 / 64 * 25.4, "1.6 mm"},
        {FIELD_TARGET_RELIEF, true, 0.008 * 25.4, "0.20 mm"},
        {FIELD_TARGET_GAP_BASS, true, 0.018 * 25.4, "0.45 mm"},
        {FIELD_TARGET_GAP_TREBLE, true, 0.012 * 25.4, "0.30 mm"},
        {FIELD_SCALE, true, 25.5 * 25.4, "648 mm"},
        {FIELD_TARGET_ACTION_BASS, false, 4, "10/64 in"},
        {FIELD_TARGET_ACTION_TREBLE, false, 3, "7.5/64 in"},
        {FIELD_TARGET_RELIEF, false, 0.15, ".006 in"},
        {FIELD_EXPOSURE_MIN, false, 3, "8/64 in"},
        {FIELD_EXPOSURE_NEW, false, 4, "10/64 in"},
        {FIELD_WIDTH_NUT, false, 43, "1.69 in"},
        {FIELD_SCALE, false, 650, "25.60 in"},
        {FIELD_RADIUS_NUT, true, 16 * 25.4, "410 mm"},
        {FIELD_RADIUS_NUT, true, 10 * 25.4, "250 mm"},
        {FIELD_RADIUS_NUT, false, 300, "12.0 in"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        assert_string_equal(rounded(cases[i].field, cases[i].metric, cases[i].mm), cases[i].text);
}

static void steps_lead_to_round_values(void **state)
{
    (void)state;
    assert_string_equal(next(FIELD_TARGET_ACTION_BASS, true, 5.0 / 64 * 25.4, 1), "2.0 mm");
    assert_string_equal(next(FIELD_TARGET_ACTION_BASS, true, 5.0 / 64 * 25.4, -1), "1.9 mm");
    assert_string_equal(next(FIELD_TARGET_ACTION_BASS, true, 2.0, 1), "2.1 mm");
    assert_string_equal(next(FIELD_TARGET_ACTION_BASS, true, 2.0, -1), "1.9 mm");
    assert_string_equal(next(FIELD_TARGET_RELIEF, true, 0.2032, -1), "0.20 mm");
    assert_string_equal(next(FIELD_TARGET_RELIEF, true, 0.2, -1), "0.15 mm");
    assert_string_equal(next(FIELD_TARGET_ACTION_BASS, false, 6.0 / 64 * 25.4, 1), "6.5/64 in");
    assert_string_equal(next(FIELD_TARGET_ACTION_BASS, false, 2.0, 1), "5.5/64 in");
    assert_string_equal(next(FIELD_TARGET_RELIEF, false, 0.008 * 25.4, 1), ".009 in");
    assert_string_equal(next(FIELD_TARGET_RELIEF, false, 0.15, 1), ".006 in");
    assert_string_equal(next(FIELD_EXPOSURE_MIN, false, 3, 1), "8/64 in");
    assert_string_equal(next(FIELD_EXPOSURE_MIN, true, 3, -1), "2.5 mm");
}

static bool is_metric(const char *text)
{
    return strstr(text, "mm") != NULL;
}

/* What has a size of its own: a string is sold by it, a thread is cut by it. */
static bool has_own_size(enum field_id field)
{
    return field == FIELD_GAUGE || field == FIELD_CORE || field == FIELD_THREAD;
}

static void check_reading(const struct reading *was, const struct reading *is, bool metric)
{
    const struct field *field = field_get(is->key.field);

    /* Nothing that a fresh instrument would be asked about. */
    if (is->value.state != READING_GOOD)
        fail_msg("%s: %s", field->key, is->text);
    if (field->quantity != QUANTITY_LENGTH)
        return;
    if (has_own_size(field->id)) {
        assert_string_equal(is->text, was->text);
        return;
    }
    if (is->value.value == 0)
        return;
    if (is_metric(is->text) != metric)
        fail_msg("%s: %s", field->key, is->text);
    /* Round, but the same to somebody who sets an instrument up. */
    if (was)
        assert_near(is->value.value, was->value.value,
                    fmax(0.03, 0.05 * fabs(was->value.value)) + 0.4);
    if (was && is_metric(was->text) == metric)
        assert_string_equal(is->text, was->text);
}

static void a_starting_point_is_the_shop_s(void **state)
{
    (void)state;
    for (int shops = 0; shops < 2; shops++)
        for (int i = 0; preset_get(i); i++) {
            const struct shop_units units = shop(shops == 1);
            struct record was, is;

            assert_int_equal(preset_record(preset_get(i), &was), STATUS_OK);
            assert_int_equal(record_copy(&was, &is), STATUS_OK);
            assert_int_equal(shop_round_record(&is, &units), STATUS_OK);
            for (size_t k = 0; k < is.count; k++)
                check_reading(record_get(&was, &is.readings[k].key), &is.readings[k], shops == 1);
            record_done(&was);
            record_done(&is);
        }
}

static const char *said(const struct record *record, enum field_id field)
{
    const struct reading_key key = reading_key_one(field);
    const char *text = record_text(record, &key);

    return text ? text : "";
}

/* A bridge in one piece has no exposure, and a nut that is raised for a bar makes none count. */
static void what_is_not_asked_is_not_said(void **state)
{
    static const char *const lacking[] = {"banjo", "lap-steel"};
    const struct shop_units inch = shop(false);
    int checked = 0;

    (void)state;
    for (int i = 0; preset_get(i); i++)
        for (int k = 0; k < 2; k++) {
            struct record record;

            if (strcmp(preset_get(i)->id, lacking[k]) != 0)
                continue;
            assert_int_equal(preset_record(preset_get(i), &record), STATUS_OK);
            assert_int_equal(shop_round_record(&record, &inch), STATUS_OK);
            assert_string_equal(said(&record, FIELD_EXPOSURE_MIN), "");
            assert_string_equal(said(&record, FIELD_EXPOSURE_NEW), "");
            record_done(&record);
            checked++;
        }
    assert_int_equal(checked, 2);
}

/* A metric shop's tolerances are its own; so is the least exposure of one that works in inches. */
static void what_holds_unsaid_is_said(void **state)
{
    const struct shop_units metric = shop(true), inch = shop(false);
    struct record record;

    (void)state;
    record_init(&record);
    assert_int_equal(shop_round_record(&record, &metric), STATUS_OK);
    assert_string_equal(said(&record, FIELD_RELIEF_TOLERANCE), "0.02 mm");
    assert_string_equal(said(&record, FIELD_ACTION_TOLERANCE), "0.2 mm");
    assert_string_equal(said(&record, FIELD_FEELER_STEP), "0.02 mm");
    assert_string_equal(said(&record, FIELD_RULE_STEP), "0.2 mm");
    assert_string_equal(said(&record, FIELD_EXPOSURE_MIN), "");
    record_done(&record);
    record_init(&record);
    assert_int_equal(shop_round_record(&record, &inch), STATUS_OK);
    assert_string_equal(said(&record, FIELD_RELIEF_TOLERANCE), "");
    assert_string_equal(said(&record, FIELD_EXPOSURE_MIN), "4/64 in");
    assert_string_equal(said(&record, FIELD_EXPOSURE_NEW), "10/64 in");
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths_become_round),
        cmocka_unit_test(steps_lead_to_round_values),
        cmocka_unit_test(a_starting_point_is_the_shop_s),
        cmocka_unit_test(what_is_not_asked_is_not_said),
        cmocka_unit_test(what_holds_unsaid_is_said),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
