/* SPDX-License-Identifier: MIT */
#include "model/neck/wood.h"

#include <stddef.h>
#include <string.h>

#include "model/common/check.h"
#include "model/common/name_match.h"
#include "model/common/same_name.h"

static const struct wood woods[] = {
#include "wood_table.inc"
};

int wood_count(void)
{
    return (int)(sizeof woods / sizeof woods[0]);
}

const struct wood *wood_get(int k)
{
    return k >= 0 && k < wood_count() ? &woods[k] : NULL;
}

bool wood_add_other_name(const struct wood *wood, int k, struct strbuf *out)
{
    if (k > 0)
        return name_add_one_of(wood->also, k - 1, out);
    strbuf_add(out, wood->botanical);
    return true;
}

static bool is_called(const struct wood *wood, const char *name)
{
    char memory[64];

    if (same_name(name, wood->name))
        return true;
    for (int k = 0;; k++) {
        struct strbuf other = STRBUF(memory);

        if (!wood_add_other_name(wood, k, &other))
            return false;
        if (same_name(name, memory))
            return true;
    }
}

enum status wood_find(const char *name, const struct wood **ret_wood)
{
    if (!name || same_name_is_blank(name))
        return STATUS_ABSENT;
    for (int k = 0; k < wood_count(); k++) {
        if (is_called(&woods[k], name)) {
            *ret_wood = &woods[k];
            return STATUS_OK;
        }
    }
    return STATUS_NOT_FOUND;
}

enum status wood_find_coefficient(const struct wood *wood, enum wood_grain grain,
                                  double *ret_coefficient)
{
    if (grain != WOOD_RADIAL && grain != WOOD_TANGENTIAL)
        return STATUS_DOMAIN;
    if (wood->coefficient[grain].given) {
        *ret_coefficient = wood->coefficient[grain].value;
        return STATUS_OK;
    }
    if (!wood->shrinkage_pct[grain].given)
        return STATUS_ABSENT;
    return wood_coefficient_from_shrinkage(wood->shrinkage_pct[grain].value, ret_coefficient);
}

enum status wood_coefficient_from_shrinkage(double shrinkage_pct, double *ret_coefficient)
{
    if (!check_is_positive(shrinkage_pct) || shrinkage_pct > 100)
        return STATUS_DOMAIN;
    *ret_coefficient = 1 / (100 * 30 / shrinkage_pct - 30 + 10);
    return STATUS_OK;
}
