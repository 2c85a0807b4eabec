/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "frame_sound.h"
#include "scenes.h"
#include "screen/ui.h"

/* What the bench says beside the readings: of which pass and visit, and that nothing is left out
 * without a word. */

enum { TEXT_MAX = 4 * FRAME_COLUMNS_MAX };

static void compose(const struct app *app, int columns, int rows, struct frame *frame)
{
    assert_int_equal(frame_init(frame, rows, columns), STATUS_OK);
    ui_compose(app, true, frame);
    frame_sound_check(app, frame, true);
}

static bool is_under(const char *text)
{
    return strncmp(text, "   last left", 12) == 0 || strncmp(text, "   believed", 11) == 0 ||
           strncmp(text, "   then", 7) == 0;
}

/* The lines under the readings, one below the other; returns how many there are. */
static int read_under(const struct app *app, char *text, size_t size)
{
    struct frame frame;
    int count = 0;

    text[0] = '\0';
    compose(app, 132, 43, &frame);
    for (int row = 0; row < frame.rows; row++) {
        char line[TEXT_MAX];

        frame_row_text(&frame, row, line, sizeof line);
        if (!is_under(line))
            continue;
        assert_true(strlen(text) + strlen(line) + 2 < size);
        strcat(strcat(text, line), "\n");
        count++;
    }
    frame_done(&frame);
    return count;
}

static struct app *start(const char *more)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    assert_non_null(app);
    build_record(&record, build_record_full);
    build_record_add(&record, more);
    bench_start_record(app, &record, false, false);
    return app;
}

static void end(struct app *app)
{
    app_done(app);
    free(app);
}

static void what_is_typed_changes_no_line(void **state)
{
    static char before[12 * TEXT_MAX], typing[12 * TEXT_MAX], taken[12 * TEXT_MAX];
    struct app *app = malloc(sizeof *app);

    (void)state;
    assert_non_null(app);
    scene_profile(app, SILLET_PROFILES "/parlour.ini", false);
    assert_int_equal(read_under(app, before, sizeof before), 7);
    bench_press(app, ".008");
    assert_true(app->previewing);
    read_under(app, typing, sizeof typing);
    assert_string_equal(typing, before);
    bench_press(app, "{Enter}");
    read_under(app, taken, sizeof taken);
    assert_string_not_equal(taken, before);
    end(app);
}

#define PASS(n, gap, action)                                                                       \
    "visit." n " relief = .006 in\nvisit." n " nut_gap.6 = " gap " in\nvisit." n                   \
    " action.6 = " action "/64 in\n"

/* Of three visits, the one between is the latest that was read, and its second pass its last. */
static const char visits[] = PASS("1.pass.2", ".021",
                                  "7.5") "visit.2 date = 2026-05-18\n" PASS("2.pass.1", ".022", "7")
    PASS("2.pass.2", ".019", "6.5") "visit.2.pass.2 nut_method = held-3\n"
                                    "visit.3 date = 2026-06-01\nvisit.4 date = 2026-07-01\n" PASS(
                                        "4.pass.1", ".023", "8");

static void the_latest_visit_that_was_read_is_the_one_before(void **state)
{
    static char text[12 * TEXT_MAX];
    struct app *app = start(visits);

    (void)state;
    assert_int_equal(app->visit, 4);
    read_under(app, text, sizeof text);
    assert_non_null(strstr(text, "   last left      .019"));
    assert_non_null(strstr(text, "held, visit 2, 2026-05-18"));
    assert_non_null(strstr(text, "   last left       6.5"));
    assert_null(strstr(text, ".021"));
    assert_null(strstr(text, "visit 3"));
    while (app->visit > 1)
        bench_press(app, "<");
    read_under(app, text, sizeof text);
    assert_null(strstr(text, "last left"));
    end(app);
}

static void gaps_read_held_say_so(void **state)
{
    static char text[12 * TEXT_MAX];
    struct app *app = start("");

    (void)state;
    read_under(app, text, sizeof text);
    assert_null(strstr(text, "held"));
    end(app);
    app = start("visit.1.pass.1 nut_method = held-3\n");
    read_under(app, text, sizeof text);
    assert_non_null(strstr(text, "held, after"));
    assert_non_null(strstr(text, "held, \xC2\xB1"));
    assert_non_null(strstr(app->moves[MOVE_SLOTS].then, " held"));
    end(app);
}

/* Each move that is due says at 80x24 what comes of it, or where that is said. */
static void check_told(const struct app *app, const char *what)
{
    struct frame frame;
    int due = 0, told = 0;
    bool moves = false;

    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        due += app->now.moves.move[kind].state == MOVE_DUE;
    compose(app, 80, 24, &frame);
    for (int row = 0; row < frame.rows; row++) {
        char line[TEXT_MAX];

        frame_row_text(&frame, row, line, sizeof line);
        moves = moves || strstr(line, " next moves ");
        told += moves && (strstr(line, "then ") || strstr(line, "more on Work: F7"));
    }
    frame_done(&frame);
    if (told < due)
        fail_msg("%s: %d moves are due, and %d say what comes of them", what, due, told);
}

static void every_due_move_says_what_comes_of_it(void **state)
{
    static const char *const profiles[] = {SILLET_PROFILES "/parlour.ini",
                                           SILLET_PROFILES "/bolt-on.ini",
                                           SILLET_PROFILES "/bass.ini"};
    struct app *app = malloc(sizeof *app);

    (void)state;
    assert_non_null(app);
    for (int i = 0; i < 6; i++) {
        scene_profile(app, profiles[i / 2], i % 2);
        check_told(app, profiles[i / 2]);
        app_done(app);
    }
    for (int strings = 1; strings <= STRINGS_MAX; strings++) {
        char what[20];

        snprintf(what, sizeof what, "%d strings", strings);
        scene_strings(app, strings);
        check_told(app, what);
        app_done(app);
    }
    free(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_typed_changes_no_line),
        cmocka_unit_test(the_latest_visit_that_was_read_is_the_one_before),
        cmocka_unit_test(gaps_read_held_say_so),
        cmocka_unit_test(every_due_move_says_what_comes_of_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
