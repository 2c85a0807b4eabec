/* SPDX-License-Identifier: MIT */
#include "model/what_if.h"

#include <math.h>
#include <stddef.h>

#include "model/tension.h"

static double retuned_hz(double hz, double semitones)
{
    return hz * exp2(semitones / 12);
}

enum status what_if_retune(const struct what_if_string *strings, const double *semitones, int count,
                           struct what_if_string *ret_strings)
{
    for (int i = 0; i < count; i++) {
        double hz = retuned_hz(strings[i].hz, semitones[i]);

        if (!(hz > 0) || !isfinite(hz))
            return STATUS_DOMAIN;
    }
    for (int i = 0; i < count; i++) {
        ret_strings[i] = strings[i];
        ret_strings[i].hz = retuned_hz(strings[i].hz, semitones[i]);
    }
    return STATUS_OK;
}

static enum status pull_of(const struct what_if_string *string, double *ret_tension_n)
{
    if (string->mass_kg_per_m == 0 || string->length_mm == 0 || string->hz == 0)
        return STATUS_ABSENT;
    return tension_from_pitch(string->mass_kg_per_m, string->length_mm, string->hz, ret_tension_n);
}

static enum status total_pull(const struct what_if_string *strings, int count, double *ret_total_n)
{
    double total = 0;

    for (int i = 0; i < count; i++) {
        double pull;
        enum status status = pull_of(&strings[i], &pull);

        if (status != STATUS_OK)
            return status;
        total += pull;
    }
    if (!isfinite(total))
        return STATUS_DOMAIN;
    *ret_total_n = total;
    return STATUS_OK;
}

/* One string's part in totals that are known to be good. */
static struct what_if_pull find_pull(const struct what_if_string *before,
                                     const struct what_if_string *after,
                                     const struct what_if_load *load)
{
    struct what_if_pull pull = {0};

    (void)pull_of(before, &pull.before_n);
    (void)pull_of(after, &pull.after_n);
    pull.change_n = pull.after_n - pull.before_n;
    pull.share_before = pull.before_n / load->before_n;
    pull.share_after = pull.after_n / load->after_n;
    return pull;
}

enum status what_if_compare(const struct what_if_string *before, const struct what_if_string *after,
                            int count, struct what_if_pull *ret_pulls,
                            struct what_if_load *ret_load)
{
    struct what_if_load load;

    if (count < 1)
        return STATUS_ABSENT;

    enum status status = total_pull(before, count, &load.before_n);

    if (status == STATUS_OK)
        status = total_pull(after, count, &load.after_n);
    if (status != STATUS_OK)
        return status;
    load.change_n = load.after_n - load.before_n;
    load.relief_change_ratio = load.change_n / load.before_n;
    if (!isfinite(load.relief_change_ratio))
        return STATUS_DOMAIN;
    for (int i = 0; ret_pulls != NULL && i < count; i++)
        ret_pulls[i] = find_pull(&before[i], &after[i], &load);
    *ret_load = load;
    return STATUS_OK;
}
