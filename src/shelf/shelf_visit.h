/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_VISIT_H
#define SILLET_SHELF_SHELF_VISIT_H

#include "model/reading/record.h"
#include "shelf/shelf_list.h"

/* The visit that the pane shows of the instrument in hand, if it is not the one last left. */

/* Takes the one before or after (list->visit.by) what the pane shows, from the record of the one
 * in hand; says so if there is none. */
void shelf_visit_take(struct shelf_list *list, const struct record *record);

/* Back to the one last left. */
void shelf_visit_drop(struct shelf_list *list);

/* NULL if the pane shows the one in hand as it was last left. */
const struct shelf_visit *shelf_visit_shown(const struct shelf_list *list);

#endif
