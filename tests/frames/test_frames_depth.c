/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "course_record.h"
#include "leaf/leaves.h"
#include "scenes.h"
#include "screen/ui.h"
#include "session/refresh.h"

/*
 * A leaf derives no more than it shows (leaf.h). So two sessions are given the same keys, one of
 * them with leaves that derive everything, and show the same screens.
 */
enum { CELLS = 5, ROWS = 43, COLUMNS = 132 };

/* At a cell, and then on to another one. */
static const char *const keys[] = {"5", "?",      "{Right}", "{Esc}", "{Esc}",   ".012",  "{Esc}",
                                   "?", "{Left}", "{Left}",  "{Esc}", "{Right}", "{Down}"};

/* At the end of a leaf: the last cell is passed, something is filed, a pass begins. */
static const char *const last_keys[] = {"{End}",   "{Enter}", "?",     "{Esc}", "{Home}", "5",
                                        "{Enter}", "{Esc}",   "{End}", "p",     ".01",    "{Enter}",
                                        "{Esc}",   "{Esc}",   "u",     "[",     "{Esc}",  "{Esc}"};

struct both {
    struct leaf_row rows[LEAF_COUNT_];
    struct leaves leaves; /* each of which shows everything */
    struct app app, whole;
    const char *name;
    int less; /* how often less was derived */
};

static void show_all(struct both *both)
{
    both->leaves = leaves_all;
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        both->rows[leaf] = *leaves_all.row[leaf];
        both->rows[leaf].shows = DERIVE_FIGURES;
        both->leaves.row[leaf] = &both->rows[leaf];
    }
    both->whole.leaves = &both->leaves;
    app_refresh(&both->whole);
}

static void compare(const struct both *both, const char *key)
{
    const struct app *app = &both->app;
    char row[4 * FRAME_COLUMNS_MAX], want[4 * FRAME_COLUMNS_MAX];
    struct frame shown, whole;

    assert_int_equal(frame_init(&shown, ROWS, COLUMNS), STATUS_OK);
    assert_int_equal(frame_init(&whole, ROWS, COLUMNS), STATUS_OK);
    ui_compose(app, true, &shown);
    ui_compose(&both->whole, true, &whole);
    for (int i = 0; i < ROWS; i++) {
        frame_row_text(&shown, i, row, sizeof row);
        frame_row_text(&whole, i, want, sizeof want);
        if (strcmp(row, want) != 0)
            fail_msg("%s, visit %d, pass %d, leaf %d, cell %d, %s: \"%s\" is not \"%s\"",
                     both->name, app->visit, app->pass, (int)app->leaf, app->at, key, row, want);
    }
    frame_done(&shown);
    frame_done(&whole);
}

static void press(struct both *both, const char *const *some, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        app_refresh(&both->app); /* or what another leaf derived would still be there */
        (void)bench_press(&both->app, some[i]);
        (void)bench_press(&both->whole, some[i]);
        both->less += app_shown(&both->app)->depth < DERIVE_FIGURES;
        compare(both, some[i]);
    }
}

/* Ends both. */
static void use(struct both *both)
{
    static const char *const leaves[] = {"{F1}", "{F2}", "{F3}", "{F4}",
                                         "{F5}", "{F6}", "{F7}", "{F8}"};

    show_all(both);
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        press(both, &leaves[leaf], 1);
        for (int i = 0; i < CELLS; i++)
            press(both, keys, sizeof keys / sizeof keys[0]);
        press(both, last_keys, sizeof last_keys / sizeof last_keys[0]);
    }
    assert_true(both->less > 10 * CELLS);
    app_done(&both->app);
    app_done(&both->whole);
}

static void on_the_demo_profiles(void **state)
{
    static const char *const names[] = {"parlour", "bolt-on", "bass"};
    struct both *both = calloc(1, sizeof *both);

    (void)state;
    assert_non_null(both);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[500];
        struct strbuf text = STRBUF(path);

        strbuf_addf(&text, "%s/%s.ini", SILLET_PROFILES, names[i]);
        scene_profile(&both->app, path, i == 1);
        scene_profile(&both->whole, path, i == 1);
        both->name = names[i];
        use(both);
    }
    free(both);
}

/* Nothing is due, and notes buzz under a hard touch; a neck that needs a reset, read coarsely;
 * pairs of strings. */
static void on_records(void **state)
{
    static const char at_targets[] =
        "targets relief_tolerance = .1 in\ntargets action_tolerance = 9 mm\n"
        "targets nut_gap_tolerance = .1 in\ntargets touch = hard\nboard crown_height = 1.1 mm\n"
        "string.6 note = E2\nstring.6 gauge = .054 in\nstring.6 core = .018 in\n"
        "string.6 build = round-wound\nstring.6 wrap_material = phosphor-bronze\n";
    static const char reset[] =
        "visit.1.pass.1 exposure_bass = .5 mm\nvisit.1.pass.1 exposure_treble = .5 mm\n"
        "model rule_step = 1 mm\n";
    static const char *const lines[][2] = {
        {build_record_full, at_targets}, {build_record_full, reset}, {course_record, ""}};
    struct both *both = calloc(1, sizeof *both);

    (void)state;
    assert_non_null(both);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        char memory[6000];
        struct strbuf text = STRBUF(memory);

        strbuf_addf(&text, "%s%s", lines[i][0], lines[i][1]);
        bench_start(&both->app, memory);
        bench_start(&both->whole, memory);
        both->name = i == 0 ? "at targets" : i == 1 ? "reset" : "courses";
        use(both);
    }
    free(both);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(on_the_demo_profiles),
        cmocka_unit_test(on_records),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
