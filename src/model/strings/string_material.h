/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_STRINGS_STRING_MATERIAL_H
#define SILLET_MODEL_STRINGS_STRING_MATERIAL_H

#include <stdbool.h>

#include "base/status.h"

/* What strings are made of. */
enum string_material {
    MATERIAL_NONE, /* not said */
    MATERIAL_STEEL,
    MATERIAL_STAINLESS_STEEL,
    MATERIAL_NICKEL,
    MATERIAL_NICKEL_PLATED_STEEL,
    MATERIAL_PHOSPHOR_BRONZE,
    MATERIAL_BRONZE_80_20,
    MATERIAL_COPPER,
    MATERIAL_SILVER,
    MATERIAL_NYLON,
    MATERIAL_FLUOROCARBON,
    MATERIAL_COUNT_
};

struct string_material_facts {
    const char *name; /* as a profile spells it, "phosphor-bronze" */
    double density_kg_per_m3;
    double modulus_mpa; /* 0: differs too much between sorts; has to be measured */
    bool music_wire;    /* as strong as ASTM A228 music wire */
    /* Pull per slack area over stretch, of a string that has settled at pitch; 0: its stretch is
     * too small to change its mass per length. */
    double settled_modulus_mpa;
    const char *source;
};

/* The row of a material; NULL for MATERIAL_NONE and for a number that is none. */
const struct string_material_facts *string_material_facts(enum string_material material);

/* Another name that the trade has for a material, k from 0; NULL past the last. */
const char *string_material_other_name(enum string_material material, int k);

/*
 * The material that a text names, compared as name_match.h folds ("phosphor bronze", "80/20
 * bronze"); common other names are known ("music wire", "silver-plated copper"). STATUS_NOT_FOUND
 * otherwise.
 */
enum status string_material_find(const char *text, enum string_material *ret_material);

#endif
