/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include "terminal.h"
#include "tree.h"

/*
 * What a shop asks its shelf, asked with keys on the made-up shop, whose three years end today:
 * each question in fewer than ten keystrokes, and what the screen shows is what the command line
 * says.
 */

enum { KEYSTROKES_MOST = 9, LINE_MAX_ = 400 };

static const char *program;

struct stage {
    struct tree *tree;
    char home[300], shelf[340];
    struct terminal *terminal;
};

static void run(const struct stage *stage, const char *words, char *out, size_t size)
{
    char command[1400];

    snprintf(command, sizeof command,
             "env -u XDG_DATA_HOME -u XDG_CACHE_HOME -u XDG_CONFIG_HOME HOME='%s' '%s' %s",
             stage->home, program, words);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    const size_t length = fread(out, 1, size - 1, pipe);
    out[length] = '\0';
    assert_int_equal(WEXITSTATUS(pclose(pipe)), 0);
}

static int open_stage(void **state)
{
    struct stage *stage = calloc(1, sizeof *stage);
    void *tree = NULL;
    char words[400], said[400];

    if (!stage || tree_setup(&tree) != 0)
        return -1;
    stage->tree = tree;
    snprintf(stage->home, sizeof stage->home, "%s/home", stage->tree->folder);
    snprintf(stage->shelf, sizeof stage->shelf, "%s/shelf", stage->tree->folder);
    *state = stage;
    if (mkdir(stage->home, 0700) != 0)
        return -1;
    snprintf(words, sizeof words, "demo '%s'", stage->shelf);
    run(stage, words, said, sizeof said);
    return 0;
}

static int close_stage(void **state)
{
    struct stage *stage = *state;
    void *tree = stage->tree;

    terminal_stop(stage->terminal);
    free(stage);
    return tree_teardown(&tree);
}

static void begin(struct stage *stage, int rows, int columns)
{
    const char *const argv[] = {program, "--shelf", stage->shelf, NULL};
    const struct terminal_setup setup = {
        .argv = argv, .home = stage->home, .rows = rows, .columns = columns};

    stage->terminal = terminal_start(&setup);
    terminal_expect(stage->terminal, "40 instruments on file ");
}

/* The n-th field, from 0, of a line of the CSV, from 0 for the heading; none here is quoted. */
static void field_of(const char *csv, int line, int field, char *out, size_t size)
{
    for (; line > 0; line--) {
        csv = strchr(csv, '\n');
        assert_non_null(csv);
        csv++;
    }
    for (; field > 0; field--) {
        csv = strchr(csv, ',');
        assert_non_null(csv);
        csv++;
    }
    snprintf(out, size, "%.*s", (int)strcspn(csv, ",\r\n"), csv);
}

static int lines_of(const char *csv)
{
    int lines = 0;

    for (; *csv; csv++)
        lines += *csv == '\n';
    return lines;
}

/* A list: typed, and then the count in the title and the first instrument in hand are those of the
 * command line. */
static void ask_list(struct stage *stage, const char *keys, const char *option, const char *title)
{
    char words[500], csv[40000], name[LINE_MAX_], text[LINE_MAX_];

    assert_true(strlen(keys) <= KEYSTROKES_MOST);
    snprintf(words, sizeof words, "shelf --shelf '%s' %s --csv", stage->shelf, option);
    run(stage, words, csv, sizeof csv);
    const int count = lines_of(csv) - 1;
    assert_true(count > 0);
    field_of(csv, 1, 1, name, sizeof name);
    terminal_type(stage->terminal, keys);
    snprintf(text, sizeof text, "%d of 40 instruments %s", count, title);
    terminal_expect(stage->terminal, text);
    terminal_check(stage->terminal, strstr(terminal_row(stage->terminal, 3), name) != NULL);
    terminal_key(stage->terminal, TERMINAL_ESCAPE);
    terminal_expect(stage->terminal, "40 instruments on file ");
}

static void lists_are_answered_in_a_few_keys(void **state)
{
    struct stage *stage = *state;

    begin(stage, 24, 80);
    ask_list(stage, "*i", "--house", "in the house");
    ask_list(stage, "*2", "--house", "in the house");
    ask_list(stage, "*3", "--due", "due for a check");
    ask_list(stage, "*.1", "--saddle", "with little saddle left");
    ask_list(stage, "*.2", "--rods", "with nothing left in the rod");
    ask_list(stage, "parlour 9", "parlour 9", "found");
}

/* A table: the cells of its first row stand in one row of the screen. */
static void ask_table(struct stage *stage, const char *keys, const char *option, const char *title)
{
    char words[500], text[40000], kind[LINE_MAX_];

    assert_true(strlen(keys) <= KEYSTROKES_MOST);
    snprintf(words, sizeof words, "shelf --shelf '%s' %s", stage->shelf, option);
    run(stage, words, text, sizeof text);
    const char *first = strchr(text, '\n');
    assert_non_null(first);
    terminal_type(stage->terminal, keys);
    terminal_expect(stage->terminal, title);
    first++;
    snprintf(kind, sizeof kind, "%.*s", (int)strcspn(first, " "), first);
    const int row = terminal_find(stage->terminal, kind, NULL);
    terminal_check(stage->terminal, row >= 0);
    for (const char *at = first; *at && *at != '\n'; at += strspn(at, " ")) {
        char word[LINE_MAX_];

        snprintf(word, sizeof word, "%.*s", (int)strcspn(at, " \n"), at);
        terminal_check(stage->terminal, strstr(terminal_row(stage->terminal, row), word) != NULL);
        at += strlen(word);
    }
    terminal_key(stage->terminal, TERMINAL_ESCAPE);
    terminal_expect(stage->terminal, "40 instruments on file ");
    terminal_expect_gone(stage->terminal, title);
}

static void tables_are_shown_in_a_few_keys(void **state)
{
    struct stage *stage = *state;

    begin(stage, 24, 80);
    ask_table(stage, "*6", "--usual", "What do we usually set?");
    ask_table(stage, "*.3", "--turns", "What does a quarter turn do?");
    ask_table(stage, "*.4", "--proof", "How right were we?");
}

/* Strings, tuning and action of one, without opening it: beside the list where the screen is wide,
 * by a key where it is not. */
static void one_is_looked_at_without_opening_it(void **state)
{
    struct stage *stage = *state;

    begin(stage, 24, 80);
    terminal_type(stage->terminal, "parlour 9");
    terminal_expect(stage->terminal, "1 of 40 instruments found");
    terminal_key(stage->terminal, TERMINAL_RIGHT);
    terminal_expect(stage->terminal, "As left in the visit of");
    terminal_expect(stage->terminal, "E2 A2 D3 G3 B3 E4");
    terminal_expect(stage->terminal, "wanted");
    terminal_key(stage->terminal, TERMINAL_ESCAPE);
    terminal_expect_gone(stage->terminal, "As left in the visit of");
    terminal_stop(stage->terminal);
    begin(stage, 43, 132);
    terminal_type(stage->terminal, "parlour 9");
    terminal_expect(stage->terminal, "1 of 40 instruments found");
    terminal_expect(stage->terminal, "As left in the visit of");
    terminal_expect(stage->terminal, "E2 A2 D3 G3 B3 E4");
}

/* Back to its first visit and forth again; what is said of it is what the command line says. */
static void an_earlier_visit_is_a_key_away(void **state)
{
    struct stage *stage = *state;
    char words[500], said[4000];

    begin(stage, 24, 80);
    terminal_type(stage->terminal, "our 9");
    terminal_expect(stage->terminal, "1 of 40 instruments found");
    terminal_key(stage->terminal, TERMINAL_LEFT);
    terminal_expect(stage->terminal, "As left in visit ");
    const int row = terminal_find(stage->terminal, "As left in visit ", NULL);
    const char *day = strstr(terminal_row(stage->terminal, row), ", 20");
    assert_non_null(day);
    snprintf(words, sizeof words, "shelf --shelf '%s' --when %.10s our 9", stage->shelf, day + 2);
    run(stage, words, said, sizeof said);
    for (const char *label = "relief\0action\0nut gap\0"; *label; label += strlen(label) + 1) {
        char text[LINE_MAX_];
        const int at = terminal_find(stage->terminal, label, NULL);
        const char *value = terminal_row(stage->terminal, at) + 16;

        snprintf(text, sizeof text, "%.*s", (int)strcspn(value, ","), value);
        terminal_check(stage->terminal, strstr(said, text) != NULL);
    }
    for (int i = 0; i < 9 && terminal_find(stage->terminal, "No visit before", NULL) < 0; i++) {
        terminal_key(stage->terminal, TERMINAL_LEFT);
        terminal_settle(stage->terminal);
    }
    terminal_expect(stage->terminal, "in visit 1 of ");
    terminal_key(stage->terminal, TERMINAL_RIGHT);
    terminal_expect(stage->terminal, "in visit 2 of ");
    terminal_key(stage->terminal, TERMINAL_ESCAPE);
    terminal_key(stage->terminal, TERMINAL_RIGHT);
    terminal_expect(stage->terminal, "As left in the visit of");
}

/* On Intake a target says what is usual for the others of its kind. */
static void a_target_says_what_is_usual(void **state)
{
    struct stage *stage = *state;

    begin(stage, 24, 80);
    terminal_type(stage->terminal, "slipway");
    terminal_expect(stage->terminal, "1 of 40 instruments found");
    terminal_key(stage->terminal, TERMINAL_TAB);
    terminal_expect(stage->terminal, "owner");
    for (int i = 0; i < 80 && terminal_find(stage->terminal, "relief target, from", NULL) < 0;
         i++) {
        terminal_key(stage->terminal, TERMINAL_DOWN);
        terminal_settle(stage->terminal);
    }
    terminal_expect(stage->terminal, "relief target, from");
    terminal_expect(stage->terminal, "usual here .0");
}

int main(int count, char **words)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(lists_are_answered_in_a_few_keys, open_stage, close_stage),
        cmocka_unit_test_setup_teardown(tables_are_shown_in_a_few_keys, open_stage, close_stage),
        cmocka_unit_test_setup_teardown(one_is_looked_at_without_opening_it, open_stage,
                                        close_stage),
        cmocka_unit_test_setup_teardown(an_earlier_visit_is_a_key_away, open_stage, close_stage),
        cmocka_unit_test_setup_teardown(a_target_says_what_is_usual, open_stage, close_stage),
    };

    if (count != 2)
        return 2;
    program = words[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
