/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_OLD_FILES_H
#define SILLET_TESTS_OLD_FILES_H

#include <stdbool.h>

/* Profiles that are in the tree, and what an edit may change in one. */

enum { OLD_FILES_MAX = 64 };

struct old_files {
    char path[OLD_FILES_MAX][512];
    int count;
};

/* Appends every .ini below a folder; fails the test where it cannot. */
void old_files_find(const char *folder, struct old_files *files);

/*
 * Whether a file is as it was, byte for byte up to its [end], but that `line` ("gauge = .0995 in")
 * stands in the place of one line of that key, or in a string's section of its own; and that the
 * format, where a change was filed, is 2.
 */
bool old_files_is_edited(const char *before, const char *after, const char *line);

/* The edit that the tests make, and fails the test unless a file was changed by it alone. Frees
 * both texts. */
#define OLD_FILES_EDIT "gauge = .0995 in"
void old_files_check(const char *path, char *before, char *after);

#endif
