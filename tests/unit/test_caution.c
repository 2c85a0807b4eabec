/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "words/caution.h"

/* Whether some caution that applies to this work has these words. */
static int says(const char *work, const char *words)
{
    for (int k = 0; k < caution_count(); k++)
        if (caution_applies(k, work) && strstr(caution_text(k), words))
            return 1;
    return 0;
}

static void work_brings_its_cautions(void **state)
{
    static const char *const pairs[][2] = {
        {"rod", "stop when it binds"},
        {"rod", "eye protection"},
        {"New strings, .012 to .053", "eye protection"},
        {"slots", "respirator"},
        {"level and crown frets 1-7", "respirator"},
        {"Rosewood bridge planed", "ebony and rosewoods sensitise"},
        {"rosewood bridge", "local law decides"},
        {"bone nut", "local law decides"},
        {"fret 5 seated with CYANOacrylate", "ventilation"},
        {"reset", "steam"},
        {"routed the rod slot", "router and chisel"},
        {"drop-fill, lacquer", "old finishes"},
        {"pearl inlay reset", "old finishes and inlay"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        if (!says(pairs[i][0], pairs[i][1]))
            fail_msg("%s: nothing about %s", pairs[i][0], pairs[i][1]);
}

/* A caution by everything is one by nothing. */
static void words_count_from_their_beginning(void **state)
{
    (void)state;
    assert_false(says("", ""));
    assert_false(says("cleaned", ""));
    assert_false(says("a prodigy", ""));
    assert_false(says("corroded screw", "stop when it binds"));
}

static int says_to_owner(const char *work, const char *words)
{
    for (int k = 0; k < caution_count(); k++) {
        const char *said = caution_for_owner(k, work);

        if (said && strstr(said, words))
            return 1;
    }
    return 0;
}

/* The owner hears of what is left to mind, not of the shop's dust. */
static void owners_hear_what_concerns_them(void **state)
{
    (void)state;
    assert_true(says_to_owner("rod", "wrong turn"));
    assert_true(says_to_owner("new strings", "tune again"));
    assert_true(says_to_owner("Indian rosewood", "border"));
    assert_true(says_to_owner("lacquer drop-filled", "harden"));
    assert_false(says_to_owner("saddle", ""));
    assert_false(says_to_owner("levelled the frets", ""));
    assert_false(says_to_owner("", ""));
}

static void every_caution_fits_a_row(void **state)
{
    (void)state;
    assert_true(caution_count() >= 8);
    for (int k = 0; k < caution_count(); k++)
        assert_true(strlen(caution_text(k)) <= 72);
    assert_true(strlen(caution_reserve()) <= 72);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(work_brings_its_cautions),
        cmocka_unit_test(words_count_from_their_beginning),
        cmocka_unit_test(owners_hear_what_concerns_them),
        cmocka_unit_test(every_caution_fits_a_row),
    };
    return cmocka_run_group_tests_name("caution", tests, NULL, NULL) ? 1 : 0;
}
