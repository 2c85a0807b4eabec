/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_BENCH_ROW_H
#define SILLET_MODEL_BENCH_ROW_H

#include "model/board.h"
#include "model/figure.h"
#include "model/reading_key.h"
#include "model/work_mark.h"

/* The rows of the bench's readings board. They stand in bench_row_table.h; board, sheet, doubts
 * and forecasts read its columns. */

enum bench_row_id {
#define BENCH_ROW(id, ...) ROW_##id,
#include "model/bench_row_table.h"
#undef BENCH_ROW
    ROW_COUNT_
};

enum bench_end { END_BASS, END_TREBLE, END_COUNT_ };

enum bench_goal {
    GOAL_NONE,
    GOAL_NEAR,  /* to come within the tolerance of the target */
    GOAL_LEAST, /* to have no less than the target */
};

/* How the next pass's reading follows from this one's and what was done. */
enum bench_forecast {
    FORECAST_NONE,
    FORECAST_CURVE,  /* the neck's curve: at its target once the rod is set */
    FORECAST_HEIGHT, /* a string over a crown: rod, slots and saddle move it */
    FORECAST_SADDLE, /* at the saddle: goes with the saddle's move alone */
};

/* The fret at which a row is read, where it is none of its own number. */
enum { AT_SADDLE = 0, AT_RELIEF_FRET = -1, AT_ACTION_FRET = -2 };

/* By how much two readings of one row may differ (doubt.h). */
struct bench_slack {
    double mm, share; /* the larger counts; both 0: nothing is compared */
    double slope_mm;  /* for each string farther, where nobody can tell the row's slope */
    double end_mm;    /* for each string beyond the row's end, where it can be told */
};

/* A field that is none is FIELD_COUNT_, a figure FIGURE_COUNT_, a move MOVE_COUNT_. */
struct bench_row {
    const char *label;
    enum field_id field[END_COUNT_]; /* what its cells hold: the same twice for a reading of each
                                        string, and for one of the whole neck */
    enum field_id aside;             /* entered in its row from the second pass on, off the way */
    const char *aside_label;

    enum bench_goal goal;
    enum field_id target[END_COUNT_];
    enum field_id tolerance; /* with GOAL_NEAR */
    bool read_held;          /* may be read with the string held down on fret 3, which is another
                                gap: wanted, expected and filed with the customer is the open one */

    enum figure_id figure;                /* what the row reads, with gaps between strings filled */
    enum figure_id judged[END_COUNT_];    /* what is held against the target */
    enum figure_id explained[END_COUNT_]; /* what `?` explains first */
    enum bench_forecast forecast;
    enum figure_id after[END_COUNT_]; /* height once the rod is set; exposure once the saddle is */

    int fret;            /* where it is read: its number, or AT_... */
    enum move_kind move; /* the move that brings it to its target */
    const char *sheet[END_COUNT_];

    double before_mm;          /* by how much a hand errs from pass to pass, beside the step of its
                                  gauge; 0: passes are not compared */
    struct bench_slack beside; /* within its pass */
    double targets_mm;         /* by how much its two targets may differ; 0: not compared */
};

const struct bench_row *bench_row_get(enum bench_row_id id);

/* The row that a field is read in, or is a target of; NULL for none. */
const struct bench_row *bench_row_of(enum field_id field);
const struct bench_row *bench_row_of_target(enum field_id field);

/* Whether it is read on each string. */
bool bench_row_by_string(const struct bench_row *row);

/* Whether its two ends are read each by itself. */
bool bench_row_has_ends(const struct bench_row *row);

/* The end whose field that is, the bass end for any other. */
enum bench_end bench_row_end(const struct bench_row *row, enum field_id field);

/* Where its reading is filed: of a string, or of an end. */
struct reading_key bench_row_key(const struct bench_row *row, enum bench_end end, int visit,
                                 int pass, int string);

/* The fret at which it is read; 0 where it is none, or not known. */
int bench_row_fret(const struct bench_row *row, const struct board *board);

/* Appends " at fret 12" where that is known, and not always the same. */
void bench_row_add_place(const struct bench_row *row, const struct board *board,
                         struct strbuf *out);

#endif
