/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_LAYOUT_H
#define SILLET_MODEL_SURVEY_SURVEY_LAYOUT_H

#include <stdbool.h>

#include "model/derive/derive.h"
#include "model/frets/layout.h"
#include "model/reading/record_access.h"

/*
 * Where everything goes on the board: frets, side dots and inlays, strings at nut and
 * saddle, saddle contacts and nut fronts. Stations along the strings are mm from the nut's
 * front edge as it is.
 */

/* Whether a fret usually carries a side dot or inlay: 3 5 7 9 12 15 17 19 21 24 (common
 * practice, no published source). */
bool survey_layout_has_dot(int fret);

struct string_layout {
    struct layout_fret fret[FRETS_MAX + 1]; /* on that string's own scale */
    struct maybe nut_centre_mm;             /* of its slot, from the bass edge of the nut */
    struct maybe nut_line_mm;               /* the same, of a string without one where its line */
    double start_mm;                        /* would cross the nut; and where it starts */
    struct maybe saddle_centre_mm;          /* from the centre of the lowest string */
    /* Saddle contact: as it is (scale + setback entered), the setback predicted, the best
     * with the nut front to go with it, and what the cents read ask for. */
    double contact_mm;
    struct maybe contact_predicted_mm;
    struct maybe contact_best_mm, nut_front_best_mm;
    struct maybe contact_read_mm, contact_read_u_mm; /* from one note; expanded, k = 2 */
    struct maybe contact_fit_mm, nut_front_fit_mm;   /* from several */
};

struct survey_layout {
    bool known; /* the board is, and what is not `entered` below holds */
    int strings, frets;
    bool multi_scale;                         /* the strings' frets differ from the middle's */
    struct layout_fret middle[FRETS_MAX + 1]; /* on the mean of the outer scales */
    struct string_layout string[STRINGS_MAX + 1];
};

/*
 * From what was derived. What the strings' places across the board need, string_places.h says.
 */
void survey_layout(const struct record *record, const struct derived *derived,
                   struct survey_layout *ret_layout);

#endif
