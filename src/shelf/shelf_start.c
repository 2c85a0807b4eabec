/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_start.h"

#include <string.h>

#include "model/common/name_match.h"
#include "shelf/shelf_list.h"

/* --- which there are --- */

static bool is_nobodys(const struct shelf_item *item)
{
    const struct card *card = &item->card;

    return !(item->marks & (SHELF_BROKEN | SHELF_UNREAD | SHELF_NEWER)) && card->owner[0] == '\0' &&
           card->serial[0] == '\0' && card->visit[0] == '\0';
}

static void gather(struct shelf_list *list)
{
    struct shelf_starts *starts = &list->starts;
    int count = 0;

    for (size_t i = 0; i < list->count && count < SHELF_OWN_MAX; i++) {
        const struct shelf_item *item = list->order[i];

        if (is_nobodys(item))
            starts->all[count++] = (struct shelf_start){
                .title = shelf_item_title(item), .also = item->card.kind, .file = item->file};
    }
    starts->own_count = count;
    for (int i = 0; i < starts->built_in_count && count < SHELF_STARTS_MAX; i++)
        starts->all[count++] = starts->built_in[i];
}

static int count_all(const struct shelf_starts *starts)
{
    const int count = starts->own_count + starts->built_in_count;

    return count < SHELF_STARTS_MAX ? count : SHELF_STARTS_MAX;
}

/* --- which go with what is typed --- */

/* Whether it stands there as it is typed: "12 string" in "12 string guitar", but not in "steel
 * string, 12 frets". */
static bool is_phrase(const char *typed, const char *name)
{
    const size_t length = strlen(typed);

    for (; *name; name += strcspn(name, " "), name += *name == ' ')
        if (strncmp(name, typed, length) == 0)
            return true;
    return false;
}

static struct name_match match_form(const char *typed, const char *form)
{
    char folded[NAME_FOLDED_SIZE];

    name_fold(form, folded);
    struct name_match match = name_match(typed, folded);
    if (match.fit == NAME_FIT_BEGINNING && is_phrase(typed, folded))
        match.fit = NAME_FIT_SAME;
    return match;
}

static struct name_match match_start(const struct shelf_start *start, const char *typed)
{
    char memory[NAME_FOLDED_SIZE];
    struct strbuf name = STRBUF(memory);
    bool more = true;

    struct name_match best = match_form(typed, start->title);
    for (int k = 0; start->also && more; k++) {
        strbuf_clear(&name);
        more = name_add_one_of(start->also, k, &name);
        const struct name_match match = match_form(typed, memory);
        if (match.fit > best.fit || (match.fit == best.fit && match.distance < best.distance))
            best = match;
    }
    return best;
}

static int find_best(const struct shelf_starts *starts, const char *typed,
                     int found[SHELF_STARTS_MAX])
{
    struct name_match best = {.fit = NAME_FIT_NONE};
    int count = 0;

    for (int i = 0; i < count_all(starts); i++) {
        const struct name_match match = match_start(&starts->all[i], typed);

        if (match.fit == NAME_FIT_NONE || match.fit < best.fit ||
            (match.fit == best.fit && match.distance > best.distance))
            continue;
        if (match.fit > best.fit || match.distance < best.distance)
            count = 0;
        best = match;
        found[count++] = i;
    }
    return count;
}

static bool is_number(const char *text)
{
    return text[strspn(text, "0123456789")] == '\0';
}

/* False, and the old ones stay, if none goes with it. */
static bool narrow(struct shelf_starts *starts)
{
    char folded[NAME_FOLDED_SIZE];
    int found[SHELF_STARTS_MAX], count = 0;

    name_fold(starts->typed.text, folded);
    if (!is_number(starts->typed.text)) {
        count = find_best(starts, folded, found);
        if (count == 0)
            return false;
    } else {
        for (; count < count_all(starts); count++)
            found[count] = count;
    }
    memcpy(starts->found, found, (size_t)count * sizeof found[0]);
    starts->found_count = count;
    return true;
}

/* --- the one in hand --- */

static void hold(struct shelf_list *list, int at)
{
    struct shelf_starts *starts = &list->starts;
    struct strbuf own = STRBUF(list->own_start);

    starts->at = at;
    if (at >= starts->found_count)
        return;
    const int place = starts->found[at];

    if (place < starts->own_count)
        strbuf_add(&own, starts->all[place].file);
    else
        list->preset = place - starts->own_count;
}

/* The place of the one last in hand; where one of the shop's own is gone, of the built-in one
 * before it. */
static int place_in_hand(const struct shelf_list *list)
{
    const struct shelf_starts *starts = &list->starts;

    for (int place = 0; list->own_start[0] && place < starts->own_count; place++)
        if (strcmp(starts->all[place].file, list->own_start) == 0)
            return place;
    return starts->own_count + list->preset;
}

/* The first one where it is not listed now. */
static void hold_again(struct shelf_list *list)
{
    const int place = place_in_hand(list);
    int at = 0;

    for (int i = 0; i < list->starts.found_count; i++)
        if (list->starts.found[i] == place)
            at = i;
    hold(list, at);
}

void shelf_starts_open(struct shelf_list *list)
{
    lineedit_clear(&list->starts.typed);
    shelf_starts_take(list);
}

void shelf_starts_take(struct shelf_list *list)
{
    gather(list);
    if (!narrow(&list->starts)) {
        lineedit_clear(&list->starts.typed);
        (void)narrow(&list->starts);
    }
    hold_again(list);
}

const struct shelf_start *shelf_start_in_hand(const struct shelf_list *list)
{
    const struct shelf_starts *starts = &list->starts;

    return starts->at < starts->found_count ? &starts->all[starts->found[starts->at]] : NULL;
}

void shelf_starts_move(struct shelf_list *list, int by)
{
    const int last = list->starts.found_count - 1, at = list->starts.at + by;

    hold(list, at < 0 || last < 0 ? 0 : at > last ? last : at);
}

/* --- typing --- */

static void hold_number(struct shelf_list *list, int number)
{
    if (number >= 1 && number <= list->starts.built_in_count)
        hold(list, list->starts.own_count + number - 1);
}

/* A digit too many begins another number. */
static void take_number(struct shelf_list *list)
{
    struct lineedit *typed = &list->starts.typed;
    int number = 0;

    for (const char *c = typed->text; *c && number < SHELF_STARTS_MAX; c++)
        number = 10 * number + (*c - '0');
    if (number > list->starts.built_in_count) {
        const char digit[2] = {typed->text[strlen(typed->text) - 1], '\0'};

        number = digit[0] - '0';
        (void)lineedit_set(typed, digit);
    }
    hold_number(list, number);
}

bool shelf_starts_type(struct shelf_list *list, uint32_t key)
{
    struct lineedit *typed = &list->starts.typed;

    if ((key == ' ' && lineedit_is_empty(typed)) || !lineedit_add(typed, key))
        return true;
    if (!narrow(&list->starts)) {
        (void)lineedit_backspace(typed);
        return false;
    }
    if (is_number(typed->text))
        take_number(list);
    else
        hold(list, 0);
    return true;
}

bool shelf_starts_erase(struct shelf_list *list)
{
    if (!lineedit_backspace(&list->starts.typed))
        return false;
    (void)narrow(&list->starts);
    hold_again(list);
    return true;
}
