/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_NECK_H
#define SILLET_MODEL_DERIVE_DERIVE_NECK_H

#include "model/figure/figure.h"
#include "model/reading/finding.h"
#include "model/setup/moves.h"
#include "model/reading/record.h"
#include "model/setup/setup.h"

/*
 * The neck as a beam, into `figures`: stiffness and the relief that the strings' pull
 * makes with the slot as found, filled and recut; what the rod holds of it; wood left, router stop,
 * tenon. The pull is the total tension in `figures`. Each with its +- (neck_doubt.h). `findings`
 * names wood that gets thin and a weak tenon.
 */
void derive_neck(const struct record *record, const struct setup *setup,
                 const struct string_lines *lines, struct figures *figures,
                 struct findings *findings);

#endif
