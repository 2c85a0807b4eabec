/* SPDX-License-Identifier: MIT */
#include "leaf/strings/retune.h"

#include <math.h>
#include <string.h>

#include "leaf/strings/leaf_strings.h"
#include "model/reading/note_name.h"
#include "model/reading/record_access.h"
#include "model/reading/work_line.h"
#include "model/reading/work_mark.h"

void retune_add_tuning(const struct app *app, struct strbuf *out)
{
    const struct tuning *tuning = note_name_tuning(&app->record);
    const char *before = "";

    if (tuning) {
        strbuf_add(out, tuning->said);
        return;
    }
    for (int s = app->now.setup.board.strings; s >= 1; s--) {
        char memory[16];
        struct strbuf name = STRBUF(memory);

        if (!note_name_of(&app->record, s, &name))
            continue;
        strbuf_addf(out, "%s%s", before, memory);
        before = " ";
    }
}

void retune_add_gauges(const struct app *app, struct strbuf *out)
{
    const char *from = NULL, *to = NULL;
    double thin = (double)INFINITY, thick = 0;

    for (int s = 1; s <= app->now.setup.board.strings; s++) {
        const struct reading_key key = reading_key_string(FIELD_GAUGE, s);
        const struct reading *gauge = record_get(&app->record, &key);

        if (!gauge || !(gauge->value.value > 0))
            return;
        if (gauge->value.value < thin)
            from = gauge->text;
        if (gauge->value.value > thick)
            to = gauge->text;
        thin = fmin(thin, gauge->value.value);
        thick = fmax(thick, gauge->value.value);
    }
    if (from && to)
        strbuf_addf(out, ", %s to %s", from, to);
}

void retune_begin(struct app *app)
{
    for (int s = 1; s <= STRINGS_MAX; s++) {
        strings_state(app)->tuned[s] = record_entered_string(&app->record, FIELD_STRING_NOTE, s);
        strings_state(app)->strung[s] = record_entered_string(&app->record, FIELD_GAUGE, s);
    }
}

/* Whether a string has another note, or gauge, than it was begun with. */
static bool is_other(const struct app *app, const struct maybe *was, enum field_id field)
{
    for (int s = 1; s <= STRINGS_MAX; s++) {
        const struct maybe is = record_entered_string(&app->record, field, s);

        if (was[s].given && is.given && was[s].value != is.value)
            return true;
    }
    return false;
}

/* The visit's last line where it says already that it was retuned since the readings; else a new
 * one. */
static int find_line(const struct app *app)
{
    const int last = record_last_work(&app->record, app->visit);
    const struct place read =
        place_of(&app->record, app->visit, record_last_read_pass(&app->record, app->visit));
    const bool says =
        last > 0 && work_mark_is_since(read, last) &&
        strcmp(work_line_text(&app->record, WORK_KIND, app->visit, last), WORK_RETUNED) == 0;

    return says ? last : last + 1;
}

static enum status put_line(struct turn *turn)
{
    const struct app *app = turn->app;
    const int line = find_line(app);
    char memory[160];
    struct strbuf tuning = STRBUF(memory);

    if (line > WORKS_MAX)
        return STATUS_RANGE;
    retune_add_tuning(app, &tuning);
    if (is_other(app, strings_state(app)->strung, FIELD_GAUGE)) {
        strbuf_add(&tuning, tuning.length > 0 ? ", other gauges" : "other gauges");
        retune_add_gauges(app, &tuning);
    }
    enum status status = turn_put(turn, work_key(WORK_KIND, app->visit, line), WORK_RETUNED, NULL);
    if (status == STATUS_OK && tuning.length > 0)
        status = turn_put(turn, work_key(WORK_AMOUNT, app->visit, line), memory, NULL);
    return status == STATUS_OK ? turn_put_time(turn, work_key(WORK_TIME, app->visit, line))
                               : status;
}

bool retune_end(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->correcting || record_last_read_pass(&app->record, app->visit) == 0 ||
        !is_other(app, strings_state(app)->tuned, FIELD_STRING_NOTE))
        return false;
    if (put_line(turn) == STATUS_OK)
        app_say(app, TONE_NOTE,
                "Retuned: measure again at pitch. Only a slip? Take its line out on Work.");
    else
        turn_warn(turn, "The work line could not be filed: memory is out, or the visit is full.");
    return true;
}
