/* SPDX-License-Identifier: MIT */
#include "model/reading/record.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "model/reading/record_access.h"
#include "near.h"
#include "seeded.h"

/* The allocator of the record under test (linked with --wrap): the n-th call fails. */
void *__real_malloc(size_t size);
void *__wrap_malloc(size_t size);
void *__real_realloc(void *memory, size_t size);
void *__wrap_realloc(void *memory, size_t size);

static int calls_until_failure = -1; /* -1: never */

static bool fails_now(void)
{
    return calls_until_failure >= 0 && calls_until_failure-- == 0;
}

void *__wrap_malloc(size_t size)
{
    return fails_now() ? NULL : __real_malloc(size);
}

void *__wrap_realloc(void *memory, size_t size)
{
    return fails_now() ? NULL : __real_realloc(memory, size);
}

enum { NAIVE_MAX = 400 };

/* The same record as a heap of papers. */
struct naive {
    struct reading_key key[NAIVE_MAX];
    char text[NAIVE_MAX][24];
    int count;
};

static bool same_key(const struct reading_key *a, const struct reading_key *b)
{
    return a->field == b->field && a->visit == b->visit && a->part == b->part &&
           a->string == b->string && a->fret == b->fret;
}

static int naive_find(const struct naive *naive, const struct reading_key *key)
{
    for (int i = 0; i < naive->count; i++)
        if (same_key(&naive->key[i], key))
            return i;
    return -1;
}

static void naive_put(struct naive *naive, const struct reading_key *key, const char *text)
{
    int i = naive_find(naive, key);

    if (i < 0) {
        assert_true(naive->count < NAIVE_MAX);
        i = naive->count++;
    }
    naive->key[i] = *key;
    snprintf(naive->text[i], sizeof naive->text[i], "%s", text);
}

static bool naive_remove(struct naive *naive, const struct reading_key *key)
{
    const int i = naive_find(naive, key);

    if (i < 0)
        return false;
    naive->count--;
    naive->key[i] = naive->key[naive->count];
    memcpy(naive->text[i], naive->text[naive->count], sizeof naive->text[i]);
    return true;
}

static int naive_last(const struct naive *naive, int visit, enum section section)
{
    int last = 0;

    for (int i = 0; i < naive->count; i++) {
        const struct reading_key *key = &naive->key[i];
        const int number = visit == 0 ? key->visit : key->part;

        if (reading_key_is_change(key))
            continue;
        if (visit != 0 && (key->visit != visit || field_get(key->field)->section != section))
            continue;
        if (number > last)
            last = number;
    }
    return last;
}

static struct reading_key random_key(struct seeded *seed)
{
    const int visit = seeded_whole(seed, 1, 3), part = seeded_whole(seed, 1, 3);

    switch (seeded_whole(seed, 0, 7)) {
    case 0:
        return reading_key_one(seeded_whole(seed, 0, 1) ? FIELD_SCALE : FIELD_TARGET_RELIEF);
    case 1:
        return reading_key_string(FIELD_GAUGE, seeded_whole(seed, 1, 12));
    case 2:
        return reading_key_visit(FIELD_HUMIDITY, visit);
    case 3:
        return reading_key_pass(FIELD_RELIEF, visit, part);
    case 4:
        return reading_key_pass_at(FIELD_NUT_GAP, visit, part, seeded_whole(seed, 1, 12), 0);
    case 5:
        return reading_key_pass_at(FIELD_RELIEF_AT, visit, part, 0, seeded_whole(seed, 0, 20));
    case 6:
        return reading_key_as_of(reading_key_string(FIELD_GAUGE, seeded_whole(seed, 1, 12)), visit);
    default:
        return reading_key_pass(FIELD_WORK_NOTE, visit, part);
    }
}

/* Good or refused, by field and chance. */
static const char *random_text(struct seeded *seed)
{
    static const char *const texts[] = {"0.5 mm", ".012 in", "41",     "rubbish", "",
                                        "650 mm", "7 x",     "900 mm", "absent"};

    return texts[seeded_whole(seed, 0, 8)];
}

/* The text of a reading of the instrument as of a visit, by looking at every paper. */
static const char *naive_as_of(const struct naive *naive, enum field_id field, int string,
                               int visit)
{
    int found = -1;

    for (int i = 0; i < naive->count; i++) {
        const struct reading_key *key = &naive->key[i];

        if (key->field == field && key->string == string && key->visit <= visit &&
            (found < 0 || key->visit > naive->key[found].visit))
            found = i;
    }
    if (found < 0 || (naive->key[found].visit > 0 && strcmp(naive->text[found], RECORD_GONE) == 0))
        return NULL;
    return naive->text[found];
}

static void check_as_of(const struct record *record, const struct naive *naive)
{
    for (int s = 1; s <= 12; s++)
        for (int v = 0; v <= 4; v++) {
            const struct reading_key key = reading_key_string(FIELD_GAUGE, s);
            const struct record then = record_as_of(record, v);
            const char *wanted = naive_as_of(naive, FIELD_GAUGE, s, v > 0 ? v : VISITS_MAX);
            const char *text = record_text(&then, &key);

            assert_true(!text == !wanted);
            if (wanted)
                assert_string_equal(text, wanted);
        }
}

static void check_same(const struct record *record, const struct naive *naive)
{
    assert_int_equal(record->count, naive->count);
    for (size_t i = 1; i < record->count; i++)
        assert_true(reading_key_compare(&record->readings[i - 1].key, &record->readings[i].key) <
                    0);
    for (int i = 0; i < naive->count; i++)
        assert_string_equal(record_find(record, &naive->key[i])->text, naive->text[i]);
    check_as_of(record, naive);
    assert_int_equal(record_last_visit(record), naive_last(naive, 0, SECTION_VISIT));
    int want_visit = 0, want_pass = 0;
    for (int v = 1; v <= 4; v++) {
        const int last = naive_last(naive, v, SECTION_PASS);

        assert_int_equal(record_last_pass(record, v), last);
        assert_int_equal(record_last_work(record, v), naive_last(naive, v, SECTION_WORK));
        if (last > 0) {
            want_visit = v;
            want_pass = last;
        }
    }
    assert_int_equal(place_current(record).visit, want_visit);
    assert_int_equal(place_current(record).pass, want_pass);
}

static void one_step(struct seeded *seed, struct record *record, struct naive *naive)
{
    const struct reading_key key = random_key(seed);

    if (seeded_whole(seed, 0, 2) == 0) {
        assert_int_equal(record_remove(record, &key), naive_remove(naive, &key));
        return;
    }
    const char *text = random_text(seed);
    const bool keep_bad = seeded_whole(seed, 0, 1);
    struct field_value value;
    const struct field *field = field_get(key.field);
    const bool gone = reading_key_is_change(&key) && strcmp(text, RECORD_GONE) == 0;
    const enum status want =
        gone ? STATUS_OK : field_read(field, text, field_file_unit(field), &value, NULL);
    assert_int_equal(record_put(record, &key, text, keep_bad, NULL), want);
    if (want == STATUS_OK || keep_bad)
        naive_put(naive, &key, text);
    const struct reading *filed = record_find(record, &key);
    if (gone) {
        assert_int_equal(filed->value.state, READING_GONE);
    } else if (want == STATUS_OK) {
        assert_near(filed->value.value, value.value, 0);
    } else if (keep_bad) {
        assert_int_equal(filed->value.state, READING_BAD);
    }
}

static void test_against_naive(void **state)
{
    struct seeded seed = seeded_start("record");

    (void)state;
    for (int run = 0; run < 20; run++) {
        static struct naive naive;
        struct record record;

        naive.count = 0;
        record_init(&record);
        for (int step = 0; step < 600; step++) {
            one_step(&seed, &record, &naive);
            if (step % 7 == 0)
                check_same(&record, &naive);
        }
        check_same(&record, &naive);
        record_done(&record);
        assert_int_equal(record.count, 0);
        record_done(&record);
    }
}

static void test_copy_and_equality(void **state)
{
    struct record record, copy;
    const struct reading_key scale = reading_key_one(FIELD_SCALE);

    (void)state;
    build_record(&record, build_record_full);
    assert_int_equal(record_copy(&record, &copy), STATUS_OK);
    assert_true(record_equal(&record, &copy));
    build_record_add(&copy, "board scale = 24.90 in");
    assert_false(record_equal(&record, &copy));
    assert_string_equal(record_text(&record, &scale), "24.9 in");
    build_record_add(&copy, "board scale = 24.9 in");
    assert_true(record_equal(&record, &copy));
    build_record_drop(&copy, "board scale");
    assert_false(record_equal(&record, &copy));
    assert_false(record_equal(&copy, &record));
    build_record_add(&copy, "board scale_bass = 24.9 in");
    assert_false(record_equal(&copy, &record));
    record_done(&copy);
    assert_string_equal(record_text(&record, &scale), "24.9 in");
    record_done(&record);
    assert_int_equal(record_copy(&record, &copy), STATUS_OK);
    assert_true(record_equal(&record, &copy));
    record_done(&copy);
}

static void test_absent_is_not_zero(void **state)
{
    struct record record;
    const struct reading_key action_fret = reading_key_one(FIELD_ACTION_FRET);
    const struct reading_key relief = reading_key_pass(FIELD_RELIEF, 1, 1);

    (void)state;
    record_init(&record);
    assert_null(record_get(&record, &relief));
    assert_null(record_text(&record, &relief));
    assert_false(record_entered(&record, relief).given);
    assert_false(record_entered_or_fallback(&record, relief).given);
    assert_near(assert_given(record_entered_or_fallback(&record, action_fret)), 12, 0);
    assert_int_equal(record_put(&record, &action_fret, "x", true, NULL), STATUS_SYNTAX);
    assert_near(assert_given(record_entered_or_fallback(&record, action_fret)), 12, 0);
    assert_int_equal(record_put(&record, &action_fret, "0", true, NULL), STATUS_OK);
    assert_near(assert_given(record_entered_or_fallback(&record, action_fret)), 0, 0);
    record_done(&record);
}

/* Puts into a record of `filled` readings with every allocation failing in turn. */
static int check_put_failures(int filled, const struct reading_key *key, const char *text)
{
    int failures = 0;

    for (int nth = 0;; nth++) {
        struct record record, before;

        record_init(&record);
        for (int i = 0; i < filled; i++) {
            const struct reading_key at =
                reading_key_pass_at(FIELD_CENTS, 1, 1 + i / 37, 1, i % 37);

            assert_int_equal(record_put(&record, &at, "1", false, NULL), STATUS_OK);
        }
        assert_int_equal(record_copy(&record, &before), STATUS_OK);
        calls_until_failure = nth;
        const enum status status = record_put(&record, key, text, true, NULL);
        const bool failed = calls_until_failure < 0;
        calls_until_failure = -1;
        if (failed) {
            assert_int_equal(status, STATUS_NO_MEMORY);
            assert_true(record_equal(&record, &before));
            failures++;
        } else {
            assert_string_equal(record_text(&record, key), text);
        }
        record_done(&record);
        record_done(&before);
        if (!failed)
            return failures;
    }
}

/* Where the number of strings is not entered, a string is there from the visit that describes it.
 */
static void test_strings_of_a_visit(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, "string.5 note = A2\nvisit.1 date = 2026-03-02\n"
                          "visit.2 date = 2026-04-02\nvisit.2.string.6 note = E2\n"
                          "visit.2.string.6 gauge = .046 in\n");
    const struct record first = record_as_of(&record, 1), second = record_as_of(&record, 2);
    assert_int_equal(record_string_count(&first), 5);
    assert_int_equal(record_string_count(&second), 6);
    assert_int_equal(record_string_count(&record), 6);
    record_done(&record);
}

static void test_put_out_of_memory(void **state)
{
    const struct reading_key first = reading_key_one(FIELD_SCALE);
    const struct reading_key there = reading_key_pass_at(FIELD_CENTS, 1, 1, 1, 5);

    (void)state;
    assert_int_equal(check_put_failures(0, &first, "650 mm"), 2);
    assert_int_equal(check_put_failures(64, &first, "650 mm"), 2);
    assert_int_equal(check_put_failures(128, &first, "rubbish"), 2);
    assert_int_equal(check_put_failures(10, &first, "650 mm"), 1);
    assert_int_equal(check_put_failures(10, &there, "2"), 1);
    assert_int_equal(check_put_failures(64, &there, "2"), 1);
}

static void test_copy_out_of_memory(void **state)
{
    struct record record, copy = {.count = 77};
    int nth = 0;

    (void)state;
    build_record(&record, build_record_full);
    for (;; nth++) {
        calls_until_failure = nth;
        const enum status status = record_copy(&record, &copy);
        const bool failed = calls_until_failure < 0;

        calls_until_failure = -1;
        if (!failed)
            break;
        assert_int_equal(status, STATUS_NO_MEMORY);
        assert_int_equal(copy.count, 77);
    }
    /* One for the readings, and one for all their texts. */
    assert_int_equal(nth, 2);
    assert_true(record_equal(&record, &copy));
    record_done(&record);
    record_done(&copy);
}

/* Texts that came together are replaced, tried and taken out like any others. */
static void texts_that_came_together_go_one_by_one(void **state)
{
    const struct reading_key name = reading_key_one(FIELD_NAME);
    const struct reading_key owner = reading_key_one(FIELD_OWNER);
    struct record_trial trial;
    struct record record, copy;

    (void)state;
    build_record(&record, build_record_full);
    assert_int_equal(record_put(&record, &name, "Quay parlour", false, NULL), STATUS_OK);
    assert_int_equal(record_put(&record, &owner, "Marlo", false, NULL), STATUS_OK);
    assert_int_equal(record_copy(&record, &copy), STATUS_OK);
    record_done(&record);
    assert_int_equal(record_try(&copy, &name, "Another", &trial), STATUS_OK);
    assert_string_equal(record_text(&copy, &name), "Another");
    record_end_try(&copy, &trial);
    assert_string_equal(record_text(&copy, &name), "Quay parlour");
    for (int i = 0; i < 3; i++)
        assert_int_equal(
            record_put(&copy, &name, i ? "Longer than it was before" : "Short", false, NULL),
            STATUS_OK);
    assert_true(record_remove(&copy, &owner));
    assert_int_equal(record_put(&copy, &owner, "Tansy", false, NULL), STATUS_OK);
    assert_string_equal(record_text(&copy, &name), "Longer than it was before");
    assert_string_equal(record_text(&copy, &owner), "Tansy");
    while (copy.count > 0) {
        const struct reading_key first = copy.readings[0].key;

        assert_true(record_remove(&copy, &first));
    }
    record_done(&copy);
}

static const struct {
    enum field_id field;
    const char *text;
    enum status status;
} trials[] = {
    {FIELD_SCALE, "25 in", STATUS_OK},       /* in the place of another */
    {FIELD_MAKER, "nobody", STATUS_OK},      /* where there may be none */
    {FIELD_SCALE, "nothing", STATUS_SYNTAX}, /* refused */
};

/* Tries a text, under a failure of the nth allocation if nth is not below 0; the record must be as
 * before. True if the allocation was not reached. */
static bool try_one(struct record *record, size_t i, int nth)
{
    const struct reading_key key = reading_key_one(trials[i].field);
    struct record_trial trial;
    struct record before;

    assert_int_equal(record_copy(record, &before), STATUS_OK);
    calls_until_failure = nth;
    const enum status status = record_try(record, &key, trials[i].text, &trial);
    const bool failed = nth >= 0 && calls_until_failure < 0;
    calls_until_failure = -1;
    assert_int_equal(status, failed ? STATUS_NO_MEMORY : trials[i].status);
    if (status == STATUS_OK) {
        assert_string_equal(record_text(record, &key), trials[i].text);
        record_end_try(record, &trial);
    }
    assert_true(record_equal(record, &before));
    record_done(&before);
    return !failed;
}

static void test_a_trial_leaves_nothing(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    for (size_t i = 0; i < sizeof trials / sizeof trials[0]; i++) {
        int nth = 0;

        assert_true(try_one(&record, i, -1));
        while (!try_one(&record, i, nth))
            nth++;
        assert_true(trials[i].status != STATUS_OK || nth > 0);
    }
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_against_naive),
        cmocka_unit_test(test_copy_and_equality),
        cmocka_unit_test(test_absent_is_not_zero),
        cmocka_unit_test(test_strings_of_a_visit),
        cmocka_unit_test(test_put_out_of_memory),
        cmocka_unit_test(test_copy_out_of_memory),
        cmocka_unit_test(test_a_trial_leaves_nothing),
        cmocka_unit_test(texts_that_came_together_go_one_by_one),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
