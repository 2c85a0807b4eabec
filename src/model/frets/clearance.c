/* SPDX-License-Identifier: MIT */
#include "model/frets/clearance.h"

#include <math.h>
#include <stddef.h>

#include "model/common/check.h"

/* A string stopped at one fret, with what does not depend on the fret ahead. */
struct stopped {
    double x_mm;
    double z_mm;
    double length_mm;
    double rise_mm;
    double pluck_mm;
    double swing_mm; /* y */
};

static enum status check_frets(const struct clearance_string *string)
{
    for (int n = string->open_note + 1; n <= string->last_fret; n++) {
        if (!isfinite(string->x_mm[n]) || !(string->x_mm[n] > string->x_mm[n - 1]))
            return STATUS_DOMAIN;
        if (!isfinite(string->z_mm[n]) || !check_is_positive(string->tension_n[n]))
            return STATUS_DOMAIN;
    }
    return STATUS_OK;
}

static enum status check_string(const struct clearance_string *string)
{
    if (!string->x_mm || !string->z_mm || !string->tension_n)
        return STATUS_ABSENT;
    if (string->open_note < 0 || string->last_fret <= string->open_note ||
        string->last_fret > CLEARANCE_FRETS_MAX)
        return STATUS_DOMAIN;
    if (!isfinite(string->nut_height_mm) || !isfinite(string->saddle_height_mm))
        return STATUS_DOMAIN;
    if (!check_is_positive(string->open_tension_n) || !check_is_positive(string->pluck_mm))
        return STATUS_DOMAIN;
    if (!(string->x_mm[string->open_note] == 0))
        return STATUS_DOMAIN;
    enum status status = check_frets(string);
    if (status)
        return status;
    if (!isfinite(string->saddle_x_mm) || !(string->saddle_x_mm > string->x_mm[string->last_fret]))
        return STATUS_DOMAIN;
    return STATUS_OK;
}

static enum status check_pair(const struct clearance_string *string, int note, int fret)
{
    enum status status = check_string(string);
    if (status)
        return status;
    if (note < string->open_note || fret <= note || fret > string->last_fret)
        return STATUS_DOMAIN;
    return STATUS_OK;
}

/* The share of its force's reach that a pluck at `pluck_mm` has: (l - p)/l. */
static double pluck_share(double length_mm, double pluck_mm)
{
    return (length_mm - pluck_mm) / length_mm;
}

static struct stopped stop_string(const struct clearance_string *string, int note, double y0_mm)
{
    const double open_mm = string->saddle_x_mm;
    const bool is_open = note == string->open_note;
    const double open_pluck_mm = fmin(string->pluck_mm, open_mm / 2);
    struct stopped s = {
        .x_mm = string->x_mm[note],
        .z_mm = is_open ? string->nut_height_mm : string->z_mm[note],
    };
    const double tension_n = is_open ? string->open_tension_n : string->tension_n[note];

    s.length_mm = open_mm - s.x_mm;
    s.rise_mm = string->saddle_height_mm - s.z_mm;
    s.pluck_mm = fmin(string->pluck_mm, s.length_mm / 2);
    s.swing_mm = y0_mm * pluck_share(s.length_mm, s.pluck_mm) /
                 pluck_share(open_mm, open_pluck_mm) * string->open_tension_n / tension_n;
    return s;
}

static double clear_mm(const struct stopped *s, const struct clearance_string *string, int fret)
{
    const double t = string->x_mm[fret] - s->x_mm;
    return s->z_mm + s->rise_mm * t / s->length_mm - string->z_mm[fret];
}

static double envelope_mm(const struct stopped *s, const struct clearance_string *string, int fret)
{
    const double t = string->x_mm[fret] - s->x_mm;
    if (t <= s->pluck_mm)
        return s->swing_mm * t / s->pluck_mm;
    return s->swing_mm * (s->length_mm - t) / (s->length_mm - s->pluck_mm);
}

static double margin_mm(const struct stopped *s, const struct clearance_string *string, int fret)
{
    return clear_mm(s, string, fret) - envelope_mm(s, string, fret);
}

static enum status pluck(const struct clearance_string *string, int note, int fret, double y0_mm,
                         struct stopped *ret_stopped)
{
    const enum status status = check_pair(string, note, fret);

    if (status)
        return status;
    if (!check_is_not_negative(y0_mm))
        return STATUS_DOMAIN;
    *ret_stopped = stop_string(string, note, y0_mm);
    return STATUS_OK;
}

enum status clearance_find_clear(const struct clearance_string *string, int note, int fret,
                                 double *ret_clear_mm)
{
    struct stopped s;
    const enum status status = pluck(string, note, fret, 0, &s);

    return status ? status : check_give(clear_mm(&s, string, fret), ret_clear_mm);
}

enum status clearance_find_envelope(const struct clearance_string *string, int note, int fret,
                                    double y0_mm, double *ret_envelope_mm)
{
    struct stopped s;
    const enum status status = pluck(string, note, fret, y0_mm, &s);

    return status ? status : check_give(envelope_mm(&s, string, fret), ret_envelope_mm);
}

enum status clearance_find_ahead(const struct clearance_string *string, int note,
                                 double *ret_clear_mm, double *ret_envelope_mm)
{
    struct stopped s;
    const enum status status = pluck(string, note, note + 1, 1, &s);

    if (status)
        return status;
    for (int k = note + 1; k <= string->last_fret; k++) {
        ret_clear_mm[k] = clear_mm(&s, string, k);
        ret_envelope_mm[k] = envelope_mm(&s, string, k);
        if (!isfinite(ret_clear_mm[k]) || !isfinite(ret_envelope_mm[k]))
            return STATUS_RANGE;
    }
    return STATUS_OK;
}

enum status clearance_find_margin(const struct clearance_string *string, int note, int fret,
                                  double y0_mm, double *ret_margin_mm)
{
    struct stopped s;
    const enum status status = pluck(string, note, fret, y0_mm, &s);

    return status ? status : check_give(margin_mm(&s, string, fret), ret_margin_mm);
}

static enum status least_headroom(const struct clearance_string *string, int note,
                                  double *ret_headroom_mm, int *ret_at)
{
    /* Any pluck gives the same headroom but for the last digit, which names the fret where
     * several are equally near. */
    const double y0_mm = 1;
    const struct stopped s = stop_string(string, note, y0_mm);
    double least = (double)INFINITY;
    int at = 0;
    for (int k = note + 1; k <= string->last_fret; k++) {
        const double headroom = clear_mm(&s, string, k) / (envelope_mm(&s, string, k) / y0_mm);
        if (!isfinite(headroom))
            return STATUS_RANGE;
        if (headroom < least) {
            least = headroom;
            at = k;
        }
    }
    *ret_headroom_mm = least;
    *ret_at = at;
    return STATUS_OK;
}

enum status clearance_find_headroom(const struct clearance_string *string, int note,
                                    double *ret_headroom_mm, int *ret_at)
{
    enum status status = check_pair(string, note, note + 1);
    if (status)
        return status;
    int at = 0;
    status = least_headroom(string, note, ret_headroom_mm, &at);
    if (status == STATUS_OK && ret_at)
        *ret_at = at;
    return status;
}

/* Looks at the notes below `fret`: what they ask of its height. False without a buzz there,
 * where the rocker rules it out, or when a margin is not a number. */
static bool weigh_fret(const struct clearance_string *string, const struct stopped *stopped,
                       const enum clearance_heard *heard, int fret,
                       struct clearance_high_fret *ret_case)
{
    struct clearance_high_fret c = {.fret = fret, .least_note = -1, .most_note = -1};
    double low_mm = -(double)INFINITY;
    double high_mm = (double)INFINITY;
    for (int n = string->open_note; n < fret; n++) {
        if (heard[n] == CLEARANCE_NOT_PLAYED)
            continue;
        const double margin = margin_mm(&stopped[n], string, fret);
        if (heard[n] == CLEARANCE_BUZZES) {
            c.buzz_explained++;
            if (margin > low_mm) {
                low_mm = margin;
                c.least_note = n;
            }
        } else if (margin < high_mm) {
            high_mm = margin;
            c.most_note = n;
        }
    }
    c.least_mm = low_mm;
    c.most_mm = high_mm;
    c.bounded = c.most_note >= 0;
    *ret_case = c;
    if (string->doubt_mm && low_mm > string->doubt_mm[fret])
        return false;
    return isfinite(low_mm) && (!c.bounded || isfinite(high_mm));
}

static int count_clean_against(const struct clearance_string *string, const struct stopped *stopped,
                               const enum clearance_heard *heard, int fret, double low_mm)
{
    int against = 0;
    for (int n = string->open_note; n < fret; n++)
        if (heard[n] == CLEARANCE_CLEAN && margin_mm(&stopped[n], string, fret) < low_mm)
            against++;
    return against;
}

static bool fits_better(const struct clearance_high_fret *a, const struct clearance_high_fret *b)
{
    const int misfit_a = a->buzz_left + a->clean_against;
    const int misfit_b = b->buzz_left + b->clean_against;
    return misfit_a < misfit_b || (misfit_a == misfit_b && a->least_mm < b->least_mm);
}

static int count_buzzes(const struct clearance_string *string, const enum clearance_heard *heard)
{
    int count = 0;
    for (int n = string->open_note; n <= string->last_fret; n++)
        if (heard[n] == CLEARANCE_BUZZES)
            count++;
    return count;
}

static bool search_frets(const struct clearance_string *string, double y0_mm,
                         const enum clearance_heard *heard, int buzzes,
                         struct clearance_high_fret *best)
{
    struct stopped stopped[CLEARANCE_FRETS_MAX];
    bool found = false;
    for (int n = string->open_note; n < string->last_fret; n++)
        stopped[n] = stop_string(string, n, y0_mm);
    for (int k = string->open_note + 1; k <= string->last_fret; k++) {
        struct clearance_high_fret c;
        if (!weigh_fret(string, stopped, heard, k, &c))
            continue;
        c.buzz_left = buzzes - c.buzz_explained;
        c.clean_against = count_clean_against(string, stopped, heard, k, c.least_mm);
        if (!found || fits_better(&c, best))
            *best = c;
        found = true;
    }
    return found;
}

enum status clearance_find_high_fret(const struct clearance_string *string, double y0_mm,
                                     const enum clearance_heard *heard,
                                     struct clearance_high_fret *ret_high)
{
    struct clearance_high_fret best;
    if (!heard)
        return STATUS_ABSENT;
    enum status status = check_string(string);
    if (status)
        return status;
    if (!check_is_positive(y0_mm))
        return STATUS_DOMAIN;
    const int buzzes = count_buzzes(string, heard);
    if (buzzes == 0)
        return STATUS_ABSENT;
    if (!search_frets(string, y0_mm, heard, buzzes, &best))
        return STATUS_NOT_FOUND;
    /* A fret already above the envelope needs no extra height to buzz. */
    best.least_mm = fmax(0, best.least_mm);
    if (!best.bounded)
        best.most_mm = best.least_mm;
    *ret_high = best;
    return STATUS_OK;
}
