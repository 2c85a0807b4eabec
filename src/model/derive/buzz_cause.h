/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_BUZZ_CAUSE_H
#define SILLET_MODEL_DERIVE_BUZZ_CAUSE_H

#include "model/derive/derive.h"
#include "model/derive/heard.h"

/*
 * Why a string buzzes, as far as ear and rocker tell. What the rocker found goes before any guess:
 * a fret that it found high explains the notes behind it, one that it found low those stopped
 * there, and one that it found level is no guess. Source: our own reasoning.
 */
enum buzz_cause {
    BUZZ_NONE,   /* nothing buzzes */
    BUZZ_ROCKED, /* over `fret`, which the rocker found high */
    BUZZ_LOW,    /* notes are stopped at the frets `low`, and lie lower over the next; those at
                    `rock` may be so, too */
    BUZZ_HIGH,   /* `fret` stands higher than measured, by as much as the notes tell */
    BUZZ_UNSURE, /* it may; only the rocker tells by how much */
    BUZZ_WORN, /* the fret ahead is level, so that those where the notes are stopped, `rock`, may be
                  worn low */
    BUZZ_UNFIT,   /* `fret` would stand as high as none does, or beside one that the rocker found
                     high: spots or notes are wrong */
    BUZZ_AS_READ, /* no fret stands higher than measured: the string lies too low for that touch */
    BUZZ_UNEXPLAINED,
};

/* As much as a fret may be thought to stand high by ear, mm. Usual ones stand 0.05 to 0.2 mm high
 * (common practice), and a crown of 1 mm has little more to give. */
#define BUZZ_HIGH_MOST_MM 0.25

/* Sets of frets have bit n set for fret n. */
struct buzz {
    enum buzz_cause cause;
    int fret;           /* 0 where the cause has none */
    uint64_t low, rock; /* found low; to be rocked, to know more */
};

/* `notes` are those heard on the string. */
void buzz_find(struct place place, const struct derived *derived, int string,
               const struct heard_notes *notes, struct buzz *ret_buzz);

#endif
