/* SPDX-License-Identifier: MIT */
#include "session/choice.h"

#include <string.h>

#include "base/num.h"

static void show_all(const struct name_list *list, struct choice *choice)
{
    choice->found.count = name_list_count(list);
    for (int k = 0; k < choice->found.count; k++)
        choice->found.at[k] = k;
}

void choice_show(const struct name_list *list, int in_hand, struct choice *ret_choice)
{
    *ret_choice = (struct choice){.state = CHOICE_NONE, .in_hand = in_hand};
    show_all(list, ret_choice);
}

static enum choice_state state_of(const struct candidates *found)
{
    switch (found->fit) {
    case NAME_FIT_SAME:
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

static void look_at_name(const char *text, const struct name_list *list, struct choice *choice)
{
    candidates_find(list, text, &choice->found);
    choice->state = state_of(&choice->found);
    if (choice->state == CHOICE_TAKEN)
        choice->in_hand = choice->found.at[0];
    if (choice->state == CHOICE_UNKNOWN)
        show_all(list, choice);
}

void choice_look(const char *text, const struct name_list *list, struct choice *ret_choice)
{
    int number;

    *ret_choice = (struct choice){.state = CHOICE_NONE, .in_hand = -1};
    if (text[0] == '\0' || !name_list_exists(list))
        return;
    const bool is_number = num_count(text, strlen(text), 99, &number) == STATUS_OK;
    if (is_number && number >= 1 && number <= name_list_count(list)) {
        choice_show(list, number - 1, ret_choice);
        ret_choice->state = CHOICE_TAKEN;
        return;
    }
    /* A number past the list's end may begin a name: the gauge of a set, in a list of eight. */
    look_at_name(text, list, ret_choice);
    if (is_number && ret_choice->state != CHOICE_TAKEN && ret_choice->state != CHOICE_WHICH) {
        show_all(list, ret_choice);
        ret_choice->state = CHOICE_BEYOND;
    }
}

bool choice_is_good(const struct choice *choice, const struct name_list *list)
{
    return choice->state == CHOICE_TAKEN ||
           (choice->state != CHOICE_BEYOND && !name_list_is_closed(list));
}

bool choice_is_doubtful(const struct choice *choice, const struct name_list *list)
{
    return !name_list_is_closed(list) &&
           (choice->state == CHOICE_WHICH || choice->state == CHOICE_NEAREST);
}

void choice_spell(const char *text, const struct name_list *list, struct strbuf *out)
{
    char name[NAME_LIST_NAME_SIZE];
    struct choice choice;

    choice_look(text, list, &choice);
    strbuf_add(out, name_list_name(list, choice.in_hand, name, sizeof name) ? name : text);
}

/* "Indian rosewood or Brazilian rosewood?": the first two, if there are more. */
static void add_found(const struct choice *choice, const struct name_list *list, struct strbuf *out)
{
    enum { NAMED_MAX = 2 };
    char name[NAME_LIST_NAME_SIZE];

    for (int i = 0; i < choice->found.count && i < NAMED_MAX; i++)
        if (name_list_said(list, choice->found.at[i], name, sizeof name))
            strbuf_addf(out, "%s%s", i > 0 ? " or " : "", name);
    strbuf_add(out, choice->found.count > NAMED_MAX ? "...?" : "?");
}

void choice_add_words(const struct choice *choice, const struct name_list *list, const char *text,
                      struct strbuf *out)
{
    const bool closed = name_list_is_closed(list);
    char name[NAME_LIST_NAME_SIZE];

    switch (choice->state) {
    case CHOICE_NONE:
        return;
    case CHOICE_TAKEN:
        if (name_list_said(list, choice->in_hand, name, sizeof name) &&
            (closed || strcmp(name, text) != 0))
            strbuf_add(out, name);
        return;
    case CHOICE_WHICH:
    case CHOICE_NEAREST:
        add_found(choice, list, out);
        strbuf_add(out, closed ? " type on, or its number" : " its number, or keep it");
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
