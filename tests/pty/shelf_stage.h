/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SHELF_STAGE_H
#define SILLET_TESTS_SHELF_STAGE_H

#include <stdbool.h>

#include "terminal.h"
#include "tree.h"

/* What tests of the shelf in the real program begin with: a home, a shelf, profiles on it, the
 * program on a terminal. A failure fails the test. */

#define SEEN_SHELF "[Shelf]"
#define SEEN_BENCH "[Bench]"
#define SEEN_MENU  "a new instrument"

struct shelf_stage {
    struct tree *tree;
    char home[300], shelf[340];
    struct terminal *terminal, *other; /* stopped with the stage */
};

/* Takes the path of sillet and the folder of test data; false, and says so, if they are missing. */
bool shelf_stage_arguments(int count, char **words);

/* For cmocka. The folder of the shelf is not there yet. _inch: of a shop that has said its units.
 */
int shelf_stage_open(void **state);
int shelf_stage_open_inch(void **state);
int shelf_stage_close(void **state);

/* The program with the shelf on its screen. */
struct terminal *shelf_stage_begin(const struct shelf_stage *stage, int rows, int columns);

/* A path on the shelf, as tree_path. */
const char *shelf_stage_path(const struct shelf_stage *stage, const char *file);

/* A profile on the shelf: the worked example under a name and an owner. */
void shelf_stage_put(const struct shelf_stage *stage, const char *file, const char *name,
                     const char *owner);

/* Its end, and the terminal as it was before. */
void shelf_stage_expect_exit(struct terminal *terminal, int code);

/* The row of the one in hand begins with a mark. */
void shelf_stage_expect_in_hand(struct terminal *terminal, const char *name);

#endif
