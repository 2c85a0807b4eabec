/* SPDX-License-Identifier: MIT */
#include "screen/choice_view.h"

#include "base/utf8.h"

/* How the list is laid out: read across, then down. */
struct grid {
    int width;   /* of a name with its number and the gap after it */
    int columns; /* names side by side */
    int rows;    /* of a page */
    int first;   /* index of the page's first name among those found */
};

static void add_name(const struct name_list *list, int place, struct strbuf *out)
{
    char name[NAME_LIST_NAME_SIZE];

    if (name_list_said(list, place, name, sizeof name))
        strbuf_addf(out, "%2d %s", place + 1, name);
}

static int widest(const struct name_list *list, const struct candidates *found)
{
    int width = 1;

    for (int i = 0; i < found->count; i++) {
        char memory[NAME_LIST_NAME_SIZE + 8];
        struct strbuf text = STRBUF(memory);

        add_name(list, found->at[i], &text);
        if (utf8_columns(memory) > width)
            width = utf8_columns(memory);
    }
    return width;
}

static struct grid lay_out(const struct name_list *list, const struct choice *choice, int columns)
{
    enum { GAP = 2 };
    const struct candidates *found = &choice->found;
    struct grid grid = {.width = widest(list, found) + GAP};
    int in_hand = 0;

    grid.columns = columns > grid.width ? columns / grid.width : 1;
    grid.rows = (found->count + grid.columns - 1) / grid.columns;
    if (grid.rows > CHOICE_VIEW_ROWS - 1)
        grid.rows = CHOICE_VIEW_ROWS - 1;
    for (int i = 0; i < found->count; i++)
        if (found->at[i] == choice->in_hand)
            in_hand = i;
    grid.first = in_hand / (grid.rows * grid.columns) * grid.rows * grid.columns;
    return grid;
}

static void draw_name(const struct pen *pen, const struct app *app, int place, int row, int column,
                      int width)
{
    char memory[NAME_LIST_NAME_SIZE + 8];
    struct strbuf text = STRBUF(memory);
    const struct name_list list = app_names(app);

    add_name(&list, place, &text);
    pen_put(pen, row, column, width, place == app->choice.in_hand ? ROLE_CELL : ROLE_TEXT, memory);
}

/* "which wood? 1 of 2: PgDn". */
static void draw_head(const struct pen *pen, const struct app *app, const struct grid *grid,
                      int row)
{
    const int page = grid->rows * grid->columns, count = app->choice.found.count;
    char memory[80];
    struct strbuf text = STRBUF(memory);
    const struct name_list list = app_names(app);

    pen_rule(pen, row, 0, pen->frame->columns);
    strbuf_addf(&text, " %s ", name_list_label(&list));
    if (count > page)
        strbuf_addf(&text, "%d of %d: PgUp, PgDn ", grid->first / page + 1,
                    (count + page - 1) / page);
    pen_put(pen, row, 1, pen->frame->columns - 2, ROLE_LABEL, memory);
}

void choice_view_draw(const struct pen *pen, const struct app *app, int row)
{
    const struct candidates *found = &app->choice.found;
    const int columns = pen->frame->columns;

    if (found->count == 0 || !app_cell(app))
        return;
    const struct name_list list = app_names(app);
    const struct grid grid = lay_out(&list, &app->choice, columns - 2);
    const int top = row - grid.rows;

    draw_head(pen, app, &grid, top - 1);
    for (int r = top; r < row; r++)
        for (int c = 0; c < columns; c++)
            frame_put_rune(pen->frame, r, c, ROLE_TEXT, ' ');
    for (int i = grid.first; i < found->count && i < grid.first + grid.rows * grid.columns; i++)
        draw_name(pen, app, found->at[i], top + (i - grid.first) / grid.columns,
                  1 + (i - grid.first) % grid.columns * grid.width, grid.width - 2);
}
