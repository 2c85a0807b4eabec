/* SPDX-License-Identifier: MIT */
/* Templates measured: the drawings in the PDF and the SVG against the fret formula. */
#include "near.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_command.h"
#include "raster.h"

enum { PAGES_MAX = 8, LINES_MAX = 64 };

/* A board of the demo shop, as its profile says. */
struct measured {
    const char *profile;
    double scale_mm, end_mm;
    int frets;
};

static const struct measured bass = {"bass.ini", 34 * 25.4, 23.5 * 25.4, 20};
static const struct measured guitar = {"bolt-on.ini", 25.5 * 25.4, 18.65 * 25.4, 22};
#define NUT_MM 42.0

/* The rule of frets: the twelfth root of two to a fret. Source: M. Mersenne, Harmonie
 * universelle (1636), equal temperament; here worked out step by step, without the model. */
static double station_mm(const struct measured *board, int fret)
{
    double left_mm = board->scale_mm;

    for (int n = 0; n < fret; n++)
        left_mm /= 1.0594630943592953;
    return board->scale_mm - left_mm;
}

static void make(struct bench *bench, const struct measured *board, const char *output,
                 const char *paper)
{
    char profile[80];
    snprintf(profile, sizeof profile, "../../profiles/%s", board->profile);
    const char *const words[] = {"layout", "-o", output, "--paper", paper, bench_data(profile),
                                 "board",  NULL};
    struct command command;

    command_run_words(bench, words, &command);
    assert_int_equal(command.code, 0);
    assert_string_equal(command.err, "");
    command_done(&command);
}

/* --- one page --- */

/* Where the drawing is on a page, mm from the top and from the foot; and columns in which nothing
 * but the joint is drawn. */
struct window {
    double top_mm, joint_top_mm, foot_mm, joint_from_mm, joint_to_mm;
};

static const struct window upright = {10, 25, 36, 21, 36}, turned = {19, 20, 10.5, 36.5, 41};

struct page_found {
    double joint_above_px, joint_below_px; /* rows; 0: none */
    double line_px[LINES_MAX];             /* rows of lines across the board */
    int lines;
};

/* The row where a line's ink has its centre. */
static double centre_row(const struct raster *raster, int row, int from, int to)
{
    double sum = 0, moment = 0;

    for (int near = row - 3; near <= row + 3; near++) {
        const double ink = raster_row_ink(raster, near, from, to);
        sum += ink;
        moment += ink * near;
    }
    return moment / sum;
}

/* Lines as long as the board is wide, over the bars at the foot. */
static void find_lines(const struct raster *raster, const struct window *window,
                       struct page_found *found)
{
    const int least = raster_pixel(38), foot = raster->height - raster_pixel(window->foot_mm);

    for (int row = raster_pixel(window->top_mm); row < foot; row++) {
        int first = 0, run = raster_run(raster, row, 0, raster->width, &first);

        if (run < least)
            continue;
        assert_true(found->lines < LINES_MAX);
        found->line_px[found->lines++] =
            centre_row(raster, row, first + run / 4, first + 3 * run / 4);
        row += raster_pixel(1);
    }
}

/* The dashed line, where nothing else is drawn: it is dark for about half its length. */
static void find_joints(const struct raster *raster, const struct window *window,
                        struct page_found *found)
{
    const int from = raster_pixel(window->joint_from_mm), to = raster_pixel(window->joint_to_mm);
    const int foot = raster->height - raster_pixel(window->foot_mm);

    for (int row = raster_pixel(window->joint_top_mm); row < foot; row++) {
        const double ink = raster_row_ink(raster, row, from, to);

        if (ink < 0.15)
            continue;
        const double at = centre_row(raster, row, from, to);
        if (at < raster->height / 2.0)
            found->joint_above_px = at;
        else
            found->joint_below_px = at;
        row += raster_pixel(1);
    }
}

/* --- a bar: two marks are taller than those between --- */

/* From the first mark to the last that reaches that row. */
static double span_across_mm(const struct raster *raster, int row, int from, int to)
{
    double first = 0, last = 0;

    for (int column = from; column < to; column++) {
        if (raster_column_ink(raster, column, row - 3, row + 3) < 0.3)
            continue;
        double sum = 0, moment = 0;
        for (int near = column - 3; near <= column + 3; near++) {
            const double ink = raster_column_ink(raster, near, row - 3, row + 3);
            sum += ink;
            moment += ink * near;
        }
        last = moment / sum;
        first = first == 0 ? last : first;
        column += raster_pixel(0.5);
    }
    return raster_mm(last - first);
}

static double span_along_mm(const struct raster *raster, int column, int from, int to)
{
    double first = 0, last = 0;

    for (int row = from; row < to; row++) {
        if (raster_row_ink(raster, row, column - 3, column + 3) < 0.3)
            continue;
        last = centre_row(raster, row, column - 3, column + 3);
        first = first == 0 ? last : first;
        row += raster_pixel(0.5);
    }
    return raster_mm(last - first);
}

/* Two at the foot and one at the right. */
static void check_bars(const struct raster *raster)
{
    const int from = raster_pixel(5), to = raster_pixel(112.5);
    const int right = raster->width - raster_pixel(12.3);
    const int first = raster->height - raster_pixel(30.3);
    const int second = raster->height - raster_pixel(23.3);

    assert_near(span_along_mm(raster, right, raster_pixel(30), raster_pixel(145)), 100, 0.1);
    assert_near(span_across_mm(raster, first, from, to), 100, 0.1);
    assert_near(span_across_mm(raster, second, from, to), 101.6, 0.1); /* 4 in of 25.4 mm */
}

/* Two at the right and one at the top. */
static void check_turned_bars(const struct raster *raster)
{
    const int from = raster->height - raster_pixel(112.5), to = raster->height - raster_pixel(5);
    const int first = raster->width - raster_pixel(30.3);
    const int second = raster->width - raster_pixel(23.3);

    assert_near(span_across_mm(raster, raster_pixel(12.3), raster_pixel(30), raster_pixel(145)),
                100, 0.1);
    assert_near(span_along_mm(raster, first, from, to), 100, 0.1);
    assert_near(span_along_mm(raster, second, from, to), 101.6, 0.1);
}

/* --- all pages, glued joint on joint --- */

static int find_pages(const char *pdf, const struct window *window, int pages,
                      struct page_found *found)
{
    for (int page = 0; page < pages; page++) {
        struct raster raster;

        raster_read(pdf, page + 1, &raster);
        found[page] = (struct page_found){.lines = 0};
        find_lines(&raster, window, &found[page]);
        find_joints(&raster, window, &found[page]);
        (window == &turned ? check_turned_bars : check_bars)(&raster);
        raster_done(&raster);
    }
    return pages;
}

static void check_glued(const struct measured *board, const struct page_found *found, int pages)
{
    double glued_px = 0, nut_px = 0;
    int fret = 0;

    for (int page = 0; page < pages; page++) {
        assert_true((page > 0) == (found[page].joint_above_px > 0));
        assert_true((page < pages - 1) == (found[page].joint_below_px > 0));
        if (page > 0)
            glued_px += found[page - 1].joint_below_px - found[page].joint_above_px;
        for (int i = 0; i < found[page].lines; i++) {
            const double at_px = found[page].line_px[i] + glued_px;

            if (page == 0 && i == 0) {
                nut_px = at_px;
                continue;
            }
            /* On the overlap a fret is on both pages. */
            if (raster_mm(at_px - nut_px) > station_mm(board, fret) + 1)
                fret++;
            assert_near(raster_mm(at_px - nut_px),
                        fret > board->frets ? board->end_mm : station_mm(board, fret), 0.1);
        }
    }
    assert_int_equal(fret, board->frets + 1); /* the board's end is the last line */
}

static void check_paper(struct bench *bench, const struct measured *board, const char *paper,
                        const struct window *window, int pages)
{
    const char *pdf = tree_path(bench->tree, "x.pdf");
    struct page_found found[PAGES_MAX];

    if (!SILLET_HAS_CAIRO || !raster_can_draw())
        skip();
    make(bench, board, pdf, paper);
    check_glued(board, found, find_pages(pdf, window, pages, found));
}

/* --- several drawings on one page --- */

/* The nut's outline is as wide as the nut, 42 mm here, and 12 mm high. */
static void check_nut(const struct raster *raster)
{
    double row_mm[8];
    int rows = 0;

    for (int row = raster_pixel(27); row < raster_pixel(60); row++) {
        int first = 0;
        const double run_mm = raster_mm(raster_run(raster, row, 0, raster->width, &first));

        if (run_mm < 30)
            continue;
        assert_near(run_mm, NUT_MM, 0.3); /* the line's own width, and a pixel */
        assert_true(rows < 8);
        row_mm[rows++] = raster_mm(centre_row(raster, row, first + 50, first + 150));
        row += raster_pixel(1);
    }
    assert_int_equal(rows, 2);
    assert_near(row_mm[1] - row_mm[0], 12, 0.1);
}

static void a_page_that_drawings_share_is_at_true_scale(void **state)
{
    struct bench *bench = *state;
    static const char *const papers[] = {"a4", "letter"};

    if (!SILLET_HAS_CAIRO || !raster_can_draw())
        skip();
    for (int i = 0; i < 2; i++) {
        const char *pdf = tree_path(bench->tree, "x.pdf");
        const char *const words[] = {"layout",  "-o",      pdf,
                                     "--paper", papers[i], bench_data("../../profiles/bass.ini"),
                                     "nut",     "saddle",  NULL};
        struct command command;
        struct raster raster;

        command_run_words(bench, words, &command);
        assert_int_equal(command.code, 0);
        command_done(&command);
        raster_read(pdf, 1, &raster);
        check_bars(&raster);
        check_nut(&raster);
        raster_done(&raster);
    }
}

/* What a reset takes is put together too: one page, whose bars are true. */
static void the_page_of_a_reset_is_at_true_scale(void **state)
{
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");
    const char *const words[] = {"layout", "-o",     pdf, "--paper",
                                 "a4",     "--pass", "1", bench_data("../../profiles/parlour.ini"),
                                 "heel",   "tongue", NULL};
    struct command command;
    struct raster raster;
    char count[600];

    if (!SILLET_HAS_CAIRO || !raster_can_draw())
        skip();
    command_run_words(bench, words, &command);
    assert_int_equal(command.code, 0);
    command_done(&command);
    snprintf(count, sizeof count, "pdfinfo '%s'", pdf);
    char *text = raster_command(count);
    assert_non_null(strstr(text, "Pages:           1\n"));
    free(text);
    raster_read(pdf, 1, &raster);
    check_bars(&raster);
    raster_done(&raster);
}

static void pages_of_a4_glue_to_true_stations(void **state)
{
    check_paper(*state, &bass, "a4", &upright, 3);
}

static void pages_of_letter_glue_to_true_stations(void **state)
{
    check_paper(*state, &bass, "letter", &upright, 3);
}

/* A long scale and 22 frets: two pages of either paper, whose words stand at the sides. */
static void turned_pages_glue_to_true_stations(void **state)
{
    check_paper(*state, &guitar, "a4", &turned, 2);
    check_paper(*state, &guitar, "letter", &turned, 2);
}

/* --- the SVG: its numbers are mm --- */

struct svg_found {
    double across_mm[LINES_MAX]; /* y of cutting lines across the board */
    int across;
    bool bar_mm, bar_in;
};

static void take_line(const char *words, struct svg_found *found)
{
    double x1, y1, x2, y2;

    if (sscanf(words, "d=\"M %lf %lf L %lf %lf \"", &x1, &y1, &x2, &y2) != 4 || y1 != y2)
        return;
    /* cairo keeps a 256th of a mm. */
    found->bar_mm = found->bar_mm || near_is(x2 - x1, 100, 0.01);
    found->bar_in = found->bar_in || near_is(x2 - x1, 101.6, 0.01);
    if (x2 - x1 < 41 || x2 - x1 > 80)
        return;
    assert_true(found->across < LINES_MAX);
    found->across_mm[found->across++] = y1;
}

static void drawing_is_at_true_scale(void **state)
{
    struct bench *bench = *state;
    const char *path = tree_path(bench->tree, "x.svg");
    struct svg_found found = {.across = 0};
    double width = 0, height = 0, box_width = 1, box_height = 1;
    size_t length;

    if (!SILLET_HAS_CAIRO)
        skip();
    make(bench, &bass, path, "a4");
    char *text = tree_read(path, &length);
    assert_non_null(text);
    const char *size = strstr(text, " width=\"");
    assert_non_null(size);
    assert_int_equal(sscanf(size, " width=\"%lfmm\" height=\"%lfmm\" viewBox=\"0 0 %lf %lf\"",
                            &width, &height, &box_width, &box_height),
                     4);
    assert_near(box_width, width, 1e-9);
    assert_near(box_height, height, 1e-9);
    for (const char *at = text; (at = strstr(at, "d=\"M ")) != NULL; at++)
        take_line(at, &found);
    free(text);
    assert_true(found.bar_mm && found.bar_in);
    /* The nut, the frets, and the board's end. */
    assert_int_equal(found.across, bass.frets + 2);
    for (int n = 1; n <= bass.frets; n++)
        assert_near(found.across_mm[n] - found.across_mm[0], station_mm(&bass, n), 0.01);
    assert_near(found.across_mm[bass.frets + 1] - found.across_mm[0], bass.end_mm, 0.01);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(pages_of_a4_glue_to_true_stations),
        BENCH_CASE(pages_of_letter_glue_to_true_stations),
        BENCH_CASE(turned_pages_glue_to_true_stations),
        BENCH_CASE(a_page_that_drawings_share_is_at_true_scale),
        BENCH_CASE(the_page_of_a_reset_is_at_true_scale),
        BENCH_CASE(drawing_is_at_true_scale),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
