/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_QUESTION_H
#define SILLET_SHELF_SHELF_QUESTION_H

#include "shelf/shelf_column.h"

/* What a shop asks its shelf: which instruments, in which order, with which columns. They are
 * answered by what was read for the list; no profile is opened. */

enum shelf_question {
#define QUESTION(id, ...) SHELF_##id,
#include "shelf/shelf_question_table.h"
#undef QUESTION
    SHELF_QUESTIONS_
};

enum { QUESTION_COLUMNS_MAX = 8 };

/* A due check is listed so many days ahead. */
enum { QUESTION_AHEAD_DAYS = 30 };

struct shelf_question_row {
    const char *title; /* after a number: "3 in the house" */
    const char *none;  /* what it means that there are none */
    /* On the screen, with their widths at 80 columns; the first one named WIDE takes what is left.
     */
    struct {
        enum shelf_column column;
        int width;
    } shown[QUESTION_COLUMNS_MAX];
    int shown_count;
    bool (*answers)(const struct shelf_ground *ground, const struct shelf_item *item);
    /* The least comes first; NULL: as the list is. */
    double (*order)(const struct shelf_item *item);
};

const struct shelf_question_row *shelf_question_get(enum shelf_question question);

#endif
