/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_STRINGS_H
#define SILLET_MODEL_DERIVE_DERIVE_STRINGS_H

#include "model/figure/figure.h"
#include "model/reading/finding.h"
#include "model/reading/record.h"
#include "model/setup/setup.h"
#include "model/strings/tension.h"

/* What a record tells of one string. In its build, core and modulus 0 stands for what is not known,
 * as in tension.h. */
struct string_facts {
    struct string_build build;
    bool has_build; /* the way it is made is known, so its mass can follow from it */
    struct maybe hz;
    bool has_mass;
    struct unit_mass mass; /* meaningful with has_mass */
    struct string_core core;
    double modulus_mpa; /* of the core */
    struct maybe tension_n;
};

/* What a note sounds at by the record's a4, Hz; absent where the note is. */
struct maybe derive_hz(const struct record *record, struct maybe semitone);

/*
 * Reads every string of the setup's board and adds pitch, unit mass, tension, share of
 * the strength and total tension to `figures`; the total only when every string has one.
 * Elements 1 .. strings of ret_facts. `findings` names a string near its strength,
 * and a total that is in doubt (doubt_pull.h).
 */
void derive_strings(const struct record *record, const struct setup *setup,
                    struct string_facts *ret_facts, struct figures *figures,
                    struct findings *findings);

#endif
