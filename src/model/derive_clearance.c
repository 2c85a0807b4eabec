/* SPDX-License-Identifier: MIT */
#include "model/derive_clearance.h"

double derive_touch_mm(const struct record *record)
{
    return clearance_touch_mm((enum clearance_touch)(int)record_or_fallback(record, FIELD_TOUCH));
}

/* The tension stopped at every fret, from that of the ideal string. Where it is not known
 * it stands in with the open one's, and the note is left out. False when any is missing. */
static bool find_tensions(const struct board *board, const struct string_facts *facts,
                          const struct fret_pitch *pitch, double tension_n[FRETS_MAX + 1],
                          bool known[FRETS_MAX + 1])
{
    const double open = facts->tension_n > 0 ? facts->tension_n : 1;
    bool all = true;

    tension_n[0] = open;
    known[0] = true;
    for (int n = 1; n <= board->frets; n++) {
        known[n] = facts->tension_n > 0 && pitch->known[n] && open + pitch->rise_n[n] > 0;
        tension_n[n] = known[n] ? open + pitch->rise_n[n] : open;
        all = all && known[n];
    }
    return all;
}

static void find_headroom(const struct clearance_string *string,
                          const bool known[FRETS_MAX + 1], struct fret_clearance *clearance)
{
    for (int n = 0; n < string->last_fret; n++)
        clearance->known[n] =
            known[n] && clearance_find_headroom(string, n, &clearance->headroom_mm[n],
                                                &clearance->at[n]) == STATUS_OK;
}

static void mark_heard(const struct record *record, struct reading_key key, int frets,
                       enum clearance_heard as, enum clearance_heard heard[FRETS_MAX + 1])
{
    const struct entered list = record_entered(record, key);
    const uint64_t set = list.given ? (uint64_t)list.value : 0;

    for (int n = 0; n <= frets; n++)
        if (set >> n & 1)
            heard[n] = as;
}

/* A note named in both lists buzzes: one that was heard to is the stronger witness. */
static void find_high(const struct record *record, int visit, int pass, int number,
                      const struct clearance_string *string, struct fret_clearance *clearance)
{
    enum clearance_heard heard[FRETS_MAX + 1] = {CLEARANCE_NOT_PLAYED};

    mark_heard(record, reading_key_pass_at(FIELD_CLEAN, visit, pass, number, 0),
               string->last_fret, CLEARANCE_CLEAN, heard);
    mark_heard(record, reading_key_pass_at(FIELD_BUZZ, visit, pass, number, 0),
               string->last_fret, CLEARANCE_BUZZES, heard);
    clearance->has_high = clearance_find_high_fret(string, derive_touch_mm(record), heard,
                                                   &clearance->high) == STATUS_OK;
}

void derive_clearance(const struct record *record, const struct setup *setup, int visit, int pass,
                      const struct string_facts *facts, const struct string_lines *lines,
                      const struct fret_pitch *pitch, struct fret_clearance *ret_clearance)
{
    const struct board *board = &setup->board;
    const double pluck_mm = record_or_fallback(record, FIELD_PLUCK_DISTANCE);
    double crown_mm[FRETS_MAX + 1], tension_n[FRETS_MAX + 1];
    bool known[FRETS_MAX + 1];

    for (int s = 1; s <= board->strings; s++) {
        ret_clearance[s] = (struct fret_clearance){.has_high = false};
        if (!lines->now[s].known)
            continue;
        for (int n = 0; n <= board->frets; n++)
            crown_mm[n] = neck_curve_height_mm(&lines->curve_now, board, s, n);
        const bool all = find_tensions(board, &facts[s], &pitch[s], tension_n, known);
        const struct clearance_string string = {
            .last_fret = board->frets,
            .x_mm = board->station_mm[s],
            .z_mm = crown_mm,
            .saddle_x_mm = board->contact_mm[s],
            .nut_height_mm = lines->now[s].nut_mm,
            .saddle_height_mm = lines->now[s].saddle_mm,
            .open_tension_n = tension_n[0],
            .tension_n = tension_n,
            .pluck_mm = pluck_mm,
        };
        find_headroom(&string, known, &ret_clearance[s]);
        if (all)
            find_high(record, visit, pass, s, &string, &ret_clearance[s]);
    }
}
