/* SPDX-License-Identifier: MIT */
#include "bench_session.h"

#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "build_record.h"
#include "leaf/leaves.h"
#include "near.h"

const struct app_clock bench_clock = {.date = "2026-03-02", .time = "10:42"};

static const struct named_key {
    const char *name;
    uint32_t key;
} named_keys[] = {
    {"Enter", SILLET_KEY_ENTER},
    {"Back", SILLET_KEY_BACKSPACE},
    {"Del", SILLET_KEY_DELETE},
    {"Esc", SILLET_KEY_ESCAPE},
    {"Tab", SILLET_KEY_TAB},
    {"Up", SILLET_KEY_UP},
    {"Down", SILLET_KEY_DOWN},
    {"Left", SILLET_KEY_LEFT},
    {"Right", SILLET_KEY_RIGHT},
    {"Home", SILLET_KEY_HOME},
    {"End", SILLET_KEY_END},
    {"PgUp", SILLET_KEY_PAGE_UP},
    {"PgDn", SILLET_KEY_PAGE_DOWN},
    {"Unknown", SILLET_KEY_UNKNOWN},
    {"ShiftTab", SILLET_KEY_BACKTAB},
    {"Ins", SILLET_KEY_INSERT},
    {"Space", ' '},
};

void bench_start_record(struct app *app, struct record *record, bool metric, bool read_only)
{
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();

    assert_int_equal(app_init(app, &leaves_all, record, metric, &units, read_only), STATUS_OK);
}

void bench_start(struct app *app, const char *lines)
{
    struct record record;

    build_record(&record, lines);
    bench_start_record(app, &record, false, false);
}

static struct app_effects press_one(struct app *app, uint32_t key, const struct app_clock *clock)
{
    const struct event event = {.type = EVENT_KEY, .key = key};

    return app_handle(app, &event, clock);
}

struct app_effects bench_key(struct app *app, uint32_t key)
{
    return press_one(app, key, &bench_clock);
}

static uint32_t find_key(const char *name, size_t length)
{
    if (length == 2 && name[0] == '^')
        return SILLET_KEY_CTRL(name[1]);
    if (length == 2 && name[0] == 'F' && name[1] >= '1' && name[1] <= '9')
        return SILLET_KEY_F1 + (uint32_t)(name[1] - '1');
    for (size_t i = 0; i < sizeof named_keys / sizeof named_keys[0]; i++)
        if (strlen(named_keys[i].name) == length && memcmp(named_keys[i].name, name, length) == 0)
            return named_keys[i].key;
    fail_msg("no key is called %.*s", (int)length, name);
    return SILLET_KEY_NONE;
}

static void join(struct app_effects *all, const struct app_effects *more)
{
    all->save |= more->save;
    all->units |= more->units;
    if (more->paper != PAPER_NONE)
        all->paper = more->paper;
    all->price = more->price > 0 ? more->price : all->price;
    all->repaint |= more->repaint;
    all->suspend |= more->suspend;
    all->quit |= more->quit;
}

struct app_effects bench_press_at(struct app *app, const char *keys, const struct app_clock *clock)
{
    struct app_effects all = {.save = false};

    while (*keys) {
        uint32_t key = SILLET_KEY_NONE;

        if (*keys == '{') {
            const size_t length = strcspn(++keys, "}");
            key = find_key(keys, length);
            keys += length + (keys[length] == '}');
        } else {
            keys += utf8_decode(keys, strlen(keys), &key, NULL);
        }
        const struct app_effects effects = press_one(app, key, clock);
        join(&all, &effects);
    }
    return all;
}

struct app_effects bench_press(struct app *app, const char *keys)
{
    return bench_press_at(app, keys, &bench_clock);
}

const char *bench_text(const struct app *app, const char *line)
{
    char section[64];
    struct reading_key key;
    const char *blank = strchr(line, ' ');

    assert_non_null(blank);
    assert_true((size_t)(blank - line) < sizeof section);
    memcpy(section, line, (size_t)(blank - line));
    section[blank - line] = '\0';
    if (reading_key_parse(section, blank + 1, &key) != STATUS_OK)
        fail_msg("no such field: %s", line);
    return record_text(&app->record, &key);
}

struct app *bench_open(const char *lines, const char *more, enum leaf leaf)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    assert_non_null(app);
    build_record(&record, lines);
    build_record_add(&record, more);
    bench_start_record(app, &record, false, false);
    while (app->leaf != leaf)
        bench_press(app, "{PgDn}");
    return app;
}

void bench_close(struct app *app)
{
    app_done(app);
    free(app);
}

int bench_setup(void **state)
{
    *state = bench_open(build_record_full, "", LEAF_BENCH);
    return 0;
}

int bench_teardown(void **state)
{
    bench_close(*state);
    return 0;
}
