/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/strbuf.h"
#include "seeded.h"
#include "store/crc32.h"
#include "store/profile.h"
#include "tree.h"

static const char tiny[] = "[profile]\nformat = 1\n\n[board]\nscale = 25.5 in\n";

static struct reading_key key_of(const char *section, const char *name)
{
    struct reading_key key;

    assert_int_equal(reading_key_parse(section, name, &key), STATUS_OK);
    return key;
}

static void put(struct record *record, const char *section, const char *name, const char *text)
{
    const struct reading_key key = key_of(section, name);

    assert_int_equal(record_put(record, &key, text, false, NULL), STATUS_OK);
}

static void drop(struct record *record, const char *section, const char *name)
{
    const struct reading_key key = key_of(section, name);

    assert_true(record_remove(record, &key));
}

static struct profile *open_profile(const char *path)
{
    struct profile *profile;

    assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
    return profile;
}

/* An opened profile and a copy of its record to change. */
static struct profile *open_to_change(const char *path, struct record *ret_record)
{
    struct profile *profile = open_profile(path);

    assert_int_equal(record_copy(profile_record(profile), ret_record), STATUS_OK);
    return profile;
}

static void save(struct profile *profile, struct record *record)
{
    assert_int_equal(profile_save(profile, record), STATUS_OK);
    assert_true(record_equal(profile_record(profile), record));
}

static void close_both(struct profile *profile, struct record *record)
{
    record_done(record);
    profile_close(profile);
}

/* `body` with the [end] that belongs to it, made by other means than the store's. */
static void add_end(struct strbuf *text)
{
    int lines = 0;

    for (size_t i = 0; i < text->length; i++)
        lines += text->text[i] == '\n';
    const unsigned crc = crc32_of(text->text, text->length);
    strbuf_addf(text, "[end]\nlines = %d\ncrc32 = %08x\n", lines, crc);
    assert_false(text->truncated);
}

static void assert_saved(const char *path, const char *body)
{
    char memory[8192];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, body);
    add_end(&text);
    tree_assert_text(path, memory);
}

static void write_whole(const char *path, const char *body)
{
    char memory[8192];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, body);
    add_end(&text);
    tree_write_text(path, memory);
}

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
    struct profile *profile = open_to_change(path, &record);
    assert_int_equal(profile_notices(profile), PROFILE_END_MISSING);
    save(profile, &record);
    assert_int_equal(profile_notices(profile), PROFILE_END_MISSING | PROFILE_KEPT_AS_FOUND);
    close_both(profile, &record);
    strbuf_add(&wanted, bytes);
    strbuf_add(&wanted, "\n");
    add_end(&wanted);
    tree_assert_text(path, memory);
    tree_assert_holds(tree_path(*state, "a.ini.as-found"), bytes, length);
    free(bytes);
    /* And now that it is whole, nothing is left to write. */
    profile = open_to_change(path, &record);
    assert_int_equal(profile_notices(profile), 0);
    save(profile, &record);
    assert_int_equal(profile_notices(profile), 0);
    close_both(profile, &record);
    tree_assert_text(path, memory);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 2);
}

static void one_reading_changes_one_line(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    write_whole(path,
                "; kept by hand\n[profile]\n  format=1\n\n[Board]\nScale  =  25.5 in ; ruler\n"
                "frets = 22\n# odd things\n[colour]\nfinish : worn\nlacquer = \"yes\" so\n"
                "[visit.1]\n[visit.1.pass.1]\nnut_gap.1 = .020 in\ncolour = red\n"
                "nut_gap.2 = .021 in   # cold\n\n\n");
    struct profile *profile = open_to_change(path, &record);
    put(&record, "visit.1.pass.1", "nut_gap.2", ".019 in");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path,
                 "; kept by hand\n[profile]\n  format=1\n\n[Board]\nScale  =  25.5 in ; ruler\n"
                 "frets = 22\n# odd things\n[colour]\nfinish : worn\nlacquer = \"yes\" so\n"
                 "[visit.1]\n[visit.1.pass.1]\nnut_gap.1 = .020 in\ncolour = red\n"
                 "nut_gap.2 = .019 in   # cold\n\n\n");
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
}

static void new_readings_find_their_place(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n; leads on\n\n"
                      "[targets]\ntouch = soft\n\n[visit.1]\ndate = 2026-03-02\n\n"
                      "[visit.2]\ndate = 2026-04-02\n\n");
    struct profile *profile = open_to_change(path, &record);
    put(&record, "board", "strings", "6");
    put(&record, "nut", "width", "43 mm");
    put(&record, "nut", "kind", "slotted");
    put(&record, "visit.1.pass.1", "relief", ".010 in");
    put(&record, "visit.1.work.1", "kind", "rod; a quarter turn");
    put(&record, "visit.3", "date", "2026-05-02");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nstrings = 6\n\n"
                       "[nut]\nkind = slotted\nwidth = 43 mm\n; leads on\n\n"
                       "[targets]\ntouch = soft\n\n[visit.1]\ndate = 2026-03-02\n\n"
                       "[visit.1.pass.1]\nrelief = .010 in\n\n"
                       "[visit.1.work.1]\nkind = \"rod%3B a quarter turn\"\n\n"
                       "[visit.2]\ndate = 2026-04-02\n\n[visit.3]\ndate = 2026-05-02\n\n");
}

static void removed_readings_take_their_section_along(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    write_whole(path,
                "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n[nut]\nkind = slotted\n\n"
                "[bridge]\nkind = screw\n; shims under it\n\n[neck]\njoin = bolted\nodd = 1\n\n"
                "[targets]\ntouch = soft\n\n");
    struct profile *profile = open_to_change(path, &record);
    drop(&record, "nut", "kind");
    drop(&record, "bridge", "kind");
    drop(&record, "neck", "join");
    drop(&record, "targets", "touch");
    put(&record, "targets", "relief", ".008 in");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n"
                       "[bridge]\n; shims under it\n\n[neck]\nodd = 1\n\n"
                       "[targets]\nrelief = .008 in\n\n");
}

static void a_repeated_key_is_changed_where_it_counts(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\nscale = 25 in\n\n");
    struct profile *profile = open_to_change(path, &record);
    const struct reading_key scale = key_of("board", "scale");
    assert_string_equal(record_text(&record, &scale), "25 in");
    put(&record, "board", "scale", "26 in");
    save(profile, &record);
    assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\nscale = 26 in\n\n");
    drop(&record, "board", "scale");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path, "[profile]\nformat = 1\n\n");
}

static void long_texts_go_on_and_come_back(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    char note[FIELD_TEXT_MAX + 1];
    struct strbuf text = STRBUF(note);
    const struct reading_key key = key_of("visit.1.pass.1", "note");
    struct record record;

    tree_write_text(path, tiny);
    while (text.length + 20 < text.size)
        strbuf_add(&text, "caf\xC3\xA9 \"12\" 50%41; ");
    struct profile *profile = open_to_change(path, &record);
    put(&record, "visit.1.pass.1", "note", note);
    put(&record, "visit.1.pass.1", "relief", ".010 in");
    save(profile, &record);
    close_both(profile, &record);
    profile = open_to_change(path, &record);
    assert_string_equal(record_text(&record, &key), note);
    char *bytes = tree_read(path, NULL);
    assert_non_null(strstr(bytes, "\nnote.12 = \""));
    free(bytes);
    put(&record, "visit.1.pass.1", "note", "short");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path, "[profile]\nformat = 1\n\n[board]\nscale = 25.5 in\n\n"
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
    const struct reading_key key = key_of("visit.1.pass.1", "note");
    const struct reading_key gap = key_of("visit.1.pass.1", "nut_gap.3");
    struct record record;

    write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 1 in\n[visit.1.pass.1]\n"
                      "note.3 = c\nnote.1 = b\nnote = a\nnut_gap.3 = .024 in\n");
    struct profile *profile = open_to_change(path, &record);
    assert_string_equal(record_text(&record, &key), "abc");
    assert_string_equal(record_text(&record, &gap), ".024 in");
    close_both(profile, &record);
}

static void bad_and_unknown_things_survive(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    write_whole(path, "[profile]\nformat = 1\n[board]\nscale = long\nstrings = six\n"
                      "[visit.1.pass.1]\nrelief = .01 inn ; ?\nspot.99 = 1 mm\n");
    struct profile *profile = open_to_change(path, &record);
    const struct reading_key scale = key_of("board", "scale");
    double value;
    assert_string_equal(record_text(&record, &scale), "long");
    assert_false(record_value(&record, &scale, &value));
    put(&record, "board", "strings", "6");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = long\nstrings = 6\n"
                       "[visit.1.pass.1]\nrelief = .01 inn ; ?\nspot.99 = 1 mm\n\n");
}

static void an_empty_line_is_filled_in(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    write_whole(path, "[profile]\nformat = 1\n[board]\nscale = \nstrings = ; how many\n\n");
    struct profile *profile = open_to_change(path, &record);
    assert_int_equal(record.count, 1);
    put(&record, "board", "scale", "25.5 in");
    put(&record, "board", "strings", "6");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path,
                 "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nstrings = 6 ; how many\n\n");
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
    struct profile *profile = open_to_change(path, &record);
    put(&record, "board", "scale", "26 in");
    put(&record, "nut", "width", "43 mm");
    save(profile, &record);
    close_both(profile, &record);
    strbuf_add(&wanted, body);
    strbuf_addf(&wanted, "[end]\r\nlines = 8\r\ncrc32 = %08x\r\n",
                (unsigned)crc32_of(body, strlen(body)));
    tree_assert_text(path, memory);
    profile = open_profile(path);
    assert_int_equal(profile_notices(profile), 0);
    profile_close(profile);
}

static void what_was_added_after_the_end_is_kept(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    char memory[512];
    struct strbuf file = STRBUF(memory);
    struct record record;

    strbuf_add(&file, tiny);
    add_end(&file);
    strbuf_add(&file, "lost = 1\n[visit.1]\ndate = 2026-03-02\n");
    tree_write_text(path, memory);
    struct profile *profile = open_to_change(path, &record);
    assert_int_equal(profile_notices(profile), PROFILE_END_WRONG);
    assert_int_equal(record_last_visit(&record), 1);
    save(profile, &record);
    close_both(profile, &record);
    strbuf_clear(&file);
    strbuf_addf(&file, "%s[end]\nlost = 1\n[visit.1]\ndate = 2026-03-02\n\n", tiny);
    assert_saved(path, memory);
}

static void a_cut_profile_never_passes_for_whole(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    size_t length;
    char *bytes = read_example(&length);
    struct record record;

    tree_write(path, bytes, length);
    free(bytes);
    struct profile *profile = open_to_change(path, &record);
    put(&record, "instrument", "note", "a \"long\" story\nin two lines");
    save(profile, &record);
    close_both(profile, &record);
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

static void each_found_state_is_kept_once(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    for (int round = 0; round < 2; round++) {
        tree_write_text(path, tiny);
        struct profile *profile = open_to_change(path, &record);
        put(&record, "board", "frets", "20");
        save(profile, &record);
        put(&record, "board", "frets", "21");
        save(profile, &record);
        close_both(profile, &record);
    }
    assert_int_equal(tree_count(((struct tree *)*state)->folder, "as-found"), 1);
    tree_write_text(path, "[profile]\nformat = 1\n[board]\nscale = 24 in\n");
    struct profile *profile = open_to_change(path, &record);
    save(profile, &record);
    close_both(profile, &record);
    tree_assert_text(tree_path(*state, "a.ini.as-found"), tiny);
    tree_assert_text(tree_path(*state, "a.ini.as-found.2"),
                     "[profile]\nformat = 1\n[board]\nscale = 24 in\n");
}

static void a_change_by_someone_else_keeps_both(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    static const char theirs[] = "[profile]\nformat = 1\n\n[board]\nscale = 25.6 in\n";
    struct record record;

    write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n");
    struct profile *profile = open_to_change(path, &record);
    tree_write_text(path, theirs);
    put(&record, "board", "frets", "20");
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    tree_assert_text(path, theirs);
    assert_string_equal(profile_conflict_path(profile), tree_path(*state, "a.ini.conflict"));
    assert_int_equal(profile_notices(profile), PROFILE_CONFLICT);
    put(&record, "board", "frets", "21");
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    close_both(profile, &record);
    tree_assert_text(path, theirs);
    assert_saved(tree_path(*state, "a.ini.conflict"),
                 "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nfrets = 21\n\n");
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 2);
}

/* Same size and, as far as the clock can tell, the same moment. */
static void a_change_is_noticed_without_the_clock(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct stat facts;
    struct record record;

    tree_write_text(path, tiny);
    assert_int_equal(stat(path, &facts), 0);
    struct profile *profile = open_to_change(path, &record);
    tree_write_text(path, "[profile]\nformat = 1\n\n[board]\nscale = 25.6 in\n");
    const struct timespec times[2] = {facts.st_atim, facts.st_mtim};
    assert_int_equal(utimensat(AT_FDCWD, path, times, 0), 0);
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    close_both(profile, &record);
}

static void a_file_only_touched_is_no_conflict(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    tree_write_text(path, tiny);
    struct profile *profile = open_to_change(path, &record);
    tree_write_text(tree_path(*state, "b"), tiny);
    assert_int_equal(rename(tree_path(*state, "b"), path), 0);
    save(profile, &record);
    close_both(profile, &record);
}

static void a_removed_file_is_written_anew(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    write_whole(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\n\n");
    struct profile *profile = open_to_change(path, &record);
    assert_int_equal(unlink(path), 0);
    put(&record, "board", "frets", "20");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nfrets = 20\n\n");
}

static void a_newer_format_is_never_rewritten(void **state)
{
    static const char *const formats[] = {"2", "999999999999", "1.5", "one"};
    const char *path = tree_path(*state, "a.ini");

    for (size_t i = 0; i < sizeof formats / sizeof formats[0]; i++) {
        char memory[128];
        struct strbuf file = STRBUF(memory);
        struct record record;

        strbuf_addf(&file, "[profile]\nformat = %s\n[board]\nscale = 25 in\n", formats[i]);
        tree_write_text(path, memory);
        struct profile *profile = open_to_change(path, &record);
        assert_int_equal(profile_editable(profile), STATUS_NEWER);
        put(&record, "board", "scale", "26 in");
        assert_int_equal(profile_save(profile, &record), STATUS_NEWER);
        close_both(profile, &record);
        tree_assert_text(path, memory);
    }
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ""), 1);
}

static void the_second_program_reads_only(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    tree_write_text(path, tiny);
    assert_int_equal(symlink("a.ini", tree_path(*state, "link.ini")), 0);
    struct profile *first = open_profile(path);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 1);
    struct profile *second = open_to_change(tree_path(*state, "link.ini"), &record);
    char memory[64];
    struct strbuf holder = STRBUF(memory);
    strbuf_addf(&holder, "process %d on ", (int)getpid());
    assert_int_equal(profile_editable(second), STATUS_LOCKED);
    assert_ptr_equal(strstr(profile_lock_holder(second), memory), profile_lock_holder(second));
    assert_int_equal(profile_save(second, &record), STATUS_LOCKED);
    close_both(second, &record);
    /* The second one's end must not take the first one's lock away. */
    second = open_profile(path);
    assert_int_equal(profile_editable(second), STATUS_LOCKED);
    profile_close(second);
    profile_close(first);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 0);
    first = open_profile(path);
    assert_int_equal(profile_editable(first), STATUS_OK);
    profile_close(first);
}

static void a_dead_ones_lock_is_taken_over(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    int status;

    tree_write_text(path, tiny);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        struct profile *profile;

        _exit(profile_open(path, PROFILE_TO_EDIT, NULL, &profile) == STATUS_OK ? 0 : 1);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    assert_int_equal(tree_count(((struct tree *)*state)->folder, ".lock"), 1);
    struct profile *profile = open_profile(path);
    assert_int_equal(profile_editable(profile), STATUS_OK);
    profile_close(profile);
}

/* A lock file that leads elsewhere must not have anything written through it. */
static void a_planted_lock_does_no_harm(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct record record;

    tree_write_text(path, tiny);
    tree_write_text(tree_path(*state, "victim"), "precious");
    assert_int_equal(symlink("victim", tree_path(*state, "a.ini.lock")), 0);
    struct profile *profile = open_to_change(path, &record);
    assert_int_equal(profile_editable(profile), STATUS_OK);
    assert_true(profile_notices(profile) & PROFILE_NO_LOCK);
    save(profile, &record);
    close_both(profile, &record);
    tree_assert_text(tree_path(*state, "victim"), "precious");
    assert_int_equal(unlink(tree_path(*state, "a.ini.lock")), 0);
    assert_int_equal(mkfifo(tree_path(*state, "a.ini.lock"), 0600), 0);
    profile = open_profile(path);
    assert_true(profile_notices(profile) & PROFILE_NO_LOCK);
    profile_close(profile);
}

static void a_new_profile_never_overwrites(void **state)
{
    const char *path = tree_path(*state, "a.ini");
    struct profile *profile;
    struct record record;

    assert_int_equal(profile_create(tree_path(*state, "none/a.ini"), &profile), STATUS_NOT_FOUND);
    assert_int_equal(profile_create(path, &profile), STATUS_OK);
    assert_int_equal(record_copy(profile_record(profile), &record), STATUS_OK);
    put(&record, "board", "scale", "25.5 in");
    tree_write_text(path, tiny);
    assert_int_equal(profile_save(profile, &record), STATUS_CHANGED);
    tree_assert_text(path, tiny);
    profile_close(profile);
    assert_int_equal(profile_create(path, &profile), STATUS_CHANGED);
    assert_int_equal(unlink(path), 0);
    assert_int_equal(profile_create(path, &profile), STATUS_OK);
    save(profile, &record);
    assert_int_equal(profile_notices(profile), 0);
    put(&record, "instrument", "name", "Parlour No. 3");
    save(profile, &record);
    close_both(profile, &record);
    assert_saved(path, "[profile]\nformat = 1\n\n[instrument]\nname = Parlour No. 3\n\n"
                       "[board]\nscale = 25.5 in\n\n");
    struct stat facts;
    assert_int_equal(stat(path, &facts), 0);
    assert_int_equal(facts.st_mode & 0777, 0600);
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
    profile = open_to_change(path, &record);
    for (int round = 0; round < 400; round++) {
        for (int i = seeded_whole(&seeded, 1, 6); i > 0; i--) {
            const struct reading_key pass =
                reading_key_pass_at(FIELD_NUT_GAP, seeded_whole(&seeded, 1, 4),
                                    seeded_whole(&seeded, 1, 3), seeded_whole(&seeded, 1, 8), 0);
            struct reading_key text = reading_key_pass(FIELD_PASS_NOTE, pass.visit, pass.part);
            if (seeded_whole(&seeded, 0, 1))
                text = reading_key_string(FIELD_WRAP_MATERIAL, pass.string);

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
        save(profile, &record);
        if (seeded_whole(&seeded, 0, 9) == 0) {
            profile_close(profile);
            profile = open_profile(path);
            assert_int_equal(profile_notices(profile), 0);
            assert_true(record_equal(profile_record(profile), &record));
        }
    }
    close_both(profile, &record);
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
        IN_TREE(removed_readings_take_their_section_along),
        IN_TREE(a_repeated_key_is_changed_where_it_counts),
        IN_TREE(long_texts_go_on_and_come_back),
        cmocka_unit_test(no_text_has_numbers_behind_its_key),
        IN_TREE(parts_written_by_hand_are_joined_in_order),
        IN_TREE(bad_and_unknown_things_survive),
        IN_TREE(an_empty_line_is_filled_in),
        IN_TREE(crlf_is_kept_and_a_bom_dropped),
        IN_TREE(what_was_added_after_the_end_is_kept),
        IN_TREE(a_cut_profile_never_passes_for_whole),
        IN_TREE(each_found_state_is_kept_once),
        IN_TREE(a_change_by_someone_else_keeps_both),
        IN_TREE(a_change_is_noticed_without_the_clock),
        IN_TREE(a_file_only_touched_is_no_conflict),
        IN_TREE(a_removed_file_is_written_anew),
        IN_TREE(a_newer_format_is_never_rewritten),
        IN_TREE(the_second_program_reads_only),
        IN_TREE(a_dead_ones_lock_is_taken_over),
        IN_TREE(a_planted_lock_does_no_harm),
        IN_TREE(a_new_profile_never_overwrites),
        IN_TREE(any_run_of_changes_is_kept),
    };

    return cmocka_run_group_tests_name("profile", tests, NULL, NULL) ? 1 : 0;
}
