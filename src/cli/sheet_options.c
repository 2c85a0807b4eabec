/* SPDX-License-Identifier: MIT */
#include "cli/sheet_options.h"

#include <stdio.h>
#include <string.h>

#include "base/num.h"
#include "model/field.h"
#include "store/profile_problem.h"

static bool take_output(const char *name, struct sheet_options *options)
{
    static const char *const endings[] = {
        [SHEET_FORMAT_TEXT] = ".txt", [SHEET_FORMAT_PDF] = ".pdf", [SHEET_FORMAT_SVG] = ".svg"};
    const char *dot = strrchr(name, '.');

    for (int i = SHEET_FORMAT_TEXT; dot && i <= SHEET_FORMAT_SVG; i++)
        if (strcmp(dot, endings[i]) == 0) {
            options->output = name;
            options->format = (enum sheet_format)i;
            return true;
        }
    fprintf(stderr, "sillet: -o '%s': a name that ends in .pdf, .svg or .txt is wanted\n",
            shown_string(name).text);
    return false;
}

static bool take_paper(const char *name, struct sheet_options *options)
{
    if (strcmp(name, "a4") == 0)
        options->paper = SHOP_PAPER_A4;
    else if (strcmp(name, "letter") == 0)
        options->paper = SHOP_PAPER_LETTER;
    else
        fprintf(stderr, "sillet: --paper '%s': a4 or letter is wanted\n", shown_string(name).text);
    return options->paper != SHOP_PAPER_UNSAID;
}

static bool take_visit(const char *number, struct sheet_options *options)
{
    if (num_count(number, strlen(number), VISITS_MAX, &options->visit) == STATUS_OK &&
        options->visit > 0)
        return true;
    fprintf(stderr, "sillet: --visit '%s': the number of a visit is wanted, from 1\n",
            shown_string(number).text);
    return false;
}

static const struct {
    const char *name;
    bool (*take)(const char *value, struct sheet_options *options);
} valued[] = {{"-o", take_output}, {"--paper", take_paper}, {"--visit", take_visit}};

/* Takes the option at *words with its value; false after a message. */
static bool take_option(int count, char *const *words, struct sheet_options *options)
{
    for (size_t i = 0; i < sizeof valued / sizeof valued[0]; i++) {
        if (strcmp(words[0], valued[i].name) != 0)
            continue;
        if (count >= 2)
            return valued[i].take(words[1], options);
        fprintf(stderr, "sillet: %s needs a value\n", words[0]);
        return false;
    }
    fprintf(stderr, "sillet: sheet has no option '%s'; there are: -o --paper --visit\n",
            shown_string(words[0]).text);
    return false;
}

bool sheet_options_read(int count, char *const *words, struct sheet_options *ret_options)
{
    struct sheet_options options = {.path = NULL};
    bool names_only = false;
    int paths = 0;

    for (int i = 0; i < count; i++) {
        if (!names_only && strcmp(words[i], "--") == 0) {
            names_only = true;
        } else if (names_only || words[i][0] != '-' || words[i][1] == '\0') {
            options.path = words[i];
            paths++;
        } else {
            if (!take_option(count - i, words + i, &options))
                return false;
            i++;
        }
    }
    if (paths != 1) {
        fputs("sillet: sheet wants one FILE\n", stderr);
        return false;
    }
    *ret_options = options;
    return true;
}
