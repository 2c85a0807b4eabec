/* SPDX-License-Identifier: MIT */
#include "app/entry.h"

#include <string.h>

#include "app/amount.h"

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

void entry_look(const char *text, const struct field *field, const struct shop_units *units,
                struct entry_view *ret_view)
{
    struct field_value value;
    struct field_fault fault;

    *ret_view = (struct entry_view){.empty = text[0] == '\0'};
    if (ret_view->empty)
        return;
    if (field_read(field, text, field_bare_unit(field, units), &value, &fault) != STATUS_OK) {
        struct strbuf words = STRBUF(ret_view->words);

        strbuf_add(&words, fault.words);
        return;
    }
    ret_view->good = true;
    ret_view->unusual = value.state == READING_UNUSUAL;
    ret_view->value = value.value;
    describe(field, &value, ret_view);
}

enum status entry_spell(const char *text, const struct field *field,
                        const struct shop_units *units, struct strbuf *out)
{
    if (!is_number(field) || strcmp(text, "flat") == 0) {
        strbuf_add(out, text);
        return STATUS_OK;
    }
    return num_spell(text, field->quantity, field_bare_unit(field, units), out);
}

void entry_show(const char *text, const struct field *field, const struct shop_units *units,
                struct strbuf *out)
{
    const enum unit bare = field_bare_unit(field, units);
    const size_t start = out->length;

    if (!is_number(field) || num_shorten(text, field->quantity, bare, out) != STATUS_OK) {
        strbuf_add(out, text);
        return;
    }
    /* A row of leaves is headed in inches or mm, so whole leaves have to name their unit. */
    const bool whole = !strpbrk(out->text + start, "./abcdefghijklmnopqrstuvwxyz");
    if (whole && bare == UNIT_TH)
        strbuf_add(out, "th");
    if (whole && bare == UNIT_100THS)
        strbuf_add(out, "/100");
}
