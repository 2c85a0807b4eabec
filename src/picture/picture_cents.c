/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "picture/pictures.h"
#include "base/num.h"

/* The scale reaches at least this far to either side: less would make hills of nothing. */
static const double least_reach_cents = 5;

/* Readings of several strings closer than this coincide. */
static const double apart_cents = 0.5;

void picture_cents_begin(struct picture *ret_picture, int frets, double tolerance_cents)
{
    const double reach = fmax(least_reach_cents, tolerance_cents);

    picture_begin(ret_picture, (struct picture_point){1, -reach},
                  (struct picture_point){frets, reach});
    ret_picture->has_band = true;
    ret_picture->band_low = -tolerance_cents;
    ret_picture->band_high = tolerance_cents;
}

bool picture_cents_curve(struct picture *picture, enum picture_role role, const struct maybe *cents)
{
    const int points = picture->point_count;
    bool joined = false;

    for (int n = 1; n <= (int)picture->high.x; n++) {
        if (cents[n].given && !joined)
            picture_begin_line(picture, role);
        if (cents[n].given)
            picture_to(picture, n, cents[n].value);
        joined = cents[n].given;
    }
    return picture->point_count > points;
}

void picture_cents_read(struct picture *picture, int string, const struct cents_read *read,
                        int fret)
{
    for (int i = 0; i < read->count; i++) {
        const struct picture_spot spot = {.at = {read->at[i].fret, read->at[i].cents},
                                          .strings = 1U << string,
                                          .in_hand = read->at[i].fret == fret};

        picture_add_spot(picture, &spot, apart_cents);
    }
}

static void add_level(struct picture *picture, double cents)
{
    struct strbuf text = picture_add_level(picture, cents);

    if (cents > 0)
        strbuf_add_char(&text, '+');
    num_format_fixed(cents, 0, false, &text);
}

void picture_cents_end(struct picture *picture, int fret)
{
    picture->low.y = floor(picture->low.y);
    picture->high.y = ceil(picture->high.y);
    add_level(picture, picture->high.y);
    add_level(picture, picture->low.y);
    add_level(picture, 0);
    for (int n = 1; n <= (int)picture->high.x; n++)
        picture->ticks[picture->tick_count++] =
            (struct picture_tick){.x = n, .number = n, .in_hand = n == fret};
}
