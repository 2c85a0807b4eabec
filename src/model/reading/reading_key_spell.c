/* SPDX-License-Identifier: MIT */
#include "model/reading/reading_key.h"

#include <string.h>

/* How a section is spelled: up to two words, each followed by its number where it has one. */
struct section_spelling {
    const char *word[2];
    bool numbered[2];
};

static const struct section_spelling spellings[SECTION_COUNT_] = {
    [SECTION_PROFILE] = {{"profile", NULL}, {false, false}},
    [SECTION_INSTRUMENT] = {{"instrument", NULL}, {false, false}},
    [SECTION_BOARD] = {{"board", NULL}, {false, false}},
    [SECTION_NUT] = {{"nut", NULL}, {false, false}},
    [SECTION_BRIDGE] = {{"bridge", NULL}, {false, false}},
    [SECTION_NECK] = {{"neck", NULL}, {false, false}},
    [SECTION_STRING] = {{"string", NULL}, {true, false}},
    [SECTION_TARGETS] = {{"targets", NULL}, {false, false}},
    [SECTION_MODEL] = {{"model", NULL}, {false, false}},
    [SECTION_VISIT] = {{"visit", NULL}, {true, false}},
    [SECTION_PASS] = {{"visit", "pass"}, {true, true}},
    [SECTION_WORK] = {{"visit", "work"}, {true, true}},
};

const char *reading_key_section_word(enum section section)
{
    return spellings[section].word[0];
}

void reading_key_section(const struct reading_key *key, struct strbuf *out)
{
    const enum section section = field_get(key->field)->section;
    const struct section_spelling *spelling = &spellings[section];
    const int numbers[2] = {section == SECTION_STRING ? key->string : key->visit, key->part};

    if (reading_key_is_change(key))
        strbuf_addf(out, "visit.%d.", key->visit);
    for (int i = 0; i < 2 && spelling->word[i]; i++) {
        if (i > 0)
            strbuf_add_char(out, '.');
        strbuf_add(out, spelling->word[i]);
        if (spelling->numbered[i])
            strbuf_addf(out, ".%d", numbers[i]);
    }
}

void reading_key_name(const struct reading_key *key, struct strbuf *out)
{
    const struct field *field = field_get(key->field);

    strbuf_add(out, field->key);
    if (field->per == PER_STRING || field->per == PER_STRING_FRET)
        strbuf_addf(out, ".%d", key->string);
    if (field->per == PER_FRET || field->per == PER_STRING_FRET)
        strbuf_addf(out, ".%d", key->fret);
}

/* Takes "word" or ".word" off *text; false when it does not stand there as a whole part. */
static bool take_word(const char **text, const char *word, bool dotted)
{
    const char *at = *text;

    if (dotted && *at++ != '.')
        return false;
    for (; *word; word++, at++)
        if (*at != *word)
            return false;
    if (*at != '.' && *at != '\0')
        return false;
    *text = at;
    return true;
}

/* Takes ".N" off *text, N in min..max without leading zeros. */
static bool take_number(const char **text, int min, int max, int *ret_number)
{
    const char *const first = *text + 1, *at = first;
    int number = 0;

    if (**text != '.')
        return false;
    for (; *at >= '0' && *at <= '9' && number <= max; at++)
        number = number * 10 + (*at - '0');
    if (at == first || (*first == '0' && at > first + 1) || (*at != '.' && *at != '\0') ||
        number < min || number > max)
        return false;
    *text = at;
    *ret_number = number;
    return true;
}

static int section_number_max(enum section section, int i)
{
    if (section == SECTION_STRING)
        return STRINGS_MAX;
    if (i == 0)
        return VISITS_MAX;
    return section == SECTION_PASS ? PASSES_MAX : WORKS_MAX;
}

static bool parse_section(const char *text, enum section section, int ret_numbers[2])
{
    const struct section_spelling *spelling = &spellings[section];

    if (*text != spelling->word[0][0])
        return false;
    for (int i = 0; i < 2 && spelling->word[i]; i++) {
        if (!take_word(&text, spelling->word[i], i > 0))
            return false;
        if (spelling->numbered[i] &&
            !take_number(&text, 1, section_number_max(section, i), &ret_numbers[i]))
            return false;
    }
    return *text == '\0';
}

static bool parse_name(const char *text, const struct field *field, int *string, int *fret)
{
    if (!take_word(&text, field->key, false))
        return false;
    if ((field->per == PER_STRING || field->per == PER_STRING_FRET) &&
        !take_number(&text, 1, STRINGS_MAX, string))
        return false;
    if ((field->per == PER_FRET || field->per == PER_STRING_FRET) &&
        !take_number(&text, 0, FRETS_MAX, fret))
        return false;
    return *text == '\0';
}

/* The section that is spelled so, from those before `end`; `end` when none is. */
static enum section find_plain(const char *text, enum section end, int ret_numbers[2])
{
    int s = 0;

    while (s < (int)end && !parse_section(text, (enum section)s, ret_numbers))
        s++;
    return (enum section)s;
}

bool reading_section_parse(const char *text, struct reading_section *ret_section)
{
    struct reading_section named = {.section = SECTION_COUNT_};
    const char *rest = text;

    named.section = find_plain(text, SECTION_COUNT_, named.numbers);
    if (named.section == SECTION_COUNT_ && take_word(&rest, "visit", false) &&
        take_number(&rest, 1, VISITS_MAX, &named.changed_in) && *rest == '.') {
        named.section = find_plain(rest + 1, SECTION_VISIT, named.numbers);
        if (named.section == SECTION_VISIT || named.section == SECTION_PROFILE)
            return false;
    }
    *ret_section = named;
    return named.section < SECTION_COUNT_;
}

bool reading_key_is_section(const char *section)
{
    struct reading_section named;

    return reading_section_parse(section, &named);
}

/* The first field of a section; they are in the order of their sections. */
static int first_field(enum section section)
{
    int low = 0, high = FIELD_COUNT_;

    while (low < high) {
        const int middle = low + (high - low) / 2;

        if (field_get((enum field_id)middle)->section < section)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Any field that goes by this name there; false for none. */
static bool find_key(const struct reading_section *section, const char *name,
                     struct reading_key *ret_key)
{
    const bool of_string = section->section == SECTION_STRING;
    const int visit =
        of_string || section->changed_in > 0 ? section->changed_in : section->numbers[0];

    for (int id = first_field(section->section); id < FIELD_COUNT_; id++) {
        const struct field *field = field_get((enum field_id)id);

        if (field->section != section->section)
            break;
        int string = of_string ? section->numbers[0] : 0, fret = 0;

        if (!parse_name(name, field, &string, &fret))
            continue;
        *ret_key = reading_key_pass_at(field->id, visit, section->numbers[1], string, fret);
        return true;
    }
    return false;
}

static bool cannot_be(const struct reading_key *key)
{
    return reading_key_is_change(key) && !field_may_change(key->field);
}

bool reading_key_is_correction(const char *section, const char *name)
{
    struct reading_section named;
    struct reading_key key;

    return reading_section_parse(section, &named) && find_key(&named, name, &key) &&
           cannot_be(&key);
}

enum status reading_section_find(const struct reading_section *section, const char *name,
                                 struct reading_key *ret_key)
{
    struct reading_key key;

    if (!find_key(section, name, &key) || cannot_be(&key))
        return STATUS_NOT_FOUND;
    *ret_key = key;
    return STATUS_OK;
}

enum status reading_key_parse(const char *section, const char *name, struct reading_key *ret_key)
{
    struct reading_section named;

    return reading_section_parse(section, &named) ? reading_section_find(&named, name, ret_key)
                                                  : STATUS_NOT_FOUND;
}
