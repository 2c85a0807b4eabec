/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_ENTRY_H
#define SILLET_SESSION_ENTRY_H

#include <stdbool.h>

#include "model/common/day.h"
#include "model/reading/name_list.h"

/*
 * How the program understands what is being typed into a cell, shown before Enter takes it.
 */
enum { ENTRY_TEXT_MAX = 512 }; /* room for any entry as it is kept, its end included */

struct entry_view {
    bool empty;
    bool good;       /* Enter would take it */
    bool doubtful;   /* it would be kept as typed, but a name of the list may be meant */
    double value;    /* when good */
    char words[160]; /* how it was read, or what is wrong with it */
};

/* Reads an entry. A comma in a number counts as a point. `today` is the clock's date, by which a
 * date is read; it may be NULL for other fields. */
void entry_look(const char *text, const struct field *field, const struct shop_units *units,
                const struct day *today, struct entry_view *ret_view);

/* The same for an entry that is matched with a list of names. */
void entry_look_at_name(const char *text, const struct name_list *list,
                        struct entry_view *ret_view);

/*
 * Appends the text to keep for an entry: a number with its unit, as num_spell writes it; a name of
 * a list, as choice.h finds it; a date with the year first; a fret list typed on the number pad,
 * with + between the frets, with blanks instead. Other fields keep what was typed, without blanks
 * around it. STATUS_TOO_LONG if it does not fit; for numbers, fails as num_spell does.
 */
enum status entry_spell(const char *text, const struct field *field, const struct shop_units *units,
                        const struct day *today, struct strbuf *out);

/* Appends a typed number with a point for each comma. */
void entry_add_pointed(const char *text, struct strbuf *out);

/* Appends a kept text as a cell shows it. The unit is dropped if the number alone, read in the unit
 * shown beside the row (amount_unit), gives the value. Feeler leaves typed by number become the
 * row's decimals: 12.5 is shown as .0125, and .6 mm as 0.6. Anything else keeps its unit: .094 in,
 * or 7/32 in in a row of 64ths. */
void entry_show(const char *text, const struct field *field, const struct shop_units *units,
                struct strbuf *out);

/* The same where no unit is shown beside it: 61 in a file is shown as 61 %. */
void entry_show_whole(const char *text, const struct field *field, struct strbuf *out);

#endif
