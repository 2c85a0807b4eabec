/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_FIGURE_FIGURE_H
#define SILLET_MODEL_FIGURE_FIGURE_H

#include <stdbool.h>

#include "base/maybe.h"
#include "base/strbuf.h"
#include "model/reading/field.h"

/*
 * The figures: what the model makes of the readings. The rows stand in figure_table.h.
 */

enum figure_id {
#define FIGURE(id, ...) FIGURE_##id,
#include "model/figure/figure_table.h"
#undef FIGURE
    FIGURE_COUNT_
};

enum figure_section {
    FIGURE_SECTION_NECK_CURVE,
    FIGURE_SECTION_STRING, /* string.N */
    FIGURE_SECTION_SADDLE,
    FIGURE_SECTION_RESET,
    FIGURE_SECTION_LOAD,
    FIGURE_SECTION_NECK_BEAM,
    FIGURE_SECTION_CLIMATE,
    FIGURE_SECTION_COUNT_
};

enum figure_needs { NEEDS_SETUP, NEEDS_MORE };

struct figure_info {
    enum figure_section section;
    enum field_per per; /* PER_ONE or PER_STRING */
    enum figure_needs needs;
    const char *name, *unit;
    double factor; /* inner unit to printed unit */
    bool printed_u;
    const char *label, *formula, *source;
};

/* How a figure came to be known. */
enum known {
    KNOWN_ABSENT,       /* something it needs is absent */
    KNOWN_READ,         /* a reading, or computed from readings */
    KNOWN_INTERPOLATED, /* a reading it needs was taken from the neighbouring strings */
};

struct figure {
    double value; /* inner unit; meaningless when absent */
    double u;     /* expanded uncertainty, k = 2, same unit */
    enum known known;
};

/* String 0 holds the figures that there is one of; 1 .. STRINGS_MAX the strings'. */
struct figures {
    struct figure at[FIGURE_COUNT_][STRINGS_MAX + 1];
};

const struct figure_info *figure_info(enum figure_id id);

/* What moves_solve and reset_solve compute: the figures that the set-up readings alone decide,
 * each with its uncertainty. All of them, with FIGURE_COUNT_ behind the last. */
bool figure_is_set_up(enum figure_id id);
const enum figure_id *figures_of_set_up(void);

/* The section's name as printed, without a string's number. */
const char *figure_section_name(enum figure_section section);

/* Spells the printed key, with "_u" before the unit when `uncertainty` is set. */
void figure_key(enum figure_id id, bool uncertainty, struct strbuf *out);

/* Sets and gets one; string 0 for the figures that there is one of. A value that is not
 * finite makes the figure absent. */
void figures_set(struct figures *figures, enum figure_id id, int string, double value,
                 enum known known);
struct maybe figures_get(const struct figures *figures, enum figure_id id, int string);

/* Sets one that is known as if read, with its expanded uncertainty. */
void figures_set_u(struct figures *figures, enum figure_id id, int string, double value, double u);

#endif
