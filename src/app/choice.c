/* SPDX-License-Identifier: MIT */
#include "app/choice.h"

#include <string.h>

#include "base/num.h"

static void show_all(const struct field *field, struct choice *choice)
{
    choice->found.count = candidates_count(field);
    for (int k = 0; k < choice->found.count; k++)
        choice->found.at[k] = k;
}

static void look_at_number(int number, const struct field *field, struct choice *choice)
{
    show_all(field, choice);
    choice->state = number >= 1 && number <= choice->found.count ? CHOICE_TAKEN : CHOICE_BEYOND;
    if (choice->state == CHOICE_TAKEN)
        choice->in_hand = number - 1;
}

static enum choice_state state_of(const struct candidates *found)
{
    switch (found->fit) {
    case NAME_FIT_SAME:
        return CHOICE_TAKEN;
    case NAME_FIT_BEGINNING:
        return found->count == 1 ? CHOICE_TAKEN : CHOICE_WHICH;
    case NAME_FIT_WORD:
    case NAME_FIT_NEAREST:
        return CHOICE_NEAREST;
    case NAME_FIT_NONE:
        break;
    }
    return CHOICE_UNKNOWN;
}

void choice_look(const char *text, const struct field *field, struct choice *ret_choice)
{
    int number;

    *ret_choice = (struct choice){.state = CHOICE_NONE, .in_hand = -1};
    if (text[0] == '\0' || !candidates_has_list(field))
        return;
    if (num_count(text, strlen(text), 99, &number) == STATUS_OK) {
        look_at_number(number, field, ret_choice);
        return;
    }
    candidates_find(field, text, &ret_choice->found);
    ret_choice->state = state_of(&ret_choice->found);
    if (ret_choice->state == CHOICE_TAKEN)
        ret_choice->in_hand = ret_choice->found.at[0];
    if (ret_choice->state == CHOICE_UNKNOWN)
        show_all(field, ret_choice);
}

bool choice_is_good(const struct choice *choice, const struct field *field)
{
    return choice->state == CHOICE_TAKEN ||
           (choice->state != CHOICE_BEYOND && !candidates_is_closed(field));
}

bool choice_is_doubtful(const struct choice *choice, const struct field *field)
{
    return !candidates_is_closed(field) &&
           (choice->state == CHOICE_WHICH || choice->state == CHOICE_NEAREST);
}

void choice_spell(const char *text, const struct field *field, struct strbuf *out)
{
    char name[CANDIDATE_NAME_SIZE];
    struct choice choice;

    choice_look(text, field, &choice);
    strbuf_add(out, candidates_name(field, choice.in_hand, name, sizeof name) ? name : text);
}

/* "Indian rosewood or Brazilian rosewood", of more than two the first ones. */
static void add_found(const struct choice *choice, const struct field *field, struct strbuf *out)
{
    enum { NAMED_MAX = 2 };
    char name[CANDIDATE_NAME_SIZE];

    for (int i = 0; i < choice->found.count && i < NAMED_MAX; i++)
        if (candidates_name(field, choice->found.at[i], name, sizeof name))
            strbuf_addf(out, "%s%s", i > 0 ? " or " : "", name);
    strbuf_add(out, choice->found.count > NAMED_MAX ? "...?" : "?");
}

void choice_add_words(const struct choice *choice, const struct field *field, const char *text,
                      struct strbuf *out)
{
    const bool closed = candidates_is_closed(field);
    char name[CANDIDATE_NAME_SIZE];

    switch (choice->state) {
    case CHOICE_NONE:
        return;
    case CHOICE_TAKEN:
        if (candidates_name(field, choice->in_hand, name, sizeof name) &&
            (closed || strcmp(name, text) != 0))
            strbuf_add(out, name);
        return;
    case CHOICE_WHICH:
    case CHOICE_NEAREST:
        add_found(choice, field, out);
        strbuf_add(out,
                   closed ? " type on, or its number" : " its number, or Enter again keeps it");
        return;
    case CHOICE_UNKNOWN:
        strbuf_add(out, closed ? "none of these; type one or its number"
                               : "not in the list; kept as typed");
        return;
    case CHOICE_BEYOND:
        strbuf_addf(out, "the list ends at %d", choice->found.count);
        return;
    }
}
