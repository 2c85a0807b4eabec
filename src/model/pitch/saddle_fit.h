/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_PITCH_SADDLE_FIT_H
#define SILLET_MODEL_PITCH_SADDLE_FIT_H

#include <stdbool.h>

/*
 * Whether one straight saddle can hold the contacts that its strings want. A saddle stands straight
 * in its slot, at whatever slant, and a string may leave it anywhere on its top but for half a
 * crown at either edge. Where the slot lies is not read; but every contact as it is lies on the
 * saddle. So the contacts as they are and those wanted must all lie within one straight strip as
 * wide as the saddle less a crown. If they do not, no saddle in that slot holds them; if they do,
 * one that is centred on the strip does.
 */

/* What a crown needs to bear. From memory. */
#define SADDLE_CROWN_MM 1.0

/* A contact: where it is across the strings, in any measure, and its setback. */
struct saddle_contact {
    double across;
    double setback_mm;
};

/* The narrowest straight strip that holds them all, mm along the strings; 0 for none or one. */
double saddle_fit_strip(const struct saddle_contact *contacts, int count);

struct saddle_fit {
    bool known; /* false: the width, or every contact, is not */
    double width_mm, needed_mm, room_mm;
};

/* needed_mm over room_mm does not fit. */
struct saddle_fit saddle_fit_find(double width_mm, const struct saddle_contact *contacts,
                                  int count);

#endif
