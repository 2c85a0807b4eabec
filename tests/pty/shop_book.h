/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SHOP_BOOK_H
#define SILLET_TESTS_SHOP_BOOK_H

#include <stdbool.h>
#include <stddef.h>

/*
 * What is on file in a folder, read line by line, by nothing that the program has: what the answers
 * of its shelf are compared with.
 */

enum { BOOK_VISITS_MAX = 12, BOOK_TEXT = 80 };

struct book_visit {
    char date[12], promised[12], handed_over[12]; /* "" for none */
    double relief_mm;                             /* as last read; below 0: never */
};

struct book_item {
    char file[BOOK_TEXT], name[BOOK_TEXT], kind[BOOK_TEXT], owner[BOOK_TEXT], maker[BOOK_TEXT],
        serial[BOOK_TEXT];
    double target_relief_mm;
    double exposure_mm[2], exposure_min_mm; /* as last read; below 0: never */
    struct book_visit visit[BOOK_VISITS_MAX];
    int visits;
};

struct book {
    struct book_item *items;
    size_t count;
};

/* Fails the test if it cannot. */
void book_read(const char *folder, struct book *ret_book);
void book_done(struct book *book);

bool book_in_house(const struct book_item *item);

/* NULL if none has that name. */
const struct book_item *book_find(const struct book *book, const char *name);

#endif
