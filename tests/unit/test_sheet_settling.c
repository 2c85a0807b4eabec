/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "page/page_inside.h"
#include "sheet/label.h"
#include "sheet/sheet_make.h"
#include "sheet/sheet_text.h"
#include "survey_record.h"

/* What the sheet says of a neck that moves for some days more. Days by the calendar. */

#define VISIT_2                                                                                    \
    "visit.2 date = 2026-07-06\nvisit.2.pass.1 time = 10:00\n"                                     \
    "visit.2.pass.1 relief = .010 in\nvisit.2.pass.1 action.6 = 6/64 in\n"                         \
    "visit.2.pass.1 action.1 = 4/64 in\n"
#define ROD "visit.2.work.1 kind = rod\nvisit.2.work.1 time = 11:00\n"

/* The item, on one line; NULL if there is none. To be freed. */
static char *item_of(const char *begins, const char *more, bool metric)
{
    const struct sheet_ask ask = {.units = metric ? shop_units_metric() : shop_units_inch()};
    struct record record;
    struct sheet sheet;
    char *found = NULL;

    survey_record_build(&record, VISIT_2);
    build_record_add(&record, more);
    assert_int_equal(sheet_make(&record, &ask, &sheet), STATUS_OK);
    for (size_t i = 0; i < sheet.count; i++)
        if (sheet.blocks[i].kind == SHEET_ITEM &&
            strncmp(sheet.blocks[i].text, begins, strlen(begins)) == 0) {
            assert_null(found);
            found = strdup(sheet.blocks[i].text);
        }
    sheet_done(&sheet);
    record_done(&record);
    return found;
}

static void check(const char *more, const char *words)
{
    char *text = item_of("Settling: ", more, false);

    if (!words != !text || (words && !strstr(text, words)))
        fail_msg("after %s: '%s' is not in '%s'", more, words ? words : "nothing",
                 text ? text : "nothing");
    free(text);
}

static void what_moves_a_neck_is_named(void **state)
{
    (void)state;
    check(ROD, "Settling: the rod was turned, so");
    check("visit.2.work.1 kind = reset\n", "Settling: the neck was set back, so");
    check("visit.2.work.1 kind = board reglued at the tongue\n", "Settling: a joint was glued, so");
    check(ROD "visit.2.work.2 kind = glued the bridge\n",
          "the rod was turned and a joint was glued, so");
    /* The same strings two semitones lower on all six: (2^(-2/12))^2 = 0.79 of the pull. */
    check("visit.2.string.6 note = D2\nvisit.2.string.5 note = G2\nvisit.2.string.4 note = C3\n"
          "visit.2.string.3 note = F3\nvisit.2.string.2 note = A3\nvisit.2.string.1 note = D4\n",
          "Settling: the strings pull 21\xC2\xA0% less than before, so");
}

static void nothing_is_said_of_a_neck_that_stays(void **state)
{
    (void)state;
    check("", NULL);
    check("visit.2.work.1 kind = slots\nvisit.2.work.2 kind = polish\n", NULL);
    /* The same set again, and a rod that was tried and left. */
    check("visit.2.work.1 kind = restrung\n", NULL);
    check(ROD "visit.2.pass.2 rod_turn = 0 turn\nvisit.2.pass.2 relief = .010 in\n", NULL);
}

/* Two weeks from the day it went home. */
static void it_says_when(void **state)
{
    (void)state;
    check(ROD, "may still move a little for some days. Look again in two weeks, about 20 July 2026 "
               "(common practice, no published source).");
    check(ROD "visit.2 handed_over = 2026-07-10\n", "about 24 July 2026");
}

/* Nobody has asked for the air of its home: half a year from 6 July 2026, on the sheet and on the
 * label, which is there for that. */
static void the_usual_check_has_a_month_too(void **state)
{
    const struct sheet_ask ask = {.units = shop_units_inch()};
    struct page_list *label = NULL;
    struct record record;
    bool said = false;
    char *text = item_of("Next check: ", "", false);

    (void)state;
    assert_non_null(strstr(text, "in half a year, about January 2027, as is usual"));
    free(text);
    survey_record_build(&record, VISIT_2);
    assert_int_equal(label_make(&record, &ask, LABEL_SMALL, &label), STATUS_OK);
    for (size_t i = 0; i < label->count; i++)
        said = said || (label->items[i].text &&
                        strcmp(label->items[i].text, "Next check: about January 2027") == 0);
    assert_true(said);
    page_list_free(label);
    record_done(&record);
}

/* What would no longer be good: the tolerance of the action and a step of the rule, half a 64th
 * each. */
static void a_change_worth_coming_for_is_said(void **state)
{
    (void)state;
    for (int metric = 0; metric < 2; metric++) {
        char *text = item_of("Air: ", "", metric);

        assert_non_null(text);
        assert_non_null(strstr(text, metric ? "changes by 0.40 mm (1/64" : "changes by 1/64"));
        free(text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_moves_a_neck_is_named),
        cmocka_unit_test(nothing_is_said_of_a_neck_that_stays),
        cmocka_unit_test(it_says_when),
        cmocka_unit_test(the_usual_check_has_a_month_too),
        cmocka_unit_test(a_change_worth_coming_for_is_said),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
