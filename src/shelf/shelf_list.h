/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_LIST_H
#define SILLET_SHELF_SHELF_LIST_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "session/app.h"
#include "session/menu.h"
#include "shelf/shelf_key.h"
#include "model/derive/card.h"

/*
 * The shelf: which instruments are on file, which of them are found by what is typed, and
 * which one is in hand. Pure like a session with an instrument (app.h): what is on file is
 * given to it, events come in, what is to be done goes out.
 */

enum shelf_mark {
    SHELF_UNREAD = 1,    /* only its file is known yet */
    SHELF_BROKEN = 2,    /* cannot be opened: see `trouble` */
    SHELF_IN_USE = 4,    /* another program edits it */
    SHELF_NEWER = 8,     /* written by a newer version: for reading only */
    SHELF_VERSIONS = 16, /* other versions lie beside it, to be put together */
};

/* One instrument on file. The texts belong to whoever gave them. */
struct shelf_item {
    const char *file;    /* its name in the folder */
    struct card card;    /* all "" where it could not be read */
    const char *trouble; /* a word for why it cannot be opened; "" when it can */
    int64_t written_s;   /* when the file was written last */
    unsigned marks;      /* a set of enum shelf_mark */
};

/* An earlier state of the one in hand, or another version that lies beside it. */
struct shelf_earlier {
    char when[17];   /* 2026-11-25 13:06 */
    char holds[120]; /* what is in it, in words */
    bool beside;
};

/* What has to be done after an event. */
enum shelf_action {
    SHELF_DO_NOTHING,
    SHELF_DO_OPEN,    /* the item in hand */
    SHELF_DO_NEW,     /* from list->preset under list->name */
    SHELF_DO_COPY,    /* of list->target, under list->name */
    SHELF_DO_ARCHIVE, /* list->target */
    SHELF_DO_EARLIER, /* give the earlier states of list->target: shelf_earlier_take */
    SHELF_DO_LOOK,    /* at list->earlier_at of them */
    SHELF_DO_BRING_BACK,
    SHELF_DO_PUT_AWAY, /* with the earlier states: that version, which lies beside the file */
};

struct shelf_effects {
    enum shelf_action action;
    enum leaf leaf; /* on which what is opened is shown first */
    bool rescan, repaint, suspend, quit;
};

enum { SHELF_FILE_MAX = 256 };

struct shelf_list {
    struct shelf_item *items;
    size_t *order; /* all items, the newest visit first; of one day the file written last */
    size_t *found; /* those that match, in that order */
    size_t count, found_count, capacity;

    struct lineedit filter;
    size_t at, top;              /* in found: the one in hand, the first on the screen */
    char chosen[SHELF_FILE_MAX]; /* the file in hand, so that it is found again; "" for
                                    whichever is first */
    bool pasting;                /* what comes is pasted */
    bool typing;                 /* the last key changed what is typed */
    bool used;                   /* what is typed led to one: typing begins a new search */
    int rows;                    /* of a page; whoever shows it sets it */

    enum shelf_mode mode;
    struct menu menu; /* with SHELF_MENU: its items are keys of the table */
    int preset, preset_count;
    const char *const *presets; /* titles, preset_count of them; not owned */
    struct lineedit name;
    bool proposed;                       /* the name is a proposal: typing begins anew */
    bool copying;                        /* what is named is a copy */
    char target[SHELF_FILE_MAX];         /* the file that the menu was opened for */
    const struct shelf_earlier *earlier; /* the newest first; not owned */
    size_t earlier_count, earlier_at;
    int help_top;

    const char *folder;            /* shown; not owned */
    char failure[APP_MESSAGE_MAX]; /* why the folder cannot be listed; "" when it can */
    enum app_tone tone;
    char message[APP_MESSAGE_MAX];
};

void shelf_list_init(struct shelf_list *list, const char *folder, const char *const *presets,
                     int preset_count);
void shelf_list_done(struct shelf_list *list);

/*
 * Room for that many items, to be filled in and then taken by shelf_list_take; NULL, and an
 * empty list, without memory. Whatever was there before is forgotten.
 */
struct shelf_item *shelf_list_room(struct shelf_list *list, size_t count);

/* Sorts and narrows the items; the one in hand stays in hand where it is still found. */
void shelf_list_take(struct shelf_list *list);

/* Takes the item of a file in hand, where it is found; drops what is typed where it is not. */
void shelf_list_choose(struct shelf_list *list, const char *file);

/* The one in hand; NULL when none is found. */
const struct shelf_item *shelf_list_item(const struct shelf_list *list);

/* Items that are unread. */
size_t shelf_list_unread(const struct shelf_list *list);

struct shelf_effects shelf_list_handle(struct shelf_list *list, const struct event *event);

/* Shows a message until the next key. */
void shelf_list_say(struct shelf_list *list, enum app_tone tone, const char *message);

/* Keeps the one in hand on the page, with as little scrolling as that takes. */
void shelf_list_scroll(struct shelf_list *list);

/* Narrows the items anew after the filter changed. */
void shelf_list_narrow(struct shelf_list *list);

/* What an instrument is listed as: its name, or its file where it has none. */
const char *shelf_item_title(const struct shelf_item *item);

/* Makes the menu of what can be done now, and opens it. */
void shelf_menu_open(struct shelf_list *list);

/* "in use, moves open", short where it would be long: "in use, moves". */
void shelf_item_marks(const struct shelf_item *item, bool in_short, struct strbuf *out);

/*
 * True when every word of `words` (parted by blanks) stands in SHELF_SEARCHED. Capital and small
 * ASCII letters are the same; all else has to be equal.
 */
#define SHELF_SEARCHED "name, owner, maker, serial, kind, tuning or year of a visit"
bool shelf_item_matches(const struct shelf_item *item, const char *words);

#endif
