/* SPDX-License-Identifier: MIT */
#include "ui/overlay_view.h"

#include "app/amount.h"
#include "base/num.h"

/* Lines that scroll: only those from `top` on that find room are drawn. */
struct scroll {
    const struct pen *pen;
    int row, end, skip;
};

static void scroll_put(struct scroll *scroll, int column, enum role role, const char *text)
{
    const int width = scroll->pen->frame->columns - column - 1;
    const int lines = pen_wrap(scroll->pen, 0, 0, width, 0, role, text);

    if (scroll->skip > 0) {
        scroll->skip -= lines > 0 ? lines : 1;
        return;
    }
    if (scroll->row < scroll->end)
        pen_wrap(scroll->pen, scroll->row, column, width, scroll->end - scroll->row, role, text);
    scroll->row += lines > 0 ? lines : 1;
}

static void key_line(struct scroll *scroll, const struct command *command)
{
    enum { KEY_WIDTH = 18 };
    char memory[48];
    struct strbuf keys = STRBUF(memory);
    const int row = scroll->row;
    const bool shown = scroll->skip <= 0 && row < scroll->end;

    command_key_name(command->key, &keys);
    if (command->other_key) {
        strbuf_add(&keys, " or ");
        command_key_name(command->other_key, &keys);
    }
    scroll_put(scroll, 2 + KEY_WIDTH, ROLE_TEXT, command->words);
    if (shown)
        pen_put(scroll->pen, row, 2, KEY_WIDTH, ROLE_KEY, memory);
}

static void draw_help(struct scroll *scroll)
{
    scroll_put(scroll, 2, ROLE_LABEL, "Typing a reading");
    scroll_put(scroll, 2, ROLE_TEXT,
               "Digits . / + - begin an entry: .013  7/64  8-1/4  .010+.002 (leaves laid "
               "together). Then a unit may follow: mm cm in th. A bare number takes the unit of "
               "its row; Enter takes the reading and goes on.");
    scroll_put(scroll, 2, ROLE_LABEL, "On the board");
    scroll_put(scroll, 2, ROLE_TEXT,
               "~ taken from the neighbouring strings   ( ) to be expected after the moves   "
               "! unusual, look again   - not measured");
    scroll_put(scroll, 2, ROLE_LABEL, "Keys");
    for (int id = 0; id < COMMAND_COUNT_; id++)
        key_line(scroll, command_get((enum command_id)id));
}

/* A figure's value with its uncertainty, in its printed unit and in the shop's. */
static void add_value(const struct app *app, enum figure_id id, int string, struct strbuf *out)
{
    const struct figure *figure = &app_shown(app)->figures.at[id][string];
    const struct figure_info *info = figure_info(id);

    if (figure->known == KNOWN_ABSENT) {
        strbuf_add(out, "not known: a reading or a target that it needs is absent");
        return;
    }
    num_format_fixed(figure->value * info->factor, 3, false, out);
    strbuf_add(out, " \xC2\xB1");
    num_format_fixed(figure->u * info->factor, 3, false, out);
    strbuf_add_char(out, ' ');
    strbuf_add(out, info->unit);
    if (figure->known == KNOWN_INTERPOLATED)
        strbuf_add(out, ", taken from the neighbouring strings");
}

static void figure_line(struct scroll *scroll, const struct app *app, enum figure_id id,
                        int string)
{
    char memory[160];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, figure_info(id)->label);
    strbuf_add(&text, ": ");
    add_value(app, id, string, &text);
    scroll_put(scroll, 2, ROLE_VALUE, memory);
}

/* The figures that lead to the one asked for, so that its own numbers stand beside it. */
static void way_to(struct scroll *scroll, const struct app *app, enum figure_id id, int string)
{
    static const enum figure_id ways[] = {
        FIGURE_ACTION,        FIGURE_NUT_GAP,     FIGURE_NUT_HEIGHT,
        FIGURE_SADDLE_HEIGHT, FIGURE_GAP_AFTER_ROD, FIGURE_ACTION_AFTER_ROD,
        FIGURE_GAP_AT_TARGET, FIGURE_SLOT_CHANGE, FIGURE_ACTION_AFTER_NUT,
        FIGURE_SADDLE_CHANGE,
    };
    if (id == FIGURE_RELIEF) {
        figure_line(scroll, app, FIGURE_CURVATURE, 0);
        figure_line(scroll, app, FIGURE_TILT, 0);
        return;
    }
    for (size_t i = 0; i < sizeof ways / sizeof ways[0] && ways[i] != id; i++)
        figure_line(scroll, app, ways[i], string);
}

static void draw_why(struct scroll *scroll, const struct app *app)
{
    const enum figure_id id = app_figure(app);
    const struct figure_info *info = figure_info(id);
    const struct route_cell *cell = app_cell(app);
    const int string = cell && info->per == PER_STRING ? cell->string : 0;
    char memory[48];
    struct strbuf text = STRBUF(memory);

    if (string > 0) {
        strbuf_addf(&text, "String %d", string);
        scroll_put(scroll, 2, ROLE_LABEL, memory);
    }
    figure_line(scroll, app, id, string);
    scroll_put(scroll, 2, ROLE_TEXT, info->formula);
    scroll_put(scroll, 2, ROLE_DIM, info->source);
    scroll_put(scroll, 2, ROLE_TEXT, " ");
    scroll_put(scroll, 2, ROLE_LABEL, "From");
    way_to(scroll, app, id, cell ? cell->string : 0);
    if (cell)
        scroll_put(scroll, 2, ROLE_DIM, field_get(cell->key.field)->help);
    scroll_put(scroll, 2, ROLE_DIM,
               "Each \xC2\xB1 is the expanded uncertainty (k = 2, about 95 %) that the gauges' "
               "steps leave: JCGM 100 (GUM), 4.3.7. Estimates; the gauge on the instrument "
               "decides.");
}

void overlay_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    struct scroll scroll = {.pen = pen, .row = row, .end = row + rows, .skip = app->overlay_top};

    if (app->overlay == OVERLAY_HELP)
        draw_help(&scroll);
    else
        draw_why(&scroll, app);
    if (scroll.row > scroll.end)
        pen_put_right(pen, row + rows - 1, 0, pen->frame->columns - 1, ROLE_KEY, "Down: more");
}
