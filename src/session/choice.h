/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_CHOICE_H
#define SILLET_SESSION_CHOICE_H

#include "model/reading/candidates.h"

/*
 * What is typed where names are to be had (name_list.h): a number of the list (from 1), a name, its
 * beginning, a word of the trade. What is shown and what Enter takes follow from the text alone.
 */

enum choice_state {
    CHOICE_NONE,    /* nothing typed, or there is no list */
    CHOICE_TAKEN,   /* Enter takes the one in hand */
    CHOICE_WHICH,   /* several could be meant */
    CHOICE_NEAREST, /* none is; these are like it */
    CHOICE_UNKNOWN, /* nothing is like it */
    CHOICE_BEYOND,  /* a number past the list's end */
};

struct choice {
    enum choice_state state;
    struct candidates found; /* to be shown: what could be meant; the whole list for a number */
    int in_hand;             /* place in the list; -1 for none */
};

/* What a text means. */
void choice_look(const char *text, const struct name_list *list, struct choice *ret_choice);

/* The whole list with one of it in hand (-1: none), while nothing is typed. */
void choice_show(const struct name_list *list, int in_hand, struct choice *ret_choice);

/* Whether Enter takes what is typed: the one in hand, or where the list is not closed the text. */
bool choice_is_good(const struct choice *choice, const struct name_list *list);

/* Whether it is asked once whether that text is meant. */
bool choice_is_doubtful(const struct choice *choice, const struct name_list *list);

/* Appends the text to keep: the name in hand, else what was typed. */
void choice_spell(const char *text, const struct name_list *list, struct strbuf *out);

/* Appends what is to be said behind what is typed; nothing where the text says it all. */
void choice_add_words(const struct choice *choice, const struct name_list *list, const char *text,
                      struct strbuf *out);

#endif
