/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_LIST_H
#define SILLET_SHELF_SHELF_LIST_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "model/reading/record_join.h"
#include "session/app.h"
#include "session/menu.h"
#include "shelf/shelf_key.h"
#include "shelf/shelf_question.h"
#include "shelf/shelf_search.h"
#include "shelf/shelf_start.h"

/*
 * The shelf: which instruments are on file, which of them match what is typed, and which one is in
 * hand. Like a session (app.h) it is pure: the items are given to it, events come in, and effects
 * go out.
 */

/* An earlier state of the one in hand, or another version beside its file. */
struct shelf_earlier {
    char when[17];   /* 2026-11-25 13:06 */
    char holds[120]; /* what is in it, in words */
    bool beside;
};

enum { SHELF_FILE_MAX = 256 };

/* What the pane shows of a visit that is not the one last left. */
struct shelf_visit {
    char file[SHELF_FILE_MAX]; /* of the instrument; "" for none */
    int by;                    /* with SHELF_DO_VISIT: the one before or after it, -1 or 1 */
    int visit, number, count;
    bool over; /* else it is as it stands */
    struct shelf_facts facts;
};

/* What was done to an instrument: one line of the journal. */
struct shelf_journal_line {
    int day;
    char time[8]; /* "" where only the day is known */
    const char *name, *what, *words, *amount, *note;
};

/* The days that the journal shows: one, or a month. */
struct shelf_journal {
    int first, end; /* `end` is not in it */
    int day;        /* in a month, the one that it was turned from */
    bool month;
    const struct shelf_journal_line *lines; /* not owned */
    size_t count;
};

/* Two versions being put together (record_join.h): the file on the left, another version on the
 * right. The caller owns them while the shelf is in SHELF_TOGETHER; the list changes the sides. */
struct shelf_together {
    const struct record_join *join;
    struct join_difference *differences;
    size_t count, at;
    const char *right; /* what the other version is called: "conflict.2" */
    const char *since; /* when the state that both come from was kept, UTC; "": unknown */
};

/* What the caller has to do after an event. */
enum shelf_action {
    SHELF_DO_NOTHING,
    SHELF_DO_OPEN,    /* the item in hand */
    SHELF_DO_NEW,     /* from the starting point list->preset under list->name */
    SHELF_DO_COPY,    /* of list->target, under list->name */
    SHELF_DO_ARCHIVE, /* list->target */
    SHELF_DO_EARLIER, /* pass the earlier states of list->target to shelf_earlier_take */
    SHELF_DO_LOOK,    /* at the one at list->earlier_at */
    SHELF_DO_BRING_BACK,
    SHELF_DO_JOURNAL,  /* pass what was done in the days of list->journal to shelf_journal_take */
    SHELF_DO_VISIT,    /* pass the record of the one in hand to shelf_visit_take */
    SHELF_DO_PUT_AWAY, /* move that version from beside the file to the earlier states */
    SHELF_DO_TOGETHER, /* pass that version and list->target to shelf_together_take */
    SHELF_DO_JOIN,     /* save list->together; it is over unless it failed */
};

/* Which units the shop's settings are to say before the action. */
enum shelf_take_units { SHELF_TAKE_NONE, SHELF_TAKE_INCH, SHELF_TAKE_METRIC };

struct shelf_effects {
    enum shelf_action action;
    enum shelf_take_units units; /* with SHELF_DO_NEW */
    enum leaf leaf;              /* the leaf to open it on */
    bool rescan, repaint, suspend, quit;
};

struct shelf_list {
    struct shelf_item *items;
    const struct shelf_item *
        *order; /* all items, the latest visit first; on the same day, the file written last */
    const struct shelf_item **found; /* those that match, in that order */
    bool *matches;                   /* of each item, whether it is among them */
    struct shelf_search search;
    size_t count, found_count, capacity;
    size_t unread, glanced; /* how many items are so marked */
    bool moved;             /* an item is not where it belongs in the order */

    enum shelf_question question; /* only those that are its answer match */
    struct shelf_ground ground;   /* today and units are set by the caller */
    double moisture_day;          /* of the visit that ground.moisture_now is of */
    struct lineedit filter;
    size_t at, top;              /* in found: the one in hand, the first on the screen */
    char chosen[SHELF_FILE_MAX]; /* the file in hand, to find it again; "" for whichever is first */
    bool pasting;                /* keys are being pasted */
    bool typing;                 /* the last key changed what is typed */
    bool used;                   /* an instrument was opened: typing begins a new search */
    int rows;                    /* of a page; set by the caller */

    enum shelf_mode mode;
    struct menu menu;               /* with SHELF_MENU: its items are keys of the table */
    struct shelf_starts starts;     /* for a new one, with SHELF_PRESETS and SHELF_NAMING */
    int preset;                     /* the built-in one last in hand */
    char own_start[SHELF_FILE_MAX]; /* the shop's own in hand; "": a built-in one is */
    struct lineedit name;
    bool proposed;               /* the name is a proposal: typing replaces it */
    bool copying;                /* it is for a new one from `target` */
    bool ask_units;              /* the shop's settings do not say its units: set by the caller */
    enum shelf_mode named_from;  /* the list, or the starting points */
    char target[SHELF_FILE_MAX]; /* the file that a command is for */
    const struct shelf_earlier *earlier; /* the newest first; not owned */
    size_t earlier_count, earlier_at;
    struct shelf_together together; /* with SHELF_TOGETHER */
    struct shelf_visit visit;
    struct shelf_journal journal; /* with SHELF_JOURNAL */
    int help_top;                 /* of the help, the table, the journal */
    int table;                    /* with SHELF_TABLE: an enum shelf_table_id */

    const char *folder;            /* to be shown; not owned */
    char failure[APP_MESSAGE_MAX]; /* why the folder cannot be listed; "" if it can */
    enum app_tone tone;
    char message[APP_MESSAGE_MAX];
};

void shelf_list_init(struct shelf_list *list, const char *folder, const struct shelf_start *presets,
                     int preset_count);
void shelf_list_done(struct shelf_list *list);

/*
 * Makes room for that many items, for the caller to fill in before shelf_list_take. All earlier
 * items are dropped. NULL, and an empty list, if out of memory.
 */
struct shelf_item *shelf_list_room(struct shelf_list *list, size_t count);

/* Sorts and narrows the items. The one in hand stays in hand if it is still found. */
void shelf_list_take(struct shelf_list *list);

/*
 * Replaces an item after more of it was read. It stays where it is in the list until
 * shelf_list_freshen, which is quick even in a long one, but not as quick as a key should be.
 */
void shelf_list_put(struct shelf_list *list, size_t at, const struct shelf_item *item);
void shelf_list_freshen(struct shelf_list *list);

/* Takes a file's item in hand. If the filter hides it, drops what is typed. */
void shelf_list_choose(struct shelf_list *list, const char *file);

/* The same for one that was opened from the list. If it is no answer to the question any more, as
 * once it was handed over, the next one is in hand. */
void shelf_list_return(struct shelf_list *list, const char *file);

/* The item in hand; NULL if none is found. */
const struct shelf_item *shelf_list_item(const struct shelf_list *list);

struct shelf_effects shelf_list_handle(struct shelf_list *list, const struct event *event);

/* Shows a message until the next key. */
void shelf_list_say(struct shelf_list *list, enum app_tone tone, const char *message);

/* Scrolls no further than it takes to show the one in hand. */
void shelf_list_scroll(struct shelf_list *list);

/* Narrows the items again after the filter or the question changed. */
void shelf_list_narrow(struct shelf_list *list);

#endif
