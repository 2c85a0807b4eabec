/* SPDX-License-Identifier: MIT */
#include "commands/demo_command.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/num.h"
#include "commands/clock_day.h"
#include "commands/csv.h"
#include "commands/option.h"
#include "commands/shelf_items.h"
#include "commands/shop_settings.h"
#include "demo/demo_shop.h"
#include "model/reading/shop_round.h"
#include "store/profile/preset.h"
#include "store/shelf/shelf_change.h"

enum { SEED_MAX = 1000000000 };

struct demo_options {
    const char *folder, *truth_path;
    int seed;
    struct day last;
    bool has_last;
};

/* What is told of one instrument is written once its file has a name. */
struct truths {
    struct demo_truth *at;
    size_t count, capacity;
    bool lacking;
};

static void take_truth(void *teller, const struct demo_truth *truth)
{
    struct truths *truths = teller;

    if (truths->count == truths->capacity) {
        const size_t capacity = truths->capacity > 0 ? 2 * truths->capacity : 256;
        struct demo_truth *at = realloc(truths->at, capacity * sizeof *at);

        truths->lacking = truths->lacking || !at;
        if (!at)
            return;
        truths->at = at;
        truths->capacity = capacity;
    }
    truths->at[truths->count++] = *truth;
}

static void write_truths(struct csv *csv, const char *file, struct truths *truths)
{
    for (size_t i = 0; i < truths->count; i++) {
        const struct demo_truth *truth = &truths->at[i];

        csv_text(csv, file);
        csv_count(csv, truth->visit, 1);
        csv_count(csv, truth->pass, 1);
        csv_text(csv, truth->what);
        csv_count(csv, truth->string, 1);
        csv_number(csv, truth->true_mm);
        csv_number(csv, truth->read_mm);
        csv_end_record(csv);
    }
    truths->count = 0;
}

static void write_heads(struct csv *csv)
{
    static const char *const heads[] = {"file",   "visit",   "pass",   "what",
                                        "string", "true_mm", "read_mm"};

    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        csv_text(csv, heads[i]);
    csv_end_record(csv);
}

/* --- the instruments --- */

static enum status make_one(const struct demo_options *options, const struct demo_wish *wish,
                            const struct shop_units *units, int index, char **ret_file)
{
    const struct preset *preset = preset_find(demo_shop_preset(index));
    struct record start, record;

    if (!preset)
        return STATUS_NOT_FOUND;
    enum status status = preset_record(preset, &start);
    if (status != STATUS_OK)
        return status;
    status = shop_round_record(&start, units);
    if (status == STATUS_OK)
        status = demo_shop_make(index, wish, &start, &record);
    record_done(&start);
    if (status != STATUS_OK)
        return status;
    status = shelf_file_record(options->folder, &record, demo_shop_name(index), ret_file);
    const int kept_errno = errno;
    record_done(&record);
    errno = kept_errno;
    return status;
}

static enum status make_all(const struct demo_options *options, FILE *truth_file)
{
    const struct shop_units units = shop_settings_read(NULL);
    struct csv csv = {.out = truth_file};
    struct truths truths = {.at = NULL};
    const struct demo_wish wish = {.seed = (uint64_t)options->seed,
                                   .last_day = day_number(&options->last),
                                   .metric = units.bare[MEASURE_FEELER] == UNIT_100THS,
                                   .tell = truth_file ? take_truth : NULL,
                                   .teller = &truths};
    enum status status = STATUS_OK;

    if (truth_file)
        write_heads(&csv);
    for (int i = 0; status == STATUS_OK && demo_shop_preset(i); i++) {
        char *file = NULL;

        status = make_one(options, &wish, &units, i, &file);
        if (status == STATUS_OK && truth_file)
            write_truths(&csv, file, &truths);
        if (status == STATUS_OK && truths.lacking)
            status = STATUS_NO_MEMORY;
        free(file);
    }
    free(truths.at);
    return status;
}

/* --- the folder --- */

static bool is_empty(const char *folder)
{
    struct shelf *shelf;

    if (shelf_open(folder, &shelf) != STATUS_OK)
        return false;
    const enum status status = shelf_status(shelf);
    const bool empty =
        (status == STATUS_OK || status == STATUS_NOT_FOUND) && shelf_entries(shelf)->count == 0;
    shelf_close(shelf);
    if (!empty)
        fprintf(stderr, "sillet: demo needs a new or empty folder, and %s is none\n",
                shown_string(folder).text);
    return empty;
}

static enum exit_code make_shop(const struct demo_options *options)
{
    FILE *truth = NULL;

    if (!is_empty(options->folder))
        return EXIT_CANNOT;
    if (options->truth_path && !(truth = fopen(options->truth_path, "w"))) {
        report_failure(options->truth_path, STATUS_IO, errno, stderr);
        return EXIT_CANNOT;
    }
    errno = 0;
    const enum status status = make_all(options, truth);
    const int error = errno;
    if (truth && (ferror(truth) | fclose(truth)) != 0) {
        report_failure(options->truth_path, STATUS_IO, errno, stderr);
        return EXIT_CANNOT;
    }
    if (status != STATUS_OK) {
        report_failure(options->folder, status, error, stderr);
        return EXIT_CANNOT;
    }
    printf("A made-up shop is on file. Look around in it with\n  sillet --shelf %s\n",
           shown_string(options->folder).text);
    return report_printed(EXIT_GOOD);
}

/* --- the command line --- */

static bool take_seed(struct demo_options *options, const char *value)
{
    if (num_count(value, strlen(value), SEED_MAX, &options->seed) == STATUS_OK)
        return true;
    fprintf(stderr, "sillet: demo --seed '%s': a whole number up to 1000000000\n",
            shown_string(value).text);
    return false;
}

static bool take_last(struct demo_options *options, const char *value)
{
    options->has_last = strlen(value) == 10 && day_parse(value, &options->last);
    if (!options->has_last)
        fprintf(stderr, "sillet: demo --until '%s': a day as 2026-03-02\n",
                shown_string(value).text);
    return options->has_last;
}

static bool take(void *asked, enum option_id id, const char *value)
{
    struct demo_options *options = asked;

    switch (id) {
    case OPTION_DEMO_SEED:
        return take_seed(options, value);
    case OPTION_DEMO_UNTIL:
        return take_last(options, value);
    case OPTION_DEMO_TRUTH:
        options->truth_path = value;
        return true;
    default:
        return option_not_taken(id);
    }
}

static bool take_word(void *asked, const char *word)
{
    struct demo_options *options = asked;

    if (options->folder)
        fputs("sillet: demo takes one FOLDER\n", stderr);
    else
        options->folder = word;
    return options->folder == word;
}

enum exit_code demo_command(int count, char *const *words)
{
    struct demo_options options = {.seed = 1};
    const struct option_reader reader = {take, take_word, &options};

    if (!option_read(LINE_DEMO, count, words, &reader))
        return EXIT_USAGE;
    if (!options.folder) {
        fputs("sillet: demo needs a FOLDER to make the shop in\n", stderr);
        return EXIT_USAGE;
    }
    if (!options.has_last)
        options.last = clock_day();
    return make_shop(&options);
}
