/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_LEAF_H
#define SILLET_SESSION_LEAF_H

#include <stddef.h>

#include "model/derive/derive.h"
#include "model/doubt/doubt.h"
#include "model/figure/figure.h"
#include "model/reading/outfit.h"
#include "model/reading/place.h"
#include "session/entry.h"
#include "session/pass_place.h"
#include "session/route.h"

/*
 * The leaves: the screens of one instrument, turned with PgUp and PgDn. Each leaf's folder defines
 * it in one row; the session knows leaves only by the rows that it is given.
 */

struct app;
struct turn;
struct pen;
struct command_act;
struct command_instead;

enum leaf {
#define LEAF(id, ...) LEAF_##id,
#include "session/leaf_table.h"
#undef LEAF
    LEAF_COUNT_
};

/* What the layout of a leaf depends on. */
struct leaf_place {
    const struct record *record;
    struct outfit outfit;
    int strings, frets; /* 0 if not entered */
    int visit, pass;
    struct pass_place named; /* the pass whose label and note are being written, or none */
};

/* One leaf. Only lay, shows and draw are required; each other member says what NULL means. */
struct leaf_row {
    /* A pass is measured here, and sessions begin here. */
    bool is_bench;
    /* Its cells belong to a visit as a whole, so that undo does not take another pass in hand. */
    bool is_of_visit;
    /* Size of what it keeps during a session, zeroed at the start: app->state[leaf]. */
    size_t state_size;

    /* Adds its cells, in the order of the route. */
    void (*lay)(const struct leaf_place *place, struct route *route);

    /* The figure that `?` explains first if there is no figure(). */
    enum figure_id leaf_figure;
    /* The same for the cell in hand. FIGURE_COUNT_ is the headroom of app_note; the arrows then go
     * on to leaf_figure. NULL: always leaf_figure. */
    enum figure_id (*figure)(const struct app *app);

    /* Whether `?` first explains how the cell in hand is read. NULL: it always does. */
    bool (*explains_cell)(const struct app *app);
    /* Whether the figure follows from that cell. NULL: never. */
    bool (*has_figure)(const struct route_cell *cell);

    /* The note whose headroom `?` explains; -1 for none. NULL: always none. */
    int (*note)(const struct app *app);

    /* What commands of all leaves do here instead; ends with COMMAND_NONE. Not used while a label
     * is written. NULL: they do what they do elsewhere. */
    const struct command_instead *instead;

    /* How much it shows of what is derived, and whether the ± of what is predicted is of that
     * (derive_predicted_u). */
    enum derive_depth shows;
    bool shows_predicted_u;

    /* Works out what only this leaf shows, from app_shown and the readings at `place`, so that the
     * two agree: while the entry is previewed it is among them, during the call only. Called for
     * every key that is typed, so it has to be quick. NULL: nothing to work out. */
    void (*plan)(struct app *app, struct place place);

    /* Called whenever a pass is taken in hand, on whichever leaf. NULL: nothing to do. */
    void (*take_pass)(struct app *app);

    /* What a cell should read after the work done since the pass before; absent if that is not
     * known. NULL: it is never known. */
    struct maybe (*expected)(const struct app *app, const struct route_cell *cell);
    /* Appends which work that is, "after rod, if done"; false, nothing appended, after work that
     * leaves nothing to expect. Required with expected(). */
    bool (*add_expected_after)(const struct app *app, struct strbuf *out);

    /* The moves that change what a cell reads, a bit for each (work_since.h); 0: its last value is
     * not offered again (again.h). NULL: none is. */
    unsigned (*moved_by)(const struct app *app, const struct route_cell *cell);

    /* Chooses the cell in hand after the leaf or the pass was taken in hand (`entering`), or after
     * a step of undo (not `entering`). NULL: it stays. */
    void (*settle)(struct app *app, bool entering);

    /* What Enter does. NULL: turn_accept_cell. */
    void (*accept)(struct turn *turn);

    /* Called before an entry is filed in the cell in hand. NULL: nothing to do. */
    void (*before_filing)(struct app *app);
    /* Called right after it, in the same step of undo; `text` is the entry as filed. NULL: nothing
     * to do. */
    void (*after_filing)(struct turn *turn, const char *text);

    /* Completes what the entry is tested for doubts by. May replace the field and the view that
     * are tested: 1/4 typed as work on the rod is tested as FIELD_ROD_TURN. NULL: the cell's field
     * and the entry's view are right. */
    void (*about)(const struct app *app, struct doubt_about *about, enum field_id *field,
                  struct entry_view *view);

    /* Shows what a step of undo changed. NULL: its pass and its cell are taken in hand. */
    void (*show)(struct app *app, const struct reading_key *key);

    /* The pass looked at, which need not be the one in hand; the visit in hand with pass 0 if there
     * is none. NULL: none is looked at. */
    struct pass_place (*looked_at)(const struct app *app);

    /* What the entry line asks for. NULL: the cell in hand. */
    void (*add_prompt)(const struct app *app, struct strbuf *out);
    /* Its hint while nothing is typed. NULL: what the cell in hand measures and holds. */
    void (*add_hint)(const struct app *app, struct strbuf *out);

    /* Draws the leaf into `rows` rows (at least 19). Returns a caution to show in the message row,
     * "" for none. */
    const char *(*draw)(const struct pen *pen, const struct app *app, int row, int rows);
};

/* All leaves, and what the commands do (command.h). */
struct leaves {
    const struct leaf_row *row[LEAF_COUNT_];
    const struct command_act *act; /* by enum command_id */
};

const char *leaf_name(enum leaf leaf);

/* Empties the route and adds the leaf's cells. */
void leaf_lay(const struct leaf_row *row, const struct leaf_place *place, struct route *route);

/* For has_figure, if every cell has one. */
bool leaf_every_cell(const struct route_cell *cell);

#endif
