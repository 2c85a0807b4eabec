/* SPDX-License-Identifier: MIT */
#include "store/ini_text.h"

#include <limits.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Leaves room for %5C, which replaces the backslash when the line goes to iniparser. */
enum { STRAY_LINE_MAX = INI_LINE_MAX - 2 };

/* Visits have keys of the same names again and again. The last one is remembered in the place that
 * its hash gives it. */
enum { NAMES_REMEMBERED = 128 };

struct parser {
    struct ini_text *text;
    char *free;                          /* the unused part of the arena */
    const char *names[NAMES_REMEMBERED]; /* in the arena; NULL: none */
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

/* A copy in the arena. */
static const char *keep(struct parser *parser, const char *bytes, size_t length)
{
    char *copy = memcpy(parser->free, bytes, length);

    parser->free += length;
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

/* A name in lower case, at the end of the arena; NULL if it is not usable. */
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

/* As keep_name, without another copy of a name that is remembered. */
static const char *keep_key_name(struct parser *parser, const char *bytes, size_t length)
{
    const char *name = keep_name(parser, bytes, length);
    unsigned hash = 0;

    if (!name)
        return NULL;
    for (size_t i = 0; i < length; i++)
        hash = hash * 31 + (unsigned char)name[i];
    const char **remembered = &parser->names[hash % NAMES_REMEMBERED];
    if (*remembered && strcmp(*remembered, name) == 0)
        parser->free -= length + 1;
    else
        *remembered = name;
    return *remembered;
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
    const size_t length = line->logical_length;
    size_t at = line->value_at;

    while (at < length && is_blank(text[at]))
        at++;
    line->value_at = (uint16_t)at;
    const char quote = at + 1 < length ? text[at] : '\0';
    if ((quote == '"' || quote == '\'') && text[at + 1] != quote) {
        const char *close = memchr(text + at + 1, quote, length - at - 1);

        line->rest_at = (uint16_t)(close ? (size_t)(close + 1 - text) : length);
        return;
    }
    size_t end = at;
    /* Most values are a few characters, for which a search takes longer to get ready. */
    while (end < length && text[end] != ';' && text[end] != '#')
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

/* Puts the line that continues a key line in place of the backslash at its end. What was joined so
 * far is the last thing in the arena, so it can grow in place. */
static void append(struct parser *parser, struct ini_line *line, const char *bytes, size_t length)
{
    if (line->logical == line->bytes)
        line->logical = keep(parser, line->bytes, line->logical_length);
    parser->free--;
    (void)keep(parser, bytes, length);
    line->logical_length = (uint16_t)(line->logical_length - 1 + length);
}

/* Joins key line i with those that continue it. */
static enum status join_lines(struct parser *parser, size_t i)
{
    struct ini_text *text = parser->text;
    struct ini_line *line = &text->lines[i];

    for (size_t next = i + 1; ends_in_backslash(line); next++) {
        const size_t length = line->logical_length;

        if (line->rest_at < length || next >= text->line_count ||
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
        append(parser, line, text->lines[next].bytes, to);
        text->lines[next].kind = INI_CONTINUATION;
        text->lines[next].section = line->section;
    }
    return STATUS_OK;
}

/* A line whose name ends at `name_to`, before its "=". */
static enum status take_key(struct parser *parser, size_t i, size_t from, size_t name_to, size_t to)
{
    struct ini_line *line = &parser->text->lines[i];

    line->kind = INI_KEY;
    line->value_at = (uint16_t)(name_to + 1);
    strip(line->bytes, &from, &name_to);
    line->name = keep_key_name(parser, line->bytes + from, name_to - from);
    line->logical = line->bytes;
    line->logical_length = (uint16_t)to;
    return join_lines(parser, i);
}

static enum status take_line(struct parser *parser, size_t i)
{
    struct ini_text *text = parser->text;
    struct ini_line *line = &text->lines[i];
    size_t from = 0, to = line->length;
    const char *equals;

    strip(line->bytes, &from, &to);
    line->section = (uint32_t)(text->section_count - 1);
    line->kind = INI_JUNK;
    if (from == to)
        line->kind = INI_BLANK;
    else if (line->bytes[from] == ';' || line->bytes[from] == '#')
        line->kind = INI_COMMENT;
    else if (line->bytes[from] == '[')
        take_section(parser, i, from, to);
    else if ((equals = memchr(line->bytes + from, '=', to - from)) && equals > line->bytes + from)
        return take_key(parser, i, from, (size_t)(equals - line->bytes), to);
    return STATUS_OK;
}

static enum status allocate(struct parser *parser)
{
    struct ini_text *text = parser->text;
    /* Each byte is copied at most twice, into a name with a NUL and into a joined line. */
    const size_t arena_size = 2 * text->bytes.length + text->line_count + 1;

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
    free(text->values);
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

size_t ini_line_number(const struct ini_text *text, const struct ini_line *line)
{
    return (size_t)(line - text->lines) + 1;
}

char ini_line_rest(const struct ini_line *line)
{
    size_t at = line->rest_at;

    while (at < line->logical_length && is_blank(line->logical[at]))
        at++;
    return at < line->logical_length ? line->logical[at] : '\0';
}

const char *ini_text_line_end(const struct ini_text *text)
{
    return text->line_count > 0 && text->lines[0].end_length == 2 ? "\r\n" : "\n";
}
