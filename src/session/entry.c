/* SPDX-License-Identifier: MIT */
#include "session/entry.h"

#include <math.h>
#include <string.h>

#include "words/amount.h"
#include "session/choice.h"
#include "model/strings/pitch.h"

/* In upper or lower case. */
static bool is_flat(const char *text, const struct field *field)
{
    static const char flat[] = "flat";
    size_t i = 0;

    while (flat[i] && (text[i] == flat[i] || text[i] == flat[i] - 'a' + 'A'))
        i++;
    return field->kind == KIND_RADIUS && !flat[i] && !text[i];
}

/* A number to five digits, more than any gauge reads, without zeros at the end. */
static void add_rounded(struct strbuf *out, double value)
{
    const double magnitude = fabs(value) > 1e-9 ? floor(log10(fabs(value))) : 0;
    const int decimals = magnitude >= 4 ? 0 : magnitude < -4 ? 8 : 4 - (int)magnitude;
    const size_t start = out->length;

    num_format_fixed(value, decimals, false, out);
    if (!strchr(out->text + start, '.'))
        return;
    while (out->text[out->length - 1] == '0')
        out->length--;
    out->length -= out->text[out->length - 1] == '.';
    out->text[out->length] = '\0';
}

static void add_temperature(struct strbuf *out, double celsius, enum unit unit)
{
    num_format_fixed(unit_from_pivot(unit, celsius), 1, false, out);
    strbuf_addf(out, " %s", unit_label(unit));
}

static void describe(const struct field *field, const struct field_value *value,
                     const struct shop_units *units, struct entry_view *view)
{
    struct strbuf words = STRBUF(view->words);
    const enum unit bare = field_bare_unit(field, units);

    if (field->quantity == QUANTITY_LENGTH) {
        amount_add_all(&words, value->value, bare);
    } else if (field->quantity == QUANTITY_TEMPERATURE) {
        add_temperature(&words, value->value, bare);
        strbuf_add(&words, " = ");
        add_temperature(&words, value->value, bare == UNIT_F ? UNIT_C : UNIT_F);
    } else {
        add_rounded(&words, value->value);
        strbuf_addf(&words, " %s", unit_label(unit_pivot(field->quantity)));
    }
}

/* Between frets one blank is kept, or the comma that was typed. */
static void spell_frets(const char *text, struct strbuf *out)
{
    static const char between[] = " +";

    for (text += strspn(text, between); *text; text++) {
        const size_t gap = strspn(text, between);

        if (text[gap] == '\0')
            return;
        strbuf_add_char(out, gap > 0 ? ' ' : *text);
        text += gap > 0 ? gap - 1 : 0;
    }
}

static enum day_way way_of(const struct field *field)
{
    return field->usual_max > 0 ? DAY_NEXT : DAY_LAST;
}

/* A date is kept with the year first; anything else stays as typed. */
static void spell_day(const char *text, const struct field *field, const struct day *today,
                      struct strbuf *out)
{
    struct day_fault fault;
    struct day day;

    if (day_read(text, today, way_of(field), &day, &fault) == STATUS_OK)
        day_add(&day, out);
    else
        strbuf_add(out, text);
}

/* A blank after a number is a slip of the thumb. */
static void spell_count(const char *text, struct strbuf *out)
{
    size_t length = strlen(text);

    while (length > 0 && text[length - 1] == ' ')
        length--;
    strbuf_add_bytes(out, text, length);
}

/* A text without the blanks around it. */
static void spell_text(const char *text, struct strbuf *out)
{
    spell_count(text + strspn(text, " "), out);
}

/* The text to keep for an entry that is not a number. */
static void spell_word(const char *text, const struct field *field, const struct day *today,
                       struct strbuf *out)
{
    const struct name_list list = name_list_of_field(field);

    if (name_list_exists(&list))
        choice_spell(text, &list, out);
    else if (field->kind == KIND_FRETS)
        spell_frets(text, out);
    else if (field->kind == KIND_DATE)
        spell_day(text, field, today, out);
    else if (field->kind == KIND_COUNT)
        spell_count(text, out);
    else
        spell_text(text, out);
}

void entry_add_pointed(const char *text, struct strbuf *out)
{
    for (; *text; text++)
        strbuf_add_char(out, *text == ',' ? '.' : *text);
}

/*
 * A typed number in the form that num_parse reads. A number pad has a point or a comma, and here
 * both are a point. If the field's numbers can be below 0, a plus in front (sharp, high, tighter)
 * is dropped. Entries of other fields stay as they are. Returns `memory`.
 */
static const char *numeral(const char *text, const struct field *field, char *memory)
{
    const bool is_signed = field_is_number(field) && field->possible_min < 0;
    struct strbuf out = strbuf_over(memory, ENTRY_TEXT_MAX);

    text += is_signed && text[0] == '+' && text[1] != '\0';
    if (field_is_number(field))
        entry_add_pointed(text, &out);
    else
        strbuf_add(&out, text);
    return memory;
}

/* --- how it was read --- */

void entry_look_at_name(const char *text, const struct name_list *list, struct entry_view *ret_view)
{
    struct strbuf words = STRBUF(ret_view->words);
    struct choice choice;

    *ret_view = (struct entry_view){.empty = text[0] == '\0'};
    if (ret_view->empty)
        return;
    choice_look(text, list, &choice);
    ret_view->good = choice_is_good(&choice, list);
    ret_view->doubtful = choice_is_doubtful(&choice, list);
    ret_view->value = name_list_is_closed(list) && ret_view->good ? choice.in_hand : 0;
    choice_add_words(&choice, list, text, &words);
}

static void look_at_day(const char *text, const struct field *field, const struct day *today,
                        struct entry_view *view)
{
    struct strbuf words = STRBUF(view->words);
    struct day_fault fault;
    struct day day;

    view->good = day_read(text, today, way_of(field), &day, &fault) == STATUS_OK;
    if (view->good)
        day_add_words(&day, &words);
    else
        strbuf_add(&words, fault.words);
}

/* How the field reads an entry. */
static void look_at_reading(const char *text, const struct field *field,
                            const struct shop_units *units, struct entry_view *view)
{
    char memory[ENTRY_TEXT_MAX], word_memory[ENTRY_TEXT_MAX];
    struct strbuf word = STRBUF(word_memory), words = STRBUF(view->words);
    struct field_value value;
    struct field_fault fault;

    text = is_flat(text, field) ? "flat" : numeral(text, field, memory);
    if (!field_is_number(field)) {
        spell_word(text, field, NULL, &word);
        text = word_memory;
    }
    if (text[0] == '\0') {
        strbuf_add(&words, "nothing is typed but blanks");
        return;
    }
    if (field_read(field, text, field_bare_unit(field, units), &value, &fault) != STATUS_OK) {
        strbuf_add(&words, fault.words);
        return;
    }
    view->good = true;
    view->value = value.value;
    if (field_is_number(field) && strcmp(text, "flat") != 0)
        describe(field, &value, units, view);
    else if (field->kind != KIND_TEXT)
        strbuf_add(&words, text);
}

void entry_look(const char *text, const struct field *field, const struct shop_units *units,
                const struct day *today, struct entry_view *ret_view)
{
    const struct name_list list = name_list_of_field(field);

    if (name_list_exists(&list)) {
        entry_look_at_name(text, &list, ret_view);
        return;
    }
    *ret_view = (struct entry_view){.empty = text[0] == '\0'};
    if (ret_view->empty)
        return;
    if (field->kind == KIND_DATE)
        look_at_day(text, field, today, ret_view);
    else
        look_at_reading(text, field, units, ret_view);
}

enum status entry_spell(const char *text, const struct field *field, const struct shop_units *units,
                        const struct day *today, struct strbuf *out)
{
    char memory[ENTRY_TEXT_MAX];

    if (!field_is_number(field) || is_flat(text, field)) {
        spell_word(field_is_number(field) ? "flat" : text, field, today, out);
        return out->truncated ? STATUS_TOO_LONG : STATUS_OK;
    }
    return num_spell(numeral(text, field, memory), field->quantity, field_bare_unit(field, units),
                     out);
}

/* Whether a text without a unit, read in the unit shown beside the row, gives the value. */
static bool reads_plainly(const char *text, enum unit bare, double value)
{
    double amount;

    if (num_parse(text, QUANTITY_PLAIN, UNIT_PLAIN, &amount, NULL) != STATUS_OK)
        return false;
    return fabs(unit_to_pivot(unit_printed(bare), amount) - value) <= 1e-9 * (1 + fabs(value));
}

/* Feeler leaves typed by number as the row's decimals: 13 as .013, 12.5 as .0125. In thousandths,
 * leaves laid together stay as they are, because a tech counts them. */
static bool add_leaf(const char *text, enum unit bare, double value, struct strbuf *out)
{
    const char *unsigned_text = text + (text[0] == '-');
    const char *point = strchr(text, '.');
    double count;

    if (bare == UNIT_100THS && text[strspn(text, "0123456789+- ")] == '\0') {
        num_format_fixed(value, 2, false, out);
        return true;
    }
    if (bare != UNIT_TH || num_decimal(unsigned_text, strlen(unsigned_text), &count) != STATUS_OK)
        return false;
    num_format_fixed(unit_from_pivot(UNIT_IN, value), 3 + (point ? (int)strlen(point + 1) : 0),
                     true, out);
    return true;
}

/* In mm a number is never without the zero before its point, however it was typed. */
static void add_plain(const char *number, enum unit bare, struct strbuf *out)
{
    const char *digits = number + (number[0] == '-');

    if (digits[0] == '.' && (bare == UNIT_MM || bare == UNIT_100THS)) {
        strbuf_add(out, digits > number ? "-0" : "0");
        number = digits;
    }
    strbuf_add(out, number);
}

/* A kept text names its unit, except for quantities that have only one unit in files. */
static void show_number(const char *kept, const struct field *field, enum unit bare,
                        struct strbuf *out)
{
    char whole_memory[NUM_TEXT_MAX + 1], shorter_memory[NUM_TEXT_MAX + 1];
    struct strbuf whole = STRBUF(whole_memory), shorter = STRBUF(shorter_memory);
    double value;

    if (num_parse(kept, field->quantity, field_file_unit(field), &value, NULL) != STATUS_OK ||
        num_spell(kept, field->quantity, field_file_unit(field), &whole) != STATUS_OK ||
        num_shorten(whole_memory, field->quantity, bare, &shorter) != STATUS_OK)
        strbuf_add(out, kept);
    else if (reads_plainly(shorter_memory, bare, value))
        add_plain(shorter_memory, bare, out);
    else if (!add_leaf(shorter_memory, bare, value, out))
        strbuf_add(out, whole_memory);
}

void entry_show(const char *text, const struct field *field, const struct shop_units *units,
                struct strbuf *out)
{
    if (field_is_number(field))
        show_number(text, field, field_bare_unit(field, units), out);
    else if (field->kind != KIND_NOTE || pitch_tidy(text, out) != STATUS_OK)
        strbuf_add(out, text);
}

void entry_show_whole(const char *text, const struct field *field, struct strbuf *out)
{
    /* A failed spelling leaves `out` alone. */
    if (!field_is_number(field) ||
        num_spell(text, field->quantity, field_file_unit(field), out) != STATUS_OK)
        strbuf_add(out, text);
}
