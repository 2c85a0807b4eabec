/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_ITEM_H
#define SILLET_SHELF_SHELF_ITEM_H

#include <stdbool.h>
#include <stdint.h>

#include "base/strbuf.h"
#include "model/derive/card.h"
#include "model/survey/shelf_facts.h"

enum shelf_mark {
    SHELF_UNREAD = 1,    /* only the file's name and date are known yet */
    SHELF_GLANCED = 32,  /* names, days and ticket are; the rest is still to be worked out */
    SHELF_BROKEN = 2,    /* cannot be opened: see `trouble` */
    SHELF_IN_USE = 4,    /* another program edits it */
    SHELF_NEWER = 8,     /* written by a newer version: can only be read */
    SHELF_VERSIONS = 16, /* there are other versions beside it, to choose from */
    SHELF_VERSION = 64,  /* it is one of those, and its file has a name for itself */
};

/* One instrument on file. The texts and facts belong to the caller. */
struct shelf_item {
    const char *file;                /* its name in the folder */
    struct card card;                /* all "" if it could not be read */
    const struct shelf_facts *facts; /* NULL as given: nothing is known */
    const char *trouble;             /* why it cannot be opened, in a word; "" if it can */
    int64_t written_s;               /* when the file was last written */
    double day;                      /* what it is sorted by; set by shelf_list_take */
    bool moved;                      /* that is another one now; set by shelf_list_put */
    double asked;   /* what comes before that in an answer; set by shelf_list_narrow */
    unsigned marks; /* a set of enum shelf_mark */
};

/* What an instrument is listed as: its name, or its file if it has none. */
const char *shelf_item_title(const struct shelf_item *item);

/* Appends "in use, moves open"; with in_short, "in use, moves". */
void shelf_item_marks(const struct shelf_item *item, bool in_short, struct strbuf *out);

#endif
