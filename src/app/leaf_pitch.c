/* SPDX-License-Identifier: MIT */
#include "app/leaf_pitch.h"

#include "app/leaf.h"

/* The bass string first, as the tech faces the board. */
static void lay_fret(const struct leaf_place *place, struct route *route, int fret)
{
    for (int s = place->strings; s >= 1; s--)
        route_add(route, reading_key_pass_at(FIELD_CENTS, place->visit, place->pass, s, fret),
                  place->strings - s, fret, s);
}

static void lay_setbacks(const struct leaf_place *place, struct route *route)
{
    for (int s = place->strings; s >= 1; s--)
        route_add(route, reading_key_string(FIELD_SETBACK, s), place->strings - s,
                  PITCH_SETBACK_COLUMN, s);
}

/* Fret 12 of every string, by which the trade sets the saddle, and where the saddle stands;
 * then every other fret, which is enough for a curve, and the ones between. */
void leaf_lay_pitch(const struct leaf_place *place, struct route *route)
{
    if (place->frets >= PITCH_OCTAVE_FRET)
        lay_fret(place, route, PITCH_OCTAVE_FRET);
    lay_setbacks(place, route);
    for (int fret = 1; fret <= place->frets; fret += 2)
        lay_fret(place, route, fret);
    for (int fret = 2; fret <= place->frets; fret += 2)
        if (fret != PITCH_OCTAVE_FRET)
            lay_fret(place, route, fret);
}
