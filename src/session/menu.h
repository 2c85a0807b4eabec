/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_MENU_H
#define SILLET_SESSION_MENU_H

#include <stdbool.h>
#include <stdint.h>

/*
 * The menu, which one key of the number pad opens: what can be done now. Each item has a letter,
 * and a digit on its page. All pages are on the screen at once; a digit is for the page in hand, 0
 * goes to the next page, also where nothing can be done on it now, a point to what is needed less
 * often, a second one to the rest. No item is in hand until an arrow takes one, so that Enter alone
 * does nothing.
 */

enum { MENU_PAGES = 5, MENU_ITEMS_MAX = MENU_PAGES * 9, MENU_KEY = '*' };

/* An item's place: its page and its digit in one number. */
#define ON_FIRST(digit)  (digit)
#define ON_LEAVES(digit) (10 + (digit))
#define ON_VISIT(digit)  (20 + (digit))
#define ON_MORE(digit)   (30 + (digit))
#define ON_REST(digit)   (40 + (digit))

struct menu_item {
    int id; /* the caller's */
    int page, digit;
    uint32_t letter;
    char words[72];
};

struct menu {
    struct menu_item items[MENU_ITEMS_MAX]; /* by page and digit */
    int count;
    unsigned pages; /* those that there are, as bits */
    int page;
    int at; /* the item in hand; -1 for none */
};

void menu_clear(struct menu *menu);

/* Has the page of a place, though its command may not be listed now: pages and digits stay where
 * the hand knows them. */
void menu_keep_page(struct menu *menu, int place);

/* Adds an item, sorted by place. Use each place once. NULL if the menu is full. */
struct menu_item *menu_add(struct menu *menu, int id, int place, uint32_t letter);

/* The page in hand: the one taken, or the next that there is. */
int menu_page(const struct menu *menu);

/* The first item of a page; `count` if it has none. */
int menu_first(const struct menu *menu, int page);

enum menu_answer {
    MENU_STAYS,  /* it stays open: the key moved in it, or means nothing */
    MENU_LACKS,  /* it closes: the key is a digit without an item on its page */
    MENU_CLOSES, /* it closes, and nothing is done */
    MENU_TAKES,  /* it closes, and *ret_id is to be done */
    MENU_PASSES, /* it closes, and the key is to be handled as without it */
};

enum menu_answer menu_handle(struct menu *menu, uint32_t key, int *ret_id);

#endif
