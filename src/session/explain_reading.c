/* SPDX-License-Identifier: MIT */
#include "session/explain_reading.h"

#include <math.h>

#include "words/amount.h"
#include "words/fret_words.h"
#include "session/cell_words.h"
#include "base/num.h"
#include "model/reading/name_list.h"
#include "model/reading/note_name.h"

static const char *const how[FIELD_COUNT_] = {
#define HOW(field_, words_) [FIELD_##field_] = words_,
#include "session/how_table.h"
#undef HOW
};

static bool has_limits(const struct field *field)
{
    return field_is_number(field) || field->kind == KIND_COUNT;
}

/* The step of the gauge that the shop reads a length with, in mm: a leaf, a 64th, a tenth on a
 * rule. */
static double step_of(enum unit unit)
{
    switch (unit) {
    case UNIT_TH:
    case UNIT_64THS:
        return unit_to_pivot(unit, 1);
    case UNIT_100THS:
        return 0.01;
    case UNIT_IN:
        return unit_to_pivot(UNIT_TH, 1);
    default:
        return 0.1;
    }
}

/* Rounds the limits outward to whole steps. The field table has them in mm, and they would read
 * oddly in inches. */
static void add_limits(const struct field *field, enum unit unit, struct strbuf *out)
{
    const double step = step_of(unit), slack = 1e-6;

    amount_add_range(out, floor(field->usual_min / step + slack) * step,
                     ceil(field->usual_max / step - slack) * step, unit);
    amount_add_unit(out, unit);
}

/* The usual range, in the shop's unit. */
static void add_usual(const struct app *app, const struct field *field, struct explanation *out)
{
    const enum unit unit = field_bare_unit(field, &app->units);

    if (!has_limits(field))
        return;
    struct strbuf line = explain_add_line(out, EXPLAIN_NOTE);

    strbuf_add(&line, "asked about again outside ");
    if (field->quantity == QUANTITY_LENGTH) {
        add_limits(field, unit, &line);
        return;
    }
    num_format(unit_from_pivot(unit, field->usual_min), &line);
    strbuf_add(&line, " to ");
    num_format(unit_from_pivot(unit, field->usual_max), &line);
    strbuf_add(&line, unit_label(unit)[0] ? " " : "");
    strbuf_add(&line, unit_label(unit));
}

static void add_names(const struct field *field, struct explanation *out)
{
    const struct name_list list = name_list_of_field(field);
    char name[NAME_LIST_NAME_SIZE];

    if (!name_list_exists(&list))
        return;
    struct strbuf line = explain_add_line(out, EXPLAIN_NOTE);

    strbuf_add(&line, name_list_is_closed(&list) ? "one of: " : "known: ");
    for (int k = 0; name_list_name(&list, k, name, sizeof name); k++)
        strbuf_addf(&line, "%s%s", k > 0 ? ", " : "", name);
}

static void add_held(const struct app *app, const struct route_cell *cell, struct explanation *out)
{
    const char *text = record_text(&app->record, &cell->key);
    const struct field *field = field_get(cell->key.field);
    struct strbuf line = explain_add_line(out, EXPLAIN_VALUE);
    const size_t start = line.length;

    cell_words_add_now(app, cell, &line);
    if (line.length > start)
        return;
    if (text && field->id == FIELD_STRING_NOTE) {
        strbuf_add(&line, "now ");
        if (note_name_of(&app->record, cell->key.string, &line))
            return;
        strbuf_add(&line, text);
    } else if (text)
        strbuf_addf(&line, "now %s", text);
    else if (field->fallback[0])
        strbuf_addf(&line, "not entered: %s is used", field->fallback);
    else
        strbuf_add(&line, "not entered yet");
}

void explain_reading(const struct app *app, const struct route_cell *cell,
                     struct explanation *ret_explanation)
{
    const struct field *field = field_get(cell->key.field);

    ret_explanation->count = 0;
    struct strbuf line = explain_add_line(ret_explanation, EXPLAIN_HAND);

    cell_words_add_name(app, cell, &line);
    strbuf_add(&line, ": ");
    cell_words_add_what(app, cell, &line);
    add_held(app, cell, ret_explanation);
    if (how[field->id]) {
        line = explain_add_line(ret_explanation, EXPLAIN_FORMULA);
        fret_words_add(&app->now.setup.outfit, how[field->id], &line);
    }
    add_names(field, ret_explanation);
    add_usual(app, field, ret_explanation);
}

bool explain_reading_has_figure(const struct app *app, const struct route_cell *cell)
{
    return app_row(app)->has_figure && app_row(app)->has_figure(cell);
}
