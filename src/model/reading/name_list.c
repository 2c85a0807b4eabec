/* SPDX-License-Identifier: MIT */
#include "model/reading/name_list.h"

#include <math.h>
#include <string.h>

#include "model/common/name_match.h"
#include "model/reading/record_access.h"
#include "model/strings/string_material.h"
#include "model/strings/string_set.h"
#include "model/reading/tuning.h"
#include "model/neck/wood.h"

static const struct {
    enum field_id field;
    const char *word, *choice;
} trade_words[] = {
#define TRADE_WORD(field_, word_, choice_)                                                         \
    {.field = FIELD_##field_, .word = word_, .choice = choice_},
#include "model/reading/trade_word_table.h"
#undef TRADE_WORD
};

enum { TRADE_WORD_COUNT = sizeof trade_words / sizeof trade_words[0] };

static bool is_wood(const struct field *field)
{
    return field->id == FIELD_BOARD_WOOD || field->id == FIELD_NECK_WOOD;
}

static bool is_material(const struct field *field)
{
    return field->id == FIELD_CORE_MATERIAL || field->id == FIELD_WRAP_MATERIAL;
}

static bool has_choices(const struct field *field)
{
    return field->kind == KIND_CHOICE || field->kind == KIND_YESNO;
}

struct name_list name_list_of_field(const struct field *field)
{
    return (struct name_list){.of = NAMES_OF_FIELD, .field = field};
}

struct name_list name_list_for(enum name_list_of of, const struct record *record)
{
    struct name_list list = {.of = of, .strings = record_string_count(record)};

    (void)record_kind(record, list.kind);
    return list;
}

bool name_list_is_closed(const struct name_list *list)
{
    return list->of != NAMES_OF_FIELD || has_choices(list->field);
}

bool name_list_exists(const struct name_list *list)
{
    return name_list_is_closed(list) || is_wood(list->field) || is_material(list->field);
}

const char *name_list_label(const struct name_list *list)
{
    if (list->of == NAMES_OF_FIELD)
        return list->field->label;
    return list->of == NAMES_OF_TUNINGS ? "tuning" : "set";
}

/* --- tunings and sets --- */

/* Whether a tuning's or a set's name says that it is for a kind of instrument. Of a kind that has
 * no family of its own all may be meant. */
static bool is_for_kind(const char *name, const char *kind)
{
    static const struct {
        const char *kind, *family;
    } families[] = {
        {"steel-string", "guitar"}, {"steel-string", "steel"}, {"classical", "guitar"},
        {"classical", "classical"}, {"electric", "guitar"},    {"electric", "electric"},
        {"archtop", "guitar"},      {"archtop", "electric"},   {"archtop", "steel"},
        {"resonator", "guitar"},    {"resonator", "steel"},    {"bass", "bass"},
        {"mandolin", "mandolin"},   {"mandolin", "mandola"},   {"mandolin", "octave"},
        {"banjo", "banjo"},         {"ukulele", "ukulele"},
    };
    const size_t length = strcspn(name, "-");
    bool has_family = false;

    for (size_t i = 0; i < sizeof families / sizeof families[0]; i++) {
        if (strcmp(families[i].kind, kind) != 0)
            continue;
        has_family = true;
        if (strlen(families[i].family) == length && strncmp(families[i].family, name, length) == 0)
            return true;
    }
    return !has_family;
}

/* The next tuning or set of the table; NULL past the last. */
struct place {
    int tuning;
    struct string_set set;
};

static const char *next_in_table(const struct name_list *list, struct place *place)
{
    while (list->of == NAMES_OF_SETS && string_set_next(&place->set))
        if (place->set.strings == list->strings)
            return place->set.name;
    while (list->of == NAMES_OF_TUNINGS && tuning_get(place->tuning)) {
        const struct tuning *tuning = tuning_get(place->tuning++);

        if (tuning_is_for(tuning, list->strings))
            return tuning->name;
    }
    return NULL;
}

static const char *fitting_name(const struct name_list *list, int k)
{
    struct place place = {.tuning = 0};
    const char *name;

    while ((name = next_in_table(list, &place)))
        if (is_for_kind(name, list->kind) && k-- == 0)
            return name;
    return NULL;
}

/* --- the lists --- */

static const char *name_in_table(const struct name_list *list, int k)
{
    if (list->of != NAMES_OF_FIELD)
        return fitting_name(list, k);
    if (is_wood(list->field))
        return wood_get(k) ? wood_get(k)->name : NULL;
    if (!is_material(list->field))
        return NULL;
    const struct string_material_facts *facts =
        string_material_facts((enum string_material)(k + MATERIAL_NONE + 1));
    return facts ? facts->name : NULL;
}

bool name_list_name(const struct name_list *list, int k, char *out, size_t size)
{
    struct strbuf text = strbuf_over(out, size);

    if (list->of == NAMES_OF_FIELD && has_choices(list->field))
        return field_choice(list->field, k, out, size);
    const char *name = name_in_table(list, k);
    strbuf_add(&text, name ? name : "");
    return name;
}

bool name_list_said(const struct name_list *list, int k, char *out, size_t size)
{
    const struct tuning *tuning;
    const bool found = name_list_name(list, k, out, size);

    if (found && list->of == NAMES_OF_TUNINGS && tuning_find(out, &tuning) == STATUS_OK) {
        struct strbuf text = strbuf_over(out, size);

        strbuf_add(&text, tuning->said);
    }
    return found;
}

int name_list_count(const struct name_list *list)
{
    char name[NAME_LIST_NAME_SIZE];
    int count = 0;

    while (count < NAME_LIST_MAX && name_list_name(list, count, name, sizeof name))
        count++;
    return count;
}

int name_list_place(const struct name_list *list, const char *name)
{
    char memory[NAME_LIST_NAME_SIZE];

    for (int k = 0; k < NAME_LIST_MAX && name_list_name(list, k, memory, sizeof memory); k++)
        if (strcmp(memory, name) == 0)
            return k;
    return -1;
}

/* --- what each is called besides --- */

static bool add_trade_word(const struct field *field, const char *name, int form,
                           struct strbuf *out)
{
    for (int i = 0; i < TRADE_WORD_COUNT; i++)
        if (trade_words[i].field == field->id && strcmp(trade_words[i].choice, name) == 0 &&
            form-- == 0) {
            strbuf_add(out, trade_words[i].word);
            return true;
        }
    return false;
}

static bool add_material_form(int k, int form, struct strbuf *out)
{
    const char *other =
        string_material_other_name((enum string_material)(k + MATERIAL_NONE + 1), form);

    strbuf_add(out, other ? other : "");
    return other;
}

/* Without the family: "drop-d". */
static bool add_short_name(const char *name, struct strbuf *out)
{
    const char *behind = strchr(name, '-');

    strbuf_add(out, behind ? behind + 1 : name);
    return true;
}

/* As a tech says it; its notes in one word, "dadgad"; then as the table says. */
static bool add_tuning_form(const char *name, int form, struct strbuf *out)
{
    const struct tuning *tuning;

    if (tuning_find(name, &tuning) != STATUS_OK)
        return false;
    if (form == 0) {
        strbuf_add(out, tuning->said);
        return true;
    }
    if (form > 1)
        return name_add_one_of(tuning->also, form - 2, out);
    for (const char *c = tuning->notes; *c; c++)
        if (strchr("ABCDEFGb#", *c))
            strbuf_add_char(out, *c);
    return true;
}

static void add_gauge(double mm, const char *behind, struct strbuf *out)
{
    strbuf_addf(out, " %.0f%s", floor(unit_from_pivot(UNIT_TH, mm) + 0.5), behind);
}

/* "10s", "tens". */
static void add_gauge_words(double mm, struct strbuf *out)
{
    static const char *const words[] = {[8] = "eights",   [9] = "nines",    [10] = "tens",
                                        [11] = "elevens", [12] = "twelves", [13] = "thirteens"};
    const int count = (int)floor(unit_from_pivot(UNIT_TH, mm) + 0.5);

    add_gauge(mm, "s", out);
    if (count >= 8 && count < (int)(sizeof words / sizeof words[0]))
        strbuf_addf(out, " %s", words[count]);
}

/* What the packet says: the name, the outer gauges, what the wound strings are wound with. */
static bool add_set_form(const char *name, int form, struct strbuf *out)
{
    struct string_set set;

    if (form > 0 || string_set_find(name, &set) != STATUS_OK)
        return false;
    const struct string_build *treble = &set.string[0].build;
    const struct string_build *bass = &set.string[set.strings - 1].build;
    const struct string_material_facts *wrap = string_material_facts(bass->wrap_material);

    strbuf_add(out, name);
    add_gauge(treble->gauge_mm, "", out);
    add_gauge(bass->gauge_mm, "", out);
    add_gauge_words(treble->gauge_mm, out);
    if (treble->core_material == MATERIAL_NYLON)
        strbuf_add(out, " nylon tension");
    else if (strncmp(name, "steel-", 6) == 0)
        strbuf_add(out, " acoustic");
    if (wrap && treble->core_material != MATERIAL_NYLON) {
        strbuf_add_char(out, ' ');
        strbuf_add_bytes(out, wrap->name,
                         bass->wrap_material == MATERIAL_NICKEL_PLATED_STEEL
                             ? strcspn(wrap->name, "-")
                             : strlen(wrap->name));
    }
    return true;
}

bool name_list_other_name(const struct name_list *list, int k, int form, struct strbuf *out)
{
    char name[NAME_LIST_NAME_SIZE];

    if (list->of == NAMES_OF_FIELD && is_wood(list->field))
        return wood_get(k) && wood_add_other_name(wood_get(k), form, out);
    if (list->of == NAMES_OF_FIELD && is_material(list->field))
        return add_material_form(k, form, out);
    if (!name_list_name(list, k, name, sizeof name))
        return false;
    if (list->of == NAMES_OF_FIELD)
        return add_trade_word(list->field, name, form, out);
    if (form == 0)
        return add_short_name(name, out);
    return list->of == NAMES_OF_TUNINGS ? add_tuning_form(name, form - 1, out)
                                        : add_set_form(name, form - 1, out);
}

int name_list_own_forms(const struct name_list *list)
{
    return list->of == NAMES_OF_FIELD ? 0 : 1;
}
