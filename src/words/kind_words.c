/* SPDX-License-Identifier: MIT */
#include "words/kind_words.h"

#include <stddef.h>

#include "model/reading/outfit.h"
#include "model/reading/record_access.h"

/* By the field's choices: the noun, what goes before it, and the usual number of strings, of which
 * nobody speaks. */
static const struct {
    const char *noun, *before;
    int strings;
} kinds[] = {
    {"guitar", "steel-string ", 6},
    {"guitar", "classical ", 6},
    {"guitar", "electric ", 6},
    {"bass", "", 4},
    {"guitar", "archtop ", 6},
    {"guitar", "resonator ", 6},
    {"mandolin", "", 8},
    {"banjo", "", 5},
    {"ukulele", "", 4},
};

static const char *const numbers[STRINGS_MAX + 1] = {
    "",       "one-",   "two-",  "three-", "four-",   "five-",  "six-",
    "seven-", "eight-", "nine-", "ten-",   "eleven-", "twelve-"};

void kind_words_add(const struct record *record, struct strbuf *out)
{
    const struct maybe kind = record_entered_one(record, FIELD_KIND);
    const struct maybe strings = record_entered_one(record, FIELD_STRINGS);
    struct outfit outfit;

    if (!kind.given || (size_t)kind.value >= sizeof kinds / sizeof kinds[0])
        return;
    const size_t k = (size_t)kind.value;
    if (record_choice_or(record, reading_key_one(FIELD_FRETLESS), 0) == 1)
        strbuf_add(out, "fretless ");
    const bool counted = strings.given && (int)strings.value != kinds[k].strings;
    if (counted)
        strbuf_addf(out, "%sstring ", numbers[(int)strings.value]);
    /* "Twelve-string guitar" says of what its strings are. */
    if (!counted || k > 0)
        strbuf_add(out, kinds[k].before);
    strbuf_add(out, kinds[k].noun);
    outfit_read(&outfit, record, 0);
    if (outfit.lap)
        strbuf_add(out, " with a raised nut");
}
