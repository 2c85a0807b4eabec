/* SPDX-License-Identifier: MIT */
#include "session/doubt_look.h"

#include <string.h>

#include "base/utf8.h"
#include "model/setup/bench_goal.h"
#include "session/change.h"
#include "session/doubt_words.h"
#include "session/typed_text.h"

/* Whether a row's move was made since the pass before, or may have been: where another is marked,
 * it was not. */
static bool may_be_made(const struct app *app, enum move_kind kind)
{
    const struct move *move = &app->before.moves.move[kind];

    return !app->has_before || kind == MOVE_ROD || move_is_done(move) ||
           (move_is_open(move) && move_set_count(&app->before.moves, move_is_done) == 0);
}

/* The target of a cell, where anything was done to reach it. A least value that will do is not one.
 */
static struct maybe find_wanted(const struct app *app, const struct route_cell *cell)
{
    const struct bench_row *row = bench_row_of(cell->key.field);

    if (!row || row->goal != GOAL_NEAR || !may_be_made(app, row->move))
        return maybe_absent();
    return bench_goal_read(row, &app->record, &app->now.setup, cell->string);
}

/* Which way the rod's move turns it, done since or not, as struct doubt_about has it. Turns are
 * kept with the pass that follows the move. */
static double find_rod_way(const struct app *app, const struct route_cell *cell)
{
    const bool follows = cell->key.field == FIELD_ROD_TURN
                             ? cell->key.part == app->pass
                             : app->has_before && app_pass_is_empty(app);

    if (follows && !app->has_before)
        return 0;
    const struct derived *derived = follows ? &app->before : app_shown(app);
    const struct move *rod = &derived->moves.move[MOVE_ROD];
    return rod->state != MOVE_DUE ? 0 : move_tightens(rod) ? 1 : -1;
}

static struct doubt_about find_about(const struct app *app, const struct route_cell *cell)
{
    struct doubt_about about = {.today = app->today,
                                .expected = app_expected(app, cell),
                                .wanted = find_wanted(app, cell),
                                .rod_way = find_rod_way(app, cell)};
    struct reading_key before = cell->key;

    before.part--;
    if (about.expected.given)
        about.before = record_entered(&app->record, before);
    return about;
}

/* The entry as a number without a unit, with a point or a comma; 0 for anything else. */
static double bare_number(const char *text)
{
    char memory[ENTRY_TEXT_MAX];
    struct strbuf number = STRBUF(memory);
    double value = 0;

    entry_add_pointed(text, &number);
    (void)num_decimal(memory, number.length, &value);
    return value;
}

/* Whether a reading belongs to an earlier pass than the last one of its visit, or to an earlier
 * visit. Labels and notes may be written at any time. */
static bool is_earlier(const struct record *record, const struct reading_key *key)
{
    const struct field *field = field_get(key->field);
    const bool of_pass = field->section == SECTION_PASS;

    if (field->kind == KIND_TEXT || (!of_pass && field->section != SECTION_VISIT))
        return false;
    return key->visit < record_last_visit(record) ||
           (of_pass && key->part < record_last_read_pass(record, key->visit));
}

/* Whether a number would replace the one that was filed just before it, because Enter found no next
 * cell: it was probably read somewhere else. */
static bool is_past_end(const struct app *app, const struct field *field)
{
    return app->stayed && !app->opened && !app->proposed &&
           (field->kind == KIND_NUMBER || field->kind == KIND_RADIUS || field->kind == KIND_COUNT);
}

/* "line 1 says 1/4", "pass 1 of 2 said .014". */
static void add_filed(const struct app *app, const struct reading_key *key, struct strbuf *out)
{
    enum { SHOWN_COLUMNS = 24 };
    const struct field *field = field_get(key->field);
    char memory[ENTRY_TEXT_MAX];
    struct strbuf shown = STRBUF(memory);

    if (is_past_end(app, field))
        strbuf_add(out, "this is the last cell, just filed as ");
    else if (field->section == SECTION_WORK)
        strbuf_addf(out, "line %d says ", key->part);
    else if (field->section == SECTION_VISIT)
        strbuf_addf(out, "visit %d said ", key->visit);
    else if (key->visit < record_last_visit(&app->record))
        strbuf_addf(out, "pass %d of visit %d said ", key->part, key->visit);
    else
        strbuf_addf(out, "pass %d of %d said ", key->part,
                    record_last_read_pass(&app->record, key->visit));
    entry_show(record_text(&app->record, key), field, &app->units, &shown);
    const size_t fits = utf8_clip(memory, SHOWN_COLUMNS);
    strbuf_add_bytes(out, memory, fits);
    strbuf_add(out, memory[fits] ? "..." : "");
}

/* What is filed and would be replaced, where one does not expect to write over it. A line that was
 * opened to be edited is meant. */
static void look_at_filed(struct app *app, const struct reading_key *key, const char *kept)
{
    const struct maybe held = record_entered(&app->record, *key);
    const struct field *field = field_get(key->field);
    const bool is_line = field->section == SECTION_WORK && !app->opened;
    const bool past_end = is_past_end(app, field);
    const char *filed = record_text(&app->record, key);
    struct strbuf words = STRBUF(app->doubt_words);

    if (!filed || strcmp(filed, kept) == 0 ||
        (!is_line && !past_end && !is_earlier(&app->record, key)))
        return;
    if (!is_line && held.given && held.value == app->entry_view.value)
        return;
    app->doubt.kind = DOUBT_FILED;
    add_filed(app, key, &words);
    strbuf_add(&words, is_line || past_end ? ": replace it?" : ": change the record?");
}

/* What is read of a course is said of it. */
static void name_course(struct app *app)
{
    const struct outfit *outfit = &app->now.setup.outfit;
    struct doubt *doubt = &app->doubt;

    if (doubt->string < 1 || !outfit_is_course(outfit, doubt->string))
        return;
    doubt->is_course = true;
    doubt->string = outfit->course[doubt->string];
}

void doubt_look(struct app *app)
{
    const struct route_cell *cell = app_cell(app);
    char memory[ENTRY_TEXT_MAX], typed[ENTRY_TEXT_MAX];
    struct strbuf kept = STRBUF(memory), words = STRBUF(app->doubt_words);
    struct doubt_entry entry = {.text = memory};

    if (!cell || !app->entry_view.good)
        return;
    if (app->entry_view.doubtful) {
        app->doubt.kind = DOUBT_NAME;
        strbuf_add(&words, app->entry_view.words);
        return;
    }
    const struct field *field = field_get(cell->key.field);
    const struct day today = app_today_typed(app);
    if (entry_spell(typed_text(app, typed), field, &app->units, &today, &kept) != STATUS_OK)
        return;
    struct doubt_about about = find_about(app, cell);
    struct entry_view view = app->entry_view;
    struct reading_key key = cell->key;
    enum field_id means = key.field;
    if (app_row(app)->about)
        app_row(app)->about(app, &about, &means, &view);
    key.field = means;
    entry.value = (struct field_value){.value = view.value};
    entry.whole = strspn(app->entry.text, "0123456789") == app->entry.length;
    entry.bare = bare_number(app->entry.text);
    app->doubt = doubt_find(&app->record, &key, &entry, &about);
    name_course(app);
    const struct reading_key filed = change_key(app, cell->key);
    if (app->doubt.kind == DOUBT_NONE)
        look_at_filed(app, &filed, memory);
    else
        doubt_words_add(&words, &app->doubt, &key, &entry, &app->units);
}
