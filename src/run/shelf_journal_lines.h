/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHELF_JOURNAL_LINES_H
#define SILLET_RUN_SHELF_JOURNAL_LINES_H

#include "commands/journal.h"
#include "shelf/shelf_list.h"

/* The journal as the shelf shows it. */
struct journal_lines {
    struct journal journal;
    struct shelf_journal_line *lines; /* as many; their texts are the journal's */
};

/* Collects the days that the list's journal shows. STATUS_NO_MEMORY, and then there are none. */
enum status journal_lines_read(const struct shelf *shelf, const struct shelf_list *list,
                               struct journal_lines *ret_lines);

void journal_lines_done(struct journal_lines *lines);

#endif
