/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_NAME_LIST_H
#define SILLET_MODEL_READING_NAME_LIST_H

#include <stdbool.h>
#include <stddef.h>

#include "model/reading/field.h"
#include "model/reading/record_access.h"

/*
 * Lists of names that can be typed: the answers of a field (choices, woods, string materials), or
 * the tunings or sets that fit an instrument. The trade has other names for many of them: "rock
 * maple" is sugar maple, "dovetail" a glued neck, "nickel tens" a set of the table.
 */

enum name_list_of { NAMES_OF_FIELD, NAMES_OF_TUNINGS, NAMES_OF_SETS };

struct name_list {
    enum name_list_of of;
    const struct field *field; /* with NAMES_OF_FIELD */
    int strings;               /* else: those for that many strings */
    char kind[KIND_NAME_SIZE]; /* and that kind of instrument; all kinds where "" or "other" */
};

enum { NAME_LIST_MAX = 64, NAME_LIST_NAME_SIZE = 48 };

struct name_list name_list_of_field(const struct field *field);

/* The tunings or the sets that fit a record's instrument. */
struct name_list name_list_for(enum name_list_of of, const struct record *record);

/* Whether there are names, and whether nothing else is taken. */
bool name_list_exists(const struct name_list *list);
bool name_list_is_closed(const struct name_list *list);

/* How many names there are; the k-th (from 0), false past the last. */
int name_list_count(const struct name_list *list);
bool name_list_name(const struct name_list *list, int k, char *out, size_t size);

/* The same for a person to read: a tuning as a tech says it. */
bool name_list_said(const struct name_list *list, int k, char *out, size_t size);

/* What the k-th is called besides, in the order of its forms from 0; false past the last. */
bool name_list_other_name(const struct name_list *list, int k, int form, struct strbuf *out);

/* How many of these are as good as the name: "drop d" for guitar-drop-d. */
int name_list_own_forms(const struct name_list *list);

/* The place of a name as the list writes it; -1 for none. */
int name_list_place(const struct name_list *list, const char *name);

/* What is asked for, "wood". */
const char *name_list_label(const struct name_list *list);

#endif
