/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_TREE_H
#define SILLET_TESTS_TREE_H

#include <stddef.h>

/* A folder of its own for a test, and files in it. Every failure fails the test. */

struct tree {
    char folder[256];
};

/* For cmocka_unit_test_setup_teardown: *state becomes a struct tree *. */
int tree_setup(void **state);
int tree_teardown(void **state);

/* Takes out what has that name, with all that is in it; fine when nothing has. */
void tree_remove(const struct tree *tree, const char *name);

/* "FOLDER/name"; good until 32 other names have been asked for. */
const char *tree_path(const struct tree *tree, const char *name);

void tree_write(const char *path, const char *bytes, size_t length);
void tree_write_text(const char *path, const char *text);

/* The whole file with a NUL behind it, to be freed with free(); NULL when there is none. */
char *tree_read(const char *path, size_t *ret_length);

void tree_assert_holds(const char *path, const char *bytes, size_t length);
void tree_assert_text(const char *path, const char *text);

/* How many names the folder holds, and of these how many hold `part`. */
int tree_count(const char *folder, const char *part);

#endif
