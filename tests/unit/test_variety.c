/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "build_record.h"
#include "model/derive/derive.h"
#include "near.h"

static bool known(const struct derived *derived, enum figure_id id, int string)
{
    return derived->figures.at[id][string].known != KNOWN_ABSENT;
}

/* One to twelve strings, none to 36 frets, every bridge, both gaps, read or interpolated:
 * all figures are there as soon as the frets allow, and all are numbers. */
static void check_variety(int strings, int frets, int variant)
{
    static const char *const bridges[] = {"blank", "screw", "post", "wheel"};
    struct record record;
    struct derived derived;
    char lines[400];

    snprintf(lines, sizeof lines,
             "board scale_treble = %d mm\nboard scale_bass = 660 mm\nboard strings = %d\n"
             "board frets = %d\nboard join_fret = %d\nneck join = %s\nnut kind = %s\n"
             "bridge kind = %s\nbridge thread = 0.5 mm\nvisit.1.pass.1 nut_method = %s\n",
             variant & 1 ? 660 : 640, strings, frets, frets < 14 ? frets : 14,
             variant & 2 ? "pocket" : "glued", variant & 4 ? "zero-fret" : "slotted",
             bridges[variant & 3], variant & 8 ? "held-3" : "open");
    build_record(&record, lines);
    build_record_add(&record, "targets relief = .006 in\ntargets action_bass = 2.4 mm\n"
                              "targets action_treble = 1.6 mm\ntargets nut_gap_bass = .018 in\n"
                              "targets nut_gap_treble = .012 in\n");
    build_record_add(&record, variant & 16 ? "visit.1.pass.1 relief = -.005 in"
                                           : "visit.1.pass.1 relief = .012 in");
    for (int s = 1; s <= strings; s += (variant & 32) && strings > 1 ? strings - 1 : 1) {
        build_record_put_mm(&record, reading_key_pass_at(FIELD_ACTION, 1, 1, s, 0), 2.5);
        build_record_put_mm(&record, reading_key_pass_at(FIELD_NUT_GAP, 1, 1, s, 0), 0.4);
    }
    derive_current(&record, &derived);
    const bool whole = frets >= 12;
    for (int s = 1; s <= strings; s++) {
        assert_true(known(&derived, FIGURE_ACTION, s));
        assert_int_equal(known(&derived, FIGURE_SADDLE_CHANGE, s), whole);
        assert_int_equal(known(&derived, FIGURE_SADDLE_TURNS, s), whole && (variant & 3));
        assert_int_equal(known(&derived, FIGURE_SADDLE_BOTTOM, s), whole && !(variant & 3));
    }
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            if (known(&derived, (enum figure_id)id, s))
                assert_true(isfinite(derived.figures.at[id][s].value) &&
                            isfinite(derived.figures.at[id][s].u));
    record_done(&record);
}

static void test_variety(void **state)
{
    (void)state;
    for (int strings = 1; strings <= STRINGS_MAX; strings++)
        for (int frets = 0; frets <= FRETS_MAX; frets++)
            check_variety(strings, frets, (strings * 37 + frets * 11) % 64);
    for (int variant = 0; variant < 64; variant++)
        check_variety(6, 20, variant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_variety),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
