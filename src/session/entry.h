/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_ENTRY_H
#define SILLET_SESSION_ENTRY_H

#include <stdbool.h>

#include "model/common/day.h"
#include "model/reading/name_list.h"

/*
 * What is being typed into a cell, as the program understands it: shown before Enter takes
 * it.
 */
enum { ENTRY_TEXT_MAX = 512 }; /* room for any entry as it is kept, its end included */

struct entry_view {
    bool empty;
    bool good;       /* Enter would take it */
    bool unusual;    /* it would be taken and marked */
    bool doubtful;   /* it would be kept as typed, but a name of the list may be meant */
    double value;    /* when good */
    char words[160]; /* how it was read, or what is wrong with it */
};

/* A comma is read as a point in a number. `today` is the day of the clock, which a
 * day is read by; NULL will do for any other field. */
void entry_look(const char *text, const struct field *field, const struct shop_units *units,
                const struct day *today, struct entry_view *ret_view);

/* The same for one that can be a name of a list. */
void entry_look_at_name(const char *text, const struct name_list *list,
                        struct entry_view *ret_view);

/*
 * The text to keep for a typed entry: with its unit, as num_spell writes it; a name of a
 * list as choice.h finds it; a day with its year first; a fret list typed on the number pad, with
 * + between the frets, with blanks. Other fields keep what was typed.
 */
enum status entry_spell(const char *text, const struct field *field, const struct shop_units *units,
                        const struct day *today, struct strbuf *out);

/* A typed number with the point that each comma means. */
void entry_add_pointed(const char *text, struct strbuf *out);

/* A kept text as it is shown in a cell: the unit dropped where the number, read in the unit that
 * stands beside the row (amount_unit), is the value; a leaf named by its number as the row's
 * decimals, .0125. Anything else names its unit: .094 in, 7/32 in in a row of 64ths. */
void entry_show(const char *text, const struct field *field, const struct shop_units *units,
                struct strbuf *out);

/* The same where no unit stands beside it: 61 % of a file that has 61. */
void entry_show_whole(const char *text, const struct field *field, struct strbuf *out);

#endif
