/* SPDX-License-Identifier: MIT */
#include "leaf/strings/restring.h"

#include "leaf/strings/leaf_strings.h"
#include "leaf/strings/retune.h"
#include "leaf/strings/strings_actions.h"
#include "leaf/strings/take_gauges.h"
#include "model/reading/work_line.h"
#include "session/app_place.h"

static const struct what_if_state *what_if_of(const struct app *app)
{
    return &strings_state(app)->what_if;
}

bool restring_can(const struct app *app)
{
    return app_may_change(app) && strings_has_strings(app) &&
           (!what_if_is_on(what_if_of(app)) || what_if_of(app)->known);
}

/* Gauges are chosen by pull beside another tuning too. */
static void add_set(const struct app *app, struct strbuf *out)
{
    const struct what_if_state *what_if = what_if_of(app);

    strbuf_add(out, what_if->set.strings > 0     ? what_if->set.name
                    : take_gauges_count(app) > 0 ? "other gauges by pull"
                                                 : "same set");
}

void restring_add_with(const struct app *app, struct strbuf *out)
{
    strbuf_add(out, ": ");
    add_set(app, out);
}

/* The record has the new strings and notes by now. */
static enum status put_line(struct turn *turn, const char *set)
{
    const struct app *app = turn->app;
    const int visit = app->visit, line = record_last_work(&app->record, visit) + 1;
    char memory[160], notes[100];
    struct strbuf amount = STRBUF(memory), tuning = STRBUF(notes);

    if (line > WORKS_MAX)
        return STATUS_RANGE;
    strbuf_add(&amount, set);
    retune_add_gauges(app, &amount);
    retune_add_tuning(app, &tuning);
    strbuf_addf(&amount, tuning.length > 0 ? ", %s" : "%s", notes);
    enum status status = turn_put(turn, work_key(WORK_KIND, visit, line), WORK_RESTRUNG, NULL);
    if (status == STATUS_OK)
        status = turn_put(turn, work_key(WORK_AMOUNT, visit, line), memory, NULL);
    return status == STATUS_OK ? turn_put_time(turn, work_key(WORK_TIME, visit, line)) : status;
}

/* --- in which visit --- */

static void restring(struct turn *turn)
{
    struct app *app = turn->app;
    char memory[80];
    struct strbuf set = STRBUF(memory);

    /* Once they are put, no string would change its gauge. */
    add_set(app, &set);
    if (!strings_put_what_if(turn))
        return;
    const bool filed = put_line(turn, memory) == STATUS_OK;
    what_if_drop(&strings_state(app)->what_if);
    turn_changed(turn);
    if (filed)
        app_say(app, TONE_NOTE, "Restrung: a line of work says so. Measure again at pitch.");
    else
        turn_warn(turn, "The work line could not be filed: memory is out, or the visit is full.");
}

static bool answer(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;
    const int last = record_last_visit(&app->record);

    app->asked = NULL;
    if (key == SILLET_KEY_ENTER && last < VISITS_MAX) {
        app_take_pass(app, last + 1, 1);
        restring(turn);
    } else if (key == '+') {
        restring(turn);
    } else {
        app_say(app, TONE_NOTE, "Nothing was filed; the what-if stays.");
    }
    return true;
}

static const struct asked which_visit = {
    .take_key = answer, .enter = "a new visit", .escape = "leaves all"};

/* What a visit read with the old strings would be reckoned with the new ones. */
static bool is_read_with_others(const struct app *app)
{
    return what_if_is_on(what_if_of(app)) && record_last_read_pass(&app->record, app->visit) > 0;
}

void restring_do(struct turn *turn)
{
    struct app *app = turn->app;

    if (!turn_may_change(turn))
        return;
    if (!restring_can(app)) {
        turn_warn(turn, "There are no strings here that could have been changed.");
        return;
    }
    if (!is_read_with_others(app)) {
        restring(turn);
        return;
    }
    app_say(app, TONE_NOTE,
            "This visit was read: Enter puts them into a new one, + if they were on then.");
    app->asked = &which_visit;
}
