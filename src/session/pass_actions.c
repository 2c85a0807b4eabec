/* SPDX-License-Identifier: MIT */
#include "session/pass_actions.h"

#include "session/app_place.h"

void turn_begin_visit(struct turn *turn)
{
    struct app *app = turn->app;
    const int last = record_last_visit(&app->record);

    if (!turn_may_change(turn))
        return;
    if (app->visit > last || last == 0) {
        turn_warn(turn, "This visit has no reading yet.");
        return;
    }
    if (last >= VISITS_MAX) {
        turn_warn(turn, "The profile cannot hold more visits.");
        return;
    }
    app_take_pass(app, last + 1, 1);
    app->fresh = true;
    app_say(app, TONE_NOTE, "New visit: its date is set with the first reading.");
}

bool turn_can_begin_visit(const struct app *app)
{
    const int last = record_last_visit(&app->record);

    return app_may_change(app) && last > 0 && app->visit <= last && last < VISITS_MAX;
}

/* The last pass of a visit that has readings; the first of a visit in which nothing was measured,
 * but the strings were changed, say; 0 if there is no such visit. */
static int find_last(const struct app *app, int visit)
{
    const int pass = record_last_read_pass(&app->record, visit);
    int next = visit - 1;

    return pass > 0 || !record_next_visit(&app->record, &next) || next != visit ? pass : 1;
}

/* The nearest pass before (-1) or after (1) that has readings, in other visits too; false for
 * none. */
static bool find_pass_beside(const struct app *app, int by, int *ret_visit, int *ret_pass)
{
    int visit = app->visit, pass = app->pass + by;

    if (by < 0 && pass < 1) {
        do
            visit--;
        while (visit > 0 && find_last(app, visit) == 0);
        pass = visit > 0 ? find_last(app, visit) : 0;
    } else if (by > 0 && pass > record_last_read_pass(&app->record, visit)) {
        const int last = record_last_visit(&app->record);
        do
            visit++;
        while (visit <= last && find_last(app, visit) == 0);
        pass = 1;
        if (visit > last)
            pass = 0;
    }
    *ret_visit = visit;
    *ret_pass = pass;
    return pass >= 1;
}

void turn_look_at(struct turn *turn, int by)
{
    int visit, pass;

    if (!turn_may_go(turn))
        return;
    if (find_pass_beside(turn->app, by, &visit, &pass))
        app_take_pass(turn->app, visit, pass);
    else
        turn_warn(turn, by < 0 ? "There is no earlier pass." : "There is no later pass.");
}

bool turn_has_earlier(const struct app *app)
{
    int visit, pass;

    return find_pass_beside(app, -1, &visit, &pass);
}

bool turn_has_later(const struct app *app)
{
    int visit, pass;

    return find_pass_beside(app, 1, &visit, &pass);
}
