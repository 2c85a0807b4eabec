/* SPDX-License-Identifier: MIT */
#include "picture/picture.h"

#include <math.h>
#include <string.h>

void picture_begin(struct picture *picture, struct picture_point low, struct picture_point high)
{
    memset(picture, 0, sizeof *picture);
    picture->low = low;
    picture->high = high;
}

static void reach(struct picture *picture, struct picture_point at)
{
    picture->low = (struct picture_point){fmin(picture->low.x, at.x), fmin(picture->low.y, at.y)};
    picture->high =
        (struct picture_point){fmax(picture->high.x, at.x), fmax(picture->high.y, at.y)};
}

struct picture_line *picture_begin_line(struct picture *picture, enum picture_role role)
{
    if (picture->line_count < PICTURE_LINES_MAX)
        picture->lines[picture->line_count++] =
            (struct picture_line){.role = role, .first = picture->point_count};
    return &picture->lines[picture->line_count - 1];
}

void picture_to(struct picture *picture, double x, double y)
{
    if (picture->point_count == PICTURE_POINTS_MAX || picture->line_count == 0)
        return;
    picture->points[picture->point_count++] = (struct picture_point){x, y};
    picture->lines[picture->line_count - 1].count++;
    reach(picture, (struct picture_point){x, y});
}

void picture_segment(struct picture *picture, enum picture_role role, struct picture_point from,
                     struct picture_point to)
{
    picture_begin_line(picture, role);
    picture_to(picture, from.x, from.y);
    picture_to(picture, to.x, to.y);
}

void picture_add_spot(struct picture *picture, const struct picture_spot *spot, double apart)
{
    for (int i = 0; i < picture->spot_count; i++) {
        const struct picture_point *at = &picture->spots[i].at;

        if (at->x == spot->at.x && fabs(at->y - spot->at.y) < apart) {
            picture->spots[i].strings |= spot->strings;
            return;
        }
    }
    if (picture->spot_count == PICTURE_SPOTS_MAX)
        return;
    picture->spots[picture->spot_count++] = *spot;
    reach(picture, spot->at);
}

struct strbuf picture_add_level(struct picture *picture, double y)
{
    if (picture->level_count < PICTURE_LEVELS_MAX)
        picture->level_count++;
    struct picture_level *level = &picture->levels[picture->level_count - 1];

    level->y = y;
    return STRBUF(level->text);
}

void picture_add_label(struct picture *picture, const struct picture_label *label)
{
    if (picture->label_count < PICTURE_LABELS_MAX)
        picture->labels[picture->label_count++] = *label;
}

bool picture_has(const struct picture *picture, enum picture_role role)
{
    for (int i = 0; i < picture->line_count; i++)
        if (picture->lines[i].role == role)
            return true;
    return false;
}

double picture_across(const struct picture *picture, double x)
{
    const double width = picture->high.x - picture->low.x;

    return width > 0 ? (x - picture->low.x) / width : 0.5;
}

double picture_down(const struct picture *picture, double y)
{
    const double height = picture->high.y - picture->low.y;

    return height > 0 ? (picture->high.y - y) / height : 0.5;
}

double picture_times(const struct picture *picture, double width, double height)
{
    return height / (picture->high.y - picture->low.y) * (picture->high.x - picture->low.x) / width;
}
