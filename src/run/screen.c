/* SPDX-License-Identifier: MIT */
#include "run/screen.h"

#include <time.h>

#include "term/term.h"

bool screen_fit(struct screen *screen)
{
    const struct term_traits traits = term_traits();

    if (screen->frame.cells && screen->frame.rows == traits.rows &&
        screen->frame.columns == traits.columns)
        return true;
    frame_done(&screen->frame);
    return frame_init(&screen->frame, traits.rows, traits.columns) == STATUS_OK;
}

void screen_done(struct screen *screen)
{
    frame_done(&screen->frame);
}

struct app_clock screen_clock(void)
{
    struct app_clock clock = {.date = "1970-01-01", .time = "00:00:00"};
    const time_t now = time(NULL);
    struct tm local;

    if (localtime_r(&now, &local)) {
        (void)strftime(clock.date, sizeof clock.date, "%Y-%m-%d", &local);
        (void)strftime(clock.time, sizeof clock.time, "%H:%M:%S", &local);
    }
    return clock;
}
