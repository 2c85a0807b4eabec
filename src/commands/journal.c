/* SPDX-License-Identifier: MIT */
#include "commands/journal.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/array.h"
#include "store/paths.h"
#include "store/profile/profile_look.h"

struct collecting {
    const struct when *days;
    FILE *err; /* NULL: a file that cannot be read is left out in silence */
    bool wanted[FIELD_COUNT_];
    struct journal journal;
    /* The one in hand. */
    const char *file;
    const struct record *record;
};

static char *keep(struct journal *journal, const char *text)
{
    char *kept = strdup(text ? text : "");

    if (!kept)
        journal->status = STATUS_NO_MEMORY;
    return kept;
}

static void take(void *taker, const struct journal_entry *entry)
{
    struct collecting *collecting = taker;
    struct journal *journal = &collecting->journal;
    const struct reading_key name = reading_key_one(FIELD_NAME);
    const struct reading_key owner = reading_key_one(FIELD_OWNER);
    const struct record then = record_as_of(collecting->record, entry->visit);

    if (journal->status != STATUS_OK)
        return;
    struct journal_line *lines =
        array_grow(journal->lines, journal->count, &journal->capacity, sizeof *lines);
    if (!lines) {
        journal->status = STATUS_NO_MEMORY;
        return;
    }
    journal->lines = lines;
    journal->lines[journal->count++] =
        (struct journal_line){.what = entry->what,
                              .moment = entry->moment,
                              .timed = entry->timed,
                              .visit = entry->visit,
                              .part = entry->part,
                              .file = keep(journal, collecting->file),
                              .name = keep(journal, record_text(&then, &name)),
                              .owner = keep(journal, record_text(&then, &owner)),
                              .words = keep(journal, entry->words),
                              .amount = keep(journal, entry->amount),
                              .note = keep(journal, entry->note)};
}

void journal_done(struct journal *journal)
{
    for (size_t i = 0; i < journal->count; i++) {
        struct journal_line *line = &journal->lines[i];
        char *const texts[] = {line->file,  line->name,   line->owner,
                               line->words, line->amount, line->note};

        for (size_t k = 0; k < sizeof texts / sizeof texts[0]; k++)
            free(texts[k]);
    }
    free(journal->lines);
}

/* By time, then by file, then as in the record: a visit, its passes, its work. */
static int compare_lines(const void *a, const void *b)
{
    const struct journal_line *one = a, *two = b;
    int order = (one->moment > two->moment) - (one->moment < two->moment);

    if (!order)
        order = strcmp(one->file, two->file);
    if (!order)
        order = one->visit - two->visit;
    if (!order)
        order = (int)one->what - (int)two->what;
    return order ? order : one->part - two->part;
}

static enum exit_code collect_file(struct collecting *collecting, const char *path)
{
    struct record record;

    errno = 0;
    const enum status status = profile_look(path, collecting->wanted, &record);
    if (status != STATUS_OK) {
        if (collecting->err)
            report_failure(path, status, errno, collecting->err);
        return EXIT_FINDINGS;
    }
    collecting->record = &record;
    journal_walk(&record, collecting->days->first, collecting->days->end, take, collecting);
    record_done(&record);
    return EXIT_GOOD;
}

/* A file that could not be read is tried again, so that it is said why. */
static bool may_tell(const struct shelf_entry *entry, const struct when *days)
{
    return entry->read && (entry->status != STATUS_OK ||
                           shelf_facts_may_have_done(entry->facts, days->first, days->end));
}

enum exit_code journal_collect(const struct shelf *shelf, const struct when *days, FILE *err,
                               struct journal *ret_journal)
{
    struct collecting collecting = {.days = days, .err = err};
    const struct shelf_entries *entries = shelf_entries(shelf);
    enum exit_code worst = EXIT_GOOD;

    journal_fields(collecting.wanted);
    collecting.wanted[FIELD_NAME] = collecting.wanted[FIELD_OWNER] = true;
    for (size_t i = 0; i < entries->count && collecting.journal.status == STATUS_OK; i++) {
        if (!may_tell(&entries->items[i], days))
            continue;
        char *path = paths_join(shelf_folder(shelf), entries->items[i].file);

        collecting.file = entries->items[i].file;
        if (!path)
            collecting.journal.status = STATUS_NO_MEMORY;
        else if (collect_file(&collecting, path) != EXIT_GOOD)
            worst = EXIT_FINDINGS;
        free(path);
    }
    *ret_journal = collecting.journal;
    if (ret_journal->count > 0)
        qsort(ret_journal->lines, ret_journal->count, sizeof *ret_journal->lines, compare_lines);
    return worst;
}

const char *journal_what(const struct journal_line *line)
{
    static const char *const names[] = {[JOURNAL_VISIT] = "came in",
                                        [JOURNAL_PASS] = "measured",
                                        [JOURNAL_WORK] = "work",
                                        [JOURNAL_OVER] = "handed over"};

    return names[line->what];
}

void journal_add_time(const struct journal_line *line, struct strbuf *out)
{
    const double day = (double)(int)line->moment;
    const int minute = (int)((line->moment - day) * 24 * 60 + 0.5 / 60);

    if (line->timed)
        strbuf_addf(out, "%02d:%02d", minute / 60, minute % 60);
}
