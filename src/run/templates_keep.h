/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_TEMPLATES_KEEP_H
#define SILLET_RUN_TEMPLATES_KEEP_H

#include "base/strbuf.h"
#include "session/app.h"

/*
 * Writes the templates of the reset that the visit in hand asked for (layout_file.h) into the
 * folder templates beside the profile (beside.h), as PDF. Appends to `words` where they are and
 * what one that was left out lacks, or why none could be written: safe to show. There is
 * no text form of a template; a build that cannot draw says so, STATUS_NOT_FOUND. Failures also as
 * layout_file_make_reset and beside_put.
 */
enum status templates_keep(const struct app *app, const char *profile_path, struct strbuf *words);

#endif
