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
#include "model/reading/prices.h"
#include "model/reading/ticket.h"
#include "model/survey/usual.h"

/*
 * A session with one instrument: its record, what is being typed, where the tech is on the route,
 * and everything derived from that. It never touches disk, clock or terminal: events and the time
 * come in, effects go out, and the caller carries them out.
 */

/* The time of an event, as the profile writes it. */
struct app_clock {
    char date[11]; /* 2026-03-02 */
    char time[9];  /* 10:42 or 10:42:07 */
};

/* What is done about the shop's own targets for the instrument's kind. */
enum app_targets { TARGETS_STAY, TARGETS_KEEP, TARGETS_FORGET };

/* What is written of the visit in hand. */
enum app_paper {
    PAPER_NONE,
    PAPER_SHEET,
    PAPER_HANDED_OVER, /* the sheet, because the instrument was handed over just now */
    PAPER_ESTIMATE,
    PAPER_CARD,
    PAPER_LABEL,
    PAPER_RESET
};

/* What the caller has to do after an event. */
struct app_effects {
    bool save;            /* the record changed: write it */
    bool units;           /* the shop's gauges changed: remember them */
    enum app_paper paper; /* write it; of PAPER_RESET the templates that it asked for */
    enum app_targets targets;
    int price;    /* 1 + the row of app->prices (prices.h) that changed: remember it; 0: none */
    bool repaint; /* paint everything anew */
    bool suspend; /* stop the process for a while */
    bool quit;
};

enum app_overlay { OVERLAY_NONE, OVERLAY_HELP, OVERLAY_WHY, OVERLAY_MENU };

/* The kind of a message. */
enum app_tone { TONE_NONE, TONE_NOTE, TONE_WARNING };

/* Whether the record is on disk. */
enum app_keeping { KEEPING_AS_FILED, KEEPING_KEPT, KEEPING_FAILED, KEEPING_READ_ONLY };

/* How far the question about an entry in doubt has got (held.h). */
enum held_state {
    HELD_NO,
    HELD_ASKED,   /* just now: Enter files it */
    HELD_WAITS,   /* other keys came between: Enter asks again */
    HELD_REFUSED, /* a number that could not be taken: it stands until it is emptied or mended */
};

enum { APP_MESSAGE_MAX = 240, PASTE_MAX = 4000 };

/* A question that gets the keys before the cell in hand does, until it is answered or dropped. */
struct asked {
    /* Gets every key first; true if the key needs no further handling. */
    bool (*take_key)(struct turn *turn, uint32_t key);
    /* If a name is asked for: which names, and the function that reads the entry. look is NULL if
     * the entry still belongs to the cell. */
    enum name_list_of names;
    void (*look)(struct app *app);
    /* If a number is asked for instead, with `look`: its prompt, and the hint while nothing is
     * typed. */
    void (*add_prompt)(const struct app *app, struct strbuf *out);
    void (*add_hint)(const struct app *app, struct strbuf *out);
    /* What Enter and Esc do, for the key line; NULL: the same as in any cell. */
    const char *enter, *escape;
};

struct app {
    const struct leaves *leaves;
    void *state[LEAF_COUNT_]; /* what each leaf keeps (leaf.h) */

    struct record record; /* answers as of the visit in hand */
    struct undo undo;
    struct shop_units units;
    bool metric;
    bool from_shelf;               /* opened from the shelf: quitting goes back there */
    struct rod_priors priors;      /* what rods do to the other necks on the shelf, by kind */
    struct usuals usuals;          /* what is usual on the shelf for its kind */
    struct ticket shelf_ticket;    /* the last one on the shelf */
    struct reading ticket;         /* the next one, which is offered; its text is ticket_text */
    char ticket_text[TICKET_SIZE]; /* "" where the shop has no numbered tickets */
    struct prices prices;          /* the shop's */
    unsigned shop_kinds;           /* a bit for each kind that the shop has its own targets for */

    int visit, pass; /* the pass in hand; it may have no reading yet */
    bool correcting; /* what is filed corrects the visits before (change.h) */
    unsigned alone; /* a bit for each string of a course that is to be read by itself in the pass in
                     * hand, and has no reading yet */
    bool fresh;     /* the pass was just begun, and nothing changed since */
    const struct asked *asked;   /* NULL: nothing is asked */
    struct pass_place asked_out; /* the pass or visit that the question is about (take_out.h) */
    struct pass_place named;     /* the pass whose label and note are being written, or none */
    struct pass_place begun;     /* an empty pass left by turning to another leaf, or none */
    enum leaf leaf;
    struct route route;     /* of the leaf in hand */
    int at;                 /* the cell in hand; route.count: the pass's end */
    bool stayed;            /* Enter filed the cell in hand, and there is none after it */
    int at_of[LEAF_COUNT_]; /* the cells that were in hand on the other leaves, for this pass */

    struct lineedit entry;
    bool writing;  /* a text is being written: every character belongs to the entry */
    bool opened;   /* the entry began with what the cell holds, to edit it */
    bool proposed; /* the entry was proposed by a step: a digit begins a new one */
    struct entry_view entry_view;
    struct doubt doubt;    /* about the entry */
    char doubt_words[160]; /* the same in words; "" for none */
    enum held_state held;
    struct choice choice;   /* what the entry means if there is a list of names */
    struct past past;       /* what came before the pass in hand */
    struct derived now;     /* from the pass in hand as kept */
    struct derived preview; /* the same with the entry taken; valid while previewing. An entry in
                             * doubt is not previewed */
    bool previewing;
    struct derived before; /* from the pass before in the same visit; valid with has_before */
    bool has_before;
    struct move_words moves[MOVE_COUNT_]; /* of preview while previewing, else of now */

    enum app_overlay overlay;
    enum figure_id why; /* what OVERLAY_WHY explains; FIGURE_COUNT_: the note's headroom */
    bool why_reading;   /* it explains the cell in hand first */
    int overlay_top;    /* first line shown of a long overlay */
    struct menu menu;   /* with OVERLAY_MENU: its items are commands */
    enum app_tone tone;
    char message[APP_MESSAGE_MAX];
    bool pasting; /* paste.h */
    bool paste_is_full;
    size_t paste_length;
    char paste[PASTE_MAX + 1];
    bool warned; /* the key before was answered with a warning */
    struct {
        uint32_t key; /* the key before if it was a letter outside an entry, else 0 */
        bool is_word; /* there were letters before it */
    } letter;
    bool deleting;  /* the key before was a Del in an entry, or one after such a Del */
    char today[11]; /* the clock's date at the last event */
    enum app_keeping keeping;
    char kept_at[9];
    bool aside;      /* while keeping fails: the record is kept in another place meanwhile */
    bool quit_asked; /* quitting was asked for once after the last save failed */
};

/*
 * Begins a session with these leaves, which must outlive it. Takes over the record and empties the
 * caller's. The pass in hand is the record's current one; if there is none, pass 1 of the last
 * visit, or of visit 1 in an empty record. STATUS_NO_MEMORY: nothing was begun, and the record
 * still belongs to the caller.
 */
enum status app_init(struct app *app, const struct leaves *leaves, struct record *record,
                     bool metric, const struct shop_units *units, bool read_only);
void app_done(struct app *app);

/* Handles one event. */
struct app_effects app_handle(struct app *app, const struct event *event,
                              const struct app_clock *clock);

/* The row of the leaf in hand. */
const struct leaf_row *app_row(const struct app *app);

/* Tells the session how saving went, with a message to show; `message` may be NULL. */
void app_kept(struct app *app, enum status status, const struct app_clock *clock,
              const char *message);

/* Shows a message until the next key. */
void app_say(struct app *app, enum app_tone tone, const char *message);

/* The day of the clock; 1 January of the year 0 before the first event. */
struct day app_today(const struct app *app);

/* The day that the entry goes by: where it is the date of a promise, the visit's own day, since a
 * visit may be written down later; else that of the clock. */
struct day app_today_typed(const struct app *app);

/* The pass in hand, in the record and by its number alone. */
struct place app_place(const struct app *app);
struct pass_place app_pass_in_hand(const struct app *app);

/* What rods do to other necks of the instrument's kind; NULL if it has none. */
const struct rod_prior *app_prior(const struct app *app);

/* Gives the session the last ticket on the shelf. */
void app_take_ticket(struct app *app, const struct ticket *last);

/* Gives the session what the other necks on the shelf do, and derives what rests on that. */
void app_take_priors(struct app *app, const struct rod_priors *priors);
void app_take_usuals(struct app *app, const struct usuals *usuals);

/* The results to show: the preview while there is one, else those of the pass as kept. */
const struct derived *app_shown(const struct app *app);

/* The cell in hand; NULL at the pass's end. */
const struct route_cell *app_cell(const struct app *app);

/* Whether something is typed, a name is asked for, or a cell is open for editing; and whether a
 * text was opened and emptied, so that Enter takes it out. */
bool app_is_typing(const struct app *app);
bool app_is_emptied(const struct app *app);

/* The field that the entry is for; NULL if it is for no cell. And whether its text is edited rather
 * than typed again. */
const struct field *app_field(const struct app *app);
bool app_is_edited(const struct app *app);

/* Whether a name or a number is asked for, so that the entry is not a reading of the cell in hand.
 */
bool app_is_asked(const struct app *app);

/* The names that the entry is matched with: those asked for, else those of the cell in hand. One of
 * the two must exist. */
struct name_list app_names(const struct app *app);

/* Whether a letter begins a text in the cell in hand, so that letters are not commands there. */
bool app_takes_letters(const struct app *app);

/* The last pass of the visit in hand that has a reading, or the pass in hand if that is later. */
int app_last_pass(const struct app *app);

/* Whether the pass in hand has no reading of its own yet. */
bool app_pass_is_empty(const struct app *app);

/* A cell's reading in the latest earlier pass that has one; NULL for none. */
const struct reading *app_reading_before(const struct app *app, const struct route_cell *cell);

/* How nut gaps are read in the pass in hand: as entered, else as in the pass before it. */
enum nut_method app_nut_method(const struct app *app);

/* What a cell of the leaf in hand should read after the work done since the pass before; absent
 * where that is not known. */
struct maybe app_expected(const struct app *app, const struct route_cell *cell);

/* The figure that `?` explains first for the cell in hand (FIGURE_COUNT_: a headroom), and the
 * string that it is for. */
enum figure_id app_figure(const struct app *app);
int app_string(const struct app *app);

/* The note of the string in hand whose headroom is looked at; -1 for none. */
int app_note(const struct app *app);

/* False if the profile may only be read. */
bool app_may_change(const struct app *app);

#endif
