/* SPDX-License-Identifier: MIT */
#include "store/shelf/shelf_cache.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "store/crc32.h"
#include "store/file_read.h"
#include "store/ini_escape.h"
#include "store/paths.h"
#include "store/safefile.h"

/*
 * The first line names the format and the program's version. Raise FORMAT if the same file gets a
 * different card. The second line is the folder; then come the entries, with tabs between their
 * fields; then the checksum. Control characters and % are written as %XX.
 */
enum {
    FORMAT = 8,
    STAMP_FIELDS = 7,
    TEXT_FIELDS = 7,
    NUMBERS = STAMP_FIELDS + 2 + 2, /* status, flags, the rod's answer and its ± */
    CACHE_BYTES_MAX = 256 * 1024 * 1024,
    HEX_DIGITS = 8,
};

/* The rod's answer is kept in whole nanometres. */
#define NM_IN_MM 1e6

enum { FLAG_MOVES = 1, FLAG_NEWER = 2 };

static const char head_format[] = "sillet shelf %d " SILLET_VERSION "\n";
static const char tail[] = "crc32 ";

enum { TAIL_LENGTH = sizeof tail - 1 + HEX_DIGITS + 1 };

enum status shelf_cache_path(const char *folder, char **ret_path)
{
    char name[40], *caches;
    const enum status status = paths_cache_folder(&caches);

    if (status != STATUS_OK)
        return status;
    snprintf(name, sizeof name, "shelf-%08lx", (unsigned long)crc32_of(folder, strlen(folder)));
    char *path = paths_join(caches, name);
    free(caches);
    if (!path)
        return STATUS_NO_MEMORY;
    *ret_path = path;
    return STATUS_OK;
}

/* These depend on the file alone; other failures depend on rights or memory. */
bool shelf_cache_wants(const struct shelf_entry *entry)
{
    if (!entry->read || !entry->settled)
        return false;
    switch (entry->status) {
    case STATUS_OK:
    case STATUS_SYNTAX:
    case STATUS_BINARY:
    case STATUS_TOO_LARGE:
    case STATUS_TOO_LONG:
        return true;
    default:
        return false;
    }
}

/* --- writing --- */

static void add_text(struct bytes *out, const char *text)
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
    char text[24];

    snprintf(text, sizeof text, "\t%lld", (long long)number);
    bytes_add_text(out, text);
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
        add_text(out, shelf_facts_text(facts, (enum fact_text)i));
    }
}

static void add_entry(struct bytes *out, const struct shelf_entry *entry)
{
    const struct shelf_stamp *stamp = &entry->stamp;
    const struct card *card = &entry->card;
    const char *texts[TEXT_FIELDS] = {card->name,   card->kind,  card->owner, card->maker,
                                      card->serial, card->visit, card->also};

    add_text(out, entry->file);
    add_number(out, (int64_t)stamp->device);
    add_number(out, (int64_t)stamp->inode);
    add_number(out, (int64_t)stamp->size);
    add_number(out, stamp->written_s);
    add_number(out, stamp->written_ns);
    add_number(out, stamp->touched_s);
    add_number(out, stamp->touched_ns);
    add_number(out, (int64_t)entry->status);
    add_number(out, (card->moves_open ? FLAG_MOVES : 0) | (entry->newer ? FLAG_NEWER : 0));
    add_number(out, llround(card->rod.per_turn_mm * NM_IN_MM));
    add_number(out, llround(card->rod.per_turn_u_mm * NM_IN_MM));
    for (int i = 0; i < TEXT_FIELDS; i++) {
        bytes_add_text(out, "\t");
        add_text(out, texts[i]);
    }
    add_facts(out, entry->facts);
    bytes_add_text(out, "\n");
}

static void add_head(struct bytes *out, const char *folder)
{
    char memory[64];

    snprintf(memory, sizeof memory, head_format, FORMAT);
    bytes_add_text(out, memory);
    add_text(out, folder);
    bytes_add_text(out, "\n");
}

static void add_tail(struct bytes *out)
{
    char memory[TAIL_LENGTH + 1];

    snprintf(memory, sizeof memory, "%s%08lx\n", tail,
             (unsigned long)crc32_of(out->data, out->length));
    bytes_add_text(out, memory);
}

static enum status write_bytes(const char *path, const struct bytes *bytes)
{
    const enum status status = paths_make_folder_above(path);

    if (status != STATUS_OK)
        return status;
    safefile_sweep_beside(path);
    return safefile_put(path, SAFEFILE_OWN, NULL, bytes->data, bytes->length, NULL);
}

enum status shelf_cache_write(const char *path, const char *folder,
                              const struct shelf_entries *entries)
{
    struct bytes bytes;

    bytes_init(&bytes);
    add_head(&bytes, folder);
    for (size_t i = 0; i < entries->count; i++)
        if (shelf_cache_wants(&entries->items[i]))
            add_entry(&bytes, &entries->items[i]);
    enum status status = bytes_status(&bytes);
    if (status == STATUS_OK) {
        add_tail(&bytes);
        status = bytes_status(&bytes);
    }
    if (status == STATUS_OK)
        status = write_bytes(path, &bytes);
    bytes_done(&bytes);
    return status;
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
    const uint64_t most = INT64_MAX;
    char *text = *at;
    const bool negative = *text == '-';
    uint64_t number = 0;

    text += negative;
    const char *first = text;
    for (unsigned digit; (digit = (unsigned)(unsigned char)*text - '0') <= 9; text++) {
        if (number > most / 10 || (number == most / 10 && digit > most % 10))
            return false;
        number = number * 10 + digit;
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

/* A line on its way into an entry. */
struct line {
    char *at;
    bool escaped; /* it holds a % */
};

/* Takes the text that the next `end` ends, decoded; NULL if nothing ends it, or if a tab stands in
 * it. */
static char *take_text(struct line *line, char end)
{
    char *text = take_until(&line->at, end);

    if (text && end != '\t' && strchr(text, '\t'))
        return NULL;
    if (text && line->escaped)
        (void)ini_unescape(text, NULL);
    return text;
}

static bool take_texts(struct line *line, char **ret_texts, int count, char last_end)
{
    for (int i = 0; i < count; i++)
        if (!(ret_texts[i] = take_text(line, i + 1 < count ? '\t' : last_end)))
            return false;
    return true;
}

/* Facts take what they need of the room that *free begins, which is enough for all of a cache. */
static bool take_facts(struct line *line, char **free, const struct shelf_facts **ret_facts)
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

/* The entry's texts stay where they are in the line. */
static bool read_entry(struct line *line, char **free, struct shelf_entry *entry)
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
                                .moves_open = (numbers[8] & FLAG_MOVES) != 0};
    struct strbuf also = STRBUF(entry->card.also);
    strbuf_add(&also, texts[6]);
    entry->stamp = stamp_of(numbers);
    entry->status = (enum status)numbers[7];
    entry->newer = (numbers[8] & FLAG_NEWER) != 0;
    entry->read = entry->glanced = entry->settled = true;
    return true;
}

static bool has_good_tail(const struct bytes *bytes)
{
    char memory[TAIL_LENGTH + 1];

    if (bytes->length < TAIL_LENGTH || memchr(bytes->data, '\0', bytes->length))
        return false;
    const size_t length = bytes->length - TAIL_LENGTH;
    snprintf(memory, sizeof memory, "%s%08lx\n", tail,
             (unsigned long)crc32_of(bytes->data, length));
    return memcmp(bytes->data + length, memory, TAIL_LENGTH) == 0;
}

/* The first two lines must be what this version would write for this folder. */
static bool has_good_head(const struct bytes *bytes, const char *folder, size_t *ret_length)
{
    struct bytes head;

    bytes_init(&head);
    add_head(&head, folder);
    const bool good = bytes_status(&head) == STATUS_OK &&
                      bytes->length >= head.length + TAIL_LENGTH &&
                      memcmp(bytes->data, head.data, head.length) == 0;
    *ret_length = head.length;
    bytes_done(&head);
    return good;
}

static size_t count_lines(const char *text)
{
    size_t count = 0;

    while ((text = strchr(text, '\n')) != NULL) {
        text++;
        count++;
    }
    return count;
}

/* Room for the entries, and for their facts: all numbers, and their texts, which are in the cache.
 */
static bool make_room(const char *text, size_t length, struct shelf_entries *entries)
{
    const size_t count = count_lines(text);

    entries->items = calloc(count + 1, sizeof *entries->items);
    entries->capacity = count + 1;
    entries->facts = malloc(
        count * (sizeof(struct shelf_facts) - FACT_TEXT_BYTES + FACT_TEXTS_ + sizeof(double)) +
        length + sizeof(struct shelf_facts));
    return entries->items && entries->facts;
}

/* Refuses entries out of order or twice, because they are found by binary search. */
static bool read_entries(char *at, struct shelf_entries *entries)
{
    char *free = entries->facts;

    while (*at) {
        char *end = strchr(at, '\n');
        struct shelf_entry *entry = end ? shelf_entries_add(entries) : NULL;
        struct line line = {.at = at, .escaped = end && memchr(at, '%', (size_t)(end - at))};

        if (!entry || !read_entry(&line, &free, entry) || line.at != end + 1 ||
            !shelf_cache_wants(entry))
            return false;
        if (entries->count > 1 && strcmp(entry[-1].file, entry->file) >= 0)
            return false;
        at = line.at;
    }
    return true;
}

/* Takes the bytes over on success. */
static enum status parse(struct bytes *bytes, const char *folder, struct shelf_entries *ret_entries)
{
    struct shelf_entries entries = {.items = NULL};
    size_t head;

    if (!has_good_tail(bytes) || !has_good_head(bytes, folder, &head))
        return STATUS_DAMAGED;
    bytes->data[bytes->length - TAIL_LENGTH] = '\0';
    const bool room = make_room(bytes->data + head, bytes->length, &entries);
    if (!room || !read_entries(bytes->data + head, &entries)) {
        shelf_entries_done(&entries);
        return room ? STATUS_DAMAGED : STATUS_NO_MEMORY;
    }
    entries.texts = bytes->data;
    bytes_init(bytes);
    *ret_entries = entries;
    return STATUS_OK;
}

enum status shelf_cache_read(const char *path, const char *folder,
                             struct shelf_entries *ret_entries)
{
    struct bytes bytes;
    enum status status = file_read_own(path, CACHE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status;
    status = parse(&bytes, folder, ret_entries);
    bytes_done(&bytes);
    return status;
}
