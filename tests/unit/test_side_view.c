/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "leaf/bench/side_view.h"

enum { ROWS = 12, COLUMNS = 80, TEXT = 1024 };

struct bench {
    struct app app;
    struct frame frame;
};

static struct bench *start(const char *lines, const char *keys, bool utf8)
{
    struct bench *bench = malloc(sizeof *bench);

    bench_start(&bench->app, lines);
    bench_press(&bench->app, keys);
    assert_int_equal(frame_init(&bench->frame, ROWS, COLUMNS), STATUS_OK);
    const struct pen pen = {.frame = &bench->frame, .utf8 = utf8};
    side_view_draw(&pen, &bench->app, 0, ROWS);
    return bench;
}

static void end(struct bench *bench)
{
    frame_done(&bench->frame);
    app_done(&bench->app);
    free(bench);
}

static bool shows(const struct bench *bench, int row, const char *text)
{
    char memory[TEXT];

    frame_row_text(&bench->frame, row, memory, sizeof memory);
    return strstr(memory, text) != NULL;
}

/* The topmost row with a cell of a role in a column; -1 for none. */
static int row_of_role(const struct bench *bench, enum role role, int column)
{
    for (int row = 1; row < ROWS - 1; row++)
        if (bench->frame.cells[row * COLUMNS + column].role == role)
            return row;
    return -1;
}

/* Where the readings are the targets the string stays where it is, and one line says so. */
static void nothing_to_do_is_one_line(void **state)
{
    static const char wanted[] =
        "targets relief = .013 in\ntargets action_bass = 8.25/64 in\n"
        "targets action_treble = 6/64 in\n"
        "targets nut_gap_bass = .030 in\ntargets nut_gap_treble = .020 in\n";
    char lines[4000];
    struct strbuf text = STRBUF(lines);

    (void)state;
    strbuf_addf(&text, "%s%s", build_record_full, wanted);
    struct bench *bench = start(lines, "", true);
    assert_true(shows(bench, 0, "now "));
    assert_false(shows(bench, 0, "after the moves"));
    for (int row = 1; row < ROWS; row++)
        assert_false(shows(bench, row, "after"));
    end(bench);
    bench = start(build_record_full, "", true);
    assert_true(shows(bench, 0, "after the moves"));
    end(bench);
}

static void the_heading_names_string_and_exaggeration(void **state)
{
    struct bench *bench = start(build_record_full, "{Down}{Right}", true);
    char memory[TEXT];
    int times = 0;

    (void)state;
    assert_true(shows(bench, 0, "string 5"));
    frame_row_text(&bench->frame, 0, memory, sizeof memory);
    const char *sign = strstr(memory, "\xC3\x97");
    assert_non_null(sign);
    assert_int_equal(sscanf(sign + 2, "%d", &times), 1);
    /* 24.9 in of scale: fret 19 is 421 mm from the nut, 156 dots; heights of some 5 mm, 40. */
    assert_in_range(times, 10, 40);
    end(bench);
}

static void frets_are_numbered_and_the_join_is_named(void **state)
{
    struct bench *bench = start(build_record_full, "", true);

    (void)state;
    assert_true(shows(bench, ROWS - 1, "nut"));
    assert_true(shows(bench, ROWS - 1, "12 join"));
    assert_true(shows(bench, ROWS - 1, " 5 "));
    end(bench);
}

/* The string rises from the nut to the bridge, and the saddle move brings it down there. */
static void the_string_rises_and_the_moves_bring_it_down(void **state)
{
    struct bench *bench = start(build_record_full, "{End}", true);

    (void)state;
    const int at_nut = row_of_role(bench, ROLE_NOW, 2);
    const int at_end = row_of_role(bench, ROLE_NOW, COLUMNS - 4);
    assert_true(at_nut > at_end);
    assert_true(at_end >= 1);
    int after = -1;
    for (int column = COLUMNS - 8; column < COLUMNS - 2 && after < 0; column++)
        after = row_of_role(bench, ROLE_AFTER, column);
    assert_true(after > at_end);
    end(bench);
}

/* Two lines that end in one row have both their names there, apart. */
static void names_in_one_row_are_told_apart(void **state)
{
    char lines[4000];

    (void)state;
    snprintf(lines, sizeof lines,
             "%stargets relief = .013 in\ntargets action_bass = 7.75/64 in\n"
             "targets action_treble = 5.5/64 in\n",
             build_record_full);
    for (int utf8 = 0; utf8 <= 1; utf8++) {
        struct bench *bench = start(lines, "{End}", utf8);
        int rows = 0;

        for (int row = 1; row < ROWS - 1; row++)
            rows += shows(bench, row, "after, now");
        assert_int_equal(rows, 1);
        end(bench);
    }
}

/* Relief is marked at fret 6, a nut gap at fret 1, action at fret 12, from left to right. */
static void the_mark_stands_where_the_reading_is_taken(void **state)
{
    static const char *const keys[] = {"{Down}", "", "{Down}{Down}"};
    int before = 0;

    (void)state;
    for (int i = 0; i < 3; i++) {
        struct bench *bench = start(build_record_full, keys[i], true);
        int column = 1;

        while (column < COLUMNS && row_of_role(bench, ROLE_MARK, column) < 0)
            column++;
        assert_true(column < COLUMNS);
        assert_true(column > before);
        before = column;
        end(bench);
    }
}

/* A neck that bows back has its crowns over the chord. */
static void back_bow_is_marked_too(void **state)
{
    struct bench *bench = start(build_record_full, "{Down}-.012", true);
    int column = 1;

    (void)state;
    while (column < COLUMNS && row_of_role(bench, ROLE_MARK, column) < 0)
        column++;
    assert_in_range(column, 2, COLUMNS - 1);
    end(bench);
}

static void exposure_has_no_mark_on_the_neck(void **state)
{
    struct bench *bench = start(build_record_full, "{End}{Back}", true);

    (void)state;
    for (int column = 0; column < COLUMNS; column++)
        assert_int_equal(row_of_role(bench, ROLE_MARK, column), -1);
    end(bench);
}

/* An entry that is still being typed moves the picture. */
static void the_picture_follows_the_entry(void **state)
{
    struct bench *kept = start(build_record_full, "{Down}{Down}", true);
    struct bench *typing = start(build_record_full, "{Down}{Down}9", true);

    (void)state;
    assert_memory_not_equal(kept->frame.cells, typing->frame.cells,
                            sizeof(struct cell) * ROWS * COLUMNS);
    end(kept);
    end(typing);
}

static void without_a_neck_it_says_what_is_missing(void **state)
{
    struct bench *empty = start("", "", true);
    struct bench *unread = start("board scale = 25.5 in\nboard strings = 6\nboard frets = 22\n"
                                 "board join_fret = 16\n",
                                 "", true);

    (void)state;
    assert_true(shows(empty, ROWS / 2, "scale"));
    assert_true(shows(unread, ROWS / 2, "relief"));
    end(empty);
    end(unread);
}

static void in_ascii_all_is_ascii(void **state)
{
    struct bench *bench = start(build_record_full, "{Down}", false);

    (void)state;
    for (int i = 0; i < ROWS * COLUMNS; i++)
        assert_in_range(bench->frame.cells[i].rune, ' ', '~');
    end(bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_to_do_is_one_line),
        cmocka_unit_test(the_heading_names_string_and_exaggeration),
        cmocka_unit_test(frets_are_numbered_and_the_join_is_named),
        cmocka_unit_test(the_string_rises_and_the_moves_bring_it_down),
        cmocka_unit_test(names_in_one_row_are_told_apart),
        cmocka_unit_test(the_mark_stands_where_the_reading_is_taken),
        cmocka_unit_test(back_bow_is_marked_too),
        cmocka_unit_test(exposure_has_no_mark_on_the_neck),
        cmocka_unit_test(the_picture_follows_the_entry),
        cmocka_unit_test(without_a_neck_it_says_what_is_missing),
        cmocka_unit_test(in_ascii_all_is_ascii),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
