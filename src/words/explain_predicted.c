/* SPDX-License-Identifier: MIT */
#include "words/explain.h"

#include "base/num.h"
#include "model/derive/derive_pitch_u.h"

bool explain_is_predicted(enum figure_id id)
{
    return id == FIGURE_SETBACK_PREDICTED || id == FIGURE_SETBACK_BEST ||
           id == FIGURE_NUT_ADVANCE_BEST;
}

static int outcome_of(enum figure_id id)
{
    if (id == FIGURE_SETBACK_PREDICTED)
        return OUTCOME_SETBACK;
    return id == FIGURE_SETBACK_BEST ? OUTCOME_SETBACK_BEST : OUTCOME_NUT_BEST;
}

static void add_part(const struct pitch_part *part, struct strbuf *out)
{
    strbuf_add(out, part->label);
    strbuf_add_char(out, ' ');
    num_format_fixed(part->u, 2, false, out);
}

void explain_add_parts(const struct explain_from *from, enum figure_id id, int string,
                       struct strbuf *out)
{
    const struct derived *derived = from->derived;
    struct pitch_parts parts;

    derive_pitch_parts(from->place, &derived->setup, derived->string, &derived->lines,
                       &derived->pitch[string], &derived->figures, string, outcome_of(id), &parts);
    if (parts.count == 0)
        return;
    num_format_fixed(derived->figures.at[id][string].u, 1, false, out);
    strbuf_add(out, " mm is what these leave together, by their squares: ");
    add_part(&parts.part[0], out);
    /* What is small against the largest does not show in the sum. */
    for (int i = 1; i < parts.count && parts.part[i].u > parts.part[0].u / 20; i++) {
        strbuf_add(out, ", ");
        add_part(&parts.part[i], out);
    }
    strbuf_add(out, ". Cents read on the string say more than any of it.");
    if (parts.part[0].source)
        strbuf_addf(out, " Source of the first: %s.", parts.part[0].source);
}
