/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_JOBS_WORK_CAUTIONS_H
#define SILLET_LEAF_JOBS_WORK_CAUTIONS_H

#include "leaf/jobs/work_list.h"

/* Which cautions the work of a visit needs. */

/* Appends what cautions go by: the name of a move that is to do or done, nothing for another; a
 * shim needs neither heat nor router. */
void work_cautions_add_name(const struct work_list *list, enum move_kind kind, struct strbuf *out);

/* Whether the k-th caution goes with a move that is to do or done, or with a line of the tech's
 * own. */
bool work_cautions_apply(const struct app *app, const struct work_list *list, int k);

#endif
