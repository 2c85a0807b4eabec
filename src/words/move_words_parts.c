/* SPDX-License-Identifier: MIT */
#include "words/move_words_inside.h"

#include <math.h>

void move_words_add_u(struct strbuf *out, double u_mm, enum unit unit)
{
    amount_add_doubt(out, u_mm, unit);
    amount_add_unit(out, unit);
}

void move_words_add_range(struct strbuf *out, double bass_mm, double treble_mm, enum unit unit)
{
    amount_add_range(out, bass_mm, treble_mm, unit);
    amount_add_unit(out, unit);
}

bool move_words_add_then(struct maker *maker, const char *what, const struct maybe *then,
                         enum unit unit)
{
    const struct maybe *bass = &then[maker->setup->board.strings], *treble = &then[1];

    if (!bass->given || !treble->given)
        return false;
    strbuf_add(&maker->then, what);
    move_words_add_range(&maker->then, bass->value, treble->value, unit);
    return true;
}

void move_words_add_height(struct maker *maker, const char *what, const struct maybe *target)
{
    const enum unit rule = maker->units->bare[MEASURE_RULE];

    strbuf_add(&maker->then, what);
    amount_add(&maker->then, target->value, rule, false);
    amount_add_unit(&maker->then, rule);
}

void move_words_add_step_u(struct maker *maker, double u_mm, double step_mm, enum unit unit)
{
    if (u_mm > 0)
        amount_add_doubt(&maker->amount, ceil(u_mm / step_mm - 1e-6) * step_mm, unit);
    amount_add_unit(&maker->amount, unit);
}

double move_words_to_less(double mm, double step_mm)
{
    return fmax(1, floor(fabs(mm) / step_mm + 1e-6)) * step_mm;
}
