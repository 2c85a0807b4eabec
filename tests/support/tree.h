/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_TREE_H
#define SILLET_TESTS_TREE_H

#include <stddef.h>

/* A temporary folder for a test, and files in it. Every failure fails the test. */

struct tree {
    char folder[256];
};

/* For cmocka_unit_test_setup_teardown: *state becomes a struct tree *. */
int tree_setup(void **state);
int tree_teardown(void **state);

/* Removes a file, or a folder with its contents; does nothing if there is none of that name. */
void tree_remove(const struct tree *tree, const char *name);

/* "FOLDER/name"; valid until 32 other names have been asked for. */
const char *tree_path(const struct tree *tree, const char *name);

void tree_write(const char *path, const char *bytes, size_t length);
void tree_write_text(const char *path, const char *text);

/* The whole file followed by a NUL, which the caller frees; NULL if there is none. */
char *tree_read(const char *path, size_t *ret_length);

void tree_assert_holds(const char *path, const char *bytes, size_t length);
void tree_assert_text(const char *path, const char *text);

/* How many names in the folder contain `part`. */
int tree_count(const char *folder, const char *part);

#endif
