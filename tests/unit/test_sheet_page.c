/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "page/page_inside.h"
#include "page/page_write.h"
#include "sheet/sheet_draw.h"
#include "sheet/sheet_make.h"
#include "sheet/sheet_page.h"
#include "sheet/sheet_set.h"

static int pages_of(const struct record *record, struct page_size size)
{
    const struct sheet_ask ask = {.units = shop_units_inch(), .shop = "Quayside Fret Works"};
    struct sheet sheet;
    struct page_list *list;

    assert_int_equal(sheet_make(record, &ask, &sheet), STATUS_OK);
    assert_int_equal(sheet_lay_pages(&sheet, size, &list), STATUS_OK);
    assert_int_equal(page_list_status(list), STATUS_OK);
    const int pages = page_list_pages(list);
    page_list_free(list);
    sheet_done(&sheet);
    return pages;
}

static void a_full_visit_takes_two_pages_at_most(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    assert_in_range(pages_of(&record, page_a4), 1, 2);
    assert_in_range(pages_of(&record, page_letter), 1, 2);
    record_done(&record);
}

static void nothing_takes_one(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, "");
    assert_int_equal(pages_of(&record, page_a4), 1);
    assert_int_equal(pages_of(&record, page_letter), 1);
    record_done(&record);
}

/* Lines of text on the last page, without its foot. */
static int lines_at_the_end(const struct page_list *list)
{
    double at_mm[200];
    int lines = 0;

    for (size_t i = 0; i < list->count; i++) {
        const struct page_item *item = &list->items[i];
        int k = 0;

        if (item->kind == PAGE_ITEM_BEGIN)
            lines = 0;
        if (item->kind != PAGE_ITEM_TEXT || item->at.y_mm > list->size.height_mm - 14)
            continue;
        while (k < lines && at_mm[k] != item->at.y_mm)
            k++;
        assert_in_range(k, 0, 199);
        at_mm[k] = item->at.y_mm;
        lines = k == lines ? lines + 1 : lines;
    }
    return lines;
}

/* However long the notes are, no page is begun for a few lines. */
static void no_page_has_only_a_few_lines(void **state)
{
    enum { LEAST = 6, LONGEST = 90 };
    const struct sheet_ask ask = {.units = shop_units_inch(), .shop = "Quayside Fret Works"};
    int ends_on[4] = {0};

    (void)state;
    for (int lines = 0; lines < LONGEST; lines++) {
        struct page_list *list;
        struct record record;
        struct sheet sheet;

        build_record(&record, build_record_full);
        assert_int_equal(sheet_make(&record, &ask, &sheet), STATUS_OK);
        for (int i = 0; i < lines; i++)
            sheet_add_text(&sheet, SHEET_PARAGRAPH, "A line of the shop's.");
        assert_int_equal(sheet_lay_pages(&sheet, page_a4, &list), STATUS_OK);
        const int last = page_list_pages(list);
        assert_in_range(last, 1, 3);
        ends_on[last]++;
        if (last > 1)
            assert_true(lines_at_the_end(list) >= LEAST);
        page_list_free(list);
        sheet_done(&sheet);
        record_done(&record);
    }
    assert_true(ends_on[2] > 0 && ends_on[3] > 0);
}

/* The highest line of text, below the top, and the smallest letters of a sheet of so many lines. */
static int lay_lines(int lines, double *ret_least_mm, double *ret_low_mm)
{
    struct page_list *list;
    struct sheet sheet;

    sheet_init(&sheet);
    for (int i = 0; i < lines; i++)
        sheet_add_text(&sheet, SHEET_PARAGRAPH, "A line of the shop's.");
    assert_int_equal(sheet_lay_pages(&sheet, page_a4, &list), STATUS_OK);
    assert_near(page_list_size(list).width_mm, 210, 1e-9);
    assert_near(page_list_size(list).height_mm, 297, 1e-9);
    *ret_least_mm = 100;
    *ret_low_mm = 0;
    for (size_t i = 0; i < list->count; i++)
        if (list->items[i].kind == PAGE_ITEM_TEXT) {
            *ret_least_mm = fmin(*ret_least_mm, list->items[i].font.size_mm);
            *ret_low_mm = fmax(*ret_low_mm, list->items[i].at.y_mm);
        }
    const int pages = page_list_pages(list);
    page_list_free(list);
    sheet_done(&sheet);
    return pages;
}

/* Six sections of nine lines are 1.5 pages high; side by side they keep their size and order. */
static void short_sections_stand_in_two_columns(void **state)
{
    enum { SECTIONS = 6, LINES = 9 };
    const double margin_mm = 18, gap_mm = 10, right_mm = (210 + gap_mm) / 2;
    struct page_list *list;
    struct sheet sheet;
    int lefts = 0, rights = 0;

    (void)state;
    sheet_init(&sheet);
    for (int i = 0; i < SECTIONS; i++) {
        sheet_add_heading(&sheet, "A section");
        for (int k = 0; k < LINES; k++)
            sheet_add_text(&sheet, SHEET_PARAGRAPH, "A line of the shop's.");
    }
    assert_int_equal(sheet_lay_pages(&sheet, page_a4, &list), STATUS_OK);
    assert_int_equal(page_list_pages(list), 1);
    for (size_t i = 0; i < list->count; i++) {
        const struct page_item *item = &list->items[i];

        if (item->kind != PAGE_ITEM_TEXT)
            continue;
        assert_true(item->font.size_mm >= 3.1 && item->at.y_mm <= 297 - 14);
        /* Down the left one first. */
        assert_true(rights == 0 || item->at.x_mm > margin_mm);
        lefts += fabs(item->at.x_mm - margin_mm) < 1e-9;
        rights += fabs(item->at.x_mm - right_mm) < 1e-9;
    }
    assert_int_equal(lefts, SECTIONS / 2 * (LINES + 1));
    assert_int_equal(rights, SECTIONS / 2 * (LINES + 1));
    page_list_free(list);
    sheet_done(&sheet);
}

/* What goes over by a little is set closer, then smaller, but never too small to be read; what goes
 * over by more keeps its size. */
static void a_little_too_much_is_set_closer(void **state)
{
    double least_mm, low_mm;
    int lines = 1;

    (void)state;
    /* 264 mm hold 40 lines of 4.4 mm with 2.2 mm between them. */
    assert_int_equal(lay_lines(40, &least_mm, &low_mm), 1);
    assert_near(least_mm, 3.1, 1e-9);
    assert_int_equal(lay_lines(43, &least_mm, &low_mm), 1);
    assert_near(least_mm, 3.1, 1e-9);
    while (lay_lines(lines, &least_mm, &low_mm) == 1) {
        if (!(least_mm >= 2.65 && low_mm <= 297 - 14))
            fail_msg("%d lines: letters of %.2f mm, down to %.2f mm", lines, least_mm, low_mm);
        lines++;
    }
    assert_in_range(lines, 50, 65);
    /* The foot of the pages. */
    assert_near(least_mm, 2.65, 1e-9);
}

/* Where two lines end close together, the name of the upper one stands over it, that of the lower
 * one below it. */
static void names_of_lines_that_meet_stand_apart(void **state)
{
    const struct page_size size = {150, 40};

    (void)state;
    for (int close = 0; close <= 12; close++) {
        struct sheet sheet = {.count = 0};
        struct picture *side = &sheet.picture[SHEET_SIDE_VIEW];
        const struct sheet_area area = {.corner = {0, 0}, .width_mm = 140, .height_mm = 30};
        double y_mm[2] = {0};
        int names = 0;
        struct page_list *list;

        picture_begin(side, (struct picture_point){0, 0}, (struct picture_point){100, 20});
        const struct picture_label left = {
            .role = PICTURE_MAIN, .at = {100, 18}, .word = "as left"};
        const struct picture_label found = {
            .role = PICTURE_OTHER, .at = {100, 18 - close}, .word = "as found"};
        picture_add_label(side, &left);
        picture_add_label(side, &found);
        assert_int_equal(page_list_new(size, &list), STATUS_OK);
        page_begin(list);
        sheet_draw_picture(list, &sheet, SHEET_SIDE_VIEW, &area);
        assert_int_equal(page_list_status(list), STATUS_OK);
        for (size_t i = 0; i < list->count; i++)
            if (list->items[i].kind == PAGE_ITEM_TEXT && names < 2)
                y_mm[names++] = list->items[i].at.y_mm;
        assert_int_equal(names, 2);
        assert_true(y_mm[1] - y_mm[0] >= sheet_label_font.size_mm);
        page_list_free(list);
    }
}

static const struct page_item *text_item(const struct page_list *list, const char *text)
{
    for (size_t i = 0; i < list->count; i++)
        if (list->items[i].kind == PAGE_ITEM_TEXT && strcmp(list->items[i].text, text) == 0)
            return &list->items[i];
    fail_msg("%s is not drawn", text);
    abort(); /* fail_msg does not return, which the compiler is not told */
}

/* A fret's word takes no number's place, and no other word's, however close the frets are. */
static void words_of_frets_stand_over_their_numbers(void **state)
{
    const struct page_size size = {150, 40};

    (void)state;
    for (double apart = 4; apart < 12; apart++) {
        struct sheet sheet = {.count = 0};
        struct picture *side = &sheet.picture[SHEET_SIDE_VIEW];
        const struct sheet_area area = {.corner = {0, 0}, .width_mm = 109, .height_mm = 30};
        struct page_list *list;

        picture_begin(side, (struct picture_point){0, 0}, (struct picture_point){100, 20});
        for (int n = 7; n <= 9; n++)
            side->ticks[side->tick_count++] = (struct picture_tick){.x = n * apart,
                                                                    .number = n,
                                                                    .word = n == 7   ? "high"
                                                                            : n == 8 ? "join"
                                                                                     : NULL};
        assert_int_equal(page_list_new(size, &list), STATUS_OK);
        page_begin(list);
        sheet_draw_picture(list, &sheet, SHEET_SIDE_VIEW, &area);
        assert_int_equal(page_list_status(list), STATUS_OK);
        const struct page_item *high = text_item(list, "high"), *join = text_item(list, "join");
        for (int n = 7; n <= 9; n++) {
            const char number[] = {(char)('0' + n), '\0'};
            const struct page_item *at = text_item(list, number);

            assert_near(at->at.x_mm, 7 + n * apart, 1e-9);
            assert_true(at->at.y_mm - high->at.y_mm >= sheet_label_font.size_mm);
            assert_near(high->at.y_mm, join->at.y_mm, 1e-9);
        }
        /* Four letters are about two letters' heights wide. */
        assert_true(join->at.x_mm - high->at.x_mm >= 2 * sheet_label_font.size_mm);
        page_list_free(list);
    }
}

/* A number and its unit are not parted at the end of a line. */
static void a_unit_stays_with_its_number(void **state)
{
    static const char text[] = "It stands over the bridge by 4.5 mm). Down in 3 days, .004 in.";
    const struct page_font font = {.size_mm = 3};
    struct page_ruler *ruler = page_ruler_new();

    (void)state;
    assert_non_null(ruler);
    for (double width_mm = 20; width_mm < 120; width_mm += 0.5) {
        const char *at = text;
        char memory[200];
        struct strbuf line = STRBUF(memory);

        while (set_next_line(ruler, &font, &at, width_mm, &line))
            if (strncmp(memory, "mm)", 3) == 0 || strncmp(memory, "in.", 3) == 0)
                fail_msg("at %.1f mm a line begins with: %s", width_mm, memory);
    }
    page_ruler_free(ruler);
}

/* From a file of another character set, or with what no line can hold. */
static void any_name_can_be_drawn(void **state)
{
    static const char *const names[] = {"Caf\xE9 No. 3", "\xFF\xFE", "a\xC3", "two\nlines\x01"};
    const struct reading_key key = reading_key_one(FIELD_NAME);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        (void)record_put(&record, &key, names[i], true, NULL);
        assert_string_equal(record_text(&record, &key), names[i]);
        /* So small that a foot with the name goes below each page. */
        assert_true(pages_of(&record, (struct page_size){100, 80}) > 1);
    }
    record_done(&record);
}

/* Notes and work lines without end go on over as many pages as they need. */
static void what_is_longer_goes_on(void **state)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_FOR_OWNER, 1);
    char note[FIELD_TEXT_MAX + 1] = "";
    struct strbuf text = STRBUF(note);
    struct record record;

    (void)state;
    while (text.length + 10 < FIELD_TEXT_MAX)
        strbuf_add(&text, "no blank__");
    build_record(&record, build_record_full);
    assert_int_equal(record_put(&record, &key, note, false, NULL), STATUS_OK);
    for (int line = 1; line <= 100; line++) {
        char memory[64];
        struct strbuf work = STRBUF(memory);

        strbuf_addf(&work, "visit.1.work.%d kind = step %d\n", line, line);
        build_record_add(&record, memory);
    }
    assert_in_range(pages_of(&record, page_a4), 4, 8);
    record_done(&record);
}

/* A slip of paper is no page for it, but no trap either. */
static void any_size_ends(void **state)
{
    static const struct page_size slips[] = {{60, 80}, {40, 400}, {1000, 45}};
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++)
        assert_in_range(pages_of(&record, slips[i]), 1, 2000);
    record_done(&record);
}

/* 100 mm of neck, 10 mm of height: on 109 by 27 mm of paper, of which 9 and 7 are kept for
 * "nut" and the frets' numbers, lengths come out 1:1 and heights 2:1. */
static void the_side_view_says_how_much_it_exaggerates(void **state)
{
    const struct sheet_area area = {.corner = {0, 0}, .width_mm = 109, .height_mm = 27};
    struct picture side;

    (void)state;
    picture_begin(&side, (struct picture_point){0, 0}, (struct picture_point){100, 8});
    picture_begin_line(&side, PICTURE_CROWN);
    picture_to(&side, 50, -2);
    assert_near(sheet_side_view_times(&side, &area), 2, 1e-12);
    picture_begin_line(&side, PICTURE_OTHER);
    picture_to(&side, 100, 18);
    assert_near(sheet_side_view_times(&side, &area), 1, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_full_visit_takes_two_pages_at_most),
        cmocka_unit_test(nothing_takes_one),
        cmocka_unit_test(no_page_has_only_a_few_lines),
        cmocka_unit_test(short_sections_stand_in_two_columns),
        cmocka_unit_test(a_little_too_much_is_set_closer),
        cmocka_unit_test(names_of_lines_that_meet_stand_apart),
        cmocka_unit_test(words_of_frets_stand_over_their_numbers),
        cmocka_unit_test(a_unit_stays_with_its_number),
        cmocka_unit_test(any_name_can_be_drawn),
        cmocka_unit_test(what_is_longer_goes_on),
        cmocka_unit_test(any_size_ends),
        cmocka_unit_test(the_side_view_says_how_much_it_exaggerates),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
