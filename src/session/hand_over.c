/* SPDX-License-Identifier: MIT */
#include "session/hand_over.h"

#include "session/cell_words.h"
#include "session/pass_end.h"

static bool is_filed(const struct app *app)
{
    int next = app->visit - 1;

    return record_next_visit(&app->record, &next) && next == app->visit;
}

bool hand_over_can(const struct app *app)
{
    const struct reading_key handed = reading_key_visit(FIELD_VISIT_HANDED_OVER, app->visit);

    return app_may_change(app) && is_filed(app) && !record_get(&app->record, &handed);
}

static void hand_over(struct turn *turn)
{
    const int visit = turn->app->visit;
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, visit);
    const struct reading_key handed = reading_key_visit(FIELD_VISIT_HANDED_OVER, visit);
    enum status status = STATUS_OK;

    turn_open_step(turn);
    if (!record_get(&turn->app->record, &date))
        status = turn_put(turn, date, turn->clock->date, NULL);
    if (status == STATUS_OK)
        status = turn_put(turn, handed, turn->clock->date, NULL);
    if (status != STATUS_OK) {
        turn_warn(turn, "It could not be filed: out of memory.");
        return;
    }
    turn_changed(turn);
    turn->effects.paper = PAPER_HANDED_OVER;
}

/* --- with work left --- */

/* What may be left of moves, the first that applies. */
static const struct {
    bool (*is_left)(const struct move *move);
    const char *one, *more; /* said with a number; `more` alone where that does not matter */
} left_of_moves[] = {
    {move_is_open, "move due", "moves due"},
    {move_is_done, NULL, "not measured since the work"},
    {move_waits_for_ear, NULL, "not heard or tuned since the work"},
};

enum { LEFT_OF_MOVES = sizeof left_of_moves / sizeof left_of_moves[0] };

/* LEFT_OF_MOVES for none. */
static int find_left(const struct move_set *moves)
{
    int i = 0;

    while (i < LEFT_OF_MOVES && move_set_count(moves, left_of_moves[i].is_left) == 0)
        i++;
    return i;
}

/* What was never measured is no reason to ask: a job may be a new set of strings alone. */
static bool add_left(const struct app *app, struct strbuf *out)
{
    const struct move_set *moves = &app->now.moves;
    const int left = find_left(moves);
    struct route_cell first;
    const int unread = pass_end_count_unread(app, &first);

    if (left == LEFT_OF_MOVES && unread == 0)
        return false;
    if (left == LEFT_OF_MOVES)
        strbuf_add_count(out, (size_t)unread, "cell not read", "cells not read");
    else if (left_of_moves[left].one)
        strbuf_add_count(out, (size_t)move_set_count(moves, left_of_moves[left].is_left),
                         left_of_moves[left].one, left_of_moves[left].more);
    else
        strbuf_add(out, left_of_moves[left].more);
    return true;
}

/* Which moves or cells these are. */
static void add_which(const struct app *app, struct strbuf *out)
{
    const struct move_set *moves = &app->now.moves;
    const int left = find_left(moves);
    struct route_cell first;
    const char *between = ": ";

    for (int kind = 0; left < LEFT_OF_MOVES && kind < MOVE_COUNT_; kind++) {
        if (!left_of_moves[left].is_left(&moves->move[kind]))
            continue;
        strbuf_add(out, between);
        strbuf_add(out, outfit_move_name(&app->now.setup.outfit, (enum move_kind)kind));
        between = ", ";
    }
    if (left < LEFT_OF_MOVES)
        return;
    const int unread = pass_end_count_unread(app, &first);
    strbuf_add(out, between);
    cell_words_add_name(app, &first, out);
    strbuf_add(out, unread > 1 ? " and more" : "");
}

static bool answer(struct turn *turn, uint32_t key)
{
    turn->app->asked = NULL;
    if (key == SILLET_KEY_ENTER)
        hand_over(turn);
    else
        app_say(turn->app, TONE_NOTE, "It was not handed over.");
    return true;
}

static const struct asked anyway = {
    .take_key = answer, .enter = "hands it over", .escape = "keeps it here"};

void hand_over_do(struct turn *turn)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (!turn_may_change(turn))
        return;
    if (!hand_over_can(app)) {
        turn_warn(turn, is_filed(app) ? "It was handed over already; Intake has the day."
                                      : "Nothing of this visit is on file yet.");
        return;
    }
    if (!add_left(app, &words)) {
        hand_over(turn);
        return;
    }
    add_which(app, &words);
    strbuf_add(&words, ". Hand it over?");
    app_say(app, TONE_NOTE, memory);
    app->asked = &anyway;
}

void hand_over_add_left(const struct app *app, struct strbuf *out)
{
    char memory[40];
    struct strbuf left = STRBUF(memory);

    if (add_left(app, &left))
        strbuf_addf(out, ", %s", memory);
}
