/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "page/page.h"
#include "page/page_inside.h"
#include "page/page_write.h"

static const struct page_stroke thin = {.width_mm = 0.2};
static const struct page_font small = {.size_mm = 4};
static const struct page_about about = {.title = "A page", .date = "2026-03-02"};

static int set_up(void **state)
{
    struct page_list *list = NULL;

    if (page_list_new(page_a4, &list) != STATUS_OK)
        return -1;
    *state = list;
    return 0;
}

static int tear_down(void **state)
{
    page_list_free(*state);
    return 0;
}

static void draw_something(struct page_list *list)
{
    page_begin(list);
    page_draw_line(list, (struct page_point){10, 20}, (struct page_point){110, 20}, &thin);
    page_draw_circle(list, (struct page_point){50, 50}, 3, &thin);
    page_draw_text(list, (struct page_point){10, 40}, PAGE_LEFT, 0, &small,
                   "E\xE2\x99\xAD 8 \xC2\xBD");
    page_begin(list);
    page_begin_clip(list, (struct page_point){0, 0}, 50, 50);
    page_fill_box(list, (struct page_point){10, 10}, 100, 5, 0.5);
    page_end_clip(list);
    page_draw_box(list, (struct page_point){10, 30}, 25.4, 5, &thin);
}

static void sizes_are_the_standards(void **state)
{
    (void)state;
    /* ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: size A is 8.5 x 11 in. */
    assert_near(page_a4.width_mm, 210, 1e-12);
    assert_near(page_a4.height_mm, 297, 1e-12);
    assert_near(page_letter.width_mm / 25.4, 8.5, 1e-12);
    assert_near(page_letter.height_mm / 25.4, 11, 1e-12);
}

static void a_size_that_is_none_is_refused(void **state)
{
    struct page_list *list = NULL;

    (void)state;
    assert_int_equal(page_list_new((struct page_size){0, 297}, &list), STATUS_DOMAIN);
    assert_int_equal(page_list_new((struct page_size){210, (double)NAN}, &list), STATUS_DOMAIN);
    assert_null(list);
}

static void pages_are_counted(void **state)
{
    struct page_list *list = *state;

    assert_int_equal(page_list_pages(list), 0);
    draw_something(list);
    assert_int_equal(page_list_status(list), STATUS_OK);
    assert_int_equal(page_list_pages(list), 2);
}

static void the_first_failure_stays(void **state)
{
    struct page_list *list = *state;
    struct page_bytes bytes;

    page_begin(list);
    page_draw_line(list, (struct page_point){0, (double)INFINITY}, (struct page_point){1, 1},
                   &thin);
    assert_int_equal(page_list_status(list), STATUS_DOMAIN);
    page_draw_text(list, (struct page_point){1, 1}, PAGE_LEFT, 0, &small, "\xFF");
    page_begin(list);
    assert_int_equal(page_list_status(list), STATUS_DOMAIN);
    assert_int_equal(page_list_pages(list), 1);
    if (page_can_write())
        assert_int_equal(page_write_pdf(list, &about, &bytes), STATUS_DOMAIN);
}

static void what_cannot_be_drawn_is_told(void **state)
{
    (void)state;
    for (int i = 0; i < 6; i++) {
        struct page_list *one;

        assert_int_equal(page_list_new(page_letter, &one), STATUS_OK);
        if (i > 0)
            page_begin(one);
        switch (i) {
        case 0: /* before the first page */
            page_draw_circle(one, (struct page_point){1, 1}, 1, &thin);
            break;
        case 1:
            page_draw_circle(one, (struct page_point){1, 1}, -1, &thin);
            break;
        case 2: /* a line has two ends */
            page_draw_path(one, &(struct page_point){1, 1}, 1, &thin);
            break;
        case 3:
            page_end_clip(one);
            break;
        case 4: /* a clip ends on its page */
            page_begin_clip(one, (struct page_point){1, 1}, 5, 5);
            page_begin(one);
            break;
        case 5:
            page_fill_box(one, (struct page_point){1, 1}, 5, 5, 1.5);
            break;
        }
        assert_int_equal(page_list_status(one), STATUS_DOMAIN);
        page_list_free(one);
    }
}

static void text_must_be_utf8(void **state)
{
    struct page_list *list = *state;

    page_begin(list);
    page_draw_text(list, (struct page_point){1, 1}, PAGE_LEFT, 0, &small, "a\xC3(");
    assert_int_equal(page_list_status(list), STATUS_SYNTAX);
}

static bool holds(const struct page_bytes *bytes, const char *text)
{
    const size_t length = strlen(text);

    for (size_t i = 0; i + length <= bytes->length; i++)
        if (memcmp(bytes->data + i, text, length) == 0)
            return true;
    return false;
}

/* A page placed on another comes out as if it had been drawn there. */
static void a_placed_page_is_moved(void **state)
{
    struct page_list *list = *state, *drawing;
    struct page_bytes bytes;

    assert_int_equal(page_list_new((struct page_size){50, 50}, &drawing), STATUS_OK);
    page_begin(list);
    page_place(list, (struct page_point){0, 0}, drawing); /* it has no page yet */
    assert_int_equal(page_list_status(list), STATUS_DOMAIN);
    page_list_free(list);
    assert_int_equal(page_list_new(page_a4, &list), STATUS_OK);
    *state = list;
    page_begin(drawing);
    page_draw_line(drawing, (struct page_point){1, 2}, (struct page_point){21, 2}, &thin);
    page_draw_text(drawing, (struct page_point){1, 9}, PAGE_LEFT, 0, &small, "nut");
    page_draw_circle(drawing, (struct page_point){5, 5}, 3, &thin);
    page_begin_clip(drawing, (struct page_point){0, 0}, 9, 9);
    page_fill_box(drawing, (struct page_point){2, 2}, 3, 3, 0.5);
    page_end_clip(drawing);
    page_begin(list);
    page_place(list, (struct page_point){100, 200}, drawing);
    assert_int_equal(page_list_status(list), STATUS_OK);
    assert_int_equal(page_list_pages(list), 1);
    if (page_can_write()) {
        assert_int_equal(page_write_svg(list, &bytes), STATUS_OK);
        assert_true(holds(&bytes, "d=\"M 101 202 L 121 202 \""));
        free(bytes.data);
    }
    page_begin(drawing);
    page_place(list, (struct page_point){0, 0}, drawing); /* two pages */
    assert_int_equal(page_list_status(list), STATUS_DOMAIN);
    page_list_free(drawing);
}

/* On A4 a point 30 mm from the left and 50 mm from the top comes to be 50 mm from the left and 30
 * mm from the foot; a box lies on the same paper as before. */
static void a_turned_page_has_its_top_at_the_left(void **state)
{
    struct page_list *list = *state;

    page_begin(list);
    page_draw_line(list, (struct page_point){30, 50}, (struct page_point){130, 50}, &thin);
    page_draw_text(list, (struct page_point){30, 50}, PAGE_LEFT, 0, &small, "along");
    page_begin_clip(list, (struct page_point){30, 50}, 100, 20);
    page_end_clip(list);
    page_list_turn(list);
    assert_near(page_list_size(list).width_mm, 297, 1e-12);
    assert_near(page_list_size(list).height_mm, 210, 1e-12);
    assert_int_equal(page_list_status(list), STATUS_OK);
    const struct page_item *line = &list->items[1], *text = &list->items[2];
    assert_near(line->points[0].x_mm, 50, 1e-12);
    assert_near(line->points[0].y_mm, 180, 1e-12);
    assert_near(line->points[1].x_mm, 50, 1e-12);
    assert_near(line->points[1].y_mm, 80, 1e-12);
    assert_near(text->at.y_mm, 180, 1e-12);
    assert_near(text->turn_rad, 1.5707963267948966, 1e-12);
    const struct page_item *clip = &list->items[3];
    assert_near(clip->at.x_mm, 50, 1e-12);
    assert_near(clip->at.y_mm, 80, 1e-12);
    assert_near(clip->width_mm, 20, 1e-12);
    assert_near(clip->height_mm, 100, 1e-12);
}

static void need_writer(void)
{
    if (!page_can_write())
        skip();
}

static void the_same_list_gives_the_same_bytes(void **state)
{
    struct page_list *list = *state;
    struct page_bytes first, again, other;
    const struct page_about undated = {.title = "A page", .date = ""};

    need_writer();
    draw_something(list);
    assert_int_equal(page_write_pdf(list, &about, &first), STATUS_OK);
    assert_int_equal(page_write_pdf(list, &about, &again), STATUS_OK);
    assert_int_equal(first.length, again.length);
    assert_memory_equal(first.data, again.data, first.length);
    assert_memory_equal(first.data, "%PDF-", 5);
    assert_true(holds(&first, "/Count 2"));
    assert_int_equal(page_write_pdf(list, &undated, &other), STATUS_OK);
    assert_true(holds(&first, "(20260302120000Z)"));
    assert_false(holds(&other, "/CreationDate"));
    free(first.data);
    free(again.data);
    free(other.data);
}

/* The numbers of an SVG are mm: its size says so, and a line stands where it was drawn. */
static void svg_is_in_mm(void **state)
{
    struct page_list *list = *state;
    struct page_bytes bytes;

    need_writer();
    draw_something(list);
    assert_int_equal(page_write_svg(list, &bytes), STATUS_OK);
    assert_true(holds(&bytes, "width=\"210mm\" height=\"594mm\" viewBox=\"0 0 210 594\""));
    assert_true(holds(&bytes, "d=\"M 10 20 L 110 20 \""));
    free(bytes.data);
}

static void an_empty_document_is_refused(void **state)
{
    struct page_bytes bytes;

    need_writer();
    assert_int_equal(page_write_pdf(*state, &about, &bytes), STATUS_DOMAIN);
    assert_int_equal(page_write_svg(*state, &bytes), STATUS_DOMAIN);
}

static void widths_grow_with_text_and_size(void **state)
{
    const struct page_font twice = {.size_mm = 8};

    struct page_ruler *ruler = page_ruler_new();

    (void)state;
    assert_non_null(ruler);
    const double one = page_ruler_width_mm(ruler, &small, "saddle");
    assert_true(one > 4 && one < 24);
    assert_near(page_ruler_width_mm(ruler, &twice, "saddle"), 2 * one, 1e-6);
    assert_near(page_ruler_width_mm(ruler, &small, "saddlesaddle"), 2 * one, 1e-6);
    assert_near(page_ruler_width_mm(ruler, &small, ""), 0, 1e-12);
    page_ruler_free(ruler);
}

/* Measured again and again, in other texts and beside other fonts, a character keeps its width, and
 * one that no font has is as wide as what is drawn for it. */
static void a_character_keeps_its_width(void **state)
{
    static const char *const texts[] = {"E\u266d, \u00d712", "\u00bd in \u00b1\u00b5", "AVA To",
                                        "\u1edd \u0142\u0101 \U0001f3b8 \xff!"};
    static const char *const parts[] = {
        "E",      "\u266d", ",",      " ",          "\u00d7", "12",     "\u00bd",
        " in ",   "\u00b1", "\u00b5", "AVA",        " To",    "\u1edd", " ",
        "\u0142", "\u0101", " ",      "\U0001f3b8", " ",      "\xff",   "!"};
    struct page_ruler *ruler = page_ruler_new();
    double whole_mm = 0, sum_mm = 0;

    (void)state;
    need_writer();
    assert_non_null(ruler);
    for (int round = 0; round < 20; round++) {
        const struct page_font other = {.size_mm = 2 + round, .weight = PAGE_BOLD};

        whole_mm = sum_mm = 0;
        for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
            whole_mm += page_ruler_width_mm(ruler, &small, texts[i]);
        assert_true(page_ruler_width_mm(ruler, &other, texts[0]) > 0);
        for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
            sum_mm += page_ruler_width_mm(ruler, &small, parts[i]);
        assert_near(whole_mm, sum_mm, 1e-9);
    }
    assert_near(page_ruler_width_mm(ruler, &small, "\xff"), page_ruler_width_mm(ruler, &small, "?"),
                1e-12);
    page_ruler_free(ruler);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sizes_are_the_standards),
        cmocka_unit_test(a_size_that_is_none_is_refused),
        CASE(pages_are_counted),
        CASE(the_first_failure_stays),
        cmocka_unit_test(what_cannot_be_drawn_is_told),
        CASE(text_must_be_utf8),
        CASE(the_same_list_gives_the_same_bytes),
        CASE(svg_is_in_mm),
        CASE(a_placed_page_is_moved),
        CASE(a_turned_page_has_its_top_at_the_left),
        CASE(an_empty_document_is_refused),
        cmocka_unit_test(widths_grow_with_text_and_size),
        cmocka_unit_test(a_character_keeps_its_width),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
