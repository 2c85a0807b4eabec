/* SPDX-License-Identifier: MIT */
#include "commands/file_words.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "store/paths.h"

bool file_words_init(struct file_words *files, int most)
{
    *files = (struct file_words){.paths = calloc((size_t)most + 1, sizeof files->paths[0])};
    if (!files->paths)
        fputs("sillet: out of memory\n", stderr);
    return files->paths != NULL;
}

void file_words_done(struct file_words *files)
{
    free(files->paths);
    *files = (struct file_words){.count = 0};
}

void file_words_add(struct file_words *files, const char *path)
{
    files->paths[files->count++] = path;
}

bool file_words_any(const struct file_words *files, enum option_line line)
{
    if (files->count == 0)
        fprintf(stderr, "sillet: %s needs a FILE\n", option_line_name(line));
    return files->count > 0;
}

/* The length of a file's name without its ending. */
static int stem_length(const char *name)
{
    const char *dot = strrchr(name, '.');

    return (int)(dot && dot > name ? (size_t)(dot - name) : strlen(name));
}

const char *file_words_output(const struct file_words *files, int i, const char *output,
                              char memory[OUTPUT_NAME_MAX])
{
    const char *mark = output && files->count > 1 ? strchr(output, '%') : NULL;
    const char *name = paths_name_of(files->paths[i]);
    struct strbuf text = strbuf_over(memory, OUTPUT_NAME_MAX);

    if (!mark)
        return output;
    strbuf_add_bytes(&text, output, (size_t)(mark - output));
    strbuf_add_bytes(&text, name, (size_t)stem_length(name));
    strbuf_add(&text, mark + 1);
    if (!text.truncated)
        return memory;
    report_failure(output, STATUS_TOO_LONG, 0, stderr);
    return NULL;
}

static int compare_names(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* False, after a message, if two of the names are the same. Sorts them. */
static bool are_apart(char **names, int count)
{
    qsort(names, (size_t)count, sizeof names[0], compare_names);
    for (int i = 1; i < count; i++)
        if (strcmp(names[i - 1], names[i]) == 0) {
            report_begin(names[i], stderr);
            fputs(" more than one FILE would be written to it; a % in the name after -o stands for "
                  "the name of each\n",
                  stderr);
            return false;
        }
    return true;
}

/* Which file a path leads to. */
struct identity {
    dev_t device;
    ino_t inode;
};

static int compare_identities(const void *a, const void *b)
{
    const struct identity *x = a, *y = b;

    if (x->device != y->device)
        return x->device < y->device ? -1 : 1;
    return x->inode < y->inode ? -1 : x->inode > y->inode;
}

static bool identify(const char *path, struct identity *ret_identity)
{
    struct stat facts;

    if (stat(path, &facts) != 0)
        return false;
    *ret_identity = (struct identity){.device = facts.st_dev, .inode = facts.st_ino};
    return true;
}

/* False, after a message, if one of the names leads to a file that is read. */
static bool are_others(char **names, const struct file_words *files, struct identity *read)
{
    size_t count = 0;

    for (int i = 0; i < files->count; i++)
        count += identify(files->paths[i], &read[count]);
    qsort(read, count, sizeof read[0], compare_identities);
    for (int i = 0; i < files->count; i++) {
        struct identity own;

        if (!identify(names[i], &own) ||
            !bsearch(&own, read, count, sizeof read[0], compare_identities))
            continue;
        report_begin(names[i], stderr);
        fputs(" this is the profile itself; -o wants another file\n", stderr);
        return false;
    }
    return true;
}

static bool list_names(const struct file_words *files, const char *output, char **names)
{
    char memory[OUTPUT_NAME_MAX];

    for (int i = 0; i < files->count; i++) {
        const char *name = file_words_output(files, i, output, memory);

        names[i] = name ? strdup(name) : NULL;
        if (!names[i])
            return false;
    }
    return true;
}

bool file_words_spare(const struct file_words *files, const char *output)
{
    char **names = calloc((size_t)files->count + 1, sizeof names[0]);
    struct identity *read = calloc((size_t)files->count + 1, sizeof read[0]);
    const bool good = !output || (names && read && list_names(files, output, names) &&
                                  are_apart(names, files->count) && are_others(names, files, read));

    for (int i = 0; names && i < files->count; i++)
        free(names[i]);
    free(names);
    free(read);
    return good;
}

enum exit_code file_words_each(const struct file_words *files, file_work *work, void *given)
{
    enum exit_code worst = EXIT_GOOD;

    for (int i = 0; i < files->count; i++) {
        const enum exit_code code = work(given, i);

        if (code > worst)
            worst = code;
    }
    return worst;
}
