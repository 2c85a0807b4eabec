/* SPDX-License-Identifier: MIT */
#include "model/survey/usual.h"

static const struct usual_row rows[USUAL_ROWS] = {
    {"relief", FIELD_TARGET_RELIEF, FACT_WANTED_RELIEF, FACT_LEFT_RELIEF},
    {"bass action", FIELD_TARGET_ACTION_BASS, FACT_WANTED_ACTION_BASS, FACT_LEFT_ACTION_BASS},
    {"treble action", FIELD_TARGET_ACTION_TREBLE, FACT_WANTED_ACTION_TREBLE,
     FACT_LEFT_ACTION_TREBLE},
    {"bass nut gap", FIELD_TARGET_GAP_BASS, FACT_WANTED_GAP_BASS, FACT_LEFT_GAP_BASS},
    {"treble nut gap", FIELD_TARGET_GAP_TREBLE, FACT_WANTED_GAP_TREBLE, FACT_LEFT_GAP_TREBLE},
};

const struct usual_row *usual_row_get(int i)
{
    return &rows[i];
}

static void swap(double *a, double *b)
{
    const double kept = *a;

    *a = *b;
    *b = kept;
}

static void sift(double *values, int at, int count)
{
    for (int child; (child = 2 * at + 1) < count; at = child) {
        if (child + 1 < count && values[child + 1] > values[child])
            child++;
        if (values[at] >= values[child])
            return;
        swap(&values[at], &values[child]);
    }
}

/* Heap sort: the model may not call qsort, which may allocate. */
static void sort(double *values, int count)
{
    for (int i = count / 2 - 1; i >= 0; i--)
        sift(values, i, count);
    for (int last = count - 1; last > 0; last--) {
        swap(&values[0], &values[last]);
        sift(values, 0, last);
    }
}

static double at_share(const double *sorted, int count, double share)
{
    const double at = share * (count - 1);
    const int i = (int)at;

    return i + 1 < count ? sorted[i] + (sorted[i + 1] - sorted[i]) * (at - i) : sorted[count - 1];
}

struct usual usual_of(double *values, int count)
{
    if (count == 0)
        return (struct usual){.count = 0};
    sort(values, count);
    return (struct usual){.count = count,
                          .low_mm = at_share(values, count, 0.25),
                          .median_mm = at_share(values, count, 0.5),
                          .high_mm = at_share(values, count, 0.75)};
}

const struct usual *usual_for_target(const struct usuals *usuals, enum field_id target)
{
    for (int i = 0; i < USUAL_ROWS; i++)
        if (rows[i].target == target && usuals->wanted[i].count >= USUAL_LEAST)
            return &usuals->wanted[i];
    return NULL;
}
