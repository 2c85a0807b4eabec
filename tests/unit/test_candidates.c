/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "model/reading/candidates.h"
#include "model/strings/string_material.h"
#include "model/reading/tuning.h"
#include "model/neck/wood.h"

/* The names found, ", " between. */
static void check_found_in(const struct name_list *list, const char *typed, enum name_fit fit,
                           const char *names)
{
    struct candidates found;
    char memory[800], name[NAME_LIST_NAME_SIZE];
    struct strbuf text = STRBUF(memory);

    candidates_find(list, typed, &found);
    for (int i = 0; i < found.count; i++) {
        assert_true(name_list_name(list, found.at[i], name, sizeof name));
        strbuf_addf(&text, "%s%s", i > 0 ? ", " : "", name);
    }
    if (found.fit != fit || strcmp(memory, names) != 0)
        fail_msg("\"%s\" gave fit %d: %s", typed, (int)found.fit, memory);
}

static void check_found(enum field_id id, const char *typed, enum name_fit fit, const char *names)
{
    const struct name_list list = name_list_of_field(field_get(id));

    check_found_in(&list, typed, fit, names);
}

static void a_beginning_is_completed(void **state)
{
    (void)state;
    check_found(FIELD_KIND, "cl", NAME_FIT_BEGINNING, "classical");
    check_found(FIELD_KIND, "MAN", NAME_FIT_BEGINNING, "mandolin");
    check_found(FIELD_KIND, "ba", NAME_FIT_BEGINNING, "bass, banjo");
    check_found(FIELD_KIND, "b", NAME_FIT_BEGINNING, "bass, banjo");
    check_found(FIELD_BUILD, "round", NAME_FIT_BEGINNING, "round-wound");
    check_found(FIELD_HEX, "y", NAME_FIT_BEGINNING, "yes");
    check_found(FIELD_BOARD_WOOD, "sit", NAME_FIT_BEGINNING, "Sitka spruce");
    check_found(FIELD_WRAP_MATERIAL, "phos", NAME_FIT_BEGINNING, "phosphor-bronze");
    check_found(FIELD_WRAP_MATERIAL, "80", NAME_FIT_BEGINNING, "80/20-bronze");
}

static void a_name_typed_whole_is_meant(void **state)
{
    (void)state;
    check_found(FIELD_BUILD, "nylon", NAME_FIT_SAME, "nylon");
    check_found(FIELD_BUILD, "Flat Wound", NAME_FIT_SAME, "flat-wound");
    check_found(FIELD_CORE_MATERIAL, "steel", NAME_FIT_SAME, "steel");
    check_found(FIELD_WRAP_MATERIAL, " 80 20 bronze ", NAME_FIT_SAME, "80/20-bronze");
    check_found(FIELD_NECK_WOOD, "mahogany", NAME_FIT_SAME, "mahogany");
}

/* "Common trade words", which alone name no single wood or metal. */
static void a_word_of_the_trade_gives_what_it_could_be(void **state)
{
    (void)state;
    check_found(FIELD_BOARD_WOOD, "rosewood", NAME_FIT_BEGINNING,
                "Indian rosewood, Brazilian rosewood");
    check_found(FIELD_BOARD_WOOD, "palisander", NAME_FIT_BEGINNING,
                "Indian rosewood, Brazilian rosewood");
    check_found(FIELD_NECK_WOOD, "maple", NAME_FIT_BEGINNING, "sugar maple, red maple");
    check_found(FIELD_NECK_WOOD, "cedar", NAME_FIT_BEGINNING, "western redcedar, Spanish cedar");
    check_found(FIELD_WRAP_MATERIAL, "bronze", NAME_FIT_BEGINNING, "phosphor-bronze, 80/20-bronze");
    check_found(FIELD_BUILD, "wound", NAME_FIT_BEGINNING, "round-wound, flat-wound, nylon-wound");
    check_found(FIELD_JOIN, "bolt-on", NAME_FIT_BEGINNING, "bolted, pocket");
    check_found(FIELD_NECK_WOOD, "flamed maple", NAME_FIT_WORD, "sugar maple, red maple");
    check_found(FIELD_BOARD_WOOD, "dark ebony", NAME_FIT_WORD, "ebony");
    check_found(FIELD_BOARD_WOOD, "ebony, dyed", NAME_FIT_WORD, "ebony");
}

static void other_names_of_one_thing_lead_to_it(void **state)
{
    (void)state;
    check_found(FIELD_NECK_WOOD, "rock maple", NAME_FIT_BEGINNING, "sugar maple");
    check_found(FIELD_NECK_WOOD, "Khaya", NAME_FIT_BEGINNING, "African mahogany");
    check_found(FIELD_BOARD_WOOD, "diospyros", NAME_FIT_BEGINNING, "ebony");
    check_found(FIELD_JOIN, "dovetail", NAME_FIT_BEGINNING, "glued");
    check_found(FIELD_ROD, "double action", NAME_FIT_BEGINNING, "two-way");
    check_found(FIELD_KIND, "uke", NAME_FIT_BEGINNING, "ukulele");
    check_found(FIELD_BUILD, "flats", NAME_FIT_BEGINNING, "flat-wound");
    check_found(FIELD_CORE_MATERIAL, "music wire", NAME_FIT_BEGINNING, "steel");
}

static void a_slip_of_the_hand_gives_the_nearest(void **state)
{
    (void)state;
    check_found(FIELD_BOARD_WOOD, "rosewod", NAME_FIT_NEAREST,
                "Indian rosewood, Brazilian rosewood");
    check_found(FIELD_NECK_WOOD, "mohagany", NAME_FIT_NEAREST,
                "mahogany, African mahogany, sapele");
    check_found(FIELD_KIND, "clasical", NAME_FIT_NEAREST, "classical");
    check_found(FIELD_KIND, "mandloin", NAME_FIT_NEAREST, "mandolin");
    check_found(FIELD_ROD, "twp-way", NAME_FIT_NEAREST, "two-way");
    check_found(FIELD_WRAP_MATERIAL, "niclel", NAME_FIT_NEAREST, "nickel, nickel-plated-steel");
}

static void what_is_like_nothing_finds_nothing(void **state)
{
    static const char *const strange[] = {"", " ", "-", "xyz", "purple", "\xC3\xA9rable", "q"};

    (void)state;
    for (size_t i = 0; i < sizeof strange / sizeof strange[0]; i++) {
        check_found(FIELD_KIND, strange[i], NAME_FIT_NONE, "");
        check_found(FIELD_BOARD_WOOD, strange[i], NAME_FIT_NONE, "");
    }
    check_found(FIELD_NAME, "steel", NAME_FIT_NONE, "");
}

/* --- tunings and sets --- */

static void tunings_are_known_by_what_techs_say(void **state)
{
    static const struct {
        enum name_list_of of;
        int strings;
        const char *kind, *typed;
        enum name_fit fit;
        const char *names;
    } cases[] = {
        {NAMES_OF_TUNINGS, 6, "steel-string", "drop d", NAME_FIT_SAME, "guitar-drop-d"},
        {NAMES_OF_TUNINGS, 6, "steel-string", "drop", NAME_FIT_BEGINNING,
         "guitar-drop-d, guitar-double-drop-d, guitar-drop-c"},
        {NAMES_OF_TUNINGS, 6, "steel-string", "d drop", NAME_FIT_BEGINNING,
         "guitar-drop-d, guitar-double-drop-d"},
        {NAMES_OF_TUNINGS, 6, "steel-string", "open g", NAME_FIT_SAME, "guitar-open-g"},
        {NAMES_OF_TUNINGS, 6, "steel-string", "half step down", NAME_FIT_SAME,
         "guitar-half-step-down"},
        /* Eb Ab ..., or E B E ... */
        {NAMES_OF_TUNINGS, 6, "", "eb", NAME_FIT_BEGINNING, "guitar-half-step-down, guitar-open-e"},
        {NAMES_OF_TUNINGS, 6, "", "eb st", NAME_FIT_BEGINNING, "guitar-half-step-down"},
        {NAMES_OF_TUNINGS, 6, "", "semitone down", NAME_FIT_BEGINNING, "guitar-half-step-down"},
        {NAMES_OF_TUNINGS, 6, "", "DADGAD", NAME_FIT_SAME, "guitar-dadgad"},
        {NAMES_OF_TUNINGS, 6, "", "cgcf", NAME_FIT_BEGINNING, "guitar-drop-c"},
        {NAMES_OF_TUNINGS, 6, "", "guitar standard", NAME_FIT_SAME, "guitar-standard"},
        {NAMES_OF_TUNINGS, 6, "", "opn g", NAME_FIT_NEAREST, "guitar-open-g"},
        {NAMES_OF_TUNINGS, 6, "", "polka", NAME_FIT_NONE, ""},
        {NAMES_OF_TUNINGS, 4, "bass", "standard", NAME_FIT_BEGINNING,
         "bass-four, bass-four-half-step-down, bass-four-whole-step-down"},
        {NAMES_OF_TUNINGS, 5, "bass", "whole step", NAME_FIT_BEGINNING,
         "bass-five-whole-step-down"},
        {NAMES_OF_TUNINGS, 6, "electric", "guitar baritone b", NAME_FIT_SAME, "guitar-baritone-b"},
        {NAMES_OF_TUNINGS, 6, "", "baritone guitar b", NAME_FIT_BEGINNING, "guitar-baritone-b"},
        {NAMES_OF_TUNINGS, 12, "steel-string", "12 string", NAME_FIT_BEGINNING,
         "guitar-twelve, guitar-twelve-half-step-down"},
        {NAMES_OF_TUNINGS, 12, "", "12 string guitar", NAME_FIT_BEGINNING, "guitar-twelve"},
        {NAMES_OF_TUNINGS, 5, "bass", "5 string bass", NAME_FIT_BEGINNING,
         "bass-five, bass-five-high-c"},
        {NAMES_OF_TUNINGS, 7, "", "7 string guitar", NAME_FIT_BEGINNING, "guitar-seven"},
        {NAMES_OF_TUNINGS, 6, "resonator", "high g", NAME_FIT_BEGINNING, "guitar-open-g-high"},
        {NAMES_OF_SETS, 6, "electric", "nickel 10", NAME_FIT_BEGINNING, "electric-regular"},
        {NAMES_OF_SETS, 6, "", "10-46", NAME_FIT_BEGINNING, "electric-regular"},
        {NAMES_OF_SETS, 6, "electric", "nines", NAME_FIT_BEGINNING, "electric-light"},
        {NAMES_OF_SETS, 6, "steel-string", "acoustic 12", NAME_FIT_BEGINNING, "steel-light"},
        {NAMES_OF_SETS, 6, "electric", "light", NAME_FIT_SAME, "electric-light"},
        {NAMES_OF_SETS, 6, "", "high tension", NAME_FIT_BEGINNING, "classical-high"},
        {NAMES_OF_SETS, 4, "bass", "45", NAME_FIT_BEGINNING, "bass-long-medium, bass-short-medium"},
        {NAMES_OF_SETS, 4, "bass", "short", NAME_FIT_BEGINNING, "bass-short-medium"},
        {NAMES_OF_SETS, 6, "electric", "baritone", NAME_FIT_SAME, "electric-baritone"},
        {NAMES_OF_SETS, 4, "steel-string", "tenor", NAME_FIT_SAME, "steel-tenor"},
        {NAMES_OF_SETS, 8, "mandolin", "medium", NAME_FIT_SAME, "mandolin-medium"},
        {NAMES_OF_SETS, 6, "", "regulr", NAME_FIT_NEAREST, "electric-regular"},
        {NAMES_OF_SETS, 6, "", "piano wire", NAME_FIT_NONE, ""},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct name_list list = {.of = cases[i].of, .strings = cases[i].strings};

        strncpy(list.kind, cases[i].kind, sizeof list.kind - 1);
        check_found_in(&list, cases[i].typed, cases[i].fit, cases[i].names);
    }
}

/* Nothing for another number of strings or another kind; every row is somewhere. */
static void what_fits_the_instrument_is_offered(void **state)
{
    struct name_list list = {.of = NAMES_OF_TUNINGS, .strings = 4, .kind = "ukulele"};
    char name[NAME_LIST_NAME_SIZE];
    int tunings = 0;

    (void)state;
    assert_true(name_list_name(&list, 0, name, sizeof name));
    assert_string_equal(name, "ukulele-c");
    memcpy(list.kind, "bass", sizeof "bass");
    assert_true(name_list_name(&list, 0, name, sizeof name));
    assert_string_equal(name, "bass-four");
    for (int k = 0; name_list_name(&list, k, name, sizeof name); k++)
        assert_memory_equal(name, "bass-", 5);
    memcpy(list.kind, "other", sizeof "other");
    for (int strings = 0; strings <= STRINGS_MAX; strings++) {
        const struct tuning *tuning;

        list.strings = strings;
        assert_true(name_list_count(&list) < NAME_LIST_MAX);
        for (int k = 0; name_list_name(&list, k, name, sizeof name); k++, tunings++) {
            assert_int_equal(tuning_find(name, &tuning), STATUS_OK);
            assert_true(tuning_is_for(tuning, strings));
            assert_int_equal(name_list_place(&list, name), k);
        }
    }
    assert_int_equal(tunings, tuning_count());
    list = (struct name_list){.of = NAMES_OF_SETS, .strings = 5, .kind = "bass"};
    assert_int_equal(name_list_count(&list), 1);
    assert_true(name_list_name(&list, 0, name, sizeof name));
    assert_string_equal(name, "bass-five-long-medium");
}

/* Each name typed whole finds itself alone, in either case; its first letters find it too. */
static void every_name_finds_itself(void **state)
{
    int lists = 0;

    (void)state;
    for (int id = 0; id < FIELD_COUNT_; id++) {
        const struct name_list list = name_list_of_field(field_get((enum field_id)id));
        const int count = name_list_count(&list);

        assert_int_equal(name_list_exists(&list), count > 0);
        assert_true(count < NAME_LIST_MAX);
        lists += count > 0;
        for (int k = 0; k < count; k++) {
            char name[NAME_LIST_NAME_SIZE];
            struct candidates found;
            bool there = false;

            assert_true(name_list_name(&list, k, name, sizeof name));
            candidates_find(&list, name, &found);
            assert_int_equal(found.fit, NAME_FIT_SAME);
            assert_int_equal(found.count, 1);
            assert_int_equal(found.at[0], k);
            name[1] = '\0';
            candidates_find(&list, name, &found);
            for (int i = 0; i < found.count; i++)
                there = there || found.at[i] == k;
            assert_true(there);
        }
    }
    assert_true(lists > 12);
}

/* A word of the trade leads to what the field takes, and is none of its names. */
static void trade_words_lead_somewhere(void **state)
{
    static const struct {
        enum field_id field;
        const char *word, *choice;
    } words[] = {
#define TRADE_WORD(field_, word_, choice_) {FIELD_##field_, word_, choice_},
#include "model/reading/trade_word_table.h"
#undef TRADE_WORD
    };

    (void)state;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        const struct field *field = field_get(words[i].field);
        const struct name_list list = name_list_of_field(field);
        struct field_value value;
        struct candidates found;
        bool there = false;

        if (field_read(field, words[i].choice, UNIT_NONE, &value, NULL) != STATUS_OK)
            fail_msg("%s is no choice of %s", words[i].choice, field->label);
        candidates_find(&list, words[i].word, &found);
        assert_int_equal(found.fit, NAME_FIT_BEGINNING);
        for (int k = 0; k < found.count; k++)
            there = there || found.at[k] == (int)value.value;
        if (!there)
            fail_msg("%s does not lead to %s", words[i].word, words[i].choice);
    }
}

/* What a record says by another name is known to the figures, and means one thing. */
static void other_names_are_found_by_the_figures(void **state)
{
    (void)state;
    for (int k = 0; k < wood_count(); k++)
        for (int form = 0;; form++) {
            char memory[64];
            struct strbuf name = STRBUF(memory);
            const struct wood *wood = NULL;

            if (!wood_add_other_name(wood_get(k), form, &name))
                break;
            assert_true(name.length > 2 && !name.truncated);
            assert_int_equal(wood_find(memory, &wood), STATUS_OK);
            assert_ptr_equal(wood, wood_get(k));
        }
    for (int m = MATERIAL_NONE + 1; m < MATERIAL_COUNT_; m++)
        for (int form = 0; string_material_other_name((enum string_material)m, form); form++) {
            enum string_material found = MATERIAL_NONE;

            assert_int_equal(string_material_find(
                                 string_material_other_name((enum string_material)m, form), &found),
                             STATUS_OK);
            assert_int_equal(found, m);
        }
}

static void long_texts_are_folded_within_bounds(void **state)
{
    const struct name_list list = name_list_of_field(field_get(FIELD_BOARD_WOOD));
    char text[400], folded[NAME_FOLDED_SIZE];
    struct candidates found;

    (void)state;
    memset(text, 'A', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    name_fold(text, folded);
    assert_int_equal(strlen(folded), NAME_FOLDED_SIZE - 1);
    candidates_find(&list, text, &found);
    assert_int_equal(found.count, 0);
    name_fold(" -_/A  b-_C/ ", folded);
    assert_string_equal(folded, "a b c");
    name_fold("--", folded);
    assert_string_equal(folded, "");
}

static void slips_are_counted(void **state)
{
    static const struct {
        const char *text, *name;
        int distance;
    } slips[] = {
        {"ebnoy", "ebony", 1}, {"ebny", "ebony", 1},          {"eboony", "ebony", 1},
        {"ebany", "ebony", 1}, {"wlanut", "black walnut", 1}, {"mapel suger", "maple sugar", 2},
    };

    (void)state;
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        const struct name_match match = name_match(slips[i].text, slips[i].name);

        if (match.fit != NAME_FIT_NEAREST || match.distance != slips[i].distance)
            fail_msg("%s, %s: fit %d, %d off", slips[i].text, slips[i].name, (int)match.fit,
                     match.distance);
    }
    assert_int_equal(name_match("ab", "xy").fit, NAME_FIT_NONE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_beginning_is_completed),
        cmocka_unit_test(a_name_typed_whole_is_meant),
        cmocka_unit_test(a_word_of_the_trade_gives_what_it_could_be),
        cmocka_unit_test(other_names_of_one_thing_lead_to_it),
        cmocka_unit_test(a_slip_of_the_hand_gives_the_nearest),
        cmocka_unit_test(what_is_like_nothing_finds_nothing),
        cmocka_unit_test(every_name_finds_itself),
        cmocka_unit_test(tunings_are_known_by_what_techs_say),
        cmocka_unit_test(what_fits_the_instrument_is_offered),
        cmocka_unit_test(trade_words_lead_somewhere),
        cmocka_unit_test(other_names_are_found_by_the_figures),
        cmocka_unit_test(long_texts_are_folded_within_bounds),
        cmocka_unit_test(slips_are_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
