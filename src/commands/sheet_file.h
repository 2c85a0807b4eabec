/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHEET_FILE_H
#define SILLET_COMMANDS_SHEET_FILE_H

#include "commands/sheet_options.h"
#include "model/reading/record.h"
#include "store/bytes.h"

/* The sheet of a visit as the bytes of a document. */

/* Whether PDF and SVG can be made, in a build with cairo. */
bool sheet_file_can_draw(void);

/*
 * Makes the document in memory: nothing is begun on disk before it is whole. `visit` 0 is the
 * last one. Without `utf8` text is ASCII. Failures as sheet_make; a PDF or SVG needs
 * sheet_file_can_draw. Adds to ret_bytes, which the caller initialises and releases.
 */
struct sheet_document {
    const struct record *record;
    int visit;
    const struct shop_units *units;
    enum sheet_format format;
    enum shop_paper paper;
    enum sheet_paper_kind kind;
    enum label_size label;
    bool utf8;
};
enum status sheet_file_make(const struct sheet_document *document, struct bytes *ret_bytes);

#endif
