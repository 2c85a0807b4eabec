/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "app/app.h"
#include "app/app_inside.h"

/* What one event is handled with. */
struct turn {
    struct app *app;
    const struct app_clock *clock;
    struct app_effects effects;
};

static void say_warning(struct turn *turn, const char *message)
{
    app_say(turn->app, TONE_WARNING, message);
}

static bool may_change(struct turn *turn)
{
    if (turn->app->keeping != KEEPING_READ_ONLY)
        return true;
    say_warning(turn, "This profile is open for reading only; nothing was changed.");
    return false;
}

static void go_to(struct turn *turn, int at)
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
static bool take_entry(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);
    const struct field *field = field_get(cell->key.field);
    char memory[256];
    struct strbuf spelled = STRBUF(memory);
    struct field_fault fault = {.status = STATUS_OK};
    const bool first = app_pass_is_empty(app);

    if (!app->entry_view.good) {
        say_warning(turn, app->entry_view.words);
        return false;
    }
    undo_open_step(&app->undo);
    if (entry_spell(app->entry.text, field, &app->units, &spelled) != STATUS_OK) {
        say_warning(turn, "That is more than one cell keeps; add the leaves up first.");
        return false;
    }
    if (put(turn, cell->key, memory, &fault) != STATUS_OK ||
        (first && date_pass(turn) != STATUS_OK)) {
        say_warning(turn, fault.status != STATUS_OK
                              ? fault.words
                              : "Out of memory: the reading was not taken.");
        return false;
    }
    lineedit_clear(&app->entry);
    changed(turn);
    return true;
}

static void begin_pass(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->pass < record_last_pass(&app->record, app->visit)) {
        app_take_pass(app, app->visit, app->pass + 1);
        return;
    }
    if (app_pass_is_empty(app)) {
        say_warning(turn, "This pass has no reading yet; measure before the next one.");
        return;
    }
    if (!may_change(turn))
        return;
    if (app->pass >= PASSES_MAX) {
        say_warning(turn, "A visit holds no more passes; begin a new visit.");
        return;
    }
    app_take_pass(app, app->visit, app->pass + 1);
    app_say(app, TONE_NOTE, "Next pass: figures in brackets are what the gauges should read now.");
}

static void begin_visit(struct turn *turn)
{
    struct app *app = turn->app;
    const int last = record_last_visit(&app->record);

    if (!may_change(turn))
        return;
    if (app->visit > last || last == 0) {
        say_warning(turn, "This visit has no reading yet.");
        return;
    }
    if (last >= VISITS_MAX) {
        say_warning(turn, "The profile holds no more visits.");
        return;
    }
    app_take_pass(app, last + 1, 1);
    app_say(app, TONE_NOTE, "New visit: its date is set with the first reading.");
}

static void accept(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->at >= app->route.count) {
        begin_pass(turn);
        return;
    }
    if (lineedit_is_empty(&app->entry) || (may_change(turn) && take_entry(turn)))
        go_to(turn, app->at + 1);
}

static void back(struct turn *turn)
{
    if (lineedit_backspace(&turn->app->entry))
        app_refresh_entry(turn->app);
    else
        go_to(turn, turn->app->at - 1);
}

static void clear_cell(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);

    if (!cell || !record_get(&app->record, &cell->key) || !may_change(turn))
        return;
    undo_open_step(&app->undo);
    if (put(turn, cell->key, NULL, NULL) != STATUS_OK) {
        say_warning(turn, "Out of memory: the reading was left as it is.");
        return;
    }
    changed(turn);
    app_say(app, TONE_NOTE, "Reading taken out; u brings it back.");
}

typedef enum status undo_step(struct undo *, struct record *, struct reading_key *);

/* Goes to the reading that a step changed, so that its change is seen. */
static void step(struct turn *turn, undo_step *make, const char *nothing, const char *what)
{
    struct app *app = turn->app;
    struct reading_key key;

    if (!may_change(turn))
        return;
    const enum status status = make(&app->undo, &app->record, &key);
    if (status == STATUS_NOT_FOUND) {
        say_warning(turn, nothing);
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
        say_warning(turn, "Out of memory: only a part was taken back; u goes on.");
}

static void toggle_method(struct turn *turn)
{
    struct app *app = turn->app;
    const struct reading_key key = reading_key_pass(FIELD_NUT_METHOD, app->visit, app->pass);
    double method = NUT_OPEN;

    if (!may_change(turn))
        return;
    record_value(&app->record, &key, &method);
    undo_open_step(&app->undo);
    if (put(turn, key, (int)method == NUT_OPEN ? "held-3" : "open", NULL) != STATUS_OK) {
        say_warning(turn, "Out of memory: nothing was changed.");
        return;
    }
    changed(turn);
    app_say(app, TONE_NOTE,
            (int)method == NUT_OPEN ? "Nut gaps are read with the string held on fret 3."
                                    : "Nut gaps are read with the string open.");
}

static void toggle_units(struct turn *turn)
{
    struct app *app = turn->app;

    app->metric = !app->metric;
    app->units = app->metric ? shop_units_metric() : shop_units_inch();
    turn->effects.units = true;
    app_refresh_entry(app);
    app_say(app, TONE_NOTE, app->metric ? "Metric gauges." : "Inch gauges.");
}

/* The neighbouring pass, over the visits' bounds; where there is none, nothing happens. */
static void look_at(struct turn *turn, int by)
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
        say_warning(turn, by < 0 ? "There is no earlier pass." : "There is no later pass.");
        return;
    }
    app_take_pass(app, visit, pass);
}

static void open_overlay(struct turn *turn, enum app_overlay overlay)
{
    turn->app->overlay = overlay;
    turn->app->overlay_top = 0;
}

static void leave(struct turn *turn)
{
    turn->effects.quit = true;
}

static void run(struct turn *turn, enum command_id command)
{
    struct app *app = turn->app;

    switch (command) {
    case COMMAND_ACCEPT:
        accept(turn);
        return;
    case COMMAND_BACK:
        back(turn);
        return;
    case COMMAND_CANCEL:
        lineedit_clear(&app->entry);
        app_refresh_entry(app);
        return;
    case COMMAND_CLEAR:
        clear_cell(turn);
        return;
    case COMMAND_UP:
        go_to(turn, route_move(&app->route, app->at, -1, 0));
        return;
    case COMMAND_DOWN:
        go_to(turn, route_move(&app->route, app->at, 1, 0));
        return;
    case COMMAND_LEFT:
        go_to(turn, route_move(&app->route, app->at, 0, -1));
        return;
    case COMMAND_RIGHT:
        go_to(turn, route_move(&app->route, app->at, 0, 1));
        return;
    case COMMAND_FIRST:
        go_to(turn, 0);
        return;
    case COMMAND_LAST:
        go_to(turn, app->route.count);
        return;
    case COMMAND_UNDO:
        step(turn, undo_back, "Nothing to take back in this session.", "Taken back.");
        return;
    case COMMAND_REDO:
        step(turn, undo_again, "Nothing to make again.", "Made again.");
        return;
    case COMMAND_PASS:
        begin_pass(turn);
        return;
    case COMMAND_EARLIER:
        look_at(turn, -1);
        return;
    case COMMAND_LATER:
        look_at(turn, 1);
        return;
    case COMMAND_VISIT:
        begin_visit(turn);
        return;
    case COMMAND_METHOD:
        toggle_method(turn);
        return;
    case COMMAND_UNITS:
        toggle_units(turn);
        return;
    case COMMAND_WHY:
        open_overlay(turn, OVERLAY_WHY);
        return;
    case COMMAND_HELP:
        open_overlay(turn, OVERLAY_HELP);
        return;
    case COMMAND_REPAINT:
        turn->effects.repaint = true;
        return;
    case COMMAND_SUSPEND:
        turn->effects.suspend = true;
        return;
    case COMMAND_QUIT:
        leave(turn);
        return;
    case COMMAND_COUNT_:
        break;
    }
    if (app->at < app->route.count)
        say_warning(turn, "That key does nothing here; h shows the keys.");
}

/* An overlay is scrolled or closed; it swallows every other key. */
static void handle_overlay(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    switch (key) {
    case SILLET_KEY_UP:
    case SILLET_KEY_PAGE_UP:
        if (app->overlay_top > 0)
            app->overlay_top--;
        return;
    case SILLET_KEY_DOWN:
    case SILLET_KEY_PAGE_DOWN:
        app->overlay_top++;
        return;
    default:
        app->overlay = OVERLAY_NONE;
    }
}

/* Numbers start an entry; once it is begun, a unit's letters and blanks belong to it too. */
static bool is_for_entry(const struct app *app, uint32_t key)
{
    if (app->at >= app->route.count || key >= SILLET_KEY_ENTER || key < ' ')
        return false;
    if (key < 0x80 && strchr("0123456789./+-", (int)key))
        return true;
    return !lineedit_is_empty(&app->entry) && key != '*';
}

static void handle_key(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    app->tone = TONE_NONE;
    if (app->overlay != OVERLAY_NONE) {
        handle_overlay(turn, key);
        return;
    }
    if (!is_for_entry(app, key)) {
        run(turn, command_find(key));
        return;
    }
    if (!lineedit_add(&app->entry, key))
        say_warning(turn, "The entry is full.");
    app_refresh_entry(app);
}

struct app_effects app_handle(struct app *app, const struct event *event,
                              const struct app_clock *clock)
{
    struct turn turn = {.app = app, .clock = clock};

    switch (event->type) {
    case EVENT_KEY:
        handle_key(&turn, event->key);
        break;
    case EVENT_HANGUP:
        leave(&turn);
        break;
    case EVENT_RESUME:
        turn.effects.repaint = true;
        break;
    case EVENT_NONE:
    case EVENT_RESIZE:
        break;
    }
    return turn.effects;
}
