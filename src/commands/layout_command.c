/* SPDX-License-Identifier: MIT */
#include "commands/layout_command.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "commands/layout_options.h"
#include "commands/layout_pages.h"
#include "commands/output.h"
#include "commands/with_record.h"
#include "model/derive/asked.h"
#include "page/page_write.h"

/* A pass, and what is derived from it. */
struct state {
    struct place place;
    struct derived derived;
};

/* What is drawn from: the pass that was asked for or the last, and for what a reset takes the pass
 * that asked for it. */
struct states {
    struct state shown, reset;
};

/* The templates of one of the files. */
struct task {
    const struct layout_options *options;
    const char *path;
    int at;
};

static void say_missing(const char *path, enum template_kind kind, const char *missing)
{
    report_begin(path, stderr);
    fprintf(stderr, " template %s left out: missing %s\n", template_name(kind), missing);
}

/* False, after a message, where no such pass was read. */
static bool find_place(const struct task *task, const struct record *record,
                       struct place *ret_place)
{
    const struct layout_options *options = task->options;
    struct place place = place_current(record);

    if (options->visit > 0)
        place = place_of(record, options->visit, record_last_read_pass(record, options->visit));
    if (options->pass > 0)
        place.pass = options->pass;
    struct place read = place_of(record, place.visit, place.pass - 1);
    if ((options->visit > 0 || options->pass > 0) &&
        !(place.pass > 0 && place_next(&read) && read.visit == place.visit &&
          read.pass == place.pass)) {
        report_begin(task->path, stderr);
        if (place.pass > 0)
            fprintf(stderr, " nothing was read in visit %d, pass %d\n", place.visit, place.pass);
        else
            fprintf(stderr, " no pass was read in visit %d\n", place.visit);
        return false;
    }
    *ret_place = place;
    return true;
}

static void find_states(const struct layout_options *options, struct place place,
                        struct states *ret_states)
{
    ret_states->shown.place = place;
    derive_pass(place, &ret_states->shown.derived);
    if (options->pass > 0 ||
        !asked_for_reset(place, &ret_states->reset.place, &ret_states->reset.derived))
        ret_states->reset = ret_states->shown;
}

/* Whether it shows a reset that no pass asked for. A pass that was named is drawn from anyway. */
static bool is_unasked(const struct task *task, enum template_kind kind, const struct state *state)
{
    if (task->options->pass > 0 || !template_is_of_reset(kind) ||
        move_set_reset(&state->derived.moves) != RESET_SADDLE)
        return false;
    report_begin(task->path, stderr);
    fprintf(stderr,
            " template %s left out: no pass of visit %d asks for a neck reset; --pass %d draws it "
            "anyway\n",
            template_name(kind), state->place.visit, state->place.pass);
    return true;
}

/* Draws the templates that are wanted and possible. *ret_complete is false if one that was named
 * lacks readings or a pass that asks for it. */
static enum status draw(const struct task *task, const struct states *states,
                        struct layout_drawings *drawings, bool *ret_complete)
{
    const struct layout_options *options = task->options;

    *ret_complete = true;
    for (int k = 0; k < TEMPLATE_COUNT_; k++) {
        const enum template_kind kind = (enum template_kind)k;
        const struct state *state = template_is_of_reset(kind) ? &states->reset : &states->shown;
        char memory[800];
        struct strbuf missing = STRBUF(memory);

        if (!options->wanted[k] ||
            (!options->named && !template_applies(kind, &state->place.record, &state->derived)))
            continue;
        enum status status = STATUS_ABSENT;
        if (!is_unasked(task, kind, state)) {
            status = layout_add(drawings, kind, state->place, &state->derived, &missing);
            if (status == STATUS_ABSENT)
                say_missing(task->path, kind, memory);
        }
        if (status == STATUS_ABSENT) {
            *ret_complete = *ret_complete && !options->named;
            continue;
        }
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

static enum exit_code make(const void *given, const struct record *record)
{
    const struct task *task = given;
    const struct layout_options *options = task->options;
    struct layout_drawings drawings = {.count = 0};
    struct page_bytes bytes = {.data = NULL};
    struct states states;
    struct place place;
    char memory[OUTPUT_NAME_MAX];
    const char *output = file_words_output(&options->files, task->at, options->output, memory);
    bool complete = false;

    if (!find_place(task, record, &place))
        return EXIT_USAGE;
    find_states(options, place, &states);
    enum status status = draw(task, &states, &drawings, &complete);
    if (status == STATUS_OK && drawings.count == 0) {
        layout_drawings_free(&drawings);
        return EXIT_FINDINGS;
    }
    if (status == STATUS_OK)
        status = layout_make_bytes(record, &drawings, options->svg, options->paper, &bytes);
    enum exit_code code = EXIT_CANNOT;
    if (status == STATUS_OK)
        code = output_write(output, (const char *)bytes.data, bytes.length);
    else
        report_failure(output, status, errno, stderr);
    free(bytes.data);
    layout_drawings_free(&drawings);
    return code == EXIT_GOOD && !complete ? EXIT_FINDINGS : code;
}

static enum exit_code make_one(void *given, int i)
{
    const struct layout_options *options = given;
    const struct task task = {.options = options, .path = options->files.paths[i], .at = i};

    return with_record(task.path, PROBLEM_ERROR, make, &task);
}

static enum exit_code make_all(struct layout_options *options)
{
    if (!page_can_write()) {
        fputs("sillet: this sillet is without cairo, which draws PDF and SVG; install it, or build "
              "sillet with -Dcairo=enabled\n",
              stderr);
        return EXIT_CANNOT;
    }
    if (!file_words_spare(&options->files, options->output))
        return EXIT_USAGE;
    return file_words_each(&options->files, make_one, options);
}

enum exit_code layout_command(int count, char *const *words)
{
    struct layout_options options;

    if (!layout_options_read(count, words, &options))
        return EXIT_USAGE;
    const enum exit_code code = make_all(&options);
    file_words_done(&options.files);
    return code;
}
