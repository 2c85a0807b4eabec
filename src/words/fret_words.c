/* SPDX-License-Identifier: MIT */
#include "words/fret_words.h"

#include <stddef.h>
#include <string.h>

#include "base/ascii.h"

/* The longer ones come first. */
static const struct {
    const char *word, *without;
} words[] = {
    {"crown of fret", "board at mark"},
    {"crowns", "board"},
    {"crown", "board"},
    {"frets", "marks"},
    {"fret", "mark"},
    {"Frets", "Marks"},
    {"Fret", "Mark"},
};

/* Appends what the word at `at` is without frets; returns the end of what that stands for, `at`
 * itself where it is another word. */
static const char *add_word(const char *at, struct strbuf *out)
{
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        const size_t length = strlen(words[i].word);

        if (strncmp(at, words[i].word, length) != 0 || is_ascii_letter(at[length]))
            continue;
        strbuf_add(out, words[i].without);
        return at + length;
    }
    return at;
}

static void add_without(const char *text, struct strbuf *out)
{
    const char *at = text;

    while (*at) {
        const bool begins = at == text || !is_ascii_letter(at[-1]);
        const char *end = begins ? add_word(at, out) : at;

        if (end == at)
            strbuf_add_char(out, *end++);
        at = end;
    }
}

void fret_words_add(const struct outfit *outfit, const char *text, struct strbuf *out)
{
    const char *other = strchr(text, '|');

    if (!outfit->fretless)
        strbuf_add_bytes(out, text, other ? (size_t)(other - text) : strlen(text));
    else if (other)
        strbuf_add(out, other + 1);
    else if (strstr(text, "zero"))
        strbuf_add(out, text); /* a zero fret is one */
    else
        add_without(text, out);
}
