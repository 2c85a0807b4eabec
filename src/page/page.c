/* SPDX-License-Identifier: MIT */
#include "page/page.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/array.h"
#include "base/utf8.h"
#include "page/page_inside.h"

const struct page_size page_a4 = {210, 297};
const struct page_size page_letter = {8.5 * 25.4, 11 * 25.4};

static bool point_is_sound(struct page_point point)
{
    return isfinite(point.x_mm) && isfinite(point.y_mm);
}

/* Also false for NaN. */
static bool is_width(double mm)
{
    return mm >= 0 && isfinite(mm);
}

static bool is_grey(double grey)
{
    return grey >= 0 && grey <= 1;
}

enum status page_list_new(struct page_size size, struct page_list **ret_list)
{
    if (!(size.width_mm > 0 && size.height_mm > 0) || !isfinite(size.width_mm) ||
        !isfinite(size.height_mm))
        return STATUS_DOMAIN;
    struct page_list *list = calloc(1, sizeof *list);
    if (!list)
        return STATUS_NO_MEMORY;
    list->size = size;
    *ret_list = list;
    return STATUS_OK;
}

void page_list_free(struct page_list *list)
{
    if (!list)
        return;
    for (size_t i = 0; i < list->count; i++) {
        free(list->items[i].points);
        free(list->items[i].text);
    }
    free(list->items);
    free(list);
}

enum status page_list_status(const struct page_list *list)
{
    return list->status;
}

int page_list_pages(const struct page_list *list)
{
    return list->pages;
}

struct page_size page_list_size(const struct page_list *list)
{
    return list->size;
}

static struct page_point scaled(struct page_point point, double times)
{
    return (struct page_point){point.x_mm * times, point.y_mm * times};
}

static void scale_item(struct page_item *item, double times)
{
    item->at = scaled(item->at, times);
    item->width_mm *= times;
    item->height_mm *= times;
    item->stroke.width_mm *= times;
    item->font.size_mm *= times;
    for (size_t i = 0; i < item->point_count; i++)
        item->points[i] = scaled(item->points[i], times);
}

void page_list_scale(struct page_list *list, double times)
{
    list->size.width_mm *= times;
    list->size.height_mm *= times;
    for (size_t i = 0; i < list->count; i++)
        scale_item(&list->items[i], times);
}

static struct page_point turned(struct page_point point, double width_mm)
{
    return (struct page_point){point.y_mm, width_mm - point.x_mm};
}

/* A box's corner is the one that comes to be at the top left. */
static void turn_item(struct page_item *item, double width_mm)
{
    const bool is_box = item->kind == PAGE_ITEM_FILL || item->kind == PAGE_ITEM_CLIP;

    item->at = turned(item->at, width_mm);
    item->turn_rad += acos(-1) / 2;
    for (size_t i = 0; i < item->point_count; i++)
        item->points[i] = turned(item->points[i], width_mm);
    if (!is_box)
        return;
    item->at.y_mm -= item->width_mm;
    const double height_mm = item->width_mm;
    item->width_mm = item->height_mm;
    item->height_mm = height_mm;
}

void page_list_turn(struct page_list *list)
{
    const struct page_size size = list->size;

    for (size_t i = 0; i < list->count; i++)
        turn_item(&list->items[i], size.width_mm);
    list->size = (struct page_size){size.height_mm, size.width_mm};
}

static void fail(struct page_list *list, enum status status)
{
    if (list->status == STATUS_OK)
        list->status = status;
}

/* Adds an empty item; NULL on failure, which the list then keeps. */
static struct page_item *add(struct page_list *list, enum page_item_kind kind, bool sound)
{
    if (list->status != STATUS_OK)
        return NULL;
    if (!sound || (list->pages == 0 && kind != PAGE_ITEM_BEGIN)) {
        fail(list, STATUS_DOMAIN);
        return NULL;
    }
    struct page_item *items = array_grow(list->items, list->count, &list->capacity, sizeof *items);
    if (!items) {
        fail(list, STATUS_NO_MEMORY);
        return NULL;
    }
    list->items = items;
    items[list->count] = (struct page_item){.kind = kind};
    return &items[list->count++];
}

void page_begin(struct page_list *list)
{
    if (add(list, PAGE_ITEM_BEGIN, list->clips == 0))
        list->pages++;
}

static bool points_are_sound(const struct page_point *points, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!point_is_sound(points[i]))
            return false;
    return count >= 2;
}

static bool stroke_is_sound(const struct page_stroke *stroke)
{
    return is_width(stroke->width_mm) && is_grey(stroke->grey);
}

void page_draw_path(struct page_list *list, const struct page_point *points, size_t count,
                    const struct page_stroke *stroke)
{
    struct page_item *item =
        add(list, PAGE_ITEM_PATH, points_are_sound(points, count) && stroke_is_sound(stroke));
    if (!item)
        return;
    item->points = calloc(count, sizeof *points);
    if (!item->points) {
        fail(list, STATUS_NO_MEMORY);
        return;
    }
    memcpy(item->points, points, count * sizeof *points);
    item->point_count = count;
    item->stroke = *stroke;
}

void page_draw_line(struct page_list *list, struct page_point from, struct page_point to,
                    const struct page_stroke *stroke)
{
    page_draw_path(list, (const struct page_point[]){from, to}, 2, stroke);
}

void page_draw_box(struct page_list *list, struct page_point corner, double width_mm,
                   double height_mm, const struct page_stroke *stroke)
{
    const double x = corner.x_mm, y = corner.y_mm;
    const struct page_point points[] = {
        corner, {x + width_mm, y}, {x + width_mm, y + height_mm}, {x, y + height_mm}, corner};

    page_draw_path(list, points, sizeof points / sizeof points[0], stroke);
}

void page_draw_circle(struct page_list *list, struct page_point centre, double radius_mm,
                      const struct page_stroke *stroke)
{
    struct page_item *item =
        add(list, PAGE_ITEM_CIRCLE,
            point_is_sound(centre) && is_width(radius_mm) && stroke_is_sound(stroke));
    if (!item)
        return;
    item->at = centre;
    item->width_mm = radius_mm;
    item->stroke = *stroke;
}

static struct page_item *add_box(struct page_list *list, enum page_item_kind kind,
                                 struct page_point corner, double width_mm, double height_mm,
                                 double grey)
{
    struct page_item *item =
        add(list, kind,
            point_is_sound(corner) && is_width(width_mm) && is_width(height_mm) && is_grey(grey));
    if (!item)
        return NULL;
    item->at = corner;
    item->width_mm = width_mm;
    item->height_mm = height_mm;
    item->grey = grey;
    return item;
}

void page_fill_box(struct page_list *list, struct page_point corner, double width_mm,
                   double height_mm, double grey)
{
    add_box(list, PAGE_ITEM_FILL, corner, width_mm, height_mm, grey);
}

void page_begin_clip(struct page_list *list, struct page_point corner, double width_mm,
                     double height_mm)
{
    if (add_box(list, PAGE_ITEM_CLIP, corner, width_mm, height_mm, 0))
        list->clips++;
}

void page_end_clip(struct page_list *list)
{
    if (add(list, PAGE_ITEM_CLIP_END, list->clips > 0))
        list->clips--;
}

void page_draw_text(struct page_list *list, struct page_point at, enum page_align align,
                    double turn_rad, const struct page_font *font, const char *utf8)
{
    const size_t length = strlen(utf8);

    if (!utf8_valid(utf8, length)) {
        fail(list, STATUS_SYNTAX);
        return;
    }
    struct page_item *item = add(list, PAGE_ITEM_TEXT,
                                 point_is_sound(at) && isfinite(turn_rad) &&
                                     is_width(font->size_mm) && is_grey(font->grey));
    if (!item)
        return;
    item->text = malloc(length + 1);
    if (!item->text) {
        fail(list, STATUS_NO_MEMORY);
        return;
    }
    memcpy(item->text, utf8, length + 1);
    item->at = at;
    item->align = align;
    item->turn_rad = turn_rad;
    item->font = *font;
}

static struct page_point moved(struct page_point point, struct page_point by)
{
    return (struct page_point){point.x_mm + by.x_mm, point.y_mm + by.y_mm};
}

static void place_path(struct page_list *list, struct page_point at, const struct page_item *item)
{
    struct page_point *points = calloc(item->point_count, sizeof *points);

    if (!points) {
        fail(list, STATUS_NO_MEMORY);
        return;
    }
    for (size_t i = 0; i < item->point_count; i++)
        points[i] = moved(item->points[i], at);
    page_draw_path(list, points, item->point_count, &item->stroke);
    free(points);
}

static void place_item(struct page_list *list, struct page_point at, const struct page_item *item)
{
    const struct page_point corner = moved(item->at, at);

    switch (item->kind) {
    case PAGE_ITEM_PATH:
        place_path(list, at, item);
        break;
    case PAGE_ITEM_CIRCLE:
        page_draw_circle(list, corner, item->width_mm, &item->stroke);
        break;
    case PAGE_ITEM_FILL:
        page_fill_box(list, corner, item->width_mm, item->height_mm, item->grey);
        break;
    case PAGE_ITEM_TEXT:
        page_draw_text(list, corner, item->align, item->turn_rad, &item->font, item->text);
        break;
    case PAGE_ITEM_CLIP:
        page_begin_clip(list, corner, item->width_mm, item->height_mm);
        break;
    case PAGE_ITEM_CLIP_END:
        page_end_clip(list);
        break;
    case PAGE_ITEM_BEGIN:
        break;
    }
}

void page_place(struct page_list *list, struct page_point at, const struct page_list *drawing)
{
    if (drawing->status != STATUS_OK || drawing->pages != 1 || drawing->clips != 0) {
        fail(list, STATUS_DOMAIN);
        return;
    }
    for (size_t i = 0; i < drawing->count; i++)
        place_item(list, at, &drawing->items[i]);
}

double page_text_guess_mm(const struct page_font *font, const char *utf8)
{
    return 0.5 * font->size_mm * utf8_columns(utf8);
}
