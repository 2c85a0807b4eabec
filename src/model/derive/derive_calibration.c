/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_calibration.h"

#include "model/setup/uncertainty.h"

enum status derive_calibration(struct place place, const struct setup *setup,
                               const struct string_facts *facts, const struct string_lines *lines,
                               int string, struct intonation_calibration *ret_calibration)
{
    const struct board *board = &setup->board;
    const struct cents_read read = derive_read_cents(place, board, string);
    struct intonation_reading readings[FRETS_MAX + 1];
    struct intonation_setup played;
    double crown_mm[FRETS_MAX + 1];

    if (read.count < CALIBRATION_READINGS_LEAST ||
        !derive_intonation_setup(&place.record, setup, facts, lines, string, crown_mm, &played))
        return STATUS_ABSENT;
    for (int i = 0; i < read.count; i++)
        readings[i] = (struct intonation_reading){
            .setup = &played,
            .ends = {.setback_mm = board->contact_mm[string] - board->scale_mm[string]},
            .fret = read.at[i].fret - board->start_fret[string],
            .cents = read.at[i].cents,
        };
    return intonation_calibrate(
        readings, read.count, played.conditions.press_depth_mm, played.conditions.clamped_ends,
        uncertainty_of_step(record_or_fallback(&place.record, FIELD_TUNER_STEP)), ret_calibration);
}
