/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_CHOICE_H
#define SILLET_SESSION_CHOICE_H

#include "model/reading/candidates.h"

/*
 * An entry in a cell that has a list of names (name_list.h): a number in the list (from 1), a name,
 * the beginning of one, or another trade word for it. What is shown and what Enter takes follow
 * from the text alone.
 */

enum choice_state {
    CHOICE_NONE,    /* nothing typed, or there is no list */
    CHOICE_TAKEN,   /* Enter takes the one in hand */
    CHOICE_WHICH,   /* several could be meant */
    CHOICE_NEAREST, /* no name fits; these are similar */
    CHOICE_UNKNOWN, /* no name is similar */
    CHOICE_BEYOND,  /* a number past the list's end */
};

struct choice {
    enum choice_state state;
    struct candidates found; /* to show: what could be meant; the whole list for a number */
    int in_hand;             /* place in the list; -1 for none */
};

/* What a text means. */
void choice_look(const char *text, const struct name_list *list, struct choice *ret_choice);

/* The choice to show while nothing is typed: the whole list, one of it in hand (-1: none). */
void choice_show(const struct name_list *list, int in_hand, struct choice *ret_choice);

/* Whether Enter takes the entry: as the name in hand or, if the list is not closed, as typed. */
bool choice_is_good(const struct choice *choice, const struct name_list *list);

/* Whether Enter asks once before it keeps the entry as typed. */
bool choice_is_doubtful(const struct choice *choice, const struct name_list *list);

/* Appends the text to keep: the name in hand, else what was typed. */
void choice_spell(const char *text, const struct name_list *list, struct strbuf *out);

/* Appends what to show after the entry; nothing if the entry says it all. */
void choice_add_words(const struct choice *choice, const struct name_list *list, const char *text,
                      struct strbuf *out);

#endif
