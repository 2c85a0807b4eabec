/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_LEAF_H
#define SILLET_SESSION_LEAF_H

#include <stddef.h>

#include "model/doubt/doubt.h"
#include "model/figure/figure.h"
#include "model/reading/place.h"
#include "session/entry.h"
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
    int strings, frets; /* 0 if not entered */
    int visit, pass;
    int named_visit, named_pass; /* the pass whose label and note are being written; 0: none */
};

/* A pass by its visit and number; pass 0 for none. */
struct pass_place {
    int visit, pass;
};

/*
 * One leaf. Only lay and draw are required; a NULL elsewhere means that the leaf has nothing of its
 * own there.
 */
struct leaf_row {
    /* A pass is measured here, and sessions begin here. */
    bool is_bench;
    /* Its cells belong to a visit as a whole, so that undo does not take another pass in hand. */
    bool is_of_visit;
    /* Size of what it keeps during a session, zeroed at the start: app->state[leaf]. */
    size_t state_size;

    /* Adds its cells, in the order of the route. */
    void (*lay)(const struct leaf_place *place, struct route *route);

    /* The figure that `?` explains first: that of figure() for the cell in hand, or leaf_figure
     * without it. If figure() returns FIGURE_COUNT_, that is the headroom of app_note, and the
     * arrows go on from there to leaf_figure. */
    enum figure_id leaf_figure;
    enum figure_id (*figure)(const struct app *app);

    /* Whether `?` first explains how the cell in hand is read (NULL: it does), and whether the
     * figure follows from that cell (NULL: it does not). */
    bool (*explains_cell)(const struct app *app);
    bool (*has_figure)(const struct route_cell *cell);

    /* The note whose headroom `?` explains; -1 for none. */
    int (*note)(const struct app *app);

    /* What commands of all leaves do here instead; ends with COMMAND_NONE. Not used while a label
     * is written. */
    const struct command_instead *instead;

    /* Works out what only this leaf shows, at the pass in hand of the record with the entry in
     * it. */
    void (*plan)(struct app *app, struct place place);

    /* Called when another pass is taken in hand, on whichever leaf. */
    void (*take_pass)(struct app *app);

    /* What a cell should read after the work done since the pass before; absent if that is not
     * known. And which work that is; false, nothing appended, if it cannot be told. */
    struct maybe (*expected)(const struct app *app, const struct route_cell *cell);
    bool (*add_expected_after)(const struct app *app, struct strbuf *out);

    /* Chooses the cell in hand after the leaf or the pass was taken in hand (`entering`), or after
     * a step of undo (not `entering`). */
    void (*settle)(struct app *app, bool entering);

    /* What Enter does, instead of turn_accept_cell. */
    void (*accept)(struct turn *turn);

    /* Called before an entry is filed in the cell in hand, and right after it in the same step of
     * undo. `text` is the entry as filed. */
    void (*before_filing)(struct app *app);
    void (*after_filing)(struct turn *turn, const char *text);

    /* What an entry of the cell in hand is besides a reading of its field, for the doubt in it. */
    void (*about)(const struct app *app, struct doubt_about *about, enum field_id *field,
                  struct entry_view *view);

    /* Shows what a step of undo changed, if that is not an ordinary cell. */
    void (*show)(struct app *app, const struct reading_key *key);

    /* The pass looked at, if that can be another than the one in hand. */
    struct pass_place (*looked_at)(const struct app *app);

    /* What the entry line asks for, and its hint while nothing is typed. */
    void (*add_prompt)(const struct app *app, struct strbuf *out);
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
