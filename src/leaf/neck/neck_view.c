/* SPDX-License-Identifier: MIT */
#include "leaf/neck/neck_view.h"

#include "words/amount.h"
#include "leaf/neck/neck_words.h"
#include "base/num.h"
#include "model/neck/neck_beam.h"
#include "screen/form_view.h"
#include "leaf/neck/section_view.h"

enum {
    LABEL = 13,
    SLOT_LABEL = 10,
    UNIT = 5,
    FIGURE_ROWS = 11,
    ABSENT = -1, /* there is no such figure for this state of the slot */
};

/* The figures, row by row. */
struct page {
    const struct pen *pen;
    const struct app *app;
    const struct derived *derived;
    int row, column, width;
};

static enum unit relief_unit(const struct page *page)
{
    return page->app->metric ? UNIT_MM : UNIT_IN;
}

static enum unit small_unit(const struct page *page)
{
    return page->app->units.bare[MEASURE_SMALL];
}

static const struct figure *get(const struct page *page, enum figure_id id)
{
    const struct figure *figure = &page->derived->figures.at[id][0];

    return figure->known == KNOWN_ABSENT ? NULL : figure;
}

static enum role value_role(const struct page *page, const struct figure *figure)
{
    if (page->app->previewing)
        return ROLE_PREVIEW;
    return figure->known == KNOWN_INTERPOLATED ? ROLE_ASSUMED : ROLE_VALUE;
}

/* One row of figures for the slot as found, filled and recut. */
struct slot_row {
    const char *label, *unit;
    int figures[NECK_SLOT_RECUT + 1];
    void (*add)(const struct page *page, const struct figure *figure, struct strbuf *out);
    bool wood; /* wood left: marked if too little */
};

static int cell_width(const struct page *page)
{
    return (page->width - SLOT_LABEL - UNIT) / (NECK_SLOT_RECUT + 1);
}

/* Without its +- where that does not fit: a number cut short would be another. */
static void add_stiffness(const struct page *page, const struct figure *figure, struct strbuf *out)
{
    const double factor = figure_info(FIGURE_EI_FIRST)->factor;
    const struct amount_with_u amount = {
        .value = figure->value * factor, .u = figure->u * factor, .decimals = 1};

    amount_add_with_u(out, &amount, "");
    if ((int)out->length - 1 >= cell_width(page)) {
        strbuf_clear(out);
        amount_add_to_u(out, &amount);
    }
}

static void add_relief(const struct page *page, const struct figure *figure, struct strbuf *out)
{
    const struct amount_with_u amount =
        amount_of_length(figure->value, figure->u, relief_unit(page));

    amount_add_to_u(out, &amount);
}

static void add_relief_u(const struct page *page, const struct figure *figure, struct strbuf *out)
{
    const struct amount_with_u amount =
        amount_of_length(figure->value, figure->u, relief_unit(page));

    amount_add_u(out, &amount);
}

static void add_wood(const struct page *page, const struct figure *figure, struct strbuf *out)
{
    amount_add_cut(out, figure->value, small_unit(page));
}

static void draw_slots(struct page *page, const struct slot_row *row)
{
    const int cell = cell_width(page);

    pen_put(page->pen, page->row, page->column, SLOT_LABEL, ROLE_LABEL, row->label);
    for (int slot = NECK_SLOT_FOUND; slot <= NECK_SLOT_RECUT; slot++) {
        const struct figure *figure =
            row->figures[slot] == ABSENT ? NULL : get(page, (enum figure_id)row->figures[slot]);
        const bool thin = figure && row->wood && figure->value < NECK_BEAM_LEAST_WOOD_MM;
        char memory[32];
        struct strbuf text = STRBUF(memory);

        if (figure)
            row->add(page, figure, &text);
        strbuf_add(&text, figure ? thin ? "!" : "" : "-");
        pen_put_right(page->pen, page->row, page->column + SLOT_LABEL + slot * cell, cell - 1,
                      thin     ? ROLE_CAUTION
                      : figure ? value_role(page, figure)
                               : ROLE_DIM,
                      memory);
    }
    pen_put(page->pen, page->row++, page->column + page->width - UNIT, UNIT, ROLE_DIM, row->unit);
}

static void draw_heading(struct page *page)
{
    static const char *const names[] = {"found", "filled", "recut"};
    const int cell = cell_width(page);
    const enum role role = page->app->previewing ? ROLE_PREVIEW : ROLE_LABEL;

    pen_put(page->pen, page->row, page->column, SLOT_LABEL, role,
            page->app->previewing ? "if taken" : "rod's slot");
    for (int slot = NECK_SLOT_FOUND; slot <= NECK_SLOT_RECUT; slot++)
        pen_put_right(page->pen, page->row, page->column + SLOT_LABEL + slot * cell, cell - 1, role,
                      names[slot]);
    page->row++;
}

/* " +- .001", if the figure has an uncertainty. */
static void add_u(const struct figure *figure, double factor, int decimals, struct strbuf *out)
{
    if (!(figure->u > 0))
        return;
    strbuf_add(out, " \xC2\xB1");
    num_format_fixed(figure->u * factor, decimals, false, out);
}

/* A row with a label and one text; a dash if the text is empty. */
static void draw_text(struct page *page, const char *label, enum role role, const char *text)
{
    pen_put(page->pen, page->row, page->column, LABEL, ROLE_LABEL, label);
    pen_put(page->pen, page->row++, page->column + LABEL, page->width - LABEL,
            text[0] ? role : ROLE_DIM, text[0] ? text : "-");
}

static void draw_relief_read(struct page *page)
{
    const struct figure *figure = get(page, FIGURE_RELIEF);
    char memory[64];
    struct strbuf text = STRBUF(memory);

    if (figure) {
        amount_add(&text, figure->value, relief_unit(page), false);
        if (figure->u > 0)
            amount_add_doubt(&text, figure->u, relief_unit(page));
        amount_add_unit(&text, relief_unit(page));
        if (page->derived->setup.board.has_relief)
            strbuf_addf(&text, " at %s %d", outfit_fret_noun(&page->derived->setup.outfit),
                        page->derived->setup.board.relief_fret);
    }
    draw_text(page, "relief read", figure ? value_role(page, figure) : ROLE_DIM, memory);
}

/* What the pull alone would bend the neck beyond what was read. */
static void draw_hold(struct page *page)
{
    const struct figure *figure = get(page, FIGURE_ROD_HOLDS);
    char memory[64];
    struct strbuf text = STRBUF(memory);

    if (figure) {
        const struct amount_with_u amount =
            amount_of_length(figure->value, figure->u, relief_unit(page));

        amount_add_with_u(&text, &amount, " ");
        amount_add_unit(&text, relief_unit(page));
    }
    draw_text(page, "rod holds", figure ? value_role(page, figure) : ROLE_DIM, memory);
}

static void draw_stop_and_tenon(struct page *page)
{
    const struct figure *stop = get(page, FIGURE_STOP_DEPTH);
    const struct figure *tenon = get(page, FIGURE_TENON_SAFETY);
    const enum neck_risk risk = tenon ? neck_tenon_judge(tenon->value) : NECK_RISK_LOW;
    const int column = page->column + page->width - 17;
    char stop_memory[32];
    struct strbuf text = STRBUF(stop_memory);

    if (stop) {
        amount_add_cut(&text, stop->value, small_unit(page));
        amount_add_unit(&text, small_unit(page));
    }
    draw_text(page, "router stop", stop ? value_role(page, stop) : ROLE_DIM, stop_memory);
    pen_put(page->pen, page->row - 1, column, 6, ROLE_LABEL, "tenon");
    pen_put(page->pen, page->row - 1, column + 6, 11,
            risk >= NECK_RISK_HIGH ? ROLE_CAUTION
            : tenon                ? value_role(page, tenon)
                                   : ROLE_DIM,
            tenon ? neck_risk_name(risk) : "-");
}

/* Whether an angle must say for itself that no reset is due: what is to be measured next stands
 * where that is said else. Nobody takes an angle below 0 for a job. */
static bool says_no_reset(const struct page *page, const struct figure *angle)
{
    char memory[80];
    struct strbuf next = STRBUF(memory);

    neck_words_next(page->derived, &next);
    return next.length > 0 && angle->value > 0 &&
           move_set_reset(&page->derived->moves) == RESET_SADDLE;
}

static void draw_angle(struct page *page)
{
    const struct figure *figure = get(page, FIGURE_ANGLE);
    const double factor = figure_info(FIGURE_ANGLE)->factor;
    char memory[48];
    struct strbuf text = STRBUF(memory);

    if (figure) {
        num_format_fixed(figure->value * factor, 2, false, &text);
        add_u(figure, factor, 2, &text);
        strbuf_add(&text, says_no_reset(page, figure) ? " deg, no reset" : " deg");
    }
    draw_text(page, "neck angle", figure ? value_role(page, figure) : ROLE_DIM, memory);
}

/* What a new neck angle needs, by the kind of join: heel taper or pocket shim, and the wedge
 * under the tongue. */
static void draw_reset(struct page *page)
{
    const bool pocket = page->derived->neck.join == JOIN_POCKET;
    const struct figure *heel = get(page, pocket ? FIGURE_POCKET_SHIM : FIGURE_HEEL_CUT);
    const struct figure *wedge = get(page, FIGURE_TONGUE_WEDGE);
    const enum unit unit = small_unit(page);
    char memory[64];
    struct strbuf text = STRBUF(memory);

    if (heel) {
        amount_add_cut(&text, heel->value, unit);
        if (heel->u > 0)
            amount_add_doubt(&text, heel->u, unit);
    }
    if (wedge) {
        strbuf_add(&text, heel ? " wedge " : "- wedge ");
        amount_add_cut(&text, wedge->value, unit);
    }
    if (heel || wedge)
        amount_add_unit(&text, unit);
    draw_text(page, pocket ? "pocket shim" : "heel taper",
              heel    ? value_role(page, heel)
              : wedge ? value_role(page, wedge)
                      : ROLE_DIM,
              memory);
}

static void draw_figures(struct page *page)
{
    static const struct slot_row first = {
        .label = "EI fret 1",
        .unit = "N m\xC2\xB2",
        .figures = {FIGURE_EI_FIRST, FIGURE_EI_FIRST_FILLED, FIGURE_EI_FIRST_RECUT},
        .add = add_stiffness};
    static const struct slot_row heel = {
        .label = "EI heel",
        .unit = "N m\xC2\xB2",
        .figures = {FIGURE_EI_HEEL, FIGURE_EI_HEEL_FILLED, FIGURE_EI_HEEL_RECUT},
        .add = add_stiffness};
    const struct slot_row wood = {.label = "wood left",
                                  .unit = amount_unit(small_unit(page)),
                                  .figures = {FIGURE_WOOD_LEFT, ABSENT, FIGURE_WOOD_LEFT_RECUT},
                                  .add = add_wood,
                                  .wood = true};
    const struct slot_row relief = {
        .label = "pull bends",
        .unit = amount_unit(relief_unit(page)),
        .figures = {FIGURE_RELIEF_PREDICTED, FIGURE_RELIEF_FILLED, FIGURE_RELIEF_RECUT},
        .add = add_relief};
    const struct slot_row relief_u = {
        .label = "",
        .unit = amount_unit(relief_unit(page)),
        .figures = {FIGURE_RELIEF_PREDICTED, FIGURE_RELIEF_FILLED, FIGURE_RELIEF_RECUT},
        .add = add_relief_u};

    draw_heading(page);
    draw_slots(page, &first);
    draw_slots(page, &heel);
    draw_slots(page, &relief);
    draw_slots(page, &relief_u);
    draw_relief_read(page);
    draw_hold(page);
    draw_slots(page, &wood);
    draw_stop_and_tenon(page);
    draw_angle(page);
    draw_reset(page);
}

/* What to measure next, or, if everything is known, whether a reset is needed. */
static void draw_next(struct page *page)
{
    const enum reset_verdict verdict = move_set_reset(&page->derived->moves);
    char memory[80];
    struct strbuf next = STRBUF(memory);

    neck_words_next(page->derived, &next);
    if (next.length > 0)
        pen_put(page->pen, page->row, page->column, page->width, ROLE_KEY, memory);
    else
        pen_put(page->pen, page->row, page->column, page->width,
                verdict == RESET_NECK ? ROLE_OFF : ROLE_GOOD, neck_words_verdict(verdict));
    page->row++;
}

const char *neck_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const int columns = pen->frame->columns;
    const struct route_cell *cell = app_cell(app);
    const int form = columns < 100 ? 39 : columns * 2 / 5;
    const struct form_area left = {.row = row, .rows = rows, .column = 0, .width = form};
    const struct form_area picture = {.row = row + FIGURE_ROWS + 1,
                                      .rows = rows - FIGURE_ROWS - 1,
                                      .column = form + 1,
                                      .width = columns - form - 2};
    struct page page = {.pen = pen,
                        .app = app,
                        .derived = app_shown(app),
                        .row = row,
                        .column = form + 1,
                        .width = columns - form - 2};
    if (page.width > 60)
        page.width = 60;
    form_view_draw(pen, app, &left, 0, app->route.count - 1);
    draw_figures(&page);
    draw_next(&page);
    section_view_draw(pen, app, &picture);
    return neck_words_caution(page.derived, cell ? cell->key.field : FIELD_COUNT_);
}
