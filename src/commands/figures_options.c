/* SPDX-License-Identifier: MIT */
#include "commands/figures_options.h"

#include <math.h>
#include <stdio.h>

#include "base/num.h"
#include "commands/option.h"
#include "store/problem.h"

static bool take_tuning(const char *name, struct figures_options *options)
{
    const struct tuning *tuning;

    if (tuning_find(name, &tuning) == STATUS_OK &&
        tuning_read_notes(tuning->notes, &options->change.notes) == STATUS_OK) {
        options->change.has_notes = true;
        return true;
    }
    fprintf(stderr, "sillet: there is no tuning '%s'; there are:", shown_string(name).text);
    for (int k = 0; k < tuning_count(); k++)
        fprintf(stderr, "%s %s", k > 0 ? "," : "", tuning_get(k)->name);
    fputc('\n', stderr);
    return false;
}

static bool take_notes(const char *notes, struct figures_options *options)
{
    if (tuning_read_notes(notes, &options->change.notes) == STATUS_OK) {
        options->change.has_notes = true;
        return true;
    }
    fprintf(stderr,
            "sillet: --notes '%s' is not understood; notes are wanted from the bass side to the "
            "treble side, as \"E2 A2 D3 G3 B3 E4\"\n",
            shown_string(notes).text);
    return false;
}

static bool take_shift(const char *text, struct figures_options *options)
{
    double *shift = &options->change.shift_semitones;

    if (num_parse(text, QUANTITY_PLAIN, UNIT_PLAIN, shift, NULL) == STATUS_OK &&
        fabs(*shift) <= WHAT_IF_SHIFT_MAX)
        return true;
    fprintf(stderr, "sillet: --shift '%s' is not understood; semitones from -24 to 24 are wanted\n",
            shown_string(text).text);
    return false;
}

static bool take_set(const char *name, struct figures_options *options)
{
    struct string_set set = {.strings = 0};

    if (string_set_find(name, &options->change.set) == STATUS_OK) {
        options->change.has_set = true;
        return true;
    }
    fprintf(stderr, "sillet: there is no set '%s'; there are:", shown_string(name).text);
    for (int k = 0; string_set_next(&set); k++)
        fprintf(stderr, "%s %s", k > 0 ? "," : "", set.name);
    fputc('\n', stderr);
    return false;
}

static bool take_value(struct figures_options *options, enum option_id id, const char *value)
{
    options->what_if = true;
    switch (id) {
    case OPTION_TUNING:
        return take_tuning(value, options);
    case OPTION_NOTES:
        return take_notes(value, options);
    case OPTION_SHIFT:
        return take_shift(value, options);
    case OPTION_SET:
        return take_set(value, options);
    default:
        return option_not_taken(id);
    }
}

static bool take(void *asked, enum option_id id, const char *value)
{
    struct figures_options *options = asked;

    if ((id == OPTION_TUNING || id == OPTION_NOTES) && options->change.has_notes) {
        fputs("sillet: only one tuning can be asked for, by --tuning or --notes\n", stderr);
        return false;
    }
    if (id != OPTION_ALL_VISITS && id != OPTION_MORE)
        return take_value(options, id, value);
    *(id == OPTION_MORE ? &options->more : &options->all_visits) = true;
    return true;
}

static bool take_file(void *asked, const char *word)
{
    struct figures_options *options = asked;

    file_words_add(&options->files, word);
    return true;
}

bool figures_options_read(int count, char *const *words, struct figures_options *ret_options)
{
    struct figures_options options = {.more = false};
    const struct option_reader reader = {take, take_file, &options};

    if (!file_words_init(&options.files, count))
        return false;
    bool good = option_read(LINE_FIGURES, count, words, &reader) &&
                file_words_any(&options.files, LINE_FIGURES);
    if (good && options.all_visits && (options.more || options.what_if)) {
        fputs("sillet: --all-visits goes with no other option\n", stderr);
        good = false;
    }
    if (good)
        *ret_options = options;
    else
        file_words_done(&options.files);
    return good;
}
