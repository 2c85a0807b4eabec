/* SPDX-License-Identifier: MIT */
#include "model/reading/finding.h"

#include <string.h>

#include "near.h"

static void test_table(void **state)
{
    (void)state;
    for (int id = 0; id < FINDING_COUNT_; id++) {
        const struct finding finding = {.id = (enum finding_id)id, .number = 17};
        const char *name = finding_name(finding.id);
        const int weight = (int)finding_weight(finding.id);
        char memory[400];
        struct strbuf words = STRBUF(memory);

        assert_true(strlen(name) > 3);
        assert_int_equal(strspn(name, "abcdefghijklmnopqrstuvwxyz-"), strlen(name));
        for (int other = 0; other < id; other++)
            assert_string_not_equal(name, finding_name((enum finding_id)other));
        assert_true(weight >= WEIGHT_FAULT && weight <= WEIGHT_CAUTION);
        finding_words(&finding, &words);
        assert_false(words.truncated);
        assert_true(strlen(memory) > 20);
        assert_null(strchr(memory, '%'));
    }
}

static void test_words_carry_the_number(void **state)
{
    const struct finding finding = {.id = FINDING_JOIN_BEYOND_FRETS, .number = 23};
    char memory[200];
    struct strbuf words = STRBUF(memory);

    (void)state;
    finding_words(&finding, &words);
    assert_string_equal(memory, "the body-join fret 23 lies beyond the last fret");
}

static void test_added_once(void **state)
{
    struct findings findings = {.count = 0};

    (void)state;
    findings_add(&findings, FINDING_SLOT_LOW, 1);
    findings_add(&findings, FINDING_SLOT_LOW, 2);
    findings_add(&findings, FINDING_SLOT_LOW, 1);
    findings_add(&findings, FINDING_BACK_BOW, 1);
    assert_int_equal(findings.count, 3);
    assert_int_equal(findings.list[1].number, 2);
    assert_int_equal(findings.list[2].id, FINDING_BACK_BOW);
}

static void test_full_list_drops(void **state)
{
    struct {
        struct findings findings;
        int guard;
    } held = {.guard = 77};

    (void)state;
    for (int i = 0; i < 10 * FINDINGS_MAX; i++)
        findings_add(&held.findings, FINDING_SLOT_LOW, i);
    assert_int_equal(held.findings.count, FINDINGS_MAX);
    assert_int_equal(held.findings.list[FINDINGS_MAX - 1].number, FINDINGS_MAX - 1);
    assert_int_equal(held.guard, 77);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table),
        cmocka_unit_test(test_words_carry_the_number),
        cmocka_unit_test(test_added_once),
        cmocka_unit_test(test_full_list_drops),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
