/* SPDX-License-Identifier: MIT */
#include "model/strings/string_material.h"

#include <stddef.h>
#include <string.h>

#include "model/common/name_match.h"

static const struct string_material_facts facts[MATERIAL_COUNT_] = {
    [MATERIAL_STEEL] = {"steel", 7850, 203400, true, 0,
                        "modulus: Shigley, Table 10-5, music wire under 0.032 in (200 GPa from "
                        "0.033 to 0.063 in); density: handbook value for rolled steel"},
    [MATERIAL_STAINLESS_STEEL] = {"stainless-steel", 7900, 0, false, 0,
                                  "density: handbooks give a range around this"},
    [MATERIAL_NICKEL] = {"nickel", 8900, 0, false, 0,
                         "density: handbook value for pure nickel (commercial 8800)"},
    [MATERIAL_NICKEL_PLATED_STEEL] = {"nickel-plated-steel", 7850, 203400, true, 0,
                                      "taken as steel; the plating is thin"},
    [MATERIAL_PHOSPHOR_BRONZE] = {"phosphor-bronze", 8860, 0, false, 0,
                                  "density: C51000, 5 % tin, from memory within a handbook "
                                  "range of 8780 to 8920"},
    [MATERIAL_BRONZE_80_20] = {"80/20-bronze", 8670, 0, false, 0, "density: C24000, from memory"},
    [MATERIAL_COPPER] = {"copper", 8930, 0, false, 0, "density: handbook value"},
    [MATERIAL_SILVER] = {"silver", 10490, 0, false, 0, "density: handbook value"},
    [MATERIAL_NYLON] = {"nylon", 1130, 0, false, 700,
                        "density from memory (1120 to 1150; nylon 6.12: 1060); the modulus "
                        "at pitch differs by a factor of two between sorts; settled modulus: "
                        "fitted to published masses (tests/published/nylon-mass.tbl)"},
    [MATERIAL_FLUOROCARBON] = {"fluorocarbon", 1780, 0, false, 1500,
                               "density of PVDF, from memory; settled modulus from labels, "
                               "from memory"},
};

static const struct {
    const char *name;
    enum string_material material;
} other_names[] = {
    {"music-wire", MATERIAL_STEEL},
    {"plain-steel", MATERIAL_STEEL},
    {"tinned-steel", MATERIAL_STEEL},
    {"stainless", MATERIAL_STAINLESS_STEEL},
    {"pure-nickel", MATERIAL_NICKEL},
    {"nickel-plated", MATERIAL_NICKEL_PLATED_STEEL},
    {"nickel-steel", MATERIAL_NICKEL_PLATED_STEEL},
    {"bronze", MATERIAL_BRONZE_80_20},
    {"80/20", MATERIAL_BRONZE_80_20},
    {"brass", MATERIAL_BRONZE_80_20},
    {"silver-plated-copper", MATERIAL_COPPER},
    {"silvered-copper", MATERIAL_COPPER},
    {"carbon", MATERIAL_FLUOROCARBON},
};

const struct string_material_facts *string_material_facts(enum string_material material)
{
    if (material <= MATERIAL_NONE || material >= MATERIAL_COUNT_)
        return NULL;
    return &facts[material];
}

const char *string_material_other_name(enum string_material material, int k)
{
    for (size_t i = 0; i < sizeof other_names / sizeof other_names[0]; i++)
        if (other_names[i].material == material && k-- == 0)
            return other_names[i].name;
    return NULL;
}

static bool is_named(const char *folded, const char *name)
{
    char other[NAME_FOLDED_SIZE];

    name_fold(name, other);
    return strcmp(folded, other) == 0;
}

enum status string_material_find(const char *text, enum string_material *ret_material)
{
    char folded[NAME_FOLDED_SIZE];

    name_fold(text, folded);
    for (int m = MATERIAL_NONE + 1; m < MATERIAL_COUNT_; m++) {
        if (is_named(folded, facts[m].name)) {
            *ret_material = (enum string_material)m;
            return STATUS_OK;
        }
    }
    for (size_t i = 0; i < sizeof other_names / sizeof other_names[0]; i++) {
        if (is_named(folded, other_names[i].name)) {
            *ret_material = other_names[i].material;
            return STATUS_OK;
        }
    }
    return STATUS_NOT_FOUND;
}
