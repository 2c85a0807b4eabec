/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHELF_INSIDE_H
#define SILLET_RUN_SHELF_INSIDE_H

#include <stdbool.h>

#include "run/screen.h"
#include "run/session.h"
#include "run/shelf_earlier_items.h"
#include "run/shelf_journal_lines.h"
#include "commands/shelf_items.h"
#include "store/profile/together.h"

/* Private to run: the shelf on the terminal. shelf_session.c runs it, shelf_do.c carries out its
 * commands, shelf_versions.c and shelf_together.c those for earlier states and other versions;
 * shelf_scan.c reads the folder, and shelf_look_back.c a visit that is over. */

enum { PRESETS_MAX = 64 };

struct shelf_session {
    struct shelf *shelf;
    struct shelf_list list;
    struct screen screen;
    struct shelf_start presets[PRESETS_MAX]; /* for the list */
    bool outdated;                           /* items were read that are not in their places yet */
    size_t unseen;                           /* not even looked at when the list was shown last */
    long long shown_ms, showing_ms;  /* when the list was shown last, and how long that took */
    char loss[APP_MESSAGE_MAX + 64]; /* the last message about lost readings; "" if none */
    struct earlier_items earlier;    /* of list.target, while they are listed */
    struct journal_lines journal;    /* that the list shows */
    struct together *together;       /* while the list is in SHELF_TOGETHER, else NULL */
};

/* Lists the folder again, reads for a short while, and gives the list what was found. */
void shelf_scan_again(struct shelf_session *session);
void shelf_scan_begin(struct shelf_session *session);

/* Reads one more file, and gives the list its item, not yet in its new place: shelf_scan_freshen
 * does that. */
void shelf_scan_step(struct shelf_session *session);
void shelf_scan_freshen(struct shelf_session *session);

/* The monotonic clock, in ms. */
long long shelf_scan_now_ms(void);

/* Reads the one in hand for the visit before or after the one shown (shelf_visit.h). */
void shelf_look_back(struct shelf_session *session);

/* The path of a file of the shelf; the caller frees it. NULL if out of memory. */
char *shelf_path_of(const struct shelf_session *session, const char *file);

/* Says how a session ended, and how a change of the shelf failed, after the words `what`. */
void shelf_tell_end(struct shelf_session *session, enum session_end end, const char *file,
                    const char *words);
void shelf_say_failure(struct shelf_session *session, const char *what, enum status status,
                       int error);

/* Earlier states and other versions of list.target: lists them; the one in hand, NULL if there is
 * none; looks at it, brings it back, puts it away. */
void shelf_versions_list(struct shelf_session *session);
const struct copy *shelf_versions_in_hand(const struct shelf_session *session);
void shelf_versions_look(struct shelf_session *session);
void shelf_versions_bring_back(struct shelf_session *session);
void shelf_versions_put_away(struct shelf_session *session);

/* Puts the one in hand and list.target together: opens both, saves what was chosen, closes both if
 * they are open. */
void shelf_together_begin(struct shelf_session *session);
void shelf_together_join(struct shelf_session *session);
void shelf_together_leave(struct shelf_session *session);

/* Carries out the effects of an event. */
void shelf_session_do(struct shelf_session *session, const struct shelf_effects *effects);

#endif
