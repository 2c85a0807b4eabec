/* SPDX-License-Identifier: MIT */
#include "commands/option.h"

#include <stddef.h>
#include <string.h>

#include "store/problem.h"

struct line_row {
    const char *name, *operands, *words;
};

struct option_row {
    enum option_line line;
    const char *name, *value, *words;
};

static const struct line_row lines[LINE_COUNT_] = {
#define LINE(id, name, operands, words) [LINE_##id] = {name, operands, words},
#define OPTION(...)
#include "commands/option_table.h"
#undef LINE
#undef OPTION
};

static const struct option_row options[OPTION_COUNT_] = {
#define LINE(...)
#define OPTION(line, id, name, value, words) [OPTION_##id] = {LINE_##line, name, value, words},
#include "commands/option_table.h"
#undef LINE
#undef OPTION
};

enum option_line option_find_line(const char *name)
{
    int line = 0;

    while (line < LINE_COUNT_ && (!lines[line].name[0] || strcmp(lines[line].name, name) != 0))
        line++;
    return (enum option_line)line;
}

static enum option_id find_option(enum option_line line, const char *name)
{
    int id = 0;

    while (id < OPTION_COUNT_ && (options[id].line != line || strcmp(options[id].name, name) != 0))
        id++;
    return (enum option_id)id;
}

static bool refuse_option(enum option_line line, const char *name)
{
    const char *before = "; there are:";

    fprintf(stderr, "sillet: %s has no option '%s'", lines[line].name, shown_string(name).text);
    for (int id = 0; id < OPTION_COUNT_; id++) {
        if (options[id].line != line)
            continue;
        fprintf(stderr, "%s %s", before, options[id].name);
        before = "";
    }
    fputc('\n', stderr);
    return false;
}

/* Takes the option at words[0]; returns the number of words used, 0 after a message. */
static int take_option(enum option_line line, int count, char *const *words,
                       const struct option_reader *reader)
{
    const enum option_id id = find_option(line, words[0]);

    if (id == OPTION_COUNT_)
        return refuse_option(line, words[0]), 0;
    if (!options[id].value[0])
        return reader->take(reader->asked, id, NULL) ? 1 : 0;
    if (count >= 2)
        return reader->take(reader->asked, id, words[1]) ? 2 : 0;
    fprintf(stderr, "sillet: %s needs a value\n", words[0]);
    return 0;
}

bool option_read(enum option_line line, int count, char *const *words,
                 const struct option_reader *reader)
{
    bool plain = false;

    for (int i = 0, taken; i < count; i += taken) {
        taken = 1;
        if (!plain && strcmp(words[i], "--") == 0)
            plain = true;
        else if (!plain && words[i][0] == '-' && words[i][1] != '\0')
            taken = take_option(line, count - i, words + i, reader);
        else if (!reader->operand(reader->asked, words[i]))
            taken = 0;
        if (taken == 0)
            return false;
    }
    return true;
}

bool option_not_taken(enum option_id id)
{
    fprintf(stderr, "sillet: %s does nothing yet\n", options[id].name);
    return false;
}

const char *option_line_name(enum option_line line)
{
    return lines[line].name;
}

/* Prints the description of a call in its own column, line by line. */
static void print_words(FILE *out, int used, const char *words)
{
    enum { WORDS_COLUMN = 32 };

    while (*words) {
        const int length = (int)strcspn(words, "\n");

        fprintf(out, "%*s%.*s\n", used + 2 <= WORDS_COLUMN ? WORDS_COLUMN - used : 2, "", length,
                words);
        words += length + (words[length] == '\n');
        used = 0;
    }
}

void option_print_usage(FILE *out)
{
    for (int line = 0; line < LINE_COUNT_; line++) {
        const struct line_row *row = &lines[line];

        const int used =
            fprintf(out, "%s sillet%s%s%s%s", line == 0 ? "usage:" : "      ",
                    row->name[0] ? " " : "", row->name, row->operands[0] ? " " : "", row->operands);
        if (row->words[0])
            print_words(out, used, row->words);
        else
            fputc('\n', out);
        for (int id = 0; id < OPTION_COUNT_; id++)
            if (options[id].line == (enum option_line)line)
                print_words(out,
                            fprintf(out, "         %s%s%s", options[id].name,
                                    options[id].value[0] ? " " : "", options[id].value),
                            options[id].words);
    }
    fputs("exit:  0 good, 1 findings, 2 usage, 3 cannot read or write\n", out);
}
