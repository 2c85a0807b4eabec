/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BODY_FRAME_H
#define SILLET_TESTS_BODY_FRAME_H

#include <math.h>

#include "model/reading/field.h"

/*
 * One string on its neck, in the frame of the body: the neck bends
 * up from the heel fret, the slot moves with it, the saddle stands on the body. Nothing here
 * uses chords, tilt or the model's own formulas, so these gauge readings are an independent
 * check of them. Lengths and heights in mm.
 */
struct body_frame {
    double scale, contact; /* nut to saddle contact */
    int low, high, heel, last;
    double kappa;                 /* curvature from nut to heel */
    double fall;                  /* last crown below the line through low and high */
    double offset[FRETS_MAX + 1]; /* by how much single crowns stand high */
    double slot;                  /* slot bottom over the neck's line at the nut */
    double saddle;                /* saddle top over the body */
};

static inline double body_station(const struct body_frame *b, int fret)
{
    return b->scale - b->scale / pow(2, fret / 12.0);
}

static inline double body_neck(const struct body_frame *b, double x)
{
    const double heel = body_station(b, b->heel);

    return x < heel ? b->kappa * (heel - x) * (heel - x) / 2 : 0;
}

static inline double body_crown(const struct body_frame *b, int fret)
{
    const double x = body_station(b, fret), high = body_station(b, b->high);
    double y = body_neck(b, x) + b->offset[fret];

    if (fret > b->high)
        y -= b->fall * (x - high) / (body_station(b, b->last) - high);
    return y;
}

/* The taut string over the body at x. */
static inline double body_string(const struct body_frame *b, double x)
{
    const double nut = body_neck(b, 0) + b->slot;

    return nut + (b->saddle - nut) * x / b->contact;
}

/* The reading of a rule or feeler at a fret. */
static inline double body_action(const struct body_frame *b, int fret)
{
    return body_string(b, body_station(b, fret)) - body_crown(b, fret);
}

static inline double body_gap_open(const struct body_frame *b)
{
    return body_action(b, 1);
}

/* The nut gap with the string held down on fret 3. */
static inline double body_gap_held(const struct body_frame *b)
{
    const double nut = body_neck(b, 0) + b->slot;
    const double share = body_station(b, 1) / body_station(b, 3);

    return nut + (body_crown(b, 3) - nut) * share - body_crown(b, 1);
}

/* The gap under a straightedge on the neck's line at the relief ends, ignoring high crowns. */
static inline double body_relief(const struct body_frame *b, int fret)
{
    const double x = body_station(b, fret);
    const double xa = body_station(b, b->low), xb = body_station(b, b->high);
    const double ya = body_neck(b, xa), yb = body_neck(b, xb);

    return ya + (yb - ya) * (x - xa) / (xb - xa) - body_neck(b, x);
}

/* The curvature that gives the relief `relief` at a fret. */
static inline double body_kappa_for(const struct body_frame *b, int fret, double relief)
{
    struct body_frame unit = *b;

    unit.kappa = 1;
    return relief / body_relief(&unit, fret);
}

#endif
