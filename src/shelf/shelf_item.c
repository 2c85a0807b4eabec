/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_item.h"

#include <string.h>

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

static char lowered(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Bytes will do: a character of UTF-8 never begins inside another. */
static bool holds(const char *text, const char *word, size_t length)
{
    const char first = lowered(word[0]);

    for (; *text; text++) {
        size_t i = 0;

        if (lowered(*text) != first)
            continue;
        while (i < length && lowered(text[i]) == lowered(word[i]))
            i++;
        if (i == length)
            return true;
    }
    return false;
}

/* Fewer characters than a year has would match a year of almost every instrument. */
enum { ALSO_LENGTH_MIN = 4 };

static bool word_matches(const struct shelf_item *item, const char *word, size_t length)
{
    const struct card *card = &item->card;

    return holds(shelf_item_title(item), word, length) || holds(card->owner, word, length) ||
           holds(card->maker, word, length) || holds(card->serial, word, length) ||
           holds(card->kind, word, length) ||
           (length >= ALSO_LENGTH_MIN && holds(card->also, word, length));
}

bool shelf_item_matches(const struct shelf_item *item, const char *words)
{
    for (const char *at = words + strspn(words, " "); *at; at += strspn(at, " ")) {
        const size_t length = strcspn(at, " ");

        if (!word_matches(item, at, length))
            return false;
        at += length;
    }
    return true;
}
