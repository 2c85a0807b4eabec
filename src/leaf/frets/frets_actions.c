/* SPDX-License-Identifier: MIT */
#include "leaf/frets/frets_actions.h"

#include "leaf/frets/leaf_frets.h"
#include "session/refresh.h"

int frets_note(const struct app *app)
{
    const struct board *board = &app_shown(app)->setup.board;
    const int string = app_string(app), picked = frets_state(app)->picked - 1;

    if (string > board->strings)
        return -1;
    return picked >= board->start_fret[string] && picked <= board->frets
               ? picked
               : frets_tightest_note(app_shown(app), string);
}

bool frets_has_note(const struct app *app)
{
    return frets_note(app) >= 0;
}

void frets_step_note(struct turn *turn, int by)
{
    const struct app *app = turn->app;
    const struct board *board = &app_shown(app)->setup.board;
    const int note = frets_note(app) + by;

    frets_state(app)->picked =
        note >= board->start_fret[app_string(app)] && note <= board->frets ? note + 1 : 0;
}

/* --- one height for all crowns --- */

/* Enter went on from the fret that was read to the next one, or off the row. */
static const struct reading *crown_to_fill(const struct app *app)
{
    for (int at = app->at; at >= 0 && at >= app->at - 1; at--) {
        const struct route_cell *cell = at < app->route.count ? &app->route.cells[at] : NULL;
        const struct reading *crown =
            cell && cell->key.field == FIELD_CROWN ? record_get(&app->record, &cell->key) : NULL;

        if (crown && crown->value.state != READING_BAD)
            return crown;
    }
    return NULL;
}

static bool is_to_fill(const struct app *app, int at)
{
    const struct reading_key *key = &app->route.cells[at].key;

    return key->field == FIELD_CROWN && !record_get(&app->record, key);
}

static int count_to_fill(const struct app *app)
{
    int count = 0;

    for (int at = 0; at < app->route.count; at++)
        count += is_to_fill(app, at);
    return count;
}

bool frets_can_fill_crowns(const struct app *app)
{
    return app_may_change(app) && crown_to_fill(app) && count_to_fill(app) > 0;
}

void frets_add_fill(const struct app *app, struct strbuf *out)
{
    const struct reading *crown = crown_to_fill(app);

    if (!crown)
        return;
    strbuf_addf(out, ": %s on ", crown->text);
    strbuf_add_count(out, (size_t)count_to_fill(app), "fret", "frets");
}

void frets_fill_crowns(struct turn *turn)
{
    struct app *app = turn->app;
    const struct reading *crown = crown_to_fill(app);
    char height[ENTRY_TEXT_MAX], memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(height), words = STRBUF(memory);
    enum status status = STATUS_OK;
    int filed = 0;

    if (!turn_may_change(turn))
        return;
    if (!crown || count_to_fill(app) == 0) {
        turn_warn(turn, crown ? "Every fret has its crown's height already."
                              : "Type one crown's height first; this files it on the others.");
        return;
    }
    strbuf_add(&text, crown->text);
    turn_open_step(turn);
    for (int at = 0; at < app->route.count && status == STATUS_OK; at++)
        if (is_to_fill(app, at)) {
            status = turn_put(turn, app->route.cells[at].key, height, NULL);
            filed += status == STATUS_OK;
        }
    turn_changed(turn);
    strbuf_addf(&words, "Crown %s filed on ", height);
    strbuf_add_count(&words, (size_t)filed, "more fret", "more frets");
    strbuf_add(&words, "; undo takes them all back.");
    app_say(app, status == STATUS_OK ? TONE_NOTE : TONE_WARNING, memory);
}

/* The first fret that the rocker is asked about; 0 for none. */
static int find_asked(const struct app *app)
{
    const struct fret_work *work = &app->now.moves.frets;
    const uint64_t asked = work->rock | work->worn | work->again;

    for (int n = 1; n <= FRETS_MAX; n++)
        if (asked >> n & 1 || (work->fret[n].due && work->guessed[n]))
            return n;
    return 0;
}

void frets_settle(struct app *app, bool entering)
{
    const struct reading_key key =
        reading_key_pass_at(FIELD_SPOT, app->visit, app->pass, 0, find_asked(app));
    const int at = entering && key.fret > 0 ? route_find(&app->route, &key) : -1;

    if (at < 0)
        return;
    app->at = at;
    app_refresh_entry(app);
}
