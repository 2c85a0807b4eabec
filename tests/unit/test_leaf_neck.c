/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "leaf/leaves.h"
#include "session/app.h"
#include "leaf/neck/neck_words.h"
#include "base/utf8.h"
#include "bench_session.h"
#include "build_record.h"
#include "leaf/neck/section_view.h"

#define NECK                                                                                       \
    "board width_nut = 46 mm\nboard width_join = 57 mm\nboard thickness = 6 mm\n"                  \
    "board modulus = 16000\nboard crown_height = 1.1 mm\nneck modulus = 10000\n"                   \
    "neck shaft_first = 15 mm\nneck shaft_heel = 17 mm\n"                                          \
    "neck slot_width = 6 mm\nneck slot_depth = 11 mm\n"
#define STRINGS                                                                                    \
    "string.1 note = E4\nstring.1 mass = 0.5\nstring.2 note = B3\nstring.2 mass = 0.9\n"           \
    "string.3 note = G3\nstring.3 mass = 2\nstring.4 note = D3\nstring.4 mass = 3\n"               \
    "string.5 note = A2\nstring.5 mass = 6\nstring.6 note = E2\nstring.6 mass = 10\n"

static struct app *start(const char *lines, const char *more)
{
    return bench_open(lines, more, LEAF_NECK);
}

static const char *next_of(const struct app *app)
{
    static char memory[120];
    struct strbuf out = STRBUF(memory);

    strbuf_clear(&out);
    neck_words_next(app_shown(app), &out);
    return memory;
}

static void every_reading_of_the_neck_has_a_cell(void **state)
{
    const struct leaf_place odd[] = {{.visit = 1, .pass = 1},
                                     {.strings = 12, .frets = 36, .visit = 1, .pass = 1}};

    (void)state;
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        struct route route;

        leaf_lay(&leaf_neck, &odd[i], &route);
        for (int id = 0; id < FIELD_COUNT_; id++) {
            const struct reading_key key = reading_key_one((enum field_id)id);

            if (field_get((enum field_id)id)->section == SECTION_NECK)
                assert_true(route_find(&route, &key) >= 0);
        }
    }
}

static void the_form_is_filled_from_the_number_pad(void **state)
{
    struct app *app = start("", "");

    (void)state;
    bench_press(app, "1.8{Enter}2 1/4{Enter},25{Enter}{Enter}16000{Enter}");
    assert_string_equal(bench_text(app, "board width_nut"), "1.8 in");
    assert_string_equal(bench_text(app, "board thickness"), ".25 in");
    assert_string_equal(bench_text(app, "board modulus"), "16000 N/mm2");
    bench_close(app);
}

/* Whatever is missing, something is named, until every figure is there. */
static void the_next_step_is_named(void **state)
{
    struct app *app = start("", "");

    (void)state;
    assert_non_null(strstr(next_of(app), "Intake"));
    bench_close(app);
    app = start(build_record_full, "");
    assert_string_equal(next_of(app), "next: board width at the nut, 8 more");
    bench_close(app);
    app = start(build_record_full, NECK);
    assert_non_null(strstr(next_of(app), "(Strings)"));
    bench_close(app);
    app = start(build_record_full, NECK STRINGS);
    assert_string_equal(next_of(app), "");
    bench_close(app);
    app = start(build_record_full, NECK STRINGS "neck slot_depth = 16 mm\n");
    assert_non_null(strstr(next_of(app), "slot"));
    bench_close(app);
}

/* A message row of 80 columns holds every caution behind "mind: ". */
static void every_caution_fits(void **state)
{
    struct derived *derived = calloc(1, sizeof *derived);

    (void)state;
    for (int join = JOIN_GLUED; join <= JOIN_UNKNOWN; join++)
        for (int id = 0; id <= FIELD_COUNT_; id++) {
            derived->neck.join = (enum neck_join)join;
            const char *text = neck_words_caution(derived, (enum field_id)id);

            if (text[0] == '\0' || utf8_columns(text) > 72)
                fail_msg("%d columns: %s", utf8_columns(text), text);
        }
    free(derived);
}

static void thin_wood_comes_before_the_work(void **state)
{
    struct app *app = start(build_record_full, NECK "neck slot_depth = 12.5 mm\n");

    (void)state;
    assert_non_null(strstr(neck_words_caution(&app->now, FIELD_JOIN), "3 mm"));
    bench_close(app);
}

/* x_1/x_12 = (1 - 2^(-1/12))/(1 - 1/2) = 0.112251 (equal temperament), of the 11 mm that
 * the board gains. */
static void the_width_at_fret_1_lies_between(void **state)
{
    struct app *app = start(build_record_full, NECK);

    (void)state;
    assert_true(app->now.neck.width_mm.given);
    assert_near(app->now.neck.width_mm.value, 46 + 11 * 0.112251, 1e-4);
    bench_close(app);
}

/* Sugar maple 12 600 MPa in bending at 12 %: Wood Handbook, table 5-3. */
static void the_wood_s_number_stands_in(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, "neck wood = sugar maple\n");
    assert_near(neck_facts_wood(&record, FIELD_NECK_MODULUS).value, 12600, 1);
    assert_false(neck_facts_wood(&record, FIELD_BOARD_MODULUS).given);
    build_record_add(&record, "neck modulus = 9000\n");
    assert_near(neck_facts_wood(&record, FIELD_NECK_MODULUS).value, 9000, 1e-9);
    record_done(&record);
}

/* The picture's own cells: from the first to the last that has a role of the neck. */
static void find_extent(const struct frame *frame, int *ret_rows, int *ret_columns)
{
    int top = frame->rows, bottom = -1, left = frame->columns, right = -1;

    for (int row = 1; row < frame->rows; row++)
        for (int column = 0; column < frame->columns; column++) {
            const struct cell *cell = &frame->cells[row * frame->columns + column];

            if (cell->role != ROLE_NOW || cell->rune < 0x2800 || cell->rune > 0x28FF)
                continue;
            top = row < top ? row : top;
            bottom = row > bottom ? row : bottom;
            left = column < left ? column : left;
            right = column > right ? column : right;
        }
    *ret_rows = bottom - top + 1;
    *ret_columns = right - left + 1;
}

/* Two dots across and four down make a cell, so a neck 47.2 mm wide and 21 mm deep fills
 * cells in the ratio 47.2/2 to 21/4, up to the cell that each edge may touch. */
static void the_section_is_in_proportion(void **state)
{
    struct app *app = start(build_record_full, NECK);
    const double wanted = (46 + 11 * 0.112251) / 2 / (21.0 / 4);

    (void)state;
    for (int rows = 12; rows <= 40; rows += 7) {
        const struct form_area area = {.row = 0, .rows = rows, .column = 0, .width = 120};
        struct frame frame;
        int high, wide;

        assert_int_equal(frame_init(&frame, rows, 120), STATUS_OK);
        section_view_draw(&(struct pen){.frame = &frame, .utf8 = true}, app, &area);
        find_extent(&frame, &high, &wide);
        assert_true(high > 3);
        assert_in_range((uintmax_t)(100 * wanted), (uintmax_t)(100.0 * (wide - 1) / (high + 1)),
                        (uintmax_t)(100.0 * (wide + 1) / (high - 1)));
        frame_done(&frame);
    }
    bench_close(app);
}

static enum figure_id figure_of(struct app *app, enum field_id field)
{
    const struct reading_key key = reading_key_one(field);

    app->at = route_find(&app->route, &key);
    assert_in_range(app->at, 0, app->route.count - 1);
    return app_figure(app);
}

static void every_cell_has_a_figure_to_explain(void **state)
{
    struct app *app = start(build_record_full, NECK STRINGS);

    (void)state;
    for (int i = 0; i < app->route.count; i++) {
        app->at = i;
        assert_in_range(app_figure(app), 0, FIGURE_COUNT_ - 1);
        bench_press(app, "?");
        assert_int_equal(app->overlay, OVERLAY_WHY);
        bench_press(app, "{Esc}");
    }
    assert_int_equal(figure_of(app, FIELD_TAPE_LAYERS), FIGURE_STOP_DEPTH);
    assert_int_equal(figure_of(app, FIELD_BOLT_TORQUE), FIGURE_TENON_SAFETY);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_reading_of_the_neck_has_a_cell),
        cmocka_unit_test(the_form_is_filled_from_the_number_pad),
        cmocka_unit_test(the_next_step_is_named),
        cmocka_unit_test(every_caution_fits),
        cmocka_unit_test(thin_wood_comes_before_the_work),
        cmocka_unit_test(the_width_at_fret_1_lies_between),
        cmocka_unit_test(the_wood_s_number_stands_in),
        cmocka_unit_test(the_section_is_in_proportion),
        cmocka_unit_test(every_cell_has_a_figure_to_explain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
