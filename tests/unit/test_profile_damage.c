/* SPDX-License-Identifier: MIT */
/* A saved profile damaged in every place: it is never taken for whole, and the damaged file is
 * copied before it is overwritten. */
#include "near.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "profile_steps.h"
#include "tree.h"

/* A profile with what a shop's has: texts, fractions, two passes, what was done. */
static char *write_sample(const char *path, size_t *ret_length)
{
    struct record record;

    tree_write_text(path, steps_tiny);
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "instrument", "name", "Parlour; No. 3");
    steps_put(&record, "instrument", "note", "two\nlines");
    steps_put(&record, "visit.1", "date", "2026-03-02");
    steps_put(&record, "visit.1.pass.1", "relief", ".013 in");
    steps_put(&record, "visit.1.pass.1", "nut_gap.1", "31 th");
    steps_put(&record, "visit.1.pass.2", "relief", ".008 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    return tree_read(path, ret_length);
}

/* Saving a change keeps what was found. */
static void expect_kept_as_found(void **state, struct profile *profile, const char *bytes,
                                 size_t length, const char *what, size_t at)
{
    const char *path = tree_path(*state, "d.ini"), *kept = tree_path(*state, "d.ini.as-found");
    char *as_found = NULL;
    size_t found_length = 0;
    struct record record;

    unlink(kept);
    assert_int_equal(record_copy(profile_record(profile), &record), STATUS_OK);
    steps_put(&record, "instrument", "owner", "Marlo");
    if (profile_save(profile, &record) == STATUS_OK) {
        as_found = tree_read(kept, &found_length);
        if (!as_found || found_length != length || memcmp(as_found, bytes, length) != 0)
            fail_msg("%s at byte %zu was written over", what, at);
    } else {
        tree_assert_holds(path, bytes, length);
    }
    free(as_found);
    record_done(&record);
}

/* Opens what is there. Either it is refused and left as it is, or it says that it is not
 * whole. Saving waits for the disk, so that it is tried at every 64th place only. */
static void expect_noticed(void **state, const char *bytes, size_t length, const char *what,
                           size_t at)
{
    const char *path = tree_path(*state, "d.ini");
    struct profile *profile;

    tree_write(path, bytes, length);
    if (profile_open(path, PROFILE_TO_EDIT, NULL, &profile) != STATUS_OK) {
        tree_assert_holds(path, bytes, length);
        return;
    }
    if (!(profile_notices(profile) & (PROFILE_END_MISSING | PROFILE_END_WRONG)) &&
        profile_editable(profile) != STATUS_NEWER)
        fail_msg("%s at byte %zu passed for whole", what, at);
    if (at % 64 == 0)
        expect_kept_as_found(state, profile, bytes, length, what, at);
    profile_close(profile);
}

static void every_byte_flipped_three_ways_is_noticed(void **state)
{
    static const unsigned char flips[] = {0x01, 0x20, 0xFF};
    size_t length;
    char *bytes = write_sample(tree_path(*state, "a.ini"), &length);

    for (size_t at = 0; at < length; at++)
        for (size_t k = 0; k < sizeof flips; k++) {
            bytes[at] = (char)((unsigned char)bytes[at] ^ flips[k]);
            expect_noticed(state, bytes, length, "a flip", at);
            bytes[at] = (char)((unsigned char)bytes[at] ^ flips[k]);
        }
    print_message("%zu bytes, flipped in 3 ways each\n", length);
    free(bytes);
}

static void every_cut_is_noticed(void **state)
{
    size_t length;
    char *bytes = write_sample(tree_path(*state, "a.ini"), &length);

    for (size_t cut = 0; cut < length; cut++)
        expect_noticed(state, bytes, cut, "a cut", cut);
    print_message("cut at %zu bytes\n", length);
    free(bytes);
}

/* What a disk leaves behind a file that was not written out: zeros in place of its end. */
static void every_run_of_zeros_is_noticed(void **state)
{
    size_t length;
    char *bytes = write_sample(tree_path(*state, "a.ini"), &length);

    for (size_t at = length; at-- > 0;) {
        bytes[at] = '\0';
        expect_noticed(state, bytes, length, "zeros", at);
    }
    free(bytes);
}

static void junk_behind_the_end_is_noticed(void **state)
{
    static const char *const junk[] = {
        "x", "\n\n[board]\nscale = 24 in\n", "\xFF\xFE", "[end]\n", "; by hand\n", "lines = 3\n"};
    size_t length;
    char *bytes = write_sample(tree_path(*state, "a.ini"), &length);

    bytes = realloc(bytes, length + 64);
    assert_non_null(bytes);
    for (size_t k = 0; k < sizeof junk / sizeof junk[0]; k++) {
        memcpy(bytes + length, junk[k], strlen(junk[k]));
        expect_noticed(state, bytes, length + strlen(junk[k]), "junk", k);
    }
    free(bytes);
}

/* Each line left out, doubled, or changed with the next one. */
static void lines_gone_doubled_or_moved_are_noticed(void **state)
{
    size_t length;
    char *bytes = write_sample(tree_path(*state, "a.ini"), &length);
    char *other = malloc(2 * length + 1);

    assert_non_null(other);
    for (size_t at = 0; at < length;) {
        const size_t line = strcspn(bytes + at, "\n") + 1, rest = length - at - line;
        const size_t next = rest ? strcspn(bytes + at + line, "\n") + 1 : 0;

        memcpy(other, bytes, at);
        memcpy(other + at, bytes + at + line, rest);
        expect_noticed(state, other, length - line, "a line gone", at);
        memcpy(other, bytes, at + line);
        memcpy(other + at + line, bytes + at, length - at);
        expect_noticed(state, other, length + line, "a line doubled", at);
        memcpy(other, bytes, length);
        memcpy(other + at, bytes + at + line, next);
        memcpy(other + at + next, bytes + at, line);
        if (memcmp(other, bytes, length) != 0)
            expect_noticed(state, other, length, "lines swapped", at);
        at += line;
    }
    free(other);
    free(bytes);
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(every_byte_flipped_three_ways_is_noticed),
        CASE(every_cut_is_noticed),
        CASE(every_run_of_zeros_is_noticed),
        CASE(junk_behind_the_end_is_noticed),
        CASE(lines_gone_doubled_or_moved_are_noticed),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
