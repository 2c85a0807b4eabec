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

bool change_applies(const struct app *app, enum field_id field)
{
    return field_may_change(field) && has_visit_before(app);
}

struct reading_key change_key(const struct app *app, struct reading_key key)
{
    const struct record before = record_as_of(&app->record, app->visit - 1);

    if (key.visit > 0 || !change_applies(app, key.field))
        return key;
    return reading_key_as_of(key, app->correcting ? record_since(&before, &key) : app->visit);
}

const struct reading *change_made(const struct app *app, const struct reading_key *key)
{
    const struct reading_key made = reading_key_as_of(*key, app->visit);

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

enum status change_put(struct app *app, const char *date, struct reading_key key, const char *text,
                       struct field_fault *ret_fault)
{
    const struct reading_key made = reading_key_as_of(key, app->visit);

    if (key.visit > 0 || !change_applies(app, key.field))
        return undo_put(&app->undo, &app->record, &key, text, ret_fault);
    const enum status status = put(app, date, change_key(app, key), text, ret_fault);
    /* What was corrected holds in this visit too. */
    return status == STATUS_OK && app->correcting && record_find(&app->record, &made)
               ? undo_put(&app->undo, &app->record, &made, NULL, NULL)
               : status;
}

void change_add_words(const struct app *app, const struct reading_key *key, struct strbuf *out)
{
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
