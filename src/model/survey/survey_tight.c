/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_tight.h"

/* False if no note of the string has a headroom. */
static bool find_tightest(const struct derived *derived, int string, struct tight_note *ret_note)
{
    const struct fret_clearance *clearance = &derived->clearance[string];
    bool found = false;

    for (int n = 0; n <= derived->setup.board.frets; n++) {
        if (!clearance->headroom_mm[n].given)
            continue;
        const double share = clearance->headroom_mm[n].value / derived->touch.mm[string];

        if (found && share >= ret_note->share)
            continue;
        *ret_note = (struct tight_note){string, n, clearance->at[n], share};
        found = true;
    }
    return found;
}

/* Keeps the tightest, in order. */
static void keep(struct survey_tight *tight, struct tight_note note)
{
    int i = tight->count;

    while (i > 0 && note.share < tight->note[i - 1].share) {
        if (i < TIGHT_NOTES)
            tight->note[i] = tight->note[i - 1];
        i--;
    }
    if (i < TIGHT_NOTES)
        tight->note[i] = note;
    if (tight->count < TIGHT_NOTES)
        tight->count++;
}

static struct maybe find_gain(const struct clearance_string *string, const struct tight_note *note,
                              double headroom_mm)
{
    double then_mm;

    if (clearance_find_headroom(string, note->note, &then_mm, NULL) != STATUS_OK)
        return maybe_absent();
    return maybe_finite(then_mm - headroom_mm);
}

static void find_gains(struct place place, const struct derived *derived,
                       const struct survey_levelling *levelling, struct survey_tight *tight)
{
    const struct tight_note *first = &tight->note[0];
    const int s = first->string;
    const struct board *board = &derived->setup.board;
    const double now_mm = derived->clearance[s].headroom_mm[first->note].value;
    struct string_clearance arrays;
    struct clearance_string string;
    double off_mm = 0;

    if (!derive_string_clearance(&place.record, &derived->setup, &derived->string[s],
                                 &derived->lines, &derived->pitch[s], s, &arrays, &string))
        return;
    struct clearance_string raised = string;
    raised.saddle_height_mm +=
        TIGHT_RAISE_MM * board->contact_mm[s] / board->station_mm[s][board->action_fret];
    tight->raised_mm = find_gain(&raised, first, now_mm);
    for (int n = 1; levelling->known && n <= board->frets; n++) {
        const double take_mm = levelling->fret[LEVELLING_SPOTS][n].take_mm;

        arrays.crown_mm[n] -= take_mm;
        off_mm += take_mm;
    }
    if (off_mm > 0)
        tight->levelled_mm = find_gain(&string, first, now_mm);
}

static void find_notes(const struct derived *derived, struct survey_tight *tight)
{
    for (int s = 1; s <= derived->setup.board.strings; s++) {
        struct tight_note note = {0};

        if (outfit_is_read(&derived->setup.outfit, s) && find_tightest(derived, s, &note))
            keep(tight, note);
    }
}

bool survey_tightest(const struct derived *derived, struct tight_note *ret_note)
{
    struct survey_tight tight = {.count = 0};

    if (derived->setup.has_board)
        find_notes(derived, &tight);
    if (tight.count > 0)
        *ret_note = tight.note[0];
    return tight.count > 0;
}

void survey_tight(struct place place, const struct derived *derived,
                  const struct survey_levelling *levelling, struct survey_tight *ret_tight)
{
    *ret_tight = (struct survey_tight){.count = 0};
    find_notes(derived, ret_tight);
    if (ret_tight->count > 0)
        find_gains(place, derived, levelling, ret_tight);
}
