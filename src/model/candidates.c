/* SPDX-License-Identifier: MIT */
#include "model/candidates.h"

#include <string.h>

#include "model/string_material.h"
#include "model/wood.h"

static const struct {
    enum field_id field;
    const char *word, *choice;
} trade_words[] = {
#define TRADE_WORD(field_, word_, choice_)                                                         \
    {.field = FIELD_##field_, .word = word_, .choice = choice_},
#include "model/trade_word_table.h"
#undef TRADE_WORD
};

enum { TRADE_WORD_COUNT = sizeof trade_words / sizeof trade_words[0] };

/* --- the lists --- */

static bool is_wood(const struct field *field)
{
    return field->id == FIELD_BOARD_WOOD || field->id == FIELD_NECK_WOOD;
}

static bool is_material(const struct field *field)
{
    return field->id == FIELD_CORE_MATERIAL || field->id == FIELD_WRAP_MATERIAL;
}

bool candidates_is_closed(const struct field *field)
{
    return field->kind == KIND_CHOICE || field->kind == KIND_YESNO;
}

bool candidates_has_list(const struct field *field)
{
    return candidates_is_closed(field) || is_wood(field) || is_material(field);
}

static const char *material_name(int k)
{
    const struct string_material_facts *facts =
        string_material_facts((enum string_material)(k + MATERIAL_NONE + 1));

    return facts ? facts->name : NULL;
}

bool candidates_name(const struct field *field, int k, char *out, size_t size)
{
    struct strbuf text = strbuf_over(out, size);
    const char *name = NULL;

    if (candidates_is_closed(field))
        return field_choice(field, k, out, size);
    if (is_wood(field) && wood_get(k))
        name = wood_get(k)->name;
    else if (is_material(field))
        name = material_name(k);
    if (!name)
        return false;
    strbuf_add(&text, name);
    return true;
}

int candidates_count(const struct field *field)
{
    char name[CANDIDATE_NAME_SIZE];
    int count = 0;

    while (count < CANDIDATES_MAX && candidates_name(field, count, name, sizeof name))
        count++;
    return count;
}

/* --- what each is called --- */

static bool trade_form(const struct field *field, const char *name, int form, struct strbuf *out)
{
    for (int i = 0; i < TRADE_WORD_COUNT; i++)
        if (trade_words[i].field == field->id && strcmp(trade_words[i].choice, name) == 0 &&
            form-- == 0) {
            strbuf_add(out, trade_words[i].word);
            return true;
        }
    return false;
}

static bool material_form(int k, int form, struct strbuf *out)
{
    const char *other =
        string_material_other_name((enum string_material)(k + MATERIAL_NONE + 1), form);

    strbuf_add(out, other ? other : "");
    return other;
}

/* The other names of the k-th entry, from 0; false past the last. */
static bool other_form(const struct field *field, int k, int form, struct strbuf *out)
{
    char name[CANDIDATE_NAME_SIZE];

    if (is_wood(field))
        return wood_add_other_name(wood_get(k), form, out);
    if (is_material(field))
        return material_form(k, form, out);
    return candidates_name(field, k, name, sizeof name) && trade_form(field, name, form, out);
}

/* The entry's name, then its other names, folded. */
static bool find_form(const struct field *field, int k, int form, char folded[NAME_FOLDED_SIZE])
{
    char memory[NAME_FOLDED_SIZE];
    struct strbuf text = STRBUF(memory);

    if (form == 0 ? !candidates_name(field, k, memory, sizeof memory)
                  : !other_form(field, k, form - 1, &text))
        return false;
    name_fold(memory, folded);
    return true;
}

/* --- the search --- */

/* The best that the entry's names make of a text. */
static struct name_match match_entry(const struct field *field, int k, const char *folded)
{
    struct name_match best = {.fit = NAME_FIT_NONE};
    char form[NAME_FOLDED_SIZE];

    for (int i = 0; find_form(field, k, i, form); i++) {
        struct name_match match = name_match(folded, form);

        /* Only its own name settles it; what else it is called may be said of others too. */
        if (match.fit == NAME_FIT_SAME && i > 0)
            match.fit = NAME_FIT_BEGINNING;
        if (match.fit > best.fit || (match.fit == best.fit && match.distance < best.distance))
            best = match;
    }
    return best;
}

/* Of one or two letters that begin names, all that they may begin besides is no help. */
static void find_begun(const struct field *field, const char *folded, int count,
                       struct candidates *found)
{
    char name[NAME_FOLDED_SIZE];

    for (int k = 0; k < count; k++)
        if (find_form(field, k, 0, name) && strncmp(name, folded, strlen(folded)) == 0)
            found->at[found->count++] = k;
    found->fit = NAME_FIT_BEGINNING;
}

static void find_best(const struct field *field, const char *folded, int count,
                      struct candidates *found)
{
    struct name_match best = {.fit = NAME_FIT_NONE};

    for (int k = 0; k < count; k++) {
        const struct name_match match = match_entry(field, k, folded);

        if (match.fit == NAME_FIT_NONE || match.fit < best.fit ||
            (match.fit == best.fit && match.distance > best.distance))
            continue;
        if (match.fit > best.fit || match.distance < best.distance)
            found->count = 0;
        best = match;
        found->at[found->count++] = k;
    }
    found->fit = best.fit;
}

void candidates_find(const struct field *field, const char *text, struct candidates *ret_found)
{
    enum { LETTERS_FEW = 2 };
    const int count = candidates_count(field);
    char folded[NAME_FOLDED_SIZE];

    *ret_found = (struct candidates){.fit = NAME_FIT_NONE};
    name_fold(text, folded);
    find_best(field, folded, count, ret_found);
    if (ret_found->fit == NAME_FIT_SAME || folded[0] == '\0' || strlen(folded) > LETTERS_FEW)
        return;

    struct candidates begun = {.fit = NAME_FIT_NONE};

    find_begun(field, folded, count, &begun);
    if (begun.count > 0)
        *ret_found = begun;
}
