/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "model/derive/derive.h"
#include "near.h"
#include "store/profile/profile.h"

/*
 * The demo instruments, given as arguments: complete files with nothing odd in them, and a
 * story that a tech can follow: in order after the first visit, with moves due at the last.
 */

static int path_count;
static char **paths;

static void check_readings(const struct record *record, const char *path)
{
    for (size_t i = 0; i < record->count; i++)
        if (record->readings[i].value.state != READING_GOOD)
            fail_msg("%s: odd reading %s = %s", path, field_get(record->readings[i].key.field)->key,
                     record->readings[i].text);
}

static bool any_due(const struct derived *derived)
{
    bool due = derived->choice.rod;

    for (int s = 1; s <= derived->setup.board.strings; s++)
        due = due || derived->choice.slot[s] || derived->choice.saddle[s];
    return due;
}

static void check_pass(const struct record *record, const char *path, int visit, int pass)
{
    const struct reading_key label = reading_key_pass(FIELD_PASS_LABEL, visit, pass);
    struct derived derived;

    derive_pass(place_of(record, visit, pass), &derived);
    for (int i = 0; i < derived.findings.count; i++)
        if (finding_weight(derived.findings.list[i].id) == WEIGHT_FAULT)
            fail_msg("%s: visit %d, pass %d: %s", path, visit, pass,
                     finding_name(derived.findings.list[i].id));
    for (int s = 1; s <= derived.setup.board.strings; s++)
        assert_true(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, s).given);
    assert_int_equal(move_set_reset(&derived.moves), RESET_SADDLE);
    const bool as_left = strcmp(record_text(record, &label), "as left") == 0;
    if (any_due(&derived) == as_left)
        fail_msg("%s: visit %d, pass %d: moves are %s", path, visit, pass,
                 as_left ? "still due" : "not due");
}

static void check_profile(const char *path)
{
    struct problems problems;
    struct profile *profile;

    problems_init(&problems);
    if (profile_open(path, PROFILE_TO_READ, &problems, &profile) != STATUS_OK)
        fail_msg("%s: not opened", path);
    if (problems.count > 0)
        fail_msg("%s:%d: %s", path, problems.items[0].line, problems.items[0].words);
    assert_int_equal(profile_notices(profile), 0);
    const struct record *record = profile_record(profile);
    check_readings(record, path);
    assert_int_equal(record_last_visit(record), 2);
    assert_true(record_last_pass(record, 1) >= 2);
    assert_int_equal(record_last_pass(record, 2), 1);
    assert_true(record_last_work(record, 1) >= 3);
    for (int visit = 1; visit <= 2; visit++)
        for (int pass = 1; pass <= record_last_pass(record, visit); pass++)
            check_pass(record, path, visit, pass);
    profile_close(profile);
    problems_done(&problems);
}

static void test_profiles(void **state)
{
    (void)state;
    assert_true(path_count > 0);
    for (int i = 0; i < path_count; i++)
        check_profile(paths[i]);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_profiles),
    };

    path_count = argc - 1;
    paths = argv + 1;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
