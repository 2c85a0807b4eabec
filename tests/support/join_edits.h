/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_JOIN_EDITS_H
#define SILLET_TESTS_JOIN_EDITS_H

#include "model/reading/record.h"
#include "seeded.h"

/* What a bench may do to a record that another bench has too, at random. */
struct join_bench {
    struct seeded *seed;
    int side;  /* 0 or 1: no two benches begin anything in the same minute */
    int edits; /* so far, so that no text is entered twice */
};

/* One edit: a cell, a pass, a work line, a visit, a change from a visit on; entered, changed or
 * taken out. */
void join_edit(struct join_bench *bench, struct record *record);

/* The same without anything being taken out. */
void join_edit_adding(struct join_bench *bench, struct record *record);

#endif
