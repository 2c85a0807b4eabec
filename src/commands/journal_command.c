/* SPDX-License-Identifier: MIT */
#include "commands/journal_command.h"

#include "commands/csv.h"
#include "commands/journal.h"
#include "commands/option.h"
#include "commands/shelf_items.h"
#include "model/common/day.h"

struct journal_options {
    const char *folder, *when;
    bool csv;
    struct when days;
};

/* --- printing --- */

static void print_csv(const struct journal *journal)
{
    static const char *const heads[] = {"date", "time",  "file",   "name", "owner",
                                        "what", "words", "amount", "note"};
    struct csv csv = {.out = stdout};

    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        csv_text(&csv, heads[i]);
    csv_end_record(&csv);
    for (size_t i = 0; i < journal->count; i++) {
        const struct journal_line *line = &journal->lines[i];
        const struct day day = day_of_number((int)line->moment);
        char memory[2][16];
        struct strbuf date = STRBUF(memory[0]), time = STRBUF(memory[1]);

        day_add(&day, &date);
        journal_add_time(line, &time);
        const char *const texts[] = {memory[0],   memory[1],    line->file,
                                     line->name,  line->owner,  journal_what(line),
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

static void print_line(const struct journal_line *line)
{
    char memory[16];
    struct strbuf time = STRBUF(memory);

    journal_add_time(line, &time);
    printf("  %-5s  ", memory);
    print_safe("", line->name[0] ? line->name : line->file);
    if (line->what != JOURNAL_WORK)
        printf(": %s", journal_what(line));
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

static enum exit_code list(const struct journal_options *options, struct shelf *shelf)
{
    struct journal journal;

    while (shelf_read_next(shelf))
        ;
    shelf_keep_cache(shelf);
    enum exit_code code = journal_collect(shelf, &options->days, stderr, &journal);
    if (journal.status != STATUS_OK) {
        report_failure(shelf_folder(shelf), journal.status, 0, stderr);
        code = EXIT_CANNOT;
    } else {
        (options->csv ? print_csv : print_text)(&journal);
        const enum exit_code printed = report_printed(EXIT_GOOD);

        code = printed > code ? printed : code;
    }
    journal_done(&journal);
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
