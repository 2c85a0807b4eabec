/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TEMPLATE_TEMPLATE_H
#define SILLET_TEMPLATE_TEMPLATE_H

#include <stdbool.h>

#include "base/strbuf.h"
#include "model/derive/derive.h"
#include "model/reading/record.h"
#include "page/page.h"

/*
 * Templates for cutting, marking and drilling, drawn at true scale: one drawing for each, on a
 * page of its own size. template_pages.h puts them on paper.
 */

enum template_kind {
    TEMPLATE_BOARD,  /* frets, side dots, inlays */
    TEMPLATE_NUT,    /* the slots across the nut */
    TEMPLATE_SADDLE, /* the saddle contact of each string */
    TEMPLATE_HEEL,   /* what a reset takes off the heel */
    TEMPLATE_SHIM,   /* what a reset puts into a pocket */
    TEMPLATE_TONGUE, /* the wedge under the tongue */
    TEMPLATE_COUNT_
};

/* "board", as the command line names it; "Frets and dots", as a heading. */
const char *template_name(enum template_kind kind);
const char *template_title(enum template_kind kind);

/* The kind of that name; false when there is none. */
bool template_find(const char *name, enum template_kind *ret_kind);

/* The safety warning for working with it, for print; static. */
const char *template_caution(enum template_kind kind);

/* Whether it shows what a reset asks for: heel, shim and tongue. */
bool template_is_of_reset(enum template_kind kind);

/* Whether it is of use: no slots over a zero fret, no shim for a glued neck, no taper if there is
 * enough saddle. */
bool template_applies(enum template_kind kind, const struct record *record,
                      const struct derived *derived);

/*
 * Draws one template for the state derived from a pass. STATUS_ABSENT if readings
 * are missing: their names are then added to `missing`, "bass margin, on Intake; gauge, string 3,
 * on Strings". STATUS_NO_MEMORY. The caller frees the drawing with page_list_free.
 */
enum status template_draw(enum template_kind kind, struct place place,
                          const struct derived *derived, struct page_list **ret_drawing,
                          struct strbuf *missing);

#endif
