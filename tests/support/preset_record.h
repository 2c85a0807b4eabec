/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_PRESET_RECORD_H
#define SILLET_TESTS_PRESET_RECORD_H

#include <string.h>

#include "model/derive/derive.h"
#include "near.h"
#include "store/profile/preset.h"
#include "survey_record.h"

/* Records of the starting points, as they read when they are set up. */

static inline void preset_put_row(struct record *record, enum field_id field,
                                  struct maybe treble_mm, struct maybe bass_mm, int strings,
                                  double lower_mm)
{
    assert_true(treble_mm.given && bass_mm.given);
    for (int s = 1; s <= strings; s++) {
        const double toward_bass = (s - 1.0) / (strings - 1);

        build_record_put_mm(record, reading_key_pass_at(field, 1, 1, s, 0),
                            treble_mm.value + toward_bass * (bass_mm.value - treble_mm.value) -
                                lower_mm);
    }
}

/* Played with a bar: nothing is fretted, and nothing buzzes. */
static inline bool preset_is_barred(int preset)
{
    return strstr(preset_get(preset)->text, "kind = raised") != NULL;
}

/* A preset as it would read when it is at its targets, but with an action so much lower. */
static inline void preset_at_targets(int preset, double lower_mm, struct record *record,
                                     struct derived *derived)
{
    assert_int_equal(preset_record(preset_get(preset), record), STATUS_OK);
    derive_current(record, derived);

    const struct setup *setup = &derived->setup;
    const int strings = setup->board.strings;

    build_record_put_mm(record, reading_key_pass(FIELD_RELIEF, 1, 1),
                        setup->relief_target_mm.value);
    preset_put_row(record, FIELD_NUT_GAP, setup->gap_target_treble_mm, setup->gap_target_bass_mm,
                   strings, 0);
    preset_put_row(record, FIELD_ACTION, setup->action_target_treble_mm,
                   setup->action_target_bass_mm, strings, lower_mm);
    derive_current(record, derived);
}

#endif
