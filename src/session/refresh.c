/* SPDX-License-Identifier: MIT */
#include "session/refresh.h"

#include "model/reading/ticket.h"
#include "model/reading/note_name.h"
#include "model/strings/pitch.h"
#include "model/reading/record_access.h"
#include "session/change.h"
#include "session/doubt_look.h"
#include "session/typed_text.h"

/* Deriving what depends on the record, the pass in hand and the entry. */

/* What only the leaf in hand shows. */
static void make_plan(struct app *app, struct place place)
{
    if (app_row(app)->shows_predicted_u)
        derive_predicted_u(place, app->previewing ? &app->preview : &app->now);
    if (app_row(app)->plan)
        app_row(app)->plan(app, place);
}

/* The first reading of a pass files how its gaps are read too. */
static bool files_method(const struct app *app)
{
    return app_pass_is_empty(app) && app_nut_method(app) != NUT_OPEN;
}

/* Strings that are to be read by themselves, and are not yet. */
static void add_alone(const struct app *app, struct outfit *outfit)
{
    for (int s = 1; s <= outfit->strings; s++)
        if (app->alone >> s & 1)
            outfit_read_alone(outfit, s);
}

/* A reading of the pass in hand leaves what came before as it is; but a turn of the rod and a
 * setback say what was done to the instrument until then. */
static bool leaves_past(const struct app *app, const struct reading_key *key)
{
    return field_get(key->field)->section == SECTION_PASS && key->visit == app->visit &&
           key->part == app->pass && key->field != FIELD_ROD_TURN &&
           key->field != FIELD_SETBACK_READ;
}

/* No more is derived than is shown. `?` explains any figure, and the pass's end says how the
 * strings clear the frets. */
static enum derive_depth depth_shown(const struct app *app)
{
    const bool at_end = app->route.ends_pass && !app_cell(app);

    return app->overlay == OVERLAY_WHY || at_end ? DERIVE_FIGURES : app_row(app)->shows;
}

/* The pass in hand as kept, and the one before it. */
static void derive_kept(struct app *app)
{
    const enum derive_depth depth = depth_shown(app);

    derive_pass_on(app_place(app), &app->past, app_prior(app), depth, &app->now);
    app->has_before = app->pass > 1;
    if (app->has_before)
        derive_pass_among(place_of(&app->record, app->visit, app->pass - 1), app_prior(app), depth,
                          &app->before);
    if (app_pass_is_empty(app))
        app->now.setup.nut_method = app_nut_method(app);
    add_alone(app, &app->now.setup.outfit);
}

/* Derives the results in the record with the entry in it. */
static void derive_with(struct app *app, const struct reading_key *key)
{
    if (leaves_past(app, key))
        derive_pass_on(app_place(app), &app->past, app_prior(app), depth_shown(app), &app->preview);
    else
        derive_pass_among(app_place(app), app_prior(app), depth_shown(app), &app->preview);
    add_alone(app, &app->preview.setup.outfit);
    make_plan(app, app_place(app));
}

/* Where the visit in hand made a change itself, that one is tried: here it comes to the same, also
 * when the entry would correct what was before. */
static struct reading_key trial_key(const struct app *app)
{
    const struct reading *made = change_made(app, &app_cell(app)->key);

    return made ? made->key : change_key(app, app_cell(app)->key);
}

/* The entry and what is filed with it are in the record only until they are derived from. */
static void try_entry(struct app *app, const char *text)
{
    const struct reading_key method_key = place_key(app_place(app), FIELD_NUT_METHOD);
    const struct reading_key key = trial_key(app);
    const bool with_method = files_method(app);
    struct record_trial entry, method;

    if (record_try(&app->record, &key, text, &entry) != STATUS_OK)
        return;
    app->previewing =
        !with_method || record_try(&app->record, &method_key, "held-3", &method) == STATUS_OK;
    if (app->previewing)
        derive_with(app, &key);
    if (app->previewing && with_method)
        record_end_try(&app->record, &method);
    record_end_try(&app->record, &entry);
}

static void derive_preview(struct app *app, const struct field *field)
{
    char memory[ENTRY_TEXT_MAX], typed[ENTRY_TEXT_MAX];
    struct strbuf spelled = STRBUF(memory);
    const struct day today = app_today_typed(app);

    app->previewing = false;
    if (entry_spell(typed_text(app, typed), field, &app->units, &today, &spelled) == STATUS_OK)
        try_entry(app, memory);
}

/* A string's note is shown as the tuning spells it: Fb2 is E2. */
static void name_note(struct app *app, const struct route_cell *cell)
{
    if (cell->key.field != FIELD_STRING_NOTE || !app->entry_view.good)
        return;
    struct strbuf words = STRBUF(app->entry_view.words);
    (void)note_name_beside(&app->record, cell->key.string, (int)app->entry_view.value,
                           pitch_accidental(app->entry.text) < 0, &words);
}

/* Refuses frets that the board does not have: 19 on a board of 18 is a slip, and 35 was 3 and 5;
 * and those before the string's own nut. */
static void limit_frets(struct app *app, const struct field *field)
{
    const struct board *board = &app->now.setup.board;
    const int string = app_string(app), start = board->start_fret[string];

    if (field->kind != KIND_FRETS || !app->entry_view.good || !app->now.setup.has_board)
        return;
    const uint64_t notes = (uint64_t)app->entry_view.value, before = (UINT64_C(1) << start) - 2;
    const bool beyond = notes >> board->frets > 1;
    if (!beyond && (start == 0 || !(notes & before)))
        return;
    struct strbuf words = STRBUF(app->entry_view.words);
    app->entry_view.good = false;
    if (beyond)
        strbuf_addf(&words, "this board ends at fret %d; type frets as 3 5 or 3+5", board->frets);
    else
        strbuf_addf(&words, "string %d starts at fret %d; its open note is 0", string, start);
}

static void look_at_entry(struct app *app, const struct field *field)
{
    const struct name_list list = name_list_of_field(field);
    const struct day today = app_today_typed(app);
    char typed[ENTRY_TEXT_MAX];

    entry_look(typed_text(app, typed), field, &app->units, &today, &app->entry_view);
    name_note(app, app_cell(app));
    limit_frets(app, field);
    choice_look(app->entry.text, &list, &app->choice);
    doubt_look(app);
    if (app->entry_view.good && app->doubt.kind == DOUBT_NONE && field->kind != KIND_TEXT)
        derive_preview(app, field);
}

/* Derives what depends on the entry: how it is read, and what would follow from it. */
void app_refresh_entry(struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    if (app->now.depth < depth_shown(app))
        derive_kept(app);
    app->previewing = false;
    app->entry_view = (struct entry_view){.empty = true};
    app->doubt = (struct doubt){.kind = DOUBT_NONE};
    app->doubt_words[0] = '\0';
    app->choice = (struct choice){.state = CHOICE_NONE};
    if (app_is_asked(app))
        app->asked->look(app);
    else if (cell)
        look_at_entry(app, field_get(cell->key.field));
    if (!app->previewing)
        make_plan(app, app_place(app));
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        move_words_make(app_shown(app), (enum move_kind)kind, &app->units, &app->moves[kind]);
}

/* Nothing is offered to a shop that has none yet, or writes them otherwise. */
static void find_ticket(struct app *app)
{
    const struct ticket own = ticket_last(&app->record);
    const struct ticket last = ticket_later(&app->shelf_ticket, &own);
    struct strbuf text = STRBUF(app->ticket_text);

    strbuf_clear(&text);
    ticket_add_next(&last, &text);
    app->ticket = (struct reading){.key = reading_key_visit(FIELD_VISIT_TICKET, app->visit),
                                   .text = app->ticket_text};
}

void app_take_ticket(struct app *app, const struct ticket *last)
{
    app->shelf_ticket = *last;
    find_ticket(app);
}

void app_refresh(struct app *app)
{
    app_lay(app);
    find_ticket(app);
    derive_past(app_place(app), &app->past);
    derive_kept(app);
    app_refresh_entry(app);
}

/* How many other necks of its kind are known. */
static int prior_necks(const struct app *app)
{
    const struct rod_prior *prior = app_prior(app);

    return prior ? prior->necks : 0;
}

void app_take_priors(struct app *app, const struct rod_priors *priors)
{
    const int before = prior_necks(app);

    app->priors = *priors;
    if (before > 0 || prior_necks(app) > 0)
        app_refresh(app);
}

void app_take_usuals(struct app *app, const struct usuals *usuals)
{
    app->usuals = *usuals;
}

void app_lay_on(const struct app *app, const struct leaf_row *leaf, struct pass_place pass,
                struct route *route)
{
    struct leaf_place place = {.record = &app->record,
                               .strings = record_string_count(&app->record),
                               .frets =
                                   (int)maybe_or(record_entered_one(&app->record, FIELD_FRETS), 0),
                               .visit = pass.visit,
                               .pass = pass.pass,
                               .named = app->named};

    outfit_read(&place.outfit, &app->record, pass.visit);
    if (pass_place_is_same(pass, app_pass_in_hand(app)))
        add_alone(app, &place.outfit);
    leaf_lay(leaf, &place, route);
}

void app_lay(struct app *app)
{
    app_lay_on(app, app_row(app), app_pass_in_hand(app), &app->route);
    if (app->at > route_last(&app->route))
        app->at = route_last(&app->route);
}

void app_drop_entry(struct app *app)
{
    lineedit_clear(&app->entry);
    app->writing = app->opened = app->proposed = false;
    app->held = HELD_NO;
}
