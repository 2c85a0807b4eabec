/* SPDX-License-Identifier: MIT */
#include "session/take_out.h"

#include "session/app_place.h"

/* --- what is asked about --- */

/* The pass looked at; if there is none, the visit in hand. */
static struct pass_place find_looked_at(const struct app *app)
{
    return app_row(app)->looked_at ? app_row(app)->looked_at(app) : pass_place_of(app->visit, 0);
}

static bool is_in(const struct reading_key *key, struct pass_place place)
{
    return key->visit == place.visit &&
           (place.pass == 0 ||
            (field_get(key->field)->section == SECTION_PASS && key->part == place.pass));
}

/* A pass's label, time, note and method are not counted as readings. */
static bool is_reading(const struct reading_key *key)
{
    return field_get(key->field)->section == SECTION_PASS && key->field != FIELD_PASS_LABEL &&
           key->field != FIELD_PASS_TIME && key->field != FIELD_PASS_NOTE &&
           key->field != FIELD_NUT_METHOD;
}

static int count_readings(const struct record *record, struct pass_place place)
{
    int count = 0;

    for (size_t i = 0; i < record->count; i++)
        count += is_in(&record->readings[i].key, place) && is_reading(&record->readings[i].key);
    return count;
}

bool take_out_has_pass(const struct app *app)
{
    return app_may_change(app) && find_looked_at(app).pass > 0;
}

static bool has_anything(const struct app *app, struct pass_place place)
{
    for (size_t i = 0; i < app->record.count; i++)
        if (is_in(&app->record.readings[i].key, place))
            return true;
    return false;
}

bool take_out_has_visit(const struct app *app)
{
    return app_may_change(app) && has_anything(app, pass_place_of(find_looked_at(app).visit, 0));
}

/* --- the question --- */

static void add_named(struct strbuf *out, const char *between, const char *text)
{
    if (!text)
        return;
    strbuf_add(out, between);
    strbuf_add(out, text);
}

static void add_visit(const struct app *app, int visit, struct strbuf *out)
{
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, visit);
    const int works = record_last_work(&app->record, visit);

    strbuf_addf(out, "Visit %d", visit);
    add_named(out, " of ", record_text(&app->record, &date));
    strbuf_add(out, ": ");
    strbuf_add_count(out, (size_t)record_last_pass(&app->record, visit), "pass", "passes");
    strbuf_add(out, ", ");
    if (works > 0) {
        strbuf_add_count(out, (size_t)works, "work line", "work lines");
        strbuf_add(out, ", ");
    }
}

/* --- the answer --- */

/* Whether a reading moves up when a pass is taken out. */
static bool is_behind(const struct reading_key *key, struct pass_place place)
{
    return place.pass > 0 && key->visit == place.visit && key->part > place.pass &&
           field_get(key->field)->section == SECTION_PASS;
}

/* Takes away all that goes or moves first, so that nothing is put on top of what is still there. */
static enum status take_out(struct turn *turn, const struct record *was, struct pass_place place)
{
    enum status status = STATUS_OK;

    for (size_t i = 0; i < was->count && status == STATUS_OK; i++)
        if (is_in(&was->readings[i].key, place) || is_behind(&was->readings[i].key, place))
            status = turn_put(turn, was->readings[i].key, NULL, NULL);
    for (size_t i = 0; i < was->count && status == STATUS_OK; i++) {
        struct reading_key key = was->readings[i].key;

        if (!is_behind(&key, place))
            continue;
        key.part--;
        status = turn_put_as_is(turn, key, was->readings[i].text);
    }
    return status;
}

/* The pass in hand may be gone, or have another number. */
static void follow(struct app *app, struct pass_place place)
{
    struct pass_place next = app_pass_in_hand(app);

    if (place.pass == 0 && next.visit == place.visit) {
        app_take_current(app);
        return;
    }
    if (place.pass > 0 && next.visit == place.visit) {
        const int last = record_last_read_pass(&app->record, next.visit);

        if (next.pass > place.pass || next.pass > last)
            next.pass--;
        if (next.pass < 1)
            next.pass = 1;
    }
    app_take_pass(app, next.visit, next.pass);
}

static bool answer(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;
    const struct pass_place place = app->asked_out;
    struct record was;

    app->asked = NULL;
    if (key != SILLET_KEY_ENTER) {
        app_say(app, TONE_NOTE, "Left as it is.");
        return true;
    }
    if (record_copy(&app->record, &was) != STATUS_OK) {
        turn_warn(turn, "Out of memory: all was left as it is.");
        return true;
    }
    turn_open_step(turn);
    const enum status status = take_out(turn, &was, place);
    record_done(&was);
    follow(app, place);
    turn_changed(turn);
    if (status != STATUS_OK)
        turn_warn(turn, "Out of memory: only a part was taken out; undo brings it back.");
    else
        app_say(app, TONE_NOTE,
                place.pass > 0 ? "The pass is taken out; undo brings it back."
                               : "The visit is taken out; undo brings it back.");
    return true;
}

/* --- asking --- */

static const struct asked whether_out = {
    .take_key = answer, .enter = "takes it out", .escape = "leaves it"};

static void ask(struct turn *turn, struct pass_place place)
{
    struct app *app = turn->app;
    const struct reading_key label = reading_key_pass(FIELD_PASS_LABEL, place.visit, place.pass);
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (!turn_may_change(turn))
        return;
    if (place.pass > 0) {
        strbuf_addf(&words, "Visit %d, pass %d", place.visit, place.pass);
        add_named(&words, ", ", record_text(&app->record, &label));
        strbuf_add(&words, ": ");
    } else {
        add_visit(app, place.visit, &words);
    }
    strbuf_add_count(&words, (size_t)count_readings(&app->record, place), "reading", "readings");
    strbuf_add(&words, ". Enter takes it out, Esc leaves it.");
    app_say(app, TONE_NOTE, memory);
    app->asked = &whether_out;
    app->asked_out = place;
}

void take_out_pass(struct turn *turn)
{
    const struct pass_place place = find_looked_at(turn->app);

    if (place.pass > 0)
        ask(turn, place);
    else
        turn_warn(turn, "There is no pass here to take out.");
}

void take_out_visit(struct turn *turn)
{
    const struct pass_place place = pass_place_of(find_looked_at(turn->app).visit, 0);

    if (has_anything(turn->app, place))
        ask(turn, place);
    else
        turn_warn(turn, "This visit is empty; there is nothing to take out.");
}
