/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "session/app.h"
#include "base/utf8.h"
#include "bench_session.h"
#include "build_record.h"
#include "seeded.h"
#include "sound.h"

/*
 * Any keys in any order: after each the session is in a usable state, the record changes only when
 * the session says so, and never by a preview.
 */
enum { EVENTS = 20000 };

static uint32_t random_command_key(struct seeded *seed)
{
    const struct command *command =
        command_get((enum command_id)seeded_whole(seed, 0, COMMAND_COUNT_ - 1));

    const uint32_t keys[] = {command->key, command->other_key, command->letter};

    return keys[seeded_whole(seed, 0, 2)];
}

static uint32_t random_junk_key(struct seeded *seed)
{
    static const uint32_t odd[] = {0,      1,      0x1B,   0x7F,     0x9B,    0xA0,
                                   0x0301, 0x202E, 0xFFFD, 0x10FFFF, 0x1F3B8, SILLET_KEY_UNKNOWN,
                                   0x65E5, ' ',    'm',    'i',      'n',     '"'};

    if (seeded_whole(seed, 0, 1))
        return odd[seeded_whole(seed, 0, sizeof odd / sizeof odd[0] - 1)];
    return (uint32_t)seeded_whole(seed, 0, 0x10FFFF);
}

static uint32_t random_key(struct seeded *seed)
{
    static const char digits[] = "01234567890123456789....//++-";

    switch (seeded_whole(seed, 0, 9)) {
    case 0:
    case 1:
    case 2:
    case 3:
        return (uint32_t)digits[seeded_whole(seed, 0, sizeof digits - 2)];
    case 4:
    case 5:
        return SILLET_KEY_ENTER;
    case 6:
        return random_junk_key(seed);
    default:
        return random_command_key(seed);
    }
}

static struct event random_event(struct seeded *seed)
{
    static const enum event_type rare[] = {EVENT_NONE, EVENT_RESIZE, EVENT_HANGUP, EVENT_RESUME};

    if (seeded_whole(seed, 0, 49) == 0)
        return (struct event){.type = rare[seeded_whole(seed, 0, 3)]};
    return (struct event){.type = EVENT_KEY, .key = random_key(seed)};
}

static void expect_sound(const char *fault)
{
    if (fault)
        fail_msg("%s", fault);
}

/* What a key asks for, on the leaf or in the menu. */
static enum command_id command_of(const struct app *app, uint32_t key)
{
    struct menu menu = app->menu;
    int id = COMMAND_NONE;

    if (app->overlay == OVERLAY_MENU && menu_handle(&menu, key, &id) != MENU_PASSES)
        return (enum command_id)id;
    return command_find(key, app->leaf);
}

static void check_effects(const struct app *app, const struct event *event, enum command_id command,
                          const struct app_effects *effects, const struct record *before,
                          bool read_only)
{
    /* A reading typed once more is saved and changes nothing. */
    assert_true(effects->save || record_equal(&app->record, before));
    assert_false(effects->save && read_only);
    if (effects->quit)
        assert_true(event->type == EVENT_HANGUP || command == COMMAND_QUIT);
    if (effects->units)
        assert_int_equal(command, COMMAND_UNITS);
    if (effects->suspend)
        assert_int_equal(command, COMMAND_SUSPEND);
}

static void play(const char *lines, int events, bool read_only, struct seeded *seed)
{
    struct app *app = malloc(sizeof *app);
    struct record record, before;

    build_record(&record, lines);
    bench_start_record(app, &record, false, read_only);
    assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
    for (int i = 0; i < events; i++) {
        const struct event event = random_event(seed);
        const enum command_id command = command_of(app, event.key);
        const struct app_effects effects = app_handle(app, &event, &bench_clock);

        expect_sound(sound_app(app));
        assert_true(utf8_valid(app->entry.text, app->entry.length));
        check_effects(app, &event, command, &effects, &before, read_only);
        if (effects.save) {
            record_done(&before);
            assert_int_equal(record_copy(&app->record, &before), STATUS_OK);
        }
        if (i % 100 == 0)
            expect_sound(sound_figures(app));
    }
    expect_sound(sound_record(&app->record));
    expect_sound(sound_undo(app));
    record_done(&before);
    app_done(app);
    free(app);
}

static void any_keys_leave_a_state_to_go_on_from(void **state)
{
    struct seeded seed = seeded_start("keys");

    (void)state;
    play(build_record_full, EVENTS, false, &seed);
}

static void any_keys_do_so_on_any_record(void **state)
{
    static const char *const records[] = {
        "",
        "board strings = 1\nboard scale = 25.5 in\nboard frets = 22\nboard join_fret = 16\n",
        "board strings = 12\nboard scale = 25.5 in\nboard frets = 36\nboard join_fret = 16\n",
        "visit.9999.pass.999 relief = .01 in\nboard strings = 6\n",
        "board strings = 6\nvisit.2.pass.3 relief = .01 in\nvisit.5 date = 2020-01-01\n",
    };
    struct seeded seed = seeded_start("keys on odd records");

    (void)state;
    for (size_t i = 0; i < sizeof records / sizeof records[0]; i++)
        play(records[i], EVENTS / 10, false, &seed);
}

static void any_keys_leave_a_read_only_record_alone(void **state)
{
    struct seeded seed = seeded_start("keys, reading only");

    (void)state;
    play(build_record_full, EVENTS / 10, true, &seed);
}

/* Each row of the command table leads somewhere, on the leaf that it is for. */
static void every_command_does_something(void **state)
{
    static const struct app_clock clock = {.date = "2026-03-02", .time = "10:42"};

    (void)state;
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);
        const uint32_t key = command->key && !command->in_menu ? command->key : command->letter;
        const struct event event = {.type = EVENT_KEY, .key = key};
        struct app *app = malloc(sizeof *app);
        struct record record;

        assert_non_null(app);
        build_record(&record, build_record_full);
        bench_start_record(app, &record, false, false);
        while (command->where != ANYWHERE && (int)app->leaf != command->where)
            bench_press(app, "{PgDn}");
        if (command->in_menu || (!command->key && app_takes_letters(app)))
            bench_press(app, "*");
        app_handle(app, &event, &clock);
        if (strstr(app->message, "does nothing here"))
            fail_msg("%s does nothing", command->name);
        app_done(app);
        free(app);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_keys_leave_a_state_to_go_on_from),
        cmocka_unit_test(any_keys_do_so_on_any_record),
        cmocka_unit_test(every_command_does_something),
        cmocka_unit_test(any_keys_leave_a_read_only_record_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
