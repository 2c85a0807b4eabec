/* SPDX-License-Identifier: MIT */
#include "run/shelf_journal_lines.h"

#include <stdlib.h>

static void fill(const struct journal_line *from, struct shelf_journal_line *line)
{
    const bool work = from->what == JOURNAL_WORK;

    *line = (struct shelf_journal_line){.day = (int)from->moment,
                                        .name = from->name[0] ? from->name : from->file,
                                        .what = work ? "" : journal_what(from),
                                        .words = from->words,
                                        .amount = from->amount,
                                        .note = from->note};
    struct strbuf time = STRBUF(line->time);
    journal_add_time(from, &time);
}

enum status journal_lines_read(const struct shelf *shelf, const struct shelf_list *list,
                               struct journal_lines *ret_lines)
{
    const struct when days = {list->journal.first, list->journal.end};
    struct journal_lines lines = {.lines = NULL};

    (void)journal_collect(shelf, &days, NULL, &lines.journal);
    const size_t count = lines.journal.count;
    if (lines.journal.status == STATUS_OK)
        lines.lines = calloc(count + 1, sizeof *lines.lines);
    if (!lines.lines) {
        journal_lines_done(&lines);
        return STATUS_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++)
        fill(&lines.journal.lines[i], &lines.lines[i]);
    *ret_lines = lines;
    return STATUS_OK;
}

void journal_lines_done(struct journal_lines *lines)
{
    journal_done(&lines->journal);
    free(lines->lines);
    *lines = (struct journal_lines){.lines = NULL};
}
