/* SPDX-License-Identifier: MIT */
#include "tree.h"

#include <dirent.h>
#include <ftw.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

int tree_setup(void **state)
{
    struct tree *tree = calloc(1, sizeof *tree);
    const char *base = getenv("TMPDIR");

    if (!tree)
        return -1;
    snprintf(tree->folder, sizeof tree->folder, "%s/sillet-test-XXXXXX",
             base && *base ? base : "/tmp");
    if (!mkdtemp(tree->folder)) {
        free(tree);
        return -1;
    }
    *state = tree;
    return 0;
}

static int remove_one(const char *path, const struct stat *facts, int kind, struct FTW *where)
{
    (void)facts;
    (void)kind;
    (void)where;
    return remove(path);
}

int tree_teardown(void **state)
{
    struct tree *tree = *state;
    const int result = nftw(tree->folder, remove_one, 16, FTW_DEPTH | FTW_PHYS | FTW_MOUNT);

    free(tree);
    return result;
}

void tree_remove(const struct tree *tree, const char *name)
{
    (void)nftw(tree_path(tree, name), remove_one, 16, FTW_DEPTH | FTW_PHYS | FTW_MOUNT);
    assert_int_not_equal(access(tree_path(tree, name), F_OK), 0);
}

const char *tree_path(const struct tree *tree, const char *name)
{
    static char paths[32][1024];
    static int next;
    char path[sizeof paths[0]];

    snprintf(path, sizeof path, "%s/%s", tree->folder, name);
    for (int i = 0; i < 32; i++)
        if (strcmp(paths[i], path) == 0)
            return paths[i];
    return strcpy(paths[next++ % 32], path);
}

void tree_write(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");

    if (!file)
        fail_msg("%s cannot be written", path);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

void tree_write_text(const char *path, const char *text)
{
    tree_write(path, text, strlen(text));
}

char *tree_read(const char *path, size_t *ret_length)
{
    FILE *file = fopen(path, "rb");
    size_t length = 0, size = 65536, got;
    char *bytes = malloc(size);

    if (!file || !bytes) {
        free(bytes);
        return NULL;
    }
    while ((got = fread(bytes + length, 1, size - length - 1, file)) > 0) {
        length += got;
        if (length + 1 == size) {
            size *= 2;
            bytes = realloc(bytes, size);
            assert_non_null(bytes);
        }
    }
    fclose(file);
    bytes[length] = '\0';
    if (ret_length)
        *ret_length = length;
    return bytes;
}

void tree_assert_holds(const char *path, const char *bytes, size_t length)
{
    size_t got_length = 0;
    char *got = tree_read(path, &got_length);

    if (!got)
        fail_msg("%s is not there", path);
    if (got_length != length || memcmp(got, bytes, length) != 0)
        fail_msg("%s holds %zu bytes:\n%s\nwanted are %zu:\n%.*s", path, got_length, got, length,
                 (int)length, bytes);
    free(got);
}

void tree_assert_text(const char *path, const char *text)
{
    tree_assert_holds(path, text, strlen(text));
}

int tree_count(const char *folder, const char *part)
{
    DIR *listing = opendir(folder);
    int count = 0;

    assert_non_null(listing);
    for (struct dirent *entry; (entry = readdir(listing)) != NULL;)
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0 &&
            strstr(entry->d_name, part))
            count++;
    closedir(listing);
    return count;
}
