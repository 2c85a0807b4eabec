/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_MORE_H
#define SILLET_COMMANDS_MORE_H

#include "commands/printer.h"
#include "model/derive/derive.h"
#include "model/survey/survey_what_if.h"

/*
 * Prints everything that the model can say besides the figures, in sections of their own:
 *
 *   [levelling.spots] [levelling.full]  both plans for dressing the frets
 *   [buzz.I]         the fret that explains what was heard on a string
 *   [layout] [layout.I]  frets and dots on the middle scale; ends and spread by string
 *   [movement.V]     what a visit's climate does to the wood
 *   [rod]            what its logged turns teach
 *   [passes.V.P]     the action predicted for a pass beside the one read
 *   [calibration.I]  press depth and clamped ends fitted to the cents read
 *
 * Keys end in their unit; a key that exists for several frets or strings has the number before it
 * ("take.7_mm"). What is absent is left out. `derived` is the current state of `record`.
 */
void more_print(const struct record *record, const struct derived *derived,
                struct printer *printer);

/* Prints [what-if] and [what-if.I], after warnings as comments. Failures as survey_what_if, with
 * nothing printed. */
enum status more_print_what_if(const struct record *record, const struct derived *derived,
                               const struct what_if_change *change, struct printer *printer);

#endif
