/* SPDX-License-Identifier: MIT */
#include "cli/figures_options.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "base/num.h"
#include "store/profile_problem.h"

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

static const struct {
    const char *name;
    bool (*take)(const char *value, struct figures_options *options);
} valued[] = {
    {"--tuning", take_tuning},
    {"--notes", take_notes},
    {"--shift", take_shift},
    {"--set", take_set},
};

/* Takes the option at *words[0] with its value; how many words that were, 0 after a message. */
static int take_option(int count, char *const *words, struct figures_options *options)
{
    if (strcmp(words[0], "--all-visits") == 0) {
        options->all_visits = true;
        return 1;
    }
    if (strcmp(words[0], "--more") == 0) {
        options->more = true;
        return 1;
    }
    for (size_t i = 0; i < sizeof valued / sizeof valued[0]; i++) {
        if (strcmp(words[0], valued[i].name) != 0)
            continue;
        if (count < 2) {
            fprintf(stderr, "sillet: %s needs a value\n", words[0]);
            return 0;
        }
        options->what_if = true;
        return valued[i].take(words[1], options) ? 2 : 0;
    }
    fprintf(stderr,
            "sillet: figures has no option '%s'; there are: --all-visits --more --tuning "
            "--notes --shift --set\n",
            shown_string(words[0]).text);
    return 0;
}

static bool names_both(int count, char *const *words)
{
    bool tuning = false, notes = false;

    for (int i = 0; i < count; i++) {
        tuning = tuning || strcmp(words[i], "--tuning") == 0;
        notes = notes || strcmp(words[i], "--notes") == 0;
    }
    return tuning && notes;
}

bool figures_options_read(int count, char *const *words, struct figures_options *ret_options)
{
    struct figures_options options = {.path = NULL};
    int i = 0;

    while (i < count && words[i][0] == '-' && words[i][1] != '\0') {
        if (strcmp(words[i], "--") == 0) {
            i++;
            break;
        }
        const int taken = take_option(count - i, words + i, &options);
        if (taken == 0)
            return false;
        i += taken;
    }
    if (names_both(i, words)) {
        fputs("sillet: --tuning and --notes say the same; one of them is wanted\n", stderr);
        return false;
    }
    if (options.all_visits && (options.more || options.what_if)) {
        fputs("sillet: --all-visits goes with no other option\n", stderr);
        return false;
    }
    if (count - i != 1) {
        fputs("sillet: figures wants one FILE, behind its options\n", stderr);
        return false;
    }
    options.path = words[i];
    *ret_options = options;
    return true;
}
