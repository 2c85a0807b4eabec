/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_list.h"

#include <stdlib.h>
#include <string.h>

#include "model/reading/moment.h"

enum { ROWS_UNTIL_SHOWN = 18 };

void shelf_list_init(struct shelf_list *list, const char *folder, const struct shelf_start *presets,
                     int preset_count)
{
    *list = (struct shelf_list){
        .folder = folder,
        .starts = {.built_in = presets, .built_in_count = preset_count},
        .ground = {.units = shop_units_inch()},
        .rows = ROWS_UNTIL_SHOWN,
    };
}

static bool has_room(const struct shelf_list *list)
{
    return list->items && list->order && list->found && list->matches;
}

static void drop_items(struct shelf_list *list)
{
    free(list->items);
    free(list->order);
    free(list->found);
    free(list->matches);
    shelf_search_done(&list->search);
}

void shelf_list_done(struct shelf_list *list)
{
    drop_items(list);
    *list = (struct shelf_list){.items = NULL};
}

struct shelf_item *shelf_list_room(struct shelf_list *list, size_t count)
{
    list->count = list->found_count = list->unread = list->glanced = 0;
    list->moved = false;
    list->starts.found_count = 0;
    if (count > list->capacity || !list->items) {
        drop_items(list);
        list->items = calloc(count + 1, sizeof *list->items);
        list->order = calloc(count + 1, sizeof *list->order);
        list->found = calloc(count + 1, sizeof *list->found);
        list->matches = calloc(count + 1, sizeof *list->matches);
        list->capacity = has_room(list) ? count : 0;
    }
    if (count > list->capacity || !has_room(list))
        return NULL;
    list->count = count;
    return list->items;
}

/* The day of the last visit, or if there is none or it is not read yet, the day of the file. */
static double day_of(const struct shelf_item *item)
{
    enum { SECONDS_PER_DAY = 86400, DAY_1970 = 719468 }; /* days as in moment.h */
    const struct maybe last = item->facts->number[FACT_LAST_DAY];

    /* The last visit may have no date. */
    return maybe_or(last.given ? last : moment_find(item->card.visit, NULL),
                    DAY_1970 + (double)(item->written_s / SECONDS_PER_DAY));
}

static int compare_items(const void *first, const void *second)
{
    const struct shelf_item *a = *(const struct shelf_item *const *)first;
    const struct shelf_item *b = *(const struct shelf_item *const *)second;
    const double day_a = a->day, day_b = b->day;

    if (day_a < day_b || day_a > day_b)
        return day_a > day_b ? -1 : 1;
    if (a->written_s != b->written_s)
        return a->written_s > b->written_s ? -1 : 1;
    return strcmp(a->file, b->file);
}

/* The air in the shop is what was read in the latest visit of any instrument. */
static void take_moisture(struct shelf_list *list, const struct shelf_item *item)
{
    const struct maybe moisture = item->facts->number[FACT_MOISTURE];
    const double day = maybe_or(item->facts->number[FACT_LAST_DAY], 0);

    if (!moisture.given || day <= list->moisture_day || day > list->ground.today)
        return;
    list->moisture_day = day;
    list->ground.moisture_now = moisture;
}

static void count_marks(struct shelf_list *list, const struct shelf_item *item)
{
    list->unread += (item->marks & SHELF_UNREAD) != 0;
    list->glanced += (item->marks & SHELF_GLANCED) != 0;
}

static void take_items(struct shelf_list *list)
{
    list->ground.moisture_now = maybe_absent();
    list->moisture_day = 0;
    list->unread = list->glanced = 0;
    list->moved = false;
    shelf_search_begin(&list->search, list->count);
    for (size_t i = 0; i < list->count; i++) {
        struct shelf_item *item = &list->items[i];

        if (!item->facts)
            item->facts = shelf_facts_blank();
        item->day = day_of(item);
        item->moved = false;
        list->order[i] = item;
        take_moisture(list, item);
        count_marks(list, item);
    }
    if (list->count > 1)
        qsort(list->order, list->count, sizeof *list->order, compare_items);
}

/* Takes those that moved out of the order, and merges them into it again. */
static void place_moved(struct shelf_list *list)
{
    const struct shelf_item **moved = list->found; /* room for all; it is made anew after this */
    size_t kept = 0, left = 0;

    for (size_t i = 0; i < list->count; i++) {
        struct shelf_item *item = &list->items[list->order[i] - list->items];

        if (item->moved)
            moved[left++] = item;
        else
            list->order[kept++] = item;
        item->day = item->moved ? day_of(item) : item->day;
        item->moved = false;
    }
    if (left > 1)
        qsort(moved, left, sizeof *moved, compare_items);
    for (size_t to = list->count; left > 0;)
        if (kept > 0 && compare_items(&list->order[kept - 1], &moved[left - 1]) > 0)
            list->order[--to] = list->order[--kept];
        else
            list->order[--to] = moved[--left];
    list->moved = false;
}

/* Once an item was chosen, the one that takes its place counts as chosen. Until then the first item
 * is in hand, whichever that is. */
static void hold(struct shelf_list *list, size_t at)
{
    const bool choosing = list->chosen[0] != '\0';
    struct strbuf chosen = STRBUF(list->chosen);

    list->at = at;
    if (choosing && at < list->found_count)
        strbuf_add(&chosen, list->found[at]->file);
    shelf_list_scroll(list);
}

/* False if the chosen file is not among those found. */
static bool find_chosen(const struct shelf_list *list, size_t *ret_at)
{
    for (size_t i = 0; list->chosen[0] && i < list->found_count; i++)
        if (strcmp(list->found[i]->file, list->chosen) == 0) {
            *ret_at = i;
            return true;
        }
    return false;
}

/* What the question asks for first; then as the whole list is. */
static int compare_answers(const void *first, const void *second)
{
    const double a = (*(const struct shelf_item *const *)first)->asked;
    const double b = (*(const struct shelf_item *const *)second)->asked;

    return a < b ? -1 : a > b ? 1 : compare_items(first, second);
}

static void match(struct shelf_list *list)
{
    const struct shelf_question_row *row = shelf_question_get(list->question);
    struct shelf_words words;

    shelf_words_take(&words, list->filter.text);
    /* As they lie in memory, which in a long list is much quicker than in their order. */
    for (size_t i = 0; i < list->count; i++)
        list->matches[i] = (!row->answers || row->answers(&list->ground, &list->items[i])) &&
                           shelf_search_finds(&list->search, i, &list->items[i], &words);
    list->found_count = 0;
    for (size_t i = 0; i < list->count; i++)
        if (list->matches[list->order[i] - list->items])
            list->found[list->found_count++] = list->order[i];
    if (!row->order)
        return;
    for (size_t i = 0; i < list->count; i++)
        list->items[i].asked = row->order(&list->items[i]);
    if (list->found_count > 1)
        qsort(list->found, list->found_count, sizeof *list->found, compare_answers);
}

void shelf_list_narrow(struct shelf_list *list)
{
    size_t at = 0;

    match(list);
    (void)find_chosen(list, &at);
    hold(list, at);
}

/* If the one in hand is gone, its neighbour takes its place. */
static void narrow_again(struct shelf_list *list)
{
    size_t at = list->at;

    match(list);
    if (!find_chosen(list, &at) && at >= list->found_count)
        at = list->found_count > 0 ? list->found_count - 1 : 0;
    hold(list, at);
    shelf_starts_take(list);
}

void shelf_list_take(struct shelf_list *list)
{
    take_items(list);
    narrow_again(list);
}

void shelf_list_put(struct shelf_list *list, size_t at, const struct shelf_item *item)
{
    struct shelf_item *own = &list->items[at];
    const struct shelf_item old = *own;

    list->unread -= (old.marks & SHELF_UNREAD) != 0;
    list->glanced -= (old.marks & SHELF_GLANCED) != 0;
    *own = *item;
    count_marks(list, own);
    take_moisture(list, own);
    own->day = old.day;
    own->asked = old.asked;
    shelf_search_forget(&list->search, at);
    own->moved = old.moved || day_of(own) != old.day;
    list->moved = list->moved || own->moved;
    /* The starting points being looked at may hold texts of the old one. */
    if (list->mode != SHELF_LIST)
        shelf_starts_take(list);
}

void shelf_list_freshen(struct shelf_list *list)
{
    if (list->moved)
        place_moved(list);
    narrow_again(list);
}

void shelf_list_choose(struct shelf_list *list, const char *file)
{
    struct strbuf chosen = STRBUF(list->chosen);
    size_t at = 0;

    strbuf_add(&chosen, file);
    if (!find_chosen(list, &at)) {
        lineedit_clear(&list->filter);
        list->question = SHELF_ALL;
        shelf_list_narrow(list);
        return;
    }
    hold(list, at);
}

void shelf_list_return(struct shelf_list *list, const char *file)
{
    struct strbuf chosen = STRBUF(list->chosen);
    size_t at = list->at;

    if (list->question == SHELF_ALL) {
        shelf_list_choose(list, file);
        return;
    }
    strbuf_add(&chosen, file);
    (void)find_chosen(list, &at);
    hold(list, at);
}

void shelf_list_scroll(struct shelf_list *list)
{
    const size_t rows = list->rows > 1 ? (size_t)list->rows : 1;

    if (list->at < list->top)
        list->top = list->at;
    if (list->at >= list->top + rows)
        list->top = list->at - rows + 1;
    /* No blank rows at the end while there are items to fill them. */
    if (list->top + rows > list->found_count)
        list->top = list->found_count > rows ? list->found_count - rows : 0;
}

const struct shelf_item *shelf_list_item(const struct shelf_list *list)
{
    return list->at < list->found_count ? list->found[list->at] : NULL;
}

void shelf_list_say(struct shelf_list *list, enum app_tone tone, const char *message)
{
    struct strbuf text = STRBUF(list->message);

    list->tone = tone;
    strbuf_add(&text, message);
}
