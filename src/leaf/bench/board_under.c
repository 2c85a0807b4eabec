/* SPDX-License-Identifier: MIT */
#include "leaf/bench/board_under.h"

#include <math.h>
#include <string.h>

#include "base/utf8.h"
#include "words/amount.h"

enum { LABEL_COLUMN = 3 };

static const char *const labels[UNDER_COUNT_] = {
    [UNDER_LEFT] = "last left", [UNDER_BELIEVED] = "believed", [UNDER_THEN] = "then"};

/* The last pass of the latest visit before the one in hand that was read; pass 0 for none. */
static struct place left_place(const struct app *app)
{
    for (int visit = app->visit - 1; visit > 0; visit--) {
        const int pass = record_last_read_pass(&app->record, visit);

        if (pass > 0)
            return place_of(&app->record, visit, pass);
    }
    return place_of(&app->record, 0, 0);
}

static bool reads_held(const struct app *app, const struct bench_row *row)
{
    return row->read_held && app_nut_method(app) == NUT_HELD_3;
}

static struct believed believed_on(const struct app *app, const struct bench_row *row, int string)
{
    const struct move_set *moves = &app->now.moves;

    if (row->move == MOVE_ROD)
        return moves->relief;
    if (row->move == MOVE_SADDLE)
        return moves->action[string];
    return reads_held(app, row) && moves->held[string].mm.given ? moves->held[string]
                                                                : moves->gap[string];
}

/* After the turns that are asked for at once; nothing where nobody knows what a turn does. */
static struct maybe after_rod(const struct app *app, const struct bench_row *row, int string)
{
    const struct move *rod = &app->now.moves.move[MOVE_ROD];
    const struct maybe then = row->move == MOVE_ROD      ? rod->relief_then
                              : row->move == MOVE_SADDLE ? rod->action_then[string]
                              : reads_held(app, row) && rod->held_then[string].given
                                  ? rod->held_then[string]
                                  : rod->gap_then[string];

    return move_part(believed_on(app, row, string).mm, then,
                     move_rod_share(rod, setup_rod_turns(&app->now.setup), maybe_absent()));
}

/* A saddle that is due brings its strings to their targets, which are shown as a rule reads them.
 */
static struct maybe then_on(const struct app *app, const struct bench_row *row, int string)
{
    const struct move_set *moves = &app->now.moves;
    const enum move_kind last = move_set_last_due(moves);

    if (last == MOVE_COUNT_)
        return maybe_absent();
    const struct move *move = &moves->move[last];
    if (last == MOVE_ROD)
        return after_rod(app, row, string);
    if (row->move == MOVE_ROD)
        return move->relief_then;
    if (row->move == MOVE_SADDLE)
        return move->action_then[string].given && move->string[string].due && last == MOVE_SADDLE
                   ? maybe_given(
                         amount_on_rule(move->action_then[string].value, board_row_unit(app, row)))
                   : move->action_then[string];
    return reads_held(app, row) && move->held_then[string].given ? move->held_then[string]
                                                                 : move->gap_then[string];
}

/* What was left stands as it was typed. */
static void add_left(const struct app *app, const struct bench_row *row, int string, int width,
                     struct strbuf *out)
{
    const struct place left = left_place(app);
    const struct reading_key key = bench_row_key(row, END_BASS, left.visit, left.pass, string);

    if (left.pass == 0 || !record_entered(&app->record, key).given)
        return;
    entry_show(record_text(&app->record, &key), field_get(key.field), &app->units, out);
    board_fit_reading(app, &key, width, out);
}

/* What a line says of a string, or of the neck for string 0; nothing where it is not known. */
static void add_value(const struct app *app, const struct bench_row *row,
                      enum board_under_line line, int string, int width, struct strbuf *out)
{
    const struct maybe mm =
        line == UNDER_BELIEVED ? believed_on(app, row, string).mm : then_on(app, row, string);

    if (line == UNDER_LEFT)
        add_left(app, row, string, width, out);
    else if (mm.given)
        amount_add_short(out, mm.value, board_row_unit(app, row), width);
}

/* The strings of a row are `first` to `*ret_last`; one that is read once has its reading at 0. */
static int first_string(const struct app *app, const struct bench_row *row, int *ret_last)
{
    *ret_last = bench_row_by_string(row) ? app->now.setup.board.strings : 0;
    return bench_row_by_string(row) ? 1 : 0;
}

/* Moves that leave a row as it is say nothing of it. */
static bool says_anything(const struct app *app, const struct bench_row *row,
                          enum board_under_line line)
{
    enum { WIDE = 12 };
    int last;

    for (int s = first_string(app, row, &last); s <= last; s++) {
        char memory[300], other_memory[32];
        struct strbuf text = STRBUF(memory), other = STRBUF(other_memory);

        add_value(app, row, line, s, WIDE, &text);
        if (line == UNDER_THEN)
            add_value(app, row, UNDER_BELIEVED, s, WIDE, &other);
        if (memory[0] && strcmp(memory, other_memory) != 0)
            return true;
    }
    return false;
}

void board_under_find(const struct app *app, int most, struct board_under *ret_under)
{
    static const enum board_under_line order[] = {UNDER_THEN, UNDER_LEFT, UNDER_BELIEVED};

    *ret_under = (struct board_under){.rows = 0};
    for (int i = 0; i < UNDER_COUNT_; i++)
        for (int id = 0; id < ROW_COUNT_; id++) {
            const struct bench_row *row = bench_row_in(&app->now.setup.outfit, id);
            bool *lines = ret_under->line[id];
            const bool shared = !bench_row_by_string(row) && (lines[0] || lines[1] || lines[2]);

            if (!move_is_measured(row->move) || (!shared && ret_under->rows >= most) ||
                !says_anything(app, row, order[i]))
                continue;
            lines[order[i]] = true;
            ret_under->rows += shared ? 0 : 1;
        }
}

/* --- beside the strings --- */

static void add_uncertainty(const struct app *app, const struct bench_row *row, struct strbuf *out)
{
    double u = 0;
    int last;

    for (int s = first_string(app, row, &last); s <= last; s++)
        if (believed_on(app, row, s).mm.given)
            u = fmax(u, believed_on(app, row, s).u);
    strbuf_add(out, "\xC2\xB1");
    amount_add(out, u, board_row_unit(app, row), false);
    amount_add_unit(out, board_row_unit(app, row));
}

static void add_moves(const struct app *app, struct strbuf *out)
{
    const char *before = "after ";

    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (move_is_measured((enum move_kind)kind) && app->now.moves.move[kind].state == MOVE_DUE) {
            strbuf_addf(out, "%s%s", before,
                        outfit_move_name(&app->now.setup.outfit, (enum move_kind)kind));
            before = ", ";
        }
}

static void add_visit(const struct place *left, struct strbuf *out)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_DATE, left->visit);
    const char *date = record_text(&left->record, &key);

    strbuf_addf(out, "visit %d%s%s", left->visit, date ? ", " : "", date ? date : "");
}

/* How the gaps of a line are to be read; "" where all of them are of open strings. */
static const char *method_words(const struct app *app, const struct bench_row *row,
                                enum board_under_line line)
{
    const struct place left = left_place(app);
    bool held = reads_held(app, row) && app->now.moves.held[1].mm.given;

    if (!row->read_held)
        return "";
    if (line == UNDER_LEFT)
        held = record_choice_or(&left.record, place_key(left, FIELD_NUT_METHOD), NUT_OPEN) ==
               NUT_HELD_3;
    return held ? "held" : reads_held(app, row) ? "open" : "";
}

static void add_beside(const struct app *app, const struct bench_row *row,
                       enum board_under_line line, struct strbuf *out)
{
    const struct place left = left_place(app);

    if (line == UNDER_BELIEVED)
        add_uncertainty(app, row, out);
    else if (line == UNDER_THEN)
        add_moves(app, out);
    else
        add_visit(&left, out);
}

static void draw_strings(const struct pen *pen, const struct app *app,
                         const struct board_grid *grid, const struct bench_row *row,
                         enum board_under_line line, int at)
{
    const struct outfit *outfit = &app->now.setup.outfit;
    const char *method = method_words(app, row, line);
    char memory[300], beside_memory[80];
    struct strbuf text = STRBUF(memory), beside = STRBUF(beside_memory);

    pen_put(pen, at, LABEL_COLUMN, grid->label - LABEL_COLUMN, ROLE_DIM, labels[line]);
    for (int s = outfit->strings; s >= 1; s--) {
        if (!outfit_is_read(outfit, s))
            continue;
        strbuf_clear(&text);
        add_value(app, row, line, s, grid->cell - 1, &text);
        pen_put_right(pen, at, grid->label + outfit_column(outfit, s) * grid->cell, grid->cell - 1,
                      ROLE_DIM, memory);
    }
    strbuf_addf(&beside, "%s%s", method, method[0] ? ", " : "");
    add_beside(app, row, line, &beside);
    /* In ASCII a plus-minus is two columns. */
    if (utf8_columns(beside_memory) + !pen->utf8 > grid->side - 2) {
        strbuf_clear(&beside);
        strbuf_add(&beside, method);
    }
    pen_put(pen, at, grid->side_column + 1, grid->side - 2, ROLE_DIM, beside_memory);
}

/* The first line's value stands in the row's cell, the others behind it. */
static void draw_once(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                      const struct bench_row *row, const bool *lines, int at)
{
    int column = 0;

    for (int line = 0; line < UNDER_COUNT_; line++) {
        char memory[300];
        struct strbuf text = STRBUF(memory);

        if (!lines[line])
            continue;
        if (column == 0) {
            pen_put(pen, at, LABEL_COLUMN, grid->label - LABEL_COLUMN, ROLE_DIM, labels[line]);
            add_value(app, row, (enum board_under_line)line, 0, grid->cell - 1, &text);
            pen_put_right(pen, at, grid->label, grid->cell - 1, ROLE_DIM, memory);
            column = grid->label + grid->cell + 1;
            strbuf_clear(&text);
        } else {
            strbuf_addf(&text, "%s ", labels[line]);
            add_value(app, row, (enum board_under_line)line, 0, grid->cell, &text);
            strbuf_add(&text, " ");
        }
        add_beside(app, row, (enum board_under_line)line, &text);
        if (column + utf8_columns(memory) < pen->frame->columns)
            column += pen_put(pen, at, column, pen->frame->columns - column, ROLE_DIM, memory) + 3;
    }
}

int board_under_draw(const struct pen *pen, const struct app *app, const struct board_grid *grid,
                     const struct board_under *under, enum bench_row_id id, int at)
{
    const struct bench_row *row = bench_row_in(&app->now.setup.outfit, (int)id);
    const bool *lines = under->line[id];
    int rows = 0;

    if (!bench_row_by_string(row)) {
        draw_once(pen, app, grid, row, lines, at);
        return lines[0] || lines[1] || lines[2];
    }
    for (int line = 0; line < UNDER_COUNT_; line++)
        if (lines[line])
            draw_strings(pen, app, grid, row, (enum board_under_line)line, at + rows++);
    return rows;
}
