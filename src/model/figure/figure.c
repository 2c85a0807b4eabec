/* SPDX-License-Identifier: MIT */
#include "model/figure/figure.h"

#include <math.h>
#include <stddef.h>

#define FIGURE(id, section_, per_, needs_, name_, unit_, factor_, printed_u_, label_, formula_,    \
               source_)                                                                            \
    [FIGURE_##id] = {.section = FIGURE_SECTION_##section_,                                         \
                     .per = PER_##per_,                                                            \
                     .needs = NEEDS_##needs_,                                                      \
                     .name = name_,                                                                \
                     .unit = unit_,                                                                \
                     .factor = factor_,                                                            \
                     .printed_u = printed_u_,                                                      \
                     .label = label_,                                                              \
                     .formula = formula_,                                                          \
                     .source = source_},

static const struct figure_info infos[FIGURE_COUNT_] = {
#include "model/figure/figure_table.h"
};
#undef FIGURE

#define ID_SETUP(id) FIGURE_##id,
#define ID_MORE(id)
#define FIGURE(id, section, per, needs, ...) ID_##needs(id)

static const enum figure_id set_up_ids[] = {
#include "model/figure/figure_table.h"
    FIGURE_COUNT_,
};

const struct figure_info *figure_info(enum figure_id id)
{
    return &infos[id];
}

bool figure_is_set_up(enum figure_id id)
{
    return figure_info(id)->needs == NEEDS_SETUP;
}

const enum figure_id *figures_of_set_up(void)
{
    return set_up_ids;
}

const char *figure_section_name(enum figure_section section)
{
    static const char *const names[FIGURE_SECTION_COUNT_] = {
        [FIGURE_SECTION_NECK_CURVE] = "neck-curve",
        [FIGURE_SECTION_STRING] = "string",
        [FIGURE_SECTION_SADDLE] = "saddle",
        [FIGURE_SECTION_RESET] = "reset",
        [FIGURE_SECTION_LOAD] = "load",
        [FIGURE_SECTION_NECK_BEAM] = "neck-beam",
        [FIGURE_SECTION_CLIMATE] = "climate",
    };
    return names[section];
}

void figure_key(enum figure_id id, bool uncertainty, struct strbuf *out)
{
    const struct figure_info *info = figure_info(id);

    strbuf_add(out, info->name);
    if (uncertainty)
        strbuf_add(out, "_u");
    if (info->unit[0]) {
        strbuf_add_char(out, '_');
        strbuf_add(out, info->unit);
    }
}

void figures_set(struct figures *figures, enum figure_id id, int string, double value,
                 enum known known)
{
    if (!isfinite(value))
        known = KNOWN_ABSENT;
    figures->at[id][string] =
        (struct figure){.value = known == KNOWN_ABSENT ? 0 : value, .u = 0, .known = known};
}

void figures_set_u(struct figures *figures, enum figure_id id, int string, double value, double u)
{
    figures_set(figures, id, string, value, KNOWN_READ);
    figures->at[id][string].u = u;
}

struct maybe figures_get(const struct figures *figures, enum figure_id id, int string)
{
    const struct figure *figure = &figures->at[id][string];

    return figure->known == KNOWN_ABSENT ? maybe_absent() : maybe_given(figure->value);
}
