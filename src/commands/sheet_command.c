/* SPDX-License-Identifier: MIT */
#include "commands/sheet_command.h"

#include <langinfo.h>
#include <string.h>

#include "commands/output.h"
#include "commands/sheet_file.h"
#include "commands/shop_settings.h"
#include "commands/with_record.h"

static bool is_utf8(void)
{
    return strcmp(nl_langinfo(CODESET), "UTF-8") == 0;
}

static enum exit_code print_bytes(const struct bytes *bytes)
{
    (void)fwrite(bytes->data, 1, bytes->length, stdout);
    return report_printed(EXIT_GOOD);
}

/* The sheet of one of the files. */
struct task {
    const struct sheet_options *options;
    const char *path;
    int at;
    bool *printed; /* a sheet before it was printed */
};

static enum exit_code deliver(const struct task *task, const struct bytes *bytes)
{
    const struct sheet_options *options = task->options;
    char memory[OUTPUT_NAME_MAX];

    if (options->output)
        return output_write(file_words_output(&options->files, task->at, options->output, memory),
                            bytes->data, bytes->length);
    /* Each on a page of its own, if they are printed. */
    if (*task->printed)
        fputc('\f', stdout);
    *task->printed = true;
    return print_bytes(bytes);
}

static enum exit_code refuse(const struct task *task, const struct record *record,
                             enum status status)
{
    if (status != STATUS_NOT_FOUND) {
        report_failure(task->path, status, 0, stderr);
        return EXIT_CANNOT;
    }
    report_begin(task->path, stderr);
    fprintf(stderr, " there is no visit %d; the last is %d\n", task->options->visit,
            record_last_visit(record));
    return EXIT_USAGE;
}

static enum exit_code make(const void *given, const struct record *record)
{
    const struct task *task = given;
    const struct sheet_options *options = task->options;
    const struct shop_units units = shop_settings_read(NULL);
    const struct sheet_document document = {.record = record,
                                            .visit = options->visit,
                                            .units = &units,
                                            .format = options->format,
                                            .paper = options->paper,
                                            .kind = options->kind,
                                            .label = options->label,
                                            .utf8 = is_utf8()};
    struct bytes bytes;

    bytes_init(&bytes);
    const enum status status = sheet_file_make(&document, &bytes);
    const enum exit_code code =
        status == STATUS_OK ? deliver(task, &bytes) : refuse(task, record, status);
    bytes_done(&bytes);
    return code;
}

/* Checked before anything is read or written. */
static bool can_make(const struct sheet_options *options)
{
    if (options->format == SHEET_FORMAT_TEXT || sheet_file_can_draw())
        return true;
    fputs("sillet: PDF and SVG need cairo, which this sillet is without; -o NAME.txt "
          "works\n",
          stderr);
    return false;
}

static enum exit_code make_one(void *given, int i)
{
    struct task *task = given;

    task->path = task->options->files.paths[i];
    task->at = i;
    return with_record(task->path, PROBLEM_ERROR, make, task);
}

enum exit_code sheet_command(const struct sheet_options *options)
{
    bool printed = false;
    struct task task = {.options = options, .printed = &printed};

    if (!file_words_spare(&options->files, options->output))
        return EXIT_USAGE;
    return can_make(options) ? file_words_each(&options->files, make_one, &task) : EXIT_CANNOT;
}
