/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "model/reading/place.h"
#include "seeded.h"
#include "session/app.h"
#include "store/profile/preset.h"
#include "store/profile/profile.h"

/*
 * Normal work is not questioned: the demo instruments' own readings (their profiles are
 * arguments), every preset at its targets and through a set-up, and random set-ups of the kind
 * that come in.
 */

static int path_count;
static char **paths;

static struct app *open_session(const struct record *record, bool metric)
{
    struct app *app = malloc(sizeof *app);
    struct record copy;

    assert_non_null(app);
    assert_int_equal(record_copy(record, &copy), STATUS_OK);
    bench_start_record(app, &copy, metric, false);
    return app;
}

/* Types a text into the cell of a reading and takes it with one Enter. */
static void type_reading(struct app *app, const struct reading_key *key, const char *text,
                         const char *what)
{
    const int at = route_find(&app->route, key);

    if (at < 0)
        return;
    /* As a rule it is the next one on the way. */
    if (app->at > at)
        bench_press(app, "{Home}");
    while (app->at < at && !app_cell(app)->aside && !app->route.cells[at].aside)
        bench_press(app, "{Enter}");
    if (app->at != at)
        bench_press(app, "{Home}{Right}");
    assert_int_equal(app->at, at);
    bench_press(app, text);
    bench_press(app, "{Enter}");
    const char *kept = record_text(&app->record, key);
    if (app->held != HELD_NO || !kept)
        fail_msg("%s: pass %d.%d, %s = %s: %s", what, key->visit, key->part,
                 field_get(key->field)->key, text, app->message);
}

/* --- the demo instruments --- */

/* Everything of the passes up to one, without that one's own readings. */
static void cut_to_pass(const struct record *record, int visit, int pass, struct record *ret_cut)
{
    struct record cut;

    assert_int_equal(record_copy(record, &cut), STATUS_OK);
    for (size_t i = 0; i < record->count; i++) {
        const struct reading_key *key = &record->readings[i].key;
        const bool in_pass = field_get(key->field)->section == SECTION_PASS;

        if (key->visit > visit ||
            (key->visit == visit && in_pass &&
             (key->part > pass || (key->part == pass && key->field != FIELD_PASS_TIME))))
            record_remove(&cut, key);
    }
    *ret_cut = cut;
}

static void retype_pass(const struct record *record, int visit, int pass, bool metric,
                        const char *path)
{
    struct record cut;

    cut_to_pass(record, visit, pass, &cut);
    struct app *app = open_session(&cut, metric);
    assert_int_equal(app->visit, visit);
    assert_int_equal(app->pass, pass);
    for (int at = 0; at < app->route.count; at++) {
        const struct reading_key key = app->route.cells[at].key;
        const char *text = record_text(record, &key);

        if (text)
            type_reading(app, &key, text, path);
    }
    bench_close(app);
    record_done(&cut);
}

static void check_demo(const char *path, bool metric)
{
    struct profile *profile;
    int passes = 0;

    assert_int_equal(profile_open(path, PROFILE_TO_READ, NULL, &profile), STATUS_OK);
    const struct record *record = profile_record(profile);
    struct place place = place_of(record, 0, 0);
    for (; place_next(&place); passes++)
        retype_pass(record, place.visit, place.pass, metric, path);
    assert_true(passes >= 4);
    profile_close(profile);
}

static void no_demo_reading_is_held(void **state)
{
    (void)state;
    assert_true(path_count > 0);
    for (int i = 0; i < path_count; i++) {
        check_demo(paths[i], false);
        check_demo(paths[i], true);
    }
}

/* What is no reading of a pass: scales, woods' sizes, strings, days. */
static void nothing_else_of_a_demo_is_doubted(void **state)
{
    const struct doubt_about about = {.today = "2026-12-31"};

    (void)state;
    for (int i = 0; i < path_count; i++) {
        struct profile *profile;

        assert_int_equal(profile_open(paths[i], PROFILE_TO_READ, NULL, &profile), STATUS_OK);
        const struct record *record = profile_record(profile);
        for (size_t k = 0; k < record->count; k++) {
            const struct reading *reading = &record->readings[k];
            const struct doubt_entry entry = {.text = reading->text, .value = reading->value};

            if (doubt_find(record, &reading->key, &entry, &about).kind != DOUBT_NONE)
                fail_msg("%s: %s = %s", paths[i], field_get(reading->key.field)->key,
                         reading->text);
        }
        profile_close(profile);
    }
}

/* --- set-ups --- */

/* What a pass reads: heights over what is wanted, by string, and what a hand adds. */
struct state {
    double relief_mm, gap_mm[STRINGS_MAX + 1], action_mm[STRINGS_MAX + 1], exposure_mm;
};

static double on_step(double mm, double step_mm)
{
    return round(mm / step_mm) * step_mm;
}

static void type_mm(struct app *app, const struct reading_key *key, double mm, const char *what)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    num_format_fixed(mm, 3, false, &text);
    strbuf_add(&text, " mm");
    type_reading(app, key, memory, what);
}

static void type_state(struct app *app, const struct state *read, const char *what)
{
    const int visit = app->visit, pass = app->pass, strings = app->now.setup.board.strings;
    struct reading_key key = reading_key_pass(FIELD_RELIEF, visit, pass);

    type_mm(app, &key, read->relief_mm, what);
    for (int s = strings; s >= 1; s--) {
        key = reading_key_pass_at(FIELD_NUT_GAP, visit, pass, s, 0);
        if (outfit_asks(&app->now.setup.outfit, FIELD_NUT_GAP, s))
            type_mm(app, &key, read->gap_mm[s], what);
    }
    for (int s = strings; s >= 1; s--) {
        key = reading_key_pass_at(FIELD_ACTION, visit, pass, s, 0);
        if (outfit_asks(&app->now.setup.outfit, FIELD_ACTION, s))
            type_mm(app, &key, read->action_mm[s], what);
    }
    key = reading_key_pass(FIELD_EXPOSURE_BASS, visit, pass);
    type_mm(app, &key, read->exposure_mm, what);
    key = reading_key_pass(FIELD_EXPOSURE_TREBLE, visit, pass);
    type_mm(app, &key, read->exposure_mm - 0.4, what);
}

static struct state at_targets(const struct app *app)
{
    const struct setup *setup = &app->now.setup;
    const int strings = setup->board.strings;
    struct state wanted = {.relief_mm = setup->relief_target_mm.value, .exposure_mm = 4.5};

    for (int s = 1; s <= strings; s++) {
        wanted.gap_mm[s] = assert_given(setup_target_at(
            &setup->gap_target_bass_mm, &setup->gap_target_treble_mm, &setup->outfit, s));
        wanted.action_mm[s] = assert_given(setup_target_at(
            &setup->action_target_bass_mm, &setup->action_target_treble_mm, &setup->outfit, s));
    }
    return wanted;
}

/* What comes in: higher all over, a saddle and a nut that are not quite even, a hand that reads
 * to a step of its gauges. */
static struct state as_found(const struct state *wanted, int strings, struct seeded *seed)
{
    const double nut_high = seeded_between(seed, 0, 0.35),
                 action_high = seeded_between(seed, 0, 1.2);
    struct state found = {.relief_mm =
                              on_step(wanted->relief_mm + seeded_between(seed, -0.1, 0.3), 0.0254),
                          .exposure_mm = 5.5};

    for (int s = 1; s <= strings; s++) {
        const double gap = wanted->gap_mm[s] + nut_high + seeded_between(seed, -0.08, 0.08);
        const double action = wanted->action_mm[s] + action_high + seeded_between(seed, -0.3, 0.3);

        found.gap_mm[s] = on_step(gap < 0.0254 ? 0.0254 : gap, 0.0254);
        found.action_mm[s] = on_step(action < 1 ? 1 : action, 25.4 / 128);
    }
    return found;
}

/* As found, then each reading a part of the way to its target, or a little over it. */
static struct state nearer(const struct state *found, const struct state *wanted, int strings,
                           struct seeded *seed)
{
    const double way = seeded_between(seed, 0, 1.1);
    struct state next = *found;

    next.relief_mm =
        on_step(found->relief_mm + way * (wanted->relief_mm - found->relief_mm), 0.0254);
    for (int s = 1; s <= strings; s++) {
        const double gap = way * (wanted->gap_mm[s] - found->gap_mm[s]);
        const double action = way * (wanted->action_mm[s] - found->action_mm[s]);

        next.gap_mm[s] = on_step(found->gap_mm[s] + gap, 0.0254);
        next.action_mm[s] = on_step(found->action_mm[s] + action, 25.4 / 128);
    }
    next.exposure_mm -= 0.8 * way;
    return next;
}

static void set_up_instrument(const struct record *record, const char *what, struct seeded *seed)
{
    struct app *app = open_session(record, seeded_whole(seed, 0, 1));
    const int strings = app->now.setup.board.strings;
    const struct state wanted = at_targets(app);
    struct state read = as_found(&wanted, strings, seed);

    type_state(app, &read, what);
    for (int pass = 2; pass <= 3; pass++) {
        bench_press(app, "{End}p");
        assert_int_equal(app->pass, pass);
        read = nearer(&read, &wanted, strings, seed);
        type_state(app, &read, what);
    }
    bench_close(app);
}

/* Played with a bar: it has neither gaps nor action. */
static bool is_barred(const struct record *record)
{
    struct outfit outfit;

    outfit_read(&outfit, record, 0);
    return outfit.lap;
}

static void no_preset_is_held_at_its_targets(void **state)
{
    (void)state;
    for (int i = 0; preset_get(i); i++) {
        struct record record;

        assert_int_equal(preset_record(preset_get(i), &record), STATUS_OK);
        if (!is_barred(&record)) {
            struct app *app = open_session(&record, false);
            const struct state wanted = at_targets(app);

            type_state(app, &wanted, preset_get(i)->id);
            bench_close(app);
        }
        record_done(&record);
    }
}

static void no_set_up_is_held(void **state)
{
    struct seeded seed = seeded_start("set-ups");

    (void)state;
    for (int i = 0; preset_get(i); i++)
        for (int round = 0; round < 4; round++) {
            struct record record;

            assert_int_equal(preset_record(preset_get(i), &record), STATUS_OK);
            if (!is_barred(&record))
                set_up_instrument(&record, preset_get(i)->id, &seed);
            record_done(&record);
        }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_demo_reading_is_held),
        cmocka_unit_test(nothing_else_of_a_demo_is_doubted),
        cmocka_unit_test(no_preset_is_held_at_its_targets),
        cmocka_unit_test(no_set_up_is_held),
    };

    path_count = argc - 1;
    paths = argv + 1;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
