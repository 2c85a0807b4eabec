/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_SEARCH_H
#define SILLET_SHELF_SHELF_SEARCH_H

#include "shelf/shelf_item.h"

/*
 * Which items the words typed are for. An item matches if every word is in one of SHELF_SEARCHED;
 * in tuning and years only words of four characters or more are looked for, and a ticket, that of
 * the last visit, begins with the word. All are compared as utf8_add_folded has them.
 */
#define SHELF_SEARCHED "name, owner, maker, serial, kind, tuning, ticket or year"

enum { SHELF_WORDS_MAX = 2048 };

/* Words as they are looked for: folded, and a NUL behind each. */
struct shelf_words {
    char text[SHELF_WORDS_MAX];
    size_t length;
};

void shelf_words_take(struct shelf_words *words, const char *typed);
bool shelf_words_match(const struct shelf_words *words, const struct shelf_item *item);

/* The same over a list, at every key: what an item is searched by is made once and kept. */
struct shelf_search {
    const char **texts;          /* of each item; NULL: not made yet */
    size_t count;                /* of the items that there is room for */
    struct search_block *blocks; /* where the texts are */
};

/* For another list of so many items. Short of memory, it searches all the same, and is slower. */
void shelf_search_begin(struct shelf_search *search, size_t count);
void shelf_search_done(struct shelf_search *search);

/* The item at this place has changed. */
void shelf_search_forget(struct shelf_search *search, size_t at);

/* Makes what is not made yet. It takes ten times as long as to search, and can be done before. */
void shelf_search_prepare(struct shelf_search *search, const struct shelf_item *items);

bool shelf_search_finds(struct shelf_search *search, size_t at, const struct shelf_item *item,
                        const struct shelf_words *words);

#endif
