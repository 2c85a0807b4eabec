/* SPDX-License-Identifier: MIT */
#include "app/app_inside.h"

#include "app/app.h"

void turn_warn(struct turn *turn, const char *message)
{
    app_say(turn->app, TONE_WARNING, message);
}

bool turn_may_change(struct turn *turn)
{
    if (turn->app->keeping != KEEPING_READ_ONLY)
        return true;
    turn_warn(turn, "This profile is open for reading only; nothing was changed.");
    return false;
}

void turn_go_to(struct turn *turn, int at)
{
    turn->app->at = at < 0 ? 0 : at;
    lineedit_clear(&turn->app->entry);
    app_refresh_entry(turn->app);
}

static enum status put(struct turn *turn, struct reading_key key, const char *text,
                       struct field_fault *ret_fault)
{
    return undo_put(&turn->app->undo, &turn->app->record, &key, text, ret_fault);
}

/* The first reading of a pass dates the pass, and the first of a visit the visit. */
static enum status date_pass(struct turn *turn)
{
    struct app *app = turn->app;
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, app->visit);
    const struct reading_key time = reading_key_pass(FIELD_PASS_TIME, app->visit, app->pass);
    enum status status = STATUS_OK;

    if (!record_get(&app->record, &date))
        status = put(turn, date, turn->clock->date, NULL);
    if (status == STATUS_OK && !record_get(&app->record, &time))
        status = put(turn, time, turn->clock->time, NULL);
    if (status == STATUS_OK && app->pass == 1) {
        const struct reading_key label = reading_key_pass(FIELD_PASS_LABEL, app->visit, 1);

        if (!record_get(&app->record, &label))
            status = put(turn, label, "as found", NULL);
    }
    return status;
}

static void changed(struct turn *turn)
{
    app_refresh(turn->app);
    turn->effects.save = true;
}

/* Takes the entry into the cell in hand; false, with a message, when it cannot be. */
bool turn_take_entry(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);
    const struct field *field = field_get(cell->key.field);
    char memory[256];
    struct strbuf spelled = STRBUF(memory);
    struct field_fault fault = {.status = STATUS_OK};
    const bool first = app_pass_is_empty(app);

    if (!app->entry_view.good) {
        turn_warn(turn, app->entry_view.words);
        return false;
    }
    undo_open_step(&app->undo);
    if (entry_spell(app->entry.text, field, &app->units, &spelled) != STATUS_OK) {
        turn_warn(turn, "That is more than one cell keeps; add the leaves up first.");
        return false;
    }
    if (put(turn, cell->key, memory, &fault) != STATUS_OK) {
        turn_warn(turn, fault.status != STATUS_OK ? fault.words
                                                  : "Out of memory: the reading was not taken.");
        return false;
    }
    /* A pass without its date is still a pass: the reading counts. */
    if (first && date_pass(turn) != STATUS_OK)
        turn_warn(turn, "Out of memory: the pass has no date.");
    lineedit_clear(&app->entry);
    changed(turn);
    return true;
}

void turn_begin_pass(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->pass < record_last_pass(&app->record, app->visit)) {
        app_take_pass(app, app->visit, app->pass + 1);
        return;
    }
    if (app_pass_is_empty(app)) {
        turn_warn(turn, "This pass has no reading yet; measure before the next one.");
        return;
    }
    if (!turn_may_change(turn))
        return;
    if (app->pass >= PASSES_MAX) {
        turn_warn(turn, "A visit holds no more passes; begin a new visit.");
        return;
    }
    app_take_pass(app, app->visit, app->pass + 1);
    app_say(app, TONE_NOTE, "Next pass: figures in brackets are what the gauges should read now.");
}

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
        turn_warn(turn, "The profile holds no more visits.");
        return;
    }
    app_take_pass(app, last + 1, 1);
    app_say(app, TONE_NOTE, "New visit: its date is set with the first reading.");
}

void turn_clear_cell(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);

    if (!cell || !record_get(&app->record, &cell->key) || !turn_may_change(turn))
        return;
    undo_open_step(&app->undo);
    if (put(turn, cell->key, NULL, NULL) != STATUS_OK) {
        turn_warn(turn, "Out of memory: the reading was left as it is.");
        return;
    }
    changed(turn);
    app_say(app, TONE_NOTE, "Reading taken out; u brings it back.");
}

/* Goes to the reading that a step changed, so that its change is seen. */
void turn_step(struct turn *turn, undo_step *make, const char *nothing, const char *what)
{
    struct app *app = turn->app;
    struct reading_key key = {.visit = 0};

    if (!turn_may_change(turn))
        return;
    const enum status status = make(&app->undo, &app->record, &key);
    if (status == STATUS_NOT_FOUND) {
        turn_warn(turn, nothing);
        return;
    }
    if (key.visit > 0 && (key.visit != app->visit || key.part != app->pass))
        app_take_pass(app, key.visit, key.part);
    const int at = route_find(&app->route, &key);
    if (at >= 0)
        app->at = at;
    lineedit_clear(&app->entry);
    changed(turn);
    if (status == STATUS_OK)
        app_say(app, TONE_NOTE, what);
    else
        turn_warn(turn, "Out of memory: only a part was taken back; u goes on.");
}

void turn_toggle_method(struct turn *turn)
{
    struct app *app = turn->app;
    const struct reading_key key = reading_key_pass(FIELD_NUT_METHOD, app->visit, app->pass);
    double method = NUT_OPEN;

    if (!turn_may_change(turn))
        return;
    record_value(&app->record, &key, &method);
    undo_open_step(&app->undo);
    if (put(turn, key, (int)method == NUT_OPEN ? "held-3" : "open", NULL) != STATUS_OK) {
        turn_warn(turn, "Out of memory: nothing was changed.");
        return;
    }
    changed(turn);
    app_say(app, TONE_NOTE,
            (int)method == NUT_OPEN ? "Nut gaps are read with the string held on fret 3."
                                    : "Nut gaps are read with the string open.");
}

void turn_toggle_units(struct turn *turn)
{
    struct app *app = turn->app;

    app->metric = !app->metric;
    app->units = app->metric ? shop_units_metric() : shop_units_inch();
    turn->effects.units = true;
    app_refresh_entry(app);
    app_say(app, TONE_NOTE, app->metric ? "Metric gauges." : "Inch gauges.");
}

/* The neighbouring pass, over the visits' bounds; where there is none, nothing happens. */
void turn_look_at(struct turn *turn, int by)
{
    struct app *app = turn->app;
    int visit = app->visit, pass = app->pass + by;

    if (by < 0 && pass < 1) {
        do
            visit--;
        while (visit > 0 && record_last_pass(&app->record, visit) == 0);
        pass = visit > 0 ? record_last_pass(&app->record, visit) : 0;
    } else if (by > 0 && pass > record_last_pass(&app->record, visit)) {
        const int last = record_last_visit(&app->record);
        do
            visit++;
        while (visit <= last && record_last_pass(&app->record, visit) == 0);
        pass = 1;
        if (visit > last)
            pass = 0;
    }
    if (pass < 1) {
        turn_warn(turn, by < 0 ? "There is no earlier pass." : "There is no later pass.");
        return;
    }
    app_take_pass(app, visit, pass);
}
