/* SPDX-License-Identifier: MIT */
#include "commands/sheet_options.h"

#include <stdio.h>
#include <string.h>

#include "base/num.h"
#include "commands/option.h"
#include "model/reading/field.h"
#include "store/problem.h"

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

static bool take_kind(enum sheet_paper_kind kind, struct sheet_options *options)
{
    if (options->kind != SHEET_FOR_OWNER && options->kind != kind) {
        fputs("sillet: --estimate, --card or --label: one of them is wanted\n", stderr);
        return false;
    }
    options->kind = kind;
    return true;
}

static bool take_label(const char *name, struct sheet_options *options)
{
    for (int size = LABEL_NONE + 1; size < LABEL_SIZE_COUNT_; size++)
        if (strcmp(name, label_size_name((enum label_size)size)) == 0)
            options->label = (enum label_size)size;
    if (options->label == LABEL_NONE)
        fprintf(stderr, "sillet: --label '%s': small, medium or large is wanted\n",
                shown_string(name).text);
    return options->label != LABEL_NONE && take_kind(SHEET_LABEL, options);
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

static bool take(void *asked, enum option_id id, const char *value)
{
    switch (id) {
    case OPTION_SHEET_OUTPUT:
        return take_output(value, asked);
    case OPTION_SHEET_PAPER:
        return take_paper(value, asked);
    case OPTION_SHEET_ESTIMATE:
        return take_kind(SHEET_ESTIMATE, asked);
    case OPTION_SHEET_CARD:
        return take_kind(SHEET_CARD, asked);
    case OPTION_SHEET_LABEL:
        return take_label(value, asked);
    case OPTION_SHEET_VISIT:
        return take_visit(value, asked);
    default:
        return option_not_taken(id);
    }
}

static bool take_file(void *asked, const char *word)
{
    struct sheet_options *options = asked;

    file_words_add(&options->files, word);
    return true;
}

static bool read_words(int count, char *const *words, struct sheet_options *options)
{
    const struct option_reader reader = {take, take_file, options};

    if (!option_read(LINE_SHEET, count, words, &reader) ||
        !file_words_any(&options->files, LINE_SHEET))
        return false;
    if (options->kind != SHEET_LABEL || options->format != SHEET_FORMAT_TEXT)
        return true;
    fputs("sillet: a label is drawn: -o with a name that ends in .pdf or .svg is wanted\n", stderr);
    return false;
}

bool sheet_options_read(int count, char *const *words, struct sheet_options *ret_options)
{
    struct sheet_options options = {.output = NULL};

    if (!file_words_init(&options.files, count))
        return false;
    if (read_words(count, words, &options)) {
        *ret_options = options;
        return true;
    }
    file_words_done(&options.files);
    return false;
}
