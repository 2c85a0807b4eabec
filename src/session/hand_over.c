/* SPDX-License-Identifier: MIT */
#include "session/hand_over.h"

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

/* What was never measured is no reason to ask: a job may be a new set of strings alone. */
static bool add_left(const struct app *app, struct strbuf *out)
{
    const int due = move_set_count(&app->now.moves, move_is_open);

    if (due > 0)
        strbuf_add_count(out, (size_t)due, "move due", "moves due");
    else if (move_set_count(&app->now.moves, move_is_done) > 0)
        strbuf_add(out, "not measured since the work");
    else
        return false;
    return true;
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
    strbuf_add(&words, ": Enter hands it over all the same, Esc keeps it here.");
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
