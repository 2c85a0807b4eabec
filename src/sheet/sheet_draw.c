/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_draw.h"

#include <math.h>
#include <string.h>

enum {
    SIDE_VIEW_MM = 27,
    CENTS_MM = 30,
    CENTS_LEAST_MM = 24,
    MAP_HEAD_MM = 10, /* fret numbers and key */
};

static const double crown_mm = 1;   /* height of a crown as drawn, not to scale */
static const double nut_mm = 1.6;   /* length of the nut as drawn, not to scale */
static const double spot_mm = 0.75; /* a reading's circle */

const struct page_font sheet_label_font = {.size_mm = 2.4, .weight = PAGE_PLAIN, .grey = 0.35};

static const struct page_stroke board_stroke = {0.2, PAGE_LINE_SOLID, 0.55};
static const struct page_stroke crown_stroke = {0.35, PAGE_LINE_SOLID, 0.3};
static const struct page_stroke level_stroke = {0.15, PAGE_LINE_SOLID, 0.5};
static const struct page_stroke spot_stroke = {0.3, PAGE_LINE_SOLID, 0};

/* The margins of a picture in its area, for labels beside and below it; the height of the
 * fret numbers over its lower edge; its lines. */
struct layout {
    double left_mm, right_mm, top_mm, below_mm, ticks_mm;
    struct page_stroke main, other;
};

static const struct layout layouts[] = {
    [SHEET_SIDE_VIEW] =
        {7, 2, 0, 7, 0.8, {0.3, PAGE_LINE_SOLID, 0}, {0.25, PAGE_LINE_DASHED, 0.25}},
    [SHEET_CENTS_CURVE] =
        {9, 4, 1, 5, 0.5, {0.25, PAGE_LINE_SOLID, 0.3}, {0.25, PAGE_LINE_DASHED, 0.3}},
};

struct plot {
    struct page_list *list;
    const struct picture *picture;
    const struct layout *layout;
    struct sheet_area room; /* the area without the margins */
};

static struct sheet_area room_in(const struct sheet_area *area, const struct layout *layout)
{
    return (struct sheet_area){
        .corner = {area->corner.x_mm + layout->left_mm, area->corner.y_mm + layout->top_mm},
        .width_mm = area->width_mm - layout->left_mm - layout->right_mm,
        .height_mm = area->height_mm - layout->top_mm - layout->below_mm};
}

static struct page_point place(const struct plot *plot, double x, double y)
{
    return (struct page_point){
        plot->room.corner.x_mm + plot->room.width_mm * picture_across(plot->picture, x),
        plot->room.corner.y_mm + plot->room.height_mm * picture_down(plot->picture, y)};
}

static void draw_text(const struct plot *plot, double x_mm, double y_mm, enum page_align align,
                      const char *text)
{
    page_draw_text(plot->list, (struct page_point){x_mm, y_mm}, align, 0, &sheet_label_font, text);
}

static void draw_band(const struct plot *plot)
{
    const struct page_point top = place(plot, plot->picture->low.x, plot->picture->band_high);
    const struct page_point bottom = place(plot, plot->picture->low.x, plot->picture->band_low);

    page_fill_box(plot->list, top, plot->room.width_mm, bottom.y_mm - top.y_mm, 0.92);
}

static void draw_level(const struct plot *plot, const struct picture_level *level)
{
    const struct page_point from = place(plot, plot->picture->low.x, level->y);
    const struct page_point to = place(plot, plot->picture->high.x, level->y);

    page_draw_line(plot->list, from, to, &level_stroke);
    draw_text(plot, from.x_mm - 2, from.y_mm + 0.8, PAGE_RIGHT, level->text);
}

/* Also draws the board's face, a crown's height below the crowns. */
static void draw_crowns(const struct plot *plot, struct page_point *points, int count)
{
    for (int n = 0; n < count; n++) {
        const struct page_point foot = {points[n].x_mm, points[n].y_mm + crown_mm};

        if (n > 0)
            page_draw_line(plot->list, points[n], foot, &crown_stroke);
        points[n] = foot;
    }
    page_draw_path(plot->list, points, (size_t)count, &board_stroke);
}

static void draw_nut(const struct plot *plot, struct page_point foot, struct page_point top)
{
    const double face_mm = foot.y_mm + crown_mm;

    if (face_mm > top.y_mm)
        page_fill_box(plot->list, (struct page_point){foot.x_mm - nut_mm, top.y_mm}, nut_mm,
                      face_mm - top.y_mm, 0.8);
    draw_text(plot, foot.x_mm - 2.2, face_mm, PAGE_RIGHT, "nut");
}

static void draw_line(const struct plot *plot, const struct picture_line *line)
{
    struct page_point points[PICTURE_POINTS_MAX];

    for (int i = 0; i < line->count; i++) {
        const struct picture_point *at = &plot->picture->points[line->first + i];

        points[i] = place(plot, at->x, at->y);
    }
    if (line->role == PICTURE_CROWN)
        draw_crowns(plot, points, line->count);
    else if (line->role == PICTURE_NUT)
        draw_nut(plot, points[0], points[1]);
    else if (line->count > 1)
        page_draw_path(plot->list, points, (size_t)line->count,
                       line->role == PICTURE_MAIN ? &plot->layout->main : &plot->layout->other);
}

/* For circles above each other the strings' names alternate between left and right. */
static void draw_spot(const struct plot *plot, int i)
{
    const struct picture_spot *spot = &plot->picture->spots[i];
    const struct page_point at = place(plot, spot->at.x, spot->at.y);
    char memory[48];
    struct strbuf text = STRBUF(memory);
    bool left = false;

    for (int k = 0; k < i; k++)
        left ^= plot->picture->spots[k].at.x == spot->at.x;
    for (int s = STRINGS_MAX; s >= 1; s--)
        if (spot->strings >> s & 1)
            strbuf_addf(&text, "%s%d", text.length > 0 ? " " : "", s);
    page_draw_circle(plot->list, at, spot_mm, &spot_stroke);
    draw_text(plot, at.x_mm + (left ? -1.6 : 1.6), at.y_mm + 0.8, left ? PAGE_RIGHT : PAGE_LEFT,
              memory);
}

static bool is_word(const struct picture_label *label)
{
    return label->word[1] != '\0';
}

/* Whether another word would stand on this one, or under it: then the lower one goes below its
 * line. */
static bool goes_below(const struct plot *plot, const struct picture_label *label)
{
    const double y_mm = place(plot, label->at.x, label->at.y).y_mm;

    for (int i = 0; i < plot->picture->label_count; i++) {
        const struct picture_label *other = &plot->picture->labels[i];
        const double over_mm = y_mm - place(plot, other->at.x, other->at.y).y_mm;

        if (other != label && is_word(other) && over_mm < 2 * sheet_label_font.size_mm &&
            (over_mm > 0 || (over_mm == 0 && other < label)))
            return true;
    }
    return false;
}

/* A word stands clear over the end of its line, a letter on it, a crown's mark over it. */
static void draw_label(const struct plot *plot, const struct picture_label *label)
{
    const struct page_point at = place(plot, label->at.x, label->at.y);

    if (is_word(label))
        draw_text(plot, at.x_mm, at.y_mm + (goes_below(plot, label) ? 2.8 : -0.8), PAGE_RIGHT,
                  label->word);
    else
        draw_text(plot, at.x_mm, at.y_mm + (label->role == PICTURE_CROWN ? 0 : 0.8), PAGE_CENTRE,
                  label->word);
}

/* A fret's word stands over its number, right of the word before it. */
static void draw_tick_word(const struct plot *plot, double x_mm, double y_mm, const char *word,
                           double *free_from_mm)
{
    const double half_mm = 0.3 * sheet_label_font.size_mm * (double)strlen(word);
    const double at_mm = fmax(x_mm, *free_from_mm + half_mm);

    draw_text(plot, at_mm, y_mm - 1.1 * sheet_label_font.size_mm, PAGE_CENTRE, word);
    *free_from_mm = at_mm + half_mm + 1;
}

static void draw_ticks(const struct plot *plot, double y_mm)
{
    double free_from_mm = 0, word_from_mm = 0;

    for (int i = 0; i < plot->picture->tick_count; i++) {
        const struct picture_tick *tick = &plot->picture->ticks[i];
        const double x_mm = place(plot, tick->x, 0).x_mm;

        sheet_draw_fret(plot->list, x_mm, y_mm, tick->number, &free_from_mm);
        if (tick->word)
            draw_tick_word(plot, x_mm, y_mm, tick->word, &word_from_mm);
    }
}

void sheet_draw_picture(struct page_list *list, const struct sheet *sheet,
                        enum sheet_drawing drawing, const struct sheet_area *area)
{
    const struct picture *picture = &sheet->picture[drawing];
    const struct plot plot = {.list = list,
                              .picture = picture,
                              .layout = &layouts[drawing],
                              .room = room_in(area, &layouts[drawing])};

    if (picture->has_band)
        draw_band(&plot);
    for (int i = 0; i < picture->level_count; i++)
        draw_level(&plot, &picture->levels[i]);
    for (int i = 0; i < picture->line_count; i++)
        draw_line(&plot, &picture->lines[i]);
    for (int i = 0; i < picture->spot_count; i++)
        draw_spot(&plot, i);
    for (int i = 0; i < picture->label_count; i++)
        draw_label(&plot, &picture->labels[i]);
    draw_ticks(&plot, area->corner.y_mm + area->height_mm - plot.layout->ticks_mm);
}

double sheet_draw_height_mm(const struct sheet *sheet, enum sheet_drawing drawing, double width_mm)
{
    const double cents_share = 0.28; /* of the width: a small curve need not be steep */

    switch (drawing) {
    case SHEET_SIDE_VIEW:
        return SIDE_VIEW_MM;
    case SHEET_CENTS_CURVE:
        return fmin(CENTS_MM, fmax(CENTS_LEAST_MM, cents_share * width_mm));
    case SHEET_HEADROOM_MAP:
        return MAP_HEAD_MM + SHEET_MAP_ROW_MM * sheet->frets.strings;
    }
    return 0;
}

double sheet_side_view_times(const struct picture *side, const struct sheet_area *area)
{
    const struct sheet_area room = room_in(area, &layouts[SHEET_SIDE_VIEW]);

    return picture_times(side, room.width_mm, room.height_mm);
}

void sheet_draw_fret(struct page_list *list, double x_mm, double y_mm, int fret,
                     double *free_from_mm)
{
    /* Two digits and a blank, in the font for labels. */
    const double half_mm = fret > 9 ? 1.6 : 0.9;
    char memory[8];
    struct strbuf text = STRBUF(memory);

    if (x_mm - half_mm < *free_from_mm)
        return;
    strbuf_addf(&text, "%d", fret);
    page_draw_text(list, (struct page_point){x_mm, y_mm}, PAGE_CENTRE, 0, &sheet_label_font,
                   memory);
    *free_from_mm = x_mm + half_mm + 1;
}
