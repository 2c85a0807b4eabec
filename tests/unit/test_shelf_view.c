/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "shelf/shelf_together.h"
#include "shelf/shelf_view.h"

static const struct shelf_start presets[] = {
    {.title = "Steel-string"}, {.title = "Classical"}, {.title = "Bass"}};

/* As no shop would write them: escapes, directions turned, wide and combining characters,
 * bytes that are no UTF-8, and too long for any column. */
static const char *const hostile[] = {
    "\x1B[2J\x1B[31mred",
    "\xE2\x80\xAEgnol\xE2\x80\xAC",
    ("\xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E\xE3\x81\xAE\xE6\xA5\xBD\xE5\x99\xA8\xE3\x81\xA7"
     "\xE3\x81\x99\xE3\x82\x88\xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E\xE3\x81\xAE\xE6\xA5\xBD"),
    "e\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81 combined, and combined again and again",
    "\xFF\xFE\x80 bytes",
    "a name of rather more than forty characters, which no column here can hold",
    "\t\n\r",
    "",
};

enum { HOSTILE = sizeof hostile / sizeof hostile[0] };

static void fill(struct shelf_list *list, size_t count)
{
    shelf_list_init(list,
                    "/a folder/whose name/goes on/and on/and on/until no title holds it/at/80",
                    presets, 3);
    struct shelf_item *items = shelf_list_room(list, count);

    assert_non_null(items);
    for (size_t i = 0; i < count; i++) {
        const char *text = hostile[i % HOSTILE];

        items[i] = (struct shelf_item){.file = text[0] ? text : "x.ini",
                                       .card = {.name = text,
                                                .kind = text,
                                                .owner = text,
                                                .maker = text,
                                                .serial = text,
                                                .visit = text,
                                                .moves_open = i % 2 == 0},
                                       .trouble = i % 3 ? "" : "damaged",
                                       .marks = (unsigned)i % 16,
                                       .written_s = (int64_t)i};
    }
    shelf_list_take(list);
}

static void check_cells(const struct frame *frame, bool utf8)
{
    for (int i = 0; i < frame->rows * frame->columns; i++) {
        const struct cell *cell = &frame->cells[i];

        assert_true(cell->rune == 0 || !utf8_unsafe(cell->rune));
        assert_true(utf8 || cell->rune < 0x7F);
    }
    assert_in_range(frame->cursor_row, 0, frame->rows - 1);
    assert_in_range(frame->cursor_column, 0, frame->columns - 1);
}

static void compose(struct shelf_list *list, int rows, int columns, bool utf8)
{
    struct frame frame;

    assert_int_equal(frame_init(&frame, rows, columns), STATUS_OK);
    list->rows = shelf_view_rows(rows);
    shelf_list_scroll(list);
    shelf_view_compose(list, utf8, &frame);
    if (rows >= 24 && columns >= 80)
        check_cells(&frame, utf8);
    frame_done(&frame);
}

enum { DIFFERENCES = 2 * HOSTILE };

/* Two versions whose texts are all hostile. */
static void begin_together(struct record side[2], struct record_join *join)
{
    for (int i = 0; i < 2; i++) {
        record_init(&side[i]);
        for (int visit = 1; visit < HOSTILE; visit++) {
            const struct reading_key note = reading_key_visit(FIELD_VISIT_NOTE, visit);

            assert_int_equal(
                record_put(&side[i], &note, hostile[(visit + i) % HOSTILE], true, NULL), STATUS_OK);
        }
    }
    assert_int_equal(record_join_begin(join, &side[0], &side[1], NULL), STATUS_OK);
}

static void two_versions_hold_hostile_texts(void **state)
{
    static const int sizes[][2] = {{1, 1}, {24, 80}, {30, 100}, {43, 132}, {60, 250}};
    struct record_join *join = calloc(1, sizeof *join);
    struct join_difference differences[DIFFERENCES];
    struct shelf_list list;
    struct record side[2];

    (void)state;
    assert_non_null(join);
    begin_together(side, join);
    for (size_t h = 0; h < HOSTILE; h++) {
        struct shelf_together together = {.join = join,
                                          .differences = differences,
                                          .count = record_join_list(join, differences, DIFFERENCES),
                                          .right = hostile[h],
                                          .since = h % 2 ? "" : "2026-03-02 11:40"};

        assert_true(together.count > 0 && together.count <= DIFFERENCES);
        fill(&list, 3);
        shelf_together_take(&list, &together);
        for (size_t s = 0; s < sizeof sizes / sizeof sizes[0]; s++) {
            list.together.at = h % together.count;
            differences[list.together.at].side = (enum join_side)(s % 4);
            compose(&list, sizes[s][0], sizes[s][1], true);
            compose(&list, sizes[s][0], sizes[s][1], false);
        }
        shelf_list_done(&list);
    }
    record_join_done(join);
    free(join);
    record_done(&side[0]);
    record_done(&side[1]);
}

static void every_size_and_mode_holds_hostile_texts(void **state)
{
    static const int sizes[][2] = {{1, 1},    {2, 200},  {24, 79}, {24, 80},
                                   {30, 100}, {43, 132}, {60, 250}};
    static const size_t counts[] = {0, 1, 8, 300};
    (void)state;
    for (size_t c = 0; c < sizeof counts / sizeof counts[0]; c++) {
        struct shelf_list list;

        fill(&list, counts[c]);
        for (int mode = 0; mode < SHELF_ANY; mode++)
            for (size_t s = 0; s < sizeof sizes / sizeof sizes[0]; s++) {
                list.mode = (enum shelf_mode)mode;
                (void)lineedit_set(&list.name, hostile[2]);
                compose(&list, sizes[s][0], sizes[s][1], true);
                compose(&list, sizes[s][0], sizes[s][1], false);
            }
        shelf_list_done(&list);
    }
}

static bool shows(const struct frame *frame, const char *text)
{
    for (int row = 0; row < frame->rows; row++) {
        char line[2000];

        frame_row_text(frame, row, line, sizeof line);
        if (strstr(line, text))
            return true;
    }
    return false;
}

static void draw(const struct shelf_list *list, struct frame *frame)
{
    assert_int_equal(frame_init(frame, 24, 80), STATUS_OK);
    shelf_view_compose(list, true, frame);
}

static void the_empty_shelf_says_what_to_do(void **state)
{
    struct shelf_list list;
    struct frame frame;

    (void)state;
    fill(&list, 0);
    draw(&list, &frame);
    assert_true(shows(&frame, "begins the first instrument"));
    assert_true(shows(&frame, "cp profiles/*.ini"));
    frame_done(&frame);
    strcpy(list.failure, "This folder cannot be listed: Permission denied.");
    draw(&list, &frame);
    assert_true(shows(&frame, "Permission denied"));
    frame_done(&frame);
    shelf_list_done(&list);
}

static void numbers_found_and_on_file_are_shown(void **state)
{
    struct shelf_list list;
    struct frame frame;

    (void)state;
    fill(&list, 300);
    list.rows = shelf_view_rows(24);
    draw(&list, &frame);
    assert_true(shows(&frame, "300 instruments on file"));
    assert_true(shows(&frame, "282 more below"));
    frame_done(&frame);
    (void)lineedit_set(&list.filter, "forty");
    shelf_list_narrow(&list);
    draw(&list, &frame);
    assert_true(shows(&frame, "37 of 300 instruments found"));
    assert_true(shows(&frame, "\xE2\x80\xA6"));
    frame_done(&frame);
    shelf_list_done(&list);
}

static void expect(const struct shelf_list *list, const char *text, bool shown)
{
    struct frame frame;

    draw(list, &frame);
    if (shows(&frame, text) != shown)
        fail_msg("%s is %s", text, shown ? "missing" : "shown");
    frame_done(&frame);
}

/* What is not known yet is not denied: neither while files are read nor while what they say is
 * worked out. */
static void the_progress_of_reading_is_shown(void **state)
{
    static const unsigned marks[] = {SHELF_UNREAD, SHELF_GLANCED, 0};
    static const char *const progress[] = {"2 still to read", "2 still to work out", NULL};
    struct shelf_list list;

    (void)state;
    for (int step = 0; step < 3; step++) {
        shelf_list_init(&list, "/quayside", presets, 3);
        struct shelf_item *items = shelf_list_room(&list, 2);
        items[0] = items[1] = (struct shelf_item){
            .file = "a.ini",
            .card =
                (struct card){
                    .name = "", .kind = "", .owner = "", .maker = "", .serial = "", .visit = ""},
            .trouble = "",
            .marks = marks[step]};
        shelf_list_take(&list);
        if (progress[step])
            expect(&list, progress[step], true);
        expect(&list, "still to", progress[step] != NULL);
        list.question = SHELF_DUE;
        shelf_list_narrow(&list);
        expect(&list, "None so far", step < 2);
        expect(&list, "Nothing is due", step == 2);
        list.question = SHELF_ALL;
        (void)lineedit_set(&list.filter, "zzz");
        shelf_list_narrow(&list);
        expect(&list, "None so far", step == 0);
        expect(&list, "No instrument matches", step > 0);
        shelf_list_done(&list);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_size_and_mode_holds_hostile_texts),
        cmocka_unit_test(two_versions_hold_hostile_texts),
        cmocka_unit_test(the_empty_shelf_says_what_to_do),
        cmocka_unit_test(numbers_found_and_on_file_are_shown),
        cmocka_unit_test(the_progress_of_reading_is_shown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
