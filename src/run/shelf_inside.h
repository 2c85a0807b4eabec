/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHELF_INSIDE_H
#define SILLET_RUN_SHELF_INSIDE_H

#include <stdbool.h>

#include "run/screen.h"
#include "run/shelf_earlier_items.h"
#include "commands/shelf_items.h"

/* Inside cli only: the shelf on the terminal, which shelf_session.c runs, shelf_do.c does things
 * for, and shelf_scan.c reads. */

enum { PRESETS_MAX = 64 };

struct shelf_session {
    struct shelf *shelf;
    struct shelf_list list;
    struct screen screen;
    const char *presets[PRESETS_MAX]; /* titles, for the list */
    bool outdated;                    /* cards were read that the list has not been given yet */
    long long shown_ms;
    char loss[APP_MESSAGE_MAX + 64]; /* the last that was lost; "" for nothing */
    struct earlier_items earlier;    /* of list.target, while they are listed */
};

/* What is on file: lists the folder anew, and gives the list what was found. */
void shelf_scan_again(struct shelf_session *session);

/* Reads on for a short while. The list's texts may be gone afterwards: shelf_scan_freshen gives it
 * the new ones before it is shown or handles anything, shelf_scan_give whether or not anything was
 * read. */
void shelf_scan_read(struct shelf_session *session);
void shelf_scan_give(struct shelf_session *session);
void shelf_scan_freshen(struct shelf_session *session);

/* A clock that nobody sets. */
long long shelf_scan_now_ms(void);

/* Carries out what an event asked for. */
void shelf_session_do(struct shelf_session *session, const struct shelf_effects *effects);

#endif
