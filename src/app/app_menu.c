/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "app/app_inside.h"
#include "app/bench_actions.h"
#include "app/cell_words.h"
#include "app/leaf_work.h"
#include "app/reading_words.h"
#include "app/take_out.h"
#include "app/work_actions.h"
#include "model/record_walk.h"
#include "model/work_mark.h"

/* What can be done now: each asks what the command itself would refuse. */

static bool may_change(const struct app *app)
{
    return app->keeping != KEEPING_READ_ONLY;
}

static bool can_undo(const struct app *app)
{
    return app_is_typing(app) || app->fresh || (may_change(app) && undo_next(&app->undo, true));
}

static bool can_redo(const struct app *app)
{
    return may_change(app) && undo_next(&app->undo, false);
}

static bool can_clear(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    return cell && may_change(app) && record_get(&app->record, &cell->key);
}

static bool can_begin_pass(const struct app *app)
{
    return app->pass < record_last_read_pass(&app->record, app->visit) ||
           (may_change(app) && !app_pass_is_empty(app) && app->pass < PASSES_MAX);
}

static bool can_nudge(const struct app *app)
{
    return may_change(app) && bench_can_nudge(app);
}

static bool can_begin_from_before(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    return cell && may_change(app) && app_reading_before(app, cell);
}

static bool can_take_what_if(const struct app *app)
{
    return may_change(app) && what_if_is_on(&app->what_if) && app->what_if.known;
}

static bool can_drop_what_if(const struct app *app)
{
    return what_if_is_on(&app->what_if);
}

static bool has_strings(const struct app *app)
{
    return app->now.setup.board.strings > 0;
}

static bool has_note(const struct app *app)
{
    return app_note(app) >= 0;
}

static bool can_mark_done(const struct app *app)
{
    return work_move_to_mark(app) != MOVE_COUNT_;
}

static bool can_write_work(const struct app *app)
{
    return may_change(app) && record_last_work(&app->record, app->visit) < WORKS_MAX;
}

static bool can_take_work_out(const struct app *app)
{
    return may_change(app) && work_line_exists(&app->record, app->visit, work_line_in_hand(app));
}

static bool has_pass(const struct app *app)
{
    int visit = 0, pass = 0;

    return !app->history.naming && record_next_pass(&app->record, &visit, &pass);
}

static bool can_name_pass(const struct app *app)
{
    return may_change(app) && has_pass(app);
}

/* The history leaf looks at passes of its own. */
static bool has_pass_beside(const struct app *app, int by)
{
    struct history history;
    int visit, pass;

    if (app->leaf != LEAF_HISTORY)
        return app_pass_beside(app, by, &visit, &pass);
    history_make(&app->record, &history);
    const int at = history_state_at(&app->history, &history, app->visit, app->pass) + by;
    return !app->history.naming && at >= 0 && at < history.count;
}

static bool has_earlier(const struct app *app)
{
    return has_pass_beside(app, -1);
}

static bool has_later(const struct app *app)
{
    return has_pass_beside(app, 1);
}

static bool can_take_pass_out(const struct app *app)
{
    return may_change(app) && take_out_has_pass(app);
}

static bool can_take_visit_out(const struct app *app)
{
    return may_change(app) && take_out_has_visit(app);
}

static bool can_begin_visit(const struct app *app)
{
    const int last = record_last_visit(&app->record);

    return may_change(app) && last > 0 && app->visit <= last && last < VISITS_MAX;
}

/* NULL: always. */
static bool (*const can[COMMAND_COUNT_])(const struct app *app) = {
    [COMMAND_UNDO] = can_undo,
    [COMMAND_REDO] = can_redo,
    [COMMAND_CLEAR] = can_clear,
    [COMMAND_PASS] = can_begin_pass,
    [COMMAND_NUDGE_DOWN] = can_nudge,
    [COMMAND_NUDGE_UP] = can_nudge,
    [COMMAND_FROM_BEFORE] = can_begin_from_before,
    [COMMAND_METHOD] = may_change,
    [COMMAND_TUNING] = has_strings,
    [COMMAND_TUNING_NAMED] = has_strings,
    [COMMAND_SET] = has_strings,
    [COMMAND_SET_NAMED] = has_strings,
    [COMMAND_SEMITONE_UP] = has_strings,
    [COMMAND_SEMITONE_DOWN] = has_strings,
    [COMMAND_WHAT_IF_TAKE] = can_take_what_if,
    [COMMAND_WHAT_IF_DROP] = can_drop_what_if,
    [COMMAND_NOTE] = has_note,
    [COMMAND_NOTE_BACK] = has_note,
    [COMMAND_WORK_DONE] = can_mark_done,
    [COMMAND_WORK_OWN] = can_write_work,
    [COMMAND_WORK_OUT] = can_take_work_out,
    [COMMAND_HISTORY_OPEN] = has_pass,
    [COMMAND_HISTORY_NAME] = can_name_pass,
    [COMMAND_EARLIER] = has_earlier,
    [COMMAND_LATER] = has_later,
    [COMMAND_PASS_OUT] = can_take_pass_out,
    [COMMAND_VISIT_OUT] = can_take_visit_out,
    [COMMAND_INTAKE_OUT] = can_take_visit_out,
    [COMMAND_VISIT] = can_begin_visit,
};

/* What is half typed is not lost by something else. */
static bool holds_while_typing(enum command_id id)
{
    return id == COMMAND_UNDO || id == COMMAND_WHY || id == COMMAND_HELP;
}

static bool is_listed(const struct app *app, enum command_id id)
{
    const struct command *command = command_get(id);

    if (!command->place || !command_is_on(id, app->leaf))
        return false;
    if (app_is_typing(app) && !holds_while_typing(id))
        return false;
    return !can[id] || can[id](app);
}

/* "undo: action, string 6", "the move is done: rod". */
static void add_what(const struct app *app, enum command_id id, struct strbuf *out)
{
    if (id == COMMAND_UNDO && app_is_typing(app)) {
        strbuf_add(out, ": drop what is typed");
    } else if (id == COMMAND_UNDO && app->fresh) {
        strbuf_add(out, ": what was just begun");
    } else if (id == COMMAND_UNDO || id == COMMAND_REDO) {
        strbuf_add(out, ": ");
        reading_words_add_name(out, undo_next(&app->undo, id == COMMAND_UNDO));
    } else if (id == COMMAND_CLEAR) {
        strbuf_add(out, ": ");
        cell_words_add_held(app, app_cell(app), ", ", out);
    } else if (id == COMMAND_WORK_DONE) {
        strbuf_add(out, ": ");
        strbuf_add(out, work_mark_name(work_move_to_mark(app)));
    } else if ((int)id == COMMAND_GO_INTAKE + (int)app->leaf) {
        strbuf_add(out, ", in hand");
    } else if (id == COMMAND_QUIT) {
        strbuf_add(out, app->from_shelf ? ", to the shelf" : " the program");
    }
}

void turn_open_menu(struct turn *turn)
{
    struct app *app = turn->app;

    menu_clear(&app->menu);
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);

        if (!is_listed(app, (enum command_id)id))
            continue;
        struct menu_item *item = menu_add(&app->menu, id, command->place, command->letter);
        if (!item)
            break;
        struct strbuf words = STRBUF(item->words);
        strbuf_add(&words, command->title);
        add_what(app, (enum command_id)id, &words);
    }
    app->overlay = OVERLAY_MENU;
}
