/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_search.h"

#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"

/* Fewer characters than a year has would match a year of almost every instrument. */
enum { ALSO_LENGTH_MIN = 4, TICKET_LENGTH_MIN = 3 };

/* --- what an item is searched by --- */

/* Three texts, a NUL behind each: names, tuning and years, the ticket. */
enum { TEXT_MAX = 2048, TEXTS_MAX = 7 * TEXT_MAX };

struct searched {
    char memory[TEXTS_MAX];
    size_t length;
};

static void add_text(struct searched *searched, const char *text, char end)
{
    struct strbuf out = strbuf_over(searched->memory + searched->length, TEXT_MAX - 1);

    utf8_add_folded(&out, text);
    searched->length += out.length;
    searched->memory[searched->length++] = end;
}

static void make_searched(const struct shelf_item *item, struct searched *ret_searched)
{
    const struct shelf_facts *facts = item->facts ? item->facts : shelf_facts_blank();
    const struct card *card = &item->card;

    ret_searched->length = 0;
    add_text(ret_searched, shelf_item_title(item), '\n');
    add_text(ret_searched, card->owner, '\n');
    add_text(ret_searched, card->maker, '\n');
    add_text(ret_searched, card->serial, '\n');
    add_text(ret_searched, card->kind, '\0');
    add_text(ret_searched, shelf_facts_text(facts, FACT_ALSO), '\0');
    add_text(ret_searched, shelf_facts_text(facts, FACT_TICKET), '\0');
}

/* --- words --- */

void shelf_words_take(struct shelf_words *words, const char *typed)
{
    struct strbuf out = STRBUF(words->text);

    utf8_add_folded(&out, typed);
    words->length = out.length;
    for (size_t i = 0; i < words->length; i++)
        if (words->text[i] == ' ')
            words->text[i] = '\0';
}

/* A ticket's number is found by its beginning, or, where it is short, as a whole. */
static bool is_on_ticket(const char *ticket, const char *word, size_t length)
{
    return strncmp(ticket, word, length) == 0 &&
           (length >= TICKET_LENGTH_MIN || ticket[length] == '\0');
}

/* Bytes will do: a character of UTF-8 never begins inside another. */
static bool word_matches(const char *searched, const char *word, size_t length)
{
    if (strstr(searched, word))
        return true;
    const char *also = searched + strlen(searched) + 1;
    if (length >= ALSO_LENGTH_MIN && strstr(also, word))
        return true;
    return is_on_ticket(also + strlen(also) + 1, word, length);
}

static bool all_match(const struct shelf_words *words, const char *searched)
{
    for (size_t at = 0, length; at < words->length; at += length + 1) {
        length = strlen(words->text + at);
        if (length > 0 && !word_matches(searched, words->text + at, length))
            return false;
    }
    return true;
}

bool shelf_words_match(const struct shelf_words *words, const struct shelf_item *item)
{
    struct searched searched;

    if (words->length == 0)
        return true;
    make_searched(item, &searched);
    return all_match(words, searched.memory);
}

/* --- a list --- */

struct search_block {
    struct search_block *before;
    size_t used;
    char text[1 << 16];
};

static void drop_blocks(struct shelf_search *search)
{
    while (search->blocks) {
        struct search_block *before = search->blocks->before;

        free(search->blocks);
        search->blocks = before;
    }
}

void shelf_search_begin(struct shelf_search *search, size_t count)
{
    shelf_search_done(search);
    search->texts = calloc(count + 1, sizeof *search->texts);
    search->count = search->texts ? count : 0;
}

void shelf_search_done(struct shelf_search *search)
{
    drop_blocks(search);
    free(search->texts);
    *search = (struct shelf_search){.texts = NULL};
}

/* What was made of it stays in its block until the next list: few items change more than twice. */
void shelf_search_forget(struct shelf_search *search, size_t at)
{
    if (at < search->count)
        search->texts[at] = NULL;
}

/* NULL if out of memory. */
static char *find_room(struct shelf_search *search, size_t length)
{
    struct search_block *block = search->blocks;

    if (!block || sizeof block->text - block->used < length) {
        block = malloc(sizeof *block);
        if (!block)
            return NULL;
        block->before = search->blocks;
        block->used = 0;
        search->blocks = block;
    }
    block->used += length;
    return block->text + block->used - length;
}

/* In *made if there is no room to keep it. */
static const char *find_searched(struct shelf_search *search, size_t at,
                                 const struct shelf_item *item, struct searched *made)
{
    char *kept;

    if (at < search->count && search->texts[at])
        return search->texts[at];
    make_searched(item, made);
    if (at >= search->count || (kept = find_room(search, made->length)) == NULL)
        return made->memory;
    return search->texts[at] = memcpy(kept, made->memory, made->length);
}

void shelf_search_prepare(struct shelf_search *search, const struct shelf_item *items)
{
    struct searched made;

    for (size_t i = 0; i < search->count; i++)
        (void)find_searched(search, i, &items[i], &made);
}

bool shelf_search_finds(struct shelf_search *search, size_t at, const struct shelf_item *item,
                        const struct shelf_words *words)
{
    struct searched made;

    return words->length == 0 || all_match(words, find_searched(search, at, item, &made));
}
