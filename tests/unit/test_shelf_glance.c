/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "model/reading/journal.h"
#include "model/survey/shelf_glance.h"
#include "old_files.h"
#include "seeded.h"
#include "store/profile/profile.h"
#include "store/profile/profile_load.h"
#include "store/profile/profile_look.h"
#include "tree.h"

/*
 * A look at a profile says what reading all of it says: of every profile of the tree, found in the
 * folders that are given as arguments, whole, cut short and with bytes spoilt.
 */

static struct old_files files;

struct seen {
    enum status status;
    struct card card;
    struct shelf_facts facts;
    struct profile_content content;
};

static struct bytes bytes_of(const char *text, size_t length)
{
    struct bytes bytes;

    bytes_init(&bytes);
    bytes_add(&bytes, text, length);
    assert_int_equal(bytes_status(&bytes), STATUS_OK);
    return bytes;
}

static void read_whole(const char *text, size_t length, struct seen *seen)
{
    struct bytes bytes = bytes_of(text, length);

    seen->status = profile_load(&bytes, NULL, &seen->content);
    bytes_done(&bytes);
    if (seen->status != STATUS_OK)
        return;
    const struct record *record = &seen->content.record;
    struct past past = past_of(record);
    struct derived now;

    derive_measured(place_current(record), &past, &now);
    card_make_of(record, &now, &past, &seen->card);
    shelf_facts_make(record, &now, &past, &seen->facts);
}

static void look(const char *text, size_t length, struct seen *seen)
{
    struct bytes bytes = bytes_of(text, length);
    bool wanted[FIELD_COUNT_];

    shelf_glance_fields(bytes.data, bytes.length, wanted);
    seen->status = profile_glance(&bytes, wanted, &seen->content);
    bytes_done(&bytes);
    if (seen->status == STATUS_OK)
        shelf_glance_make(&seen->content.record, &seen->card, &seen->facts);
}

static void done(struct seen *seen)
{
    if (seen->status == STATUS_OK)
        profile_content_done(&seen->content);
}

static void check_number(const struct seen *whole, const struct seen *glance, enum fact_number id)
{
    const struct maybe wanted = whole->facts.number[id], got = glance->facts.number[id];

    assert_int_equal(got.given, wanted.given);
    if (wanted.given)
        assert_near(got.value, wanted.value, 0);
}

static void check_same(const struct seen *whole, const struct seen *glance)
{
    static const enum fact_number numbers[] = {FACT_LAST_DAY, FACT_WORKED_DAY, FACT_HANDED_OVER,
                                               FACT_FOLLOWED, FACT_PROMISED_DAY};
    const struct card *wanted = &whole->card, *got = &glance->card;

    assert_int_equal(glance->status, whole->status);
    if (whole->status != STATUS_OK)
        return;
    assert_int_equal(glance->content.newer, whole->content.newer);
    assert_string_equal(got->name, wanted->name);
    assert_string_equal(got->kind, wanted->kind);
    assert_string_equal(got->owner, wanted->owner);
    assert_string_equal(got->maker, wanted->maker);
    assert_string_equal(got->serial, wanted->serial);
    assert_string_equal(got->visit, wanted->visit);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        check_number(whole, glance, numbers[i]);
    assert_string_equal(shelf_facts_text(&glance->facts, FACT_ALSO),
                        shelf_facts_text(&whole->facts, FACT_ALSO));
    assert_string_equal(shelf_facts_text(&glance->facts, FACT_TICKET),
                        shelf_facts_text(&whole->facts, FACT_TICKET));
}

/* --- the journal --- */

static void write_entry(void *out, const struct journal_entry *entry)
{
    fprintf(out, "%d %.17g %d %d %d <%s> <%s> <%s>\n", (int)entry->what, entry->moment,
            entry->timed, entry->visit, entry->part, entry->words, entry->amount, entry->note);
}

/* As a text that the caller frees. */
static char *write_journal(const struct record *record)
{
    char *text;
    size_t length;
    FILE *out = open_memstream(&text, &length);

    assert_non_null(out);
    journal_walk(record, 0, JOURNAL_END, write_entry, out);
    assert_int_equal(fclose(out), 0);
    return text;
}

static void check_journal(const char *text, size_t length, const struct seen *whole)
{
    struct bytes bytes = bytes_of(text, length);
    struct profile_content content;
    bool fields[FIELD_COUNT_];

    journal_fields(fields);
    const enum status status = profile_glance(&bytes, fields, &content);
    bytes_done(&bytes);
    assert_int_equal(status, whole->status);
    if (status != STATUS_OK)
        return;
    char *wanted = write_journal(&whole->content.record), *got = write_journal(&content.record);
    assert_string_equal(got, wanted);
    free(wanted);
    free(got);
    profile_content_done(&content);
}

/* --- texts --- */

static void check_text(const char *text, size_t length)
{
    struct seen whole, glance;

    read_whole(text, length, &whole);
    look(text, length, &glance);
    check_same(&whole, &glance);
    check_journal(text, length, &whole);
    done(&whole);
    done(&glance);
}

static size_t some_place(struct seeded *random, size_t length)
{
    return (size_t)seeded_whole(random, 0, (int)length - 1);
}

static void spoil_some(const char *text, size_t length, struct seeded *random)
{
    static const char bytes[] = "\n\0[]=;#\"'\\ .0z\xFF";
    enum { TIMES = 12, SPOILT = 3 };
    char *copy = malloc(length + 1);

    assert_non_null(copy);
    for (int i = 0; i < TIMES; i++) {
        check_text(text, some_place(random, length));
        memcpy(copy, text, length);
        for (int k = 0; k < SPOILT; k++)
            copy[some_place(random, length)] = bytes[some_place(random, sizeof bytes - 1)];
        check_text(copy, length);
    }
    free(copy);
}

static void every_profile_looks_as_it_reads(void **state)
{
    struct seeded random = seeded_start("every_profile_looks_as_it_reads");

    (void)state;
    assert_true(files.count > 0);
    for (int i = 0; i < files.count; i++) {
        size_t length;
        char *text = tree_read(files.path[i], &length);

        assert_non_null(text);
        check_text(text, length);
        if (length > 0)
            spoil_some(text, length, &random);
        free(text);
    }
}

static void what_it_does_not_take_still_counts(void **state)
{
    static const char *const texts[] = {
        /* Visits known by a pass or by work alone; lines that hold nothing. */
        "[visit.1]\ndate = 2026-01-05\n[visit.2.pass.1]\nlabel =\nrelief = .010 in\n",
        "[visit.1]\ndate = 2026-01-05\nticket = T1\n[visit.2.work.1]\nwork = rod\n",
        "[visit.1]\ndate = 2026-01-05\n[visit.2.pass.1]\nlabel = \"\"\n",
        "[visit.2.pass.1]\nrelief = .010 in\n[visit.1]\nhanded_over = 2026-01-05\n",
        /* Worked on long after the visit began. */
        "[visit.1]\ndate = 2026-01-05\n[visit.1.pass.1]\ntime = 2026-11-27T15:40\n",
        "[visit.1]\ndate = 2026-01-05\n[visit.1.pass.1]\ntime = 15:40\n"
        "[visit.1.work.2]\nkind = rod\ntime = 2026-11-27T15:40\n",
        /* Changed from a visit on. */
        "[profile]\nformat = 2\n[instrument]\nowner = Marlo\n[visit.1]\ndate = 2026-01-05\n"
        "[visit.2]\ndate = 2026-02-05\n[visit.2.instrument]\nowner = Tansy\n",
        "[profile]\nformat = 2\n[instrument]\nowner = Marlo\n[visit.1]\ndate = 2026-01-05\n"
        "[visit.1.instrument]\nowner = absent\n",
        /* Strings that nothing counts. */
        "[string.1]\nnote = E4\n[string.2]\ngauge = .018 in\n",
        "[string.1]\ngauge =\nnote = E4\n",
        /* No profile, by its sections or for want of any. */
        "[work]\nname = x\n",
        "[visit.x]\n",
        "[visit.1]\n",
        "name = x\n",
        "; nothing\n",
        "",
        "[instrument]\nname = a\nname.1 = b\nname.2 = c\n",
        "[end]\nlines = 0\ncrc32 = 0\n",
        "[profile]\nformat = 9\n",
        "[profile]\nformat = soon\n",
    };

    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        check_text(texts[i], strlen(texts[i]));
}

static void it_takes_few_readings(void **state)
{
    const char *path = files.path[0];
    struct seen whole, glance;
    size_t length;

    (void)state;
    for (int i = 0; i < files.count; i++)
        if (strstr(files.path[i], "parlour.ini"))
            path = files.path[i];
    char *text = tree_read(path, &length);
    assert_non_null(text);
    read_whole(text, length, &whole);
    look(text, length, &glance);
    assert_true(glance.content.record.count * 5 < whole.content.record.count);
    assert_true(glance.content.record.count > 5);
    done(&whole);
    done(&glance);
    free(text);
}

static void it_fails_as_opening_does(void **state)
{
    static const char *const names[] = {"good.ini",  "missing.ini", "broken.ini",
                                        "leads.ini", "folder.ini",  "bytes.ini"};
    bool wanted[FIELD_COUNT_];

    tree_write_text(tree_path(*state, "good.ini"), "[instrument]\nname = Tern\nowner = Marlo\n");
    tree_write_text(tree_path(*state, "bytes.ini"), "no profile at all");
    assert_int_equal(symlink("nowhere", tree_path(*state, "broken.ini")), 0);
    assert_int_equal(symlink("good.ini", tree_path(*state, "leads.ini")), 0);
    assert_int_equal(mkdir(tree_path(*state, "folder.ini"), 0700), 0);
    journal_fields(wanted);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *path = tree_path(*state, names[i]);
        struct profile *profile = NULL;
        struct record record;
        const enum status opened = profile_open(path, PROFILE_TO_READ, NULL, &profile);

        profile_close(profile);
        assert_int_equal(profile_look(path, wanted, &record), opened);
        if (opened == STATUS_OK)
            record_done(&record);
        assert_int_equal(opened == STATUS_OK, i == 0 || i == 3);
    }
}

int main(int count, char **folders)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_profile_looks_as_it_reads),
        cmocka_unit_test(what_it_does_not_take_still_counts),
        cmocka_unit_test(it_takes_few_readings),
        cmocka_unit_test_setup_teardown(it_fails_as_opening_does, tree_setup, tree_teardown),
    };

    for (int i = 1; i < count; i++)
        old_files_find(folders[i], &files);
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
