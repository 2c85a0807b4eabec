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
 * The leaves: screens of one instrument, turned with PgUp and PgDn. What a leaf is, its own folder
 * says in one row; the session knows leaves only as the rows handed to it.
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

/* What a leaf is laid out for. */
struct leaf_place {
    const struct record *record;
    int strings, frets; /* 0 where not given */
    int visit, pass;
    int named_visit, named_pass; /* the pass whose label and note are written; 0: none */
};

/* A pass by its visit and number; pass 0 for none. */
struct pass_place {
    int visit, pass;
};

/*
 * One leaf. Only lay and draw have to be there; NULL elsewhere means that the leaf has
 * nothing of its own to do then.
 */
struct leaf_row {
    /* A pass is measured here: the leaf that a session begins on. */
    bool is_bench;
    /* Its cells belong to a visit as a whole, so that a step of undo leaves the pass in hand. */
    bool is_of_visit;
    /* Bytes of what it keeps while the session lasts, all zero at first: app->state[leaf]. */
    size_t state_size;

    /* Lays its cells out, in the order of their route. */
    void (*lay)(const struct leaf_place *place, struct route *route);

    /* The figure that `?` explains first: the leaf's, or that of the cell in hand. FIGURE_COUNT_
     * there is the headroom of app_note, from which the arrows go on to the leaf's figure. */
    enum figure_id leaf_figure;
    enum figure_id (*figure)(const struct app *app);

    /* Whether `?` says first how the cell in hand is read, and goes on to that figure. */
    bool (*explains_cell)(const struct app *app);
    bool (*has_figure)(const struct route_cell *cell);

    /* The note that `?` explains the headroom of; -1 for none. */
    int (*note)(const struct app *app);

    /* What commands that hold on every leaf do here instead, up to COMMAND_NONE; while a label is
     * written they do what they do elsewhere. */
    const struct command_instead *instead;

    /* Works out, at the pass in hand of the record as previewed, what the leaf alone shows. */
    void (*plan)(struct app *app, struct place place);

    /* Another pass is in hand, whichever leaf is. */
    void (*take_pass)(struct app *app);

    /* What a cell should read after what was done since the pass before; absent where that is not
     * known. And after what that is; false, nothing appended, where nothing can be told. */
    struct maybe (*expected)(const struct app *app, const struct route_cell *cell);
    bool (*add_expected_after)(const struct app *app, struct strbuf *out);

    /* Takes the cell in hand that comes next: the leaf or the pass was taken just now, or a step
     * of undo made (`entering` false). */
    void (*settle)(struct app *app, bool entering);

    /* Enter, in place of what it does in every cell. */
    void (*accept)(struct turn *turn);

    /* Around the filing of an entry into the cell in hand: before it, and in the same step of
     * undo right after it. `text` is the entry as filed. */
    void (*before_filing)(struct app *app);
    void (*after_filing)(struct turn *turn, const char *text);

    /* What an entry of the cell in hand is besides a reading of its field, for the doubt in it. */
    void (*about)(const struct app *app, struct doubt_about *about, enum field_id *field,
                  struct entry_view *view);

    /* Shows what a step of undo changed, where that is no cell like any other. */
    void (*show)(struct app *app, const struct reading_key *key);

    /* The pass looked at, where that may be another one than is in hand. */
    struct pass_place (*looked_at)(const struct app *app);

    /* What the entry line asks for, and what it says while nothing is typed. */
    void (*add_prompt)(const struct app *app, struct strbuf *out);
    void (*add_hint)(const struct app *app, struct strbuf *out);

    /* Draws itself into `rows` rows (at least 19); returns what to mind that does not stand there,
     * "" for nothing. */
    const char *(*draw)(const struct pen *pen, const struct app *app, int row, int rows);
};

/* What the program can do with an instrument: its leaves, and what its commands do (command.h). */
struct leaves {
    const struct leaf_row *row[LEAF_COUNT_];
    const struct command_act *act; /* by enum command_id */
};

const char *leaf_name(enum leaf leaf);

/* Lays a leaf out into a route that it empties first. */
void leaf_lay(const struct leaf_row *row, const struct leaf_place *place, struct route *route);

/* For has_figure: true. */
bool leaf_every_cell(const struct route_cell *cell);

#endif
