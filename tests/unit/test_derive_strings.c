/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>

#include "build_record.h"

/* One string on 650 mm, at E4 unless a test says otherwise. */
static const char one[] = "board scale = 650 mm\n"
                          "board strings = 1\n"
                          "board frets = 19\n"
                          "string.1 note = E4\n";

static double mass_of(const char *lines)
{
    const struct derived derived = build_derived(one, lines);

    assert_true(derived.string[1].has_mass);
    return derived.string[1].mass.kg_per_m;
}

/* A packet's table is printed for A4 = 440 Hz. An instrument tuned lower has the same string on. */
static void a_label_holds_at_440(void **state)
{
    static const char label[] = "string.1 label_tension = 70 N\n"
                                "string.1 label_note = E4\n"
                                "string.1 label_scale = 650 mm\n";
    const double printed_hz = 440 * pow(2, -5.0 / 12);
    const double mass = 70 / pow(2 * 0.650 * printed_hz, 2);
    struct record record;
    struct derived derived;

    (void)state;
    assert_near_relative(mass_of(label), mass, 1e-12);
    build_record(&record, one);
    build_record_add(&record, label);
    build_record_add(&record, "model a4 = 415\n");
    derive_current(&record, &derived);
    assert_near_relative(derived.string[1].mass.kg_per_m, mass, 1e-12);
    assert_near_relative(derived.string[1].tension_n.value, 70 * pow(415.0 / 440, 2), 1e-12);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_label_holds_at_440),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
