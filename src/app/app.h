/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_APP_H
#define SILLET_APP_APP_H

#include <stdbool.h>

#include "app/command.h"
#include "app/entry.h"
#include "app/event.h"
#include "app/lineedit.h"
#include "app/move_list.h"
#include "app/route.h"
#include "app/undo.h"
#include "base/status.h"
#include "model/derive.h"
#include "model/record.h"

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
    bool repaint; /* paint everything anew */
    bool suspend; /* stop the process for a while */
    bool quit;
};

enum app_overlay { OVERLAY_NONE, OVERLAY_HELP, OVERLAY_WHY };

/* How a message is meant. */
enum app_tone { TONE_NONE, TONE_NOTE, TONE_WARNING };

/* Where the record stands as far as the disk goes. */
enum app_keeping { KEEPING_AS_FILED, KEEPING_KEPT, KEEPING_FAILED, KEEPING_READ_ONLY };

enum { APP_MESSAGE_MAX = 240 };

struct app {
    struct record record;
    struct undo undo;
    struct shop_units units;
    bool metric;

    int visit, pass; /* the pass in hand; it may have no reading yet */
    struct route route;
    int at; /* the cell in hand; route.count: the pass's end */

    struct lineedit entry;
    struct entry_view entry_view;
    struct derived now;     /* of the pass in hand as kept */
    struct derived preview; /* the same with the entry taken; valid while previewing */
    bool previewing;
    struct derived before; /* of the pass before in the same visit; valid with has_before */
    bool has_before;
    struct move_list moves; /* of preview while previewing, else of now */

    enum app_overlay overlay;
    enum figure_id why; /* the figure that OVERLAY_WHY explains */
    int overlay_top; /* first line shown of a long overlay */
    enum app_tone tone;
    char message[APP_MESSAGE_MAX];
    enum app_keeping keeping;
    char kept_at[9];
    bool quit_asked; /* leaving was asked for while the last save had failed */
};

/*
 * Begins a session. Takes the record over, which is emptied. The pass
 * in hand is the record's current one, or the first of visit 1 in an empty record.
 */
void app_init(struct app *app, struct record *record, bool metric, const struct shop_units *units,
              bool read_only);
void app_done(struct app *app);

/* One event. */
struct app_effects app_handle(struct app *app, const struct event *event,
                              const struct app_clock *clock);

/* How saving went, and a message to show; `message` may be NULL. */
void app_kept(struct app *app, enum status status, const struct app_clock *clock,
              const char *message);

/* Shows a message until the next key. */
void app_say(struct app *app, enum app_tone tone, const char *message);

/* The figures on show: previewed while an entry is understood. */
const struct derived *app_shown(const struct app *app);

/* The cell in hand; NULL at the pass's end. */
const struct route_cell *app_cell(const struct app *app);

/* The last pass of the visit in hand that has a reading, or the pass in hand. */
int app_last_pass(const struct app *app);

/* How nut gaps are read in the pass in hand: as it says, else as in the pass before it. */
enum nut_method app_nut_method(const struct app *app);

/* What a cell should read after the moves due in the pass before, where that is known. */
bool app_expected(const struct app *app, const struct route_cell *cell, double *ret_mm);

/* The figure that `?` explains first for the cell in hand, and the string it is asked for. */
enum figure_id app_figure(const struct app *app);
int app_string(const struct app *app);

#endif
