/* SPDX-License-Identifier: MIT */
#include "app/entry.h"

#include <string.h>

#include "app/amount.h"
#include "model/pitch.h"

static bool is_number(const struct field *field)
{
    return field->kind == KIND_NUMBER || field->kind == KIND_RADIUS;
}

static void describe(const struct field *field, const struct field_value *value,
                     struct entry_view *view)
{
    struct strbuf words = STRBUF(view->words);

    if (field->quantity == QUANTITY_LENGTH) {
        amount_add_all(&words, value->value);
    } else {
        num_format(value->value, &words);
        strbuf_add_char(&words, ' ');
        strbuf_add(&words, unit_label(unit_pivot(field->quantity)));
    }
    if (view->unusual)
        strbuf_add(&words, ": unusual, look again");
}

/* The one choice that begins with a text, or is it; false where that is none, or several. */
static bool find_choice(const char *text, const struct field *field, char *choice, size_t size)
{
    char each[32];
    int found = 0;

    for (int k = 0; field_choice(field, k, each, sizeof each); k++) {
        if (strncmp(each, text, strlen(text)) != 0)
            continue;
        const bool whole = strlen(each) == strlen(text);
        if (found == 0 || whole)
            (void)field_choice(field, k, choice, size);
        if (whole)
            return true;
        found++;
    }
    return found == 1;
}

/* A choice may be typed as its number, from the pad in the order that the hint shows, or as the
 * beginning of its word. */
static void spell_choice(const char *text, const struct field *field, struct strbuf *out)
{
    char choice[32];
    int number;

    if (num_count(text, strlen(text), 99, &number) == STATUS_OK
            ? number > 0 && field_choice(field, number - 1, choice, sizeof choice)
            : find_choice(text, field, choice, sizeof choice))
        strbuf_add(out, choice);
    else
        strbuf_add(out, text);
}

static void spell_frets(const char *text, struct strbuf *out)
{
    for (; *text; text++)
        strbuf_add_char(out, *text == '+' ? ' ' : *text);
}

/* A typed text that is no number, as the field takes it. */
static void spell_word(const char *text, const struct field *field, struct strbuf *out)
{
    if (field->kind == KIND_CHOICE || field->kind == KIND_YESNO)
        spell_choice(text, field, out);
    else if (field->kind == KIND_FRETS)
        spell_frets(text, out);
    else
        strbuf_add(out, text);
}

/* Where a number may be below 0, a plus in front (sharp, high, tighter) says the other way. */
static const char *drop_plus(const char *text, const struct field *field)
{
    const bool is_signed = is_number(field) && field->possible_min < 0;

    return is_signed && text[0] == '+' && text[1] != '\0' ? text + 1 : text;
}

void entry_look(const char *text, const struct field *field, const struct shop_units *units,
                struct entry_view *ret_view)
{
    char memory[ENTRY_TEXT_MAX];
    struct strbuf word = STRBUF(memory), words = STRBUF(ret_view->words);
    struct field_value value;
    struct field_fault fault;

    *ret_view = (struct entry_view){.empty = text[0] == '\0'};
    if (ret_view->empty)
        return;
    text = drop_plus(text, field);
    if (!is_number(field)) {
        spell_word(text, field, &word);
        text = memory;
    }
    if (field_read(field, text, field_bare_unit(field, units), &value, &fault) != STATUS_OK) {
        strbuf_add(&words, fault.words);
        return;
    }
    ret_view->good = true;
    ret_view->unusual = value.state == READING_UNUSUAL;
    ret_view->value = value.value;
    if (is_number(field) && strcmp(text, "flat") != 0)
        describe(field, &value, ret_view);
    else if (field->kind != KIND_TEXT)
        strbuf_add(&words, text);
}

enum status entry_spell(const char *text, const struct field *field, const struct shop_units *units,
                        struct strbuf *out)
{
    if (!is_number(field) || strcmp(text, "flat") == 0) {
        spell_word(text, field, out);
        return out->truncated ? STATUS_TOO_LONG : STATUS_OK;
    }
    return num_spell(drop_plus(text, field), field->quantity, field_bare_unit(field, units), out);
}

void entry_show(const char *text, const struct field *field, const struct shop_units *units,
                struct strbuf *out)
{
    const enum unit bare = field_bare_unit(field, units);
    const size_t start = out->length;

    if (field->kind == KIND_NOTE && pitch_tidy(text, out) == STATUS_OK)
        return;
    if (!is_number(field) || num_shorten(text, field->quantity, bare, out) != STATUS_OK) {
        strbuf_add(out, text);
        return;
    }
    /* A row of leaves is headed in inches or mm: there a leaf of 22 stands as .022, and leaves laid
     * together, which a tech counts, name their unit. */
    const bool whole = !strpbrk(out->text + start, "./abcdefghijklmnopqrstuvwxyz");
    const bool leaves = bare == UNIT_TH || bare == UNIT_100THS;
    double value;

    if (!whole || !leaves)
        return;
    if (!strpbrk(out->text + start, "+-") &&
        num_decimal(out->text + start, strlen(out->text + start), &value) == STATUS_OK) {
        out->length = start;
        out->text[start] = '\0';
        amount_add(out, unit_to_pivot(bare, value), bare, false);
        return;
    }
    strbuf_add(out, bare == UNIT_TH ? " th" : "/100");
}
