/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_VIRTUAL_TECH_H
#define SILLET_TESTS_VIRTUAL_TECH_H

#include "model/derive/derive.h"
#include "virtual/instrument.h"

/*
 * A tech who follows the program blind: reads every gauge, types what was read, reads again what is
 * questioned, does each move that is due by the amount that it says, marks it done, and begins the
 * next pass. Gauges have steps, and the hand errs when it reads and when it works.
 */

struct virtual_hand {
    const char *name;
    double feeler_mm, rule_mm;             /* steps of the gauges */
    double feeler_error_mm, rule_error_mm; /* of the hand that holds them, standard deviation */
    double slot_error_mm, saddle_error_mm, string_error_mm, relief_error_mm; /* of the work */
    bool marks;   /* work lines say what was done */
    bool spoilt;  /* instruments of which something is wrong (virtual_instrument_spoil): the rod is
                     turned as asked, its turns logged, the crown under the action rocked */
    bool slips;   /* in one pass out of five one reading is wrong */
    int seasons;  /* comes back so often, half a year later: in other air, and then in that of the
                     first time */
    bool rodless; /* the neck has no rod */
    bool dead;    /* its rod does nothing; it is turned as asked, its turns logged */
    bool screws;  /* the saddle is turned, not cut: amounts in turns by tenths */
    bool spares;  /* in later passes reads only what the work has moved */
    bool claims;  /* one move in five is marked done and was not */
    int looks_again; /* passes read once more where nothing is asked for, to be sure */
};

/* The hands that the bench tries, the careful one first. */
extern const struct virtual_hand virtual_hands[];
extern const int virtual_hand_count;

/* What an instrument's way through the shop came to. */
struct virtual_way {
    int passes;                /* read, until nothing was asked for, or the most allowed */
    bool ended;                /* nothing was asked for any more */
    int first_right;           /* the pass at which it was right in truth, 0: never */
    int asked_right;           /* passes that still asked for something while all was right */
    bool right;                /* at the end */
    int strings, filled, deep; /* strings; with a fill that was not needed; cut too deep */
    int slips, slips_found;    /* wrong readings, and those that were questioned */
    int read, questioned;      /* all good readings, and those that were questioned for nothing */
    int looked_again, asked_again; /* passes read to be sure, and those that asked for work */
    int claimed;                   /* moves marked done that were not */
    double turned;                 /* turns of a rod that did nothing, or the wrong thing */
    int returns, cut_early; /* came back in another season; was cut before the rod was right, or,
                               where none turns, was cut for it */
};

/* Works on an instrument until the program asks for nothing, `most` passes a visit at the most. */
void virtual_work(struct virtual_instrument *made, const struct virtual_hand *hand, int most,
                  struct seeded *seed, struct virtual_way *ret_way);

#endif
