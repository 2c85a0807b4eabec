/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_AGAIN_H
#define SILLET_SESSION_AGAIN_H

#include "session/app.h"

/*
 * The last value of a cell that has no reading in the pass in hand, where nothing is known to have
 * changed it since: it stands in the cell in [ ], and Enter files it as read now. It is no reading
 * until then, and no figure rests on it. In a ticket's cell it is the next number.
 */

/* That reading, which may be of an earlier visit; NULL for none. None is offered after a move that
 * changes it was logged, or was due in the pass before; once the relief reads otherwise than it
 * did; and where gaps were read another way. */
const struct reading *again_find(const struct app *app, const struct route_cell *cell);

/* The same of a cell of another leaf. */
const struct reading *again_find_on(const struct app *app, const struct leaf_row *leaf,
                                    const struct route_cell *cell);

/* The same of the cell in hand, while Enter would file it: nothing is typed, and the profile may be
 * changed. */
const struct reading *again_in_hand(const struct app *app);

/* Where it was read. */
struct place again_place(const struct app *app, const struct reading *reading);

/* Appends it, where it was read and what Enter does with it. */
void again_add_words(const struct app *app, const struct reading *reading, struct strbuf *out);

#endif
