/* SPDX-License-Identifier: MIT */
#include "commands/csv.h"

#include <stdint.h>
#include <string.h>

#include "base/ascii.h"
#include "base/num.h"
#include "base/utf8.h"

void csv_add_safe(const char *text, struct strbuf *out)
{
    size_t left = strlen(text);

    while (left > 0) {
        uint32_t rune;
        bool valid;
        const size_t plain = utf8_plain_length(text);

        if (plain > 0) {
            strbuf_add_bytes(out, text, plain);
            text += plain;
            left -= plain;
            continue;
        }
        const size_t size = utf8_decode(text, left, &rune, &valid);

        if (valid && !utf8_unsafe(rune))
            strbuf_add_bytes(out, text, size);
        else
            strbuf_add(out, "\xEF\xBF\xBD");
        text += size;
        left -= size;
    }
}

/* The field separators of spreadsheets in different countries. */
static const char separators[] = ",;|\t\r\n";

/* A plain number, signed or not, is harmless. */
static bool is_number(const char *text)
{
    static const char digits[] = "0123456789";
    const char *at = text + (*text == '-' || *text == '+');
    const size_t whole = strspn(at, digits);

    at += whole;
    const size_t part = *at == '.' ? strspn(at + 1, digits) : 0;
    at += *at == '.' ? 1 + part : 0;
    return whole + part > 0 && *at == '\0';
}

/* Characters that a spreadsheet may take for "=", "+", "-" or "@", with their wide and small
 * forms. */
static bool is_formula_sign(uint32_t rune)
{
    switch (rune) {
    case '=':
    case '+':
    case '-':
    case '@':
    case 0xFE62:
    case 0xFE63:
    case 0xFE66:
    case 0xFE6B:
    case 0xFF0B:
    case 0xFF0D:
    case 0xFF1D:
    case 0xFF20:
        return true;
    default:
        return false;
    }
}

/* A character that shows nothing, so that a spreadsheet may skip it. */
static bool is_blank(uint32_t rune)
{
    return rune == ' ' || rune == 0xA0 || rune == 0xAD || rune == 0x1680 || rune == 0x180E ||
           (rune >= 0x2000 && rune <= 0x200F) || rune == 0x2028 || rune == 0x2029 ||
           rune == 0x202F || (rune >= 0x205F && rune <= 0x2064) || rune == 0x3000 || rune == 0xFEFF;
}

/* The first visible character; 0 if there is none. */
static uint32_t first_shown(const char *at)
{
    size_t left = strlen(at);
    uint32_t rune = 0;

    while (left > 0) {
        const size_t size = utf8_decode(at, left, &rune, NULL);

        if (!is_blank(rune))
            return rune;
        at += size;
        left -= size;
    }
    return 0;
}

/* Whether some spreadsheet could take the text at `at`, the start of a field for one of the
 * separators, for a formula. */
static bool begins_formula(const char *text, const char *at)
{
    if (at > text && !strchr(separators, at[-1]))
        return false;
    if (at == text && *at != '\0' && strchr("\t\r", *at))
        return true;
    return is_formula_sign(first_shown(at));
}

void csv_add_text(const char *text, struct strbuf *out)
{
    const bool quoted = strpbrk(text, "\"") || strpbrk(text, separators);
    const bool number = is_number(text);

    if (quoted)
        strbuf_add_char(out, '"');
    for (const char *at = text; *at; at++) {
        if (!number && begins_formula(text, at))
            strbuf_add_char(out, '\'');
        if (*at == '"')
            strbuf_add_char(out, '"');
        strbuf_add_char(out, *at);
    }
    if (quoted)
        strbuf_add_char(out, '"');
}

static void put(struct csv *csv, const char *field)
{
    if (csv->begun)
        fputc(',', csv->out);
    fputs(field, csv->out);
    csv->begun = true;
}

static bool is_ascii_letter_or_digit(char c)
{
    return is_ascii_letter(c) || is_ascii_digit(c);
}

/* Whether a text needs nothing of all this: most fields are a word or a number. */
static bool is_plain(const char *text)
{
    const char *at = text;

    if (!is_ascii_letter_or_digit(*at))
        return false;
    while (is_ascii_letter_or_digit(*at) || *at == ' ' || *at == '_' || *at == '.' || *at == '-' ||
           *at == ':' || *at == '/')
        at++;
    return *at == '\0' && at - text <= CSV_TEXT_MAX;
}

void csv_text(struct csv *csv, const char *text)
{
    if (text && is_plain(text)) {
        put(csv, text);
        return;
    }
    char safe_memory[CSV_TEXT_MAX + 1], field_memory[2 * CSV_TEXT_MAX + 4];
    struct strbuf safe = STRBUF(safe_memory), field = STRBUF(field_memory);

    csv_add_safe(text ? text : "", &safe);
    csv_add_text(safe_memory, &field);
    put(csv, field_memory);
}

void csv_number(struct csv *csv, double value)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    num_format(value, &text);
    put(csv, memory);
}

void csv_count(struct csv *csv, int value, int least)
{
    char memory[16];
    struct strbuf text = STRBUF(memory);

    if (value >= least)
        strbuf_addf(&text, "%d", value);
    put(csv, memory);
}

void csv_empty(struct csv *csv)
{
    put(csv, "");
}

void csv_end_record(struct csv *csv)
{
    fputs("\r\n", csv->out);
    csv->begun = false;
}
