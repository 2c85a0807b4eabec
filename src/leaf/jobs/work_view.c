/* SPDX-License-Identifier: MIT */
#include "leaf/jobs/work_view.h"

#include <math.h>
#include <string.h>

#include "words/caution.h"
#include "leaf/jobs/work_cautions.h"
#include "leaf/jobs/work_list.h"
#include "model/reading/work_reach.h"
#include "model/setup/work_done.h"
#include "base/utf8.h"
#include "screen/work_lines.h"

enum {
    MARK_COLUMN = 1,
    NAME_COLUMN = 5,
    NAME_WIDTH = 7,
    TEXT_COLUMN = 12,
    LINES_MIN = 9 /* rows for the work lines, for which the moves give up their details */
};

/* How much detail the moves have that are not in hand. */
enum work_detail { DETAIL_AMOUNT, DETAIL_THEN, DETAIL_CAUTION };

struct page {
    const struct pen *pen;
    const struct app *app;
    const struct work_list *list;
    int row, end; /* the next row, and the one after the last */
    enum work_detail detail;
    bool counting; /* only count the rows */
};

/* In ASCII a plus-minus takes two columns, which the width must allow for. */
static int text_width(const struct page *page)
{
    return page->pen->frame->columns - TEXT_COLUMN - (page->pen->utf8 ? 1 : 3);
}

/* Uses at least one row, even for an empty text. */
static void put_text(struct page *page, enum role role, const char *text)
{
    const int room = page->counting ? 0 : page->end - page->row;
    const int taken = pen_wrap(page->pen, page->row, TEXT_COLUMN, text_width(page),
                               room > 0 ? room : 0, role, text);

    page->row += taken > 0 ? taken : 1;
}

static const char *mark_of(const struct move *move)
{
    static const char *const marks[] = {
        [MOVE_UNKNOWN] = " ? ",
        [MOVE_GOOD] = " - ",
        [MOVE_WAITS] = " - ",
        [MOVE_DUE] = "[ ]",
    };
    return move_is_done(move) ? "[x]" : marks[move->state];
}

static enum role role_of(const struct move *move)
{
    static const enum role roles[] = {
        [MOVE_UNKNOWN] = ROLE_DIM,
        [MOVE_GOOD] = ROLE_GOOD,
        [MOVE_WAITS] = ROLE_ASSUMED,
        [MOVE_DUE] = ROLE_OFF,
    };
    return move_is_done(move) ? ROLE_GOOD : roles[move->state];
}

static void draw_name(const struct page *page, enum move_kind kind)
{
    const struct move *move = &page->list->moves[kind];
    const bool in_hand = work_move_in_hand(page->app) == kind;
    const struct pen *pen = page->pen;

    if (page->counting || page->row >= page->end)
        return;
    pen_put(pen, page->row, MARK_COLUMN, 3, role_of(move), mark_of(move));
    pen_put(pen, page->row, NAME_COLUMN, NAME_WIDTH - 1, ROLE_LABEL,
            outfit_move_name(&page->list->derived->setup.outfit, kind));
    if (!in_hand)
        return;
    frame_set_role(pen->frame, page->row, NAME_COLUMN, NAME_WIDTH - 1, ROLE_CELL);
    pen->frame->cursor_row = page->row;
    pen->frame->cursor_column = NAME_COLUMN;
}

/* How far the rod was turned, if that is logged. */
static void add_turns(const struct page *page, const struct move *move, struct strbuf *out)
{
    const struct reading_key key =
        reading_key_pass(FIELD_ROD_TURN, page->app->visit, page->list->pass + 1);
    const char *turns = record_text(&page->app->record, &key);

    if (move != &page->list->moves[MOVE_ROD] || !turns)
        return;
    strbuf_add(out, ", ");
    strbuf_add(out, turns);
}

/* Whether the rod was turned as far as it was to be turned at once. */
static bool is_as_asked(const struct move *move, const struct work_done *done)
{
    bool is_all;

    return done->turns.given && move->turns.given &&
           fabs(fabs(done->turns.value) - move_turns_at_once(move, &is_all)) < 1e-6;
}

/* What was planned, which holds only of what was done as planned. */
static void add_forecast(const struct page *page, enum move_kind kind,
                         const struct move_words *words, struct strbuf *out)
{
    const struct place place = place_of(&page->app->record, page->app->visit, page->list->pass);
    const struct move *move = &page->list->moves[kind];
    struct work_done done;

    if (work_rocked(place, move->done_by) != 0) {
        strbuf_add(out, "; not high: hear it again (Bench, p)");
        return;
    }
    work_done_find(place, &page->list->derived->setup, &page->list->derived->moves, kind, &done);
    strbuf_add(out, done.unread ? "; amount not understood, taken as planned" : "");
    strbuf_add(out, "; measure again (Bench, p)");
    if ((!done.is_said || is_as_asked(move, &done)) && words->foretold)
        strbuf_addf(out, ": %s", words->then);
}

static void add_done(const struct page *page, enum move_kind kind, const struct move *move,
                     const struct move_words *words, struct strbuf *out)
{
    const struct reading_key key = work_key(WORK_TIME, page->app->visit, move->done_by);
    const char *time = record_text(&page->app->record, &key);

    strbuf_add(out, "done ");
    if (time)
        work_add_time(page->app, time, out);
    add_turns(page, move, out);
    add_forecast(page, kind, words, out);
}

static void put_caution(struct page *page, const struct move_words *words)
{
    char memory[200];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "mind: %s", words->caution);
    if (words->caution[0])
        put_text(page, ROLE_CAUTION, memory);
}

static void put_due(struct page *page, const struct move *move, const struct move_words *words,
                    bool in_hand)
{
    char memory[400];
    struct strbuf text = STRBUF(memory);

    work_add_amount(words, false, &text);
    put_text(page, role_of(move), memory);
    strbuf_clear(&text);
    strbuf_add(&text, "then ");
    strbuf_add(&text, words->then);
    if (page->detail >= DETAIL_THEN || in_hand)
        put_text(page, ROLE_VALUE, memory);
    if (page->detail >= DETAIL_CAUTION || in_hand)
        put_caution(page, words);
}

static void put_move(struct page *page, enum move_kind kind)
{
    const struct move *move = &page->list->moves[kind];
    char memory[300];
    struct strbuf text = STRBUF(memory);
    struct move_words words;

    move_words_make(page->list->derived, kind, &page->app->units, &words);
    draw_name(page, kind);
    if (move->state == MOVE_DUE && !move_is_done(move)) {
        put_due(page, move, &words, work_move_in_hand(page->app) == kind);
        return;
    }
    if (move_is_done(move))
        add_done(page, kind, move, &words, &text);
    else
        strbuf_add(&text, words.amount[0] ? words.amount : "not known yet");
    put_text(page, role_of(move), memory);
    /* A rod that is not turned on says what else there is. */
    if (!move_is_done(move))
        put_caution(page, &words);
}

static void put_moves(struct page *page)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (outfit_has_move(&page->list->derived->setup.outfit, (enum move_kind)kind) &&
            (kind == MOVE_RESET || move_is_measured((enum move_kind)kind) ||
             move_is_asked(&page->list->moves[kind])))
            put_move(page, (enum move_kind)kind);
}

static int moves_height(const struct page *page, enum work_detail detail)
{
    struct page counted = *page;

    counted.counting = true;
    counted.detail = detail;
    counted.row = 0;
    put_moves(&counted);
    return counted.row;
}

static void draw_heading(const struct page *page, int row)
{
    const struct work_list *list = page->list;
    const struct move_set *moves = &list->derived->moves;
    const struct reading_key key = reading_key_pass(FIELD_PASS_LABEL, page->app->visit, list->pass);
    const char *label = record_text(&page->app->record, &key);
    const int columns = page->pen->frame->columns;
    char memory[160];
    struct strbuf text = STRBUF(memory);

    pen_rule(page->pen, row, 0, columns);
    strbuf_addf(&text, " %d left, %d done ", move_set_count(moves, move_is_open),
                move_set_count(moves, move_is_done));
    const int right = utf8_columns(memory);
    pen_put(page->pen, row, columns - right - 1, right, ROLE_LABEL, memory);
    strbuf_clear(&text);
    strbuf_addf(&text, " moves by the readings of pass %d%s%s", list->pass, label ? ", " : "",
                label ? label : "");
    const int used = pen_put_cut(page->pen, row, 1, columns - right - 6, ROLE_LABEL, memory);
    pen_put(page->pen, row, 1 + used, 1, ROLE_LABEL, " ");
}

/* Draws the cautions that apply to the work in hand (or to the rest of the list), as many as
 * fit whole; returns the rows used. */
static int draw_cautions(const struct page *page, const char *work, bool applying, int row)
{
    const int width = page->pen->frame->columns - 2, rows = page->end - row;
    char memory[1024];
    struct strbuf text = STRBUF(memory);

    for (int k = 0; k < caution_count(); k++) {
        char longer_memory[1024];
        struct strbuf longer = STRBUF(longer_memory);

        if (caution_applies(k, work) != applying ||
            !(applying || work_cautions_apply(page->app, page->list, k)))
            continue;
        strbuf_add(&longer, memory);
        strbuf_add(&longer, text.length > 0 ? " \xC2\xB7 " : "");
        strbuf_add(&longer, caution_text(k));
        if (pen_wrap(page->pen, 0, 0, width, 0, ROLE_TEXT, longer_memory) > rows)
            continue;
        strbuf_clear(&text);
        strbuf_add(&text, longer_memory);
    }
    return rows > 0 ? pen_wrap(page->pen, row, MARK_COLUMN, width, rows,
                               applying ? ROLE_CAUTION : ROLE_DIM, memory)
                    : 0;
}

/* True if all cautions that apply to the work in hand fit. */
static bool draw_all_cautions(const struct page *page, const char *work, int row)
{
    if (page->end - row < 2)
        return false;
    const int used = draw_cautions(page, work, true, row + 1);
    if (used + draw_cautions(page, work, false, row + 1 + used) == 0)
        return true;
    pen_rule(page->pen, row, 0, page->pen->frame->columns);
    pen_put(page->pen, row, 1, 40, ROLE_LABEL, " in the shop ");
    return true;
}

/* In two rows, where there is room for them; returns the row after it. */
static int draw_left(const struct page *page, int row)
{
    const struct move_set *moves = &page->list->derived->moves;
    const bool left =
        move_set_count(moves, move_is_open) > 0 || move_set_count(moves, move_is_missed) > 0;
    const enum role role = left ? ROLE_OFF : ROLE_GOOD;
    const int width = page->pen->frame->columns - 2;
    char memory[200];
    struct strbuf text = STRBUF(memory);

    work_add_left(page->list, &text);
    const int rows = pen_wrap(page->pen, 0, 0, width, 0, role, memory);
    if (rows == 2 && row + 1 < page->end)
        return row + pen_wrap(page->pen, row, MARK_COLUMN, width, rows, role, memory);
    pen_put_cut(page->pen, row, MARK_COLUMN, width, role, memory);
    return row + 1;
}

/* The name of the work in hand: the move's name, or the line's own words. */
static void add_work(const struct app *app, const struct work_list *list, struct strbuf *out)
{
    const enum move_kind kind = work_move_in_hand(app);
    const struct route_cell *cell = app_cell(app);

    if (kind != MOVE_COUNT_) {
        work_cautions_add_name(list, kind, out);
        return;
    }
    for (int column = 0; cell && column <= WORK_NOTE; column++) {
        const struct reading_key key =
            work_key((enum work_column)column, app->visit, cell->key.part);
        const char *text = record_text(&app->record, &key);

        strbuf_add(out, text ? text : "");
        strbuf_add_char(out, ' ');
    }
}

static const char *find_caution(const char *work)
{
    for (int k = 0; k < caution_count(); k++)
        if (caution_applies(k, work))
            return caution_text(k);
    return caution_reserve();
}

const char *work_view_draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    struct work_list list;
    struct page page = {.pen = pen, .app = app, .list = &list, .detail = DETAIL_CAUTION};
    char memory[512];
    struct strbuf work = STRBUF(memory);

    work_list_make(app, &list);
    add_work(app, &list, &work);
    /* The rows besides the moves: their heading, the lines with theirs, and what is left to do. */
    const int lines = 1 + work_lines_height(pen, app);
    const int needed = lines < 1 + LINES_MIN ? lines : 1 + LINES_MIN;
    while (page.detail > DETAIL_AMOUNT && moves_height(&page, page.detail) + 2 + needed > rows)
        page.detail = (enum work_detail)((int)page.detail - 1);
    page.row = row + 1;
    page.end = row + rows - 1 - needed;
    draw_heading(&page, row);
    put_moves(&page);
    const int at = page.row < page.end ? page.row : page.end;
    const int room = row + rows - 1 - at;
    const int used = work_lines_draw(pen, app, at, room < lines ? room : lines);
    page.end = row + rows;
    const int after = draw_left(&page, at + used);
    /* The moves show their own cautions; a line of the user's own at least its first one. */
    return draw_all_cautions(&page, memory, after) || work_move_in_hand(app) != MOVE_COUNT_
               ? caution_reserve()
               : find_caution(memory);
}

void work_view_add_prompt(const struct app *app, struct strbuf *out)
{
    const enum move_kind kind = work_move_in_hand(app);
    const struct route_cell *cell = app_cell(app);

    if (cell->aside)
        strbuf_add(out, "rod, turns >");
    else if (kind != MOVE_COUNT_)
        strbuf_addf(out, "%s, what was done >", outfit_move_name(&app->now.setup.outfit, kind));
    else if (work_line_exists(&app->record, app->visit, cell->key.part))
        strbuf_addf(out, "line %d, %s >", cell->key.part, field_get(cell->key.field)->label);
    else
        strbuf_add(out, "own work >");
}

void work_view_add_hint(const struct app *app, struct strbuf *out)
{
    const enum move_kind kind = work_move_in_hand(app);
    const struct route_cell *cell = app_cell(app);
    struct work_list list;

    if (app->writing) {
        strbuf_add(out, "Enter takes it, Esc drops it");
    } else if (cell->aside) {
        /* The sign that the move asks for comes first. */
        work_list_make(app, &list);
        strbuf_add(out, list.moves[MOVE_ROD].amount.value > 0
                            ? "-1/4 slackened it by a quarter, 1/4 tightened it"
                            : "1/4 tightened it by a quarter, -1/4 slackened it");
    } else if (kind != MOVE_COUNT_ && work_is_past(app)) {
        strbuf_add(out, "a later pass was read since: * . 3 goes to it");
    } else if (kind != MOVE_COUNT_) {
        work_list_make(app, &list);
        const struct move *move = &list.moves[kind];
        strbuf_add(out,
                   move_is_done(move) || move->state == MOVE_GOOD ? "nothing is left to do here"
                   : move->state == MOVE_UNKNOWN ? "measure first, on the Bench leaf"
                                                 : "Space: done as planned; or type what was done");
    } else if (work_line_exists(&app->record, app->visit, cell->key.part)) {
        strbuf_add(out, "type it anew, Ins edits it; * takes the line out");
    } else {
        strbuf_add(out, "type what was done; amount and note follow");
    }
}
