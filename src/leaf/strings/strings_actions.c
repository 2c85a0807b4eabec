/* SPDX-License-Identifier: MIT */
#include "leaf/strings/strings_actions.h"
#include "leaf/strings/leaf_strings.h"
#include "leaf/strings/retune.h"
#include "leaf/strings/strings_put.h"
#include "leaf/strings/take_gauges.h"
#include "session/refresh.h"

#include <math.h>
#include <string.h>

static int strings_of(const struct app *app)
{
    return app->now.setup.board.strings;
}

/* Whether the strings are in that tuning already, so that it is not a what-if. */
static bool is_tuned_so(const struct app *app)
{
    struct string_notes notes;

    if (!strings_state(app)->what_if.tuning ||
        tuning_read_notes(strings_state(app)->what_if.tuning->notes, &notes) != STATUS_OK)
        return false;
    for (int s = 1; s <= notes.strings; s++) {
        const struct maybe note = record_entered_string(&app->record, FIELD_STRING_NOTE, s);

        if (!note.given || note.value != notes.semitone[s])
            return false;
    }
    return true;
}

/* Whether these strings are on already, going by gauge and build. */
static bool is_strung_so(const struct app *app)
{
    enum { PARTS_OF_A_TH = 20 }; /* finer than any packet says */
    const struct string_set *set = &strings_state(app)->what_if.set;
    const double apart_mm = unit_to_pivot(UNIT_TH, 1.0 / PARTS_OF_A_TH);

    for (int s = 1; s <= set->strings; s++) {
        const struct string_build *build = &set->string[s - 1].build;
        const struct maybe gauge = record_entered_string(&app->record, FIELD_GAUGE, s);
        const struct maybe kind = record_entered_string(&app->record, FIELD_BUILD, s);

        if (!gauge.given || !kind.given || fabs(gauge.value - build->gauge_mm) > apart_mm ||
            (int)kind.value != (int)build->kind)
            return false;
    }
    return set->strings > 0;
}

bool strings_leave_what_is_on(struct app *app, bool tuning)
{
    if (tuning ? !is_tuned_so(app) : !is_strung_so(app))
        return false;
    if (tuning)
        what_if_set_tuning(&strings_state(app)->what_if, NULL);
    else
        strings_state(app)->what_if.set = (struct string_set){.strings = 0};
    return true;
}

static void step(struct turn *turn, int string, int by)
{
    if (!what_if_shift(&strings_state(turn->app)->what_if, string, by))
        turn_warn(turn, "No string goes further than two octaves.");
    app_refresh_entry(turn->app);
}

void strings_step_semitone(struct turn *turn, int by)
{
    if (app_cell(turn->app))
        step(turn, app_string(turn->app), by);
}

void strings_step_all(struct turn *turn, int by)
{
    step(turn, WHAT_IF_ALL, by);
}

void strings_drop_what_if(struct turn *turn)
{
    what_if_drop(&strings_state(turn->app)->what_if);
    app_refresh_entry(turn->app);
}

static enum status put_note(struct turn *turn, int string, const char *name)
{
    const struct maybe *semitone =
        &strings_state(turn->app)->what_if.answer.string[string].semitone;
    const struct maybe kept = record_entered_string(&turn->app->record, FIELD_STRING_NOTE, string);

    if (!semitone->given || (kept.given && kept.value == semitone->value))
        return STATUS_OK;
    return name[0] ? strings_put(turn, FIELD_STRING_NOTE, string, name) : STATUS_RANGE;
}

static enum status put_material(struct turn *turn, enum field_id field, int string,
                                enum string_material material)
{
    const struct string_material_facts *facts = string_material_facts(material);

    return strings_put(turn, field, string, facts ? facts->name : NULL);
}

static enum status put_mass(struct turn *turn, int string, double kg_per_m)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    if (!(kg_per_m > 0))
        return strings_put(turn, FIELD_MASS, string, NULL);
    num_format(kg_per_m * 1000, &text);
    strbuf_add(&text, " g/m");
    return strings_put(turn, FIELD_MASS, string, memory);
}

static enum status put_build(struct turn *turn, int string, enum string_build_kind kind)
{
    char choice[32];

    return field_choice(field_get(FIELD_BUILD), (int)kind, choice, sizeof choice)
               ? strings_put(turn, FIELD_BUILD, string, choice)
               : STATUS_DOMAIN;
}

static enum status put_string(struct turn *turn, int string, const struct string_of_set *of_set)
{
    const struct string_build *build = &of_set->build;
    enum status status = strings_put_diameter(turn, FIELD_GAUGE, string, build->gauge_mm);

    if (status == STATUS_OK)
        status = strings_put_diameter(turn, FIELD_CORE, string, build->core_mm);
    if (status == STATUS_OK)
        status = put_build(turn, string, build->kind);
    if (status == STATUS_OK)
        status = put_material(turn, FIELD_CORE_MATERIAL, string, build->core_material);
    if (status == STATUS_OK)
        status = put_material(turn, FIELD_WRAP_MATERIAL, string, build->wrap_material);
    if (status == STATUS_OK)
        status = put_mass(turn, string, of_set->mass_kg_per_m);
    /* Of core and stiffness a set says nothing. */
    if (status == STATUS_OK)
        status = strings_put(turn, FIELD_HEX, string, NULL);
    if (status == STATUS_OK)
        status = strings_put(turn, FIELD_STRING_MODULUS, string, NULL);
    return status == STATUS_OK ? strings_drop_own(turn, string) : status;
}

static enum status put_all(struct turn *turn)
{
    const struct what_if_state *what_if = &strings_state(turn->app)->what_if;
    char names[STRINGS_MAX + 1][16];
    enum status status = STATUS_OK;

    /* The names depend on all notes, so they are made before the first is put. */
    for (int s = strings_of(turn->app); s >= 1; s--) {
        struct strbuf name = STRBUF(names[s]);

        (void)survey_what_if_add_note(&turn->app->record, &what_if->answer, s, &name);
    }
    for (int s = strings_of(turn->app); s >= 1 && status == STATUS_OK; s--) {
        status = put_note(turn, s, names[s]);
        if (status == STATUS_OK && what_if->set.strings > 0)
            status = put_string(turn, s, &what_if->set.string[s - 1]);
        if (status == STATUS_OK)
            status = take_gauges_put(turn, s);
    }
    return status;
}

bool strings_put_what_if(struct turn *turn)
{
    struct app *app = turn->app;
    const size_t before = app->undo.done;
    struct undo_step step;

    app_drop_entry(app);
    app_refresh_entry(app);
    turn_open_step(turn);
    if (!what_if_is_on(&strings_state(app)->what_if) || put_all(turn) == STATUS_OK)
        return true;
    if (app->undo.done > before)
        (void)undo_back(&app->undo, &app->record, &step);
    app_refresh(app);
    turn_warn(turn, "It could not be taken over (a note is out of range, or memory is out).");
    return false;
}

/* Puts the notes and strings of the what-if into the record, in one step of undo. */
static void take_over(struct turn *turn)
{
    struct app *app = turn->app;

    retune_begin(app);
    if (!strings_put_what_if(turn))
        return;
    what_if_drop(&strings_state(app)->what_if);
    const bool retuned = retune_end(turn);
    turn_changed(turn);
    if (retuned)
        return;
    app_say(app, TONE_NOTE,
            record_last_read_pass(&app->record, app->visit) > 0
                ? "Taken over for all of this visit. If they go on only now: * 1, then * 0 0 2."
                : "Taken over; * 1 takes it back. Once they are on, * 0 0 2 says so.");
}

static bool answer(struct turn *turn, uint32_t key)
{
    turn->app->asked = NULL;
    if (key == SILLET_KEY_ENTER)
        take_over(turn);
    else
        app_say(turn->app, TONE_NOTE, "Nothing was filed; the what-if stays.");
    return true;
}

static const struct asked whether_gauges = {
    .take_key = answer, .enter = "files them", .escape = "leaves all"};

/* Other gauges are asked about, because what was weighed of the old strings goes with them. */
void strings_take_what_if(struct turn *turn)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (!what_if_is_on(&strings_state(app)->what_if) || !strings_state(app)->what_if.known) {
        turn_warn(turn, "There is no what-if to take over: * n names a tuning, * g a set.");
        return;
    }
    if (!turn_may_change(turn))
        return;
    app_drop_entry(app);
    app_refresh_entry(app);
    if (what_if_is_of_pulls(&strings_state(app)->what_if) && take_gauges_count(app) == 0) {
        turn_warn(turn, "No string would change: each stays in its gauge.");
        return;
    }
    if (take_gauges_count(app) == 0) {
        take_over(turn);
        return;
    }
    take_gauges_add_words(app, &words);
    app_say(app, TONE_NOTE, memory);
    app->asked = &whether_gauges;
}

bool strings_has_strings(const struct app *app)
{
    return strings_of(app) > 0;
}

bool strings_can_take_what_if(const struct app *app)
{
    const struct what_if_state *what_if = &strings_state(app)->what_if;

    return app_may_change(app) && what_if_is_on(what_if) && what_if->known;
}

bool strings_can_drop_what_if(const struct app *app)
{
    return what_if_is_on(&strings_state(app)->what_if);
}
