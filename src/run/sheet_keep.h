/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHEET_KEEP_H
#define SILLET_RUN_SHEET_KEEP_H

#include "base/strbuf.h"
#include "model/reading/record.h"

/* A visit's sheet, written from a session. */
struct sheet_keeping {
    const char *profile_path;
    const struct record *record;
    int visit;
    const struct shop_units *units;
    const char *today; /* for a visit without a date */
    bool utf8;
};

/*
 * Writes sheets/NAME-DATE.pdf beside the profile NAME.ini, or .txt if this build cannot
 * draw; for a later visit on the same day sheets/NAME-DATE-VISIT.pdf. An older sheet, recognised by
 * its text, is replaced; anything else of that name is left alone, and so is a "sheets" that is a
 * link. Appends to `words` where it is, or why it could not be written: a sentence that is
 * safe to show. Failures as sheet_file_make and safefile_put.
 */
enum status sheet_keep(const struct sheet_keeping *keeping, struct strbuf *words);

#endif
