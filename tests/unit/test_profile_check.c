/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/utf8.h"
#include "seeded.h"
#include "store/profile/profile.h"
#include "tree.h"

#define WHOLE "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nstrings = 6\nfrets = 20\n"

struct opened {
    enum status status;
    struct problems problems;
};

static struct opened check_file(const char *path)
{
    struct opened opened;
    struct profile *profile = NULL;

    problems_init(&opened.problems);
    opened.status = profile_open(path, PROFILE_TO_READ, &opened.problems, &profile);
    profile_close(profile);
    return opened;
}

static struct opened check_text(void **state, const char *text)
{
    const char *path = tree_path(*state, "a.ini");

    tree_write_text(path, text);
    return check_file(path);
}

static void print_problems(const struct problems *problems)
{
    for (size_t i = 0; i < problems->count; i++)
        print_error("line %d, %d: %s\n", problems->items[i].line, (int)problems->items[i].severity,
                    problems->items[i].words);
}

/* One problem in that line, of that severity, whose words hold `part`. */
static void assert_problem(const struct opened *opened, int line, enum problem_severity severity,
                           const char *part)
{
    const struct problems *problems = &opened->problems;

    for (size_t i = 0; i < problems->count; i++)
        if (problems->items[i].line == line && problems->items[i].severity == severity &&
            strstr(problems->items[i].words, part))
            return;
    print_problems(problems);
    fail_msg("no \"%s\" of severity %d in line %d", part, (int)severity, line);
}

struct problem_case {
    const char *lines; /* added to WHOLE, whose lines are six */
    int line;
    enum problem_severity severity;
    const char *part;
};

static void each_kind_of_problem_is_found(void **state)
{
    static const struct problem_case cases[] = {
        {"word\n", 7, PROBLEM_ERROR, "not understood"},
        {"[nut\nkind = slotted\n", 8, PROBLEM_ERROR, "section's line is not understood"},
        {"[colour]\n", 7, PROBLEM_NOTE, "no section [colour] is known"},
        {"[string.13]\n", 7, PROBLEM_NOTE, "no section [string.13] is known"},
        {"[nut]\ncolour = 1\n", 8, PROBLEM_NOTE, "[nut] has no key colour"},
        {"[nut]\nco lour = 1\n", 8, PROBLEM_NOTE, "a key cannot have this name"},
        {"[nut]\nwidth.1 = 1 mm\n", 8, PROBLEM_NOTE, "[nut] has no key width.1"},
        {"[nut]\nwidth = 43 mm\nwidth = 44 mm\n", 8, PROBLEM_WARNING, "given again in line 9"},
        {"[nut]\nwidth = 43\n", 8, PROBLEM_ERROR, "nut width \"43\": "},
        {"[nut]\nwidth = 43 kg\n", 8, PROBLEM_ERROR, "nut width \"43 kg\": "},
        {"[nut]\nwidth = 43 m\n", 8, PROBLEM_ERROR, "nut width"},
        {"[nut]\nwidth = 143 mm\n", 8, PROBLEM_NOTE, "\"143 mm\" is unusual"},
        {"[nut]\nwidth =\n", 8, PROBLEM_NOTE, "nut width is empty"},
        {"[nut]\nkind = bone\n", 8, PROBLEM_ERROR, "slotted, zero-fret"},
        {"[nut]\nkind = \"slotted\" x\n", 8, PROBLEM_WARNING, "closing quote"},
        {"[string.7]\ngauge = .010 in\n", 8, PROBLEM_WARNING, "there is no string 7"},
        {"[visit.1.pass.1]\nnut_gap.9 = .02 in\n", 8, PROBLEM_WARNING, "there is no string 9"},
        {"[visit.1.pass.1]\nsetback.9 = 2 mm\n", 8, PROBLEM_WARNING, "there is no string 9"},
        {"[visit.1.pass.1]\nsetback.6 = 2 mm\nsetback.6 = 3 mm\n", 8, PROBLEM_WARNING,
         "given again in line 9"},
        {"[visit.1.pass.1]\nsetback.6 = nan\n", 8, PROBLEM_ERROR, "setback"},
        {"[visit.1.pass.1]\nsetback.6 = 1e999 mm\n", 8, PROBLEM_ERROR, "setback"},
        {"[visit.1.pass.1]\nsetback.6 = %1B%5B2J\n", 8, PROBLEM_ERROR, "setback"},
        {"[visit.1.pass.1]\nsetback = 2 mm\n", 8, PROBLEM_NOTE, "has no key setback"},
        {"[bridge]\npost_to_rest = 1e999 mm\n", 8, PROBLEM_ERROR, "posts to the rest"},
        {"[bridge]\npost_to_saddle = nan mm\n", 8, PROBLEM_ERROR, "posts to the saddles"},
        {"[visit.1.pass.1]\ncents.1.21 = 3\n", 8, PROBLEM_WARNING, "there is no fret 21"},
        {"[visit.1.pass.1]\nspot.22 = .1 mm\n", 8, PROBLEM_WARNING, "there is no fret 22"},
        {"[visit.1.pass.1]\nbuzz.6 = 0 3 23\n", 8, PROBLEM_WARNING, "there is no fret 23"},
        {"action_fret = 24\n", 7, PROBLEM_WARNING, "there is no fret 24"},
        {"[visit.2]\ndate = 2026-03-02\n", 8, PROBLEM_NOTE, "there is no visit 1"},
        {"[visit.1.pass.2]\nrelief = .1 mm\n", 8, PROBLEM_WARNING, "pass 2 comes after 0"},
        {"[visit.1.work.3]\nkind = rod\n", 8, PROBLEM_WARNING, "work 3 comes after 0"},
        {"[visit.1]\npasses = 2\n", 8, PROBLEM_NOTE, "passes says 2"},
        {"[visit.1]\ndate = 2026-03-02\n[visit.2]\ndate = 2026-03-01\n", 10, PROBLEM_WARNING,
         "earlier than that of the visit before"},
        {"[visit.1]\ndate = 2026-03-02\npromised = 2026-03-01\n", 9, PROBLEM_WARNING,
         "the day is earlier than the date of its visit"},
        {"[visit.1]\ndate = 2026-03-02\nhanded_over = 2026-03-01\n", 9, PROBLEM_WARNING,
         "the day is earlier than the date of its visit"},
        {"scale_bass = 27 in\n", 0, PROBLEM_ERROR, "needed together"},
        {"scale_bass = 27 in\nscale_treble = 25 in\n", 4, PROBLEM_WARNING, "scale is given beside"},
        {"[visit.1]\nnote.2 = x\n", 8, PROBLEM_WARNING, "part of the text before"},
        {"[visit.1]\nnote = a%00\n", 8, PROBLEM_NOTE, "%00"},
        {"[visit.1]\nnote = C:\\\nreason = x\n", 8, PROBLEM_WARNING, "backslash"},
        {"[visit.1]\nnote = x\n[visit.1.neck]\nrod = none\n", 10, PROBLEM_WARNING,
         "need format = 2"},
        {"[visit.3.neck]\nrod = none\n", 8, PROBLEM_WARNING, "no visit 3 that could"},
        {"[visit.1.board]\nscale = 25 in\n", 8, PROBLEM_ERROR, "scale is the same in all visits"},
        {"[visit.1.board]\ncolour = red\n", 8, PROBLEM_NOTE, "has no key colour"},
        {"[visit.1.profile]\nformat = 1\n", 7, PROBLEM_NOTE, "no section"},
        {"", 0, PROBLEM_WARNING, "there is no [end]"},
        {"[end]\nlines = 6\ncrc32 = 00000000\n", 7, PROBLEM_WARNING, "[end] does not match"},
        {"[end]\nrelief = 1 mm\n", 8, PROBLEM_WARNING, "move it to its section"},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[400];

        snprintf(text, sizeof text, "%s%s", WHOLE, cases[i].lines);
        struct opened opened = check_text(state, text);
        assert_int_equal(opened.status, STATUS_OK);
        assert_problem(&opened, cases[i].line, cases[i].severity, cases[i].part);
        /* The missing [end] aside, nothing is said about a whole file's own lines. */
        for (size_t k = 0; k < opened.problems.count; k++)
            if (opened.problems.items[k].line > 0 && opened.problems.items[k].line < 4)
                fail_msg("%s", opened.problems.items[k].words);
        problems_done(&opened.problems);
    }
}

static void what_is_missing_is_said(void **state)
{
    struct opened opened = check_text(state, "lost = 1\n[instrument]\nname = x\n");

    assert_int_equal(opened.status, STATUS_OK);
    assert_problem(&opened, 0, PROBLEM_ERROR, "format");
    assert_problem(&opened, 0, PROBLEM_ERROR, "scale");
    assert_problem(&opened, 1, PROBLEM_ERROR, "before any [section]");
    assert_int_equal(opened.problems.errors, 3);
    for (size_t i = 1; i < opened.problems.count; i++)
        assert_true(opened.problems.items[i - 1].line <= opened.problems.items[i].line);
    problems_done(&opened.problems);
    opened = check_text(state, "[profile]\nformat = 3\n[board]\nscale = 25 in\n");
    assert_problem(&opened, 2, PROBLEM_ERROR, "unknown format");
    problems_done(&opened.problems);
}

static void the_example_is_clean(void **state)
{
    struct opened opened = check_file(SILLET_TEST_DATA "/worked-example.ini");

    (void)state;
    assert_int_equal(opened.status, STATUS_OK);
    if (opened.problems.count != 1)
        print_problems(&opened.problems);
    assert_int_equal(opened.problems.count, 1);
    assert_problem(&opened, 0, PROBLEM_WARNING, "there is no [end]");
    problems_done(&opened.problems);
}

static void words_are_safe_to_print(void **state)
{
    struct opened opened = check_text(
        state, WHOLE "[nut]\nwidth = \x1B]0;x\x07 \xE2\x80\xAE\xFF 43 \xC2\x9B"
                     "1234567890123456789012345678901234567890123456789012345678901234567890\n"
                     "[\x1B[2J\x7F]\nkind = \xE2\x80\xAE\n");

    assert_int_equal(opened.status, STATUS_OK);
    assert_problem(&opened, 8, PROBLEM_ERROR, "\\x1B]0");
    for (size_t i = 0; i < opened.problems.count; i++) {
        const char *words = opened.problems.items[i].words;
        const size_t length = strlen(words);
        uint32_t rune;
        bool valid;

        assert_true(length > 0);
        for (size_t at = 0; at < length;
             at += utf8_decode(words + at, length - at, &rune, &valid)) {
            utf8_decode(words + at, length - at, &rune, &valid);
            if (!valid || utf8_unsafe(rune))
                fail_msg("byte %zu of: %s", at, words);
        }
    }
    problems_done(&opened.problems);
}

static void the_list_is_bounded(void **state)
{
    enum { LINES = 5000 };
    const char *path = tree_path(*state, "a.ini");
    char *text = malloc(LINES * 2 + 100);

    assert_non_null(text);
    strcpy(text, WHOLE);
    for (int i = 0; i < LINES; i++)
        strcpy(text + strlen(WHOLE) + 2 * (size_t)i, "x\n");
    tree_write_text(path, text);
    free(text);
    struct opened opened = check_file(path);
    assert_int_equal(opened.problems.count, PROBLEMS_MAX);
    assert_int_equal(opened.problems.count + opened.problems.more, LINES + 1);
    assert_int_equal(opened.problems.errors, LINES);
    problems_done(&opened.problems);
}

static void assert_refused(const char *path, enum status wanted)
{
    struct profile *profile;
    const enum status status = profile_open(path, PROFILE_TO_EDIT, NULL, &profile);

    if (status != wanted)
        fail_msg("%s: %s", path, status_text(status));
}

static void what_is_no_file_is_refused_at_once(void **state)
{
    const struct tree *tree = *state;
    const char *fifo = tree_path(tree, "fifo"), *folder = tree_path(tree, "folder");
    const char *loop = tree_path(tree, "loop"), *nowhere = tree_path(tree, "nowhere");
    const char *socket = tree_path(tree, "socket");

    assert_int_equal(mkfifo(fifo, 0600), 0);
    assert_int_equal(mkdir(folder, 0700), 0);
    assert_int_equal(symlink("loop", loop), 0);
    assert_int_equal(symlink("missing", nowhere), 0);
    assert_int_equal(mknod(socket, S_IFSOCK | 0600, 0), 0);
    assert_refused(fifo, STATUS_NOT_REGULAR);
    assert_refused(folder, STATUS_NOT_REGULAR);
    assert_refused(socket, STATUS_NOT_REGULAR);
    assert_refused("/dev/zero", STATUS_NOT_REGULAR);
    assert_refused("/dev/full", STATUS_NOT_REGULAR);
    assert_refused("/", STATUS_NOT_REGULAR);
    assert_refused("", STATUS_NOT_FOUND);
    assert_refused(loop, STATUS_IO);
    assert_refused(nowhere, STATUS_NOWHERE);
    assert_refused(tree_path(tree, "missing"), STATUS_NOT_FOUND);
    assert_refused(tree_path(tree, "fifo/x"), STATUS_NOT_FOUND);
    /* And nothing is left behind by the refusals. */
    assert_int_equal(tree_count(tree->folder, ".lock"), 0);
    assert_int_equal(access("/dev/zero.lock", F_OK), -1);
}

static void files_without_a_profile_are_refused(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    char long_line[3000];
    int fd;

    tree_write_text(path, "int main(void)\n{\n    return 0;\n}\n");
    assert_refused(path, STATUS_SYNTAX);
    tree_write_text(path, "[package]\nname = x\n");
    assert_refused(path, STATUS_SYNTAX);
    tree_write(path, "[profile]\nformat = 1\0\n", 22);
    assert_refused(path, STATUS_BINARY);
    memset(long_line, 'x', sizeof long_line);
    tree_write(path, long_line, sizeof long_line);
    assert_refused(path, STATUS_TOO_LONG);
    fd = open(path, O_WRONLY);
    assert_int_equal(ftruncate(fd, 100 * 1024 * 1024), 0);
    close(fd);
    assert_refused(path, STATUS_TOO_LARGE);
    assert_refused("/proc/self/environ", STATUS_BINARY);
}

static void an_empty_file_is_an_empty_profile(void **state)
{
    struct opened opened = check_text(state, "");

    assert_int_equal(opened.status, STATUS_OK);
    assert_int_equal(opened.problems.errors, 2);
    problems_done(&opened.problems);
    opened = check_text(state, "\n; to be filled in\n\n");
    assert_int_equal(opened.status, STATUS_OK);
    problems_done(&opened.problems);
}

/* The most keys that a profile can have, in the worst order. */
static void the_largest_profile_opens_in_time(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    FILE *file = fopen(path, "w");
    struct timespec before, after;

    assert_non_null(file);
    for (int visit = 900; visit > 0; visit--) {
        fprintf(file, "[visit.%d.pass.1]\n", visit);
        for (int fret = 20; fret >= 0; fret--)
            fprintf(file, "cents.6.%d = 3\n", fret);
    }
    fclose(file);
    assert_int_equal(clock_gettime(CLOCK_MONOTONIC, &before), 0);
    struct opened opened = check_file(path);
    assert_int_equal(clock_gettime(CLOCK_MONOTONIC, &after), 0);
    assert_int_equal(opened.status, STATUS_OK);
    assert_true(after.tv_sec - before.tv_sec < 20); /* half a second here */
    problems_done(&opened.problems);
}

/* Any bytes at all: opened or refused, never a crash (under the sanitizers), never words
 * that a terminal must not see. */
static void any_bytes_are_borne(void **state)
{
    static const char alphabet[] = "[]=;#\"'\\%\n\r\t .,:-+/abefiklnoprstuvx0123456789\x1B\x80\xFF";
    struct seeded seeded = seeded_start("any bytes are borne");
    const char *path = tree_path(*state, "a.ini");
    size_t length;
    char *example = tree_read(SILLET_TEST_DATA "/worked-example.ini", &length);

    assert_non_null(example);
    for (int round = 0; round < 2000; round++) {
        char bytes[4096];
        size_t count = length;

        memcpy(bytes, example, length);
        for (int i = seeded_whole(&seeded, 1, 40); i > 0; i--)
            bytes[seeded_whole(&seeded, 0, (int)length - 1)] =
                alphabet[seeded_whole(&seeded, 0, sizeof alphabet - 2)];
        if (seeded_whole(&seeded, 0, 3) == 0)
            count = (size_t)seeded_whole(&seeded, 0, (int)length);
        tree_write(path, bytes, count);
        struct opened opened = check_file(path);
        assert_true(opened.status == STATUS_OK || opened.status == STATUS_SYNTAX);
        problems_done(&opened.problems);
    }
    free(example);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(each_kind_of_problem_is_found),
        IN_TREE(what_is_missing_is_said),
        cmocka_unit_test(the_example_is_clean),
        IN_TREE(words_are_safe_to_print),
        IN_TREE(the_list_is_bounded),
        IN_TREE(what_is_no_file_is_refused_at_once),
        IN_TREE(files_without_a_profile_are_refused),
        IN_TREE(an_empty_file_is_an_empty_profile),
        IN_TREE(the_largest_profile_opens_in_time),
        IN_TREE(any_bytes_are_borne),
    };

    return cmocka_run_group_tests_name("profile_check", tests, NULL, NULL) ? 1 : 0;
}
