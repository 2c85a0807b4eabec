/* SPDX-License-Identifier: MIT */
#include "app/work_list.h"

#include <string.h>

#include "app/amount.h"
#include "app/app_inside.h"

enum figure_id work_figure(enum move_kind kind)
{
    switch (kind) {
    case MOVE_RESET:
        return FIGURE_ANGLE;
    case MOVE_SLOTS:
        return FIGURE_SLOT_CHANGE;
    case MOVE_SADDLE:
        return FIGURE_SADDLE_CHANGE;
    case MOVE_ROD:
    case MOVE_COUNT_:
        break;
    }
    return FIGURE_RELIEF;
}

enum move_kind work_move_in_hand(const struct app *app)
{
    const struct route_cell *cell = app->leaf == LEAF_WORK ? app_cell(app) : NULL;

    return cell && cell->row < MOVE_COUNT_ ? (enum move_kind)cell->row : MOVE_COUNT_;
}

const struct move_line *work_line_of(const struct work_list *list, enum move_kind kind)
{
    const int line = list->move[kind].line;

    return line >= 0 ? &list->moves.lines[line] : NULL;
}

static enum work_state state_of(const struct move_line *line, const struct derived *derived)
{
    if (!line)
        return derived->verdict == RESET_SADDLE ? WORK_NOT_DUE : WORK_UNKNOWN;
    switch (line->state) {
    case MOVE_DUE:
        return WORK_DUE;
    case MOVE_WITHIN:
        return WORK_WITHIN;
    case MOVE_NOT_DUE:
        return WORK_NOT_DUE;
    case MOVE_UNKNOWN:
        break;
    }
    return WORK_UNKNOWN;
}

static void find_move(const struct app *app, const struct derived *derived, enum move_kind kind,
                      struct work_list *list)
{
    struct work_move *move = &list->move[kind];

    move->line = -1;
    for (int i = 0; i < list->moves.count; i++)
        if (list->moves.lines[i].kind == kind)
            move->line = i;
    move->state = state_of(work_line_of(list, kind), derived);
    move->done_by = work_mark_line(&app->record, app->visit, list->pass, kind);
    if (move->done_by > 0 && (move->state == WORK_DUE || move->state == WORK_WITHIN))
        move->state = WORK_DONE;
    list->left += move->state == WORK_DUE;
    list->within += move->state == WORK_WITHIN;
    list->done += move->state == WORK_DONE;
    list->unknown += move->state == WORK_UNKNOWN && kind != MOVE_RESET;
}

void work_list_make(const struct app *app, struct work_list *ret_list)
{
    const bool empty = app->has_before && app_pass_is_empty(app);
    const struct derived *derived = empty ? &app->before : app_shown(app);

    *ret_list = (struct work_list){.pass = empty ? app->pass - 1 : app->pass,
                                   .strings = derived->setup.board.strings};
    move_list_make(derived, &app->units, &ret_list->moves);
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        find_move(app, derived, (enum move_kind)kind, ret_list);
}

/* A text of the program's own, its plus-minus in ASCII where it is kept. */
static void add_words(struct strbuf *out, const char *text, bool plain)
{
    for (; *text; text++)
        if (plain && text[0] == '\xC2' && text[1] == '\xB1') {
            strbuf_add(out, "+-");
            text++;
        } else {
            strbuf_add_char(out, *text);
        }
}

void work_add_amount(const struct work_list *list, enum move_kind kind, bool plain,
                     struct strbuf *out)
{
    const struct move_line *line = work_line_of(list, kind);
    int added = 0;

    if (!line)
        return;
    add_words(out, line->amount, plain);
    for (int s = list->strings; s >= 1 && line->by_string; s--) {
        if (line->string[s][0] == '\0' || strcmp(line->string[s], "ok") == 0)
            continue;
        if (plain)
            strbuf_addf(out, "%s %d %s", added ? "," : "; string", s, line->string[s]);
        else
            strbuf_addf(out, "%s %d:%s", added ? "" : " ", s, line->string[s]);
        added++;
    }
}

/* "relief .006 in", "action 6 to 4 /64": what a pass read where a move shows. */
static bool add_read(const struct app *app, int pass, enum move_kind kind, int strings,
                     struct strbuf *out)
{
    static const struct {
        const char *what;
        enum field_id bass, treble;
    } shows[MOVE_COUNT_] = {
        [MOVE_RESET] = {"exposure", FIELD_EXPOSURE_BASS, FIELD_EXPOSURE_TREBLE},
        [MOVE_ROD] = {"relief", FIELD_RELIEF, FIELD_RELIEF},
        [MOVE_SLOTS] = {"nut gap", FIELD_NUT_GAP, FIELD_NUT_GAP},
        [MOVE_SADDLE] = {"action", FIELD_ACTION, FIELD_ACTION},
    };
    const bool by_string = field_get(shows[kind].bass)->per == PER_STRING;
    const struct reading_key bass_key =
        reading_key_pass_at(shows[kind].bass, app->visit, pass, by_string ? strings : 0, 0);
    const struct reading_key treble_key =
        reading_key_pass_at(shows[kind].treble, app->visit, pass, by_string ? 1 : 0, 0);
    const enum unit unit = field_bare_unit(field_get(shows[kind].bass), &app->units);
    double bass, treble;

    if (!record_value(&app->record, &bass_key, &bass) ||
        !record_value(&app->record, &treble_key, &treble))
        return false;
    strbuf_addf(out, "%s ", shows[kind].what);
    amount_add_range(out, bass, treble, unit);
    amount_add_unit(out, unit);
    return true;
}

void work_add_proof(const struct app *app, const struct work_list *list, enum move_kind kind,
                    struct strbuf *out)
{
    const struct move_line *line = work_line_of(list, kind);
    char memory[96];
    struct strbuf read = STRBUF(memory);

    if (add_read(app, list->pass + 1, kind, list->strings, &read)) {
        strbuf_addf(out, "pass %d read ", list->pass + 1);
        strbuf_add(out, memory);
    } else if (line && line->then[0]) {
        strbuf_add(out, "expect ");
        add_words(out, line->then, true);
    }
}

static void add_names(const struct work_list *list, enum work_state state, struct strbuf *out)
{
    int count = 0;

    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        if (list->move[kind].state != state)
            continue;
        strbuf_add(out, count++ ? ", " : "");
        strbuf_add(out, work_mark_name((enum move_kind)kind));
    }
}

void work_add_left(const struct work_list *list, struct strbuf *out)
{
    if (list->left > 0) {
        strbuf_add(out, "left to do before it goes back: ");
        add_names(list, WORK_DUE, out);
    } else if (list->unknown > 0) {
        strbuf_add(out, "what is left is known once all is measured, on Bench");
    } else if (list->done > 0) {
        strbuf_add(out, "all moves are marked done: measure again before it goes back");
    } else {
        strbuf_add(out, "all moves are on target and done: it can go back");
    }
    if (list->left > 0 && list->unknown > 0)
        strbuf_add(out, "; more once measured");
    if (list->within > 0) {
        strbuf_add(out, "; within measuring error: ");
        add_names(list, WORK_WITHIN, out);
    }
}
