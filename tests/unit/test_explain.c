/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <stdio.h>
#include <string.h>

#include "words/explain.h"
#include "words/move_words.h"
#include "base/num.h"
#include "survey_record.h"

/* A record and what was derived from it, ready for explanations. */
struct asked {
    struct record record;
    struct derived derived;
    struct explain_from from;
};

static struct asked *ask(const char *lines)
{
    struct asked *asked = malloc(sizeof *asked);

    build_record(&asked->record, lines);
    derive_pass(place_of(&asked->record, 1, 1), &asked->derived);
    asked->from =
        (struct explain_from){.place = place_of(&asked->record, 1, 1), .derived = &asked->derived};
    return asked;
}

static void done(struct asked *asked)
{
    record_done(&asked->record);
    free(asked);
}

static int row_of(enum figure_id id, int string)
{
    return figure_info(id)->per == PER_STRING ? string : 0;
}

static bool is_known(const struct asked *asked, enum figure_id id, int string)
{
    return asked->derived.figures.at[id][row_of(id, string)].known != KNOWN_ABSENT;
}

static void every_figure_has_its_symbols(void **state)
{
    (void)state;
    for (int id = 0; id < FIGURE_COUNT_; id++) {
        const int symbols = explain_symbol_count((enum figure_id)id);

        if (symbols < 1)
            fail_msg("%s has no symbol", figure_info((enum figure_id)id)->name);
        /* Hand, value, formula and source stand beside them. */
        assert_true(symbols + 4 <= EXPLAIN_LINES_MAX);
    }
}

static void known_figures_are_said_with_their_number(void **state)
{
    struct asked *asked = ask(build_record_full);
    int known = 0;

    (void)state;
    for (int id = 0; id < FIGURE_COUNT_; id++) {
        const struct figure_info *info = figure_info((enum figure_id)id);
        struct explanation explanation;

        explain_figure(&asked->from, (enum figure_id)id, 6, &explanation);
        /* A pull has a note too: the way back to a gauge. */
        const int notes = id == FIGURE_TENSION || id == FIGURE_TENSION_TOTAL;
        assert_int_equal(explanation.count, explain_symbol_count((enum figure_id)id) + 4 + notes);
        assert_int_equal(explanation.lines[0].part, EXPLAIN_HAND);
        assert_int_equal(explanation.lines[1].part, EXPLAIN_VALUE);
        assert_non_null(strstr(explanation.lines[1].text, info->label));
        assert_int_equal(strstr(explanation.lines[0].text, "not known") == NULL,
                         is_known(asked, (enum figure_id)id, 6));
        assert_int_equal(strstr(explanation.lines[1].text, "not known") == NULL,
                         is_known(asked, (enum figure_id)id, 6));
        assert_string_equal(explanation.lines[2].text, info->formula);
        assert_string_equal(explanation.lines[explanation.count - 1 - notes].text, info->source);
        for (int i = 0; i < explanation.count; i++)
            assert_true(strlen(explanation.lines[i].text) + 1 < sizeof explanation.lines[i].text);
        known += is_known(asked, (enum figure_id)id, 6);
    }
    assert_true(known > 10);
    done(asked);
}

/* Whatever its sign; one that is never above 0 has no words for it. */
static void every_figure_means_something_for_the_hand(void **state)
{
    struct asked *asked = ask(build_record_full);

    (void)state;
    for (int id = 0; id < FIGURE_COUNT_; id++) {
        size_t length = 0;

        for (int value = -2; value <= 2; value++) {
            struct explanation explanation;

            figures_set(&asked->derived.figures, (enum figure_id)id, row_of((enum figure_id)id, 6),
                        value, KNOWN_READ);
            explain_figure(&asked->from, (enum figure_id)id, 6, &explanation);
            assert_int_equal(explanation.lines[0].part, EXPLAIN_HAND);
            length += strlen(explanation.lines[0].text);
        }
        if (length == 0)
            fail_msg("%s means nothing", figure_info((enum figure_id)id)->name);
    }
    done(asked);
}

/* "Ls: 649.9 mm": scale and setback put together here, not taken from the board. */
static void the_instrument_s_own_numbers_stand_in(void **state)
{
    struct asked *asked = ask(build_record_full);
    struct explanation explanation;
    char memory[64];
    struct strbuf want = STRBUF(memory);
    const double scale = assert_given(record_entered_one(&asked->record, FIELD_SCALE));
    const double setback = record_entered_string(&asked->record, FIELD_SETBACK, 6).value;
    int met = 0;

    (void)state;
    strbuf_add(&want, "Ls: ");
    num_format_fixed(scale + setback, 1, false, &want);
    strbuf_add(&want, " mm");
    explain_figure(&asked->from, FIGURE_SADDLE_CHANGE, 6, &explanation);
    for (int i = 0; i < explanation.count; i++)
        met += strncmp(explanation.lines[i].text, memory, strlen(memory)) == 0;
    assert_int_equal(met, 1);
    done(asked);
}

static void what_is_missing_is_said_so(void **state)
{
    struct asked *asked = ask("board strings = 6\n");
    struct explanation explanation;

    (void)state;
    for (int id = 0; id < FIGURE_COUNT_; id++) {
        explain_figure(&asked->from, (enum figure_id)id, 1, &explanation);
        if (!is_known(asked, (enum figure_id)id, 1))
            assert_non_null(strstr(explanation.lines[0].text, "not known"));
    }
    /* With nothing else known there is nowhere to go on to. */
    assert_int_equal(explain_next(&asked->derived, FIGURE_RELIEF, 1, 1), FIGURE_RELIEF);
    done(asked);
}

static void next_goes_round_all_that_is_known(void **state)
{
    struct asked *asked = ask(build_record_full);
    enum figure_id at = FIGURE_RELIEF;
    int known = 0, met = 0;

    (void)state;
    for (int id = 0; id < FIGURE_COUNT_; id++)
        known += is_known(asked, (enum figure_id)id, 6);
    do {
        const enum figure_id next = explain_next(&asked->derived, at, 6, 1);

        assert_true(is_known(asked, next, 6));
        assert_int_equal(explain_next(&asked->derived, next, 6, -1), at);
        at = next;
        met++;
    } while (at != FIGURE_RELIEF && met <= FIGURE_COUNT_);
    assert_int_equal(met, known);
    done(asked);
}

/* Whoever explains need not have asked for the uncertainty of what is predicted. */
static void what_is_predicted_has_its_doubt(void **state)
{
    static const enum figure_id ids[] = {FIGURE_SETBACK_PREDICTED, FIGURE_SETBACK_BEST,
                                         FIGURE_CENTS_BEST_RMS};
    struct explanation without, with;
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_build(&record, "");
    const struct explain_from from = {.place = place_current(&record), .derived = &derived};

    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++) {
        derive_current(&record, &derived);
        explain_figure(&from, ids[i], 6, &without);
        assert_false(derived.has_predicted_u);
        derive_predicted_u(from.place, &derived);
        explain_figure(&from, ids[i], 6, &with);
        assert_int_equal(without.count, with.count);
        for (int k = 0; k < with.count; k++)
            assert_string_equal(without.lines[k].text, with.lines[k].text);
    }
    record_done(&record);
}

/* The hand is told what the bench orders, which counts all passes and stops short of the target,
 * not what one pass alone would ask for. */
static void the_hand_gets_what_the_bench_orders(void **state)
{
    static const enum figure_id ids[] = {FIGURE_SLOT_CHANGE, FIGURE_SADDLE_CHANGE};
    static const enum move_kind kinds[] = {MOVE_SLOTS, MOVE_SADDLE};
    const struct shop_units inches = shop_units_inch();
    struct asked *asked = ask(build_record_full);
    int due = 0, left = 0;

    (void)state;
    asked->from.units = &inches;
    build_record_add(&asked->record, "bridge kind = blank\n");
    derive_pass(asked->from.place, &asked->derived);
    for (int i = 0; i < 2; i++) {
        struct explanation explanation;
        struct move_words words;

        move_words_make(&asked->derived, kinds[i], &inches, &words);
        for (int s = 1; s <= 6; s++) {
            const struct move_amount *order = &asked->derived.moves.move[kinds[i]].string[s];

            explain_figure(&asked->from, ids[i], s, &explanation);
            if (order->due)
                assert_non_null(strstr(explanation.lines[0].text, words.string[s] + 1));
            else
                assert_non_null(strstr(explanation.lines[0].text,
                                       order->off ? "it is left for now" : "leave "));
            due += order->due;
            left += !order->due;
        }
    }
    assert_true(due > 0 && left > 0);
    done(asked);
}

/* One doubt for both: what the gauge and the hand that holds it miss by. */
static void turns_have_the_bench_s_doubt(void **state)
{
    const struct shop_units inches = shop_units_inch();
    struct asked *asked = ask(build_record_full);
    const struct move *saddle = &asked->derived.moves.move[MOVE_SADDLE];
    int due = 0;

    (void)state;
    asked->from.units = &inches;
    build_record_add(&asked->record, "bridge thread = 0.5 mm\n");
    derive_pass(asked->from.place, &asked->derived);
    for (int s = 1; s <= 6; s++) {
        struct explanation explanation;
        struct move_words words;
        char turns[40];

        if (!saddle->string[s].due || saddle->string[s].u < saddle->most_u)
            continue;
        due++;
        move_words_make(&asked->derived, MOVE_SADDLE, &inches, &words);
        assert_int_equal(strncmp(words.amount, "turns \xC2\xB1", strlen("turns \xC2\xB1")), 0);
        snprintf(turns, sizeof turns, "(%s %.*s)", words.string[s], (int)strcspn(words.amount, ","),
                 words.amount);
        explain_figure(&asked->from, FIGURE_SADDLE_CHANGE, s, &explanation);
        assert_non_null(strstr(explanation.lines[0].text, turns));
    }
    assert_true(due > 0);
    done(asked);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_figure_has_its_symbols),
        cmocka_unit_test(known_figures_are_said_with_their_number),
        cmocka_unit_test(every_figure_means_something_for_the_hand),
        cmocka_unit_test(the_instrument_s_own_numbers_stand_in),
        cmocka_unit_test(what_is_missing_is_said_so),
        cmocka_unit_test(next_goes_round_all_that_is_known),
        cmocka_unit_test(what_is_predicted_has_its_doubt),
        cmocka_unit_test(the_hand_gets_what_the_bench_orders),
        cmocka_unit_test(turns_have_the_bench_s_doubt),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
