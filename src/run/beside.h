/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_BESIDE_H
#define SILLET_RUN_BESIDE_H

#include "base/strbuf.h"
#include "model/reading/record.h"
#include "store/bytes.h"

/* Documents of a visit, written from a session into a folder beside the profile. */

struct beside_kind {
    const char *folder;
    const char *ending;
    const char *mark; /* what the program writes into all of them, to know them again */
    const char *what; /* "sheet" */
};

struct beside {
    const struct beside_kind *kind;
    const char *profile_path;
    const struct record *record;
    int visit;
    const char *today; /* for a visit without a date */
};

/*
 * Writes FOLDER/NAME-DATE.ENDING beside the profile NAME.ini; for a later visit on the same day
 * FOLDER/NAME-DATE-VISIT.ENDING. An older one, recognised by its mark, is replaced; anything else
 * of that name is left alone, and so is a FOLDER that is a link. Appends to `words` FOLDER/..., or
 * a sentence that says why it could not be written; both are safe to show. Failures as
 * safefile_put; STATUS_CHANGED if something else has the name.
 */
enum status beside_put(const struct beside *beside, const struct bytes *bytes,
                       struct strbuf *words);

#endif
