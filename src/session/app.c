/* SPDX-License-Identifier: MIT */
#include "session/app.h"

#include <string.h>

#include "model/reading/record_access.h"

void app_say(struct app *app, enum app_tone tone, const char *message)
{
    struct strbuf text = STRBUF(app->message);

    strbuf_clear(&text);
    strbuf_add(&text, message);
    app->tone = tone;
}

void app_kept(struct app *app, enum status status, const struct app_clock *clock,
              const char *message)
{
    struct strbuf at = STRBUF(app->kept_at);
    const bool failed = app->keeping == KEEPING_FAILED;

    app->keeping = status == STATUS_OK ? KEEPING_KEPT : KEEPING_FAILED;
    /* The time shown is that of the first save that failed. */
    if (status == STATUS_OK || !failed) {
        strbuf_clear(&at);
        strbuf_add_bytes(&at, clock->time, strlen(clock->time) < 5 ? strlen(clock->time) : 5);
    }
    if (message)
        app_say(app, status == STATUS_OK ? TONE_NOTE : TONE_WARNING, message);
    else if (failed && status == STATUS_OK)
        app_say(app, TONE_NOTE, "On disk now: every reading is kept.");
}

bool app_may_change(const struct app *app)
{
    return app->keeping != KEEPING_READ_ONLY;
}

struct day app_today(const struct app *app)
{
    struct day day = {.year = 0, .month = 1, .day = 1};

    (void)day_parse(app->today, &day);
    return day;
}

struct day app_today_typed(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, app->visit);
    struct day day = app_today(app);

    if (cell && cell->key.field == FIELD_VISIT_PROMISED &&
        !day_is_counted(app->entry.text, DAY_NEXT))
        (void)day_parse(record_text_or_empty(&app->record, date), &day);
    return day;
}

/* --- the pass in hand --- */

struct place app_place(const struct app *app)
{
    return place_of(&app->record, app->visit, app->pass);
}

struct pass_place app_pass_in_hand(const struct app *app)
{
    return pass_place_of(app->visit, app->pass);
}

const struct derived *app_shown(const struct app *app)
{
    return app->previewing ? &app->preview : &app->now;
}

int app_last_pass(const struct app *app)
{
    const int last = record_last_read_pass(&app->record, app->visit);

    return last > app->pass ? last : app->pass;
}

bool app_pass_is_empty(const struct app *app)
{
    return record_last_read_pass(&app->record, app->visit) < app->pass;
}

enum nut_method app_nut_method(const struct app *app)
{
    const enum nut_method before = app->has_before ? app->before.setup.nut_method : NUT_OPEN;

    return (enum nut_method)record_choice_or(
        &app->record, place_key(app_place(app), FIELD_NUT_METHOD), (int)before);
}

const struct reading *app_reading_before(const struct app *app, const struct route_cell *cell)
{
    struct reading_key key = cell->key;

    for (key.part--; key.visit > 0; key.visit--) {
        for (; key.part > 0; key.part--) {
            const struct reading *reading = record_get(&app->record, &key);

            if (reading && reading->value.state != READING_BAD)
                return reading;
        }
        key.part = (int16_t)record_last_pass(&app->record, key.visit - 1);
    }
    return NULL;
}

/* --- the leaf in hand --- */

const struct leaf_row *app_row(const struct app *app)
{
    return app->leaves->row[app->leaf];
}

const struct route_cell *app_cell(const struct app *app)
{
    return app->at < app->route.count ? &app->route.cells[app->at] : NULL;
}

enum figure_id app_figure(const struct app *app)
{
    return app_row(app)->figure ? app_row(app)->figure(app) : app_row(app)->leaf_figure;
}

int app_string(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);
    const struct outfit *outfit = &app->now.setup.outfit;

    if (cell)
        return cell->string;
    return app->now.setup.has_board ? outfit->read_as[outfit->strings] : 1;
}

struct maybe app_expected(const struct app *app, const struct route_cell *cell)
{
    return app_row(app)->expected ? app_row(app)->expected(app, cell) : maybe_absent();
}

int app_note(const struct app *app)
{
    return app_row(app)->note ? app_row(app)->note(app) : -1;
}

/* --- the entry --- */

bool app_is_asked(const struct app *app)
{
    return app->asked && app->asked->look;
}

const struct field *app_field(const struct app *app)
{
    const struct route_cell *cell = app_is_asked(app) ? NULL : app_cell(app);

    return cell ? field_get(cell->key.field) : NULL;
}

bool app_is_typing(const struct app *app)
{
    return app->writing || app_is_asked(app) || !lineedit_is_empty(&app->entry);
}

struct name_list app_names(const struct app *app)
{
    return app_is_asked(app) ? name_list_for(app->asked->names, &app->record)
                             : name_list_of_field(field_get(app_cell(app)->key.field));
}

/* Lists and texts are edited; anything else is quicker to type again. */
bool app_is_edited(const struct app *app)
{
    const struct field *field = app_field(app);

    return field && (field->kind == KIND_TEXT || field->kind == KIND_FRETS);
}

bool app_is_emptied(const struct app *app)
{
    return app->opened && lineedit_is_empty(&app->entry) && app_is_edited(app);
}

bool app_takes_letters(const struct app *app)
{
    const struct field *field = app_field(app);

    if (!field)
        return app_is_asked(app);
    switch (field->kind) {
    case KIND_TEXT:
    case KIND_CHOICE:
    case KIND_YESNO:
    case KIND_NOTE:
    case KIND_DATE:
    case KIND_TIME:
        return true;
    case KIND_NUMBER:
    case KIND_COUNT:
    case KIND_FRETS:
    case KIND_RADIUS:
        break;
    }
    return false;
}

const struct rod_prior *app_prior(const struct app *app)
{
    const struct maybe kind = record_entered_one(&app->record, FIELD_KIND);

    return kind.given && kind.value < ROD_KINDS_MAX ? &app->priors.of[(int)kind.value] : NULL;
}
