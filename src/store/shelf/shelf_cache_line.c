/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_cache_line.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/strbuf.h"
#include "store/ini_escape.h"

enum {
    STAMP_FIELDS = 7,
    TEXT_FIELDS = 6,
    NUMBERS = STAMP_FIELDS + 2 + 2, /* status, flags, the rod's answer and its ± */
};

/* A number's digits are of six bits each: half as many as in tens, and read in a third of the time.
 */
enum { DIGIT_BITS = 6, DIGIT_FIRST = '0', NUMBER_LENGTH = (64 + DIGIT_BITS - 1) / DIGIT_BITS };

/* The rod's answer is kept in whole nanometres. */
#define NM_IN_MM 1e6

enum { FLAG_MOVES = 1, FLAG_NEWER = 2, FLAG_MEASURE = 4 };

/* --- writing --- */

void shelf_cache_add_text(struct bytes *out, const char *text)
{
    for (const char *from = text;;) {
        const char *at = from;

        while ((unsigned char)*at >= 0x20 && *at != '%' && *at != 0x7F)
            at++;
        bytes_add(out, from, (size_t)(at - from));
        if (*at == '\0')
            return;
        char escaped[4];
        snprintf(escaped, sizeof escaped, "%%%02X", (unsigned)(unsigned char)*at);
        bytes_add_text(out, escaped);
        from = at + 1;
    }
}

static void add_number(struct bytes *out, int64_t number)
{
    uint64_t left = number < 0 ? -(uint64_t)number : (uint64_t)number;
    char text[NUMBER_LENGTH + 1], *at = text + NUMBER_LENGTH;

    *at = '\0';
    do
        *--at = (char)(DIGIT_FIRST + left % (1U << DIGIT_BITS));
    while (left >>= DIGIT_BITS);
    bytes_add_text(out, number < 0 ? "\t-" : "\t");
    bytes_add_text(out, at);
}

/* A number that is absent is empty. */
static void add_facts(struct bytes *out, const struct shelf_facts *facts)
{
    for (int i = 0; i < FACT_NUMBERS_; i++)
        if (facts->number[i].given)
            add_number(out, llround(facts->number[i].value * FACT_PARTS));
        else
            bytes_add_text(out, "\t");
    for (int i = 0; i < FACT_TEXTS_; i++) {
        bytes_add_text(out, "\t");
        shelf_cache_add_text(out, shelf_facts_text(facts, (enum fact_text)i));
    }
}

void shelf_cache_add_entry(struct bytes *out, const struct shelf_entry *entry)
{
    const struct shelf_stamp *stamp = &entry->stamp;
    const struct card *card = &entry->card;
    const char *texts[TEXT_FIELDS] = {card->name,  card->kind,   card->owner,
                                      card->maker, card->serial, card->visit};

    shelf_cache_add_text(out, entry->file);
    add_number(out, (int64_t)stamp->device);
    add_number(out, (int64_t)stamp->inode);
    add_number(out, (int64_t)stamp->size);
    add_number(out, stamp->written_s);
    add_number(out, stamp->written_ns);
    add_number(out, stamp->touched_s);
    add_number(out, stamp->touched_ns);
    add_number(out, (int64_t)entry->status);
    add_number(out, (card->moves_open ? FLAG_MOVES : 0) | (card->to_measure ? FLAG_MEASURE : 0) |
                        (entry->newer ? FLAG_NEWER : 0));
    add_number(out, llround(card->rod.per_turn_mm * NM_IN_MM));
    add_number(out, llround(card->rod.per_turn_u_mm * NM_IN_MM));
    for (int i = 0; i < TEXT_FIELDS; i++) {
        bytes_add_text(out, "\t");
        shelf_cache_add_text(out, texts[i]);
    }
    add_facts(out, entry->facts);
    bytes_add_text(out, "\n");
}

/* --- reading --- */

/* Cuts the text at the next `end` and moves past it; NULL if there is none. */
static char *take_until(char **at, char end)
{
    char *text = *at, *found = strchr(text, end);

    if (!found)
        return NULL;
    *found = '\0';
    *at = found + 1;
    return text;
}

/* Takes the number that the next tab ends; false if none stands there. */
static bool take_number(char **at, int64_t *ret_number)
{
    char *text = *at;
    const bool negative = *text == '-';
    uint64_t number = 0;

    text += negative;
    const char *first = text;
    for (unsigned digit; (digit = (unsigned char)*text - DIGIT_FIRST) >> DIGIT_BITS == 0; text++) {
        if (number > INT64_MAX >> DIGIT_BITS)
            return false;
        number = number << DIGIT_BITS | digit;
    }
    if (text == first || *text != '\t')
        return false;
    *at = text + 1;
    *ret_number = negative ? -(int64_t)number : (int64_t)number;
    return true;
}

/* Not known unless a rod may answer so. */
static struct rod_neck rod_of(int64_t per_turn_nm, int64_t per_turn_u_nm)
{
    const struct rod_neck neck = {.per_turn_mm = (double)per_turn_nm / NM_IN_MM,
                                  .per_turn_u_mm = (double)per_turn_u_nm / NM_IN_MM};

    return rod_neck_is_known(&neck) ? neck : (struct rod_neck){0};
}

/* Takes the text that the next `end` ends, decoded; NULL if nothing ends it, or if a tab stands in
 * it. */
static char *take_text(struct shelf_cache_line *line, char end)
{
    char *text = take_until(&line->at, end);

    if (text && end != '\t' && strchr(text, '\t'))
        return NULL;
    if (text && line->escaped)
        (void)ini_unescape(text, NULL);
    return text;
}

static bool take_texts(struct shelf_cache_line *line, char **ret_texts, int count, char last_end)
{
    for (int i = 0; i < count; i++)
        if (!(ret_texts[i] = take_text(line, i + 1 < count ? '\t' : last_end)))
            return false;
    return true;
}

/* The room that *free begins is enough for all of a cache. */
static bool take_facts(struct shelf_cache_line *line, char **free,
                       const struct shelf_facts **ret_facts)
{
    enum { ALIGN = sizeof(double) };
    struct shelf_facts *facts = (struct shelf_facts *)(void *)*free;
    char *texts[FACT_TEXTS_];

    for (int i = 0; i < FACT_NUMBERS_; i++) {
        int64_t number;

        facts->number[i] = maybe_absent();
        if (*line->at == '\t') {
            line->at++;
            continue;
        }
        if (!take_number(&line->at, &number))
            return false;
        facts->number[i] = maybe_given((double)number / FACT_PARTS);
    }
    if (!take_texts(line, texts, FACT_TEXTS_, '\n'))
        return false;
    shelf_facts_put_texts(facts, texts);
    *free += (shelf_facts_size(facts) + ALIGN - 1) / ALIGN * ALIGN;
    *ret_facts = facts;
    return true;
}

static struct shelf_stamp stamp_of(const int64_t numbers[STAMP_FIELDS])
{
    return (struct shelf_stamp){.device = (uint64_t)numbers[0],
                                .inode = (uint64_t)numbers[1],
                                .size = (uint64_t)numbers[2],
                                .written_s = numbers[3],
                                .written_ns = numbers[4],
                                .touched_s = numbers[5],
                                .touched_ns = numbers[6]};
}

bool shelf_cache_take_entry(struct shelf_cache_line *line, char **free, struct shelf_entry *entry)
{
    char *file = take_text(line, '\t'), *texts[TEXT_FIELDS];
    int64_t numbers[NUMBERS];

    for (int i = 0; i < NUMBERS; i++)
        if (!file || !take_number(&line->at, &numbers[i]))
            return false;
    if (!take_texts(line, texts, TEXT_FIELDS, '\t') || !take_facts(line, free, &entry->facts))
        return false;
    entry->file = file;
    entry->card = (struct card){.name = texts[0],
                                .kind = texts[1],
                                .owner = texts[2],
                                .maker = texts[3],
                                .serial = texts[4],
                                .visit = texts[5],
                                .rod = rod_of(numbers[9], numbers[10]),
                                .moves_open = (numbers[8] & FLAG_MOVES) != 0,
                                .to_measure = (numbers[8] & FLAG_MEASURE) != 0};
    entry->stamp = stamp_of(numbers);
    entry->status = (enum status)numbers[7];
    entry->newer = (numbers[8] & FLAG_NEWER) != 0;
    entry->read = entry->glanced = entry->settled = true;
    return true;
}
