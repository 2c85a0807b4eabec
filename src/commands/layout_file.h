/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_LAYOUT_FILE_H
#define SILLET_COMMANDS_LAYOUT_FILE_H

#include "base/strbuf.h"
#include "model/reading/place.h"
#include "store/bytes.h"

/* The templates of a neck reset as the bytes of a document. */

/* Whether they can be drawn, in a build with cairo. */
bool layout_file_can_draw(void);

/*
 * Makes a PDF of those of heel, shim and tongue that fit the neck's join, for the pass that asked
 * for a reset, seen from `from`. Adds to `missing` what the others lack, "tongue: board end, on
 * Intake". STATUS_ABSENT if no pass asked (`missing` stays as it was) or all lack readings. Fails
 * also as page_write_pdf; it needs layout_file_can_draw. Adds to ret_bytes, which the caller
 * initialises and releases.
 */
enum status layout_file_make_reset(struct place from, struct bytes *ret_bytes,
                                   struct strbuf *missing);

#endif
