/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_NECK_NECK_DOUBT_H
#define SILLET_MODEL_NECK_NECK_DOUBT_H

#include "model/neck/neck_beam.h"

/*
 * How far a beam is to be trusted: the +- of its stiffness and of the relief that the pull makes,
 * from how surely its numbers are known (assumption_table.h). That a neck bends as a
 * slender beam of sound wood at all has no number and is left out.
 */

/* Where a beam's numbers come from. */
struct neck_doubt {
    bool board_modulus_entered, shaft_modulus_entered; /* for this piece, not by the wood's name */
    double heel_u_mm;                                  /* of the station of the heel */
    double pull_share_u;                               /* of the strings' pull, as a share */
};

/* Expanded, k = 2; INFINITY where a number that may be so leaves no neck. */
struct neck_beam_u {
    double first_nmm2, heel_nmm2; /* of EI at fret 1 and at the heel */
    double relief_mm;             /* INFINITY too where the beam has no relief */
};

/* `beam` as in neck_beam.h, with the ranges given there. */
struct neck_beam_u neck_doubt_find(const struct neck_beam *beam, enum neck_slot slot,
                                   const struct neck_doubt *doubt);

#endif
