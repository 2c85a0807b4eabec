/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "bench_session.h"
#include "build_record.h"

/*
 * What a key derives: an arrow nothing, a digit the pass in hand with the entry in it, Enter what
 * came before as well. Counted, since a time says little on a busy machine.
 */
static struct {
    int passes, pasts;
    enum derive_depth deepest;
} count;

/* The linker puts these between the session and the model. */
void __real_derive_pass_on(struct place place, const struct past *before,
                           const struct rod_prior *others, enum derive_depth depth,
                           struct derived *ret_derived);
void __wrap_derive_pass_on(struct place place, const struct past *before,
                           const struct rod_prior *others, enum derive_depth depth,
                           struct derived *ret_derived);
void __real_derive_pass_among(struct place place, const struct rod_prior *others,
                              enum derive_depth depth, struct derived *ret_derived);
void __wrap_derive_pass_among(struct place place, const struct rod_prior *others,
                              enum derive_depth depth, struct derived *ret_derived);
void __real_derive_past(struct place place, struct past *ret_past);
void __wrap_derive_past(struct place place, struct past *ret_past);

static void count_pass(enum derive_depth depth)
{
    count.passes++;
    if (depth > count.deepest)
        count.deepest = depth;
}

void __wrap_derive_pass_on(struct place place, const struct past *before,
                           const struct rod_prior *others, enum derive_depth depth,
                           struct derived *ret_derived)
{
    count_pass(depth);
    __real_derive_pass_on(place, before, others, depth, ret_derived);
}

void __wrap_derive_pass_among(struct place place, const struct rod_prior *others,
                              enum derive_depth depth, struct derived *ret_derived)
{
    count_pass(depth);
    __real_derive_pass_among(place, others, depth, ret_derived);
}

void __wrap_derive_past(struct place place, struct past *ret_past)
{
    count.pasts++;
    __real_derive_past(place, ret_past);
}

static void expect(struct app *app, const char *keys, int passes, int pasts)
{
    count.passes = count.pasts = 0;
    count.deepest = DERIVE_GAUGED;
    (void)bench_press(app, keys);
    if (count.passes != passes || count.pasts != pasts)
        fail_msg("%s: %d passes and %d pasts derived, not %d and %d", keys, count.passes,
                 count.pasts, passes, pasts);
}

static void arrows_derive_nothing(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_BENCH);

    (void)state;
    expect(app, "{Down}{Down}{Right}{Left}{Up}{Home}", 0, 0);
    bench_close(app);
    app = bench_open(build_record_full, "", LEAF_HISTORY);
    expect(app, "{Left}{Right}{Down}{Up}", 0, 0);
    bench_close(app);
}

static void a_digit_derives_the_pass_in_hand(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_BENCH);

    (void)state;
    (void)bench_press(app, "{Home}");
    expect(app, ".01", 2, 0); /* a point alone is no number */
    expect(app, "2", 1, 0);
    expect(app, "{Enter}", 1, 1);
    expect(app, "u", 1, 1);
    bench_close(app);
}

/* The bench shows few figures; what shows more derives them once, and `?` does so on any leaf. */
static void no_more_is_derived_than_is_shown(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_BENCH);

    (void)state;
    (void)bench_press(app, "{Home}");
    expect(app, ".012{Enter}", 4, 1);
    assert_int_equal(count.deepest, DERIVE_PULL);
    expect(app, "{End}", 1, 0); /* the pass's end: whether it can go back */
    assert_int_equal(count.deepest, DERIVE_FIGURES);
    bench_close(app);
    app = bench_open(build_record_full, "", LEAF_BENCH);
    expect(app, "{Tab}", 1, 0);
    assert_int_equal(count.deepest, DERIVE_FIGURES);
    expect(app, "{Tab}{Tab}{Tab}{ShiftTab}", 0, 0);
    bench_close(app);
    app = bench_open(build_record_full, "", LEAF_BENCH);
    expect(app, "?", 1, 0);
    assert_int_equal(count.deepest, DERIVE_FIGURES);
    expect(app, "{Right}{Right}{Esc}{Down}", 0, 0);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(arrows_derive_nothing),
        cmocka_unit_test(a_digit_derives_the_pass_in_hand),
        cmocka_unit_test(no_more_is_derived_than_is_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
