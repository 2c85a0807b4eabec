/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_ASKED_H
#define SILLET_MODEL_DERIVE_ASKED_H

#include "model/derive/derive.h"

/*
 * The pass that asked for a neck reset, seen from `from`: that pass, else the last one before it in
 * its visit whose readings ask for one. Its plan holds when the neck has been reset and read again.
 * Also gives what is derived from it. False, both untouched, where no pass asked.
 */
bool asked_for_reset(struct place from, struct place *ret_asked, struct derived *ret_derived);

#endif
