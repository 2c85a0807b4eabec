/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_together.h"

#include "shelf/shelf_actions.h"

/* The next open one after `at`, from the top again behind the last; `at` itself if it is the only
 * one, the count if none is. */
static size_t next_open(const struct shelf_together *together, size_t at)
{
    for (size_t i = 1; i <= together->count; i++) {
        const size_t next = (at + i) % together->count;

        if (together->differences[next].side == JOIN_OPEN)
            return next;
    }
    return together->count;
}

static size_t count_open(const struct shelf_together *together)
{
    return join_count_open(together->differences, together->count);
}

void shelf_together_take(struct shelf_list *list, const struct shelf_together *together)
{
    list->together = *together;
    list->together.at = 0;
    list->mode = SHELF_TOGETHER;
    if (together->count > 0 && together->differences[0].side != JOIN_OPEN && count_open(together))
        list->together.at = next_open(together, 0);
}

void shelf_together_move(struct shelf_list *list, int by)
{
    struct shelf_together *together = &list->together;
    const size_t last = together->count > 0 ? together->count - 1 : 0;

    if (by < 0)
        together->at = (size_t)-by < together->at ? together->at - (size_t)-by : 0;
    else
        together->at = (size_t)by < last - together->at ? together->at + (size_t)by : last;
}

/* --- what the keys do --- */

/* Only another version beside the file can be put together with it. */
void shelf_begin_together(struct shelf_turn *turn)
{
    const struct shelf_list *list = turn->list;

    if (list->earlier_at < list->earlier_count && list->earlier[list->earlier_at].beside)
        turn->effects.action = SHELF_DO_TOGETHER;
    else
        shelf_list_say(turn->list, TONE_WARNING,
                       "This one is an earlier state; only other versions are put together.");
}

static void tell_rest(struct shelf_list *list)
{
    if (count_open(&list->together) == 0)
        shelf_list_say(list, TONE_NOTE, "Nothing is open any more: Enter saves it.");
}

void shelf_together_choose(struct shelf_turn *turn, int side)
{
    struct shelf_together *together = &turn->list->together;

    if (together->at >= together->count)
        return;
    struct join_difference *difference = &together->differences[together->at];
    if (side == JOIN_AS_BOTH && !record_join_may_be_both(together->join, difference)) {
        shelf_list_say(turn->list, TONE_WARNING,
                       "Both can be taken of two notes only; here it is one or the other.");
        return;
    }
    difference->side = (enum join_side)side;
    if (count_open(together) > 0)
        together->at = next_open(together, together->at);
    tell_rest(turn->list);
}

void shelf_together_choose_all(struct shelf_turn *turn, int side)
{
    struct shelf_together *together = &turn->list->together;

    record_join_choose_all(together->join, (enum join_side)side, together->differences,
                           together->count);
    tell_rest(turn->list);
}

/* Where nothing is open, the next one of all. */
void shelf_together_next(struct shelf_turn *turn)
{
    struct shelf_together *together = &turn->list->together;

    if (together->count == 0)
        return;
    together->at = count_open(together) > 0 ? next_open(together, together->at)
                                            : (together->at + 1) % together->count;
}

void shelf_together_save(struct shelf_turn *turn)
{
    struct shelf_together *together = &turn->list->together;

    if (count_open(together) == 0) {
        turn->effects.action = SHELF_DO_JOIN;
        return;
    }
    if (together->differences[together->at].side != JOIN_OPEN)
        shelf_together_next(turn);
    shelf_list_say(turn->list, TONE_WARNING,
                   "Not yet: where a ? stands, Left or Right has to take one of both.");
}
