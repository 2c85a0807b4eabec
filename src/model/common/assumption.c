/* SPDX-License-Identifier: MIT */
#include "model/common/assumption.h"

enum { PLUS, SHARE };

static const struct assumption assumptions[] = {
#define ASSUMPTION(id, value_, how, u_, unit, what, source)                                        \
    [ASSUME_##id] = {.value = (value_), .u = (u_), .is_share = (how) == SHARE},
#include "model/common/assumption_table.h"
#undef ASSUMPTION
};

const struct assumption *assumption_get(enum assumption_id id)
{
    return &assumptions[id];
}

struct assumed assumption_of(double *number, enum assumption_id id)
{
    return (struct assumed){
        .at = number, .u = assumptions[id].u, .is_share = assumptions[id].is_share};
}
