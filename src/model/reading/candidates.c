/* SPDX-License-Identifier: MIT */
#include "model/reading/candidates.h"

#include <string.h>

/* The entry's name, then its other names, folded. */
static bool find_form(const struct name_list *list, int k, int form, char folded[NAME_FOLDED_SIZE])
{
    char memory[NAME_FOLDED_SIZE];
    struct strbuf text = STRBUF(memory);

    if (form == 0 ? !name_list_name(list, k, memory, sizeof memory)
                  : !name_list_other_name(list, k, form - 1, &text))
        return false;
    name_fold(memory, folded);
    return true;
}

/* --- the search --- */

/* The best that the entry's names make of a text. */
static struct name_match match_entry(const struct name_list *list, int k, const char *folded)
{
    struct name_match best = {.fit = NAME_FIT_NONE};
    char form[NAME_FOLDED_SIZE];

    for (int i = 0; find_form(list, k, i, form); i++) {
        struct name_match match = name_match(folded, form);

        /* Only its own name settles it; what else it is called may be said of others too. */
        if (match.fit == NAME_FIT_SAME && i > name_list_own_forms(list))
            match.fit = NAME_FIT_BEGINNING;
        if (match.fit > best.fit || (match.fit == best.fit && match.distance < best.distance))
            best = match;
    }
    return best;
}

/* Of one or two letters that begin names, all that they may begin besides is no help. */
static void find_begun(const struct name_list *list, const char *folded, int count,
                       struct candidates *found)
{
    char name[NAME_FOLDED_SIZE];

    for (int k = 0; k < count; k++)
        if (find_form(list, k, 0, name) && strncmp(name, folded, strlen(folded)) == 0)
            found->at[found->count++] = k;
    found->fit = NAME_FIT_BEGINNING;
}

static void find_best(const struct name_list *list, const char *folded, int count,
                      struct candidates *found)
{
    struct name_match best = {.fit = NAME_FIT_NONE};

    for (int k = 0; k < count; k++) {
        const struct name_match match = match_entry(list, k, folded);

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

void candidates_find(const struct name_list *list, const char *text, struct candidates *ret_found)
{
    enum { LETTERS_FEW = 2 };
    const int count = name_list_count(list);
    char folded[NAME_FOLDED_SIZE];

    *ret_found = (struct candidates){.fit = NAME_FIT_NONE};
    name_fold(text, folded);
    find_best(list, folded, count, ret_found);
    if (ret_found->fit == NAME_FIT_SAME || folded[0] == '\0' || strlen(folded) > LETTERS_FEW)
        return;

    struct candidates begun = {.fit = NAME_FIT_NONE};

    find_begun(list, folded, count, &begun);
    if (begun.count > 0)
        *ret_found = begun;
}
