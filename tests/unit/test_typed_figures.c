/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>

#include "demo/demo_shop.h"
#include "store/profile/preset.h"
#include "bench_session.h"
#include "build_record.h"
#include "course_record.h"
#include "seeded.h"
#include "sound.h"

/*
 * While a reading is typed, and once it is filed, what is shown is what all of the record, with it,
 * gives when derived anew: whatever the cell, and whatever was read, done and changed before.
 */
enum { ENTRIES = 60 };

/* Something that a tech could type, in some cell or other. */
static const char *const typed[] = {".0",  ".012", ".02", "5",   "4.5",  "7",    "9/64", "3 5",
                                    "0 3", "-4",   "6",   "1/4", "-1/8", "held", "24.7", ".021",
                                    "E2",  "2.4",  "1.5", "14",  "7 8",  "45",   "65 in"};

static void press(struct app *app, uint32_t key)
{
    const struct event event = {.type = EVENT_KEY, .key = key};
    const struct app_effects effects = app_handle(app, &event, &bench_clock);

    if (effects.save)
        app_kept(app, STATUS_OK, &bench_clock, NULL);
}

static void expect_sound(struct app *app, const char *where, int entry)
{
    const char *fault = sound_figures(app);

    if (fault)
        fail_msg("%s, entry %d: visit %d, pass %d, leaf %d, cell %d, \"%s\": %s", where, entry,
                 app->visit, app->pass, (int)app->leaf, app->at, app->entry.text, fault);
}

static void type(struct app *app, const char *text, const char *where, int entry)
{
    for (; *text; text++) {
        press(app, (unsigned char)*text);
        expect_sound(app, where, entry);
    }
}

/* On to some cell: of some leaf, and now and then of another pass or visit. */
static void go_somewhere(struct app *app, struct seeded *seed)
{
    static const char *const ways[] = {"{Down}", "{Up}", "{Right}", "{Left}", "{Home}", "{End}"};
    const int chance = seeded_whole(seed, 0, 19);

    if (chance < 8)
        press(app, SILLET_KEY_F1 + (uint32_t)seeded_whole(seed, 0, LEAF_COUNT_ - 2));
    else if (chance < 10)
        press(app, 'p');
    else if (chance < 11)
        press(app, 'v');
    else if (chance < 13)
        press(app, 'u');
    else if (chance < 14)
        press(app, '[');
    else if (chance < 16)
        press(app, SILLET_KEY_DELETE);
    for (int steps = seeded_whole(seed, 0, 12); steps > 0; steps--)
        (void)bench_press(app, ways[seeded_whole(seed, 0, 5)]);
}

/* Returns how many of the entries were previewed. */
static int use(struct record *record, const char *where, struct seeded *seed)
{
    struct app *app = malloc(sizeof *app);
    int previewed = 0;

    assert_non_null(app);
    bench_start_record(app, record, false, false);
    for (int i = 0; i < ENTRIES; i++) {
        go_somewhere(app, seed);
        expect_sound(app, where, i);
        type(app, typed[seeded_whole(seed, 0, sizeof typed / sizeof typed[0] - 1)], where, i);
        previewed += app->previewing;
        if (seeded_whole(seed, 0, 3) > 0)
            press(app, SILLET_KEY_ENTER);
        expect_sound(app, where, i);
        for (int k = 0; k < 2 && app_is_typing(app); k++) /* refused, or to be dropped */
            press(app, SILLET_KEY_ESCAPE);
        expect_sound(app, where, i);
    }
    app_done(app);
    free(app);
    return previewed;
}

static void on_records_of_all_kinds(void **state)
{
    static const char *const records[] = {build_record_full, course_record};
    struct seeded seed = seeded_start("typed figures");
    struct record record;
    int previewed = 0;

    (void)state;
    for (int round = 0; round < 3; round++)
        for (int i = 0; i < 2; i++) {
            build_record(&record, records[i]);
            previewed += use(&record, i == 0 ? "six strings" : "courses", &seed);
        }
    assert_true(previewed > ENTRIES / 4);
}

static void start_of(const char *id, struct record *ret_record)
{
    const struct preset *preset = preset_find(id);

    assert_non_null(preset);
    assert_int_equal(preset_record(preset, ret_record), STATUS_OK);
}

/* Three years of visits: seasons, turns of rods, notes that buzz. */
static void on_instruments_with_a_past(void **state)
{
    const struct demo_wish wish = {.seed = 3, .last_day = 740000};
    struct seeded seed = seeded_start("typed figures of a shop");
    struct record start, record;
    int previewed = 0;

    (void)state;
    for (int i = 0; demo_shop_preset(i); i += 3) {
        start_of(demo_shop_preset(i), &start);
        assert_int_equal(demo_shop_make(i, &wish, &start, &record), STATUS_OK);
        previewed += use(&record, demo_shop_name(i), &seed);
        record_done(&start);
    }
    assert_true(previewed > ENTRIES / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(on_records_of_all_kinds),
        cmocka_unit_test(on_instruments_with_a_past),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
