/* SPDX-License-Identifier: MIT */
#include "model/derive/past.h"

#include <string.h>

struct past past_of(const struct record *record)
{
    const struct place none = place_of(record, 0, 0);

    return (struct past){.belief = belief_walk_of(record),
                         .season = season_walk_of(record),
                         .turns = rod_walk_of(record),
                         .rod_visit = -1,
                         .looked = none};
}

static void move_place(struct place *place, const struct record *record)
{
    *place = place_of(record, place->visit, place->pass);
}

void past_move_to(struct past *past, const struct record *record)
{
    struct place *const places[] = {
        &past->belief.at,    &past->belief.turns.at, &past->belief.turns.read,
        &past->season.place, &past->turns.at,        &past->turns.read,
        &past->looked};

    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
        move_place(places[i], record);
    for (int i = 0; i < past->heard_count; i++)
        move_place(&past->heard[i].place, record);
}

void past_visits(struct past *past, const struct setup *setup, struct place place)
{
    struct survey_rod unused;
    struct findings nothing = {.count = 0};

    season_walk_to(&past->season, setup, place.visit);
    if (place.visit > 1)
        survey_rod_after(&past->turns, place_of(&place.record, place.visit - 1, PASSES_MAX),
                         &unused, &nothing);
}

const struct survey_rod *past_rod(struct past *past, struct place place)
{
    struct findings unused = {.count = 0};

    if (past->rod_visit != place.visit)
        survey_rod_after(&past->turns, place_of(&place.record, place.visit, PASSES_MAX), &past->rod,
                         &unused);
    past->rod_visit = place.visit;
    return &past->rod;
}

static bool is_heard(struct place place, int strings)
{
    for (int s = 1; s <= strings; s++)
        if (place_read_at(place, FIELD_CLEAN, s, 0).given ||
            place_read_at(place, FIELD_BUZZ, s, 0).given)
            return true;
    return false;
}

/* Back from `place` to what was looked at before, or as far as there is room. */
static int find_heard(const struct past *past, struct place place, int strings,
                      struct place found[PAST_HEARD])
{
    int count = 0;

    do {
        if (!place_is_after(place, past->looked))
            break;
        if (is_heard(place, strings))
            found[count++] = place;
    } while (count < PAST_HEARD && place_before(&place));
    return count;
}

void past_hear(struct past *past, struct place place, int strings)
{
    struct place found[PAST_HEARD];

    if (place_is_after(past->looked, place)) {
        past->looked = place_of(&place.record, 0, 0);
        past->heard_count = 0;
        past->has_bounds = false;
    }
    const int count = find_heard(past, place, strings, found);
    past->looked = place;
    if (count == 0)
        return;
    past->heard_count =
        past->heard_count + count < PAST_HEARD ? past->heard_count + count : PAST_HEARD;
    memmove(&past->heard[count], &past->heard[0],
            sizeof past->heard[0] * (size_t)(past->heard_count - count));
    for (int i = 0; i < count; i++) {
        past->heard[i].place = found[i];
        past->heard[i].known = false;
    }
    past->has_bounds = false;
}
