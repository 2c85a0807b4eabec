/* SPDX-License-Identifier: MIT */
#include "words/next_check_words.h"

#include <math.h>

#include "base/num.h"

static double weeks(double days)
{
    return fmax(round(days / 7), 1);
}

void next_check_words_when(const struct next_check *check, struct strbuf *out)
{
    if (!check->known) {
        strbuf_add(out, "not known yet");
    } else if (check->reason != NEXT_CHECK_SETTLES) {
        strbuf_add(out, "in a year");
    } else {
        strbuf_add(out, "in about ");
        num_format_fixed(weeks(check->days), 0, false, out);
        strbuf_add(out, " weeks (");
        num_format_fixed(weeks(check->least_days), 0, false, out);
        strbuf_add(out, " to ");
        num_format_fixed(weeks(check->most_days), 0, false, out);
        strbuf_add(out, ")");
    }
}

static void add_pct(double pct, struct strbuf *out)
{
    num_format_fixed(pct, 1, false, out);
    strbuf_add(out, " %");
}

void next_check_words_why(const struct next_check *check, struct strbuf *out)
{
    switch (check->reason) {
    case NEXT_CHECK_SHOP_UNKNOWN:
        strbuf_add(out, "the air in the shop was not read");
        return;
    case NEXT_CHECK_HOME_UNKNOWN:
        strbuf_add(out, "the air of its home is not on file");
        return;
    case NEXT_CHECK_LIKE_SHOP:
        strbuf_add(out, "the air of its home is like the shop's");
        return;
    case NEXT_CHECK_STEADY:
        strbuf_add(out, "its relief hardly follows the air");
        return;
    case NEXT_CHECK_SETTLES:
        strbuf_add(out, "by then its wood goes from ");
        add_pct(check->shop_pct.value, out);
        strbuf_add(out, " to ");
        add_pct(check->far_pct.value, out);
        strbuf_add(out, check->far_pct.value < check->shop_pct.value
                            ? " moisture in the driest air where it lives"
                            : " moisture in the dampest air where it lives");
        return;
    }
}
