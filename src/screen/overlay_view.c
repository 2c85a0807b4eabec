/* SPDX-License-Identifier: MIT */
#include "screen/overlay_view.h"

#include "words/explain.h"
#include "session/explain_reading.h"

void scroll_put(struct scroll *scroll, int column, enum role role, const char *text)
{
    const int width = scroll->pen->frame->columns - column - 1;
    const int lines = pen_wrap(scroll->pen, 0, 0, width, 0, role, text);
    const int skipped = scroll->skip < lines ? scroll->skip : lines;

    scroll->skip -= skipped;
    if (scroll->row < scroll->end && skipped < lines)
        pen_wrap_from(scroll->pen, scroll->row, column, width, skipped, scroll->end - scroll->row,
                      role, text);
    scroll->row += lines - skipped;
}

void scroll_key(struct scroll *scroll, const char *keys, const char *words)
{
    enum { KEY_WIDTH = 18 };
    const int row = scroll->row;
    const bool shown = scroll->skip == 0 && row < scroll->end;

    scroll_put(scroll, 2 + KEY_WIDTH, ROLE_TEXT, words);
    if (shown)
        pen_put(scroll->pen, row, 2, KEY_WIDTH, ROLE_KEY, keys);
}

static void key_line(struct scroll *scroll, const struct command *command)
{
    char memory[48];
    struct strbuf keys = STRBUF(memory);

    command_keys_name(command->key, command->other_key, command->letter, command->in_menu, &keys);
    scroll_key(scroll, memory, command->words);
}

static void draw_help(struct scroll *scroll, const struct app *app)
{
    scroll_put(scroll, 2, ROLE_LABEL, "Typing a reading");
    scroll_put(
        scroll, 2, ROLE_TEXT,
        "Digits . / + - begin an entry: .013  7/64  8-1/4  .010+.002 (leaves laid "
        "together). Then a unit may follow: mm cm in th. A bare number takes the unit of "
        "its row; Enter takes the reading and goes on. What is not likely to be meant is held: "
        "Enter again files it, Backspace empties it.");
    scroll_put(scroll, 2, ROLE_LABEL, "On the board");
    scroll_put(scroll, 2, ROLE_TEXT,
               "~ taken from the neighbouring strings or the wood named   ( ) to be expected after "
               "the moves   "
               "! unusual, look again   - not measured");
    scroll_put(scroll, 2, ROLE_LABEL, "Writing");
    scroll_put(
        scroll, 2, ROLE_TEXT,
        "In a cell of words, choices, notes or dates every letter begins to write, and begins "
        "anew; what the cell holds stays until Enter. Ins opens it to edit it.");
    scroll_put(scroll, 2, ROLE_LABEL, "Keys");
    scroll_put(scroll, 2, ROLE_TEXT,
               "* opens a menu of what can be done, by digit or letter. Without it a letter is a "
               "command in cells of numbers only.");
    for (int id = 0; id < COMMAND_COUNT_; id++)
        if (command_is_on((enum command_id)id, app->leaf))
            key_line(scroll, command_get((enum command_id)id));
}

static enum role part_role(enum explain_part part)
{
    static const enum role roles[] = {
        [EXPLAIN_HAND] = ROLE_TEXT,    [EXPLAIN_VALUE] = ROLE_VALUE, [EXPLAIN_FORMULA] = ROLE_TEXT,
        [EXPLAIN_SYMBOL] = ROLE_LABEL, [EXPLAIN_SOURCE] = ROLE_DIM,  [EXPLAIN_NOTE] = ROLE_DIM,
    };
    return roles[part];
}

/* On the history leaf the explanation is of the pass looked at, not of the one in hand. */
static void take_pass_looked_at(struct scroll *scroll, const struct app *app,
                                struct derived *derived, struct explain_from *from)
{
    char memory[40];
    struct strbuf heading = STRBUF(memory);

    const struct leaf_row *leaf = app_row(app);
    const struct pass_place place = leaf->looked_at ? leaf->looked_at(app) : pass_place_none();

    if (place.pass == 0 || pass_place_is_same(place, app_pass_in_hand(app)))
        return;
    from->place = place_of(&app->record, place.visit, place.pass);
    derive_pass_among(from->place, app_prior(app), DERIVE_FIGURES, derived);
    from->derived = derived;
    strbuf_addf(&heading, "visit %d, pass %d", from->place.visit, from->place.pass);
    scroll_put(scroll, 2, ROLE_LABEL, memory);
}

static void draw_lines(struct scroll *scroll, const struct explanation *explanation)
{
    for (int i = 0; i < explanation->count; i++) {
        const struct explain_line *line = &explanation->lines[i];

        scroll_put(scroll, line->part == EXPLAIN_SYMBOL ? 6 : 2, part_role(line->part), line->text);
    }
}

/* The cell in hand, and what follows from it. */
static void draw_reading(struct scroll *scroll, const struct app *app)
{
    struct explanation explanation;

    explain_reading(app, app_cell(app), &explanation);
    draw_lines(scroll, &explanation);
    scroll_put(scroll, 2, ROLE_TEXT, " ");
    scroll_put(scroll, 2, ROLE_LABEL,
               explain_reading_has_figure(app, app_cell(app)) ? "What follows from it"
                                                              : "Left, Right: the figures");
}

static void draw_why(struct scroll *scroll, const struct app *app)
{
    struct explain_from from = {
        .place = app_place(app), .derived = app_shown(app), .units = &app->units};
    struct explanation explanation;
    struct derived looked_at;

    take_pass_looked_at(scroll, app, &looked_at, &from);
    if (app->why_reading)
        draw_reading(scroll, app);
    if (app->why_reading && !explain_reading_has_figure(app, app_cell(app)))
        return;
    if (app->why == FIGURE_COUNT_)
        explain_headroom(&from, app_string(app), app_note(app), &explanation);
    else
        explain_figure(&from, app->why, app_string(app), &explanation);
    draw_lines(scroll, &explanation);
    scroll_put(scroll, 2, ROLE_TEXT, " ");
    scroll_put(
        scroll, 2, ROLE_DIM,
        app->why != FIGURE_COUNT_ && explain_is_predicted(app->why)
            ? "The \xC2\xB1 is the expanded uncertainty (about 95 %) that the assumptions and "
              "the gauges' steps leave: JCGM 100 (GUM). An estimate; the tuner decides."
            : "Each \xC2\xB1 is the expanded uncertainty (k = 2, about 95 %) that the "
              "gauges' steps leave: JCGM 100 (GUM), 4.3.7. Estimates; the gauge on the "
              "instrument decides.");
    scroll_put(scroll, 2, ROLE_KEY, "Left, Right: the other figures");
}

static void draw_overlay(struct scroll *scroll, const struct app *app)
{
    if (app->overlay == OVERLAY_HELP)
        draw_help(scroll, app);
    else
        draw_why(scroll, app);
}

void overlay_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    struct scroll scroll = {.pen = pen};

    /* A first run without room only counts the lines. */
    draw_overlay(&scroll, app);
    const bool long_one = scroll.row > rows;
    const int room = long_one ? rows - 1 : rows, last_top = scroll.row - room;

    scroll = (struct scroll){.pen = pen, .row = row, .end = row + room};
    scroll.skip = app->overlay_top < last_top ? app->overlay_top : last_top > 0 ? last_top : 0;
    const bool more = scroll.skip < last_top;
    draw_overlay(&scroll, app);
    if (long_one)
        pen_put_right(pen, row + room, 0, pen->frame->columns - 1, ROLE_KEY,
                      more ? "Down: more" : "Up: back");
}
