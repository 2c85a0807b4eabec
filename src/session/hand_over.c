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

void hand_over_do(struct turn *turn)
{
    const int visit = turn->app->visit;
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, visit);
    const struct reading_key handed = reading_key_visit(FIELD_VISIT_HANDED_OVER, visit);
    enum status status = STATUS_OK;

    if (!turn_may_change(turn))
        return;
    if (!hand_over_can(turn->app)) {
        turn_warn(turn, is_filed(turn->app) ? "It was handed over already; Intake has the day."
                                            : "Nothing of this visit is on file yet.");
        return;
    }
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

void hand_over_add_left(const struct app *app, struct strbuf *out)
{
    const int due = move_set_count(&app->now.moves, move_is_open);

    if (due == 0)
        return;
    strbuf_add(out, ", ");
    strbuf_add_count(out, (size_t)due, "move due", "moves due");
}
