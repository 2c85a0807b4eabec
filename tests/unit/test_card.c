/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "build_record.h"
#include "model/card.h"

static void a_record_says_what_stands_on_its_card(void **state)
{
    struct record record;
    struct card card;

    (void)state;
    build_record(&record, "instrument name = Tenor\ninstrument kind = ukulele\n"
                          "instrument owner = Marlo\ninstrument maker = Quayside Fret Works\n"
                          "instrument serial = 7\nvisit.1 date = 2025-01-02\n"
                          "visit.2 date = 2026-03-04\nvisit.3 reason = buzz\n");
    card_make(&record, &card);
    assert_string_equal(card.name, "Tenor");
    assert_string_equal(card.kind, "ukulele");
    assert_string_equal(card.owner, "Marlo");
    assert_string_equal(card.maker, "Quayside Fret Works");
    assert_string_equal(card.serial, "7");
    assert_string_equal(card.visit, "2026-03-04");
    assert_false(card.moves_open);
    record_done(&record);
}

static void an_empty_record_has_a_blank_card(void **state)
{
    struct record record;
    struct card card;

    (void)state;
    record_init(&record);
    card_make(&record, &card);
    assert_string_equal(card.name, "");
    assert_string_equal(card.visit, "");
    assert_false(card.moves_open);
    record_done(&record);
}

static bool has_moves(const char *changes)
{
    struct record record;
    struct card card;

    build_record(&record, build_record_full);
    build_record_add(&record, changes);
    card_make(&record, &card);
    record_done(&record);
    return card.moves_open;
}

/* Relief alone: read at a tolerance's and an uncertainty's distance from its target. The
 * feeler's step is what the relief's uncertainty comes from (MODEL: JCGM 100, 4.3.7). */
static bool has_relief_move(const char *relief, const char *step)
{
    char memory[400];
    struct strbuf lines = STRBUF(memory);
    struct record record;
    struct card card;

    strbuf_addf(&lines,
                "board scale = 24.9 in\nboard strings = 6\nboard frets = 19\n"
                "board join_fret = 12\ntargets relief = .006 in\n"
                "targets relief_tolerance = .001 in\nmodel feeler_step = %s\n"
                "visit.1.pass.1 relief = %s\n",
                step, relief);
    build_record(&record, memory);
    card_make(&record, &card);
    record_done(&record);
    return card.moves_open;
}

static void moves_are_open_when_they_are_larger_than_their_uncertainty(void **state)
{
    (void)state;
    assert_true(has_moves(""));
    assert_true(has_relief_move(".013 in", ".001 in"));
    assert_false(has_relief_move(".006 in", ".001 in"));
    /* Out of tolerance, but no feeler of that step could tell. */
    assert_false(has_relief_move(".008 in", ".010 in"));
    assert_true(has_relief_move(".008 in", ".001 in"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_record_says_what_stands_on_its_card),
        cmocka_unit_test(an_empty_record_has_a_blank_card),
        cmocka_unit_test(moves_are_open_when_they_are_larger_than_their_uncertainty),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
