/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_LEAF_STRINGS_H
#define SILLET_LEAF_STRINGS_LEAF_STRINGS_H

#include "leaf/strings/pull_question.h"
#include "leaf/strings/what_if_state.h"
#include "session/app.h"

/* The columns of the Strings leaf: first what a set's packet says, then what gives a better known
 * unit mass. */
enum string_column {
    STRING_COLUMN_NOTE,
    STRING_COLUMN_GAUGE,
    STRING_COLUMN_CORE,
    STRING_COLUMN_HEX,
    STRING_COLUMN_BUILD,
    STRING_COLUMN_WRAP,
    STRING_COLUMN_SETBACK,
    STRING_COLUMN_MASS,
    STRING_COLUMN_WEIGH_MASS,
    STRING_COLUMN_WEIGH_LENGTH,
    STRING_COLUMN_LABEL_TENSION,
    STRING_COLUMN_LABEL_NOTE,
    STRING_COLUMN_LABEL_SCALE,
    STRING_COLUMN_CORE_MATERIAL,
    STRING_COLUMN_MODULUS,
    STRING_COLUMN_FROM_FRET,
    STRING_COLUMN_COUNT_
};

enum field_id strings_column_field(enum string_column column);

/* What the leaf keeps: the what-if and, while a tuning, a set or a pull is asked for
 * (question.h), the one that it had before. */
struct strings_state {
    struct what_if_state what_if, before;
    enum pull_of pull_of;                 /* what a pull is asked for */
    struct maybe tuned[STRINGS_MAX + 1];  /* the notes before what is being filed, */
    struct maybe strung[STRINGS_MAX + 1]; /* and the gauges */
};

static inline struct strings_state *strings_state(const struct app *app)
{
    return app->state[LEAF_STRINGS];
}

#endif
