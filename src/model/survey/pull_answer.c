/* SPDX-License-Identifier: MIT */
#include "model/survey/pull_answer.h"

#include "model/common/check.h"

enum status pull_answer_combine(const struct pull_answer *prior, const struct pull_seen *seen,
                                int count, struct pull_answer *ret_answer)
{
    if (!isfinite(prior->mm_per_n) || !check_is_positive(prior->u_mm_per_n) || count < 0)
        return STATUS_DOMAIN;
    /* As multiples of the prior's own weight, so that no small uncertainty overflows. */
    double weight = 1, sum = prior->mm_per_n;

    for (int i = 0; i < count; i++) {
        if (!isfinite(seen[i].pull_change_n) || !isfinite(seen[i].bend_change_mm) ||
            !check_is_positive(seen[i].u_mm))
            return STATUS_DOMAIN;
        const double per_u = prior->u_mm_per_n / seen[i].u_mm;

        weight += per_u * seen[i].pull_change_n * (per_u * seen[i].pull_change_n);
        sum += per_u * seen[i].pull_change_n * (per_u * seen[i].bend_change_mm);
    }
    if (!isfinite(weight) || !isfinite(sum))
        return STATUS_RANGE;
    *ret_answer = (struct pull_answer){.mm_per_n = sum / weight,
                                       .u_mm_per_n = prior->u_mm_per_n / sqrt(weight)};
    return STATUS_OK;
}
