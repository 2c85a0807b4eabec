/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BODY_FRAME_H
#define SILLET_TESTS_BODY_FRAME_H

#include <math.h>

#include "model/field.h"

/*
 * One string on its neck as things stand on the bench, in the body's frame: the neck bends
 * up from the heel fret, the slot rides on it, the saddle stands on the body. Nothing here
 * knows of chords, tilt or the model's own formulas, so that the gauges read here check
 * them from outside. Lengths and heights mm.
 */
struct body_frame {
    double scale, contact; /* nut to saddle contact */
    int low, high, heel, last;
    double kappa;                 /* curvature from nut to heel */
    double fall;                  /* last crown below the line through low and high */
    double offset[FRETS_MAX + 1]; /* single crowns standing high */
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

/* What the gauges read. */
static inline double body_action(const struct body_frame *b, int fret)
{
    return body_string(b, body_station(b, fret)) - body_crown(b, fret);
}

static inline double body_gap_open(const struct body_frame *b)
{
    return body_action(b, 1);
}

/* At fret 1 with the string held down on fret 3. */
static inline double body_gap_held(const struct body_frame *b)
{
    const double nut = body_neck(b, 0) + b->slot;
    const double share = body_station(b, 1) / body_station(b, 3);

    return nut + (body_crown(b, 3) - nut) * share - body_crown(b, 1);
}

/* Straightedge on the neck's line at the relief ends, single high crowns left out. */
static inline double body_relief(const struct body_frame *b, int fret)
{
    const double x = body_station(b, fret);
    const double xa = body_station(b, b->low), xb = body_station(b, b->high);
    const double ya = body_neck(b, xa), yb = body_neck(b, xb);

    return ya + (yb - ya) * (x - xa) / (xb - xa) - body_neck(b, x);
}

/* The curvature with which the relief at a fret is `relief`. */
static inline double body_kappa_for(const struct body_frame *b, int fret, double relief)
{
    struct body_frame unit = *b;

    unit.kappa = 1;
    return relief / body_relief(&unit, fret);
}

#endif
