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
} count;

/* The linker puts these between the session and the model. */
void __real_derive_pass_on(struct place place, const struct past *before,
                           const struct rod_prior *others, struct derived *ret_derived);
void __wrap_derive_pass_on(struct place place, const struct past *before,
                           const struct rod_prior *others, struct derived *ret_derived);
void __real_derive_pass_among(struct place place, const struct rod_prior *others,
                              struct derived *ret_derived);
void __wrap_derive_pass_among(struct place place, const struct rod_prior *others,
                              struct derived *ret_derived);
void __real_derive_past(struct place place, struct past *ret_past);
void __wrap_derive_past(struct place place, struct past *ret_past);

void __wrap_derive_pass_on(struct place place, const struct past *before,
                           const struct rod_prior *others, struct derived *ret_derived)
{
    count.passes++;
    __real_derive_pass_on(place, before, others, ret_derived);
}

void __wrap_derive_pass_among(struct place place, const struct rod_prior *others,
                              struct derived *ret_derived)
{
    count.passes++;
    __real_derive_pass_among(place, others, ret_derived);
}

void __wrap_derive_past(struct place place, struct past *ret_past)
{
    count.pasts++;
    __real_derive_past(place, ret_past);
}

static void expect(struct app *app, const char *keys, int passes, int pasts)
{
    count.passes = count.pasts = 0;
    (void)bench_press(app, keys);
    if (count.passes != passes || count.pasts != pasts)
        fail_msg("%s: %d passes and %d pasts derived, not %d and %d", keys, count.passes,
                 count.pasts, passes, pasts);
}

static void arrows_derive_nothing(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_BENCH);

    (void)state;
    expect(app, "{Down}{Down}{Right}{Left}{Up}{Home}{End}", 0, 0);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(arrows_derive_nothing),
        cmocka_unit_test(a_digit_derives_the_pass_in_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
