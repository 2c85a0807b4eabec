/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_OUTFIT_H
#define SILLET_MODEL_READING_OUTFIT_H

#include "model/reading/record_access.h"
#include "model/reading/work_mark.h"

/*
 * What an instrument has, and what is therefore asked of it. Courses, a string that starts higher
 * up the neck, a zero fret, a board without frets, a nut that is raised for playing with a bar, a
 * bridge in one piece, a neck without a rod: each is decided here, and everything else asks.
 */

struct outfit {
    int strings; /* 0 if not entered */
    int courses; /* as many as strings where each string is a course */
    bool zero_fret;
    bool fretless;  /* the frets of the record are marks on the board */
    bool lap;       /* the nut is raised and nothing is fretted */
    bool screws;    /* each saddle has its own, so that each has a travel of its own */
    bool posts;     /* the bridge stands on two posts, as a tremolo's plate does */
    bool sides;     /* heights are set at its two sides alone, by posts or wheels */
    bool one_piece; /* the bridge stands on the top, and no saddle stands out of it */
    bool exposed;   /* how far one stands out was read in the visit all the same */
    bool rodless;   /* nothing in the neck turns */
    /* By string, element 0 unused. */
    int course[STRINGS_MAX + 1];    /* 1 is the highest */
    int read_as[STRINGS_MAX + 1];   /* whose gap and action hold for it: its own, or its course's */
    int from_fret[STRINGS_MAX + 1]; /* where it starts: at the nut, 0, or at that fret */
    /* What was entered, but cannot be, and counts for nothing. */
    bool courses_uneven;                /* they do not divide the strings */
    bool start_beyond[STRINGS_MAX + 1]; /* no fret left to cross before the one of the action */
    bool none_at_nut;                   /* every string would start higher */
};

/* As of a visit: a string with a gap or an action of its own in it is read by itself. */
void outfit_read(struct outfit *ret_outfit, const struct record *record, int visit);

/* An instrument as most are: each string by itself, from the nut, in slots, over frets. */
struct outfit outfit_plain(int strings);

/* The first string of its course. */
int outfit_first(const struct outfit *outfit, int string);

/* Whether a string is read, rather than taken to lie as its course does. */
bool outfit_is_read(const struct outfit *outfit, int string);

/* How many are. */
int outfit_read_count(const struct outfit *outfit);

/* Lets a string be read by itself before it has a reading; and whether that is a reading that makes
 * it so. */
void outfit_read_alone(struct outfit *outfit, int string);
bool outfit_makes_alone(enum field_id field);

/* Whether what is read of a string is read of its whole course. */
bool outfit_is_course(const struct outfit *outfit, int string);

/* Whether that reading is asked for: of a string, or with string 0 of the instrument. */
bool outfit_asks(const struct outfit *outfit, enum field_id field, int string);

/* Whether that move is one of the instrument's: under a bar only nut and bridge are, and a bridge
 * in one piece is made higher where a saddle would be used up. */
bool outfit_has_move(const struct outfit *outfit, enum move_kind kind);

/* What the screens call it: a work line's name of the move, or what there is in its place. */
const char *outfit_move_name(const struct outfit *outfit, enum move_kind kind);

/* Of a row by string, the readings of those that start where `string` does (0: at the nut), which
 * it goes with. */
void outfit_row_of(const struct outfit *outfit, int string, const struct maybe *row,
                   struct maybe *ret_row);

/* Whether a string's height over fret 1 is set by a slot that can be filed. */
bool outfit_has_slot(const struct outfit *outfit, int string);

/* Whether a note of a string is its open one: note 0, or that of the fret that it starts at. */
bool outfit_is_open(const struct outfit *outfit, int string, int note);

/* The fret an octave over a string's open note; may lie beyond the last one. */
int outfit_octave_fret(const struct outfit *outfit, int string);

/* What it is called where it is read: "course" and its number, or "string" and its own. */
const char *outfit_noun(const struct outfit *outfit, int string);
const char *outfit_fret_noun(const struct outfit *outfit); /* "fret", or "mark" */
int outfit_number(const struct outfit *outfit, int string);

/* Whether that reading holds for a course: not so what is entered or heard of one string. */
bool outfit_is_of_course(enum field_id field);

/* How many strings that are read lie on the bass side of one, and the string with so many; 0 for
 * none. */
int outfit_column(const struct outfit *outfit, int string);
int outfit_at_column(const struct outfit *outfit, int column);

/* From treble to bass, `share` of `last` steps: where a string lies between the outer two. Strings
 * of a course lie in one place. */
int outfit_step(const struct outfit *outfit, int string);
int outfit_last_step(const struct outfit *outfit);

#endif
