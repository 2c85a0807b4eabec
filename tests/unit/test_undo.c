/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>

#include "session/undo.h"
#include "build_record.h"
#include "seeded.h"

/* --- allocations that fail --- */

static long allocations_left = -1; /* negative: no limit */

void *__real_malloc(size_t size);
void *__real_realloc(void *memory, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_realloc(void *memory, size_t size);

static int fails(void)
{
    return allocations_left >= 0 && allocations_left-- == 0;
}

void *__wrap_malloc(size_t size)
{
    return fails() ? NULL : __real_malloc(size);
}

void *__wrap_realloc(void *memory, size_t size)
{
    return fails() ? NULL : __real_realloc(memory, size);
}

/* --- one after the other --- */

struct bench {
    struct record record;
    struct undo undo;
};

static void start(struct bench *bench)
{
    build_record(&bench->record, build_record_full);
    undo_init(&bench->undo);
}

static void end(struct bench *bench)
{
    undo_done(&bench->undo);
    record_done(&bench->record);
}

static struct reading_key gap(int string)
{
    return reading_key_pass_at(FIELD_NUT_GAP, 1, 1, string, 0);
}

static enum status put(struct bench *bench, struct reading_key key, const char *text)
{
    return undo_put(&bench->undo, &bench->record, &key, text, NULL);
}

static const char *text_at(const struct bench *bench, struct reading_key key)
{
    return record_text(&bench->record, &key);
}

static void undo_takes_back_and_makes_again(void **state)
{
    struct bench bench;
    struct undo_step step = {.key = {.string = -1}};

    (void)state;
    start(&bench);
    assert_int_equal(undo_back(&bench.undo, &bench.record, &step), STATUS_NOT_FOUND);
    assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_NOT_FOUND);
    assert_int_equal(step.key.string, -1);
    undo_open_step(&bench.undo, 0);
    assert_int_equal(put(&bench, gap(2), ".014 in"), STATUS_OK);
    undo_open_step(&bench.undo, 0);
    assert_int_equal(put(&bench, gap(2), NULL), STATUS_OK);
    assert_null(text_at(&bench, gap(2)));
    assert_int_equal(undo_back(&bench.undo, &bench.record, &step), STATUS_OK);
    assert_string_equal(text_at(&bench, gap(2)), ".014 in");
    assert_int_equal(step.key.string, 2);
    assert_int_equal(undo_back(&bench.undo, &bench.record, &step), STATUS_OK);
    assert_string_equal(text_at(&bench, gap(2)), ".021 in");
    assert_int_equal(undo_back(&bench.undo, &bench.record, &step), STATUS_NOT_FOUND);
    assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_OK);
    assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_OK);
    assert_null(text_at(&bench, gap(2)));
    assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_NOT_FOUND);
    end(&bench);
}

static void undo_holds_a_step_together(void **state)
{
    struct bench bench;
    struct undo_step step;

    (void)state;
    start(&bench);
    undo_open_step(&bench.undo, 0);
    put(&bench, gap(1), ".011 in");
    put(&bench, gap(2), ".012 in");
    put(&bench, gap(1), ".013 in");
    assert_int_equal(undo_back(&bench.undo, &bench.record, &step), STATUS_OK);
    assert_int_equal(step.key.string, 1);
    assert_string_equal(text_at(&bench, gap(1)), ".020 in");
    assert_string_equal(text_at(&bench, gap(2)), ".021 in");
    assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_OK);
    assert_int_equal(step.key.string, 1);
    assert_string_equal(text_at(&bench, gap(1)), ".013 in");
    assert_string_equal(text_at(&bench, gap(2)), ".012 in");
    end(&bench);
}

static void undo_forgets_what_was_taken_back(void **state)
{
    struct bench bench;
    struct undo_step step;

    (void)state;
    start(&bench);
    undo_open_step(&bench.undo, 0);
    put(&bench, gap(1), ".011 in");
    undo_back(&bench.undo, &bench.record, &step);
    undo_open_step(&bench.undo, 0);
    put(&bench, gap(3), ".012 in");
    assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_NOT_FOUND);
    assert_string_equal(text_at(&bench, gap(1)), ".020 in");
    end(&bench);
}

static void undo_leaves_all_as_it_was_when_a_text_is_refused(void **state)
{
    struct bench bench;
    struct record before;
    struct undo_step step;
    struct field_fault fault = {.status = STATUS_OK};
    const struct reading_key relief = reading_key_pass(FIELD_RELIEF, 1, 1);

    (void)state;
    start(&bench);
    undo_open_step(&bench.undo, 0);
    put(&bench, gap(1), ".011 in");
    undo_back(&bench.undo, &bench.record, &step);
    assert_int_equal(record_copy(&bench.record, &before), STATUS_OK);
    undo_open_step(&bench.undo, 0);
    assert_int_equal(undo_put(&bench.undo, &bench.record, &relief, "13 apples", &fault),
                     STATUS_UNIT);
    assert_int_not_equal(fault.status, STATUS_OK);
    assert_true(record_equal(&bench.record, &before));
    /* The history too: what had been taken back can still be made again. */
    assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_OK);
    assert_string_equal(text_at(&bench, gap(1)), ".011 in");
    record_done(&before);
    end(&bench);
}

/* A text that no bench would take, from a file, comes back as it was. */
static void undo_brings_back_what_a_file_held(void **state)
{
    struct bench bench;
    const struct reading_key key = gap(4);
    struct undo_step step;

    (void)state;
    start(&bench);
    assert_int_equal(record_put(&bench.record, &key, "tight?", true, NULL), STATUS_SYNTAX);
    undo_open_step(&bench.undo, 0);
    assert_int_equal(put(&bench, gap(4), ".018 in"), STATUS_OK);
    assert_int_equal(undo_back(&bench.undo, &bench.record, &step), STATUS_OK);
    assert_string_equal(text_at(&bench, gap(4)), "tight?");
    assert_int_equal(record_get(&bench.record, &key)->value.state, READING_BAD);
    end(&bench);
}

/* --- at random --- */

static const char *random_text(struct seeded *seed, char *memory, size_t size)
{
    switch (seeded_whole(seed, 0, 5)) {
    case 0:
        return NULL;
    case 1:
        return "not a length";
    default:
        snprintf(memory, size, ".%03d in", seeded_whole(seed, 1, 60));
        return memory;
    }
}

static void edit(struct bench *bench, struct seeded *seed)
{
    char memory[32];
    const int changes = seeded_whole(seed, 1, 4);

    undo_open_step(&bench->undo, 0);
    for (int i = 0; i < changes; i++)
        put(bench, gap(seeded_whole(seed, 1, 6)), random_text(seed, memory, sizeof memory));
}

static size_t take_all_back(struct bench *bench)
{
    struct undo_step step;
    size_t steps = 0;

    while (undo_back(&bench->undo, &bench->record, &step) == STATUS_OK)
        steps++;
    return steps;
}

static void undo_and_again_are_the_identity(void **state)
{
    struct seeded seed = seeded_start("undo");

    (void)state;
    for (int run = 0; run < 60; run++) {
        struct bench bench;
        struct record first, last;
        struct undo_step step;

        start(&bench);
        assert_int_equal(record_copy(&bench.record, &first), STATUS_OK);
        for (int i = seeded_whole(&seed, 0, 80); i > 0; i--) {
            if (seeded_whole(&seed, 0, 3) > 0)
                edit(&bench, &seed);
            else
                undo_back(&bench.undo, &bench.record, &step);
        }
        while (undo_again(&bench.undo, &bench.record, &step) == STATUS_OK)
            ;
        assert_int_equal(record_copy(&bench.record, &last), STATUS_OK);
        const size_t steps = take_all_back(&bench);
        assert_true(record_equal(&bench.record, &first));
        for (size_t i = 0; i < steps; i++)
            assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_OK);
        assert_int_equal(undo_again(&bench.undo, &bench.record, &step), STATUS_NOT_FOUND);
        assert_true(record_equal(&bench.record, &last));
        record_done(&first);
        record_done(&last);
        end(&bench);
    }
}

/* --- without memory --- */

static void undo_put_without_memory_changes_nothing(void **state)
{
    enum status status = STATUS_NO_MEMORY;

    (void)state;
    for (long left = 0; status != STATUS_OK; left++) {
        struct bench bench;
        struct record before;
        struct undo_step step;

        assert_true(left < 20);
        start(&bench);
        assert_int_equal(record_copy(&bench.record, &before), STATUS_OK);
        undo_open_step(&bench.undo, 0);
        allocations_left = left;
        status = put(&bench, gap(5), ".014 in");
        allocations_left = -1;
        if (status != STATUS_OK) {
            assert_int_equal(status, STATUS_NO_MEMORY);
            assert_true(record_equal(&bench.record, &before));
            assert_int_equal(undo_back(&bench.undo, &bench.record, &step), STATUS_NOT_FOUND);
        }
        record_done(&before);
        end(&bench);
    }
}

/* A step that stuck half-way is carried through by asking again. */
static void undo_goes_on_once_there_is_memory(void **state)
{
    enum status status = STATUS_NO_MEMORY;

    (void)state;
    for (long left = 0; status != STATUS_OK; left++) {
        struct bench bench;
        struct record before;
        struct undo_step step;

        assert_true(left < 20);
        start(&bench);
        assert_int_equal(record_copy(&bench.record, &before), STATUS_OK);
        undo_open_step(&bench.undo, 0);
        for (int s = 1; s <= 6; s++)
            put(&bench, gap(s), s % 2 ? ".014 in" : NULL);
        allocations_left = left;
        status = undo_back(&bench.undo, &bench.record, &step);
        allocations_left = -1;
        if (status != STATUS_OK) {
            assert_int_equal(status, STATUS_NO_MEMORY);
            assert_int_equal(undo_back(&bench.undo, &bench.record, &step), STATUS_OK);
        }
        assert_true(record_equal(&bench.record, &before));
        record_done(&before);
        end(&bench);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(undo_takes_back_and_makes_again),
        cmocka_unit_test(undo_holds_a_step_together),
        cmocka_unit_test(undo_forgets_what_was_taken_back),
        cmocka_unit_test(undo_leaves_all_as_it_was_when_a_text_is_refused),
        cmocka_unit_test(undo_brings_back_what_a_file_held),
        cmocka_unit_test(undo_and_again_are_the_identity),
        cmocka_unit_test(undo_put_without_memory_changes_nothing),
        cmocka_unit_test(undo_goes_on_once_there_is_memory),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
