/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_SADDLE_WORK_H
#define SILLET_MODEL_SETUP_SADDLE_WORK_H

#include "model/setup/straight_cut.h"

/*
 * What a hand does to a saddle in one piece: its bottom is cut or shimmed along one straight line,
 * under all strings at once, and what that leaves too high under single strings comes off the top.
 * No amount is less than its own ±: an end that is right as far as can be told is left, and so is a
 * string that the line brings as near as that.
 */
struct saddle_work {
    bool known;
    struct straight_cut bottom;
    double top_mm[STRINGS_MAX + 1]; /* 0 or less, by string */
};

/* From what each string is to change by, and the ± of that ([0] unused), all of them numbers. */
struct saddle_work saddle_work_find(const struct outfit *outfit, const double *change_mm,
                                    const double *u_mm);

/* What a string with a slot changes by once both are done. */
double saddle_work_at(const struct saddle_work *work, const struct outfit *outfit, int string);

/* The first string, from the bass side, whose top is filed, after `string`; 0 for none. */
int saddle_work_next_top(const struct saddle_work *work, int string);

#endif
