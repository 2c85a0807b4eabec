/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_actions.h"

#include <string.h>

static void warn(struct shelf_turn *turn, const char *message)
{
    shelf_list_say(turn->list, TONE_WARNING, message);
}

/* --- opened, a new one, a copy --- */

static void begin_naming(struct shelf_turn *turn, bool copying, const char *proposal)
{
    turn->list->named_from = turn->list->mode;
    turn->list->mode = SHELF_NAMING;
    turn->list->copying = copying;
    turn->list->proposed = true;
    (void)lineedit_set(&turn->list->name, proposal);
}

void shelf_begin_new(struct shelf_turn *turn)
{
    turn->list->mode = SHELF_PRESETS;
    shelf_starts_open(turn->list);
}

void shelf_open_at(struct shelf_turn *turn, int leaf)
{
    turn->list->mode = SHELF_LIST;
    turn->effects.leaf = (enum leaf)leaf;
    if (shelf_list_item(turn->list)) {
        turn->effects.action = SHELF_DO_OPEN;
        turn->list->used = true;
    } else if (turn->list->count == 0) {
        shelf_begin_new(turn);
    } else {
        warn(turn, "Not found in " SHELF_SEARCHED ".");
    }
}

static bool is_on_file(const struct shelf_list *list, const char *name)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(shelf_item_title(&list->items[i]), name) == 0)
            return true;
    return false;
}

/* The kind of instrument, with a number if that name is taken: "Ukulele 2" from "Ukulele, concert
 * size". So a new one can be named without letters, on the number pad. */
static void propose_name(const struct shelf_list *list, const struct shelf_start *start,
                         struct strbuf *out)
{
    const char *title = start->title;
    const size_t length = strcspn(title, ",");

    strbuf_add_bytes(out, title, length);
    for (size_t number = 2; is_on_file(list, out->text) && number <= list->count + 1; number++) {
        strbuf_clear(out);
        strbuf_add_bytes(out, title, length);
        strbuf_addf(out, " %zu", number);
    }
}

/* A name that was searched for and not found is probably the name of the new one. */
void shelf_take_preset(struct shelf_turn *turn)
{
    struct shelf_list *list = turn->list;
    const struct shelf_start *start = shelf_start_in_hand(list);
    char memory[LINEEDIT_MAX + 1];
    struct strbuf name = STRBUF(memory), target = STRBUF(list->target);

    if (!start)
        return;
    if (list->found_count == 0 && !lineedit_is_empty(&list->filter))
        strbuf_add(&name, list->filter.text);
    else
        propose_name(list, start, &name);
    strbuf_add(&target, start->file ? start->file : "");
    begin_naming(turn, start->file != NULL, memory);
}

/* Makes the item in hand the target of the menu's command; NULL, with a warning, if there is
 * none. */
static const struct shelf_item *take_target(struct shelf_turn *turn)
{
    const struct shelf_item *item = shelf_list_item(turn->list);
    struct strbuf target = STRBUF(turn->list->target);

    turn->list->mode = SHELF_LIST;
    if (item)
        strbuf_add(&target, item->file);
    else
        warn(turn, "There is no instrument in hand.");
    return item;
}

void shelf_begin_copy(struct shelf_turn *turn)
{
    const struct shelf_item *item = take_target(turn);
    char memory[LINEEDIT_MAX + 1];
    struct strbuf name = STRBUF(memory);

    if (!item)
        return;
    if (item->marks & SHELF_BROKEN) {
        warn(turn, "This one cannot be read, so there is nothing to copy.");
        return;
    }
    strbuf_add(&name, shelf_item_title(item));
    strbuf_add(&name, ", copy");
    begin_naming(turn, true, memory);
}

/* --- starting points --- */

void shelf_type_start(struct shelf_turn *turn, uint32_t key)
{
    if (!shelf_starts_type(turn->list, key))
        warn(turn, "No starting point goes with that.");
}

void shelf_erase_start(struct shelf_turn *turn)
{
    if (!shelf_starts_erase(turn->list))
        shelf_to_list(turn);
}

/* --- a name being typed --- */

void shelf_edit_name(struct shelf_turn *turn)
{
    turn->list->proposed = false;
}

void shelf_empty_name(struct shelf_turn *turn)
{
    turn->list->proposed = false;
    lineedit_clear(&turn->list->name);
}

void shelf_erase_name(struct shelf_turn *turn)
{
    turn->list->proposed = false;
    (void)lineedit_backspace(&turn->list->name);
}

void shelf_back_from_name(struct shelf_turn *turn)
{
    turn->list->mode = turn->list->named_from;
}

/* Drops the blanks at both ends of the name; false if nothing is left. */
static bool trim_name(struct shelf_list *list)
{
    char memory[LINEEDIT_MAX + 1];
    struct strbuf name = STRBUF(memory);
    const char *text = list->name.text + strspn(list->name.text, " ");
    size_t length = strlen(text);

    while (length > 0 && text[length - 1] == ' ')
        length--;
    strbuf_add_bytes(&name, text, length);
    (void)lineedit_set(&list->name, memory);
    return length > 0;
}

void shelf_take_name(struct shelf_turn *turn)
{
    struct shelf_list *list = turn->list;

    if (!trim_name(list)) {
        warn(turn, "It needs a name: what the shop calls it, or whose it is.");
        return;
    }
    list->mode = !list->copying && list->ask_units ? SHELF_UNITS : SHELF_LIST;
    if (list->mode == SHELF_LIST)
        turn->effects.action = list->copying ? SHELF_DO_COPY : SHELF_DO_NEW;
}

void shelf_ask_units(struct shelf_turn *turn)
{
    warn(turn, "1 for inches, 2 for millimetres.");
}

void shelf_take_units(struct shelf_turn *turn, int units)
{
    turn->list->mode = SHELF_LIST;
    turn->effects.units = (enum shelf_take_units)units;
    turn->effects.action = SHELF_DO_NEW;
}

/* --- archive, earlier states --- */

void shelf_begin_archive(struct shelf_turn *turn)
{
    const struct shelf_item *item = take_target(turn);

    if (!item)
        return;
    if (item->marks & SHELF_IN_USE)
        warn(turn, "This one is in use by another program, so it stays here.");
    else
        turn->list->mode = SHELF_ARCHIVING;
}

void shelf_archive_now(struct shelf_turn *turn)
{
    shelf_to_list(turn);
    turn->effects.action = SHELF_DO_ARCHIVE;
}

void shelf_begin_earlier(struct shelf_turn *turn)
{
    if (take_target(turn))
        turn->effects.action = SHELF_DO_EARLIER;
}

/* Only another version beside the file can be put away. */
void shelf_put_away(struct shelf_turn *turn)
{
    const struct shelf_list *list = turn->list;

    if (list->earlier_at < list->earlier_count && list->earlier[list->earlier_at].beside)
        turn->effects.action = SHELF_DO_PUT_AWAY;
    else
        warn(turn, "This one is an earlier state already; nothing has to be put away.");
}

/* Looking at a state and bringing it back both close this list. */
void shelf_take_earlier(struct shelf_turn *turn, int action)
{
    turn->list->mode = SHELF_LIST;
    turn->effects.action = (enum shelf_action)action;
}
