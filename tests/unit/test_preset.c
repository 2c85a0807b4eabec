/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "build_record.h"
#include "model/derive/derive.h"
#include "model/setup/string_target.h"
#include "store/profile/preset.h"
#include "store/profile/profile_load.h"

enum { PRESETS = 20 };

static void each_has_a_name_of_its_own(void **state)
{
    int count = 0;

    (void)state;
    for (; preset_get(count); count++)
        for (int i = 0; i < count; i++) {
            assert_string_not_equal(preset_get(i)->id, preset_get(count)->id);
            assert_string_not_equal(preset_get(i)->title, preset_get(count)->title);
        }
    assert_int_equal(count, PRESETS);
    assert_null(preset_get(-1));
    assert_string_equal(preset_get(0)->id, "steel-string-14");
}

/* Nothing in them is doubtful, but that they have no [end] of a written file. */
static void none_has_a_problem(void **state)
{
    (void)state;
    for (int i = 0; i < PRESETS; i++) {
        struct problems problems;
        struct profile_content content;
        struct bytes bytes;

        problems_init(&problems);
        bytes_init(&bytes);
        bytes_add_text(&bytes, preset_get(i)->text);
        assert_int_equal(profile_load(&bytes, &problems, &content), STATUS_OK);
        profile_check(&content, &problems);
        for (size_t k = 0; k < problems.count; k++)
            if (!strstr(problems.items[k].words, "[end]"))
                fail_msg("%s: %s", preset_get(i)->id, problems.items[k].words);
        profile_content_done(&content);
        problems_done(&problems);
        bytes_done(&bytes);
    }
}

static void check_has(const char *id, const struct record *record, const enum field_id *fields,
                      size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct reading_key key = reading_key_one(fields[i]);

        if (!record_get(record, &key))
            fail_msg("%s lacks %s", id, field_get(fields[i])->key);
    }
}

static void check_whole(const char *id, const struct record *record)
{
    static const enum field_id needed[] = {FIELD_KIND, FIELD_FRETS, FIELD_JOIN_FRET,
                                           FIELD_RELIEF_FRET, FIELD_BRIDGE_KIND};
    static const enum field_id fretted[] = {FIELD_TARGET_RELIEF, FIELD_TARGET_ACTION_BASS,
                                            FIELD_TARGET_ACTION_TREBLE, FIELD_TARGET_GAP_BASS,
                                            FIELD_TARGET_GAP_TREBLE};
    static const enum field_id barred[] = {FIELD_TARGET_HEIGHT_NUT, FIELD_TARGET_HEIGHT_SADDLE};
    struct outfit outfit;

    outfit_read(&outfit, record, 0);
    check_has(id, record, needed, sizeof needed / sizeof needed[0]);
    if (outfit.lap)
        check_has(id, record, barred, sizeof barred / sizeof barred[0]);
    else
        check_has(id, record, fretted, sizeof fretted / sizeof fretted[0]);
    assert_true(record_entered_one(record, FIELD_SCALE).given !=
                (record_entered_one(record, FIELD_SCALE_TREBLE).given &&
                 record_entered_one(record, FIELD_SCALE_BASS).given));
    const int strings = (int)assert_given(record_entered_one(record, FIELD_STRINGS));
    for (int s = 1; s <= STRINGS_MAX; s++) {
        const struct reading_key note = reading_key_string(FIELD_STRING_NOTE, s);
        const struct reading_key gauge = reading_key_string(FIELD_GAUGE, s);

        assert_int_equal(record_get(record, &note) != NULL, s <= strings);
        assert_int_equal(record_get(record, &gauge) != NULL, s <= strings);
    }
    assert_int_equal(record_last_visit(record), 0);
}

static void each_brings_what_the_bench_needs(void **state)
{
    (void)state;
    for (int i = 0; i < PRESETS; i++) {
        const struct reading_key key = reading_key_one(FIELD_PRESET);
        struct record record;
        struct derived derived;

        assert_int_equal(preset_record(preset_get(i), &record), STATUS_OK);
        check_whole(preset_get(i)->id, &record);
        assert_string_equal(record_text(&record, &key), preset_get(i)->id);
        derive_current(&record, &derived);
        assert_true(derived.setup.has_board);
        for (int k = 0; k < derived.findings.count; k++)
            if (finding_weight(derived.findings.list[k].id) == WEIGHT_FAULT)
                fail_msg("%s: %s", preset_get(i)->id, finding_name(derived.findings.list[k].id));
        record_done(&record);
    }
}

static struct reading_key of_string(enum field_id field, int string)
{
    return reading_key_pass_at(field, 1, 1, string, 0);
}

/* A reading for each string of which one is asked, as the outer two targets have it. */
static void read_row(struct record *record, const struct outfit *outfit, enum field_id field,
                     struct maybe bass_mm, struct maybe treble_mm)
{
    for (int s = 1; s <= outfit->strings; s++)
        if (outfit_asks(outfit, field, s))
            build_record_put_mm(record, of_string(field, s),
                                assert_given(setup_target_at(&bass_mm, &treble_mm, outfit, s)));
}

static void read_one(struct record *record, const struct outfit *outfit, enum field_id field,
                     struct maybe mm)
{
    if (outfit_asks(outfit, field, 0))
        build_record_put_mm(record, reading_key_pass(field, 1, 1), assert_given(mm));
}

/* A string that starts higher stands lower over a level bridge. */
static void read_action(struct record *record, const struct setup *setup)
{
    for (int s = 1; s <= setup->outfit.strings; s++)
        if (outfit_is_read(&setup->outfit, s) && outfit_asks(&setup->outfit, FIELD_ACTION, s))
            build_record_put_mm(record, reading_key_pass_at(FIELD_ACTION, 1, 1, s, 0),
                                assert_given(string_target_action(setup, s)));
}

static void read_at_targets(struct record *record, const struct setup *setup)
{
    const struct outfit *outfit = &setup->outfit;

    read_one(record, outfit, FIELD_RELIEF, setup->relief_target_mm);
    read_row(record, outfit, FIELD_NUT_GAP, setup->gap_target_bass_mm, setup->gap_target_treble_mm);
    read_action(record, setup);
    read_row(record, outfit, FIELD_HEIGHT_NUT, setup->height_nut_target_mm,
             setup->height_nut_target_mm);
    read_row(record, outfit, FIELD_HEIGHT_SADDLE, setup->height_saddle_target_mm,
             setup->height_saddle_target_mm);
    read_one(record, outfit, FIELD_EXPOSURE_BASS, maybe_given(setup->exposure_new_mm));
    read_one(record, outfit, FIELD_EXPOSURE_TREBLE, maybe_given(setup->exposure_new_mm));
}

/* What a set-up is for: at its targets nothing is left to do, and at its own touch no note of it
 * buzzes. */
static void at_its_targets_each_is_ready(void **state)
{
    (void)state;
    for (int i = 0; i < PRESETS; i++) {
        const char *id = preset_get(i)->id;
        struct record record;
        struct derived derived;

        assert_int_equal(preset_record(preset_get(i), &record), STATUS_OK);
        derive_current(&record, &derived);
        read_at_targets(&record, &derived.setup);
        derive_current(&record, &derived);
        if (move_set_verdict(&derived.moves) != MOVES_READY)
            fail_msg("%s: %s", id, move_verdict_name(move_set_verdict(&derived.moves)));
        for (int k = 0; k < MOVE_COUNT_; k++)
            if (derived.moves.move[k].state == MOVE_DUE)
                fail_msg("%s: move %d is due", id, k);
        for (int s = 1; s <= derived.setup.board.strings; s++) {
            /* Nothing is stopped under a bar, and nothing buzzes. */
            assert_int_equal(
                derived.clearance[s].headroom_mm[derived.setup.board.start_fret[s]].given,
                !derived.setup.outfit.lap);
            for (int n = 0; n < derived.setup.board.frets; n++) {
                const struct maybe headroom_mm = derived.clearance[s].headroom_mm[n];

                if (headroom_mm.given && !(headroom_mm.value >= derived.touch.mm[s]))
                    fail_msg("%s: string %d buzzes at fret %d", id, s, n);
            }
        }
        record_done(&record);
    }
}

/* Tensions of such sets, common practice, no published source: a string of a guitar pulls
 * 40 to 150 N, one of a bass up to 260 N. */
static void their_strings_pull_as_such_strings_do(void **state)
{
    (void)state;
    for (int i = 0; i < PRESETS; i++) {
        struct record record;
        struct derived derived;
        int known = 0;

        assert_int_equal(preset_record(preset_get(i), &record), STATUS_OK);
        derive_current(&record, &derived);
        for (int s = 1; s <= derived.setup.board.strings; s++) {
            const struct maybe tension_n = figures_get(&derived.figures, FIGURE_TENSION, s);

            if (!tension_n.given)
                continue;
            known++;
            if (!(tension_n.value > 25 && tension_n.value < 260))
                fail_msg("%s: string %d pulls %.0f N", preset_get(i)->id, s, tension_n.value);
        }
        assert_int_equal(known, derived.setup.board.strings);
        record_done(&record);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_has_a_name_of_its_own),
        cmocka_unit_test(none_has_a_problem),
        cmocka_unit_test(each_brings_what_the_bench_needs),
        cmocka_unit_test(at_its_targets_each_is_ready),
        cmocka_unit_test(their_strings_pull_as_such_strings_do),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
