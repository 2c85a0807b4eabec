/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>

#ifdef SILLET_HAVE_MALLINFO
#include <malloc.h>
#endif

#include "shelf/shelf_list.h"
#include "bench_session.h"
#include "build_record.h"
#include "seeded.h"
#include "sound.h"
#include "shelf/shelf_view.h"
#include "screen/ui.h"

/*
 * A hundred thousand random keys: from the shelf to an instrument, over all its leaves, and back
 * to the shelf, each followed by the screen. The state is sound throughout, and memory
 * does not grow beyond what a session has to remember. The first argument may give another number
 * of keys.
 */
static int events_wanted = 100000;

enum { SESSION_EVENTS = 500, SHELF_EVENTS = 50, ITEMS = 40 };

/* What malloc keeps for itself of memory that was given back counts as allocated; a sanitizer
 * counts to the byte but for what stdio holds. */
enum { MALLOC_SLACK_BYTES = 32768, SANITIZER_SLACK_BYTES = 8192 };

/* Of the sanitizer, which answers for malloc where it is there. */
size_t __sanitizer_get_current_allocated_bytes(void) __attribute__((weak));

/* Bytes that are allocated now; 0 where nobody can tell. */
static size_t allocated(void)
{
    if (__sanitizer_get_current_allocated_bytes)
        return __sanitizer_get_current_allocated_bytes();
#ifdef SILLET_HAVE_MALLINFO
    return mallinfo2().uordblks;
#else
    return 0;
#endif
}

static void expect_sound(const char *fault, int event)
{
    if (fault)
        fail_msg("event %d: %s", event, fault);
}

/* --- a screen of changing size --- */

struct screen {
    int rows, columns;
    bool utf8;
};

static void change_screen(struct screen *screen, struct seeded *seed)
{
    static const int sizes[][2] = {{24, 80}, {24, 80}, {43, 132}, {30, 100}, {20, 60}, {60, 200}};

    if (seeded_whole(seed, 0, 99) > 0)
        return;
    const int at = seeded_whole(seed, 0, 5);
    *screen = (struct screen){sizes[at][0], sizes[at][1], seeded_whole(seed, 0, 3) > 0};
}

static void check_frame(struct frame *frame, const struct screen *screen, int event)
{
    expect_sound(sound_frame(frame, screen->utf8), event);
    frame_done(frame);
}

/* --- an instrument --- */

static uint32_t session_key(struct seeded *seed)
{
    static const char typed[] = "0123456789012345678901234567890123456789....//++- abm";

    switch (seeded_whole(seed, 0, 9)) {
    case 0:
    case 1:
    case 2:
    case 3:
        return (uint32_t)typed[seeded_whole(seed, 0, sizeof typed - 2)];
    case 4:
    case 5:
        return SILLET_KEY_ENTER;
    case 6:
        return (uint32_t)seeded_whole(seed, 0, 0x2FFF);
    default: {
        const struct command *command =
            command_get((enum command_id)seeded_whole(seed, 0, COMMAND_COUNT_ - 1));

        return command->other_key && seeded_whole(seed, 0, 1) ? command->other_key : command->key;
    }
    }
}

static void play_session(struct app *app, int from, int count, struct screen *screen,
                         struct seeded *seed)
{
    for (int i = from; i < from + count; i++) {
        const struct event event = {.type = EVENT_KEY, .key = session_key(seed)};
        const struct app_effects effects = app_handle(app, &event, &bench_clock);
        struct frame frame;

        if (effects.save)
            app_kept(app, STATUS_OK, &bench_clock, NULL);
        expect_sound(sound_app(app), i);
        change_screen(screen, seed);
        assert_int_equal(frame_init(&frame, screen->rows, screen->columns), STATUS_OK);
        ui_compose(app, screen->utf8, &frame);
        check_frame(&frame, screen, i);
    }
    expect_sound(sound_record(&app->record), from + count);
    expect_sound(sound_figures(app), from + count);
}

/* --- the shelf --- */

static uint32_t shelf_key(struct seeded *seed)
{
    const int id = seeded_whole(seed, 0, SHELF_KEY_COUNT_ * 2);

    return id < SHELF_KEY_COUNT_ ? shelf_key_get((enum shelf_key_id)id)->key
                                 : (uint32_t)seeded_whole(seed, ' ', 'z');
}

static void fill_shelf(struct shelf_list *list)
{
    static const char *const names[] = {"Harbour No. 7", "Long Pier Bass", "Uke", "\xE6\x97\xA5"};
    struct shelf_item *items = shelf_list_room(list, ITEMS);

    assert_non_null(items);
    for (int i = 0; i < ITEMS; i++) {
        const char *name = names[i % 4];

        items[i] = (struct shelf_item){.file = "a.ini",
                                       .card = {.name = name,
                                                .kind = "bass",
                                                .owner = "Marlo",
                                                .maker = "Quayside Fret Works",
                                                .serial = name,
                                                .visit = "2026-03-02"},
                                       .trouble = "",
                                       .marks = (unsigned)i % 16,
                                       .written_s = i};
    }
    shelf_list_take(list);
}

static void play_shelf(struct shelf_list *list, int from, struct screen *screen,
                       struct seeded *seed)
{
    for (int i = from; i < from + SHELF_EVENTS; i++) {
        const struct event event = {.type = EVENT_KEY, .key = shelf_key(seed)};
        struct frame frame;

        if (shelf_list_handle(list, &event).rescan)
            fill_shelf(list);
        expect_sound(sound_shelf(list), i);
        change_screen(screen, seed);
        assert_int_equal(frame_init(&frame, screen->rows, screen->columns), STATUS_OK);
        list->rows = shelf_view_rows(screen->rows);
        shelf_list_scroll(list);
        shelf_view_compose(list, screen->utf8, &frame);
        check_frame(&frame, screen, i);
    }
}

/* --- a long day --- */

static void a_session(struct app *app, int from, struct screen *screen, struct seeded *seed)
{
    struct record record;

    build_record(&record, seeded_whole(seed, 0, 3) > 0 ? build_record_full : "");
    bench_start_record(app, &record, seeded_whole(seed, 0, 1), seeded_whole(seed, 0, 19) == 0);
    app->from_shelf = true;
    play_session(app, from, SESSION_EVENTS, screen, seed);
    expect_sound(sound_undo(app), from + SESSION_EVENTS);
    app_done(app);
}

static size_t slack(void)
{
    return __sanitizer_get_current_allocated_bytes ? SANITIZER_SLACK_BYTES : MALLOC_SLACK_BYTES;
}

/* After every session all that it took is given back. */
static void sessions_leave_nothing_behind(void **state)
{
    static const struct shelf_start presets[] = {{.title = "Steel-string"}, {.title = "Bass"}};
    struct seeded seed = seeded_start("sessions");
    struct screen screen = {24, 80, true};
    struct app *app = malloc(sizeof *app);
    struct shelf_list list;
    size_t early = 0;
    int done = 0;

    (void)state;
    assert_non_null(app);
    shelf_list_init(&list, "/quayside", presets, 2);
    while (done < events_wanted) {
        fill_shelf(&list);
        play_shelf(&list, done, &screen, &seed);
        a_session(app, done + SHELF_EVENTS, &screen, &seed);
        done += SHELF_EVENTS + SESSION_EVENTS;
        if (!early && done >= events_wanted / 10)
            early = allocated();
    }
    print_message("%zu bytes after a tenth of the keys, %zu after %d\n", early, allocated(), done);
    assert_true(allocated() <= early + slack());
    shelf_list_done(&list);
    free(app);
}

/* Readings with their texts, and every change with the texts before and after it. */
static size_t remembered(const struct app *app)
{
    return app->record.capacity * (sizeof(struct reading) + LINEEDIT_MAX) +
           app->undo.capacity * (sizeof(struct undo_change) + 2 * LINEEDIT_MAX);
}

/* One session that is never left remembers its changes, and nothing else. */
static void a_session_grows_by_its_changes_only(void **state)
{
    struct seeded seed = seeded_start("one session");
    struct screen screen = {24, 80, true};
    struct app *app = malloc(sizeof *app);
    const size_t before = allocated();
    struct record record;

    (void)state;
    assert_non_null(app);
    build_record(&record, build_record_full);
    bench_start_record(app, &record, false, false);
    for (int done = 0; done < events_wanted; done += events_wanted / 10)
        play_session(app, done, events_wanted / 10, &screen, &seed);
    print_message("%zu bytes for %zu readings and %zu changes after %d keys\n",
                  allocated() - before, app->record.count, app->undo.count, events_wanted);
    assert_true(allocated() - before <= remembered(app));
    app_done(app);
    free(app);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sessions_leave_nothing_behind),
        cmocka_unit_test(a_session_grows_by_its_changes_only),
    };

    if (argc > 1)
        events_wanted = atoi(argv[1]);
    if (events_wanted < 1000)
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
