/* SPDX-License-Identifier: MIT */
#include "commands/shelf_command.h"

#include <stdlib.h>
#include <string.h>

#include "commands/clock_day.h"
#include "commands/grid.h"
#include "commands/option.h"
#include "commands/shelf_items.h"
#include "commands/shelf_when.h"
#include "commands/shop_settings.h"
#include "commands/when.h"
#include "shelf/shelf_table.h"

struct shelf_options {
    const char *folder;
    bool csv;
    enum shelf_question question;
    enum shelf_table_id table; /* TABLES_: the instruments are listed */
    int asked;                 /* how many questions the options are */
    const char *when;          /* with SHELF_LEFT: by an earlier day; NULL: as last left */
    struct when then;
    char words[LINEEDIT_MAX + 1];
    struct strbuf filter; /* over `words` */
};

/* --- instruments --- */

/* As CSV each list has these in front, and then what its question is about. */
static const enum shelf_column common[] = {COLUMN_FILE,  COLUMN_NAME,   COLUMN_KIND,  COLUMN_OWNER,
                                           COLUMN_MAKER, COLUMN_SERIAL, COLUMN_VISIT, COLUMN_MARKS};

enum { COMMON = sizeof common / sizeof common[0] };

struct listing {
    const struct shelf_list *list;
    enum shelf_column column[GRID_COLUMNS_MAX];
    int columns;
};

static bool has(const struct listing *listing, enum shelf_column column)
{
    for (int i = 0; i < listing->columns; i++)
        if (listing->column[i] == column)
            return true;
    return false;
}

static void add_column(struct listing *listing, enum shelf_column column)
{
    if (has(listing, column))
        return;
    listing->column[listing->columns++] = column;
    if (listing->list->ground.plain && shelf_column_other_end(column) != COLUMN_NONE)
        listing->column[listing->columns++] = shelf_column_other_end(column);
}

static void choose_columns(struct listing *listing)
{
    static const enum shelf_column wanted[] = {COLUMN_WANTED_RELIEF, COLUMN_WANTED_ACTION,
                                               COLUMN_WANTED_GAP};
    const struct shelf_question_row *row = shelf_question_get(listing->list->question);
    const bool all = listing->list->question == SHELF_ALL || listing->list->ground.plain;

    for (int i = 0; all && i < COMMON; i++)
        add_column(listing, common[i]);
    for (int i = 0; i < row->shown_count; i++)
        add_column(listing, row->shown[i].column);
    /* These lists are for telling owners; on a screen of 80 columns the pane has it. */
    if (listing->list->question == SHELF_DUE || listing->list->question == SHELF_HOUSE)
        add_column(listing, COLUMN_CONTACT);
    if (listing->list->question == SHELF_LEFT && listing->list->ground.plain)
        for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
            add_column(listing, wanted[i]);
}

static const char *heading(const void *of, int column)
{
    const struct listing *listing = of;

    return shelf_column_heading(listing->column[column], listing->list->ground.plain);
}

static void add(const void *of, size_t row, int column, struct strbuf *out)
{
    const struct listing *listing = of;

    shelf_column_add(&listing->list->ground, listing->list->found[row], listing->column[column],
                     false, out);
}

static void say_none(const struct shelf_list *list)
{
    const char *none = shelf_question_get(list->question)->none;

    if (list->count == 0)
        fputs("sillet: no instrument on file\n", stderr);
    else if (lineedit_is_empty(&list->filter))
        fprintf(stderr, "sillet: %s\n", none);
    else
        fputs("sillet: no instrument on file matches; every word has to be in its " SHELF_SEARCHED
              "\n",
              stderr);
}

static enum exit_code print_list(const struct shelf_list *list, bool csv)
{
    struct listing listing = {.list = list};
    enum exit_code code = EXIT_GOOD;

    for (size_t i = 0; i < list->found_count; i++)
        if (list->found[i]->marks & SHELF_BROKEN)
            code = EXIT_FINDINGS;
    choose_columns(&listing);
    const struct grid grid = {.columns = listing.columns,
                              .rows = list->found_count,
                              .of = &listing,
                              .heading = heading,
                              .add = add};
    if (list->found_count > 0 || csv)
        grid_print(&grid, csv);
    else
        say_none(list);
    return report_printed(code);
}

/* --- tables --- */

static const char *table_heading(const void *of, int column)
{
    const struct shelf_table *table = of;

    return table->head[column];
}

static void add_cell(const void *of, size_t row, int column, struct strbuf *out)
{
    const struct shelf_table *table = of;

    strbuf_add(out, table->cell[row][column]);
}

static enum exit_code print_table(const struct shelf_list *list, enum shelf_table_id id, bool csv)
{
    struct shelf_table *table = calloc(1, sizeof *table);

    if (!table || !shelf_table_make(list, id, table)) {
        free(table);
        report_failure(list->folder, STATUS_NO_MEMORY, 0, stderr);
        return EXIT_CANNOT;
    }
    const struct grid grid = {.columns = table->columns,
                              .rows = (size_t)table->rows,
                              .of = table,
                              .heading = table_heading,
                              .add = add_cell};
    if (table->rows > 0 || csv)
        grid_print(&grid, csv);
    else
        fputs("sillet: nothing on file tells yet\n", stderr);
    if (table->rows > 0 && !csv)
        printf("\n%s\n", table->note);
    free(table);
    return report_printed(EXIT_GOOD);
}

/* As they were left by an earlier day: only those that match are read. */
static enum exit_code print_when(struct shelf_list *list, const struct shelf_options *options)
{
    struct shelf_facts *facts = NULL;

    list->question = SHELF_ALL;
    shelf_list_narrow(list);
    enum exit_code code = shelf_when_take(list, options->then.end - 1, &facts);
    list->question = options->question;
    shelf_list_narrow(list);
    if (!facts) {
        report_failure(list->folder, STATUS_NO_MEMORY, 0, stderr);
    } else {
        const enum exit_code printed = print_list(list, options->csv);

        code = printed > code ? printed : code;
    }
    free(facts);
    return code;
}

static enum exit_code answer(struct shelf *shelf, const struct shelf_options *options)
{
    const struct day today = clock_day();
    struct shelf_list list;
    enum exit_code code = EXIT_CANNOT;

    while (shelf_read_next(shelf))
        ;
    shelf_keep_cache(shelf);
    shelf_list_init(&list, shelf_folder(shelf), NULL, 0);
    list.question = options->question;
    list.ground.today = day_number(&today);
    list.ground.units = shop_settings_read(NULL);
    list.ground.plain = options->csv;
    (void)lineedit_set(&list.filter, options->words);
    if (!shelf_items_give(shelf, &list))
        report_failure(shelf_folder(shelf), STATUS_NO_MEMORY, 0, stderr);
    else if (options->table != TABLES_)
        code = print_table(&list, options->table, options->csv);
    else if (options->when)
        code = print_when(&list, options);
    else
        code = print_list(&list, options->csv);
    shelf_list_done(&list);
    return code;
}

/* --- the command line --- */

static bool ask(struct shelf_options *options, enum shelf_question question,
                enum shelf_table_id table)
{
    options->question = question;
    options->table = table;
    if (options->asked++ == 0)
        return true;
    fputs("sillet: shelf: one question at a time\n", stderr);
    return false;
}

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
    case OPTION_SHELF_HOUSE:
        return ask(options, SHELF_HOUSE, TABLES_);
    case OPTION_SHELF_DUE:
        return ask(options, SHELF_DUE, TABLES_);
    case OPTION_SHELF_SADDLE:
        return ask(options, SHELF_SADDLE, TABLES_);
    case OPTION_SHELF_RODS:
        return ask(options, SHELF_RODS, TABLES_);
    case OPTION_SHELF_LEFT:
        return ask(options, SHELF_LEFT, TABLES_);
    case OPTION_SHELF_WHEN:
        options->when = value;
        return ask(options, SHELF_LEFT, TABLES_) &&
               when_read(value, "shelf --when", &options->then);
    case OPTION_SHELF_USUAL:
        return ask(options, SHELF_ALL, TABLE_USUAL);
    case OPTION_SHELF_TURNS:
        return ask(options, SHELF_ALL, TABLE_TURNS);
    case OPTION_SHELF_PROOF:
        return ask(options, SHELF_ALL, TABLE_PROOF);
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
    struct shelf_options options = {.question = SHELF_ALL, .table = TABLES_};
    const struct option_reader reader = {take, take_word, &options};
    struct shelf *shelf;

    options.filter = STRBUF(options.words);
    if (!option_read(LINE_SHELF, count, words, &reader))
        return EXIT_USAGE;
    if (shelf_items_open_to_list(options.folder, &shelf) != STATUS_OK)
        return EXIT_CANNOT;
    const enum exit_code code = answer(shelf, &options);
    shelf_close(shelf);
    return code;
}
