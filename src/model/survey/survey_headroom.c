/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_headroom.h"

#include <math.h>
#include <string.h>

#include "model/setup/uncertainty.h"

/* Places along the ranges of the pluck and of the touch. */
enum { PLUCKS = 8, TOUCHES = 4 };

/* How far the readings leave the height over each crown of the string stopped at each note, or
 * open, mm2: the squares of what that crown alone adds, and of all the rest. */
struct clear_doubt {
    double crown[STRINGS_MAX + 1][FRETS_MAX + 1][FRETS_MAX + 1];
    double rest[STRINGS_MAX + 1][FRETS_MAX + 1][FRETS_MAX + 1];
};

/* What may be true, about a mean. */
struct spread {
    double mean, variance;
    double rest; /* the standard uncertainty of what moves all crowns; not yet in the variance */
};

/* The share of a note's rise that may be missing or on top. */
static double rise_share(const struct fret_pitch *pitch)
{
    return pitch->rough ? 1 : 0.5;
}

/* How far the touch may be off, as a share of it. */
static double touch_share_of(const struct touch *touch)
{
    if (touch->by_ear)
        return (touch->most.value - touch->least.value) / (2 * touch->share);
    return sqrt(TOUCH_STEP) - 1; /* half a step */
}

/* The height over the crown of a fret ahead of the string stopped at a note, or open. */
static double clear_mm(const struct board *board, const struct string_lines *lines, int string,
                       int note, int fret)
{
    const struct string_line *line = &lines->now[string];
    const double contact = board->contact_mm[string], *x = board->station_mm[string];
    const double end = note == board->start_fret[string]
                           ? line->nut_mm
                           : neck_curve_height_mm(&lines->curve_now, board, string, note);
    const double along = (x[fret] - x[note]) / (contact - x[note]);

    return end + (line->saddle_mm - end) * along -
           neck_curve_height_mm(&lines->curve_now, board, string, fret);
}

/* Adds what a reading moves, moved by its standard uncertainty: the heights follow in straight
 * lines. `crown` is the fret that it is a spot of, 0 for none. */
static void add_reading(const struct setup *moved, int crown, const struct string_lines *lines,
                        struct clear_doubt *doubt)
{
    const struct board *board = &moved->board;
    struct figures unused;
    struct string_lines then;

    moves_solve(moved, NULL, &unused, NULL, &then);
    for (int s = 1; s <= board->strings; s++) {
        if (!lines->now[s].known || !then.now[s].known)
            continue;
        for (int n = board->start_fret[s]; n < board->frets; n++)
            for (int k = n + 1; k <= board->frets; k++) {
                const double off_mm =
                    clear_mm(board, &then, s, n, k) - clear_mm(board, lines, s, n, k);

                (k == crown ? doubt->crown : doubt->rest)[s][n][k] += off_mm * off_mm;
            }
    }
}

static void move_reading(struct setup *moved, double *reading, double step, int crown,
                         const struct string_lines *lines, struct clear_doubt *doubt)
{
    const double middle = *reading;

    if (!(step > 0) || !isfinite(step))
        return;
    *reading = middle + uncertainty_of_step(step);
    add_reading(moved, crown, lines, doubt);
    *reading = middle;
}

static void add_spots(struct setup *moved, const struct string_lines *lines,
                      struct clear_doubt *doubt)
{
    for (int n = 1; n <= moved->board.frets; n++) {
        const struct maybe read = moved->spot_mm[n];

        moved->spot_mm[n] = maybe_given(maybe_or(read, 0));
        move_reading(moved, &moved->spot_mm[n].value,
                     read.given ? moved->feeler_step_mm : 2 * HEADROOM_CROWN_MM, n, lines, doubt);
        moved->spot_mm[n] = read;
    }
}

static void find_clear_doubt(const struct derived *derived, struct clear_doubt *doubt)
{
    struct setup moved = derived->setup;
    const struct string_lines *lines = &derived->lines;
    struct maybe *read;
    enum field_id field;
    int string;

    memset(doubt, 0, sizeof *doubt);
    for (int i = 0; i < moved.relief_count; i++)
        move_reading(&moved, &moved.relief[i].gap_mm, moved.feeler_step_mm, 0, lines, doubt);
    add_spots(&moved, lines, doubt);
    for (int i = 0; (read = setup_reading(&moved, i, &field, &string)); i++)
        if (read->given)
            move_reading(&moved, &read->value, setup_step_mm(&moved, field), 0, lines, doubt);
}

/* What the open string's swing is worth in force, up to a factor. */
static double force_arm(const struct clearance_string *line)
{
    const double pluck_mm = fmin(line->pluck_mm, line->saddle_x_mm / 2);

    return pluck_mm * (1 - pluck_mm / line->saddle_x_mm);
}

/* The lesser of two that are independent: Clark's moments. */
static struct spread lesser(struct spread a, struct spread b)
{
    const double width = sqrt(a.variance + b.variance);

    if (!(width > 0) || fabs(a.mean - b.mean) > 8 * width)
        return a.mean < b.mean ? a : b;
    const double off = (a.mean - b.mean) / width, share_b = erfc(-off / M_SQRT2) / 2;
    const double density = width * exp(-off * off / 2) / sqrt(2 * M_PI);
    const double mean = a.mean * (1 - share_b) + b.mean * share_b - density;
    const double square = (a.mean * a.mean + a.variance) * (1 - share_b) +
                          (b.mean * b.mean + b.variance) * share_b - (a.mean + b.mean) * density;

    return (struct spread){mean, fmax(0, square - mean * mean),
                           a.rest * (1 - share_b) + b.rest * share_b};
}

/* The headroom with the pluck where `line` has it: the least over the crowns ahead, each of which
 * may be off by itself, and off by what moves them all. False if it is not known. */
static bool find_headroom(const struct clearance_string *line, const struct clear_doubt *doubt,
                          int string, int note, struct spread *ret_headroom)
{
    struct spread least = {.mean = (double)INFINITY};
    double clear_mm[FRETS_MAX + 1], swing_mm[FRETS_MAX + 1];

    if (clearance_find_ahead(line, note, clear_mm, swing_mm) != STATUS_OK)
        return false;
    for (int k = line->last_fret; k > note; k--) {
        const double swing = swing_mm[k];
        const struct spread one = {clear_mm[k] / swing,
                                   doubt->crown[string][note][k] / (swing * swing),
                                   sqrt(doubt->rest[string][note][k]) / swing};

        least = isfinite(least.mean) ? lesser(least, one) : one;
    }
    least.variance += least.rest * least.rest;
    *ret_headroom = least;
    return isfinite(least.mean) && isfinite(least.variance);
}

/* The share of what may be true that lies within +-u of the middle; the cases are alike. */
static double coverage(const struct spread *cases, int count, double middle, double u)
{
    double sum = 0;

    for (int i = 0; i < count; i++) {
        const double scale = sqrt(2 * fmax(cases[i].variance, 1e-12));

        sum +=
            erf((middle + u - cases[i].mean) / scale) - erf((middle - u - cases[i].mean) / scale);
    }
    return sum / (2 * count);
}

/* Twice the root mean square off the middle: near the u that is looked for. */
static double guess_u(const struct spread *cases, int count, double middle)
{
    double sum = 0;

    for (int i = 0; i < count; i++)
        sum += (cases[i].mean - middle) * (cases[i].mean - middle) + cases[i].variance;
    return 2 * sqrt(sum / count);
}

/* The u with 95 %, by halving, then along a straight line. */
static struct maybe find_u(const struct spread *cases, int count, double middle)
{
    const double share = 0.95, guess = guess_u(cases, count, middle);
    double low = 0.7 * guess, high = 1.1 * guess;
    double within_low = coverage(cases, count, middle, low);
    double within_high = coverage(cases, count, middle, high);

    if (!(within_low < share) || !(within_high >= share)) {
        low = within_low = 0;
        high = 20 * guess;
        within_high = coverage(cases, count, middle, high);
    }
    if (!(guess > 0) || !(within_high >= share))
        return maybe_absent();
    while (high - low > guess / 16) {
        const double half = (low + high) / 2, within = coverage(cases, count, middle, half);

        *(within < share ? &low : &high) = half;
        *(within < share ? &within_low : &within_high) = within;
    }
    return maybe_finite(low + (high - low) * (share - within_low) / (within_high - within_low));
}

/* The i-th of `count` places that share a range from -1 to 1. */
static double place_along(int i, int count)
{
    return (2 * i + 1 - count) / (double)count;
}

/* The variance of what lies within one of them, of a range that is a share of `mean`. */
static double within_place(double mean, double share, int count)
{
    const double u = mean * uncertainty_of_step(2 * share / count);

    return u * u;
}

static void add_touches(const struct spread *mm, double touch_mm, double touch_share,
                        struct spread cases[TOUCHES])
{
    for (int i = 0; i < TOUCHES; i++) {
        const double touch = touch_mm * (1 + place_along(i, TOUCHES) * touch_share);

        cases[i].mean = mm->mean / touch;
        cases[i].variance =
            mm->variance / (touch * touch) + within_place(cases[i].mean, touch_share, TOUCHES);
    }
}

static void find_note(const struct clearance_string *line, const struct clear_doubt *doubt,
                      const struct derived *derived, int string, int note,
                      struct survey_headroom *headroom)
{
    const double middle_mm = derived->clearance[string].headroom_mm[note].value;
    const double touch_mm = derived->touch.mm[string];
    const double rise_u = uncertainty_of_step(2 * rise_share(&derived->pitch[string])) *
                          (1 - line->open_tension_n / line->tension_n[note]);
    struct clearance_string plucked = *line;
    struct spread mm[PLUCKS], touches[PLUCKS][TOUCHES];

    for (int i = 0; i < PLUCKS; i++) {
        plucked.pluck_mm = line->pluck_mm * (1 + place_along(i, PLUCKS) * HEADROOM_PLUCK_SHARE);
        if (!find_headroom(&plucked, doubt, string, note, &mm[i]))
            return;
        mm[i].variance += mm[i].mean * rise_u * mm[i].mean * rise_u;
        add_touches(&mm[i], touch_mm * force_arm(&plucked) / force_arm(line),
                    touch_share_of(&derived->touch), touches[i]);
        mm[i].variance += within_place(mm[i].mean, HEADROOM_PLUCK_SHARE, PLUCKS);
    }
    headroom->u_mm[string][note] = find_u(mm, PLUCKS, middle_mm);
    headroom->u_touches[string][note] = find_u(touches[0], PLUCKS * TOUCHES, middle_mm / touch_mm);
}

void survey_headroom(struct place place, const struct derived *derived,
                     struct survey_headroom *ret_headroom)
{
    struct clear_doubt doubt;
    struct string_clearance arrays;
    struct clearance_string line;

    memset(ret_headroom, 0, sizeof *ret_headroom);
    if (!derived->setup.has_board || !derived->lines.has_now)
        return;
    find_clear_doubt(derived, &doubt);
    for (int s = 1; s <= derived->setup.board.strings; s++) {
        if (!derive_string_clearance(&place.record, &derived->setup, &derived->string[s],
                                     &derived->lines, &derived->pitch[s], s, &arrays, &line))
            continue;
        for (int n = 0; n < derived->setup.board.frets; n++)
            if (derived->clearance[s].headroom_mm[n].given)
                find_note(&line, &doubt, derived, s, n, ret_headroom);
    }
}
