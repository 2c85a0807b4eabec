/* SPDX-License-Identifier: MIT */
#include "commands/visits_csv.h"

#include "commands/csv.h"
#include "model/derive/derive.h"
#include "model/derive/derive_climate.h"
#include "model/reading/record_access.h"
#include "model/reading/place.h"
#include "model/setup/uncertainty.h"

/* The table is long, not wide: passes hold different readings, and a spreadsheet can filter and
 * pivot a long table. A wide one would need a column for each string and fret. */

static const char *const headings[] = {
    "file",   "visit", "date",  "pass", "pass label",    "key",   "name",
    "string", "fret",  "value", "unit", "plus or minus", "known", "as typed",
};

struct table {
    struct csv csv;
    const char *file;            /* NULL: there is no such column */
    const struct record *record; /* as of the visit */
    struct past past;
    int visit, pass; /* pass 0 for the visit as a whole */
};

/* The cells before the value; string 0 for none, fret under 0 for none. */
static void begin_line(struct table *table, const char *key, const char *name, int string, int fret)
{
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, table->visit);
    const struct reading_key label = reading_key_pass(FIELD_PASS_LABEL, table->visit, table->pass);

    if (table->file)
        csv_text(&table->csv, table->file);
    csv_count(&table->csv, table->visit, 1);
    csv_text(&table->csv, record_text(table->record, &date));
    csv_count(&table->csv, table->pass, 1);
    csv_text(&table->csv, table->pass > 0 ? record_text(table->record, &label) : "");
    csv_text(&table->csv, key);
    csv_text(&table->csv, name);
    csv_count(&table->csv, string, 1);
    csv_count(&table->csv, fret, 0);
}

static void end_line(struct table *table, const char *known, const char *typed)
{
    csv_text(&table->csv, known);
    csv_text(&table->csv, typed);
    csv_end_record(&table->csv);
}

/* --- readings --- */

static const char *known_word(const struct reading *reading)
{
    return reading->value.state == READING_BAD    ? "refused"
           : reading->value.state == READING_GONE ? "absent"
                                                  : "entered";
}

/* A board that is flat has no radius: a 0 would be the sharpest of all. */
static bool has_value(const struct field *field, const struct reading *reading)
{
    if (reading->value.state == READING_BAD || reading->value.state == READING_GONE)
        return false;
    return field->kind == KIND_RADIUS ? reading->value.value > 0
                                      : field_is_number(field) || field->kind == KIND_COUNT;
}

static void put_value(struct table *table, const struct field *field, const struct reading *reading)
{
    const struct maybe step = record_step(table->record, field);

    if (!has_value(field, reading)) {
        for (int i = 0; i < 3; i++)
            csv_empty(&table->csv);
        return;
    }
    csv_number(&table->csv, reading->value.value);
    csv_text(&table->csv, unit_label(unit_pivot(field->quantity)));
    if (step.given)
        csv_number(&table->csv, 2 * uncertainty_of_step(step.value));
    else
        csv_empty(&table->csv);
}

/* Whether a field already has a column of its own. */
static bool is_column(enum field_id field)
{
    return field == FIELD_VISIT_DATE || field == FIELD_VISIT_PASSES || field == FIELD_PASS_LABEL;
}

static void put_reading(struct table *table, const struct reading *reading)
{
    const struct field *field = field_get(reading->key.field);
    const bool at_fret = field->per == PER_FRET || field->per == PER_STRING_FRET;
    char memory[64];
    struct strbuf key = STRBUF(memory);

    if (is_column(field->id))
        return;
    if (field->section == SECTION_WORK)
        strbuf_addf(&key, "work.%d.", reading->key.part);
    strbuf_add(&key, field->key);
    begin_line(table, memory, field->label, reading->key.string, at_fret ? reading->key.fret : -1);
    put_value(table, field, reading);
    end_line(table, known_word(reading), reading->text);
}

/* The readings of one section, from `first` on. */
static void put_readings(struct table *table, struct reading_key first)
{
    const struct record *record = table->record;
    const enum section section = field_get(first.field)->section;

    for (size_t i = record_lower_bound(record, &first); i < record->count; i++) {
        const struct reading *reading = &record->readings[i];

        if (field_get(reading->key.field)->section != section ||
            reading->key.visit != first.visit || reading->key.part != first.part)
            return;
        put_reading(table, reading);
    }
}

static void put_works(struct table *table)
{
    const int last = record_last_work(table->record, table->visit);

    for (int work = 1; work <= last; work++)
        put_readings(table, reading_key_pass(FIELD_WORK_KIND, table->visit, work));
}

/* What the visit changed, "string.gauge": the keys of a section alone could be those of a reading.
 */
static void put_changes(struct table *table)
{
    for (size_t i = 0; i < table->record->count; i++) {
        const struct reading *reading = &table->record->readings[i];
        const struct field *field = field_get(reading->key.field);
        char memory[64];
        struct strbuf key = STRBUF(memory);

        if (!section_is_of_instrument(field->section))
            return;
        if (reading->key.visit != table->visit)
            continue;
        strbuf_addf(&key, "%s.%s", reading_key_section_word(field->section), field->key);
        begin_line(table, memory, field->label, reading->key.string, -1);
        put_value(table, field, reading);
        end_line(table, known_word(reading), reading->text);
    }
}

/* The defaults that hold in the pass where nothing was entered. */
static void put_fallbacks(struct table *table)
{
    for (int id = 0; id < FIELD_COUNT_; id++) {
        const struct field *field = field_get((enum field_id)id);
        const struct reading_key key = reading_key_pass(field->id, table->visit, table->pass);

        if (field->section != SECTION_PASS || field->per != PER_ONE || !field->fallback[0] ||
            record_get(table->record, &key))
            continue;
        begin_line(table, field->key, field->label, 0, -1);
        for (int i = 0; i < 3; i++)
            csv_empty(&table->csv);
        end_line(table, "assumed", field->fallback);
    }
}

/* --- figures --- */

static void put_figure(struct table *table, const struct figures *figures, enum figure_id id,
                       int string)
{
    const struct figure_info *info = figure_info(id);
    const struct figure *figure = &figures->at[id][string];
    char memory[64];
    struct strbuf key = STRBUF(memory);

    if (figure->known == KNOWN_ABSENT)
        return;
    figure_key(id, false, &key);
    begin_line(table, memory, info->label, string, -1);
    csv_number(&table->csv, figure->value * info->factor);
    csv_text(&table->csv, info->unit);
    if (info->printed_u)
        csv_number(&table->csv, figure->u * info->factor);
    else
        csv_empty(&table->csv);
    end_line(table, figure->known == KNOWN_INTERPOLATED ? "assumed" : "derived", "");
}

/* Climate figures belong to a visit, all others to a pass. */
static void put_figures(struct table *table, const struct figures *figures, int strings)
{
    for (int id = 0; id < FIGURE_COUNT_; id++) {
        const struct figure_info *info = figure_info((enum figure_id)id);
        const bool by_string = info->per == PER_STRING;

        if ((info->section == FIGURE_SECTION_CLIMATE) != (table->pass == 0))
            continue;
        for (int s = by_string ? 1 : 0; s <= (by_string ? strings : 0); s++)
            put_figure(table, figures, (enum figure_id)id, s);
    }
}

static void put_note(struct table *table, const char *key, const char *name, int string, int fret,
                     double value, const char *unit, struct maybe u)
{
    begin_line(table, key, name, string, fret);
    csv_number(&table->csv, value);
    csv_text(&table->csv, unit);
    if (u.given)
        csv_number(&table->csv, u.value);
    else
        csv_empty(&table->csv);
    end_line(table, "derived", "");
}

static void put_notes(struct table *table, const struct derived *derived, int string)
{
    const struct fret_pitch *pitch = &derived->pitch[string];
    const struct fret_clearance *clearance = &derived->clearance[string];

    for (int n = 1; n <= derived->setup.board.frets; n++)
        if (pitch->cents[n].given)
            put_note(table, "pitch", "cents predicted", string, n, pitch->cents[n].value, "cents",
                     maybe_given(pitch->cents_u[n]));
    for (int n = 0; n < derived->setup.board.frets; n++)
        if (clearance->headroom_mm[n].given)
            put_note(table, "headroom", "pluck before it buzzes", string, n,
                     clearance->headroom_mm[n].value, "mm", maybe_absent());
}

/* --- visits and passes --- */

static void put_pass(struct table *table, struct place place, bool *ret_fault)
{
    struct derived derived;

    table->pass = place.pass;
    derive_pass_after(place, &table->past, &derived);
    derive_predicted_u(place, &derived);
    put_readings(table, place_key(place, FIELD_PASS_LABEL));
    put_fallbacks(table);
    put_figures(table, &derived.figures, derived.setup.board.strings);
    for (int s = 1; s <= derived.setup.board.strings; s++)
        put_notes(table, &derived, s);
    *ret_fault = *ret_fault || findings_have_fault(&derived.findings);
}

static void put_visit(struct table *table, int visit, bool *ret_fault)
{
    struct place place = place_of(table->record, visit, 0);
    struct figures climate = {0};

    table->visit = visit;
    table->pass = 0;
    derive_climate(table->record, visit, &climate);
    put_readings(table, reading_key_visit(FIELD_VISIT_DATE, visit));
    put_changes(table);
    put_figures(table, &climate, 0);
    put_works(table);
    while (place_next(&place) && place.visit == visit)
        put_pass(table, place, ret_fault);
}

void visits_csv_print_headings(bool with_file, FILE *out)
{
    struct csv csv = {.out = out};

    for (size_t i = with_file ? 0 : 1; i < sizeof headings / sizeof headings[0]; i++)
        csv_text(&csv, headings[i]);
    csv_end_record(&csv);
}

void visits_csv_print(const char *file, const struct record *record, FILE *out, bool *ret_fault)
{
    struct table table = {.csv = {.out = out}, .file = file, .past = past_of(record)};

    for (int visit = 0; record_next_visit(record, &visit);) {
        const struct record then = record_as_of(record, visit);

        table.record = &then;
        put_visit(&table, visit, ret_fault);
    }
}
