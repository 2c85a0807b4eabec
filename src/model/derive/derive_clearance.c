/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_clearance.h"

#include <math.h>

#include "model/setup/rocker.h"

/* The tension stopped at every fret, from that of the ideal string. */
static void find_tensions(const struct board *board, int start, const struct string_facts *facts,
                          const struct fret_pitch *pitch, struct string_clearance *arrays)
{
    const double open = maybe_or(facts->tension_n, 1);

    arrays->all_known = true;
    arrays->tension_n[start] = open;
    arrays->known[start] = true;
    for (int n = start + 1; n <= board->frets; n++) {
        const double pressed = open + maybe_or(pitch->rise_n[n], 0);
        const bool known = facts->tension_n.given && pitch->rise_n[n].given && pressed > 0;

        arrays->known[n] = known;
        arrays->tension_n[n] = known ? pressed : open;
        arrays->all_known = arrays->all_known && known;
    }
}

bool derive_string_clearance(const struct record *record, const struct setup *setup,
                             const struct string_facts *facts, const struct string_lines *lines,
                             const struct fret_pitch *pitch, int string,
                             struct string_clearance *ret_arrays,
                             struct clearance_string *ret_string)
{
    const struct board *board = &setup->board;
    const int start = board->start_fret[string];

    if (!lines->now[string].known)
        return false;
    for (int n = 0; n <= board->frets; n++)
        ret_arrays->crown_mm[n] = neck_curve_height_mm(&lines->curve_now, board, string, n);
    find_tensions(board, start, facts, pitch, ret_arrays);
    *ret_string = (struct clearance_string){
        .open_note = start,
        .last_fret = board->frets,
        .x_mm = board->station_mm[string],
        .z_mm = ret_arrays->crown_mm,
        .saddle_x_mm = board->contact_mm[string],
        .nut_height_mm = lines->now[string].nut_mm,
        .saddle_height_mm = lines->now[string].saddle_mm,
        .open_tension_n = ret_arrays->tension_n[start],
        .tension_n = ret_arrays->tension_n,
        .pluck_mm = record_or_fallback(record, FIELD_PLUCK_DISTANCE),
    };
    return true;
}

static void find_headroom(const struct clearance_string *string, const bool known[FRETS_MAX + 1],
                          struct fret_clearance *clearance)
{
    double headroom_mm;

    for (int n = string->open_note; n < string->last_fret; n++)
        if (known[n] &&
            clearance_find_headroom(string, n, &headroom_mm, &clearance->at[n]) == STATUS_OK)
            clearance->headroom_mm[n] = maybe_given(headroom_mm);
}

void derive_heard(const struct heard_notes *notes, enum clearance_heard ret_heard[FRETS_MAX + 1])
{
    for (int n = 0; n <= FRETS_MAX; n++)
        ret_heard[n] = notes->buzzing >> n & 1 ? CLEARANCE_BUZZES
                       : notes->clean >> n & 1 ? CLEARANCE_CLEAN
                                               : CLEARANCE_NOT_PLAYED;
}

void derive_headroom(const struct record *record, const struct setup *setup,
                     const struct string_facts *facts, const struct string_lines *lines,
                     const struct fret_pitch *pitch, struct fret_clearance *ret_clearance)
{
    struct string_clearance arrays;
    struct clearance_string string;

    for (int s = 1; s <= setup->board.strings; s++) {
        ret_clearance[s] = (struct fret_clearance){.has_high = false};
        if (derive_string_clearance(record, setup, &facts[s], lines, &pitch[s], s, &arrays,
                                    &string))
            find_headroom(&string, arrays.known, &ret_clearance[s]);
    }
}

/* A fret that was rocked stands no higher than its leaf leaves it. */
static void find_doubts(const struct setup *setup, double u_mm, double doubt_mm[FRETS_MAX + 1])
{
    for (int n = 0; n <= FRETS_MAX; n++)
        doubt_mm[n] = setup->spot_mm[n].given ? u_mm : (double)INFINITY;
}

void derive_high_frets(struct place place, const struct setup *setup,
                       const struct string_facts *facts, const struct string_lines *lines,
                       const struct fret_pitch *pitch, const struct touch *touch,
                       struct fret_clearance *clearance)
{
    const double u_mm = rocker_u_mm(&place.record);
    enum clearance_heard heard[FRETS_MAX + 1];
    double doubt_mm[FRETS_MAX + 1];
    struct string_clearance arrays;
    struct clearance_string string;

    find_doubts(setup, u_mm, doubt_mm);
    for (int s = 1; s <= setup->board.strings; s++) {
        if (!derive_string_clearance(&place.record, setup, &facts[s], lines, &pitch[s], s, &arrays,
                                     &string))
            continue;
        struct heard_notes notes =
            heard_at(place, s, setup->board.start_fret[s], setup->board.frets);

        notes.buzzing &= ~rocker_find_low(setup->spot_mm, notes.buzzing, u_mm);
        string.doubt_mm = doubt_mm;
        derive_heard(&notes, heard);
        clearance[s].has_high =
            arrays.all_known &&
            clearance_find_high_fret(&string, touch->mm[s], heard, &clearance[s].high) == STATUS_OK;
    }
}
