/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DEMO_DEMO_BOOK_H
#define SILLET_DEMO_DEMO_BOOK_H

#include "demo/demo_neck.h"
#include "model/common/day.h"
#include "model/derive/derive.h"

/*
 * What a tech at the made-up shop writes down about one instrument: readings with the steps of its
 * gauges and the hand's own error, work, times. Once something cannot be written, `status` says
 * why, and nothing more is.
 */

/* What is true, and what a gauge read there. */
struct demo_truth {
    const char *what;        /* "relief", "nut_gap", "action", "rod_per_turn" */
    int visit, pass, string; /* 0 where that is of no visit, pass or string */
    double true_mm, read_mm;
};
typedef void demo_tell(void *teller, const struct demo_truth *truth);

struct demo_book {
    struct record record;
    enum status status;
    struct demo_chance chance;
    bool metric;
    double feeler_mm, rule_mm;     /* steps of the gauges */
    int visit, pass, work, minute; /* where it is; the clock, minutes of the day */
    demo_tell *tell;               /* may be NULL */
    void *teller;
};

/* Under that key of the visit and pass in hand, as the profile keeps it. */
void demo_book_put(struct demo_book *book, struct reading_key key, const char *text);
void demo_book_put_day(struct demo_book *book, enum field_id field, int day);
void demo_book_put_whole(struct demo_book *book, struct reading_key key, int number,
                         const char *unit);

/* A line of work; the clock goes on. */
void demo_book_work(struct demo_book *book, const char *kind, const char *amount);

/* Begins a visit, and its next pass, at the clock's time. */
void demo_book_begin_visit(struct demo_book *book, int day, const char *reason);
void demo_book_begin_pass(struct demo_book *book, const char *label);

/* Reads relief, gaps and actions, and what is left of the saddle; with `outer_only`, gaps and
 * actions of the outer two strings. */
void demo_book_read(struct demo_book *book, const struct demo_neck *neck, bool outer_only);

/* Reads again what the program says does not fit the rest. */
void demo_book_read_again(struct demo_book *book, const struct demo_neck *neck,
                          const struct move_set *moves);

/* Puts a length under a key, as the gauge of its field reads it. */
void demo_book_put_length(struct demo_book *book, struct reading_key key, double mm);

/* Appends a length of up to so many decimals, with its sign: "-.008", in mm "-0.20"; the unit that
 * goes after it is demo_book_unit. */
void demo_book_add_change(const struct demo_book *book, double mm, struct strbuf *out);
const char *demo_book_unit(const struct demo_book *book);

#endif
