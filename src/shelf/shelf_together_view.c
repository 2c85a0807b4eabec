/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "shelf/shelf_together.h"
#include "words/join_words.h"

/* Where the columns are: the place, and what each side has. */
struct columns {
    int where, where_width, side[2], width;
};

enum {
    MARK = 1,
    ROWS_OF_HEAD = 3,
    ROWS_OF_ONE_MIN = 7, /* a rule, its place, why, and two rows for each side */
    ROWS_OF_ONE_MAX = 13,
    WORDS_MAX = FIELD_TEXT_MAX + 200,
};

static struct columns find_columns(int width)
{
    const int at = MARK + 3, where = width / 2 - 4, side = (width - at - where - 3) / 2;

    return (struct columns){.where = at,
                            .where_width = where,
                            .side = {at + where + 1, at + where + 1 + side + 1},
                            .width = side};
}

static void draw_head(const struct pen *pen, const struct shelf_together *together, int row)
{
    const struct columns columns = find_columns(pen->frame->columns);
    char memory[160];
    struct strbuf words = STRBUF(memory);

    strbuf_addf(&words, "%zu %s, %zu open; ", together->count,
                together->count == 1 ? "differs" : "differ",
                join_count_open(together->differences, together->count));
    if (together->since[0])
        strbuf_addf(&words, "both come from the state kept %s (UTC)", together->since);
    else
        strbuf_add(&words, "no earlier state is known that both come from");
    pen_put_cut(pen, row, MARK, pen->frame->columns - 2, ROLE_LABEL, memory);
    pen_put_cut(pen, row + 2, columns.side[0] + 1, columns.width - 1, ROLE_LABEL, "left: the file");
    words = strbuf_over(memory, sizeof memory);
    strbuf_addf(&words, "right: %s", together->right);
    pen_put_cut(pen, row + 2, columns.side[1] + 1, columns.width - 1, ROLE_LABEL, memory);
}

static bool is_taken(const struct join_difference *difference, enum join_version side)
{
    return difference->side == JOIN_AS_BOTH ||
           difference->side == (side == JOIN_LEFT ? JOIN_AS_LEFT : JOIN_AS_RIGHT);
}

/* What a side has; where that is too long for the room, from where both begin to differ. */
static const char *value_of(const struct shelf_together *together,
                            const struct join_difference *difference, enum join_version side,
                            int room, char *memory)
{
    static const char cut[] = "...";
    struct strbuf words = strbuf_over(memory, WORDS_MAX);
    const size_t shared = join_words_shared(together->join, difference);

    join_words_add_value(&words, together->join, difference, side);
    if (shared < sizeof cut || utf8_columns(memory) <= room)
        return memory;
    char *from = memory + shared - (sizeof cut - 1);
    memcpy(from, cut, sizeof cut - 1);
    return from;
}

/* What is taken is in brackets, so that it shows without colour. */
static void draw_side(const struct pen *pen, const struct shelf_together *together,
                      const struct join_difference *difference, enum join_version side, int row,
                      char *memory)
{
    const struct columns columns = find_columns(pen->frame->columns);
    const bool taken = is_taken(difference, side);
    const int used = pen_put_cut(pen, row, columns.side[side] + 1, columns.width - 2,
                                 taken                           ? ROLE_VALUE
                                 : difference->side == JOIN_OPEN ? ROLE_TEXT
                                                                 : ROLE_DIM,
                                 value_of(together, difference, side, columns.width - 2, memory));
    if (!taken)
        return;
    pen_put(pen, row, columns.side[side], 1, ROLE_KEY, "[");
    pen_put(pen, row, columns.side[side] + 1 + used, 1, ROLE_KEY, "]");
}

static void draw_one(const struct pen *pen, const struct shelf_together *together, size_t i,
                     int row, char *memory)
{
    const struct join_difference *difference = &together->differences[i];
    const struct columns columns = find_columns(pen->frame->columns);
    struct strbuf words = strbuf_over(memory, WORDS_MAX);
    const bool now = i == together->at;

    join_words_add_where(&words, together->join, difference);
    pen_put(pen, row, MARK, 1, ROLE_KEY, now ? ">" : "");
    if (difference->side == JOIN_OPEN)
        pen_put(pen, row, MARK + 1, 1, ROLE_CAUTION, "?");
    pen_put_cut(pen, row, columns.where, columns.where_width, now ? ROLE_CELL : ROLE_TEXT, memory);
    draw_side(pen, together, difference, JOIN_LEFT, row, memory);
    draw_side(pen, together, difference, JOIN_RIGHT, row, memory);
    if (now) {
        pen->frame->cursor_row = row;
        pen->frame->cursor_column = columns.where;
    }
}

/* All that a side has, as far as there is room; returns the rows used. */
static int draw_whole_side(const struct pen *pen, const struct shelf_together *together,
                           enum join_version side, int row, int rows, char *memory)
{
    enum { INDENT = 9 };
    const int width = pen->frame->columns - INDENT - 1;

    pen_put(pen, row, MARK + 2, INDENT - MARK - 2, ROLE_LABEL,
            side == JOIN_LEFT ? "left" : "right");
    return pen_wrap(pen, row, INDENT, width, rows, ROLE_VALUE,
                    value_of(together, &together->differences[together->at], side,
                             rows * width - width / 2, memory));
}

/* The one in hand: its place and why it is so, in full. */
static void draw_in_hand(const struct pen *pen, const struct shelf_together *together, int row,
                         int rows, char *memory)
{
    const struct join_difference *difference = &together->differences[together->at];
    const int width = pen->frame->columns - MARK - 3, each = (rows - 3) / 2;
    struct strbuf words = strbuf_over(memory, WORDS_MAX);

    pen_rule(pen, row, MARK, pen->frame->columns - 2 * MARK);
    join_words_add_where(&words, together->join, difference);
    pen_put_cut(pen, row + 1, MARK + 2, width, ROLE_LABEL, memory);
    words = strbuf_over(memory, WORDS_MAX);
    if (difference->asked && record_join_may_be_both(together->join, difference))
        strbuf_add(&words, "5 takes both; ");
    join_words_add_why(&words, together->join, difference);
    pen_put_cut(pen, row + 2, MARK + 2, width, ROLE_DIM, memory);
    const int used = draw_whole_side(pen, together, JOIN_LEFT, row + 3, each, memory);
    (void)draw_whole_side(pen, together, JOIN_RIGHT, row + 3 + used, each, memory);
}

/* Texts may be long, so their room is not on the stack. */
static void draw(const struct pen *pen, const struct shelf_together *together, int row, int rows,
                 char *memory)
{
    const int least = rows - ROWS_OF_HEAD - ROWS_OF_ONE_MIN;
    const int count = least > 0 && together->count < (size_t)least ? (int)together->count : least;
    const int room = count > 1 ? count : 1, rest = rows - ROWS_OF_HEAD - room;
    const int below = rest < ROWS_OF_ONE_MAX ? rest : ROWS_OF_ONE_MAX;
    const size_t top = together->at >= (size_t)room ? together->at - (size_t)room + 1 : 0;

    for (int i = 0; i < room && top + (size_t)i < together->count; i++)
        draw_one(pen, together, top + (size_t)i, row + ROWS_OF_HEAD + i, memory);
    if (top + (size_t)room < together->count)
        pen_put_right(pen, row + 1, 0, pen->frame->columns - 1, ROLE_KEY, "Down: more");
    draw_in_hand(pen, together, row + ROWS_OF_HEAD + room, below, memory);
}

void shelf_together_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows)
{
    const struct shelf_together *together = &list->together;
    char *memory = together->join ? malloc(WORDS_MAX) : NULL;

    if (!together->join)
        return;
    draw_head(pen, together, row);
    if (together->count == 0)
        pen_put(pen, row + ROWS_OF_HEAD, MARK, pen->frame->columns - 2, ROLE_TEXT,
                "Both say the same. Enter makes the other version an earlier state.");
    else if (memory)
        draw(pen, together, row, rows, memory);
    else
        pen_put(pen, row + ROWS_OF_HEAD, MARK, pen->frame->columns - 2, ROLE_CAUTION,
                status_text(STATUS_NO_MEMORY));
    free(memory);
}
