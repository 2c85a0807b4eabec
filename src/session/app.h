/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_APP_H
#define SILLET_SESSION_APP_H

#include <stdbool.h>

#include "session/choice.h"
#include "session/command.h"
#include "session/entry.h"
#include "session/event.h"
#include "session/leaf.h"
#include "session/lineedit.h"
#include "session/menu.h"
#include "words/move_words.h"
#include "session/route.h"
#include "session/undo.h"
#include "base/status.h"
#include "model/derive/derive.h"
#include "model/doubt/doubt.h"
#include "model/reading/record.h"

/*
 * A session with one instrument: its record, what is being typed, where the tech stands on
 * the route, and what follows from it all. It never touches disk, clock or terminal:
 * events and the time come in, effects go out, and whoever runs it carries them out.
 */

/* The time of an event, as the profile writes it. */
struct app_clock {
    char date[11]; /* 2026-03-02 */
    char time[9];  /* 10:42 or 10:42:07 */
};

/* What has to be done after an event. */
struct app_effects {
    bool save;    /* the record changed: write it */
    bool units;   /* the shop's gauges changed: remember them */
    bool sheet;   /* the customer's sheet of the visit in hand is wanted */
    bool repaint; /* paint everything anew */
    bool suspend; /* stop the process for a while */
    bool quit;
};

enum app_overlay { OVERLAY_NONE, OVERLAY_HELP, OVERLAY_WHY, OVERLAY_MENU };

/* How a message is meant. */
enum app_tone { TONE_NONE, TONE_NOTE, TONE_WARNING };

/* Where the record stands as far as the disk goes. */
enum app_keeping { KEEPING_AS_FILED, KEEPING_KEPT, KEEPING_FAILED, KEEPING_READ_ONLY };

/* Whether Enter was asked to file an entry that is in doubt (held.h). */
enum held_state {
    HELD_NO,
    HELD_ASKED, /* just now: Enter files it */
    HELD_WAITS, /* other keys came between: Enter asks again */
};

enum { APP_MESSAGE_MAX = 240, PASTE_MAX = 4000 };

/* A question that stands before the cell in hand until it is answered or left. */
struct asked {
    /* Gets every key first; true where that is all there is to do with it. */
    bool (*take_key)(struct turn *turn, uint32_t key);
    /* Where a name is asked for, which names, and what follows from the entry; look is NULL where
     * the entry still belongs to the cell. */
    enum name_list_of names;
    void (*look)(struct app *app);
    /* What Enter and Esc do, for the key line; NULL for what they do in any cell. */
    const char *enter, *escape;
};

struct app {
    const struct leaves *leaves;
    void *state[LEAF_COUNT_]; /* what each leaf keeps (leaf.h) */

    struct record record;
    struct undo undo;
    struct shop_units units;
    bool metric;
    bool from_shelf; /* opened from the shelf, to which leaving it leads back */

    int visit, pass;             /* the pass in hand; it may have no reading yet */
    bool fresh;                  /* it was begun last of all, and nothing changed since */
    const struct asked *asked;   /* NULL: nothing is asked; else it may be: */
    struct pass_place asked_out; /* whether to take this out (take_out.h) */
    struct pass_place named;     /* the pass whose label and note are written; visit 0: none */
    struct pass_place begun;     /* one with nothing in it that was left for another leaf */
    enum leaf leaf;
    struct route route;     /* of the leaf */
    int at;                 /* the cell in hand; route.count: the pass's end */
    int at_of[LEAF_COUNT_]; /* where the tech stood on the other leaves */

    struct lineedit entry;
    bool writing;  /* letters are being written: every character belongs to the entry */
    bool opened;   /* the entry began with what the cell holds, to edit it */
    bool proposed; /* the entry is what a step proposed: a digit begins anew */
    struct entry_view entry_view;
    struct doubt doubt;    /* that filing the entry raises */
    char doubt_words[160]; /* in words; "" for none */
    enum held_state held;
    struct choice choice;   /* what it means where names are to be had */
    struct derived now;     /* of the pass in hand as kept */
    struct derived preview; /* the same with the entry taken; valid while previewing, which an entry
                             * in doubt never is */
    bool previewing;
    struct derived before; /* of the pass before in the same visit; valid with has_before */
    bool has_before;
    struct move_words moves[MOVE_COUNT_]; /* of preview while previewing, else of now */

    enum app_overlay overlay;
    enum figure_id why; /* what OVERLAY_WHY explains; FIGURE_COUNT_: the note's headroom */
    bool why_reading;   /* and before it the cell in hand */
    int overlay_top;    /* first line shown of a long overlay */
    struct menu menu;   /* with OVERLAY_MENU: its items are commands */
    enum app_tone tone;
    char message[APP_MESSAGE_MAX];
    bool pasting; /* paste.h */
    bool paste_is_full;
    size_t paste_length;
    char paste[PASTE_MAX + 1];
    bool warned; /* by the key before */
    struct {
        uint32_t key; /* the key before, where it was a letter outside an entry; 0 for none */
        bool is_word; /* others stood before it */
    } letter;
    char today[11]; /* of the clock, as of the last event */
    enum app_keeping keeping;
    char kept_at[9];
    bool aside;      /* while keeping failed: it is kept in another place meanwhile */
    bool quit_asked; /* leaving was asked for while the last save had failed */
};

/*
 * Begins a session with these leaves, which outlive it. Takes the record over, which is emptied.
 * The pass in hand is the record's current one, or the first of visit 1 in an empty record.
 * STATUS_NO_MEMORY: nothing was begun, the record is the caller's still.
 */
enum status app_init(struct app *app, const struct leaves *leaves, struct record *record,
                     bool metric, const struct shop_units *units, bool read_only);
void app_done(struct app *app);

/* One event. */
struct app_effects app_handle(struct app *app, const struct event *event,
                              const struct app_clock *clock);

/* The row of the leaf in hand. */
const struct leaf_row *app_row(const struct app *app);

/* Turns to a leaf, where the tech stood on it last. */
void app_take_leaf(struct app *app, enum leaf leaf);

/* How saving went, and a message to show; `message` may be NULL. */
void app_kept(struct app *app, enum status status, const struct app_clock *clock,
              const char *message);

/* Shows a message until the next key. */
void app_say(struct app *app, enum app_tone tone, const char *message);

/* The day of the clock; 1 January of the year 0 before the first event. */
struct day app_today(const struct app *app);

/* The pass in hand. */
struct place app_place(const struct app *app);

/* The figures on show: previewed while an entry is understood. */
const struct derived *app_shown(const struct app *app);

/* The cell in hand; NULL at the pass's end. */
const struct route_cell *app_cell(const struct app *app);

/* Whether something is typed, a name asked for, or a cell opened to edit it; whether a text was
 * opened and emptied, so that Enter takes it out. */
bool app_is_typing(const struct app *app);
bool app_is_emptied(const struct app *app);

/* The field of the cell in hand; NULL where no cell is typed into. Whether it is one whose text is
 * edited rather than typed anew. */
const struct field *app_field(const struct app *app);
bool app_is_edited(const struct app *app);

/* Whether a name is asked for, so that what is typed is no reading of the cell in hand. */
bool app_is_asked(const struct app *app);

/* The names that what is typed could mean: of the cell in hand, which there is, or of what is
 * asked. */
struct name_list app_names(const struct app *app);

/* Whether a letter begins to write in the cell in hand, so that none is a command there. */
bool app_takes_letters(const struct app *app);

/* The last pass of the visit in hand that has a reading, or the pass in hand. */
int app_last_pass(const struct app *app);

/* Whether the pass in hand has no reading of its own yet. */
bool app_pass_is_empty(const struct app *app);

/* A cell's reading in the newest earlier pass that has it; NULL for none. */
const struct reading *app_reading_before(const struct app *app, const struct route_cell *cell);

/* How nut gaps are read in the pass in hand: as it says, else as in the pass before it. */
enum nut_method app_nut_method(const struct app *app);

/* What a cell of the leaf in hand should read after what was done since the pass before; absent
 * where that is not known. */
struct maybe app_expected(const struct app *app, const struct route_cell *cell);

/* The figure that `?` explains first for the cell in hand (FIGURE_COUNT_: a headroom), and the
 * string it is asked for. */
enum figure_id app_figure(const struct app *app);
int app_string(const struct app *app);

/* The note of the string in hand whose headroom is looked at; -1 where none is. */
int app_note(const struct app *app);

/* False where the profile may only be read. */
bool app_may_change(const struct app *app);

#endif
