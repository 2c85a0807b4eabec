/* SPDX-License-Identifier: MIT */
#include "model/derive/past.h"

struct past past_of(const struct record *record)
{
    const struct place none = place_of(record, 0, 0);

    return (struct past){.season = season_walk_of(record),
                         .turns = rod_walk_of(record),
                         .rod_visit = -1,
                         .heard = none,
                         .looked = none};
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

struct place past_heard(struct past *past, struct place place, int strings)
{
    struct place at = place;
    bool found = false;

    if (place_is_after(past->looked, place))
        past->heard = past->looked = place_of(&place.record, 0, 0);
    do
        found = place_is_after(at, past->looked) && is_heard(at, strings);
    while (!found && place_is_after(at, past->looked) && place_before(&at));
    past->looked = place;
    if (found || past->heard.pass == 0)
        past->has_touch = false;
    if (found)
        past->heard = at;
    return past->heard;
}
