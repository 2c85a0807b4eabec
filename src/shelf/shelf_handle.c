/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "shelf/shelf_list.h"
#include "shelf/shelf_move.h"
#include "base/utf8.h"

/* One event being handled. */
struct shelf_turn {
    struct shelf_list *list;
    struct shelf_effects effects;
};

static void warn(struct shelf_turn *turn, const char *message)
{
    shelf_list_say(turn->list, TONE_WARNING, message);
}

/* --- new, copy, archive --- */

static void begin_naming(struct shelf_turn *turn, bool copying, const char *proposal)
{
    turn->list->mode = SHELF_NAMING;
    turn->list->copying = copying;
    turn->list->proposed = true;
    (void)lineedit_set(&turn->list->name, proposal);
}

static void begin_new(struct shelf_turn *turn)
{
    turn->list->mode = SHELF_PRESETS;
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
static void propose_name(const struct shelf_list *list, struct strbuf *out)
{
    const char *title = list->presets[list->preset];
    const size_t length = strcspn(title, ",");

    strbuf_add_bytes(out, title, length);
    for (size_t number = 2; is_on_file(list, out->text) && number <= list->count + 1; number++) {
        strbuf_clear(out);
        strbuf_add_bytes(out, title, length);
        strbuf_addf(out, " %zu", number);
    }
}

/* A name that was searched for and not found is probably the name of the new one. */
static void take_preset(struct shelf_turn *turn)
{
    const struct shelf_list *list = turn->list;
    char memory[LINEEDIT_MAX + 1];
    struct strbuf name = STRBUF(memory);

    if (list->found_count == 0 && !lineedit_is_empty(&list->filter))
        strbuf_add(&name, list->filter.text);
    else if (list->preset_count > 0)
        propose_name(list, &name);
    begin_naming(turn, false, memory);
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

static void begin_copy(struct shelf_turn *turn)
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

static void begin_archive(struct shelf_turn *turn)
{
    const struct shelf_item *item = take_target(turn);

    if (!item)
        return;
    if (item->marks & SHELF_IN_USE)
        warn(turn, "This one is in use by another program, so it stays here.");
    else
        turn->list->mode = SHELF_ARCHIVING;
}

static void begin_earlier(struct shelf_turn *turn)
{
    if (take_target(turn))
        turn->effects.action = SHELF_DO_EARLIER;
}

/* Only another version beside the file can be put away. */
static void put_away(struct shelf_turn *turn)
{
    const struct shelf_list *list = turn->list;

    if (list->earlier_at < list->earlier_count && list->earlier[list->earlier_at].beside)
        turn->effects.action = SHELF_DO_PUT_AWAY;
    else
        warn(turn, "This one is an earlier state already; nothing has to be put away.");
}

/* Looking at a state and bringing it back both close this list. */
static void take_earlier(struct shelf_turn *turn, enum shelf_action action)
{
    turn->list->mode = SHELF_LIST;
    turn->effects.action = action;
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

static void take_name(struct shelf_turn *turn)
{
    struct shelf_list *list = turn->list;

    if (!trim_name(list)) {
        warn(turn, "It needs a name: what the shop calls it, or whose it is.");
        return;
    }
    list->mode = SHELF_LIST;
    turn->effects.action = list->copying ? SHELF_DO_COPY : SHELF_DO_NEW;
}

/* --- the list --- */

static void open_item(struct shelf_turn *turn, enum leaf leaf)
{
    turn->list->mode = SHELF_LIST;
    turn->effects.leaf = leaf;
    if (shelf_list_item(turn->list)) {
        turn->effects.action = SHELF_DO_OPEN;
        turn->list->used = true;
    } else if (turn->list->count == 0) {
        begin_new(turn);
    } else {
        warn(turn, "Not found in " SHELF_SEARCHED ".");
    }
}

static void drop_filter(struct shelf_list *list)
{
    list->used = false;
    lineedit_clear(&list->filter);
    shelf_list_narrow(list);
}

static void leave(struct shelf_turn *turn)
{
    if (lineedit_is_empty(&turn->list->filter))
        shelf_list_say(turn->list, TONE_NOTE, "To quit: * and then q, or Ctrl-C.");
    else
        drop_filter(turn->list);
}

static void erase(struct shelf_list *list)
{
    list->used = false;
    if (lineedit_backspace(&list->filter)) {
        list->typing = true;
        shelf_list_narrow(list);
    }
}

static void type(struct shelf_turn *turn, uint32_t key)
{
    struct shelf_list *list = turn->list;
    const bool naming = list->mode == SHELF_NAMING;
    struct lineedit *line = naming ? &list->name : &list->filter;
    bool *anew = naming ? &list->proposed : &list->used;

    if (*anew)
        lineedit_clear(line);
    *anew = false;
    if (!lineedit_add(line, key)) {
        warn(turn, "The entry is full.");
        return;
    }
    list->typing = true;
    if (!naming)
        shelf_list_narrow(list);
}

static void run_in_mode(struct shelf_turn *turn, enum shelf_key_id id)
{
    struct shelf_list *list = turn->list;

    switch (id) {
    case SHELF_KEY_NEW:
        begin_new(turn);
        return;
    case SHELF_KEY_COPY:
        begin_copy(turn);
        return;
    case SHELF_KEY_ARCHIVE:
        begin_archive(turn);
        return;
    case SHELF_KEY_HELP:
        list->mode = SHELF_HELP;
        list->help_top = 0;
        return;
    case SHELF_KEY_EARLIER:
        begin_earlier(turn);
        return;
    case SHELF_KEY_LOOK:
        take_earlier(turn, SHELF_DO_LOOK);
        return;
    case SHELF_KEY_BRING_BACK:
        take_earlier(turn, SHELF_DO_BRING_BACK);
        return;
    case SHELF_KEY_PUT_AWAY:
        put_away(turn);
        return;
    case SHELF_KEY_TAKE_PRESET:
        take_preset(turn);
        return;
    case SHELF_KEY_TAKE_NAME:
        take_name(turn);
        return;
    case SHELF_KEY_EMPTY_NAME:
    case SHELF_KEY_ERASE_NAME:
    case SHELF_KEY_EDIT_NAME:
        list->proposed = false;
        if (id == SHELF_KEY_EMPTY_NAME)
            lineedit_clear(&list->name);
        else if (id == SHELF_KEY_ERASE_NAME)
            (void)lineedit_backspace(&list->name);
        return;
    case SHELF_KEY_BACK_FROM_NAME:
        list->mode = list->copying ? SHELF_LIST : SHELF_PRESETS;
        return;
    case SHELF_KEY_ARCHIVE_NOW:
        list->mode = SHELF_LIST;
        turn->effects.action = SHELF_DO_ARCHIVE;
        return;
    default:
        list->mode = SHELF_LIST;
    }
}

static void run(struct shelf_turn *turn, enum shelf_key_id id)
{
    struct shelf_list *list = turn->list;
    const int page = list->rows > 1 ? list->rows - 1 : 1;

    switch (id) {
    case SHELF_KEY_OPEN:
        open_item(turn, LEAF_BENCH);
        return;
    case SHELF_KEY_MENU:
        shelf_menu_open(list);
        return;
    case SHELF_KEY_TURN:
        open_item(turn, (enum leaf)0);
        return;
#define LEAF(id, ...)                                                                              \
    case SHELF_KEY_GO_##id:                                                                        \
        open_item(turn, LEAF_##id);                                                                \
        return;
#include "session/leaf_table.h"
#undef LEAF
    case SHELF_KEY_EMPTY:
        list->mode = SHELF_LIST;
        drop_filter(list);
        return;
    case SHELF_KEY_LEAVE:
        leave(turn);
        return;
    case SHELF_KEY_ERASE:
        erase(list);
        return;
    case SHELF_KEY_UP:
    case SHELF_KEY_DOWN:
        shelf_move(list, id == SHELF_KEY_UP ? -1 : 1);
        return;
    case SHELF_KEY_PAGE_UP:
        shelf_move(list, -page);
        return;
    case SHELF_KEY_PAGE_DOWN:
        shelf_move(list, page);
        return;
    case SHELF_KEY_FIRST:
    case SHELF_KEY_LAST:
        shelf_move_to_end(list, id == SHELF_KEY_LAST);
        return;
    case SHELF_KEY_REPAINT:
        turn->effects.rescan = turn->effects.repaint = true;
        return;
    case SHELF_KEY_SUSPEND:
        turn->effects.suspend = true;
        return;
    case SHELF_KEY_QUIT:
    case SHELF_KEY_END:
        turn->effects.quit = true;
        return;
    default:
        run_in_mode(turn, id);
    }
}

static bool is_character(uint32_t key)
{
    return key >= ' ' && key < SILLET_KEY_ENTER && !utf8_unsafe(key);
}

/* Chooses a starting point by its number, from 1. A second digit goes on with the first if there
 * are that many. */
static bool number_preset(struct shelf_list *list, uint32_t key)
{
    if (key < '0' || key > '9')
        return false;
    const int digit = (int)(key - '0'), longer = 10 * (list->preset + 1) + digit;
    const int number = longer <= list->preset_count ? longer : digit;

    if (number > 0 && number <= list->preset_count)
        list->preset = number - 1;
    return true;
}

/* Keys that move or delete in the name. Del at its end deletes the last character. */
static bool edit_name(struct shelf_list *list, uint32_t key)
{
    const bool edits = key == SILLET_KEY_DELETE
                           ? lineedit_delete(&list->name) || lineedit_backspace(&list->name) || true
                           : lineedit_move(&list->name, key);

    list->proposed = list->proposed && !edits;
    return edits;
}

static void handle_key(struct shelf_turn *turn, uint32_t key);

static void handle_menu(struct shelf_turn *turn, uint32_t key)
{
    int id = SHELF_KEY_NONE;
    const enum menu_answer answer = menu_handle(&turn->list->menu, key, &id);

    if (answer == MENU_STAYS)
        return;
    turn->list->mode = SHELF_LIST;
    if (answer == MENU_TAKES)
        run(turn, (enum shelf_key_id)id);
    else if (answer == MENU_PASSES)
        handle_key(turn, key);
}

/* A paste is a name, or words to search for; its line ends open nothing. */
static bool take_paste(struct shelf_turn *turn, uint32_t key)
{
    struct shelf_list *list = turn->list;
    const bool types = list->mode == SHELF_LIST || list->mode == SHELF_NAMING;

    if (key == SILLET_KEY_PASTE_BEGIN || key == SILLET_KEY_PASTE_END) {
        list->pasting = key == SILLET_KEY_PASTE_BEGIN;
        return true;
    }
    if (list->pasting && types && is_character(key))
        type(turn, key);
    return list->pasting;
}

/* Where nothing can be typed, a key without a meaning closes what is open. */
static void handle_key(struct shelf_turn *turn, uint32_t key)
{
    struct shelf_list *list = turn->list;
    const enum shelf_key_id id = shelf_key_find(key, list->mode);
    const bool types = list->mode == SHELF_LIST || list->mode == SHELF_NAMING;

    if (take_paste(turn, key))
        return;
    list->tone = TONE_NONE;
    list->typing = list->mode == SHELF_NAMING;
    if (list->mode == SHELF_MENU)
        handle_menu(turn, key);
    else if (list->mode == SHELF_NAMING && edit_name(list, key))
        return;
    else if (list->mode == SHELF_PRESETS && number_preset(list, key))
        return;
    else if (id != SHELF_KEY_NONE)
        run(turn, id);
    else if (types && is_character(key))
        type(turn, key);
    else if (!types && list->mode != SHELF_PRESETS)
        list->mode = SHELF_LIST;
}

struct shelf_effects shelf_list_handle(struct shelf_list *list, const struct event *event)
{
    struct shelf_turn turn = {.list = list, .effects = {.leaf = LEAF_BENCH}};

    switch (event->type) {
    case EVENT_KEY:
        handle_key(&turn, event->key);
        break;
    case EVENT_HANGUP:
        turn.effects.quit = true;
        break;
    case EVENT_RESUME:
        turn.effects.rescan = turn.effects.repaint = true;
        break;
    case EVENT_NONE:
        list->pasting = false;
        break;
    case EVENT_RESIZE:
        break;
    }
    return turn.effects;
}
