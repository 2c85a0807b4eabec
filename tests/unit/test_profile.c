/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "model/reading/record_access.h"
#include "profile_steps.h"
#include "seeded.h"
#include "store/crc32.h"
#include "tree.h"

static char *read_example(size_t *ret_length)
{
    char *bytes = tree_read(SILLET_TEST_DATA "/worked-example.ini", ret_length);

    assert_non_null(bytes);
    return bytes;
}

static void the_example_is_kept_byte_for_byte(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    char memory[8192];
    struct strbuf wanted = STRBUF(memory);
    size_t length;
    char *bytes = read_example(&length);
    struct record record;

    tree_write(path, bytes, length);
    struct profile *profile = steps_open_to_change(path, &record);
    assert_int_equal(profile_notices(profile), PROFILE_END_MISSING);
    steps_save(profile, &record);
    assert_int_equal(profile_notices(profile), PROFILE_END_MISSING | PROFILE_KEPT_AS_FOUND);
    steps_close(profile, &record);
    strbuf_add(&wanted, bytes);
    strbuf_add(&wanted, "\n");
    steps_add_end(&wanted);
    tree_assert_text(path, memory);
    tree_assert_holds(tree_path(*state, "a.ini.as-found"), bytes, length);
    free(bytes);
    /* And now that it is whole, nothing is left to write. */
    profile = steps_open_to_change(path, &record);
    assert_int_equal(profile_notices(profile), 0);
    steps_save(profile, &record);
    assert_int_equal(profile_notices(profile), 0);
    steps_close(profile, &record);
    tree_assert_text(path, memory);
    /* The profile, what it was as found, and its generations. */
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 3);
}

static void one_reading_changes_one_line(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(
        path, "; kept by hand\n[profile]\n  format=1\n\n[Board]\nScale  =  25.5 in ; ruler\n"
              "frets = 22\n# odd things\n[colour]\nfinish : worn\nlacquer = \"yes\" so\n"
              "[visit.1]\n[visit.1.pass.1]\nnut_gap.1 = .020 in\ncolour = red\n"
              "nut_gap.2 = .021 in   # cold\n\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "visit.1.pass.1", "nut_gap.2", ".019 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(
        path, "; kept by hand\n[profile]\n  format=1\n\n[Board]\nScale  =  25.5 in ; ruler\n"
              "frets = 22\n# odd things\n[colour]\nfinish : worn\nlacquer = \"yes\" so\n"
              "[visit.1]\n[visit.1.pass.1]\nnut_gap.1 = .020 in\ncolour = red\n"
              "nut_gap.2 = .019 in   # cold\n\n\n");
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 2);
}

static void new_readings_find_their_place(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n; leads on\n\n"
                            "[targets]\ntouch = soft\n\n[visit.1]\ndate = 2026-03-02\n\n"
                            "[visit.2]\ndate = 2026-04-02\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "strings", "6");
    steps_put(&record, "nut", "width", "43 mm");
    steps_put(&record, "nut", "kind", "slotted");
    steps_put(&record, "visit.1.pass.1", "relief", ".010 in");
    steps_put(&record, "visit.1.work.1", "kind", "rod; a quarter turn");
    steps_put(&record, "visit.3", "date", "2026-05-02");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nstrings = 6\n\n"
                             "[nut]\nkind = slotted\nwidth = 43 mm\n; leads on\n\n"
                             "[targets]\ntouch = soft\n\n[visit.1]\ndate = 2026-03-02\n\n"
                             "[visit.1.pass.1]\nrelief = .010 in\n\n"
                             "[visit.1.work.1]\nkind = \"rod%3B a quarter turn\"\n\n"
                             "[visit.2]\ndate = 2026-04-02\n\n[visit.3]\ndate = 2026-05-02\n\n");
}

/* A word of the format is a text like any other where it was typed as one; written bare it is what
 * older files have. */
static void a_text_is_never_a_word_of_the_format(void **state)
{
    static const char before[] = "[profile]\nformat = 2\n\n[instrument]\nowner = A. Marsh\n"
                                 "contact = absent\n\n[visit.1]\ndate = 2026-03-02\n\n[visit.2]\n"
                                 "date = 2026-04-02\n\n[visit.2.instrument]\nowner = absent\n\n";
    const char *path = tree_path(*state, "a.ini");
    const struct reading_key owner = reading_key_one(FIELD_OWNER),
                             contact = reading_key_one(FIELD_CONTACT),
                             change = reading_key_as_of(owner, 2);
    struct record record;

    steps_write_whole(path, before);
    struct profile *profile = steps_open_to_change(path, &record);
    assert_null(record_text(&record, &owner));
    assert_string_equal(record_text(&record, &contact), "absent");
    assert_int_equal(record_put(&record, &change, "absent", false, NULL), STATUS_OK);
    assert_string_equal(record_text(&record, &owner), "absent");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 2\n\n[instrument]\nowner = A. Marsh\n"
                             "contact = absent\n\n[visit.1]\ndate = 2026-03-02\n\n[visit.2]\n"
                             "date = 2026-04-02\n\n[visit.2.instrument]\nowner = %61bsent\n\n");
    profile = steps_open_to_change(path, &record);
    assert_string_equal(record_text(&record, &owner), "absent");
    assert_int_equal(record_put(&record, &change, RECORD_GONE, false, NULL), STATUS_OK);
    assert_null(record_text(&record, &owner));
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, before);
}

/* What a visit changed goes behind the visit, each section once, in whatever order the record has
 * it; and what is there already is edited in its line. */
static void changes_are_written_with_their_visit(void **state)
{
    static const char before[] = "[profile]\nformat = 2\n\n[string.1]\ngauge = .012 in\n\n"
                                 "[string.2]\ngauge = .016 in\n\n"
                                 "[visit.1]\ndate = 2026-03-02\n\n[visit.2]\n"
                                 "date = 2026-04-02\n\n[visit.2.string.2] ; new\n"
                                 "gauge = .017 in\n\n[visit.2.pass.1]\nrelief = .010 in\n\n"
                                 "[visit.3]\ndate = 2026-05-02\n\n";
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(path, before);
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "visit.3.string.1", "mass", "absent");
    steps_put(&record, "visit.3.string.1", "gauge", ".013 in");
    steps_put(&record, "visit.2.string.1", "gauge", ".011 in");
    steps_put(&record, "visit.2.string.1", "mass", "0.4 g/m");
    steps_put(&record, "visit.2.string.2", "gauge", ".018 in");
    steps_put(&record, "visit.2.targets", "relief", ".008 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(
        path, "[profile]\nformat = 2\n\n[string.1]\ngauge = .012 in\n\n"
              "[string.2]\ngauge = .016 in\n\n"
              "[visit.1]\ndate = 2026-03-02\n\n[visit.2]\n"
              "date = 2026-04-02\n\n[visit.2.string.1]\ngauge = .011 in\nmass = 0.4 g/m\n\n"
              "[visit.2.string.2] ; new\ngauge = .018 in\n\n"
              "[visit.2.targets]\nrelief = .008 in\n\n[visit.2.pass.1]\nrelief = .010 in\n\n"
              "[visit.3]\ndate = 2026-05-02\n\n"
              "[visit.3.string.1]\ngauge = .013 in\nmass = absent\n\n");
    profile = steps_open_to_change(path, &record);
    steps_drop(&record, "visit.2.string.1", "gauge");
    steps_drop(&record, "visit.2.string.1", "mass");
    steps_drop(&record, "visit.2.targets", "relief");
    steps_drop(&record, "visit.3.string.1", "gauge");
    steps_drop(&record, "visit.3.string.1", "mass");
    steps_put(&record, "visit.2.string.2", "gauge", ".017 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, before);
}

static void removed_readings_take_their_section_along(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(
        path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n[nut]\nkind = slotted\n\n"
              "[bridge]\nkind = screw\n; shims under it\n\n[neck]\njoin = bolted\nodd = 1\n\n"
              "[targets]\ntouch = soft\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_drop(&record, "nut", "kind");
    steps_drop(&record, "bridge", "kind");
    steps_drop(&record, "neck", "join");
    steps_drop(&record, "targets", "touch");
    steps_put(&record, "targets", "relief", ".008 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n"
                             "[bridge]\n; shims under it\n\n[neck]\nodd = 1\n\n"
                             "[targets]\nrelief = .008 in\n\n");
}

static void a_repeated_key_is_changed_where_it_counts(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\nscale = 25 in\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    const struct reading_key scale = steps_key("board", "scale");
    assert_string_equal(record_text(&record, &scale), "25 in");
    steps_put(&record, "board", "scale", "26 in");
    steps_save(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\nscale = 26 in\n\n");
    steps_drop(&record, "board", "scale");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 1\n\n");
}

static void long_texts_go_on_and_come_back(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    char note[FIELD_TEXT_MAX + 1];
    struct strbuf text = STRBUF(note);
    const struct reading_key key = steps_key("visit.1.pass.1", "note");
    struct record record;

    tree_write_text(path, steps_tiny);
    while (text.length + 20 < text.size)
        strbuf_add(&text, "caf\xC3\xA9 \"12\" 50%41; ");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "visit.1.pass.1", "note", note);
    steps_put(&record, "visit.1.pass.1", "relief", ".010 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    profile = steps_open_to_change(path, &record);
    assert_string_equal(record_text(&record, &key), note);
    char *bytes = tree_read(path, NULL);
    assert_non_null(strstr(bytes, "\nnote.12 = \""));
    free(bytes);
    steps_put(&record, "visit.1.pass.1", "note", "short");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 1\n\n[board]\nscale = 25.5 in\n\n"
                             "[visit.1.pass.1]\nrelief = .010 in\nnote = short\n\n");
}

/* The parts of a text and the numbered keys must never be mistaken for each other. */
static void no_text_has_numbers_behind_its_key(void **state)
{
    (void)state;
    for (int id = 0; id < FIELD_COUNT_; id++) {
        const struct field *field = field_get((enum field_id)id);

        if (field->kind != KIND_TEXT)
            continue;
        assert_int_equal(field->per, PER_ONE);
        for (int other = 0; other < FIELD_COUNT_; other++) {
            const struct field *same = field_get((enum field_id)other);

            if (other != id && same->section == field->section)
                assert_string_not_equal(same->key, field->key);
        }
    }
}

static void parts_written_by_hand_are_joined_in_order(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    const struct reading_key key = steps_key("visit.1.pass.1", "note");
    const struct reading_key gap = steps_key("visit.1.pass.1", "nut_gap.3");
    struct record record;

    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 1 in\n[visit.1.pass.1]\n"
                            "note.3 = c\nnote.1 = b\nnote = a\nnut_gap.3 = .024 in\n");
    struct profile *profile = steps_open_to_change(path, &record);
    assert_string_equal(record_text(&record, &key), "abc");
    assert_string_equal(record_text(&record, &gap), ".024 in");
    steps_close(profile, &record);
}

static void bad_and_unknown_things_survive(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = long\nstrings = six\n"
                            "[visit.1.pass.1]\nrelief = .01 inn ; ?\nspot.99 = 1 mm\n");
    struct profile *profile = steps_open_to_change(path, &record);
    const struct reading_key scale = steps_key("board", "scale");
    assert_string_equal(record_text(&record, &scale), "long");
    assert_false(record_entered(&record, scale).given);
    steps_put(&record, "board", "strings", "6");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = long\nstrings = 6\n"
                             "[visit.1.pass.1]\nrelief = .01 inn ; ?\nspot.99 = 1 mm\n\n");
}

static void an_empty_line_is_filled_in(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    steps_write_whole(path, "[profile]\nformat = 1\n[board]\nscale = \nstrings = ; how many\n\n");
    struct profile *profile = steps_open_to_change(path, &record);
    assert_int_equal(record.count, 1);
    steps_put(&record, "board", "scale", "25.5 in");
    steps_put(&record, "board", "strings", "6");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(
        path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nstrings = 6 ; how many\n\n");
}

static void crlf_is_kept_and_a_bom_dropped(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    static const char body[] = "[profile]\r\nformat = 1\r\n[board]\r\nscale = 26 in\r\n\r\n"
                               "[nut]\r\nwidth = 43 mm\r\n\r\n";
    char memory[512];
    struct strbuf wanted = STRBUF(memory);
    struct record record;

    tree_write_text(path, "\xEF\xBB\xBF[profile]\r\nformat = 1\r\n[board]\r\nscale = 25 in");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "scale", "26 in");
    steps_put(&record, "nut", "width", "43 mm");
    steps_save(profile, &record);
    steps_close(profile, &record);
    strbuf_add(&wanted, body);
    strbuf_addf(&wanted, "[end]\r\nlines = 8\r\ncrc32 = %08x\r\n",
                (unsigned)crc32_of(body, strlen(body)));
    tree_assert_text(path, memory);
    profile = steps_open(path);
    assert_int_equal(profile_notices(profile), 0);
    profile_close(profile);
}

/* Where programs in a row each put one in front. */
static void two_byte_order_marks_are_dropped(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    tree_write_text(path, "\xEF\xBB\xBF\xEF\xBB\xBF; by hand\n[board]\nscale = 25 in\n");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "scale", "26 in");
    steps_save(profile, &record);
    steps_close(profile, &record);
    steps_assert_saved(path, "; by hand\n[board]\nscale = 26 in\n\n");
}

/* Its one reading taken out again, nothing but [end] is left, and it is still a profile. */
static void an_emptied_profile_is_saved(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    const struct reading_key scale = reading_key_one(FIELD_SCALE);
    struct record record;

    tree_write_text(path, "");
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "board", "scale", "26 in");
    steps_save(profile, &record);
    assert_true(record_remove(&record, &scale));
    steps_save(profile, &record);
    steps_close(profile, &record);
    profile = steps_open_to_change(path, &record);
    assert_int_equal(record.count, 0);
    assert_int_equal(profile_notices(profile), 0);
    steps_close(profile, &record);
    tree_write_text(path, "[end]\nlines = 7\ncrc32 = 00000000\n");
    assert_int_equal(profile_open(path, PROFILE_TO_READ, NULL, &profile), STATUS_SYNTAX);
}

static void what_was_added_after_the_end_is_kept(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    char memory[512];
    struct strbuf file = STRBUF(memory);
    struct record record;

    strbuf_add(&file, steps_tiny);
    steps_add_end(&file);
    strbuf_add(&file, "lost = 1\n[visit.1]\ndate = 2026-03-02\n");
    tree_write_text(path, memory);
    struct profile *profile = steps_open_to_change(path, &record);
    assert_int_equal(profile_notices(profile), PROFILE_END_WRONG);
    assert_int_equal(record_last_visit(&record), 1);
    steps_save(profile, &record);
    steps_close(profile, &record);
    strbuf_clear(&file);
    strbuf_addf(&file, "%s[end]\nlost = 1\n[visit.1]\ndate = 2026-03-02\n\n", steps_tiny);
    steps_assert_saved(path, memory);
}

static void a_cut_profile_never_passes_for_whole(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    size_t length;
    char *bytes = read_example(&length);
    struct record record;

    tree_write(path, bytes, length);
    free(bytes);
    struct profile *profile = steps_open_to_change(path, &record);
    steps_put(&record, "instrument", "note", "a \"long\" story\nin two lines");
    steps_save(profile, &record);
    steps_close(profile, &record);
    bytes = tree_read(path, &length);
    for (size_t cut = 0; cut < length; cut++) {
        tree_write(path, bytes, cut);
        const enum status status = profile_open(path, PROFILE_TO_READ, NULL, &profile);
        if (status != STATUS_OK)
            continue;
        if (!(profile_notices(profile) & (PROFILE_END_MISSING | PROFILE_END_WRONG)))
            fail_msg("the first %zu of %zu bytes passed for whole", cut, length);
        profile_close(profile);
    }
    free(bytes);
}

/* Random changes, saved and opened again: always the same record, and no other loss. */
static void any_run_of_changes_is_kept(void **state)
{
    static const char *const texts[] = {"", "x", " a;b ", "50%41\n", "\xFF\"'\\", "; # ="};
    const char *path = tree_path(*state, "a.ini");
    struct seeded seeded = seeded_start("any run of changes");
    struct profile *profile;
    struct record record;

    tree_write_text(
        path, "; first\n[profile]\nformat = 1 ; f\n[board]\n; b\nscale = 25 in\n[odd]\nx = 1\n");
    profile = steps_open_to_change(path, &record);
    for (int round = 0; round < 400; round++) {
        for (int i = seeded_whole(&seeded, 1, 6); i > 0; i--) {
            const struct reading_key pass =
                reading_key_pass_at(FIELD_NUT_GAP, seeded_whole(&seeded, 1, 4),
                                    seeded_whole(&seeded, 1, 3), seeded_whole(&seeded, 1, 8), 0);
            struct reading_key text = reading_key_pass(FIELD_PASS_NOTE, pass.visit, pass.part);
            if (seeded_whole(&seeded, 0, 1))
                text = reading_key_as_of(reading_key_string(FIELD_WRAP_MATERIAL, pass.string),
                                         seeded_whole(&seeded, 0, 4));

            if (seeded_whole(&seeded, 0, 2) == 0) {
                record_remove(&record, &pass);
                record_remove(&record, &text);
            } else {
                assert_int_equal(record_put(&record, &pass, ".020 in", false, NULL), STATUS_OK);
                assert_int_equal(
                    record_put(&record, &text, texts[seeded_whole(&seeded, 0, 5)], false, NULL),
                    STATUS_OK);
            }
        }
        steps_save(profile, &record);
        if (seeded_whole(&seeded, 0, 9) == 0) {
            profile_close(profile);
            profile = steps_open(path);
            assert_int_equal(profile_notices(profile), 0);
            assert_true(record_equal(profile_record(profile), &record));
        }
    }
    steps_close(profile, &record);
    char *bytes = tree_read(path, NULL);
    assert_non_null(
        strstr(bytes, "; first\n[profile]\nformat = 1 ; f\n[board]\n; b\nscale = 25 in\n"));
    assert_non_null(strstr(bytes, "[odd]\nx = 1\n"));
    free(bytes);
}

#define IN_TREE(test) cmocka_unit_test_setup_teardown(test, tree_setup, tree_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_TREE(the_example_is_kept_byte_for_byte),
        IN_TREE(one_reading_changes_one_line),
        IN_TREE(new_readings_find_their_place),
        IN_TREE(a_text_is_never_a_word_of_the_format),
        IN_TREE(changes_are_written_with_their_visit),
        IN_TREE(removed_readings_take_their_section_along),
        IN_TREE(a_repeated_key_is_changed_where_it_counts),
        IN_TREE(long_texts_go_on_and_come_back),
        cmocka_unit_test(no_text_has_numbers_behind_its_key),
        IN_TREE(parts_written_by_hand_are_joined_in_order),
        IN_TREE(bad_and_unknown_things_survive),
        IN_TREE(an_empty_line_is_filled_in),
        IN_TREE(crlf_is_kept_and_a_bom_dropped),
        IN_TREE(two_byte_order_marks_are_dropped),
        IN_TREE(an_emptied_profile_is_saved),
        IN_TREE(what_was_added_after_the_end_is_kept),
        IN_TREE(a_cut_profile_never_passes_for_whole),
        IN_TREE(any_run_of_changes_is_kept),
    };

    return cmocka_run_group_tests_name("profile", tests, NULL, NULL) ? 1 : 0;
}
