/* SPDX-License-Identifier: MIT */
#include "model/derive/heard.h"

#include <math.h>

#include "model/derive/lie.h"
#include "model/reading/record_access.h"
#include "model/reading/work_since.h"
#include "model/setup/setup.h"

static uint64_t notes_of(struct place place, enum field_id field, int string, int start, int frets)
{
    const struct maybe list = place_read_at(place, field, string, 0);
    uint64_t notes = list.given ? (uint64_t)list.value : 0;

    notes |= (notes & 1) << start;
    return notes & ((UINT64_C(2) << frets) - 1) & ~((UINT64_C(1) << start) - 1);
}

struct heard_notes heard_in_pass(struct place place, int string, int start, int frets)
{
    struct heard_notes notes = {.buzzing = notes_of(place, FIELD_BUZZ, string, start, frets)};

    /* One that was heard to buzz is the stronger witness. */
    notes.clean = notes_of(place, FIELD_CLEAN, string, start, frets) & ~notes.buzzing;
    return notes;
}

struct heard_notes heard_at(struct place place, int string, int start, int frets)
{
    struct heard_notes notes = heard_in_pass(place, string, start, frets);
    uint64_t played = notes.clean | notes.buzzing;
    bool changed = false;

    for (int pass = place.pass - 1; pass >= lie_first_pass(place); pass--) {
        const struct place then = place_of(&place.record, place.visit, pass);
        const struct heard_notes heard = heard_in_pass(then, string, start, frets);

        if (((heard.clean | heard.buzzing) & ~played) == 0)
            continue;
        changed = changed || lie_is_other(then, place, string);
        if (changed) {
            notes.again |= heard.buzzing & ~played;
        } else {
            notes.clean |= heard.clean & ~played;
            notes.buzzing |= heard.buzzing & ~played;
        }
        played |= heard.clean | heard.buzzing;
    }
    return notes;
}

/* The frets of a string that a pass has cents of, and those where they are off. */
static uint64_t tuned_in_pass(struct place place, int string, int frets, uint64_t *ret_off)
{
    const struct record *record = &place.record;
    const struct reading_key first = place_key_at(place, FIELD_CENTS, string, 1);
    const struct reading_key last = place_key_at(place, FIELD_CENTS, string, frets);
    uint64_t tuned = 0;

    *ret_off = 0;
    for (size_t i = record_lower_bound(record, &first); i < record->count; i++) {
        const struct reading *cents = &record->readings[i];

        if (reading_key_compare(&cents->key, &last) > 0)
            break;
        if (cents->value.state == READING_BAD)
            continue;
        const uint64_t bit = (uint64_t)1 << cents->key.fret;
        tuned |= bit;
        if (setup_is_off(cents->value.value, record_or_fallback(record, FIELD_CENTS_TOLERANCE)))
            *ret_off |= bit;
    }
    return tuned;
}

bool heard_cents_are_left(struct place place, int string, int frets)
{
    uint64_t off, tuned = tuned_in_pass(place, string, frets, &off);

    for (int pass = place.pass - 1; pass >= lie_first_pass(place); pass--) {
        const struct place then = place_of(&place.record, place.visit, pass);
        const uint64_t before = tuned, read = tuned_in_pass(then, string, frets, &off);

        if ((off & ~before) != 0 && (before == 0 || !work_between(then, place, ~0U, string)))
            return true;
        tuned |= read;
    }
    return false;
}

bool heard_any_cents(struct place place, int strings, int frets)
{
    uint64_t off;

    for (int pass = place.pass; pass >= lie_first_pass(place); pass--) {
        const struct place then = place_of(&place.record, place.visit, pass);

        for (int s = 1; s <= strings; s++)
            if (tuned_in_pass(then, s, frets, &off) != 0 &&
                (pass == place.pass || !work_between(then, place, ~0U, s)))
                return true;
    }
    return false;
}
