/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_PULL_H
#define SILLET_MODEL_SURVEY_SURVEY_PULL_H

#include "model/derive/derive.h"

/*
 * What another pull of the strings does to relief and action, with rod, slots and saddle left
 * alone. From the neck's beam where its measures are known (neck_beam_scale_relief), else as necks
 * of the kind do (pull_table.h). The action follows from the relief as it does when a rod is
 * turned: the saddle stays on the body, the slots on the neck (moves.h).
 */
struct survey_pull {
    bool by_kind;                /* the neck's own measures are not known */
    struct maybe bend_change_mm; /* more relief (+) or less */
    double share_u;              /* its expanded uncertainty, as a share of it */
    struct maybe relief_mm;      /* to expect; absent where none was read */
    struct maybe relief_u_mm;    /* of the change and of the reading */
    struct maybe action_mm[STRINGS_MAX + 1];
    struct maybe action_u_mm[STRINGS_MAX + 1];
};

/* Pulls in N, > 0. Nothing is known where one of them is absent or there is no board. */
void survey_pull(const struct record *record, const struct derived *derived, struct maybe before_n,
                 struct maybe after_n, struct survey_pull *ret_pull);

#endif
