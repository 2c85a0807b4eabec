/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_KEY_H
#define SILLET_SHELF_SHELF_KEY_H

#include <stdbool.h>
#include <stdint.h>

/* What keys mean on the shelf. The rows are in shelf_key_table.h. */

enum shelf_mode {
    SHELF_LIST,      /* the list, narrowed by what is typed */
    SHELF_MENU,      /* what can be done now */
    SHELF_PRESETS,   /* choosing a starting point */
    SHELF_NAMING,    /* typing the name of a new one or of a copy */
    SHELF_UNITS,     /* asking which units the shop's gauges read in */
    SHELF_ARCHIVING, /* asking once more before archiving */
    SHELF_EARLIER,   /* earlier states of the one in hand */
    SHELF_TOGETHER,  /* two versions of it being put together */
    SHELF_PEEKING,   /* the one in hand as it was last left */
    SHELF_TABLE,     /* what all of them say together */
    SHELF_JOURNAL,   /* what was done to them on a day or in a month */
    SHELF_HELP,
    SHELF_ANY,
};

enum shelf_key_id {
#define SHELF_KEY(id, ...) SHELF_KEY_##id,
#include "shelf/shelf_key_table.h"
#undef SHELF_KEY
    SHELF_KEY_COUNT_,
    SHELF_KEY_NONE = SHELF_KEY_COUNT_
};

struct shelf_key {
    uint32_t key, other_key, letter;
    int place; /* in the menu (menu.h); 0: not in it */
    enum shelf_mode mode;
    const char *hint, *title, *words;
};

const struct shelf_key *shelf_key_get(enum shelf_key_id id);

/* The meaning of a key in a mode: the mode's own, else one for all modes. On the list a letter has
 * none, because letters search. */
enum shelf_key_id shelf_key_find(uint32_t key, enum shelf_mode mode);

#endif
