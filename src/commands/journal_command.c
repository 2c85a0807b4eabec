/* SPDX-License-Identifier: MIT */
#include "commands/journal_command.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/array.h"
#include "commands/csv.h"
#include "commands/option.h"
#include "commands/shelf_items.h"
#include "commands/when.h"
#include "model/common/day.h"
#include "model/reading/journal.h"
#include "store/paths.h"
#include "store/profile/profile.h"

struct journal_options {
    const char *folder, *when;
    bool csv;
    struct when days;
};

/* One line of the journal; owns its texts, for the record is closed before it is printed. */
struct line {
    enum journal_what what;
    double moment;
    bool timed;
    int visit, part;
    char *file, *name, *owner, *words, *amount, *note;
};

struct journal {
    struct line *lines;
    size_t count, capacity;
    enum status status;
    /* Of the record in hand. */
    const char *file;
    const struct record *record;
};

/* --- collecting --- */

static char *keep(struct journal *journal, const char *text)
{
    char *kept = strdup(text ? text : "");

    if (!kept)
        journal->status = STATUS_NO_MEMORY;
    return kept;
}

static void take(void *taker, const struct journal_entry *entry)
{
    struct journal *journal = taker;
    const struct reading_key name = reading_key_one(FIELD_NAME);
    const struct reading_key owner = reading_key_one(FIELD_OWNER);
    const struct record then = record_as_of(journal->record, entry->visit);

    if (journal->status != STATUS_OK)
        return;
    struct line *lines =
        array_grow(journal->lines, journal->count, &journal->capacity, sizeof *lines);
    if (!lines) {
        journal->status = STATUS_NO_MEMORY;
        return;
    }
    journal->lines = lines;
    journal->lines[journal->count++] =
        (struct line){.what = entry->what,
                      .moment = entry->moment,
                      .timed = entry->timed,
                      .visit = entry->visit,
                      .part = entry->part,
                      .file = keep(journal, journal->file),
                      .name = keep(journal, record_text(&then, &name)),
                      .owner = keep(journal, record_text(&then, &owner)),
                      .words = keep(journal, entry->words),
                      .amount = keep(journal, entry->amount),
                      .note = keep(journal, entry->note)};
}

static void free_lines(struct journal *journal)
{
    for (size_t i = 0; i < journal->count; i++) {
        struct line *line = &journal->lines[i];
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
    const struct line *one = a, *two = b;
    int order = (one->moment > two->moment) - (one->moment < two->moment);

    if (!order)
        order = strcmp(one->file, two->file);
    if (!order)
        order = one->visit - two->visit;
    if (!order)
        order = (int)one->what - (int)two->what;
    return order ? order : one->part - two->part;
}

static enum exit_code collect_file(const struct journal_options *options, const char *path,
                                   struct journal *journal)
{
    struct profile *profile = NULL;

    errno = 0;
    const enum status status = profile_open(path, PROFILE_TO_READ, NULL, &profile);
    if (status == STATUS_OK) {
        journal->record = profile_record(profile);
        journal_walk(journal->record, options->days.first, options->days.end, take, journal);
    } else {
        report_failure(path, status, errno, stderr);
    }
    profile_close(profile);
    return status == STATUS_OK ? EXIT_GOOD : EXIT_FINDINGS;
}

static enum exit_code collect(const struct journal_options *options, const struct shelf *shelf,
                              struct journal *journal)
{
    const struct shelf_entries *entries = shelf_entries(shelf);
    enum exit_code worst = EXIT_GOOD;

    for (size_t i = 0; i < entries->count && journal->status == STATUS_OK; i++) {
        char *path = paths_join(shelf_folder(shelf), entries->items[i].file);

        if (!path) {
            journal->status = STATUS_NO_MEMORY;
            break;
        }
        journal->file = entries->items[i].file;
        if (collect_file(options, path, journal) != EXIT_GOOD)
            worst = EXIT_FINDINGS;
        free(path);
    }
    return worst;
}

/* --- printing --- */

static const char *what_of(const struct line *line)
{
    static const char *const names[] = {
        [JOURNAL_VISIT] = "came in", [JOURNAL_PASS] = "measured", [JOURNAL_WORK] = "work"};

    return names[line->what];
}

static void say_time(const struct line *line, struct strbuf *out)
{
    const double day = (double)(int)line->moment;
    const int minute = (int)((line->moment - day) * 24 * 60 + 0.5 / 60);

    if (line->timed)
        strbuf_addf(out, "%02d:%02d", minute / 60, minute % 60);
}

static void print_csv(const struct journal *journal)
{
    static const char *const heads[] = {"date", "time",  "file",   "name", "owner",
                                        "what", "words", "amount", "note"};
    struct csv csv = {.out = stdout};

    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        csv_text(&csv, heads[i]);
    csv_end_record(&csv);
    for (size_t i = 0; i < journal->count; i++) {
        const struct line *line = &journal->lines[i];
        const struct day day = day_of_number((int)line->moment);
        char memory[2][16];
        struct strbuf date = STRBUF(memory[0]), time = STRBUF(memory[1]);

        day_add(&day, &date);
        say_time(line, &time);
        const char *const texts[] = {memory[0],   memory[1],    line->file,
                                     line->name,  line->owner,  what_of(line),
                                     line->words, line->amount, line->note};
        for (size_t k = 0; k < sizeof texts / sizeof texts[0]; k++)
            csv_text(&csv, texts[k]);
        csv_end_record(&csv);
    }
}

static void print_safe(const char *before, const char *text)
{
    char memory[CSV_TEXT_MAX + 1];
    struct strbuf safe = STRBUF(memory);

    if (!text[0])
        return;
    csv_add_safe(text, &safe);
    printf("%s%s", before, memory);
}

static void print_line(const struct line *line)
{
    char memory[16];
    struct strbuf time = STRBUF(memory);

    say_time(line, &time);
    printf("  %-5s  ", memory);
    print_safe("", line->name[0] ? line->name : line->file);
    if (line->what != JOURNAL_WORK)
        printf(": %s", what_of(line));
    print_safe(line->what == JOURNAL_WORK ? ": " : ", ", line->words);
    print_safe(", ", line->amount);
    print_safe("\n         ", line->note);
    putchar('\n');
}

static void print_text(const struct journal *journal)
{
    int last = -1;

    for (size_t i = 0; i < journal->count; i++) {
        const int number = (int)journal->lines[i].moment;

        if (number != last) {
            const struct day day = day_of_number(number);
            char memory[64];
            struct strbuf words = STRBUF(memory);

            day_add_words(&day, &words);
            printf("%s%s\n", last >= 0 ? "\n" : "", memory);
        }
        last = number;
        print_line(&journal->lines[i]);
    }
    if (journal->count == 0)
        fputs("sillet: nothing is on file for that time\n", stderr);
}

static enum exit_code print(struct journal *journal, bool csv)
{
    if (journal->count > 0)
        qsort(journal->lines, journal->count, sizeof *journal->lines, compare_lines);
    if (csv)
        print_csv(journal);
    else
        print_text(journal);
    return report_printed(EXIT_GOOD);
}

static enum exit_code list(const struct journal_options *options, const struct shelf *shelf)
{
    struct journal journal = {.status = STATUS_OK};
    enum exit_code code = collect(options, shelf, &journal);
    if (journal.status != STATUS_OK) {
        report_failure(shelf_folder(shelf), journal.status, 0, stderr);
        code = EXIT_CANNOT;
    } else {
        const enum exit_code printed = print(&journal, options->csv);

        code = printed > code ? printed : code;
    }
    free_lines(&journal);
    return code;
}

/* --- the command line --- */

static bool take_option(void *asked, enum option_id id, const char *value)
{
    struct journal_options *options = asked;

    switch (id) {
    case OPTION_JOURNAL_CSV:
        options->csv = true;
        return true;
    case OPTION_JOURNAL_FOLDER:
        options->folder = value;
        return true;
    default:
        return option_not_taken(id);
    }
}

static bool take_word(void *asked, const char *word)
{
    struct journal_options *options = asked;

    if (options->when)
        fputs("sillet: journal takes one DAY\n", stderr);
    else
        options->when = word;
    return options->when == word;
}

enum exit_code journal_command(int count, char *const *words)
{
    struct journal_options options = {.folder = NULL};
    const struct option_reader reader = {take_option, take_word, &options};
    struct shelf *shelf;

    if (!option_read(LINE_JOURNAL, count, words, &reader) ||
        !when_read(options.when ? options.when : "today", "journal", &options.days))
        return EXIT_USAGE;
    if (shelf_items_open_to_list(options.folder, &shelf) != STATUS_OK)
        return EXIT_CANNOT;
    const enum exit_code code = list(&options, shelf);
    shelf_close(shelf);
    return code;
}
