/* SPDX-License-Identifier: MIT */
#ifndef SILLET_CLI_SHELF_INSIDE_H
#define SILLET_CLI_SHELF_INSIDE_H

#include <stdbool.h>

#include "cli/screen.h"
#include "cli/shelf_earlier_items.h"
#include "cli/shelf_items.h"

/* Inside cli only: the shelf on the terminal, which shelf_session.c runs and shelf_do.c does
 * things for. */

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

/* Lists the folder anew, and gives the list what was found. */
void shelf_session_rescan(struct shelf_session *session);

/* Carries out what an event asked for. */
void shelf_session_do(struct shelf_session *session, const struct shelf_effects *effects);

#endif
