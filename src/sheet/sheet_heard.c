/* SPDX-License-Identifier: MIT */
#include "model/reading/place.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

/* What buzzed as found, and whether it still did. */

/* The notes of a string with that field in a pass, bit n for fret n. */
static uint64_t notes_of(struct place place, enum field_id field, int string)
{
    const struct maybe notes = place_read_at(place, field, string, 0);

    return notes.given ? (uint64_t)notes.value : 0;
}

/* The notes that were played. */
static uint64_t played(struct place place, int string)
{
    return notes_of(place, FIELD_BUZZ, string) | notes_of(place, FIELD_CLEAN, string);
}

static bool any_buzz(struct place place)
{
    for (int s = 1; s <= STRINGS_MAX; s++)
        if (notes_of(place, FIELD_BUZZ, s))
            return true;
    return false;
}

/* The last pass after the first in which a string was heard; pass 0 for none. */
static struct place find_last_heard(const struct sheet_maker *maker)
{
    struct place place = place_of(maker->record, maker->visit, maker->first);
    struct place found = place_of(maker->record, maker->visit, 0);

    while (place_next(&place) && place.visit == maker->visit && place.pass <= maker->last)
        for (int s = 1; s <= STRINGS_MAX; s++)
            if (played(place, s))
                found = place;
    return found;
}

/* "string 5 buzzed open, string 3 at frets 4 and 5" */
static void say_buzzes(struct place place, const struct outfit *outfit, struct strbuf *out)
{
    int said = 0;

    for (int s = STRINGS_MAX; s >= 1; s--) {
        const uint64_t notes = notes_of(place, FIELD_BUZZ, s);
        const uint64_t open = UINT64_C(1) | UINT64_C(1) << outfit->from_fret[s];
        const uint64_t fretted = notes & ~open;

        if (!notes)
            continue;
        strbuf_addf(out, said ? ", %s %d" : "%s %d buzzed", outfit_noun(outfit, s),
                    outfit_number(outfit, s));
        said++;
        if (notes & open)
            strbuf_add(out, fretted ? " open and" : " open");
        if (!fretted)
            continue;
        strbuf_add(out, " at ");
        sheet_say_numbers(out, fretted, false, "fret", "frets");
    }
}

/* Each note that buzzed has to have been played again, and clean when it was played last. */
static bool is_cured(struct place found, struct place left)
{
    for (int s = 1; s <= STRINGS_MAX; s++) {
        uint64_t clean = 0;

        for (struct place at = left; at.pass >= found.pass; at.pass--) {
            if (notes_of(at, FIELD_BUZZ, s) & ~clean)
                return false;
            clean |= notes_of(at, FIELD_CLEAN, s);
        }
    }
    return true;
}

void sheet_add_heard(struct sheet_maker *maker)
{
    const struct place found = place_of(maker->record, maker->visit, maker->first);
    const struct place left = find_last_heard(maker);
    char memory[1200];
    struct strbuf text = STRBUF(memory);

    if (maker->first == 0)
        return;
    if (any_buzz(found)) {
        strbuf_add(&text, "As found ");
        say_buzzes(found, &maker->left.setup.outfit, &text);
        strbuf_add_char(&text, '.');
    }
    if (left.pass > 0 && any_buzz(left)) {
        strbuf_addf(&text, "%sPlayed afterwards: ", text.length > 0 ? " " : "");
        say_buzzes(left, &maker->left.setup.outfit, &text);
        strbuf_add_char(&text, '.');
    } else if (left.pass > 0 && text.length > 0 && is_cured(found, left)) {
        strbuf_add(&text, " Played again afterwards: no buzz where it was heard.");
    }
    sheet_add_text(maker->sheet, SHEET_PARAGRAPH, memory);
}
