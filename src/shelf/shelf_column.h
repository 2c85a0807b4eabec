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
    COLUMN_CONTACT,
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
    /* As it was left. Both ends are in one column; for a spreadsheet the treble end has its own. */
    COLUMN_LEFT,
    COLUMN_STRINGS,
    COLUMN_TUNING,
    COLUMN_RELIEF,
    COLUMN_ACTION,
    COLUMN_ACTION_TREBLE,
    COLUMN_GAP,
    COLUMN_GAP_TREBLE,
    COLUMN_EXPOSURE,
    COLUMN_EXPOSURE_TREBLE,
    COLUMN_WANTED_RELIEF,
    COLUMN_WANTED_ACTION,
    COLUMN_WANTED_ACTION_TREBLE,
    COLUMN_WANTED_GAP,
    COLUMN_WANTED_GAP_TREBLE,
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

/* The column that a spreadsheet has after this one: its treble end; COLUMN_NONE for none. */
enum shelf_column shelf_column_other_end(enum shelf_column column);

/* `in_short`: marks that fit in a narrow column. Days that are past are said to be. */
void shelf_column_add(const struct shelf_ground *ground, const struct shelf_item *item,
                      enum shelf_column column, bool in_short, struct strbuf *out);

#endif
