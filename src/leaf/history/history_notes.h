/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_HISTORY_HISTORY_NOTES_H
#define SILLET_LEAF_HISTORY_HISTORY_NOTES_H

#include "leaf/history/history.h"

/*
 * Notes on a pass besides its numbers: how its action compares with what was predicted, what the
 * rod has taught, how much the board moved with the wood's moisture, what changed since the last
 * visit, the strings put on in this one, the tech's own note, and with the last pass when the next
 * check is due.
 */
struct history_note {
    char text[400];
};

enum { HISTORY_NOTES_MAX = 6 };

struct history_notes {
    struct history_note notes[HISTORY_NOTES_MAX];
    int count;
};

/* Makes the notes for the pass at `at`; those that matter most for `row` come first. */
void history_notes_make(const struct record *record, const struct history *history, int at,
                        enum history_row row, const struct shop_units *units,
                        struct history_notes *ret_notes);

#endif
