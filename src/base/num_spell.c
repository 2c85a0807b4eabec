/* SPDX-License-Identifier: MIT */
#include "base/num_scan.h"

#include <string.h>

/* Room for a text of NUM_TEXT_MAX bytes with a unit after every term. */
enum { SPELLED_MAX = 8 * NUM_TEXT_MAX };

/* How a unit without a suffix of its own is written: a divisor and a suffix. */
struct spelling {
    const char *line;
    double divisor;
    enum unit suffix;
};

static struct spelling spelling_of(enum unit unit)
{
    if (unit == UNIT_64THS)
        return (struct spelling){"/64", 64.0, UNIT_IN};
    if (unit == UNIT_100THS)
        return (struct spelling){"/100", 100.0, UNIT_MM};
    return (struct spelling){"", 0.0, unit};
}

/* Appends a finished text whole, or fails with STATUS_TOO_LONG and leaves `out` untouched. */
static enum status deliver(const struct strbuf *text, struct strbuf *out)
{
    if (text->truncated || text->length > NUM_TEXT_MAX || out->truncated ||
        text->length >= out->size - out->length)
        return STATUS_TOO_LONG;
    strbuf_add_bytes(out, text->text, text->length);
    return STATUS_OK;
}

static void spell_term(const struct num_entry *entry, int index, struct strbuf *out)
{
    const struct num_term *term = &entry->terms[index];
    struct spelling spelling = spelling_of(term->unit);

    strbuf_add(out, spelling.line);
    if (index + 1 < entry->count &&
        spelling_of(entry->terms[index + 1].unit).suffix == spelling.suffix)
        return;
    if (spelling.suffix == UNIT_PLAIN)
        return;
    strbuf_add_char(out, ' ');
    strbuf_add(out, unit_label(spelling.suffix));
}

enum status num_spell(const char *text, enum quantity_kind quantity, enum unit bare,
                      struct strbuf *out)
{
    char memory[SPELLED_MAX];
    struct strbuf spelled = STRBUF(memory);
    struct num_entry entry;
    enum status status = num_read(text, quantity, bare, &entry, NULL);
    size_t at;

    if (status != STATUS_OK)
        return status;
    at = entry.start;
    for (int i = 0; i < entry.count; i++) {
        const struct num_term *term = &entry.terms[i];

        strbuf_add_bytes(&spelled, text + at, term->start - at);
        /* Only a mixed number can take a second slash: 1/2 of a 64th is 0 1/2/64 in. */
        if (term->unit == UNIT_64THS && term->form == AMOUNT_FRACTION)
            strbuf_add(&spelled, "0 ");
        strbuf_add_bytes(&spelled, text + term->start, term->suffix_end - term->start);
        at = term->suffix_end;
        if (term->suffix == UNIT_NONE)
            spell_term(&entry, i, &spelled);
    }
    return deliver(&spelled, out);
}

/* The entry without its suffixes, and without "/ divisor". */
static void strip_units(const char *text, const struct num_entry *entry, double divisor,
                        struct strbuf *out)
{
    size_t at = entry->start;

    for (int i = 0; i < entry->count; i++) {
        const struct num_term *term = &entry->terms[i];
        bool drop_line = term->divisor != 0.0 && term->divisor == divisor;

        strbuf_add_bytes(out, text + at, (drop_line ? term->line_at : term->amount_end) - at);
        at = term->suffix_end;
    }
}

/* Tries one shorter text: appends it and returns true if it reads as `value` in the cell. */
static bool deliver_shorter(const char *text, const struct num_entry *entry, double divisor,
                            enum quantity_kind quantity, enum unit bare, struct strbuf *out)
{
    char memory[NUM_TEXT_MAX + 1];
    struct strbuf shorter = STRBUF(memory);
    double value;

    strip_units(text, entry, divisor, &shorter);
    if (num_parse(memory, quantity, bare, &value, NULL) != STATUS_OK)
        return false;
    return value == num_entry_value(entry) && deliver(&shorter, out) == STATUS_OK;
}

enum status num_shorten(const char *text, enum quantity_kind quantity, enum unit bare,
                        struct strbuf *out)
{
    char memory[NUM_TEXT_MAX + 1];
    struct strbuf whole = STRBUF(memory);
    struct num_entry entry;
    enum status status = num_read(text, quantity, bare, &entry, NULL);
    double divisor = spelling_of(bare).divisor;

    if (status != STATUS_OK)
        return status;
    if (bare != UNIT_NONE) {
        if (divisor != 0.0 && deliver_shorter(text, &entry, divisor, quantity, bare, out))
            return STATUS_OK;
        if (deliver_shorter(text, &entry, 0.0, quantity, bare, out))
            return STATUS_OK;
    }
    strbuf_add_bytes(&whole, text + entry.start, entry.end - entry.start);
    return deliver(&whole, out);
}
