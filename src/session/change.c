/* SPDX-License-Identifier: MIT */
#include "session/change.h"

#include "model/reading/record_access.h"

static bool is_of_instrument(enum field_id field)
{
    return section_is_of_instrument(field_get(field)->section);
}

static bool has_visit_before(const struct app *app)
{
    int first = 0;

    return record_next_visit(&app->record, &first) && first < app->visit;
}

static bool is_setback(const struct reading_key *key)
{
    return key->field == FIELD_SETBACK && key->visit == 0;
}

bool change_applies(const struct app *app, enum field_id field)
{
    return field_may_change(field) &&
           (has_visit_before(app) || (field == FIELD_SETBACK && app->pass > 1));
}

/* What the pass in hand reads of a setback. */
static struct reading_key key_here(const struct app *app, const struct reading_key *setback)
{
    return reading_key_pass_at(FIELD_SETBACK_READ, app->visit, app->pass, setback->string, 0);
}

/* Where what held before the pass in hand was filed. */
static struct reading_key key_before(const struct app *app, const struct reading_key *setback)
{
    const struct record before = app->pass > 1
                                     ? record_as_of_pass(&app->record, app->visit, app->pass - 1)
                                     : record_as_of(&app->record, app->visit - 1);
    const struct reading *held =
        app->visit > 1 || app->pass > 1 ? record_get(&before, setback) : NULL;

    return held ? held->key : *setback;
}

struct reading_key change_key(const struct app *app, struct reading_key key)
{
    const struct record before = record_as_of(&app->record, app->visit - 1);

    if (is_setback(&key))
        return app->correcting ? key_before(app, &key) : key_here(app, &key);
    if (key.visit > 0 || !change_applies(app, key.field))
        return key;
    return reading_key_as_of(key, app->correcting ? record_since(&before, &key) : app->visit);
}

struct reading_key change_cell_key(struct reading_key filed)
{
    return filed.field == FIELD_SETBACK_READ ? reading_key_string(FIELD_SETBACK, filed.string)
                                             : reading_key_as_of(filed, 0);
}

const struct reading *change_made(const struct app *app, const struct reading_key *key)
{
    const struct reading_key made =
        is_setback(key) ? key_here(app, key) : reading_key_as_of(*key, app->visit);

    return change_applies(app, key->field) ? record_find(&app->record, &made) : NULL;
}

/* Whether a change of nothing into nothing would have to be filed. */
static bool held_before(const struct app *app, const struct reading_key *change)
{
    const struct reading_key base = reading_key_as_of(*change, 0);
    const struct record before = record_as_of(&app->record, change->visit - 1);

    return change->visit > 1 ? record_get(&before, &base) : record_find(&app->record, &base);
}

/* What a change needs besides: the visit's date, where it is the first that the visit has, and a
 * format that older programs know they do not know. */
static enum status put_beside(struct app *app, const char *date, int visit)
{
    const struct reading_key day = reading_key_visit(FIELD_VISIT_DATE, visit);
    const struct reading_key format = reading_key_one(FIELD_FORMAT);
    enum status status = STATUS_OK;

    if (visit == app->visit && !record_get(&app->record, &day))
        status = undo_put(&app->undo, &app->record, &day, date, NULL);
    if (status == STATUS_OK &&
        maybe_or(record_entered(&app->record, format), 0) < RECORD_FORMAT_OF_CHANGES)
        status = undo_put(&app->undo, &app->record, &format, "2", NULL);
    return status;
}

static enum status put(struct app *app, const char *date, struct reading_key key, const char *text,
                       struct field_fault *ret_fault)
{
    const bool is_change = reading_key_is_change(&key);

    if (!text && is_change && held_before(app, &key))
        text = RECORD_GONE;
    const enum status status = undo_put(&app->undo, &app->record, &key, text, ret_fault);
    return status == STATUS_OK && text && is_change ? put_beside(app, date, key.visit) : status;
}

/* A program that knows no setbacks of passes would take the string's own for what holds. */
static enum status put_read(struct app *app, const char *date, const struct reading_key *setback,
                            const char *text, struct field_fault *ret_fault)
{
    const struct reading_key here = key_here(app, setback);
    const enum status status = undo_put(&app->undo, &app->record, &here, text, ret_fault);

    return status == STATUS_OK && record_find(&app->record, setback)
               ? put_beside(app, date, app->visit)
               : status;
}

/* What was read here goes; where nothing was, what holds from the visit on. */
static enum status put_setback(struct app *app, const char *date, const struct reading_key *setback,
                               const char *text, struct field_fault *ret_fault)
{
    const struct reading_key here = key_here(app, setback), before = key_before(app, setback);
    const bool is_read = record_find(&app->record, &here);
    enum status status;

    if (!app->correcting && text)
        return put_read(app, date, setback, text, ret_fault);
    if (!app->correcting)
        return is_read ? undo_put(&app->undo, &app->record, &here, NULL, NULL)
                       : undo_put(&app->undo, &app->record, &before, NULL, NULL);
    status = undo_put(&app->undo, &app->record, &before, text, ret_fault);
    return status == STATUS_OK && is_read ? undo_put(&app->undo, &app->record, &here, NULL, NULL)
                                          : status;
}

enum status change_put(struct app *app, const char *date, struct reading_key key, const char *text,
                       struct field_fault *ret_fault)
{
    const struct reading_key made = reading_key_as_of(key, app->visit);

    if (is_setback(&key))
        return put_setback(app, date, &key, text, ret_fault);
    if (key.visit > 0 || !change_applies(app, key.field))
        return undo_put(&app->undo, &app->record, &key, text, ret_fault);
    const enum status status = put(app, date, change_key(app, key), text, ret_fault);
    /* What was corrected holds in this visit too. */
    return status == STATUS_OK && app->correcting && record_find(&app->record, &made)
               ? undo_put(&app->undo, &app->record, &made, NULL, NULL)
               : status;
}

static void add_setback(const struct app *app, const struct reading_key *key, struct strbuf *out)
{
    const struct reading_key filed = change_key(app, *key);

    if (!change_applies(app, FIELD_SETBACK))
        return;
    if (!app->correcting)
        strbuf_add(out, ", from this pass on");
    else if (filed.part > 0)
        strbuf_addf(out, ", correction: of visit %d, pass %d", filed.visit, filed.part);
    else if (filed.visit > 0)
        strbuf_addf(out, ", correction: from visit %d on", filed.visit);
    else
        strbuf_add(out, ", correction: as first filed");
}

void change_add_words(const struct app *app, const struct reading_key *key, struct strbuf *out)
{
    if (is_setback(key)) {
        add_setback(app, key, out);
        return;
    }
    if (key->visit > 0 || !is_of_instrument(key->field) || !has_visit_before(app))
        return;
    const int visit = change_key(app, *key).visit;
    if (!field_may_change(key->field))
        strbuf_add(out, ", all visits");
    else if (visit == app->visit)
        strbuf_add(out, ", from this visit on");
    else if (visit > 0)
        strbuf_addf(out, ", correction: from visit %d on", visit);
    else
        strbuf_add(out, ", correction: all visits");
}
