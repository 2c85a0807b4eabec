/* SPDX-License-Identifier: MIT */
/*
 * Writes the sections and keys of sillet-profile(5) from the program's table of fields.
 */
#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "man_text.h"
#include "model/reading/field.h"
#include "model/reading/reading_key.h"

/* A section's name with letters for its numbers. */
static const char *section_name(const struct field *field, struct strbuf *name)
{
    static const char *const numbered[SECTION_COUNT_] = {
        [SECTION_STRING] = "string.N",
        [SECTION_VISIT] = "visit.V",
        [SECTION_PASS] = "visit.V.pass.P",
        [SECTION_WORK] = "visit.V.work.K",
    };
    const struct reading_key key = reading_key_one(field->id);

    if (numbered[field->section])
        return numbered[field->section];
    reading_key_section(&key, name);
    return NULL;
}

static void print_section(const struct field *field)
{
    char memory[64];
    struct strbuf name = STRBUF(memory);
    const char *numbered = section_name(field, &name);

    printf(".SS [%s]\n", numbered ? numbered : memory);
}

static void add_kind(const struct field *field, struct strbuf *out)
{
    static const char *const kinds[] = {
        [KIND_TEXT] = "text",     [KIND_NUMBER] = "number",         [KIND_COUNT] = "whole number",
        [KIND_CHOICE] = "choice", [KIND_YESNO] = "yes or no",       [KIND_NOTE] = "note",
        [KIND_FRETS] = "frets",   [KIND_RADIUS] = "length or flat", [KIND_DATE] = "date",
        [KIND_TIME] = "time",
    };
    const enum unit unit = unit_pivot(field->quantity);

    if (field->kind == KIND_NUMBER && field->quantity == QUANTITY_LENGTH)
        strbuf_add(out, "length");
    else if (field->kind == KIND_NUMBER && field->quantity != QUANTITY_PLAIN)
        strbuf_addf(out, "in %s", unit_label(unit));
    else
        strbuf_add(out, kinds[field->kind]);
}

static void add_range(const struct field *field, struct strbuf *out)
{
    if (field->kind != KIND_NUMBER && field->kind != KIND_COUNT)
        return;
    strbuf_add(out, ", ");
    num_format(field->possible_min, out);
    strbuf_add(out, " to ");
    num_format(field->possible_max, out);
    if (field->quantity == QUANTITY_LENGTH)
        strbuf_add(out, " mm");
}

static void add_choices(const struct field *field, struct strbuf *out)
{
    char choice[64];

    for (int k = 0; field->kind == KIND_CHOICE && field_choice(field, k, choice, sizeof choice);
         k++)
        strbuf_addf(out, "%s%s", k > 0 ? ", " : ": ", choice);
}

/* On the screen the words stand behind the cell's name, here they begin a sentence. */
static void add_sentence(const char *words, struct strbuf *out)
{
    strbuf_add_char(out, (char)toupper((unsigned char)words[0]));
    strbuf_add(out, words + 1);
    strbuf_add(out, words[strlen(words) - 1] == '?' ? "" : ".");
}

static void print_field(const struct field *field)
{
    static const char *const behind[] = {"", ".S", ".F", ".S.F"};
    char key_memory[64], help_memory[200], kind_memory[400];
    struct strbuf key = STRBUF(key_memory), help = STRBUF(help_memory), kind = STRBUF(kind_memory);

    strbuf_addf(&key, "%s%s", field->key, behind[field->per]);
    fputs(".TP\n.B ", stdout);
    man_text(key_memory);
    add_sentence(field->help, &help);
    man_text(help_memory);
    add_kind(field, &kind);
    add_choices(field, &kind);
    add_range(field, &kind);
    if (field->fallback[0])
        strbuf_addf(&kind, "; where absent, %s", field->fallback);
    strbuf_add(&kind, ".");
    puts(".br");
    man_text(kind_memory);
}

int main(void)
{
    for (int section = 0; section < SECTION_COUNT_; section++) {
        bool begun = false;

        for (int id = 0; id < FIELD_COUNT_; id++) {
            const struct field *field = field_get((enum field_id)id);

            if ((int)field->section != section)
                continue;
            if (!begun)
                print_section(field);
            begun = true;
            print_field(field);
        }
    }
    return fflush(stdout) == 0 ? 0 : 1;
}
