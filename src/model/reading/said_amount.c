/* SPDX-License-Identifier: MIT */
#include "model/reading/said_amount.h"

#include <math.h>

#include "base/num.h"

void said_number_add(struct strbuf *out, double value, int decimals, bool inches)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);

    num_format_fixed(value, decimals, inches, &text);
    if (decimals > 0)
        while (text.length > 1 && memory[text.length - 1] == '0')
            memory[--text.length] = '\0';
    if (memory[text.length - 1] == '.')
        memory[--text.length] = '\0';
    /* A leaf of .020 is marked with all its thousandths. */
    if (inches && memory[0] == '.')
        while (text.length < 4)
            strbuf_add_char(&text, '0');
    strbuf_add(out, text.length > 0 ? memory : "0");
}

static int decimals_of(double shown, enum unit unit)
{
    const double size = fabs(shown);

    if (unit == UNIT_64THS)
        return fabs(shown * 4 - round(shown * 4)) < 1e-6 ? 2 : 1;
    if (unit == UNIT_C || unit == UNIT_F)
        return 1;
    if (unit == UNIT_IN)
        return size < 1 ? 4 : size < 100 ? 3 : 1;
    return size < 1 ? 3 : size < 1000 ? 2 : 0;
}

static void add_unit(struct strbuf *out, enum unit unit)
{
    if (unit == UNIT_64THS) {
        strbuf_add(out, "/64");
    } else if (unit_label(unit)[0]) {
        strbuf_add_char(out, ' ');
        strbuf_add(out, unit_label(unit));
    }
}

void said_amount_add(struct strbuf *out, double pivot, enum unit bare)
{
    const enum unit unit = unit_printed(bare);
    const double shown = unit_from_pivot(unit, pivot);
    const int decimals = decimals_of(shown, unit);

    if (shown != 0 && fabs(shown) * pow(10, decimals) < 0.5)
        strbuf_add(out, "almost 0");
    else
        said_number_add(out, shown, decimals, unit == UNIT_IN);
    add_unit(out, unit);
}

void said_computed_add(struct strbuf *out, double pivot, enum unit bare)
{
    const enum unit unit = unit_printed(bare);
    const int decimals = unit == UNIT_IN ? 3 : unit == UNIT_64THS ? 1 : 2;

    said_number_add(out, unit_from_pivot(unit, pivot), decimals, unit == UNIT_IN);
    add_unit(out, unit);
}

/* Three digits are enough for a limit; rounded inwards, what is said can be. */
static void add_limit(struct strbuf *out, double shown, bool is_max, enum unit unit)
{
    const double size = fabs(shown);
    const int decimals = size < 1 ? 3 : size < 10 ? 2 : size < 100 ? 1 : 0;
    const double scale = pow(10, decimals), rounding = 1e-6;
    const double parts = is_max ? floor(shown * scale + rounding) : ceil(shown * scale - rounding);

    said_number_add(out, parts / scale, decimals, unit == UNIT_IN);
}

void said_limits_add(struct strbuf *out, double min_pivot, double max_pivot, enum unit bare)
{
    const enum unit unit = unit_printed(bare);

    add_limit(out, unit_from_pivot(unit, min_pivot), false, unit);
    strbuf_add(out, " to ");
    add_limit(out, unit_from_pivot(unit, max_pivot), true, unit);
    add_unit(out, unit);
}
