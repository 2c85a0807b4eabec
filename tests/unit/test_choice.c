/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "session/choice.h"

static struct choice look(enum field_id id, const char *text)
{
    const struct name_list list = name_list_of_field(field_get(id));
    struct choice choice;

    choice_look(text, &list, &choice);
    return choice;
}

static void check_kept(enum field_id id, const char *typed, const char *kept)
{
    const struct name_list list = name_list_of_field(field_get(id));
    char memory[80];
    struct strbuf text = STRBUF(memory);

    choice_spell(typed, &list, &text);
    if (strcmp(memory, kept) != 0)
        fail_msg("\"%s\" would be kept as \"%s\"", typed, memory);
}

static void check_said(enum field_id id, const char *typed, const char *said)
{
    const struct name_list list = name_list_of_field(field_get(id));
    const struct choice choice = look(id, typed);
    char memory[160];
    struct strbuf words = STRBUF(memory);

    choice_add_words(&choice, &list, typed, &words);
    assert_string_equal(memory, said);
    /* Room beside nothing else in a row of 80. */
    assert_true(words.length <= 78);
}

static void a_number_or_a_name_is_taken(void **state)
{
    (void)state;
    check_kept(FIELD_KIND, "2", "classical");
    check_kept(FIELD_KIND, "10", "other");
    check_kept(FIELD_KIND, "cl", "classical");
    check_kept(FIELD_KIND, "Uke", "ukulele");
    check_kept(FIELD_BOARD_WOOD, "1", "sugar maple");
    check_kept(FIELD_BOARD_WOOD, "18", "ebony");
    check_kept(FIELD_BOARD_WOOD, "EBONY", "ebony");
    check_kept(FIELD_WRAP_MATERIAL, "phos", "phosphor-bronze");
    check_kept(FIELD_WRAP_MATERIAL, "80/20", "80/20-bronze");
    check_said(FIELD_KIND, "2", "classical");
    check_said(FIELD_BOARD_WOOD, "sit", "Sitka spruce");
    check_said(FIELD_BOARD_WOOD, "ebony", "");
}

static void several_are_asked_about(void **state)
{
    (void)state;
    assert_int_equal(look(FIELD_KIND, "ba").state, CHOICE_WHICH);
    assert_int_equal(look(FIELD_KIND, "ba").found.count, 2);
    assert_int_equal(look(FIELD_KIND, "ba").in_hand, -1);
    check_kept(FIELD_KIND, "ba", "ba");
    check_said(FIELD_KIND, "ba", "bass or banjo? type on, or its number");
    check_said(FIELD_BOARD_WOOD, "rosewood",
               "Indian rosewood or Brazilian rosewood? its number, or keep it");
    check_said(FIELD_BUILD, "wound", "round-wound or flat-wound...? type on, or its number");
}

/* A wood that the table does not know may be typed; a kind may not. */
static void the_unknown_is_kept_where_a_list_is_open(void **state)
{
    static const struct {
        enum field_id field;
        const char *text;
        bool good, doubtful;
    } cases[] = {{FIELD_BOARD_WOOD, "wych elm", true, false},
                 {FIELD_BOARD_WOOD, "rosewod", true, true},
                 {FIELD_BOARD_WOOD, "rosewood", true, true},
                 {FIELD_BOARD_WOOD, "ebony", true, false},
                 {FIELD_BOARD_WOOD, "99", false, false},
                 {FIELD_KIND, "harp", false, false},
                 {FIELD_KIND, "clasical", false, false},
                 {FIELD_KIND, "classical", true, false},
                 {FIELD_KIND, "11", false, false},
                 {FIELD_KIND, "0", false, false},
                 {FIELD_CORE_MATERIAL, "titanium", true, false}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct name_list list = name_list_of_field(field_get(cases[i].field));
        const struct choice choice = look(cases[i].field, cases[i].text);

        if (choice_is_good(&choice, &list) != cases[i].good ||
            choice_is_doubtful(&choice, &list) != cases[i].doubtful)
            fail_msg("\"%s\": state %d", cases[i].text, (int)choice.state);
    }
    check_kept(FIELD_BOARD_WOOD, "Wych elm", "Wych elm");
    check_said(FIELD_BOARD_WOOD, "Wych elm", "not in the list; kept as typed");
    check_said(FIELD_KIND, "harp", "none of these; type one or its number");
    check_said(FIELD_KIND, "11", "the list ends at 10");
}

static void what_is_shown_goes_with_it(void **state)
{
    (void)state;
    assert_int_equal(look(FIELD_KIND, "").state, CHOICE_NONE);
    assert_int_equal(look(FIELD_NAME, "steel").state, CHOICE_NONE);
    /* A number shows the whole list, and so does what is none of it. */
    assert_int_equal(look(FIELD_KIND, "3").found.count, 10);
    assert_int_equal(look(FIELD_KIND, "3").in_hand, 2);
    assert_int_equal(look(FIELD_KIND, "harp").found.count, 10);
    assert_int_equal(look(FIELD_BOARD_WOOD, "7").found.count, 18);
    assert_int_equal(look(FIELD_KIND, "cl").found.count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_or_a_name_is_taken),
        cmocka_unit_test(several_are_asked_about),
        cmocka_unit_test(the_unknown_is_kept_where_a_list_is_open),
        cmocka_unit_test(what_is_shown_goes_with_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
