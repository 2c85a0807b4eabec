/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_key.h"

#include "session/event.h"
#include "session/leaf.h"
#include "session/menu.h"

static const struct shelf_key keys[SHELF_KEY_COUNT_] = {
#define SHELF_KEY(id, key_, other_key_, letter_, place_, mode_, hint_, title_, words_, ...)        \
    [SHELF_KEY_##id] = {.key = key_,                                                               \
                        .other_key = other_key_,                                                   \
                        .letter = letter_,                                                         \
                        .place = place_,                                                           \
                        .mode = mode_,                                                             \
                        .hint = hint_,                                                             \
                        .title = title_,                                                           \
                        .words = words_},
#include "shelf/shelf_key_table.h"
#undef SHELF_KEY
};

const struct shelf_key *shelf_key_get(enum shelf_key_id id)
{
    return &keys[id];
}

static bool has_key(const struct shelf_key *row, uint32_t key)
{
    return row->key == key || row->other_key == key ||
           (row->mode != SHELF_LIST && row->letter == key);
}

enum shelf_key_id shelf_key_find(uint32_t key, enum shelf_mode mode)
{
    enum shelf_key_id found = SHELF_KEY_NONE;

    if (key == SILLET_KEY_NONE)
        return found;
    for (int id = 0; id < SHELF_KEY_COUNT_; id++) {
        if (!has_key(&keys[id], key))
            continue;
        if (keys[id].mode == mode)
            return (enum shelf_key_id)id;
        if (keys[id].mode == SHELF_ANY && found == SHELF_KEY_NONE)
            found = (enum shelf_key_id)id;
    }
    return found;
}
