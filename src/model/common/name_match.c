/* SPDX-License-Identifier: MIT */
#include "model/common/name_match.h"

#include <stdint.h>
#include <string.h>

#include "base/ascii.h"
#include "base/least.h"

enum {
    WORD_MIN = 4, /* a shorter word is in too many names to mean one */
    WORDS_MAX = 64,
};

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '-' || c == '_' || c == '/' || c == ',';
}

void name_fold(const char *text, char folded[NAME_FOLDED_SIZE])
{
    size_t length = 0;

    for (; *text; text++) {
        const char c = ascii_lower(*text);

        if (length == NAME_FOLDED_SIZE - 1)
            break;
        if (!is_blank(c))
            folded[length++] = c;
        else if (length > 0 && folded[length - 1] != ' ')
            folded[length++] = ' ';
    }
    if (length > 0 && folded[length - 1] == ' ')
        length--;
    folded[length] = '\0';
}

static const char *next_word(const char *text)
{
    text += strcspn(text, " ");
    return *text ? text + 1 : text;
}

/* The place of the first word not yet taken that begins with these letters, or is them; -1. */
static int find_word(const char *name, const char *letters, size_t length, bool whole,
                     uint64_t taken)
{
    for (int at = 0; *name && at < WORDS_MAX; name = next_word(name), at++)
        if (!(taken >> at & 1) && strncmp(name, letters, length) == 0 &&
            (!whole || strcspn(name, " ") == length))
            return at;
    return -1;
}

/* Each word of the text a word of its own: "drop d" is no drop C. */
static bool begins_all(const char *text, const char *name)
{
    uint64_t taken = 0;

    for (; *text; text = next_word(text)) {
        const size_t length = strcspn(text, " ");
        int at = find_word(name, text, length, true, taken);

        if (at < 0)
            at = find_word(name, text, length, false, taken);
        if (at < 0)
            return false;
        taken |= UINT64_C(1) << at;
    }
    return true;
}

static bool shares_word(const char *text, const char *name)
{
    for (; *text; text = next_word(text)) {
        const size_t length = strcspn(text, " ");

        if (length >= WORD_MIN && find_word(name, text, length, true, 0) >= 0)
            return true;
    }
    return false;
}

/* Letters to change, drop, add or swap with their neighbour, to make one text the other. */
static int distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    int rows[3][NAME_FOLDED_SIZE + 1];

    for (size_t j = 0; j <= b_length; j++)
        rows[0][j] = (int)j;
    for (size_t i = 1; i <= a_length; i++) {
        int *row = rows[i % 3], *above = rows[(i + 2) % 3], *over = rows[(i + 1) % 3];

        row[0] = (int)i;
        for (size_t j = 1; j <= b_length; j++) {
            row[j] = above[j - 1] + (a[i - 1] != b[j - 1]);
            row[j] = least_of(row[j], least_of(above[j], row[j - 1]) + 1);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = least_of(row[j], over[j - 2] + 1);
        }
    }
    return rows[a_length % 3][b_length];
}

/* From the whole name, and from each word of it. */
static int least_distance(const char *text, const char *name)
{
    const size_t length = strlen(text);
    int found = distance(text, length, name, strlen(name));

    for (; *name; name = next_word(name))
        found = least_of(found, distance(text, length, name, strcspn(name, " ")));
    return found;
}

/* "flatwound" begins "flat wound". */
static bool begins_joined(const char *text, const char *name)
{
    for (; *text; text++, name++) {
        name += *name == ' ';
        text += *text == ' ';
        if (*text != *name)
            return false;
    }
    return true;
}

struct name_match name_match(const char *text, const char *name)
{
    /* As many slips as a hand makes in a word of that length. */
    const int slips = strlen(text) < 5 ? 1 : strlen(text) < 9 ? 2 : 3;

    if (text[0] == '\0' || name[0] == '\0')
        return (struct name_match){.fit = NAME_FIT_NONE};
    if (strcmp(text, name) == 0)
        return (struct name_match){.fit = NAME_FIT_SAME};
    if (begins_all(text, name) || begins_joined(text, name))
        return (struct name_match){.fit = NAME_FIT_BEGINNING};
    if (shares_word(text, name))
        return (struct name_match){.fit = NAME_FIT_WORD};

    const int off = least_distance(text, name);

    return off <= slips && off < (int)strlen(text)
               ? (struct name_match){.fit = NAME_FIT_NEAREST, .distance = off}
               : (struct name_match){.fit = NAME_FIT_NONE};
}

bool name_add_one_of(const char *names, int k, struct strbuf *out)
{
    for (; k > 0 && *names; k--) {
        names += strcspn(names, ";");
        names += *names == ';';
    }
    strbuf_add_bytes(out, names, strcspn(names, ";"));
    return *names != '\0';
}
