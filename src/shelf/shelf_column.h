/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_COLUMN_H
#define SILLET_SHELF_SHELF_COLUMN_H

#include "model/survey/shelf_facts.h"
#include "shelf/shelf_item.h"

/* What the shelf can say of an instrument in one column of a list, on screen, as text or as CSV. */

enum shelf_column {
    COLUMN_FILE,
    COLUMN_NAME,
    COLUMN_KIND,
    COLUMN_OWNER,
    COLUMN_MAKER,
    COLUMN_SERIAL,
    COLUMN_VISIT,
    COLUMN_MARKS,
    COLUMN_PROMISED,
    COLUMN_TICKET,
    COLUMN_TO_DO,
    COLUMN_CHECK,
    COLUMN_AIR_THEN,
    COLUMN_AIR_NOW,
    COLUMN_SADDLE,
    COLUMN_ROD,
    COLUMN_COUNT_,
    COLUMN_NONE = COLUMN_COUNT_
};

/* What the words of a list rest on besides its instruments. */
struct shelf_ground {
    int today;
    struct maybe moisture_now; /* of wood in the shop's air when it was last read, % */
    struct shop_units units;
    bool plain; /* for a spreadsheet: days and numbers without words and units, lengths in mm */
};

const char *shelf_column_heading(enum shelf_column column, bool plain);

/* `in_short`: marks that fit in a narrow column. Days that are past are said to be. */
void shelf_column_add(const struct shelf_ground *ground, const struct shelf_item *item,
                      enum shelf_column column, bool in_short, struct strbuf *out);

#endif
