/* SPDX-License-Identifier: MIT */
#include "commands/shelf_command.h"

#include <string.h>

#include "base/utf8.h"
#include "commands/csv.h"
#include "commands/option.h"
#include "commands/shelf_items.h"

enum column { FILE_NAME, NAME, KIND, OWNER, MAKER, SERIAL, VISIT, MARKS, COLUMN_COUNT };

static const char *const headings[COLUMN_COUNT] = {
    [FILE_NAME] = "file", [NAME] = "name",     [KIND] = "kind",        [OWNER] = "owner",
    [MAKER] = "maker",    [SERIAL] = "serial", [VISIT] = "last visit", [MARKS] = "marks",
};

/* A longer text is printed whole, but does not widen its column. */
enum { WIDTH_MAX = 32, TEXT_MAX = 4096 };

struct shelf_options {
    const char *folder;
    bool csv;
    char words[LINEEDIT_MAX + 1];
    struct strbuf filter; /* over `words` */
};

/* --- one text --- */

static void add_text(const struct shelf_item *item, enum column column, struct strbuf *out)
{
    char memory[128];
    struct strbuf marks = STRBUF(memory);
    const char *const texts[COLUMN_COUNT] = {
        [FILE_NAME] = item->file,   [NAME] = item->card.name,   [KIND] = item->card.kind,
        [OWNER] = item->card.owner, [MAKER] = item->card.maker, [SERIAL] = item->card.serial,
        [VISIT] = item->card.visit, [MARKS] = memory,
    };

    shelf_item_marks(item, false, &marks);
    csv_add_safe(texts[column], out);
}

/* --- the list --- */

static const struct shelf_item *found_item(const struct shelf_list *list, size_t i)
{
    return list->found[i];
}

static void print_csv(const struct shelf_list *list)
{
    struct csv csv = {.out = stdout};

    for (int column = 0; column < COLUMN_COUNT; column++)
        csv_text(&csv, headings[column]);
    csv_end_record(&csv);
    for (size_t i = 0; i < list->found_count; i++) {
        for (int column = 0; column < COLUMN_COUNT; column++) {
            char memory[TEXT_MAX];
            struct strbuf text = STRBUF(memory);

            add_text(found_item(list, i), (enum column)column, &text);
            csv_text(&csv, memory);
        }
        csv_end_record(&csv);
    }
}

/* Measures the columns; 0 for an empty one. */
static void measure(const struct shelf_list *list, int widths[COLUMN_COUNT])
{
    for (int column = 0; column < COLUMN_COUNT; column++) {
        widths[column] = 0;
        for (size_t i = 0; i < list->found_count; i++) {
            char memory[TEXT_MAX];
            struct strbuf text = STRBUF(memory);

            add_text(found_item(list, i), (enum column)column, &text);
            const int width = utf8_columns(memory);
            if (width > widths[column])
                widths[column] = width < WIDTH_MAX ? width : WIDTH_MAX;
        }
        const int heading = (int)strlen(headings[column]);
        if (widths[column] > 0 && widths[column] < heading)
            widths[column] = heading;
    }
}

/* Prints no blanks after the last text of a line: `*gap` counts those not yet printed. */
static void print_cell(const char *text, int width, int *gap)
{
    const int columns = utf8_columns(text);

    if (text[0]) {
        printf("%*s%s", *gap, "", text);
        *gap = 0;
    }
    *gap += (columns < width ? width - columns : 0) + 2;
}

static void print_aligned(const struct shelf_list *list)
{
    int widths[COLUMN_COUNT], gap = 0;

    measure(list, widths);
    for (int column = 0; column < COLUMN_COUNT; column++)
        if (widths[column] > 0)
            print_cell(headings[column], widths[column], &gap);
    putchar('\n');
    for (size_t i = 0; i < list->found_count; i++) {
        gap = 0;
        for (int column = 0; column < COLUMN_COUNT; column++) {
            char memory[TEXT_MAX];
            struct strbuf text = STRBUF(memory);

            add_text(found_item(list, i), (enum column)column, &text);
            if (widths[column] > 0)
                print_cell(memory, widths[column], &gap);
        }
        putchar('\n');
    }
}

static enum exit_code print_list(const struct shelf_list *list, bool csv)
{
    enum exit_code code = EXIT_GOOD;

    for (size_t i = 0; i < list->found_count; i++)
        if (found_item(list, i)->marks & SHELF_BROKEN)
            code = EXIT_FINDINGS;
    if (csv)
        print_csv(list);
    else if (list->found_count > 0)
        print_aligned(list);
    else
        fprintf(stderr, "sillet: %s\n",
                list->count > 0 ? "no instrument on file matches" : "no instrument on file");
    return report_printed(code);
}

static enum exit_code list_shelf(struct shelf *shelf, const struct shelf_options *options)
{
    struct shelf_list list;
    enum exit_code code = EXIT_CANNOT;

    while (shelf_read_next(shelf))
        ;
    shelf_keep_cache(shelf);
    shelf_list_init(&list, shelf_folder(shelf), NULL, 0);
    (void)lineedit_set(&list.filter, options->words);
    if (shelf_items_give(shelf, &list))
        code = print_list(&list, options->csv);
    else
        report_failure(shelf_folder(shelf), STATUS_NO_MEMORY, 0, stderr);
    shelf_list_done(&list);
    return code;
}

/* --- the command line --- */

static bool take(void *asked, enum option_id id, const char *value)
{
    struct shelf_options *options = asked;

    switch (id) {
    case OPTION_SHELF_CSV:
        options->csv = true;
        return true;
    case OPTION_SHELF_FOLDER:
        options->folder = value;
        return true;
    default:
        return option_not_taken(id);
    }
}

static bool take_word(void *asked, const char *word)
{
    struct shelf_options *options = asked;

    strbuf_add(&options->filter, options->filter.length > 0 ? " " : "");
    strbuf_add(&options->filter, word);
    if (!options->filter.truncated)
        return true;
    fputs("sillet: shelf: too many words\n", stderr);
    return false;
}

enum exit_code shelf_command(int count, char *const *words)
{
    struct shelf_options options = {.folder = NULL};
    const struct option_reader reader = {take, take_word, &options};
    struct shelf *shelf;

    options.filter = STRBUF(options.words);
    if (!option_read(LINE_SHELF, count, words, &reader))
        return EXIT_USAGE;
    if (shelf_items_open_to_list(options.folder, &shelf) != STATUS_OK)
        return EXIT_CANNOT;
    const enum exit_code code = list_shelf(shelf, &options);
    shelf_close(shelf);
    return code;
}
