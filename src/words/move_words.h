/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_MOVE_WORDS_H
#define SILLET_WORDS_MOVE_WORDS_H

#include "model/derive/derive.h"

/* A move in words: what to do and by how much, what the gauge should read afterwards, and a
 * caution. The model has decided what is due and why (model/setup/move.h). */
struct move_words {
    char amount[384]; /* with its uncertainty; for an unknown move what to measure first, "" if the
                       * move before says it */
    char then[192];   /* what the gauge reads afterwards */
    char caution[128];
    bool foretold;   /* `then` is what the gauges read, not that they have to be read */
    bool by_string;  /* amounts stand in `string` as well */
    char done[256];  /* what a work line says once it is done; "": the amount, and `string` */
    char found[256]; /* the same where what only the ear accused was found high; "" for no such */
    char string[STRINGS_MAX + 1][8]; /* by string number, "" for none, "ok" for on target,
                                        "near" for off it by no more than can be told, "low" or
                                        "high" beyond doubt and left now; "read": not known,
                                        "again": it does not fit */
    bool works[STRINGS_MAX + 1];     /* `string` is an amount to be done */
    struct outfit outfit;            /* which of these stand for a course */
};

void move_words_make(const struct derived *derived, enum move_kind kind,
                     const struct shop_units *units, struct move_words *ret_words);

/* The unit in which a change is said: it is cut to size with a caliper or a file, so inch shops
 * want decimal inches. */
static inline enum unit move_words_change_unit(const struct shop_units *units)
{
    return units->bare[MEASURE_FEELER] == UNIT_TH ? UNIT_TH : UNIT_MM;
}

/* "wait: the season moved the neck"; "" for nothing to wait for. */
const char *move_words_wait(enum move_wait waits);

/* Whether a bridge's heights are set in turns; and the doubt about an amount in turns, in eighths.
 */
bool move_words_in_turns(const struct setup *setup);
double move_words_turns_u(const struct setup *setup, double u_mm);

/* Whether a reset by these figures is a shim in the pocket, not work on the heel. */
bool move_words_is_shim(const struct figures *figures);

/* Appends whether the saddle is wide enough for the contacts; where its width is not known, to look
 * first. */
void move_words_add_saddle(struct strbuf *out, const struct saddle_fit *saddle,
                           const struct shop_units *units);

/* Appends what follows where nothing is due: ": it can go back", and what was not checked, which
 * asks for nothing, "; not heard, not tuned". Where by the readings a note buzzes that nobody
 * played, it is played first: "; play it first: tightest string 3 at 2". */
void move_words_add_ready(struct strbuf *out, const struct derived *derived);

#endif
