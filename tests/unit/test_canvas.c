/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <limits.h>

#include "draw/canvas.h"

struct bench {
    struct frame frame;
    struct canvas canvas;
};

static void start(struct bench *bench, int rows, int columns)
{
    assert_int_equal(frame_init(&bench->frame, rows, columns), STATUS_OK);
    assert_int_equal(canvas_init(&bench->canvas, rows, columns), STATUS_OK);
}

static void end(struct bench *bench)
{
    canvas_done(&bench->canvas);
    frame_done(&bench->frame);
}

static void draw(struct bench *bench, bool utf8)
{
    const struct pen pen = {.frame = &bench->frame, .utf8 = utf8};

    canvas_draw(&bench->canvas, &pen, 0, 0);
}

static uint32_t rune_at(const struct bench *bench, int row, int column)
{
    return bench->frame.cells[row * bench->frame.columns + column].rune;
}

static int role_at(const struct bench *bench, int row, int column)
{
    return bench->frame.cells[row * bench->frame.columns + column].role;
}

static void canvas_refuses_impossible_sizes(void **state)
{
    struct canvas canvas = {.rows = -7};

    (void)state;
    assert_int_equal(canvas_init(&canvas, 0, 5), STATUS_DOMAIN);
    assert_int_equal(canvas_init(&canvas, 5, 0), STATUS_DOMAIN);
    assert_int_equal(canvas_init(&canvas, -1, -1), STATUS_DOMAIN);
    assert_int_equal(canvas_init(&canvas, INT_MAX, INT_MAX), STATUS_DOMAIN);
    assert_int_equal(canvas.rows, -7);
}

/* The eight dots of a cell, numbered 1 2 3 7 down the left side and 4 5 6 8 down the right;
 * dot n is bit n - 1 from U+2800 on (The Unicode Standard, block Braille Patterns). */
static void dots_become_braille(void **state)
{
    static const int numbers[CANVAS_DOWN][CANVAS_ACROSS] = {{1, 4}, {2, 5}, {3, 6}, {7, 8}};

    (void)state;
    for (int y = 0; y < CANVAS_DOWN; y++)
        for (int x = 0; x < CANVAS_ACROSS; x++) {
            struct bench bench;

            start(&bench, 2, 3);
            canvas_dot(&bench.canvas, LAYER_NOW, CANVAS_ACROSS + x, y);
            draw(&bench, true);
            assert_int_equal(rune_at(&bench, 0, 1), 0x2800 + (1 << (numbers[y][x] - 1)));
            assert_int_equal(role_at(&bench, 0, 1), ROLE_NOW);
            assert_int_equal(rune_at(&bench, 0, 0), ' ');
            end(&bench);
        }
}

static void layers_share_a_cell(void **state)
{
    struct bench bench;

    (void)state;
    start(&bench, 1, 1);
    canvas_dot(&bench.canvas, LAYER_FRET, 0, 0);
    canvas_dot(&bench.canvas, LAYER_NOW, 1, 3);
    draw(&bench, true);
    assert_int_equal(rune_at(&bench, 0, 0), 0x2881);
    assert_int_equal(role_at(&bench, 0, 0), ROLE_NOW);
    canvas_dot(&bench.canvas, LAYER_MARK, 0, 1);
    draw(&bench, true);
    assert_int_equal(rune_at(&bench, 0, 0), 0x2883);
    assert_int_equal(role_at(&bench, 0, 0), ROLE_MARK);
    end(&bench);
}

/* In ASCII the layers differ by their strokes, and a stroke says high, middle or low. */
static void ascii_strokes_tell_layers_and_heights(void **state)
{
    char seen[LAYER_COUNT_ * CANVAS_DOWN + 1] = "";

    (void)state;
    for (int layer = 0; layer < LAYER_COUNT_; layer++)
        for (int y = 0; y < CANVAS_DOWN; y++) {
            struct bench bench;

            start(&bench, 1, 1);
            canvas_dot(&bench.canvas, (enum canvas_layer)layer, 0, y);
            draw(&bench, false);
            assert_in_range(rune_at(&bench, 0, 0), '!', '~');
            seen[layer * CANVAS_DOWN + y] = (char)rune_at(&bench, 0, 0);
            end(&bench);
        }
    assert_int_not_equal(seen[LAYER_NOW * CANVAS_DOWN], seen[LAYER_NOW * CANVAS_DOWN + 3]);
    for (int y = 0; y < CANVAS_DOWN; y++)
        assert_int_not_equal(seen[LAYER_NOW * CANVAS_DOWN + y],
                             seen[LAYER_AFTER * CANVAS_DOWN + y]);
}

static void dots_outside_are_nothing(void **state)
{
    static const int far[] = {INT_MIN, -1, 0, 8, INT_MAX};
    struct bench bench;

    (void)state;
    start(&bench, 2, 4);
    for (size_t i = 0; i < sizeof far / sizeof far[0]; i++)
        for (size_t j = 0; j < sizeof far / sizeof far[0]; j++)
            if (far[i] != 0 || far[j] != 0)
                canvas_dot(&bench.canvas, LAYER_NOW, far[i], far[j]);
    draw(&bench, true);
    for (int row = 0; row < 2; row++)
        for (int column = 0; column < 4; column++)
            assert_int_equal(rune_at(&bench, row, column), ' ');
    end(&bench);
}

/* A picture that hangs over the frame's edge is cut there. */
static void a_picture_is_cut_at_the_frame_s_edge(void **state)
{
    struct bench bench;

    (void)state;
    start(&bench, 3, 3);
    for (int i = 0; i < 6; i++)
        canvas_dot(&bench.canvas, LAYER_NOW, i, 2 * i);
    const struct pen pen = {.frame = &bench.frame, .utf8 = true};
    for (int at = -4; at <= 4; at++)
        canvas_draw(&bench.canvas, &pen, at, -at);
    end(&bench);
}

static int count_dots(const struct bench *bench)
{
    int count = 0;

    for (int i = 0; i < bench->frame.rows * bench->frame.columns; i++)
        for (int bit = 0; bit < CANVAS_ACROSS * CANVAS_DOWN; bit++)
            count += bench->frame.cells[i].rune >= 0x2800 &&
                     (bench->frame.cells[i].rune >> bit & 1) != 0;
    return count;
}

/* A dot for each column of a line that rises slowly, for each row of a steep one; the same dots
 * from either end; with a dash those whose place it divides. */
static void lines_have_no_gaps(void **state)
{
    static const struct {
        double from[2], to[2];
        int dash, dots;
    } cases[] = {
        {{0, 0}, {19, 7}, 1, 20},     {{0, 19}, {5, 0}, 1, 20},  {{3, 2}, {3, 2}, 1, 1},
        {{0.4, 0}, {18.6, 7}, 1, 20}, {{0, 3}, {19, 3}, 4, 5},   {{7, 1}, {7, 14}, 2, 7},
        {{-50, 3}, {50, 3}, 1, 20},   {{4, -900}, {4, 8}, 1, 9},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        for (int back = 0; back < 2; back++) {
            struct bench bench;

            start(&bench, 5, 10);
            canvas_line(&bench.canvas, LAYER_NOW, back ? cases[i].to : cases[i].from,
                        back ? cases[i].from : cases[i].to, cases[i].dash);
            draw(&bench, true);
            assert_int_equal(count_dots(&bench), cases[i].dots);
            end(&bench);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(canvas_refuses_impossible_sizes),
        cmocka_unit_test(dots_become_braille),
        cmocka_unit_test(layers_share_a_cell),
        cmocka_unit_test(ascii_strokes_tell_layers_and_heights),
        cmocka_unit_test(dots_outside_are_nothing),
        cmocka_unit_test(a_picture_is_cut_at_the_frame_s_edge),
        cmocka_unit_test(lines_have_no_gaps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
