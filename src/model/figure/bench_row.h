/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_FIGURE_BENCH_ROW_H
#define SILLET_MODEL_FIGURE_BENCH_ROW_H

#include "model/frets/board.h"
#include "model/figure/figure.h"
#include "model/reading/outfit.h"
#include "model/reading/reading_key.h"
#include "model/reading/work_mark.h"

/* The rows of the bench's readings board: what is read, what is wanted, and what follows. They are
 * declared in bench_row_table.h. */

/* The rows of every bench, and behind them those that stand in for some of them. */
enum bench_row_id {
#define BENCH_ROW(id, ...) ROW_##id,
#include "model/figure/bench_row_table.h"
#undef BENCH_ROW
    ROW_COUNT_,
    ROW_BEFORE_BAR_ = ROW_COUNT_ - 1,
#define BENCH_ROW(id, ...)
#define BAR_ROW(id, ...) ROW_##id,
#include "model/figure/bench_row_table.h"
#undef BENCH_ROW
#undef BAR_ROW
    ROW_ALL_
};

enum bench_end { END_BASS, END_TREBLE, END_COUNT_ };

enum bench_goal {
    GOAL_NONE,
    GOAL_NEAR,  /* within the tolerance of the target */
    GOAL_LEAST, /* no less than the target */
};

/* How the reading of the next pass is forecast from this pass and the moves done. */
enum bench_forecast {
    FORECAST_NONE,
    FORECAST_CURVE,  /* the neck's curve: at its target once the rod is set */
    FORECAST_HEIGHT, /* a string over a crown: rod, slots and saddle move it */
    FORECAST_SADDLE, /* at the saddle: only the saddle's move changes it */
    FORECAST_ALONE,  /* at one end of the strings: only the row's own move changes it */
};

/* Frets that the board decides, and the saddle. */
enum { AT_RELIEF_FRET = -1, AT_ACTION_FRET = -2, AT_SADDLE = -3 };

/* A row without one of these. No move is MOVE_COUNT_. */
#define NO_FIELD  FIELD_COUNT_
#define NO_FIGURE FIGURE_COUNT_

/* By how much two readings of one row may differ (doubt.h). */
struct bench_slack {
    double mm, share; /* the larger counts; both 0: nothing is compared */
    double slope_mm;  /* for each string farther, where nobody can tell the row's slope */
    double end_mm;    /* for each string beyond the row's end, where it can be told */
};

struct bench_row {
    const char *label;
    enum field_id field[END_COUNT_]; /* of its cells; the same twice if read per string or once */
    enum field_id inner;             /* of the strings between its ends; Enter skips it */
    enum field_id aside;             /* shares the row from the second pass on; Enter skips it */
    const char *aside_label, *aside_short;

    enum bench_goal goal;
    enum field_id target[END_COUNT_];
    enum field_id tolerance; /* with GOAL_NEAR */
    bool read_held;          /* may be read with the string held down on fret 3; the target that
                                is entered, the figure and the sheet mean the open string */
    bool over_bridge;        /* the target is of a string of full length: one that starts higher
                                lies lower over the same bridge (string_target_action) */

    enum figure_id figure;                /* the reading, with unread strings filled in */
    enum figure_id explained[END_COUNT_]; /* by `?`, first */
    enum bench_forecast forecast;

    int fret;            /* where it is read: a number, or AT_... */
    enum move_kind move; /* the move that brings it to its target, and by which it is judged */
    const char *sheet[END_COUNT_];

    double before_mm;          /* how far a reading may be off its forecast, beyond the step of the
                                  gauge; 0: not compared */
    struct bench_slack beside; /* how far off the other readings of the row */
    double targets_mm;         /* how far the two targets may differ; 0: not compared */
};

const struct bench_row *bench_row_get(enum bench_row_id id);

/* What the row numbered `id`, from 0 to ROW_COUNT_ - 1, is on an instrument: under a bar, heights
 * at the ends in place of gap and action. */
const struct bench_row *bench_row_in(const struct outfit *outfit, int id);

/* Whether any of its readings is asked for. */
bool bench_row_is_asked(const struct bench_row *row, const struct outfit *outfit);

/* The row of a reading's field, and of a target's; NULL for none. */
const struct bench_row *bench_row_of(enum field_id field);
const struct bench_row *bench_row_of_target(enum field_id field);

/* Whether it is read on each string. */
bool bench_row_by_string(const struct bench_row *row);

/* Whether bass and treble end are two readings. */
bool bench_row_has_ends(const struct bench_row *row);

/* The end whose field that is, the bass end for any other. */
enum bench_end bench_row_end(const struct bench_row *row, enum field_id field);

/* The key of its reading on a string, or at an end. */
struct reading_key bench_row_key(const struct bench_row *row, enum bench_end end, int visit,
                                 int pass, int string);

/* The fret at which it is read; 0 for none or not known. */
int bench_row_fret(const struct bench_row *row, const struct board *board);

/* Appends " at fret 12" if the board decides the fret, and it is known. */
void bench_row_add_place(const struct bench_row *row, const struct outfit *outfit,
                         const struct board *board, struct strbuf *out);

#endif
