/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHEET_KEEP_H
#define SILLET_RUN_SHEET_KEEP_H

#include "base/strbuf.h"
#include "session/app.h"

/*
 * Writes a paper of the visit in hand, any but PAPER_RESET, into the folder sheets beside the
 * profile (beside.h), as PDF, or as text if this build cannot draw; a label is always drawn.
 * Appends to `words` where it is, or why it could not be written: a sentence that is safe to show.
 * Failures as sheet_file_make and beside_put.
 */
enum status sheet_keep(const struct app *app, enum app_paper paper, const char *profile_path,
                       bool utf8, struct strbuf *words);

#endif
