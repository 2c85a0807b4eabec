/* SPDX-License-Identifier: MIT */
#include "leaf/history/picture_trend.h"

#include <math.h>

/* The two ticks are the earliest pass shown and, of those on the last day, the last one. */
static void add_pass(struct picture *picture, int i, double day, double value)
{
    const struct picture_tick tick = {.x = day, .number = i};

    if (picture->tick_count == 0 || day < picture->ticks[0].x)
        picture->ticks[0] = tick;
    if (picture->tick_count == 0 || day >= picture->ticks[1].x)
        picture->ticks[1] = tick;
    picture->tick_count = 2;
    picture_to(picture, day, value);
}

static void add_side(struct picture *picture, const struct history *history, enum history_row row,
                     enum history_side side, enum picture_role role)
{
    bool begun = false;

    for (int i = 0; i < history->count; i++) {
        const struct history_pass *pass = &history->passes[i];

        if (!pass->day.given || !pass->value[row][side].given)
            continue;
        if (!begun)
            picture_begin_line(picture, role)->read = true;
        begun = true;
        add_pass(picture, i, pass->day.value, pass->value[row][side].value);
    }
}

/* Labels the lowest and the highest value; a value that never changed runs through the middle. */
static void add_levels(struct picture *picture, const struct outfit *outfit, enum history_row row,
                       const struct shop_units *units)
{
    const bool flat = !(picture->high.y > picture->low.y);
    struct strbuf high = picture_add_level(picture, picture->high.y);

    history_add(&high, outfit, row, picture->high.y, false, units);
    if (flat) {
        picture->high.y += 1;
        picture->low.y -= 1;
        return;
    }
    struct strbuf low = picture_add_level(picture, picture->low.y);
    history_add(&low, outfit, row, picture->low.y, false, units);
}

bool picture_trend(struct picture *ret_picture, const struct history *history, enum history_row row,
                   int at, const struct shop_units *units)
{
    const struct maybe day = history->passes[at].day;

    picture_begin(ret_picture, (struct picture_point){HUGE_VAL, HUGE_VAL},
                  (struct picture_point){-HUGE_VAL, -HUGE_VAL});
    add_side(ret_picture, history, row, HISTORY_TREBLE, PICTURE_OTHER);
    add_side(ret_picture, history, row, HISTORY_BASS, PICTURE_MAIN);
    if (ret_picture->line_count == 0)
        return false;
    add_levels(ret_picture, &history->outfit, row, units);
    if (day.given && day.value >= ret_picture->low.x && day.value <= ret_picture->high.x)
        picture_segment(ret_picture, PICTURE_POST,
                        (struct picture_point){day.value, ret_picture->low.y},
                        (struct picture_point){day.value, ret_picture->high.y});
    return true;
}
