/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_CARD_H
#define SILLET_MODEL_DERIVE_CARD_H

#include <stdbool.h>

#include "model/derive/derive.h"
#include "model/reading/record.h"
#include "model/setup/rod_prior.h"

/* What a shelf says about an instrument in one line. */
struct card {
    /* Never NULL; "" where the record does not say. */
    const char *name, *kind, *owner, *maker, *serial;
    const char *visit;   /* the date of the last visit, 2026-03-02 */
    struct rod_neck rod; /* its rod's answer, for other necks of its kind */
    bool moves_open; /* a move is due by the current state's readings, and not marked done since; or
                      * it was, until work made void what it rests on */
    bool to_measure; /* none is, and one that was marked done has not been measured since */
};

/* Fills a card from a record's current state. The texts are the record's and last as long
 * as it is unchanged. */
void card_make(const struct record *record, struct card *ret_card);

/* The same where the current state has been derived (`now`, by derive_measured), which left *past.
 */
void card_make_of(const struct record *record, const struct derived *now, struct past *past,
                  struct card *ret_card);

/* All that nothing has to be worked out for: the texts. */
void card_glance(const struct record *record, struct card *ret_card);

#endif
