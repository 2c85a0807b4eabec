/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_MOVE_WORDS_INSIDE_H
#define SILLET_WORDS_MOVE_WORDS_INSIDE_H

#include "words/amount.h"
#include "words/move_words.h"

/* What the files of the moves' words share. */

struct maker {
    const struct figures *figures;
    const struct setup *setup;
    const struct shop_units *units;
    const struct move_set *set;
    const struct move *move; /* the one in hand */
    struct move_words *words;
    struct strbuf amount, then, caution;
};

static inline bool is_turned(enum bridge_kind bridge)
{
    return bridge == BRIDGE_SCREW || bridge == BRIDGE_POST || bridge == BRIDGE_WHEEL;
}

/* Appends " ±" and a doubt. */
void move_words_add_u(struct strbuf *out, double u_mm, enum unit unit);

/* An amount no finer than a hand works, and to less, for wood and crowns do not grow again; and
 * what it may be off by, no finer either, and to more, with the unit. */
double move_words_to_less(double mm, double step_mm);
void move_words_add_step_u(struct maker *maker, double u_mm, double step_mm, enum unit unit);

/* What the outer strings read then, "action 7.3 to 5.1 /64". False where one is not known. */
bool move_words_add_then(struct maker *maker, const char *what, const struct maybe *then,
                         enum unit unit);
void move_words_add_range(struct strbuf *out, double bass_mm, double treble_mm, enum unit unit);
/* Under a bar: the height that is wanted at that end. */
void move_words_add_height(struct maker *maker, const char *what, const struct maybe *target);

/* What stands in place of an amount while a move is unknown, good or waits. */
void move_words_say_need(struct maker *maker, enum move_kind kind);
void move_words_say_good(struct maker *maker, enum move_kind kind);
void move_words_say_wait(struct maker *maker, enum move_kind kind);

/* move_words_say_NAME, for each move that is due: the amount, what to expect and the caution. */
#define MOVE(id, own_, ...) void move_words_say_##own_(struct maker *maker);
#include "model/reading/move_table.h"
#undef MOVE

/* Of a reset, the angle and what it takes at the heel or in the pocket. */
void move_words_add_reset(struct maker *maker);

/* Of the slots, the amount and the caution; false where the gaps have to be read then, which is
 * said as what to expect. */
bool move_words_say_nut(struct maker *maker);

/* What the rocker has to tell before any fret is worked on. */
void move_words_say_rocker(struct maker *maker);

#endif
