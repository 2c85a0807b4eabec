/* SPDX-License-Identifier: MIT */
#include "store/ini_text.h"

#include <limits.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Leaves room for %5C, which replaces the backslash when the line goes to iniparser. */
enum { STRAY_LINE_MAX = INI_LINE_MAX - 2 };

struct parser {
    struct ini_text *text;
    char *free; /* the unused part of the arena */
    struct ini_fault fault;
};

static inline bool is_blank(char c)
{
    return c == ' ' || (c >= '\t' && c <= '\r');
}

bool ini_is_blank(char c)
{
    return is_blank(c);
}

static enum status refuse(struct parser *parser, enum status status, size_t line, const char *words)
{
    parser->fault = (struct ini_fault){.line = line + 1, .words = words};
    return status;
}

/* Narrows [*from, *to) of `text` until neither end is a blank. */
static void strip(const char *text, size_t *from, size_t *to)
{
    while (*from < *to && is_blank(text[*from]))
        ++*from;
    while (*from < *to && is_blank(text[*to - 1]))
        --*to;
}

static enum status count_lines(struct parser *parser, size_t *ret_count)
{
    const struct bytes *bytes = &parser->text->bytes;

    *ret_count = 0;
    if (bytes->length == 0)
        return STATUS_OK;
    const char *at = bytes->data + parser->text->start, *const end = bytes->data + bytes->length;
    const char *zero = memchr(at, '\0', (size_t)(end - at));
    const char *const stop = zero ? zero : end;
    size_t count = 0;
    for (const char *newline; at < stop; at = newline + 1) {
        newline = memchr(at, '\n', (size_t)(stop - at));
        if (!newline)
            break;
        if (++count > INI_LINES_MAX)
            return refuse(parser, STATUS_TOO_LARGE, count - 1,
                          "more lines than a profile can have; 500000 are accepted");
    }
    if (zero)
        return refuse(parser, STATUS_BINARY, count, "a zero byte, which no text file holds");
    *ret_count = count + (at < end);
    return STATUS_OK;
}

static enum status split_lines(struct parser *parser)
{
    struct ini_text *text = parser->text;
    const struct bytes *bytes = &text->bytes;
    size_t at = text->start;

    for (size_t i = 0; i < text->line_count; i++) {
        const char *start = bytes->data + at;
        const char *newline = memchr(start, '\n', bytes->length - at);
        size_t length = newline ? (size_t)(newline - start) : bytes->length - at;

        at += length + (newline ? 1 : 0);
        text->lines[i].end_length = newline ? 1 : 0;
        if (newline && length > 0 && start[length - 1] == '\r') {
            length--;
            text->lines[i].end_length = 2;
        }
        if (length > INI_LINE_MAX)
            return refuse(parser, STATUS_TOO_LONG, i,
                          "a line of more than 1022 bytes; a long text goes on in key.1, key.2");
        text->lines[i].bytes = start;
        text->lines[i].length = (uint16_t)length;
    }
    return STATUS_OK;
}

/* A copy in the arena, NUL at its end. */
static char *keep(struct parser *parser, const char *bytes, size_t length)
{
    char *copy = parser->free;

    memcpy(copy, bytes, length);
    copy[length] = '\0';
    parser->free += length + 1;
    return copy;
}

/* By character of a name: its lower case; 0 if it is not usable. */
static const char lowered_usable[UCHAR_MAX + 1] = {
    ['a'] = 'a', ['b'] = 'b', ['c'] = 'c', ['d'] = 'd', ['e'] = 'e', ['f'] = 'f', ['g'] = 'g',
    ['h'] = 'h', ['i'] = 'i', ['j'] = 'j', ['k'] = 'k', ['l'] = 'l', ['m'] = 'm', ['n'] = 'n',
    ['o'] = 'o', ['p'] = 'p', ['q'] = 'q', ['r'] = 'r', ['s'] = 's', ['t'] = 't', ['u'] = 'u',
    ['v'] = 'v', ['w'] = 'w', ['x'] = 'x', ['y'] = 'y', ['z'] = 'z', ['A'] = 'a', ['B'] = 'b',
    ['C'] = 'c', ['D'] = 'd', ['E'] = 'e', ['F'] = 'f', ['G'] = 'g', ['H'] = 'h', ['I'] = 'i',
    ['J'] = 'j', ['K'] = 'k', ['L'] = 'l', ['M'] = 'm', ['N'] = 'n', ['O'] = 'o', ['P'] = 'p',
    ['Q'] = 'q', ['R'] = 'r', ['S'] = 's', ['T'] = 't', ['U'] = 'u', ['V'] = 'v', ['W'] = 'w',
    ['X'] = 'x', ['Y'] = 'y', ['Z'] = 'z', ['0'] = '0', ['1'] = '1', ['2'] = '2', ['3'] = '3',
    ['4'] = '4', ['5'] = '5', ['6'] = '6', ['7'] = '7', ['8'] = '8', ['9'] = '9', ['_'] = '_',
    ['.'] = '.', ['-'] = '-',
};

/* A name in lower case; NULL if it is not usable. */
static const char *keep_name(struct parser *parser, const char *bytes, size_t length)
{
    char *name = parser->free;

    if (length == 0 || length > INI_NAME_MAX)
        return NULL;
    for (size_t i = 0; i < length; i++) {
        name[i] = lowered_usable[(unsigned char)bytes[i]];
        if (name[i] == '\0')
            return NULL;
    }
    name[length] = '\0';
    parser->free += length + 1;
    return name;
}

/* True if [from, to) is blank or a comment. */
static bool only_comment(const char *text, size_t from, size_t to)
{
    strip(text, &from, &to);
    return from == to || text[from] == ';' || text[from] == '#';
}

/* A line that starts with '['. Even if it is junk, it ends the section before. */
static void take_section(struct parser *parser, size_t i, size_t from, size_t to)
{
    struct ini_text *text = parser->text;
    struct ini_line *line = &text->lines[i];
    const char *close = memchr(line->bytes + from, ']', to - from);

    line->kind = INI_JUNK;
    if (close) {
        size_t name_from = from + 1, name_to = (size_t)(close - line->bytes);

        if (only_comment(line->bytes, name_to + 1, to)) {
            line->kind = INI_SECTION;
            strip(line->bytes, &name_from, &name_to);
            line->name = keep_name(parser, line->bytes + name_from, name_to - name_from);
        }
    }
    text->sections[text->section_count] = (struct ini_section){.name = line->name, .line = i};
    line->section = (uint32_t)text->section_count++;
}

/*
 * Finds where the value starts and ends, as iniparser does. Quotes count only at its start and if
 * there is something between them; without them it ends before a ';' or '#'.
 */
static void find_value(struct ini_line *line)
{
    const char *text = line->logical;
    size_t at = line->value_at;

    while (is_blank(text[at]))
        at++;
    line->value_at = (uint16_t)at;
    const char quote = text[at];
    if ((quote == '"' || quote == '\'') && text[at + 1] != quote && text[at + 1] != '\0') {
        const char *close = strchr(text + at + 1, quote);

        line->rest_at = (uint16_t)(close ? (size_t)(close + 1 - text) : strlen(text));
        return;
    }
    size_t end = at;
    /* Most values are a few characters, for which strcspn takes longer to get ready. */
    while (text[end] != '\0' && text[end] != ';' && text[end] != '#')
        end++;
    while (end > at && is_blank(text[end - 1]))
        end--;
    line->rest_at = (uint16_t)end;
}

/* Whether a line can continue one that ended in a backslash. */
static bool can_continue(const struct ini_line *line)
{
    size_t from = 0, to = line->length;

    strip(line->bytes, &from, &to);
    return from < to && !strchr(";#[", line->bytes[from]) &&
           !memchr(line->bytes, '=', line->length);
}

/* True if the value ends in a backslash that is in no comment and no closed quotes. */
static bool ends_in_backslash(struct ini_line *line)
{
    find_value(line);
    return line->rest_at > line->value_at && line->logical[line->rest_at - 1] == '\\';
}

/*
 * Appends the lines that continue key line i. Its logical line is the last thing in the arena, so
 * it can grow in place.
 */
static enum status join_lines(struct parser *parser, size_t i)
{
    struct ini_text *text = parser->text;
    struct ini_line *line = &text->lines[i];

    while (ends_in_backslash(line)) {
        const size_t next = i + 1 + line->continuations;
        const size_t length = strlen(line->logical);
        char *end = parser->free - 2; /* the backslash, before the NUL */

        if (line->logical[line->rest_at] != '\0' || next >= text->line_count ||
            !can_continue(&text->lines[next])) {
            line->final_backslash = true;
            return length > STRAY_LINE_MAX ? refuse(parser, STATUS_TOO_LONG, i,
                                                    "the line is too long to end in a backslash")
                                           : STATUS_OK;
        }
        size_t from = 0, to = text->lines[next].length;
        strip(text->lines[next].bytes, &from, &to);
        if (length - 1 + to > INI_LINE_MAX)
            return refuse(parser, STATUS_TOO_LONG, next,
                          "lines joined by backslashes make more than 1022 bytes");
        memcpy(end, text->lines[next].bytes, to);
        end[to] = '\0';
        parser->free = end + to + 1;
        text->lines[next].kind = INI_CONTINUATION;
        text->lines[next].section = line->section;
        line->continuations++;
    }
    return STATUS_OK;
}

static enum status take_key(struct parser *parser, size_t i, size_t from, size_t to)
{
    struct ini_line *line = &parser->text->lines[i];
    const char *equals = memchr(line->bytes, '=', to);
    size_t name_to = (size_t)(equals - line->bytes);

    line->kind = INI_KEY;
    line->value_at = (uint16_t)(name_to + 1);
    strip(line->bytes, &from, &name_to);
    line->name = keep_name(parser, line->bytes + from, name_to - from);
    line->logical = keep(parser, line->bytes, to);
    return join_lines(parser, i);
}

static enum status take_line(struct parser *parser, size_t i)
{
    struct ini_text *text = parser->text;
    struct ini_line *line = &text->lines[i];
    size_t from = 0, to = line->length;

    strip(line->bytes, &from, &to);
    line->section = (uint32_t)(text->section_count - 1);
    line->kind = INI_JUNK;
    if (from == to)
        line->kind = INI_BLANK;
    else if (line->bytes[from] == ';' || line->bytes[from] == '#')
        line->kind = INI_COMMENT;
    else if (line->bytes[from] == '[')
        take_section(parser, i, from, to);
    else if (line->bytes[from] != '=' && memchr(line->bytes + from, '=', to - from))
        return take_key(parser, i, from, to);
    return STATUS_OK;
}

static enum status allocate(struct parser *parser)
{
    struct ini_text *text = parser->text;
    /* Each byte is copied at most twice, into a name and a logical line, each with a NUL. */
    const size_t arena_size = 2 * text->bytes.length + 2 * text->line_count + 1;

    text->lines = calloc(text->line_count + 1, sizeof text->lines[0]);
    text->sections = calloc(text->line_count + 1, sizeof text->sections[0]);
    text->arena = malloc(arena_size);
    text->section_count = 1;
    parser->free = text->arena;
    return text->lines && text->sections && text->arena ? STATUS_OK : STATUS_NO_MEMORY;
}

static enum status parse(struct parser *parser)
{
    struct ini_text *text = parser->text;
    enum status status = count_lines(parser, &text->line_count);

    if (status == STATUS_OK)
        status = allocate(parser);
    if (status == STATUS_OK)
        status = split_lines(parser);
    for (size_t i = 0; status == STATUS_OK && i < text->line_count; i++)
        if (text->lines[i].kind != INI_CONTINUATION)
            status = take_line(parser, i);
    return status;
}

enum status ini_text_parse(struct bytes *bytes, struct ini_text *ret_text,
                           struct ini_fault *ret_fault)
{
    struct ini_text text = {.bytes = *bytes};
    struct parser parser = {.text = &text};

    /* All of them: a second mark would become the first when the file is rewritten. */
    while (bytes->length - text.start >= 3 &&
           memcmp(bytes->data + text.start, "\xEF\xBB\xBF", 3) == 0)
        text.start += 3;
    const enum status status = parse(&parser);
    if (status == STATUS_OK) {
        bytes_init(bytes);
        *ret_text = text;
        return STATUS_OK;
    }
    if (ret_fault)
        *ret_fault = parser.fault;
    bytes_init(&text.bytes); /* still the caller's */
    ini_text_done(&text);
    return status;
}

void ini_text_done(struct ini_text *text)
{
    bytes_done(&text->bytes);
    free(text->lines);
    free(text->sections);
    free(text->arena);
    *text = (struct ini_text){0};
}

size_t ini_text_section(const struct ini_text *text, const char *name)
{
    size_t section = text->section_count - 1;

    while (section > 0 &&
           (!text->sections[section].name || strcmp(text->sections[section].name, name) != 0))
        section--;
    return section;
}

const char *ini_text_line_end(const struct ini_text *text)
{
    return text->line_count > 0 && text->lines[0].end_length == 2 ? "\r\n" : "\n";
}
