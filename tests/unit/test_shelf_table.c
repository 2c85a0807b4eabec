/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_table.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "model/common/day.h"
#include "near.h"
#include "seeded.h"
#include "shelf/shelf_journal.h"

/* Questions and tables over a list whose facts are written by hand. */

enum { ITEMS = 6, TODAY = 740000 };

struct stage {
    struct shelf_list list;
    struct shelf_facts facts[ITEMS];
    struct shelf_table table;
};

static void put(struct stage *stage, int item, enum fact_number id, double value)
{
    stage->facts[item].number[id] = maybe_given(value);
}

static int open_stage(void **state)
{
    static const char *const files[ITEMS] = {"a", "b", "c", "d", "e", "f"};
    struct stage *stage = calloc(1, sizeof *stage);

    if (!stage)
        return -1;
    shelf_list_init(&stage->list, "/quayside", NULL, 0);
    stage->list.ground.today = TODAY;
    struct shelf_item *items = shelf_list_room(&stage->list, ITEMS);
    if (!items)
        return -1;
    for (int i = 0; i < ITEMS; i++) {
        stage->facts[i] = *shelf_facts_blank();
        items[i] = (struct shelf_item){.file = files[i],
                                       .card = {.name = files[i],
                                                .kind = i < 4 ? "electric" : "bass",
                                                .owner = "Marlo",
                                                .maker = "",
                                                .serial = "",
                                                .visit = ""},
                                       .facts = &stage->facts[i],
                                       .trouble = ""};
    }
    *state = stage;
    return 0;
}

static int close_stage(void **state)
{
    struct stage *stage = *state;

    shelf_list_done(&stage->list);
    free(stage);
    return 0;
}

static void expect_found(const struct stage *stage, const char *files)
{
    char memory[20];
    struct strbuf out = STRBUF(memory);

    for (size_t i = 0; i < stage->list.found_count; i++)
        strbuf_add(&out, stage->list.found[i]->file);
    assert_string_equal(memory, files);
}

static void press_key(struct stage *stage, uint32_t key)
{
    const struct event event = {.type = EVENT_KEY, .key = key};

    shelf_list_handle(&stage->list, &event);
}

static void press(struct stage *stage, const char *keys)
{
    for (; *keys; keys++)
        press_key(stage, (uint32_t)(unsigned char)*keys);
}

/* By the day promised; what was not promised comes last. Words narrow the answer too. */
static void what_is_in_the_house_is_sorted_by_promise(void **state)
{
    struct stage *stage = *state;

    for (int i = 0; i < ITEMS; i++) {
        put(stage, i, FACT_HANDED_OVER, i == 1);
        put(stage, i, FACT_FOLLOWED, 1);
    }
    put(stage, 0, FACT_PROMISED_DAY, TODAY + 3);
    put(stage, 2, FACT_PROMISED_DAY, TODAY - 3);
    put(stage, 3, FACT_PROMISED_DAY, TODAY);
    put(stage, 5, FACT_PROMISED_DAY, TODAY + 1);
    shelf_list_take(&stage->list);
    press(stage, "*i");
    expect_found(stage, "cdfae");
    press(stage, "bass");
    expect_found(stage, "fe");
    char memory[40];
    struct strbuf text = STRBUF(memory);
    shelf_column_add(&stage->list.ground, &stage->list.items[2], COLUMN_PROMISED, false, &text);
    assert_non_null(strstr(memory, " late"));
    strbuf_clear(&text);
    shelf_column_add(&stage->list.ground, &stage->list.items[3], COLUMN_PROMISED, false, &text);
    assert_non_null(strstr(memory, " today"));
}

/* The same question again, and Escape, list all again. */
static void a_question_is_left_the_way_it_was_asked(void **state)
{
    struct stage *stage = *state;

    put(stage, 4, FACT_SADDLE_LOW, 1);
    put(stage, 2, FACT_SADDLE_LOW, 1);
    put(stage, 4, FACT_SADDLE_OVER_LEAST, -0.5);
    put(stage, 2, FACT_SADDLE_OVER_LEAST, 0.2);
    shelf_list_take(&stage->list);
    press(stage, "*s");
    expect_found(stage, "ec");
    press(stage, "*s");
    assert_int_equal(stage->list.found_count, ITEMS);
    press(stage, "*s");
    press_key(stage, SILLET_KEY_ESCAPE);
    assert_int_equal(stage->list.found_count, ITEMS);
}

/* A month ahead; without a day by the air alone, which is that of the latest visit; nothing that is
 * in the house. */
static void due_is_what_will_be_within_a_month(void **state)
{
    struct stage *stage = *state;

    for (int i = 0; i < ITEMS; i++) {
        put(stage, i, FACT_HANDED_OVER, i != 5);
        put(stage, i, FACT_FOLLOWED, 1);
        put(stage, i, FACT_LAST_DAY, TODAY - 100 - i);
        put(stage, i, FACT_MOISTURE, 9);
    }
    put(stage, 0, FACT_NEXT_CHECK_DAY, TODAY + 30);
    put(stage, 1, FACT_NEXT_CHECK_DAY, TODAY + 31);
    put(stage, 2, FACT_NEXT_CHECK_DAY, TODAY - 400);
    put(stage, 3, FACT_MOISTURE, 6.9);
    put(stage, 5, FACT_NEXT_CHECK_DAY, TODAY - 1);
    shelf_list_take(&stage->list);
    press(stage, "*d");
    expect_found(stage, "cad");
    assert_near(stage->list.ground.moisture_now.value, 9, 0);
}

static void expect_cell(const struct stage *stage, int row, int column, const char *text)
{
    assert_true(row < stage->table.rows && column < stage->table.columns);
    assert_string_equal(stage->table.cell[row][column], text);
}

/* Twenty checks at a tenth of the +- each and one at twice: 20 of 21 are inside, and 95 % of them
 * within a tenth; another one outside, and 95 % are within twice. */
static void proof_is_counted_and_its_factor_found(void **state)
{
    struct stage *stage = *state;
    char proof[30];

    memset(proof, PROOF_FIRST + 2, 20);
    proof[20] = PROOF_FIRST + 40;
    proof[21] = '\0';
    shelf_facts_put_text(&stage->facts[0], FACT_PROOF_SLOTS, proof);
    shelf_list_take(&stage->list);
    assert_true(shelf_table_make(&stage->list, TABLE_PROOF, &stage->table));
    expect_cell(stage, 0, 0, "all");
    expect_cell(stage, 0, 2, "21");
    expect_cell(stage, 0, 3, "20");
    expect_cell(stage, 0, 4, "95.2");
    expect_cell(stage, 0, 5, "0.10");
    expect_cell(stage, 0, 6, "1");
    shelf_facts_put_text(&stage->facts[4], FACT_PROOF_SADDLE, (char[]){PROOF_FIRST + 21, '\0'});
    assert_true(shelf_table_make(&stage->list, TABLE_PROOF, &stage->table));
    expect_cell(stage, 0, 3, "20");
    expect_cell(stage, 0, 4, "90.9");
    expect_cell(stage, 0, 5, "1.05");
    expect_cell(stage, 0, 6, "2");
    assert_int_equal(stage->table.rows, 3 + 2 + 2);
    expect_cell(stage, 5, 0, "bass");
    expect_cell(stage, 5, 5, "too few");
}

/* Normal errors, of which 95 % would lie inside a +- that is `factor` times as wide as the one that
 * was said. */
static void plant(struct stage *stage, struct seeded *seed, double factor)
{
    static const enum fact_text proofs[] = {FACT_PROOF_ROD, FACT_PROOF_SLOTS, FACT_PROOF_SADDLE};
    enum { CHECKS = 95 };

    for (int item = 0; item < ITEMS; item++)
        for (int move = 0; move < 3; move++) {
            char proof[CHECKS + 1] = "";

            for (int i = 0; i < CHECKS; i++) {
                const double share = fabs(seeded_normal(seed)) * factor / 1.959964;
                const double level = fmin(ceil(share / PROOF_STEP), PROOF_LEVELS - 1);

                proof[i] = (char)(PROOF_FIRST + (int)level);
            }
            shelf_facts_put_text(&stage->facts[item], proofs[move], proof);
        }
}

/* The factor that was planted is found: 1710 checks know it to 2.3 % (the quantile's standard
 * error, sqrt(.95 .05 / n) over the density there), and it is told in steps of .05. */
static void a_planted_factor_is_found(void **state)
{
    static const double factors[] = {0.5, 0.8, 1, 1.3, 2};
    struct stage *stage = *state;
    struct seeded seed = seeded_start("a planted factor");

    for (size_t i = 0; i < sizeof factors / sizeof factors[0]; i++) {
        plant(stage, &seed, factors[i]);
        shelf_list_take(&stage->list);
        assert_true(shelf_table_make(&stage->list, TABLE_PROOF, &stage->table));
        expect_cell(stage, 0, 2, "1710");
        assert_near(strtod(stage->table.cell[0][5], NULL), factors[i],
                    PROOF_STEP + 4 * .023 * factors[i]);
        /* A normal error within 1.96 / factor standard deviations. */
        const double inside = erf(1.959964 / factors[i] / sqrt(2));
        assert_near(strtod(stage->table.cell[0][4], NULL) / 100, inside,
                    .0006 + 4 * sqrt(inside * (1 - inside) / 1710));
    }
    plant(stage, &seed, 5);
    assert_true(shelf_table_make(&stage->list, TABLE_PROOF, &stage->table));
    expect_cell(stage, 0, 5, "over 3.05");
}

/* Of three electrics that want 1, 2 and 4 mm the median wants 2, and half of them 1.5 to 3. */
static void usual_is_kind_by_kind(void **state)
{
    struct stage *stage = *state;

    put(stage, 0, FACT_WANTED_ACTION_BASS, 1);
    put(stage, 1, FACT_WANTED_ACTION_BASS, 4);
    put(stage, 2, FACT_WANTED_ACTION_BASS, 2);
    put(stage, 4, FACT_WANTED_ACTION_BASS, 9);
    shelf_list_take(&stage->list);
    stage->list.ground.plain = true;
    assert_true(shelf_table_make(&stage->list, TABLE_USUAL, &stage->table));
    assert_int_equal(stage->table.rows, 2);
    expect_cell(stage, 0, 0, "electric");
    expect_cell(stage, 0, 1, "bass action");
    expect_cell(stage, 0, 2, "2.000");
    expect_cell(stage, 0, 3, "1.500 to 3.000");
    expect_cell(stage, 0, 4, "3");
    expect_cell(stage, 1, 2, "9.000");
    /* It is no matter which of them the list shows; what is typed narrows both. */
    put(stage, 1, FACT_SADDLE_LOW, 1);
    press(stage, "*s");
    expect_found(stage, "b");
    assert_true(shelf_table_make(&stage->list, TABLE_USUAL, &stage->table));
    expect_cell(stage, 0, 4, "3");
    press(stage, "bass");
    assert_true(shelf_table_make(&stage->list, TABLE_USUAL, &stage->table));
    assert_int_equal(stage->table.rows, 1);
}

static void a_quarter_turn_is_told_from_three_necks_on(void **state)
{
    struct stage *stage = *state;

    for (int i = 0; i < 5; i++)
        stage->list.items[i].card.rod =
            (struct rod_neck){.per_turn_mm = -0.2 - 0.04 * i, .per_turn_u_mm = 0.01};
    shelf_list_take(&stage->list);
    stage->list.ground.plain = true;
    assert_true(shelf_table_make(&stage->list, TABLE_TURNS, &stage->table));
    assert_int_equal(stage->table.rows, 2);
    expect_cell(stage, 0, 0, "electric");
    expect_cell(stage, 0, 1, "-0.065");
    expect_cell(stage, 0, 3, "4");
    expect_cell(stage, 1, 0, "bass");
    expect_cell(stage, 1, 1, "");
    expect_cell(stage, 1, 3, "1");
}

static void expect_search(struct stage *stage, const char *words, const char *files)
{
    assert_true(lineedit_set(&stage->list.filter, words));
    shelf_list_narrow(&stage->list);
    expect_found(stage, files);
}

/* Whatever is typed of accents and capitals; every word somewhere; hostile words find nothing and
 * break nothing. */
static void words_are_found_whatever_their_accents(void **state)
{
    struct stage *stage = *state;
    char longest[LINEEDIT_MAX + 1];

    stage->list.items[0].card.name = "S\xC3\xA9"
                                     "ance";
    stage->list.items[1].card.owner = "J\xC3\xB8rn \xC3\x85kerlund";
    stage->list.items[2].card.maker = "Stra\xC3\x9F"
                                      "ner";
    stage->list.items[3].card.serial = "QFW-P-009";
    stage->list.items[4].card.name = "\xFF\xC3 broken";
    shelf_facts_put_text(&stage->facts[5], FACT_ALSO, "ukulele-c 2024 2022");
    shelf_facts_put_text(&stage->facts[3], FACT_TICKET, "17423");
    shelf_facts_put_text(&stage->facts[5], FACT_TICKET, "7");
    shelf_list_take(&stage->list);
    expect_search(stage, "SEANCE", "a");
    expect_search(stage, "s\xC3\x89", "a");
    expect_search(stage, "akerlund jorn", "b");
    expect_search(stage, "strassner", "c");
    expect_search(stage, "stra\xC3\x9F electric", "c");
    expect_search(stage, "stra\xC3\x9F bass", "");
    expect_search(stage, "qfw-p", "d");
    expect_search(stage, "174", "d");
    expect_search(stage, "423", "");
    expect_search(stage, "7 bass", "f");
    expect_search(stage, "2024", "f");
    expect_search(stage, "202", "");
    expect_search(stage, "ELECTRIC marlo s\xC3\xA9", "a");
    expect_search(stage, "\xCC\x81", "abcdef"); /* an accent alone is nothing */
    expect_search(stage, "%s%n ../* ' \\", "");
    memset(longest, 'x', sizeof longest);
    longest[LINEEDIT_MAX] = '\0';
    expect_search(stage, longest, "");
    expect_search(stage, "    ", "abcdef");
}

static void expect_journal(const struct stage *stage, const char *title, int first, int end)
{
    char memory[40];
    struct strbuf text = STRBUF(memory);

    shelf_journal_add_title(&stage->list, &text);
    assert_string_equal(memory, title);
    assert_int_equal(stage->list.journal.first, first);
    assert_int_equal(stage->list.journal.end, end);
    assert_int_equal(stage->list.mode, SHELF_JOURNAL);
}

/* From today to the days on which anything was done, whatever the list is narrowed to; to the month
 * of one, and from month to month. */
static void the_journal_goes_to_days_with_work(void **state)
{
    struct stage *stage = *state;
    const int today = day_number(&(struct day){2026, 3, 10});
    const int january = day_number(&(struct day){2026, 1, 19});
    const int december = day_number(&(struct day){2025, 12, 31});

    shelf_facts_put_days(&stage->facts[1], (const int[]){january, december}, 2);
    shelf_facts_put_days(&stage->facts[4], &december, 1);
    stage->list.ground.today = today;
    shelf_list_take(&stage->list);
    press(stage, "bass*j");
    expect_journal(stage, "Tuesday, 10 March 2026", today, today + 1);
    press(stage, "-");
    expect_journal(stage, "Monday, 19 January 2026", january, january + 1);
    press(stage, "-");
    expect_journal(stage, "Wednesday, 31 December 2025", december, december + 1);
    press(stage, "-");
    assert_non_null(strstr(stage->list.message, "Nothing before"));
    press_key(stage, SILLET_KEY_ENTER);
    expect_journal(stage, "December 2025", december - 30, december + 1);
    press(stage, "+");
    expect_journal(stage, "January 2026", january - 18, january + 13);
    press(stage, "+");
    assert_non_null(strstr(stage->list.message, "Nothing after"));
    press_key(stage, SILLET_KEY_ENTER);
    expect_journal(stage, "Monday, 19 January 2026", january, january + 1);
    press_key(stage, SILLET_KEY_ESCAPE);
    assert_int_equal(stage->list.mode, SHELF_LIST);
}

int main(void)
{
#define STAGED(test) cmocka_unit_test_setup_teardown(test, open_stage, close_stage)
    const struct CMUnitTest tests[] = {
        STAGED(what_is_in_the_house_is_sorted_by_promise),
        STAGED(a_question_is_left_the_way_it_was_asked),
        STAGED(due_is_what_will_be_within_a_month),
        STAGED(proof_is_counted_and_its_factor_found),
        STAGED(a_planted_factor_is_found),
        STAGED(usual_is_kind_by_kind),
        STAGED(words_are_found_whatever_their_accents),
        STAGED(the_journal_goes_to_days_with_work),
        STAGED(a_quarter_turn_is_told_from_three_necks_on),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
