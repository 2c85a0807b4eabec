/* SPDX-License-Identifier: MIT */
#include "session/paste_split.h"

#include <string.h>

static bool is_hard(char c)
{
    return c == '\n' || c == '\t' || c == ';';
}

/* The bytes of the word that begins a text. */
static size_t word_length(const char *text)
{
    size_t length = strcspn(text, " \n\t;");

    /* A comma inside a number is a point; after it, a separator. */
    while (length > 1 && text[length - 1] == ',')
        length--;
    return length;
}

static const char *skip_soft(const char *text)
{
    return text + strspn(text, " ,");
}

static bool is_whole(const char *word, size_t length)
{
    return length > 0 && strspn(word, "0123456789") >= length;
}

static bool is_fraction(const char *word, size_t length)
{
    const size_t above = strspn(word, "0123456789");

    return above > 0 && above < length && word[above] == '/' &&
           is_whole(word + above + 1, length - above - 1);
}

static bool is_unit(const char *word, size_t length, const struct field *field)
{
    enum unit unit;

    return unit_from_suffix(field->quantity, word, length, &unit);
}

/* Whether the word after a blank belongs to the value before it. */
static bool goes_on(const char *word, size_t length, const char *next, const struct field *field)
{
    const size_t next_length = word_length(next);

    return field_is_number(field) && next_length > 0 &&
           ((is_whole(word, length) && is_fraction(next, next_length)) ||
            is_unit(next, next_length, field));
}

bool paste_next(struct paste_split *split, struct strbuf *out)
{
    const char *at = skip_soft(split->text);

    if (*at == '\0')
        return false;
    while (!is_hard(*at) && *at != '\0') {
        const size_t length = word_length(at);
        const char *next = skip_soft(at + length);

        strbuf_add_bytes(out, at, length);
        const bool on = next == at + length + 1 && goes_on(at, length, next, split->field);
        at = next;
        if (!on)
            break;
        strbuf_add_char(out, ' ');
    }
    split->text = is_hard(*at) ? at + 1 : at;
    return true;
}

int paste_count(const char *text, const struct field *field)
{
    struct paste_split split = {.text = text, .field = field};
    int count = 0;

    for (;; count++) {
        char memory[512];
        struct strbuf value = STRBUF(memory);

        if (!paste_next(&split, &value))
            return count;
    }
}
