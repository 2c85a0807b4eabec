/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_rows.h"

/* The columns that fit, with their widths. */
struct layout {
    enum shelf_column column[QUESTION_COLUMNS_MAX];
    int width[QUESTION_COLUMNS_MAX];
    int count;
};

static void insert(struct layout *layout, int at, enum shelf_column column, int width)
{
    for (int i = layout->count++; i > at; i--) {
        layout->column[i] = layout->column[i - 1];
        layout->width[i] = layout->width[i - 1];
    }
    layout->column[at] = column;
    layout->width[at] = width;
}

static int find(const struct layout *layout, enum shelf_column column)
{
    int at = 0;

    while (at < layout->count && layout->column[at] != column)
        at++;
    return at;
}

static void widen(struct layout *layout, enum shelf_column column, int by)
{
    const int at = find(layout, column);

    if (at < layout->count)
        layout->width[at] += by;
}

/* The basic columns fit in 79. Of all instruments maker and serial are added if there is room; the
 * rest widens the columns of free text. */
static struct layout lay_out(enum shelf_question question, int columns)
{
    const struct shelf_question_row *row = shelf_question_get(question);
    struct layout layout = {.count = 0};
    int left = columns - 80;

    for (int i = 0; i < row->shown_count; i++)
        insert(&layout, layout.count, row->shown[i].column, row->shown[i].width);
    if (question == SHELF_ALL && left >= 20) {
        insert(&layout, find(&layout, COLUMN_VISIT), COLUMN_MAKER, 19);
        left -= 20;
    }
    if (question == SHELF_ALL && left >= 13) {
        insert(&layout, find(&layout, COLUMN_VISIT), COLUMN_SERIAL, 12);
        left -= 13;
    }
    if (left > 0) {
        const int wide = left > 60 ? 60 : left;

        widen(&layout, COLUMN_NAME, wide / 2);
        widen(&layout, COLUMN_OWNER, wide / 4);
        widen(&layout, question == SHELF_ALL ? COLUMN_MARKS : COLUMN_TO_DO, wide / 4);
    }
    return layout;
}

static bool is_past(const struct shelf_ground *ground, const struct shelf_item *item,
                    enum fact_number id)
{
    return maybe_or(item->facts->number[id], ground->today) < ground->today;
}

static enum role role_of(const struct shelf_ground *ground, const struct shelf_item *item,
                         enum shelf_column column)
{
    switch (column) {
    case COLUMN_MARKS:
        return item->marks & (SHELF_BROKEN | SHELF_VERSIONS | SHELF_VERSION) ? ROLE_CAUTION
               : item->marks & SHELF_UNREAD                                  ? ROLE_DIM
                                                                             : ROLE_OFF;
    case COLUMN_NAME:
        return item->marks & (SHELF_BROKEN | SHELF_UNREAD) ? ROLE_ASSUMED : ROLE_VALUE;
    case COLUMN_PROMISED:
        return is_past(ground, item, FACT_PROMISED_DAY) ? ROLE_CAUTION : ROLE_TEXT;
    default:
        return ROLE_TEXT;
    }
}

static void draw_item(const struct pen *pen, const struct layout *layout,
                      const struct shelf_list *list, const struct shelf_item *item, int row,
                      bool now)
{
    int at = 1;

    for (int i = 0; i < layout->count; i++) {
        const enum shelf_column column = layout->column[i];
        const int width = layout->width[i];
        char memory[LINEEDIT_MAX];
        struct strbuf text = STRBUF(memory);

        if (column == COLUMN_NAME)
            strbuf_add(&text, shelf_item_title(item));
        else
            shelf_column_add(&list->ground, item, column, width < 20, &text);
        pen_put_cut(pen, row, at, width, now ? ROLE_CELL : role_of(&list->ground, item, column),
                    memory);
        at += width + 1;
    }
    if (!now)
        return;
    pen_put(pen, row, 0, 1, ROLE_KEY, ">");
    frame_set_role(pen->frame, row, 1, at - 2, ROLE_CELL);
    pen->frame->cursor_row = row;
    pen->frame->cursor_column = 1;
}

static void draw_heading(const struct pen *pen, const struct layout *layout, int row)
{
    int at = 1;

    for (int i = 0; i < layout->count; i++) {
        pen_put(pen, row, at, layout->width[i], ROLE_LABEL,
                shelf_column_heading(layout->column[i], false));
        at += layout->width[i] + 1;
    }
}

void shelf_rows_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows,
                     int columns)
{
    const struct layout layout = lay_out(list->question, columns);

    draw_heading(pen, &layout, row);
    for (int i = 0; i < rows - 1; i++) {
        const size_t at = list->top + (size_t)i;

        if (at >= list->found_count)
            return;
        draw_item(pen, &layout, list, list->found[at], row + 1 + i, at == list->at);
    }
}
