/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <glob.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "frame_sound.h"
#include "scenes.h"
#include "seeded.h"
#include "screen/ui.h"

enum { ROWS = 60, COLUMNS = 200 };

/* What to do before the screen is composed. */
static const char *const states[] = {
    "",
    "{Down}.0105+8 th",
    "{Down}{Down}12 apples{Enter}",
    "{End}",
    "h",
    "h{Down}{Down}{Down}",
    "{Down}{Down}?",
    "{End}?",
    "p",
    "m{Down}{Down}{Down}",
    /* On to the strings, pitch, frets, then the neck. */
    "{PgDn}ts{Right}.05",
    "{End}",
    "{PgDn}7{Enter}-3",
    "{End}{Left}{Left}",
    "{PgDn}3+5-7{Enter}nn",
    "{End}.002",
    "{PgDn}{Down}6",
    "{End}",
    /* The job list with lines on it, then what it was like before. */
    "{PgDn}d1/4{Enter}aseated a fret with thin cyanoacrylate, then dressed{Enter}2{Enter}",
    "{End}a\xE5\xB2\xB8{Enter}{Left}",
    "{PgDn}{Down}",
    "{Left}{Left}{Down}",
};
enum { STATES = sizeof states / sizeof states[0] };

static void compose(const struct app *app, int rows, int columns, bool utf8)
{
    struct frame frame;

    assert_int_equal(frame_init(&frame, rows, columns), STATUS_OK);
    ui_compose(app, utf8, &frame);
    frame_sound_check(app, &frame, utf8);
    frame_done(&frame);
}

static void compose_all_sizes(struct app *app, struct seeded *seed)
{
    for (int rows = 1; rows <= ROWS; rows += rows < UI_ROWS_MIN - 1 ? 4 : 1)
        for (int columns = seeded_whole(seed, 1, 30); columns <= COLUMNS;
             columns += seeded_whole(seed, 1, 60))
            compose(app, rows, columns, seeded_whole(seed, 0, 1));
    compose(app, 1, 1, true);
    compose(app, UI_ROWS_MIN, UI_COLUMNS_MIN, true);
    compose(app, UI_ROWS_MIN, UI_COLUMNS_MIN, false);
    compose(app, ROWS, COLUMNS, true);
}

/* Ends the session. */
static void compose_in_all_states(struct app *app, struct seeded *seed)
{
    for (int i = 0; i < STATES; i++) {
        bench_press(app, states[i]);
        compose_all_sizes(app, seed);
        bench_press(app, "{Esc}{Esc}{Home}");
    }
    app_done(app);
    free(app);
}

static struct app *new_app(void)
{
    struct app *app = malloc(sizeof *app);

    assert_non_null(app);
    return app;
}

static void demo_profiles_fit_every_size(void **state)
{
    struct seeded seed = seeded_start("demo profiles");
    glob_t profiles;

    (void)state;
    assert_int_equal(glob(SILLET_PROFILES "/*.ini", 0, NULL, &profiles), 0);
    for (size_t i = 0; i < profiles.gl_pathc; i++) {
        struct app *app = new_app();

        scene_profile(app, profiles.gl_pathv[i], false);
        compose_in_all_states(app, &seed);
    }
    globfree(&profiles);
}

static void every_number_of_strings_fits_every_size(void **state)
{
    struct seeded seed = seeded_start("strings");

    (void)state;
    for (int strings = 1; strings <= STRINGS_MAX; strings += strings < 3 ? 1 : 3) {
        struct app *app = new_app();

        scene_strings(app, strings);
        compose_in_all_states(app, &seed);
    }
}

static void odd_records_fit_every_size(void **state)
{
    struct seeded seed = seeded_start("odd records");

    (void)state;
    for (int i = 0; i < scene_odd_count; i++) {
        struct app *app = new_app();

        bench_start(app, scene_odd[i]);
        compose_in_all_states(app, &seed);
    }
}

/* Every single size once. */
static void one_profile_fits_each_size(void **state)
{
    struct app *app = new_app();

    (void)state;
    scene_strings(app, 6);
    for (int rows = 1; rows <= ROWS; rows++)
        for (int columns = 1; columns <= COLUMNS; columns++)
            compose(app, rows, columns, (rows + columns) % 2);
    app_done(app);
    free(app);
}

/* Below the smallest size a sentence says what is needed, as far as it fits. */
static void too_small_says_so(void **state)
{
    static const int sizes[][2] = {{23, 80}, {24, 79}, {1, 40}, {23, 200}, {60, 30}};
    struct app *app = new_app();

    (void)state;
    scene_strings(app, 6);
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        struct frame frame;
        char text[1024];

        assert_int_equal(frame_init(&frame, sizes[i][0], sizes[i][1]), STATUS_OK);
        ui_compose(app, true, &frame);
        frame_row_text(&frame, sizes[i][0] / 2, text, sizeof text);
        assert_non_null(strstr(text, "needs 80x24"));
        frame_done(&frame);
    }
    app_done(app);
    free(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(demo_profiles_fit_every_size),
        cmocka_unit_test(every_number_of_strings_fits_every_size),
        cmocka_unit_test(odd_records_fit_every_size),
        cmocka_unit_test(one_profile_fits_each_size),
        cmocka_unit_test(too_small_says_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
