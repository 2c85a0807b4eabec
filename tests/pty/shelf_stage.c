/* SPDX-License-Identifier: MIT */
#include "shelf_stage.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <cmocka.h>

static const char *program, *data_folder;

bool shelf_stage_arguments(int count, char **words)
{
    if (count < 3) {
        fprintf(stderr, "usage: %s PATH_OF_SILLET FOLDER_OF_TEST_DATA\n", words[0]);
        return false;
    }
    program = words[1];
    data_folder = words[2];
    return true;
}

int shelf_stage_open(void **state)
{
    struct shelf_stage *stage = calloc(1, sizeof *stage);
    void *tree = NULL;

    if (!stage || tree_setup(&tree) != 0)
        return -1;
    stage->tree = tree;
    snprintf(stage->home, sizeof stage->home, "%s/home", stage->tree->folder);
    snprintf(stage->shelf, sizeof stage->shelf, "%s/shelf", stage->tree->folder);
    *state = stage;
    return mkdir(stage->home, 0700);
}

int shelf_stage_open_inch(void **state)
{
    if (shelf_stage_open(state) != 0)
        return -1;
    const struct shelf_stage *stage = *state;

    if (mkdir(tree_path(stage->tree, "home/.config"), 0700) != 0 ||
        mkdir(tree_path(stage->tree, "home/.config/sillet"), 0700) != 0)
        return -1;
    tree_write_text(tree_path(stage->tree, "home/.config/sillet/shop.ini"),
                    "[shop]\nunits = inch\n");
    return 0;
}

int shelf_stage_close(void **state)
{
    struct shelf_stage *stage = *state;
    void *tree = stage->tree;

    terminal_stop(stage->other);
    terminal_stop(stage->terminal);
    free(stage);
    return tree_teardown(&tree);
}

struct terminal *shelf_stage_begin(const struct shelf_stage *stage, int rows, int columns)
{
    const char *const argv[] = {program, "--shelf", stage->shelf, NULL};
    const struct terminal_setup setup = {
        .argv = argv, .home = stage->home, .rows = rows, .columns = columns};
    struct terminal *terminal = terminal_start(&setup);

    terminal_expect(terminal, SEEN_SHELF);
    return terminal;
}

const char *shelf_stage_path(const struct shelf_stage *stage, const char *file)
{
    char name[200];

    snprintf(name, sizeof name, "shelf/%s", file);
    return tree_path(stage->tree, name);
}

void shelf_stage_put(const struct shelf_stage *stage, const char *file, const char *name,
                     const char *owner)
{
    char from[1024], text[300];
    size_t length;

    (void)mkdir(stage->shelf, 0700);
    snprintf(from, sizeof from, "%s/worked-example.ini", data_folder);
    char *bytes = tree_read(from, &length);
    assert_non_null(bytes);
    char *whole = malloc(length + sizeof text);
    assert_non_null(whole);
    snprintf(text, sizeof text, "\n[instrument]\nname = %s\nowner = %s\n", name, owner);
    snprintf(whole, length + sizeof text, "%s%s", bytes, text);
    tree_write_text(shelf_stage_path(stage, file), whole);
    free(whole);
    free(bytes);
}

void shelf_stage_expect_exit(struct terminal *terminal, int code)
{
    const int status = terminal_expect_end(terminal);

    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), code);
    assert_true(terminal_modes_restored(terminal));
}

void shelf_stage_expect_in_hand(struct terminal *terminal, const char *name)
{
    char wanted[100];

    snprintf(wanted, sizeof wanted, ">%s", name);
    terminal_expect(terminal, wanted);
}
