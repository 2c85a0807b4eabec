/* SPDX-License-Identifier: MIT */
#include "session/doubt_words.h"

#include <math.h>
#include <string.h>

#include "base/num.h"
#include "session/command.h"
#include "session/entry.h"
#include "model/strings/pitch.h"
#include "model/reading/said_amount.h"

static void add_amount(struct strbuf *out, const struct field *field, double value,
                       const struct shop_units *units)
{
    said_amount_add(out, value, field_bare_unit(field, units));
}

/* The prompt names the cell, but a number without a unit needs its label: "frets 2". */
static void add_reading(struct strbuf *out, const struct field *field, double value,
                        const struct shop_units *units)
{
    if (field->quantity == QUANTITY_PLAIN)
        strbuf_addf(out, "%s ", field->label);
    add_amount(out, field, value, units);
}

/* --- what was meant --- */

static bool reads_as(const char *typed, const struct field *field, double value,
                     const struct shop_units *units)
{
    struct entry_view view;

    entry_look(typed, field, units, NULL, &view);
    return view.good && fabs(view.value - value) <= 1e-6 * fabs(value);
}

/* Whether a gauge in the shop reads that finely: quarters of a 64th, halves of a thousandth. */
static bool is_marked(double amount, enum unit bare)
{
    const double parts = bare == UNIT_64THS ? 4 * amount : bare == UNIT_TH ? 2 * amount : 0;

    return fabs(parts - round(parts)) < 1e-6;
}

/* Appends what to type into the cell for an amount; false, nothing appended, if no gauge reads
 * it. */
static bool add_typed(struct strbuf *out, const struct field *field, double value,
                      const struct shop_units *units)
{
    enum { DECIMALS = 4 };
    const enum unit bare = field_bare_unit(field, units);
    char memory[48];
    struct strbuf typed = STRBUF(memory);

    said_number_add(&typed, unit_from_pivot(bare, value), DECIMALS, bare == UNIT_IN);
    if (!reads_as(memory, field, value, units) || !is_marked(unit_from_pivot(bare, value), bare))
        return false;
    strbuf_add(out, memory);
    return true;
}

/* "; or type .012 in": the unit was left out. */
static void add_with_unit(struct strbuf *out, double value, enum unit unit)
{
    strbuf_add(out, "; or type ");
    said_amount_add(out, value, unit);
}

static void add_likely(struct strbuf *out, const struct doubt *doubt, const struct field *field,
                       const struct shop_units *units)
{
    char memory[48];
    struct strbuf typed = STRBUF(memory);

    if (doubt->likely_unit != UNIT_NONE) {
        add_with_unit(out, doubt->likely, doubt->likely_unit);
    } else if (add_typed(&typed, field, doubt->likely, units)) {
        strbuf_add(out, "; ");
        add_amount(out, field, doubt->likely, units);
        strbuf_addf(out, " is typed %s", memory);
    }
}

static void add_meant(struct strbuf *out, const struct doubt *doubt, const struct field *field,
                      const struct shop_units *units)
{
    if (doubt->has_other)
        strbuf_add(out,
                   doubt->other == FIELD_ACTION ? "; action reads that" : "; a nut gap reads that");
    if (doubt->has_likely)
        add_likely(out, doubt, field, units);
}

/* "u as what was done? Space marks it done; * 1 is undo" */
static void add_letters_doubt(struct strbuf *out, const char *text)
{
    const enum command_id meant =
        text[1] ? COMMAND_NONE : command_find_in_menu((uint32_t)text[0], LEAF_WORK);

    strbuf_add(out, text);
    strbuf_add(out, " as what was done? Space marks it done");
    if (meant == COMMAND_NONE || meant == COMMAND_WORK_DONE)
        return;
    strbuf_add(out, "; ");
    command_place_name(command_get(meant)->place, out);
    strbuf_add(out, " is ");
    strbuf_add(out, command_get(meant)->title);
}

/* --- why --- */

static const char *too_fine(const struct field *field)
{
    if (field->id == FIELD_ROD_TURN)
        return " is finer than a hand turns";
    return field->step == STEP_FEELER ? " is finer than a leaf reads"
                                      : " is finer than a rule reads";
}

static void add_beside(struct strbuf *out, const char *words, const struct doubt *doubt,
                       const struct field *field, const struct shop_units *units)
{
    strbuf_add(out, words);
    add_amount(out, field, doubt->beside, units);
}

static void add_comparison(struct strbuf *out, const struct doubt *doubt, const struct field *field,
                           const struct shop_units *units)
{
    switch (doubt->kind) {
    case DOUBT_BOARD:
        add_beside(out, ", and everything was read with ", doubt, field, units);
        return;
    case DOUBT_BEYOND:
        add_beside(out, ", and the board ends at ", doubt, field, units);
        return;
    case DOUBT_AIR:
        add_beside(out,
                   field->id == FIELD_HOME_HUMIDITY_LOW ? " is damper than the dampest, "
                                                        : " is drier than the driest, ",
                   doubt, field, units);
        return;
    case DOUBT_CORE:
        add_beside(out, " is not thinner than the string, ", doubt, field, units);
        return;
    case DOUBT_GAUGE:
        add_beside(out, " is not thicker than the core, ", doubt, field, units);
        return;
    case DOUBT_PLAIN:
        strbuf_add(out, " is more than plain strings have");
        return;
    case DOUBT_BESIDE:
        add_beside(out, " beside ", doubt, field, units);
        if (doubt->string > 0)
            strbuf_addf(out, doubt->is_course ? " on course %d" : " on string %d", doubt->string);
        else
            strbuf_add(out, " at the other end");
        return;
    case DOUBT_BEFORE:
        strbuf_add(out, ", and ");
        said_computed_add(out, doubt->beside, field_bare_unit(field, units));
        strbuf_add(out, " is expected");
        return;
    default:
        return;
    }
}

/* As a tech says turns, in 16ths; other numbers with a point. */
static void add_turns(struct strbuf *out, double turns)
{
    const double parts = 16 * turns;

    if (fabs(parts - round(parts)) < 1e-6)
        num_format_fraction(turns, 16, out);
    else
        said_number_add(out, turns, 3, false);
}

/* A gap's digits typed one row too high make a number of turns as well. */
static void add_turns_doubt(struct strbuf *out, const struct doubt *doubt, double turns)
{
    add_turns(out, turns);
    strbuf_add(out, " turns at once? A quarter turn at most, then measure");
    if (doubt->has_other)
        add_meant(out, doubt, field_get(FIELD_ROD_TURN), NULL);
}

static void add_number_doubt(struct strbuf *out, const struct doubt *doubt,
                             const struct field *field, double value,
                             const struct shop_units *units)
{
    if (field->id == FIELD_ROD_TURN && doubt->kind != DOUBT_FINE) {
        add_turns_doubt(out, doubt, value);
        return;
    }
    add_reading(out, field, value, units);
    if (doubt->kind == DOUBT_LARGE)
        strbuf_add(out, " is more than usual");
    else if (doubt->kind == DOUBT_SMALL)
        strbuf_add(out, " is less than usual");
    else if (doubt->kind == DOUBT_FINE)
        strbuf_add(out, too_fine(field));
    else
        add_comparison(out, doubt, field, units);
    add_meant(out, doubt, field, units);
}

static void add_note_doubt(struct strbuf *out, const struct doubt *doubt, const char *note)
{
    char memory[8];
    struct strbuf beside = STRBUF(memory);

    (void)pitch_tidy(note, out);
    if (doubt->kind != DOUBT_OCTAVE)
        strbuf_add(out, doubt->kind == DOUBT_LARGE ? " is too high for a string"
                                                   : " is too low for a string");
    else if (pitch_spell((int)lround(doubt->beside), pitch_accidental(note) < 0, &beside) ==
             STATUS_OK)
        strbuf_addf(out, " is far from %s", memory);
}

/* A division that no rule has is most likely a slip for 64. */
static void add_parts_doubt(struct strbuf *out, const struct doubt *doubt, const char *text)
{
    const int above = (int)strcspn(text, "/");

    strbuf_addf(out, "no rule has %dths; did you mean ", doubt->parts);
    if (above <= 6)
        strbuf_addf(out, "%.*s/64?", above, text);
    else
        strbuf_add(out, "64ths?");
}

static void add_sign_doubt(struct strbuf *out, const struct doubt *doubt)
{
    const bool tightens = doubt->likely < 0;

    add_turns(out, -doubt->likely);
    strbuf_add(out, tightens ? " turn tightens, but slackening is due; did you mean "
                             : " turn slackens, but tightening is due; did you mean ");
    add_turns(out, doubt->likely);
    strbuf_add_char(out, '?');
}

void doubt_words_add(struct strbuf *out, const struct doubt *doubt, const struct reading_key *key,
                     const struct doubt_entry *entry, const struct shop_units *units)
{
    switch (doubt->kind) {
    case DOUBT_NONE:
    case DOUBT_NAME:
    case DOUBT_FILED:
        return;
    case DOUBT_LETTERS:
        add_letters_doubt(out, entry->text);
        return;
    case DOUBT_NO_WORD:
        strbuf_addf(out, "%.24s: is that what was done?", entry->text);
        return;
    case DOUBT_NOT_DUE:
        strbuf_addf(out, "%.24s: nothing is due here; was it done all the same?", entry->text);
        return;
    case DOUBT_UNREAD:
        strbuf_addf(out, "%.24s: how much is that? Say its unit, too", entry->text);
        return;
    case DOUBT_FUTURE:
        strbuf_addf(out, "%s is %s", entry->text,
                    field_get(key->field)->usual_max > 0 ? "over a year ahead" : "in the future");
        return;
    case DOUBT_LONG_AGO:
        strbuf_addf(out, "%s is long ago", entry->text);
        return;
    case DOUBT_ORDER:
        if (doubt->visit == key->visit)
            strbuf_addf(out, "%s is before the day of the visit", entry->text);
        else
            strbuf_addf(out, "%s is %s visit %d", entry->text,
                        doubt->visit < key->visit ? "before" : "after", doubt->visit);
        return;
    case DOUBT_SIGN:
        add_sign_doubt(out, doubt);
        return;
    case DOUBT_PARTS:
        add_parts_doubt(out, doubt, entry->text);
        return;
    default:
        break;
    }
    if (field_get(key->field)->kind == KIND_NOTE)
        add_note_doubt(out, doubt, entry->text);
    else
        add_number_doubt(out, doubt, field_get(key->field), entry->value.value, units);
}
