/* SPDX-License-Identifier: MIT */
#include "base/utf8.h"
#include "session/command.h"
#include "shelf/shelf_actions.h"
#include "shelf/shelf_table.h"

/* --- what the keys do --- */

struct shelf_act {
    void (*plain)(struct shelf_turn *turn); /* one of these two */
    void (*by)(struct shelf_turn *turn, int step);
    int step;
    bool (*can)(const struct shelf_list *list);
};

static void open_menu(struct shelf_turn *turn);

static const struct shelf_act acts[SHELF_KEY_COUNT_] = {
#define SHELF_KEY(id, key, other_key, letter, place, mode, hint, title, words, act, can_)          \
    [SHELF_KEY_##id] = {act, .can = can_},
#include "shelf/shelf_key_table.h"
#undef SHELF_KEY
};

static void open_menu(struct shelf_turn *turn)
{
    struct shelf_list *list = turn->list;

    menu_clear(&list->menu);
    for (int id = 0; id < SHELF_KEY_COUNT_; id++) {
        const struct shelf_key *key = shelf_key_get((enum shelf_key_id)id);
        const bool listed = key->place && (!acts[id].can || acts[id].can(list));
        struct menu_item *item = listed ? menu_add(&list->menu, id, key->place, key->letter) : NULL;

        if (!item)
            continue;
        struct strbuf words = STRBUF(item->words);
        strbuf_add(&words, key->title);
    }
    list->mode = SHELF_MENU;
}

static void run(struct shelf_turn *turn, enum shelf_key_id id)
{
    if (acts[id].plain)
        acts[id].plain(turn);
    else
        acts[id].by(turn, acts[id].step);
}

/* --- keys --- */

static bool is_character(uint32_t key)
{
    return key >= ' ' && key < SILLET_KEY_ENTER && !utf8_unsafe(key);
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
    else if (answer == MENU_LACKS)
        shelf_list_say(turn->list, TONE_WARNING,
                       "That digit does nothing now; * shows what can be done.");
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
        shelf_type(turn, key);
    return list->pasting;
}

/* Where nothing can be typed, a key without a meaning closes what is open; but what was chosen is
 * not dropped by a slip. */
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
    else if (id != SHELF_KEY_NONE)
        run(turn, id);
    else if (types && is_character(key))
        shelf_type(turn, key);
    else if (list->mode == SHELF_PRESETS && is_character(key))
        shelf_type_start(turn, key);
    else if (!types && list->mode != SHELF_PRESETS && list->mode != SHELF_TOGETHER)
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
