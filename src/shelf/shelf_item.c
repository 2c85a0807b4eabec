/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_item.h"

#include <string.h>

#include "base/ascii.h"
#include "base/utf8.h"

const char *shelf_item_title(const struct shelf_item *item)
{
    return item->card.name[strspn(item->card.name, " \t")] ? item->card.name : item->file;
}

static void add_mark(struct strbuf *out, const char *mark)
{
    if (out->length > 0)
        strbuf_add(out, ", ");
    strbuf_add(out, mark);
}

void shelf_item_marks(const struct shelf_item *item, bool in_short, struct strbuf *out)
{
    const bool open = item->card.moves_open;

    if (item->marks & SHELF_BROKEN)
        add_mark(out, item->trouble);
    if (item->marks & SHELF_IN_USE)
        add_mark(out, "in use");
    if (item->marks & SHELF_VERSIONS)
        add_mark(out, in_short ? "versions" : "two versions");
    if (item->marks & SHELF_NEWER)
        add_mark(out, "newer format");
    if (open)
        add_mark(out, in_short && out->length > 0 ? "moves" : "moves open");
    if (item->marks & SHELF_UNREAD)
        add_mark(out, "not read yet");
}

static bool begins(const char *text, const char *word, size_t length)
{
    size_t i = 0;

    while (i < length && ascii_lower(text[i]) == word[i])
        i++;
    return i == length;
}

/* Bytes will do: a character of UTF-8 never begins inside another. *ret_ascii says whether the text
 * was seen to be all ASCII, if the word is not in it. */
static bool holds_bytes(const char *text, const char *word, size_t length, bool *ret_ascii)
{
    const char first = word[0], capital = first >= 'a' && first <= 'z' ? (char)(first - 32) : first;
    unsigned all = 0;

    for (; *text; text++) {
        all |= (unsigned char)*text;
        if ((*text == first || *text == capital) && begins(text, word, length))
            return true;
    }
    *ret_ascii = all < 0x80;
    return false;
}

/* The word is folded already. Most texts are ASCII, and need not be. */
static bool holds(const char *text, const char *word, size_t length)
{
    enum { FOLDED_MAX = 2048 };
    char memory[FOLDED_MAX];
    bool ascii;

    if (holds_bytes(text, word, length, &ascii))
        return true;
    if (ascii)
        return false;
    struct strbuf folded = STRBUF(memory);
    utf8_add_folded(&folded, text);
    return holds_bytes(memory, word, length, &ascii);
}

/* Fewer characters than a year has would match a year of almost every instrument. */
enum { ALSO_LENGTH_MIN = 4, TICKET_LENGTH_MIN = 3 };

/* A ticket's number is found by its beginning, or, where it is short, as a whole. */
static bool is_on_ticket(const struct shelf_item *item, const char *word, size_t length)
{
    const char *ticket = item->facts ? shelf_facts_text(item->facts, FACT_TICKET) : "";

    return (length >= TICKET_LENGTH_MIN || ticket[strnlen(ticket, length)] == '\0') &&
           begins(ticket, word, length);
}

static bool word_matches(const struct shelf_item *item, const char *word, size_t length)
{
    const struct card *card = &item->card;

    return holds(shelf_item_title(item), word, length) || holds(card->owner, word, length) ||
           holds(card->maker, word, length) || holds(card->serial, word, length) ||
           holds(card->kind, word, length) || is_on_ticket(item, word, length) ||
           (length >= ALSO_LENGTH_MIN && holds(card->also, word, length));
}

/* Its loops take less time than a call of strspn. */
bool shelf_item_matches_folded(const struct shelf_item *item, const char *folded)
{
    for (const char *at = folded;;) {
        size_t length = 0;

        while (*at == ' ')
            at++;
        if (*at == '\0')
            return true;
        while (at[length] != '\0' && at[length] != ' ')
            length++;
        if (!word_matches(item, at, length))
            return false;
        at += length;
    }
}

bool shelf_item_matches(const struct shelf_item *item, const char *words)
{
    char memory[SHELF_WORDS_MAX];
    struct strbuf folded = STRBUF(memory);

    utf8_add_folded(&folded, words);
    return shelf_item_matches_folded(item, memory);
}
