/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_rows.h"

enum column { NAME, KIND, OWNER, MAKER, SERIAL, VISIT, MARKS, COLUMN_COUNT };

static const char *const headings[COLUMN_COUNT] = {
    [NAME] = "name",     [KIND] = "kind",        [OWNER] = "owner", [MAKER] = "maker",
    [SERIAL] = "serial", [VISIT] = "last visit", [MARKS] = "marks",
};

/* The widths of the columns; 0 for one that does not fit. */
struct layout {
    int width[COLUMN_COUNT];
};

/* The basic columns fit in 79. Maker and serial are added if there is room; the rest widens the
 * columns of free text. */
static struct layout lay_out(int columns)
{
    struct layout layout = {
        .width = {[NAME] = 22, [KIND] = 12, [OWNER] = 15, [VISIT] = 10, [MARKS] = 15}};
    int left = columns - 80;

    if (left >= 20) {
        layout.width[MAKER] = 19;
        left -= 20;
    }
    if (left >= 13) {
        layout.width[SERIAL] = 12;
        left -= 13;
    }
    if (left > 0) {
        const int wide = left > 60 ? 60 : left;

        layout.width[NAME] += wide / 2;
        layout.width[OWNER] += wide / 4;
        layout.width[MARKS] += wide / 4;
    }
    return layout;
}

static const char *text_of(const struct shelf_item *item, enum column column)
{
    switch (column) {
    case NAME:
        return shelf_item_title(item);
    case KIND:
        return item->card.kind;
    case OWNER:
        return item->card.owner;
    case MAKER:
        return item->card.maker;
    case SERIAL:
        return item->card.serial;
    case VISIT:
        return item->card.visit;
    case MARKS:
    case COLUMN_COUNT:
        break;
    }
    return "";
}

static enum role role_of(const struct shelf_item *item, enum column column)
{
    if (column == MARKS)
        return item->marks & (SHELF_BROKEN | SHELF_VERSIONS) ? ROLE_CAUTION
               : item->marks & SHELF_UNREAD                  ? ROLE_DIM
                                                             : ROLE_OFF;
    if (column == NAME)
        return item->marks & (SHELF_BROKEN | SHELF_UNREAD) ? ROLE_ASSUMED : ROLE_VALUE;
    return ROLE_TEXT;
}

static void draw_item(const struct pen *pen, const struct layout *layout,
                      const struct shelf_item *item, int row, bool now)
{
    int at = 1;

    for (int column = 0; column < COLUMN_COUNT; column++) {
        const int width = layout->width[column];
        char memory[64];
        struct strbuf marks = STRBUF(memory);

        if (width == 0)
            continue;
        shelf_item_marks(item, width < 20, &marks);
        pen_put_cut(pen, row, at, width, now ? ROLE_CELL : role_of(item, (enum column)column),
                    column == MARKS ? memory : text_of(item, (enum column)column));
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

    for (int column = 0; column < COLUMN_COUNT; column++) {
        if (layout->width[column] == 0)
            continue;
        pen_put(pen, row, at, layout->width[column], ROLE_LABEL, headings[column]);
        at += layout->width[column] + 1;
    }
}

void shelf_rows_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows)
{
    const struct layout layout = lay_out(pen->frame->columns);

    draw_heading(pen, &layout, row);
    for (int i = 0; i < rows - 1; i++) {
        const size_t at = list->top + (size_t)i;

        if (at >= list->found_count)
            return;
        draw_item(pen, &layout, list->found[at], row + 1 + i, at == list->at);
    }
}
