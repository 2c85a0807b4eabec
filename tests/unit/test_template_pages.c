/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "course_record.h"
#include "page/page_inside.h"
#include "survey_record.h"
#include "template/template.h"
#include "template/template_pages.h"

/* Every point of the length is on a tile, neighbours share the overlap, and no tile is unneeded. */
static void check_tiles(double length_mm, double tile_mm, double overlap_mm)
{
    struct template_tiles tiles;

    assert_int_equal(template_cut_tiles(length_mm, tile_mm, overlap_mm, &tiles), STATUS_OK);
    assert_true(tiles.count >= 1);
    const double end_mm = (tiles.count - 1) * tiles.step_mm + tile_mm;
    assert_true(end_mm >= length_mm);
    if (tiles.count > 1) {
        assert_near(tiles.step_mm + overlap_mm, tile_mm, 1e-9);
        assert_true(end_mm - tiles.step_mm < length_mm);
    }
}

static void tiles_cover_and_are_no_more_than_it_takes(void **state)
{
    (void)state;
    for (double length_mm = 1; length_mm < 2000; length_mm += 7.3) {
        check_tiles(length_mm, 236, 12);
        check_tiles(length_mm, 190, 0);
    }
    check_tiles(236, 236, 12);
    check_tiles(236 + 224, 236, 12);
}

static void what_fits_is_one_tile(void **state)
{
    struct template_tiles tiles;

    (void)state;
    assert_int_equal(template_cut_tiles(236, 236, 12, &tiles), STATUS_OK);
    assert_int_equal(tiles.count, 1);
    assert_int_equal(template_cut_tiles(236.01, 236, 12, &tiles), STATUS_OK);
    assert_int_equal(tiles.count, 2);
    assert_int_equal(template_cut_tiles(460.01, 236, 12, &tiles), STATUS_OK);
    assert_int_equal(tiles.count, 3);
}

static void impossible_tiles_are_refused(void **state)
{
    struct template_tiles tiles = {.count = -7};

    (void)state;
    assert_int_equal(template_cut_tiles(0, 236, 12, &tiles), STATUS_DOMAIN);
    assert_int_equal(template_cut_tiles((double)NAN, 236, 12, &tiles), STATUS_DOMAIN);
    assert_int_equal(template_cut_tiles(100, 12, 12, &tiles), STATUS_DOMAIN);
    assert_int_equal(template_cut_tiles(100, 236, -1, &tiles), STATUS_DOMAIN);
    assert_int_equal(template_cut_tiles(1e9, 236, 12, &tiles), STATUS_DOMAIN);
    assert_int_equal(template_cut_tiles((double)INFINITY, 236, 12, &tiles), STATUS_DOMAIN);
    assert_int_equal(tiles.count, -7);
}

static struct page_list *drawing_of(double width_mm, double height_mm)
{
    struct page_list *drawing;

    assert_int_equal(page_list_new((struct page_size){width_mm, height_mm}, &drawing), STATUS_OK);
    page_begin(drawing);
    return drawing;
}

static int pages_of(struct page_size paper, double width_mm, double height_mm)
{
    struct page_list *drawing = drawing_of(width_mm, height_mm), *pages;
    const struct template_sheet sheet = {
        .drawing = drawing, .title = "t", .instrument = "i", .date = "", .caution = "c"};

    assert_int_equal(page_list_new(paper, &pages), STATUS_OK);
    assert_int_equal(template_add_pages(pages, &sheet, 1), STATUS_OK);
    const int count = page_list_pages(pages);
    page_list_free(pages);
    page_list_free(drawing);
    return count;
}

static void large_drawings_take_more_pages(void **state)
{
    (void)state;
    assert_int_equal(pages_of(page_a4, 150, 200), 1);
    assert_int_equal(pages_of(page_a4, 150, 450), 2);
    /* Two of Letter hold 424.8 mm, and 490.8 mm with the words beside the drawing, which leaves
     * 154.9 mm for its width. */
    assert_int_equal(pages_of(page_letter, 150, 424), 2);
    assert_int_equal(pages_of(page_letter, 150, 490), 2);
    assert_int_equal(pages_of(page_letter, 150, 491), 3);
    assert_int_equal(pages_of(page_letter, 156, 450), 3);
    assert_int_equal(pages_of(page_a4, 300, 450), 4);
}

static int shared_pages_of(struct page_size paper, int count, double height_mm)
{
    struct page_list *drawing = drawing_of(150, height_mm), *pages;
    struct template_sheet sheets[8];

    for (int i = 0; i < count; i++)
        sheets[i] = (struct template_sheet){
            .drawing = drawing, .title = "t", .instrument = "i", .date = "", .caution = "c"};
    assert_int_equal(page_list_new(paper, &pages), STATUS_OK);
    assert_int_equal(template_add_pages(pages, sheets, count), STATUS_OK);
    const int found = page_list_pages(pages);
    page_list_free(pages);
    page_list_free(drawing);
    return found;
}

/* A4 has room for 236 mm of drawings, less 25 mm for each but the first. */
static void small_drawings_share_a_page(void **state)
{
    (void)state;
    assert_int_equal(shared_pages_of(page_a4, 2, 105), 1);
    assert_int_equal(shared_pages_of(page_a4, 2, 106), 2);
    assert_int_equal(shared_pages_of(page_a4, 3, 60), 1);
    assert_int_equal(shared_pages_of(page_a4, 4, 60), 2);
    assert_int_equal(shared_pages_of(page_letter, 2, 105), 2);
    assert_int_equal(shared_pages_of(page_a4, 3, 450), 6);
}

static void a_drawing_that_failed_fails_the_pages(void **state)
{
    struct page_list *drawing = drawing_of(50, 50), *pages;
    const struct template_sheet sheet = {
        .drawing = drawing, .title = "t", .instrument = "i", .date = "", .caution = "c"};

    (void)state;
    page_end_clip(drawing);
    assert_int_equal(page_list_new(page_a4, &pages), STATUS_OK);
    assert_int_equal(template_add_pages(pages, &sheet, 1), STATUS_DOMAIN);
    page_list_free(pages);
    page_list_free(drawing);
}

static void one_drawing_holds_them_all(void **state)
{
    struct page_list *first = drawing_of(150, 500), *second = drawing_of(300, 40), *page;
    const struct template_sheet sheets[] = {
        {.drawing = first, .title = "t", .instrument = "i", .date = "", .caution = "c"},
        {.drawing = second, .title = "t", .instrument = "i", .date = "", .caution = "c"}};

    (void)state;
    assert_int_equal(template_lay_drawing(sheets, 0, &page), STATUS_DOMAIN);
    assert_int_equal(template_lay_drawing(sheets, 2, &page), STATUS_OK);
    assert_int_equal(page_list_pages(page), 1);
    assert_true(page_list_size(page).height_mm > 540);
    assert_true(page_list_size(page).width_mm > 300);
    page_list_free(page);
    page_list_free(first);
    page_list_free(second);
}

/* --- which are drawn --- */

static enum status draw(enum template_kind kind, const char *dropped, const char *more,
                        char *missing, size_t size)
{
    struct record record;
    struct derived derived;
    struct page_list *drawing;
    struct strbuf text = strbuf_over(missing, size);

    strbuf_clear(&text);
    build_record(&record, build_record_full);
    if (dropped)
        build_record_drop(&record, dropped);
    build_record_add(&record, more);
    derive_current(&record, &derived);
    const enum status status =
        template_draw(kind, place_current(&record), &derived, &drawing, &text);
    if (status == STATUS_OK)
        page_list_free(drawing);
    record_done(&record);
    return status;
}

static void missing_readings_go_by_their_names(void **state)
{
    char missing[300];

    (void)state;
    assert_int_equal(draw(TEMPLATE_BOARD, NULL, "", missing, sizeof missing), STATUS_OK);
    assert_string_equal(missing, "");
    assert_int_equal(draw(TEMPLATE_TONGUE, "board board_end", "", missing, sizeof missing),
                     STATUS_ABSENT);
    assert_string_equal(missing, "board end, on Intake");
    assert_int_equal(
        draw(TEMPLATE_TONGUE, NULL, "board board_end = 420 mm\n", missing, sizeof missing),
        STATUS_OK);
    /* A board that ends at the join has no tongue. */
    assert_int_equal(
        draw(TEMPLATE_TONGUE, NULL, "board board_end = 200 mm\n", missing, sizeof missing),
        STATUS_ABSENT);
    assert_int_equal(draw(TEMPLATE_HEEL, "neck heel_depth", "", missing, sizeof missing),
                     STATUS_ABSENT);
    assert_string_equal(missing, "heel depth, on Neck");
    assert_int_equal(
        draw(TEMPLATE_HEEL, NULL, "neck heel_depth = 88 mm\n", missing, sizeof missing), STATUS_OK);
}

static int count_texts(const struct page_list *list, const char *text)
{
    int count = 0;

    for (size_t i = 0; i < list->count; i++)
        count += list->items[i].kind == PAGE_ITEM_TEXT && strcmp(list->items[i].text, text) == 0;
    return count;
}

/* What is drawn in grey on a board with these lines more. */
static void check_grey(const char *more, const char *words, const char *not_words)
{
    char missing[300] = "";
    struct strbuf text = STRBUF(missing);
    struct page_list *drawing;
    struct derived derived;
    struct record record;

    survey_record_derive(&record, more, &derived);
    assert_int_equal(
        template_draw(TEMPLATE_BOARD, place_current(&record), &derived, &drawing, &text),
        STATUS_OK);
    assert_int_equal(count_texts(drawing, words), 1);
    assert_int_equal(count_texts(drawing, not_words), 0);
    page_list_free(drawing);
    record_done(&record);
}

static void the_legend_names_only_what_is_drawn(void **state)
{
    static const char nut[] = "nut width = 44 mm\nnut margin_bass = 3 mm\n"
                              "nut margin_treble = 3 mm\nnut spread = equal-gaps\n"
                              "board width_nut = 44 mm\n";
    static const char strings[] = "grey: strings, saddle centred", middle[] = "grey: the middle";
    char both[300];

    (void)state;
    check_grey(nut, middle, strings);
    snprintf(both, sizeof both, "%sbridge spread = 54 mm\n", nut);
    check_grey(both, strings, middle);
}

/* How many strings of the twelve the saddle's template has no contact for. */
static int count_unplaced(const char *dropped)
{
    char missing[300] = "";
    struct strbuf text = STRBUF(missing);
    struct page_list *drawing;
    struct derived derived;
    struct record record;

    build_record(&record, course_record);
    if (dropped)
        build_record_drop(&record, dropped);
    derive_current(&record, &derived);
    assert_int_equal(
        template_draw(TEMPLATE_SADDLE, place_current(&record), &derived, &drawing, &text),
        STATUS_OK);
    const int count = count_texts(drawing, "setback not entered");
    page_list_free(drawing);
    record_done(&record);
    return count;
}

static void a_courses_setback_places_both_its_strings(void **state)
{
    (void)state;
    assert_int_equal(count_unplaced(NULL), 0);
    assert_int_equal(count_unplaced("string.7 setback"), 2);
}

/* String 6 starts at fret 5: no slot is cut for it. */
static void a_short_string_has_no_slot_on_the_nut(void **state)
{
    static const char lines[] =
        "nut width = 44 mm\nnut margin_bass = 3 mm\nnut margin_treble = 3 mm\n"
        "nut spread = equal-gaps\nbridge spread = 54 mm\nstring.6 from_fret = 5\n";
    char missing[300] = "";
    struct strbuf text = STRBUF(missing);
    struct page_list *drawing;
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record, lines, &derived);
    assert_int_equal(template_draw(TEMPLATE_NUT, place_current(&record), &derived, &drawing, &text),
                     STATUS_OK);
    assert_int_equal(count_texts(drawing, "5"), 1);
    assert_int_equal(count_texts(drawing, "6"), 0);
    page_list_free(drawing);
    record_done(&record);
}

static bool applies(enum template_kind kind, const char *more)
{
    struct record record;
    struct derived derived;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    derive_current(&record, &derived);
    const bool answer = template_applies(kind, &record, &derived);
    record_done(&record);
    return answer;
}

static void wedges_only_where_a_reset_is_due(void **state)
{
    static const char low[] = "visit.1.pass.1 exposure_bass = 0.3 mm\n"
                              "visit.1.pass.1 exposure_treble = 0.3 mm\n"
                              "bridge exposure_min = 2 mm\nneck join = glued\n";
    static const char pocket[] = "visit.1.pass.1 exposure_bass = 0.3 mm\n"
                                 "visit.1.pass.1 exposure_treble = 0.3 mm\n"
                                 "bridge exposure_min = 2 mm\nneck join = pocket\n";

    (void)state;
    assert_true(applies(TEMPLATE_BOARD, ""));
    assert_false(applies(TEMPLATE_HEEL, "bridge exposure_min = 0.1 mm\n"));
    assert_true(applies(TEMPLATE_HEEL, low));
    assert_true(applies(TEMPLATE_TONGUE, low));
    assert_false(applies(TEMPLATE_SHIM, low));
    assert_true(applies(TEMPLATE_SHIM, pocket));
    assert_false(applies(TEMPLATE_HEEL, pocket));
}

static void names_are_found_again(void **state)
{
    enum template_kind kind = TEMPLATE_COUNT_;

    (void)state;
    for (int k = 0; k < TEMPLATE_COUNT_; k++) {
        assert_true(template_find(template_name((enum template_kind)k), &kind));
        assert_int_equal(kind, k);
        assert_true(strlen(template_title((enum template_kind)k)) > 0);
        assert_true(strlen(template_caution((enum template_kind)k)) > 0);
    }
    assert_false(template_find("boar", &kind));
    assert_false(template_find("", &kind));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tiles_cover_and_are_no_more_than_it_takes),
        cmocka_unit_test(what_fits_is_one_tile),
        cmocka_unit_test(impossible_tiles_are_refused),
        cmocka_unit_test(large_drawings_take_more_pages),
        cmocka_unit_test(small_drawings_share_a_page),
        cmocka_unit_test(a_drawing_that_failed_fails_the_pages),
        cmocka_unit_test(one_drawing_holds_them_all),
        cmocka_unit_test(missing_readings_go_by_their_names),
        cmocka_unit_test(the_legend_names_only_what_is_drawn),
        cmocka_unit_test(a_courses_setback_places_both_its_strings),
        cmocka_unit_test(a_short_string_has_no_slot_on_the_nut),
        cmocka_unit_test(wedges_only_where_a_reset_is_due),
        cmocka_unit_test(names_are_found_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
