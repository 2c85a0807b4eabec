/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_ODD_ROW_H
#define SILLET_MODEL_ODD_ROW_H

#include <stdbool.h>

#include "model/reading/record_access.h"

/*
 * Which readings of a row do not go with the others, where nothing else is known: those farther
 * from the straight line by string number through all others than one nut or one saddle leaves
 * uneven. The worst is set aside first and the line drawn anew, so that one string that is off puts
 * none beside it in doubt. `uneven_mm`: standard deviation of a string about that line, reading
 * included. Elements 1 .. strings; fewer than four readings tell nothing.
 */
void odd_row_find(const struct maybe *read, int strings, double uneven_mm, bool *ret_odd);

/* How far a value on `string` would lie over (+) or under the line through all other readings, in
 * such standard deviations; 0 where they do not tell. */
double odd_row_off(const struct maybe *read, int strings, double uneven_mm, int string,
                   double value);

#endif
