/* SPDX-License-Identifier: MIT */
#include "commands/layout_options.h"

#include <stdio.h>
#include <string.h>

#include "base/num.h"
#include "base/text_end.h"
#include "commands/option.h"
#include "model/reading/field.h"
#include "store/problem.h"

static bool take_output(const char *path, struct layout_options *options)
{
    options->output = path;
    options->svg = text_ends_in(path, ".svg");
    if (options->svg || text_ends_in(path, ".pdf"))
        return true;
    fprintf(stderr, "sillet: -o '%s': a name that ends in .pdf or .svg is wanted\n",
            shown_string(path).text);
    return false;
}

static bool take_paper(const char *name, struct layout_options *options)
{
    if (strcmp(name, "a4") == 0)
        options->paper = page_a4;
    else if (strcmp(name, "letter") == 0)
        options->paper = page_letter;
    else {
        fprintf(stderr, "sillet: there is no paper '%s'; a4 or letter is wanted\n",
                shown_string(name).text);
        return false;
    }
    return true;
}

static bool take_number(const char *option, const char *text, int most, int *ret_number)
{
    if (num_count(text, strlen(text), most, ret_number) == STATUS_OK && *ret_number > 0)
        return true;
    fprintf(stderr, "sillet: %s '%s': a number is wanted, from 1\n", option,
            shown_string(text).text);
    return false;
}

static bool take(void *asked, enum option_id id, const char *value)
{
    struct layout_options *options = asked;

    switch (id) {
    case OPTION_LAYOUT_OUTPUT:
        return take_output(value, options);
    case OPTION_LAYOUT_PAPER:
        return take_paper(value, options);
    case OPTION_LAYOUT_VISIT:
        return take_number("--visit", value, VISITS_MAX, &options->visit);
    case OPTION_LAYOUT_PASS:
        return take_number("--pass", value, PASSES_MAX, &options->pass);
    default:
        return option_not_taken(id);
    }
}

static bool take_template(const char *name, struct layout_options *options)
{
    enum template_kind kind;

    options->named = true;
    if (template_find(name, &kind)) {
        options->wanted[kind] = true;
        return true;
    }
    fprintf(stderr, "sillet: there is no template '%s'; there are:", shown_string(name).text);
    for (int k = 0; k < TEMPLATE_COUNT_; k++)
        fprintf(stderr, " %s", template_name((enum template_kind)k));
    fputc('\n', stderr);
    return false;
}

/* The first word is a file. Of the others those that could be a template's name are taken for one;
 * a file that is called so can be given as ./NAME. */
static bool take_operand(void *asked, const char *word)
{
    struct layout_options *options = asked;

    if (options->files.count > 0 && !strpbrk(word, "./"))
        return take_template(word, options);
    file_words_add(&options->files, word);
    return true;
}

static bool read_words(int count, char *const *words, struct layout_options *options)
{
    const struct option_reader reader = {take, take_operand, options};

    if (!option_read(LINE_LAYOUT, count, words, &reader))
        return false;
    if (options->files.count > 0 && options->output)
        return true;
    fputs("sillet: layout needs a FILE, and -o with a name ending in .pdf or .svg\n", stderr);
    return false;
}

bool layout_options_read(int count, char *const *words, struct layout_options *ret_options)
{
    struct layout_options options = {.output = NULL};

    if (!file_words_init(&options.files, count))
        return false;
    if (!read_words(count, words, &options)) {
        file_words_done(&options.files);
        return false;
    }
    for (int k = 0; k < TEMPLATE_COUNT_ && !options.named; k++)
        options.wanted[k] = true;
    *ret_options = options;
    return true;
}
