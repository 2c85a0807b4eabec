/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "frame_sound.h"
#include "golden.h"
#include "scenes.h"
#include "screen/ui.h"

/*
 * Every leaf in every size and look: the demo profiles against kept screens, and records that no
 * shop would have against the invariants of every screen.
 */

struct size {
    const char *profile; /* whose screens are kept in this size */
    int columns, rows;
};

static const struct size sizes[] = {
    {SILLET_PROFILES "/parlour.ini", 80, 24},
    {SILLET_PROFILES "/bolt-on.ini", 100, 30},
    {SILLET_PROFILES "/bass.ini", 132, 43},
};
enum { SIZES = sizeof sizes / sizeof sizes[0], LOOKS = 2 };

static void compose(const struct app *app, const struct size *size, bool utf8, struct frame *frame)
{
    assert_int_equal(frame_init(frame, size->rows, size->columns), STATUS_OK);
    ui_compose(app, utf8, frame);
    frame_sound_check(app, frame, utf8);
}

static void turn_to(struct app *app, enum leaf leaf)
{
    while (app->leaf != leaf)
        bench_press(app, "{PgDn}");
}

/* "history-100x30-ascii" */
static void name_scene(enum leaf leaf, const struct size *size, bool utf8, char *name, size_t max)
{
    snprintf(name, max, "%s-%dx%d%s", leaf_name(leaf), size->columns, size->rows,
             utf8 ? "" : "-ascii");
    if (name[0] >= 'A' && name[0] <= 'Z')
        name[0] = (char)(name[0] - 'A' + 'a');
}

static struct app *new_app(void)
{
    struct app *app = malloc(sizeof *app);

    assert_non_null(app);
    return app;
}

static void end(struct app *app)
{
    app_done(app);
    free(app);
}

/* --- kept screens --- */

struct scene {
    enum leaf leaf;
    const struct size *size;
    bool utf8, metric;
    char name[40];
};

static void check_kept(void **state)
{
    const struct scene *scene = *state;
    struct app *app = new_app();
    struct frame frame;

    scene_profile(app, scene->size->profile, scene->metric);
    turn_to(app, scene->leaf);
    compose(app, scene->size, scene->utf8, &frame);
    frame_sound_check_leaf(app, &frame, scene->name);
    golden_check(&frame, scene->name);
    frame_done(&frame);
    end(app);
}

/* --- odd records --- */

static void check_looks(struct app *app, enum leaf leaf, const char *what, const char *words)
{
    for (int i = 0; i < SIZES * LOOKS; i++) {
        const struct size *size = &sizes[i / LOOKS];
        const bool utf8 = i % LOOKS == 0;
        struct frame frame;
        char name[40], where[100];

        name_scene(leaf, size, utf8, name, sizeof name);
        snprintf(where, sizeof where, "%s, %s", what, name);
        compose(app, size, utf8, &frame);
        frame_sound_check_leaf(app, &frame, where);
        if (words && !scene_shows(&frame, words))
            fail_msg("%s: does not name the leaf to go on with", where);
        frame_done(&frame);
    }
}

/* `words`: what every leaf has to show, NULL for nothing in particular. */
static void check_leaves(struct app *app, const char *what, const char *words)
{
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        turn_to(app, (enum leaf)leaf);
        check_looks(app, (enum leaf)leaf, what, words);
    }
    end(app);
}

static void odd_records_leave_leaves_whole(void **state)
{
    (void)state;
    for (int i = 0; i < scene_odd_count; i++) {
        struct app *app = new_app();
        char what[40];

        snprintf(what, sizeof what, "odd record %d", i);
        bench_start(app, scene_odd[i]);
        check_leaves(app, what, NULL);
    }
}

static void every_number_of_strings_leaves_leaves_whole(void **state)
{
    (void)state;
    for (int strings = 1; strings <= STRINGS_MAX; strings++) {
        struct app *app = new_app();
        char what[40];

        snprintf(what, sizeof what, "%d strings", strings);
        scene_strings(app, strings);
        check_leaves(app, what, NULL);
    }
}

/* As a profile of a newer format is opened. */
static void a_profile_only_read_leaves_leaves_whole(void **state)
{
    struct app *app = new_app();
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    bench_start_record(app, &record, false, true);
    check_leaves(app, "only read", NULL);
}

/* With nothing in the record yet the cells to begin with, or the leaf that has them, show. */
static void an_empty_record_says_where_to_begin(void **state)
{
    static const char *const words[LEAF_COUNT_] = {
        [LEAF_INTAKE] = "scale", [LEAF_BENCH] = "Intake",  [LEAF_STRINGS] = "Intake",
        [LEAF_PITCH] = "Intake", [LEAF_FRETS] = "Intake",  [LEAF_NECK] = "next:",
        [LEAF_WORK] = "Bench",   [LEAF_HISTORY] = "Bench",
    };

    (void)state;
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        struct app *app = new_app();

        bench_start(app, "");
        turn_to(app, (enum leaf)leaf);
        check_looks(app, (enum leaf)leaf, "empty record", words[leaf]);
        end(app);
    }
}

/* Every leaf in every size and look, and in the smallest once more as a metric shop sees it. */
enum { KEPT_INCH = LEAF_COUNT_ * SIZES * LOOKS, KEPT = KEPT_INCH + LEAF_COUNT_ };

static void set_scene(struct scene *scene, int i)
{
    if (i < KEPT_INCH) {
        *scene = (struct scene){.leaf = (enum leaf)(i / (SIZES * LOOKS)),
                                .size = &sizes[i / LOOKS % SIZES],
                                .utf8 = i % LOOKS == 0};
        name_scene(scene->leaf, scene->size, scene->utf8, scene->name, sizeof scene->name);
        return;
    }
    *scene = (struct scene){
        .leaf = (enum leaf)(i - KEPT_INCH), .size = &sizes[0], .utf8 = true, .metric = true};
    name_scene(scene->leaf, scene->size, true, scene->name, sizeof scene->name);
    strncat(scene->name, "-metric", sizeof scene->name - strlen(scene->name) - 1);
}

int main(void)
{
    static struct scene scenes[KEPT];
    struct CMUnitTest kept[KEPT];
    const struct CMUnitTest odd[] = {
        cmocka_unit_test(odd_records_leave_leaves_whole),
        cmocka_unit_test(every_number_of_strings_leaves_leaves_whole),
        cmocka_unit_test(a_profile_only_read_leaves_leaves_whole),
        cmocka_unit_test(an_empty_record_says_where_to_begin),
    };

    for (int i = 0; i < KEPT; i++) {
        struct scene *scene = &scenes[i];

        set_scene(scene, i);
        kept[i] = (struct CMUnitTest){
            .name = scene->name, .test_func = check_kept, .initial_state = scene};
    }
    const int failed = _cmocka_run_group_tests("kept leaves", kept, KEPT, NULL, NULL);
    return failed + cmocka_run_group_tests_name("odd leaves", odd, NULL, NULL) ? 1 : 0;
}
