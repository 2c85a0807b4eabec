/* SPDX-License-Identifier: MIT */
#include "screen/form_view.h"

#include <string.h>

#include "session/again.h"
#include "words/amount.h"

enum { LABEL_WIDTH = 25 };

/* For a number that is not entered: the value of the named wood. */
static bool add_wood_number(const struct app *app, const struct field *field, struct strbuf *out)
{
    const struct maybe number = neck_facts_wood(&app->record, field->id);

    if (!number.given)
        return false;
    strbuf_add_char(out, '~');
    num_format(number.value, out);
    strbuf_add_char(out, ' ');
    strbuf_add(out, unit_label(unit_pivot(field->quantity)));
    return true;
}

/* The unit that a bare number has in this cell, as in the rows of the other leaves. */
static void add_cell_unit(const struct field *field, const struct shop_units *units,
                          struct strbuf *out)
{
    const char *unit = amount_unit(field_bare_unit(field, units));

    if (field_is_number(field) && unit[0])
        strbuf_addf(out, " %s", unit);
}

/* The default for a cell where nothing is entered, in the shop's units. */
static void add_fallback(const struct field *field, const struct shop_units *units,
                         struct strbuf *out)
{
    const enum unit unit = field_bare_unit(field, units);
    struct field_value value;

    if (field->quantity == QUANTITY_LENGTH &&
        field_read(field, field->fallback, field_file_unit(field), &value, NULL) == STATUS_OK) {
        amount_add(out, amount_on_rule(value.value, unit), unit, false);
        add_cell_unit(field, units, out);
    } else {
        strbuf_add(out, field->fallback);
    }
    strbuf_add(out, "  assumed");
}

/* As shown; returns its role. */
static enum role add_cell_text(const struct app *app, const struct route_cell *cell,
                               struct strbuf *out)
{
    const struct reading *reading = record_get(&app->record, &cell->key);
    const struct field *field = field_get(cell->key.field);

    if (reading) {
        entry_show_whole(reading->text, field, out);
        if (reading->value.state == READING_GOOD)
            return ROLE_VALUE;
        strbuf_add_char(out, '!');
        return ROLE_OFF;
    }
    if (again_find(app, cell)) {
        strbuf_addf(out, "[%s]", again_find(app, cell)->text);
        return ROLE_DIM;
    }
    if (add_wood_number(app, field, out))
        return ROLE_ASSUMED;
    if (field->fallback[0]) {
        add_fallback(field, &app->units, out);
        return ROLE_ASSUMED;
    }
    strbuf_add_char(out, '-');
    add_cell_unit(field, &app->units, out);
    return ROLE_DIM;
}

static const char *section_title(enum section section)
{
    static const char *const titles[SECTION_COUNT_] = {
        [SECTION_PROFILE] = "profile",
        [SECTION_INSTRUMENT] = "instrument",
        [SECTION_BOARD] = "board and frets",
        [SECTION_NUT] = "nut",
        [SECTION_BRIDGE] = "bridge",
        [SECTION_NECK] = "neck",
        [SECTION_STRING] = "string",
        [SECTION_TARGETS] = "targets",
        [SECTION_MODEL] = "how it is measured and played",
        [SECTION_VISIT] = "this visit",
        [SECTION_PASS] = "this pass",
        [SECTION_WORK] = "work",
    };
    return titles[section];
}

static enum section section_of(const struct app *app, int i)
{
    return field_get(app->route.cells[i].key.field)->section;
}

static bool opens_section(const struct app *app, int i, int first)
{
    return i == first || section_of(app, i) != section_of(app, i - 1);
}

/* The line of a cell, counted from the form's first. */
static int line_of(const struct app *app, int first, int cell)
{
    int line = 0;

    for (int i = first; i <= cell; i++)
        line += opens_section(app, i, first) ? 1 : 0;
    return line + cell - first;
}

static void draw_cell(const struct pen *pen, const struct app *app, const struct form_area *area,
                      const struct route_cell *cell, int row)
{
    const bool in_hand = app_cell(app) == cell;
    const int column = area->column + LABEL_WIDTH;
    const int width = area->width - LABEL_WIDTH;
    char memory[FIELD_TEXT_MAX + 16];
    struct strbuf text = STRBUF(memory);
    const enum role role = add_cell_text(app, cell, &text);

    pen_put(pen, row, area->column + 1, LABEL_WIDTH - 2, ROLE_LABEL,
            field_get(cell->key.field)->label);
    if (!in_hand) {
        pen_put_cut(pen, row, column, width, role, memory);
        return;
    }
    int used = pen_put(pen, row, column, width, ROLE_CELL,
                       app->entry.length > 0 ? app->entry.text : memory);
    if (used < 8)
        used = width < 8 ? width : 8;
    frame_set_role(pen->frame, row, column, used, ROLE_CELL);
    pen->frame->cursor_row = row;
    pen->frame->cursor_column = column;
}

/* The first of `lines` lines to show, so that line `here` is among the `rows` shown. */
static int first_line(int lines, int here, int rows)
{
    int top = here - rows / 2;

    if (top > lines - rows)
        top = lines - rows;
    return top < 0 ? 0 : top;
}

/* "more below: scale length, strings": as many of the hidden cells as the row names. */
static void draw_more(const struct pen *pen, const struct app *app, const struct form_area *area,
                      int below, int last)
{
    char memory[200];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, below <= last ? "more below: " : "more above");
    for (int i = below; i <= last && !text.truncated; i++)
        strbuf_addf(&text, "%s%s", i > below ? ", " : "",
                    field_get(app->route.cells[i].key.field)->label);
    pen_put_cut(pen, area->row + area->rows - 1, area->column + 1, area->width - 1, ROLE_KEY,
                memory);
}

void form_view_draw(const struct pen *pen, const struct app *app, const struct form_area *area,
                    int first, int last)
{
    const int at = app->at < first ? first : app->at > last ? last : app->at;
    const int lines = line_of(app, first, last) + 1;
    /* A form that does not fit gives up its last row for a note that says so. */
    const int rows = lines > area->rows ? area->rows - 1 : area->rows;
    const int top = first_line(lines, line_of(app, first, at), rows);
    int below = first;

    for (int i = first; i <= last; i++) {
        const int line = line_of(app, first, i) - top;

        if (opens_section(app, i, first) && line >= 1 && line <= rows)
            pen_put(pen, area->row + line - 1, area->column + 1, area->width - 1, ROLE_TITLE,
                    section_title(section_of(app, i)));
        if (line >= 0 && line < rows)
            draw_cell(pen, app, area, &app->route.cells[i], area->row + line);
        below = line < rows ? i + 1 : below;
    }
    if (lines > area->rows)
        draw_more(pen, app, area, below, last);
}
