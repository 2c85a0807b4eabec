/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "base/num.h"
#include "base/utf8.h"
#include "model/reading/note_name.h"
#include "model/reading/tuning.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

/* Strings, tuning and tensions. */

static const char *text_of_string(const struct sheet_maker *maker, enum field_id field, int string)
{
    return sheet_text_of(maker, reading_key_string(field, string));
}

static bool is_described(const struct sheet_maker *maker, int string)
{
    return text_of_string(maker, FIELD_GAUGE, string) ||
           text_of_string(maker, FIELD_BUILD, string) ||
           figures_get(&maker->left.figures, FIGURE_TENSION, string).given;
}

/* A material's name as it is spoken: "nickel-plated steel". */
static void say_material(const char *name, struct strbuf *out)
{
    const char *last = strrchr(name, '-');

    if (last)
        strbuf_add_bytes(out, name, (size_t)(last - name));
    strbuf_addf(out, "%s%s", last ? " " : "", last ? last + 1 : name);
}

/* "round-wound, phosphor bronze". */
static void say_make(const struct sheet_maker *maker, int string, struct strbuf *out)
{
    static const enum field_id fields[] = {FIELD_BUILD, FIELD_CORE_MATERIAL, FIELD_WRAP_MATERIAL};
    int said = 0;

    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
        const char *text = text_of_string(maker, fields[i], string);

        if (!text)
            continue;
        strbuf_add(out, said++ > 0 ? ", " : "");
        if (fields[i] == FIELD_BUILD)
            strbuf_add(out, text);
        else
            say_material(text, out);
    }
}

static void add_string(struct sheet_maker *maker, int string, bool tensions)
{
    const struct maybe gauge = record_entered_string(maker->record, FIELD_GAUGE, string);
    const struct maybe tension = figures_get(&maker->left.figures, FIGURE_TENSION, string);
    char memory[400];
    struct strbuf text = STRBUF(memory);

    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    note_name_add_string(&text, maker->record, string);
    sheet_add_cell(maker->sheet, memory);
    strbuf_clear(&text);
    if (gauge.given)
        sheet_say_bare(&text, gauge.value, &maker->ask->units, MEASURE_GAUGE);
    sheet_add_cell(maker->sheet, memory);
    strbuf_clear(&text);
    if (tension.given)
        sheet_say_force(&text, tension.value, &maker->ask->units);
    if (tensions)
        sheet_add_cell(maker->sheet, memory);
}

static void add_total(struct sheet_maker *maker)
{
    const struct maybe total = figures_get(&maker->left.figures, FIGURE_TENSION_TOTAL, 0);
    char memory[48];
    struct strbuf text = STRBUF(memory);

    if (!total.given)
        return;
    sheet_say_force(&text, total.value, &maker->ask->units);
    sheet_begin_row(maker->sheet, SHEET_ROW_LAST);
    sheet_add_cell(maker->sheet, "all");
    sheet_add_cell(maker->sheet, NULL);
    sheet_add_cell(maker->sheet, memory);
}

static void add_head(struct sheet_maker *maker, bool tensions)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    sheet_begin_table(maker->sheet, tensions ? "lrr" : "lr");
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, "string");
    strbuf_add(&text, "gauge, ");
    sheet_say_units(&text, &maker->ask->units, MEASURE_GAUGE);
    sheet_add_cell(maker->sheet, memory);
    strbuf_clear(&text);
    strbuf_addf(&text, "tension, %s", sheet_force_units(&maker->ask->units));
    if (tensions)
        sheet_add_cell(maker->sheet, memory);
}

static void add_table(struct sheet_maker *maker)
{
    const int strings = maker->left.setup.board.strings;
    bool tensions = false, described = false;

    for (int s = 1; s <= strings; s++) {
        described = described || is_described(maker, s);
        tensions = tensions || figures_get(&maker->left.figures, FIGURE_TENSION, s).given;
    }
    if (!described)
        return;
    add_head(maker, tensions);
    for (int s = strings; s >= 1; s--)
        if (is_described(maker, s))
            add_string(maker, s, tensions);
    add_total(maker);
}

/* The notes of all strings; false if one is not known. */
static bool read_notes(const struct sheet_maker *maker, struct string_notes *ret_notes)
{
    ret_notes->strings = maker->left.setup.board.strings;
    for (int s = 1; s <= ret_notes->strings; s++) {
        const struct maybe note = record_entered_string(maker->record, FIELD_STRING_NOTE, s);

        if (!note.given)
            return false;
        ret_notes->semitone[s] = (int)note.value;
    }
    return ret_notes->strings > 0;
}

static void say_notes(const struct sheet_maker *maker, const struct string_notes *notes,
                      struct strbuf *out)
{
    for (int s = notes->strings; s >= 1; s--) {
        strbuf_add(out, s < notes->strings ? " " : "");
        (void)note_name_of(maker->record, s, out);
    }
}

static void say_pitch(double a4_hz, struct strbuf *out)
{
    strbuf_add(out, ", A4 at ");
    num_format(a4_hz, out);
    strbuf_add(out, " Hz");
}

bool sheet_say_tuning(const struct sheet_maker *maker, struct strbuf *out)
{
    struct string_notes notes = {.strings = 0};

    if (!read_notes(maker, &notes))
        return false;
    const struct tuning *tuning = tuning_of_notes(&notes);
    strbuf_add(out, "Tuned to ");
    say_notes(maker, &notes, out);
    say_pitch(record_or_fallback(maker->record, FIELD_A4), out);
    if (tuning)
        strbuf_addf(out, ": %s", tuning->said);
    return true;
}

bool sheet_say_tuning_short(const struct sheet_maker *maker, struct strbuf *out)
{
    const double a4_hz = record_or_fallback(maker->record, FIELD_A4), usual_hz = 440;
    struct string_notes notes = {.strings = 0};

    if (!read_notes(maker, &notes))
        return false;
    const struct tuning *tuning = tuning_of_notes(&notes);
    strbuf_add(out, "Tuned to ");
    if (tuning)
        strbuf_addf(out, "%s: ", tuning->said);
    say_notes(maker, &notes, out);
    if (a4_hz != usual_hz)
        say_pitch(a4_hz, out);
    return true;
}

bool sheet_say_gauge_range(const struct sheet_maker *maker, struct strbuf *out)
{
    double thin = (double)INFINITY, thick = 0;

    for (int s = 1; s <= maker->left.setup.board.strings; s++) {
        const struct maybe gauge = record_entered_string(maker->record, FIELD_GAUGE, s);

        if (!gauge.given)
            return false;
        thin = fmin(thin, gauge.value);
        thick = fmax(thick, gauge.value);
    }
    if (!(thick > 0))
        return false;
    sheet_say_range(out, thick, thin, &maker->ask->units, MEASURE_GAUGE);
    return true;
}

bool sheet_say_gauges(const struct sheet_maker *maker, struct strbuf *out)
{
    char memory[80];
    struct strbuf range = STRBUF(memory);

    if (!sheet_say_gauge_range(maker, &range))
        return false;
    strbuf_addf(out, "Strings %s", memory);
    return true;
}

/* Those from `string` down that are made like it, a bit for each. */
static uint64_t find_alike(const struct sheet_maker *maker, int string, const char *make)
{
    uint64_t alike = 0;

    for (int s = string; s >= 1; s--) {
        char memory[160];
        struct strbuf other = STRBUF(memory);

        say_make(maker, s, &other);
        alike |= strcmp(memory, make) == 0 ? UINT64_C(1) << s : 0;
    }
    return alike;
}

/* "Strings 6 to 3 round-wound, phosphor bronze; 2 and 1 plain." */
static void say_makes(const struct sheet_maker *maker, struct strbuf *out)
{
    uint64_t said = 0;

    for (int s = maker->left.setup.board.strings; s >= 1; s--) {
        char memory[160];
        struct strbuf make = STRBUF(memory);

        say_make(maker, s, &make);
        if (make.length == 0 || (said >> s & 1))
            continue;
        const uint64_t alike = find_alike(maker, s, memory);
        const bool first = said == 0;
        strbuf_add(out, first ? "" : ";");
        sheet_say_numbers(out, alike, true, first ? "String" : "", first ? "Strings" : "");
        strbuf_addf(out, " %s", memory);
        said |= alike;
    }
    strbuf_add(out, said ? "." : "");
}

static void add_words(struct sheet_maker *maker)
{
    char memory[1024], tuned[256];
    struct strbuf text = STRBUF(memory), tuning = STRBUF(tuned);

    say_makes(maker, &text);
    if (sheet_say_tuning(maker, &tuning))
        strbuf_addf(&text, "%s%s.", text.length > 0 ? " " : "", tuned);
    if (text.length > 0)
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH, memory);
}

void sheet_make_strings(struct sheet_maker *maker)
{
    const int strings = maker->left.setup.board.strings;
    bool any = false;

    for (int s = 1; s <= strings; s++)
        any = any || is_described(maker, s) || text_of_string(maker, FIELD_STRING_NOTE, s);
    if (!any)
        return;
    sheet_add_heading(maker->sheet, "Strings and tuning");
    add_table(maker);
    add_words(maker);
}
