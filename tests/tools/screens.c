/* SPDX-License-Identifier: MIT */
/*
 * Copies a document and draws its screens again: `screens PROFILES <DOCUMENT`. A screen is
 * between ``` and ``` under a line that says how to get to it from the one before:
 *
 *   <!-- shelf -->              the shelf, with the profiles of the folder PROFILES
 *   <!-- 10:05 {Down}?u -->     these keys (tests/support/bench_session.h) at that time, in
 *                               a session on PROFILES/parlour.ini of 2026-07-06
 */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "model/derive/card.h"
#include "screen/ui.h"
#include "shelf/shelf_view.h"
#include "store/profile/profile.h"

enum { ROWS = 24, COLUMNS = 80, LINE_MAX_ = 4096 };

#define DAY "2026-07-06"

static struct profile *open_profile(const char *folder, const char *name)
{
    char path[LINE_MAX_];
    struct profile *profile;

    snprintf(path, sizeof path, "%s/%s", folder, name);
    const enum status status = profile_open(path, PROFILE_TO_READ, NULL, &profile);
    if (status != STATUS_OK) {
        fprintf(stderr, "screens: %s: %s\n", path, status_text(status));
        exit(1);
    }
    return profile;
}

static void begin(const char *folder, struct app *app)
{
    struct profile *profile = open_profile(folder, "parlour.ini");
    struct record record;

    if (record_copy(profile_record(profile), &record) != STATUS_OK)
        exit(1);
    profile_close(profile);
    bench_start_record(app, &record, false, false);
}

static void print_frame(struct frame *frame)
{
    for (int row = 0; row < frame->rows; row++) {
        char line[4 * COLUMNS + 1];

        frame_row_text(frame, row, line, sizeof line);
        puts(line);
    }
    frame_done(frame);
}

static struct frame new_frame(void)
{
    struct frame frame;

    if (frame_init(&frame, ROWS, COLUMNS) != STATUS_OK)
        exit(1);
    return frame;
}

static void print_session(struct app *app, const char *time, const char *keys)
{
    struct app_clock clock = {.date = DAY};
    struct frame frame = new_frame();

    snprintf(clock.time, sizeof clock.time, "%s", time);
    if (bench_press_at(app, keys, &clock).save)
        app_kept(app, STATUS_OK, &clock, NULL);
    ui_compose(app, true, &frame);
    print_frame(&frame);
}

static void print_shelf(const char *folder)
{
    static const char *const names[] = {"parlour.ini", "bolt-on.ini", "bass.ini"};
    enum { COUNT = sizeof names / sizeof names[0] };
    struct profile *profiles[COUNT];
    struct shelf_list list;
    struct frame frame = new_frame();

    shelf_list_init(&list, "/home/marlo/.local/share/sillet", NULL, 0);
    struct shelf_item *items = shelf_list_room(&list, COUNT);
    if (!items)
        exit(1);
    for (int i = 0; i < COUNT; i++) {
        profiles[i] = open_profile(folder, names[i]);
        items[i] = (struct shelf_item){.file = names[i], .trouble = "", .written_s = COUNT - i};
        card_make(profile_record(profiles[i]), &items[i].card);
    }
    shelf_list_take(&list);
    list.rows = shelf_view_rows(ROWS);
    shelf_list_scroll(&list);
    shelf_view_compose(&list, true, &frame);
    print_frame(&frame);
    shelf_list_done(&list);
    for (int i = 0; i < COUNT; i++)
        profile_close(profiles[i]);
}

/* Passes over the screen that stands there. */
static bool skip_screen(char *line)
{
    if (!fgets(line, LINE_MAX_, stdin) || strcmp(line, "```\n") != 0)
        return false;
    while (fgets(line, LINE_MAX_, stdin))
        if (strcmp(line, "```\n") == 0)
            return true;
    return false;
}

/* "<!-- 10:05 KEYS -->" or "<!-- 10:05 -->". */
static bool read_keys(const char *line, char time[6], char keys[LINE_MAX_])
{
    const char *end = strstr(line, " -->");
    int from = 0;

    if (sscanf(line, "<!-- %5[0-9:]%n", time, &from) != 1 || !end || end < line + from)
        return false;
    while (line[from] == ' ' && line + from < end)
        from++;
    snprintf(keys, LINE_MAX_, "%.*s", (int)(end - line - from), line + from);
    return true;
}

int main(int count, char **words)
{
    static char line[LINE_MAX_], keys[LINE_MAX_];
    static struct app app;
    bool begun = false;
    char time[6];

    if (count != 2) {
        fputs("usage: screens PROFILES <DOCUMENT\n", stderr);
        return 2;
    }
    while (fgets(line, sizeof line, stdin)) {
        const bool shelf = strcmp(line, "<!-- shelf -->\n") == 0;

        fputs(line, stdout);
        if (!shelf && !read_keys(line, time, keys))
            continue;
        puts("```");
        if (!begun && !shelf)
            begin(words[1], &app);
        begun = begun || !shelf;
        if (shelf)
            print_shelf(words[1]);
        else
            print_session(&app, time, keys);
        puts("```");
        if (!skip_screen(line)) {
            fputs("screens: no ``` and ``` under a screen's line\n", stderr);
            return 1;
        }
    }
    if (begun)
        app_done(&app);
    return fflush(stdout) == 0 ? 0 : 1;
}
