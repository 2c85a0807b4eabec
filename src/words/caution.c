/* SPDX-License-Identifier: MIT */
#include "words/caution.h"

#include <stddef.h>
#include <string.h>

#include "base/ascii.h"

struct caution {
    const char *words, *text, *owner_words, *owner;
};

static const struct caution cautions[] = {
#define CAUTION(words_, text_, owner_words_, owner_)                                               \
    {.words = words_, .text = text_, .owner_words = owner_words_, .owner = owner_},
#include "words/caution_table.h"
#undef CAUTION
};

int caution_count(void)
{
    return (int)(sizeof cautions / sizeof cautions[0]);
}

const char *caution_text(int k)
{
    return cautions[k].text;
}

static bool begins_with(const char *text, const char *word, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (ascii_lower(text[i]) != word[i])
            return false;
    return true;
}

static bool has_word(const char *text, const char *word, size_t length)
{
    for (const char *at = text; *at; at++)
        if ((at == text || !is_ascii_letter(at[-1])) && begins_with(at, word, length))
            return true;
    return false;
}

bool caution_has_word(const char *text, const char *word)
{
    while (*word) {
        const size_t length = strcspn(word, "|");

        if (has_word(text, word, length))
            return true;
        word += length + (word[length] == '|');
    }
    return false;
}

bool caution_applies(int k, const char *work)
{
    return caution_has_word(work, cautions[k].words);
}

const char *caution_for_owner(int k, const char *work)
{
    return caution_has_word(work, cautions[k].owner_words) ? cautions[k].owner : NULL;
}

const char *caution_reserve(void)
{
    return "the gauge, the maker, local rules and a qualified repairer come first";
}
