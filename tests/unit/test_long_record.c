/* SPDX-License-Identifier: MIT */
/* Decades of visits in one file, and what happens when it is nearly full or full. */
#include "near.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "profile_steps.h"
#include "store/ini_write.h"
#include "store/profile/aside.h"
#include "store/profile/profile_inner.h"
#include "store/profile/profile_load.h"
#include "tree.h"

static const char head[] = "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n";

static void write_bytes(const char *path, const struct bytes *bytes)
{
    assert_int_equal(bytes_status(bytes), STATUS_OK);
    tree_write(path, bytes->data, bytes->length);
}

/* So many visits of 26 lines each. */
static void write_visits(const char *path, int visits)
{
    char memory[1000];
    struct strbuf visit = STRBUF(memory);
    struct bytes bytes;

    bytes_init(&bytes);
    bytes_add_text(&bytes, head);
    for (int i = 1; i <= visits; i++) {
        strbuf_clear(&visit);
        strbuf_addf(&visit, "\n[visit.%d]\nhumidity = 41\n\n[visit.%d.pass.1]\n", i, i);
        for (int string = 1; string <= 10; string++)
            strbuf_addf(&visit, "nut_gap.%d = %d th\naction.%d = %d/64 in\n", string, 10 + i % 20,
                        string, 3 + i % 7);
        strbuf_add(&visit, "relief = .010 in\n");
        bytes_add_text(&bytes, memory);
    }
    ini_write_gap(&bytes, "\n");
    ini_end_add(&bytes, "\n");
    write_bytes(path, &bytes);
    bytes_done(&bytes);
}

static const char *reading_of(const struct record *record, int visit)
{
    const struct reading_key key = reading_key_pass(FIELD_RELIEF, visit, 1);

    return record_text(record, &key);
}

static void two_hundred_thousand_lines_are_no_wall(void **state)
{
    enum { VISITS = 7800 };
    const char *path = tree_path(*state, "a.ini");
    const clock_t start = clock();
    struct record record;

    write_visits(path, VISITS);
    struct profile *profile = steps_open_to_change(path, &record);
    assert_true(profile_content(profile)->text.line_count > 200000);
    assert_int_equal(profile_notices(profile), 0);
    assert_string_equal(reading_of(&record, VISITS), ".010 in");
    steps_put(&record, "visit.1.pass.1", "relief", ".012 in");
    steps_put(&record, "visit.7800.pass.2", "relief", ".008 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    profile = steps_open(path);
    assert_int_equal(profile_notices(profile), 0);
    assert_string_equal(reading_of(profile_record(profile), 1), ".012 in");
    assert_string_equal(reading_of(profile_record(profile), VISITS), ".010 in");
    assert_int_equal(record_last_pass(profile_record(profile), VISITS), 2);
    profile_close(profile);
    /* Seconds, where the square of the lines would take minutes. */
    assert_true((double)(clock() - start) / CLOCKS_PER_SEC < 30);
}

static void write_lines(const char *path, size_t lines)
{
    struct bytes bytes;

    bytes_init(&bytes);
    bytes_add_text(&bytes, head);
    for (size_t i = 4; i < lines; i++)
        bytes_add(&bytes, ";\n", 2);
    write_bytes(path, &bytes);
    bytes_done(&bytes);
}

static bool warns_of_length(const struct problems *problems)
{
    for (size_t i = 0; i < problems->count; i++)
        if (strncmp(problems->items[i].words, "long: ", 6) == 0)
            return true;
    return false;
}

static void the_end_is_said_from_half_way(void **state)
{
    const char *path = tree_path(*state, "a.ini");

    for (int over = 0; over <= 1; over++) {
        struct problems problems;
        struct profile *profile;

        write_lines(path, (size_t)(PROFILE_LINES_MAX / 2 + over));
        problems_init(&problems);
        assert_int_equal(profile_open(path, PROFILE_TO_READ, &problems, &profile), STATUS_OK);
        assert_int_equal(warns_of_length(&problems), over);
        assert_int_equal((profile_notices(profile) & PROFILE_LONG) != 0, over);
        profile_close(profile);
        problems_done(&problems);
    }
}

/* The file stays as it is, and what it does not hold any more is kept aside and comes back. */
static void nothing_is_written_that_does_not_open(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    char *aside = NULL;
    size_t length;
    struct record record;

    assert_int_equal(setenv("XDG_STATE_HOME", tree_path(*state, "state"), 1), 0);
    write_lines(path, PROFILE_LINES_MAX);
    char *before = tree_read(path, &length);
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "frets", "20");
    assert_int_equal(profile_save(profile, &record), STATUS_TOO_LARGE);
    tree_assert_holds(path, before, length);
    assert_int_equal(aside_keep(profile, &record, &aside), STATUS_OK);
    steps_close(profile, &record);
    free(aside);
    free(before);
    profile = steps_open(path);
    assert_int_equal(aside_find(profile, &record, &aside), ASIDE_RECORD);
    const struct reading_key frets = steps_key("board", "frets");
    assert_string_equal(record_text(&record, &frets), "20");
    steps_close(profile, &record);
    free(aside);
}

/* That is said before anything is typed which no file would hold. */
static void what_cannot_be_written_opens_for_reading(void **state)
{
    const char *path = tree_path(*state, "a.ini");

    for (int over = 0; over <= 1; over++) {
        write_lines(path, (size_t)(PROFILE_LINES_MAX + over));
        struct profile *profile = steps_open(path);
        assert_int_equal(profile_editable(profile), over ? STATUS_TOO_LARGE : STATUS_OK);
        profile_close(profile);
    }
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(two_hundred_thousand_lines_are_no_wall),
        IN_TREE(the_end_is_said_from_half_way),
        IN_TREE(nothing_is_written_that_does_not_open),
        IN_TREE(what_cannot_be_written_opens_for_reading),
    };

    return cmocka_run_group_tests_name("long_record", tests, NULL, NULL) ? 1 : 0;
}
