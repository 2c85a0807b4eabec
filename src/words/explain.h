/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_EXPLAIN_H
#define SILLET_WORDS_EXPLAIN_H

#include "model/derive/derive.h"

/*
 * Explains a figure: what it means for the hand (hand_table.h), its value and uncertainty, its
 * formula, the value of each symbol on this instrument, and the source. explain_table.h says which
 * numbers those are.
 */

enum explain_part {
    EXPLAIN_HAND,
    EXPLAIN_VALUE,
    EXPLAIN_FORMULA,
    EXPLAIN_SYMBOL,
    EXPLAIN_SOURCE,
    EXPLAIN_NOTE
};

struct explain_line {
    enum explain_part part;
    char text[400];
};

enum { EXPLAIN_LINES_MAX = 24 };

struct explanation {
    struct explain_line lines[EXPLAIN_LINES_MAX];
    int count;
};

/* Begins another line, to be written into what is returned. */
struct strbuf explain_add_line(struct explanation *explanation, enum explain_part part);

/* Where the figures come from. */
struct explain_from {
    struct place place;
    const struct derived *derived;
    const struct shop_units *units; /* for amounts; NULL: mm */
};

/* `string` is the string asked about; 0 for figures of the whole instrument. */
void explain_figure(const struct explain_from *from, enum figure_id id, int string,
                    struct explanation *ret_explanation);

/*
 * The same for the headroom of a note, which is not in figure_table.h, with how the Frets leaf
 * finds the high fret and what levelling takes. `note` -1: none is known.
 */
void explain_headroom(const struct explain_from *from, int string, int note,
                      struct explanation *ret_explanation);

/* Appends what a figure's string is called: of what is read by course "course 6", else "string 11".
 */
void explain_add_string(const struct explain_from *from, enum figure_id id, int string,
                        struct strbuf *out);

/* Appends what a figure means for the hand: "lower the saddle under string 6 by .030 in". */
void explain_add_hand(const struct explain_from *from, enum figure_id id, int string,
                      struct strbuf *out);

/* Whether the model predicts a figure rather than reckon it from readings: its ± is more than the
 * gauges', and its digits are those that the ± supports. */
bool explain_is_predicted(enum figure_id id);

/* Appends what the ± of a predicted figure comes from, the largest first. */
void explain_add_parts(const struct explain_from *from, enum figure_id id, int string,
                       struct strbuf *out);

/* How many symbols of a figure's formula are explained; a test wants at least one each. */
int explain_symbol_count(enum figure_id id);

/*
 * The next figure in the table's order (by = 1), or the one before (by = -1), that is known for
 * this string or for the instrument as a whole; `id` if there is no other.
 */
enum figure_id explain_next(const struct derived *derived, enum figure_id id, int string, int by);

#endif
