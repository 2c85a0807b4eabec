/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_KIND_TABLE_H
#define SILLET_TESTS_KIND_TABLE_H

#include <stdbool.h>

/*
 * Every kind of instrument as a row: what a tech types from its starting point to "ready", what the
 * program may ask and say on the way, and what its strings do by hand.
 *
 * Pitch: equal temperament from A4 = 440 Hz (ISO 16). Pull: T = mu (2 L f)^2 (Mersenne's law; N. H.
 * Fletcher, T. D. Rossing, The Physics of Musical Instruments, 2nd ed., 2.2), L the scale of the
 * string, since no setback is entered. mu of a plain string is 7850 kg/m3 times pi d^2/4; that of a
 * wound one, and of nylon, by the formulas of docs/method.md, section 6. The numbers of the table are
 * worked out without the program.
 */

enum { KIND_ROWS = 6, KIND_MOVES = 4, KIND_STRINGS = 12, KIND_WORDS = 32 };

/* A row of the bench. '%' in the prompt is each of `columns` in turn, as the screen numbers them;
 * without columns the row has one cell. */
struct kind_row {
    const char *prompt, *columns;
    const char *found, *ready; /* what the gauge reads as found, and once the moves are made */
};

/* Words of a leaf; behind '!' words that it must not have. "Bench" is as it stands at the end of the
 * first pass, "Next" as the second begins; the other leaves are looked at once all is ready,
 * and so is the "Sheet". */
struct kind_words {
    const char *leaf, *words;
};

/* A move that the first pass asks for, as it is called there, and the words of its amount. */
struct kind_move {
    const char *name, *words;
};

struct kind_string {
    int string;
    double hz, pull_n;
};

struct kind {
    const char *name;    /* of the test */
    const char *id;      /* of the starting point */
    const char *find;    /* typed at the list of starting points */
    const char *title;   /* which is then in hand */
    bool metric;         /* the shop */
    const char *cell[2]; /* of Intake, and what is typed there; NULL for none */
    struct kind_row rows[KIND_ROWS];
    int readings; /* of a pass: how many the program asks for */
    struct kind_move moves[KIND_MOVES];
    struct kind_words words[KIND_WORDS];
    struct kind_string strings[KIND_STRINGS];
};

extern const struct kind kinds_of_guitars[], kinds_of_others[];
extern const int kinds_of_guitars_count, kinds_of_others_count;

#endif
