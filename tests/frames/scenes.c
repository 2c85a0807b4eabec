/* SPDX-License-Identifier: MIT */
#include "scenes.h"

#include <stdio.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "near.h"
#include "store/profile/profile.h"

#define BOARD                                                                                      \
    "board scale = 25.5 in\n"                                                                      \
    "board strings = 6\n"                                                                          \
    "board frets = 22\n"                                                                           \
    "board join_fret = 16\n"

#define FORTY "1234567890123456789012345678901234567890"

const char *const scene_odd[] = {
    "",
    "board strings = 1\n",
    BOARD,
    BOARD "instrument name = " FORTY "\nvisit.1.pass.1 label = " FORTY "\n",
    /* Wide characters. */
    BOARD "instrument name = \xE5\xB2\xB8\xE5\xA3\x81\xE3\x81\xAE\xE6\xA5\xBD\xE5\x99\xA8"
          "\xE5\xB2\xB8\xE5\xA3\x81\xE3\x81\xAE\xE6\xA5\xBD\xE5\x99\xA8\n"
          "visit.1.pass.1 label = \xE5\xB2\xB8\xE5\xA3\x81\xE3\x81\xAE\xE6\xA5\xBD\xE5\x99\xA8\n",
    /* Combining marks, more of them than a cell holds. */
    BOARD "instrument name = e\xCC\x81\xCC\x82\xCC\x83\xCC\x84o\xCC\x88 lute\xCC\x81\n",
    /* Right to left, with the marks that would turn the rest of the row. */
    BOARD "instrument name = \xD7\xA2\xD7\x95\xD7\x93 \xE2\x80\xAE"
          "abc\xE2\x80\xAC \xD9\x82\n",
    /* Control characters, half a character, one that is none. */
    BOARD "instrument name = \x1B[31mred\x07\x7F\xC2\x9B"
          "31m\xE2\x82 \xFF\xC0\xAF\xF4\x90\x80\x80\n",
    BOARD "visit.1.pass.1 relief = 14.9 mm\nvisit.1.pass.1 nut_gap.6 = 20 mm\n"
          "visit.1.pass.1 action.6 = 60 mm\nvisit.1.pass.1 exposure_bass = 80 mm\n",
    BOARD "visit.1.pass.1 relief = -10 mm\nvisit.1.pass.1 nut_gap.6 = 0 mm\n"
          "visit.1.pass.1 action.6 = 0 mm\nvisit.1.pass.1 exposure_bass = 0 mm\n",
    BOARD "visit.9999.pass.999 relief = .010 in+.002 in+.0015 in\n"
          "visit.9999.pass.999 nut_gap.6 = .010 in+.002 in+.0015 in\n",
    "board scale = 100 mm\nboard strings = 12\nboard frets = 36\nboard join_fret = 36\n"
    "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 nut_gap.12 = .02 in\n"
    "visit.1.pass.1 action.12 = 6/64 in\n",
    "board scale = 2000 mm\nboard strings = 3\nboard frets = 0\n"
    "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 nut_gap.3 = .02 in\n"
    "visit.1.pass.1 action.3 = 6/64 in\n",
    "board scale_treble = 1000 mm\nboard scale_bass = 300 mm\nboard strings = 7\n"
    "board frets = 24\nboard join_fret = 16\nvisit.1.pass.1 relief = .006 in\n"
    "visit.1.pass.1 nut_gap.7 = .02 in\nvisit.1.pass.1 action.7 = 6/64 in\n",
};
const int scene_odd_count = sizeof scene_odd / sizeof scene_odd[0];

void scene_profile(struct app *app, const char *path, bool metric)
{
    struct profile *profile;
    struct record record;

    const enum status status = profile_open(path, PROFILE_TO_READ, NULL, &profile);
    if (status != STATUS_OK)
        fail_msg("%s: %s", path, status_text(status));
    assert_int_equal(record_copy(profile_record(profile), &record), STATUS_OK);
    profile_close(profile);
    bench_start_record(app, &record, metric, false);
}

static void put(struct record *record, struct reading_key key, const char *text)
{
    assert_int_equal(record_put(record, &key, text, false, NULL), STATUS_OK);
}

void scene_strings(struct app *app, int strings)
{
    static const char *const notes[STRINGS_MAX] = {"E4", "B3",  "G3", "D3",  "A2", "E2",
                                                   "B1", "F#1", "C1", "Eb4", "G4", "C#4"};
    struct record record;
    char text[32];

    build_record(&record, build_record_full);
    snprintf(text, sizeof text, "%d", strings);
    put(&record, reading_key_one(FIELD_STRINGS), text);
    for (int s = 1; s <= STRINGS_MAX; s++) {
        const struct reading_key gap = reading_key_pass_at(FIELD_NUT_GAP, 1, 1, s, 0);
        const struct reading_key action = reading_key_pass_at(FIELD_ACTION, 1, 1, s, 0);

        if (s > strings) {
            record_remove(&record, &gap);
            record_remove(&record, &action);
            continue;
        }
        put(&record, reading_key_string(FIELD_STRING_NOTE, s), notes[s - 1]);
        snprintf(text, sizeof text, ".0%d in", 18 + s);
        put(&record, gap, text);
        snprintf(text, sizeof text, "%d.25/64 in", 5 + s / 3);
        put(&record, action, text);
    }
    bench_start_record(app, &record, false, false);
}

bool scene_shows(const struct frame *frame, const char *words)
{
    char text[4 * FRAME_COLUMNS_MAX];

    for (int row = 2; row < frame->rows; row++) {
        frame_row_text(frame, row, text, sizeof text);
        if (strstr(text, words))
            return true;
    }
    return false;
}
