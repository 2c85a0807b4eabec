/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <locale.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "seeded.h"
#include "store/ini_escape.h"
#include "store/ini_read.h"

static void read_bytes(const char *bytes, size_t length, struct ini_text *ret_text,
                       struct ini_entries *ret_entries)
{
    struct bytes copy;

    bytes_init(&copy);
    bytes_add(&copy, bytes, length);
    assert_int_equal(ini_text_parse(&copy, ret_text, NULL), STATUS_OK);
    assert_int_equal(ini_read(ret_text, ret_entries), STATUS_OK);
}

static void done(struct ini_text *text, struct ini_entries *entries)
{
    ini_entries_done(entries);
    ini_text_done(text);
}

struct value_case {
    const char *line, *value;
};

static void values_come_out_decoded(void **state)
{
    static const struct value_case cases[] = {
        {"k = .013 in", ".013 in"}, {"K = a%3Bb", "a;b"},
        {"k = \"a%22b\"", "a\"b"},  {"k = 41%", "41%"},
        {"k = 41 %zz", "41 %zz"},   {"k = %4", "%4"},
        {"k = a%00b", "a%00b"},     {"k = %250a", "%0a"},
        {"k = \"\"", ""},           {"k =", ""},
        {"k = C:\\", "C:\\"},       {"k = \\", "\\"},
        {"k = \"open\\", "open\\"}, {"k = one\\\ntwo", "onetwo"},
        {"k = ' x ' ; c", " x "},   {"k = \"x\" y", "x"},
        {"k = 1\nk = 2", "1"},      {"k = \\\n \"a;b\" ; c", "a;b"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char memory[128];
        struct strbuf file = STRBUF(memory);
        struct ini_text text;
        struct ini_entries entries;

        strbuf_addf(&file, "[a]\n%s\n", cases[i].line);
        read_bytes(memory, file.length, &text, &entries);
        assert_true(entries.count >= 1);
        assert_string_equal(entries.items[0].value, cases[i].value);
        assert_string_equal(entries.items[0].name, "k");
        assert_int_equal(entries.items[0].zero, strstr(cases[i].line, "%00") != NULL);
        done(&text, &entries);
    }
}

/* A value that stands there twice is read once, and both lines say the same of it. */
static void equal_values_are_equal_in_all(void **state)
{
    static const char file[] = "[a]\nk = %61b%00\n[b]\nl = %61b%00\nm = ab\n";
    struct ini_text text;
    struct ini_entries entries;

    (void)state;
    read_bytes(file, strlen(file), &text, &entries);
    assert_int_equal(entries.count, 3);
    for (int i = 0; i < 2; i++) {
        assert_string_equal(entries.items[i].value, "ab%00");
        assert_true(entries.items[i].zero);
        assert_true(entries.items[i].escaped);
    }
    assert_false(entries.items[2].zero || entries.items[2].escaped);
    done(&text, &entries);
}

static void what_is_skipped_has_no_value(void **state)
{
    static const char file[] = "[a]\nk = same\nl = same\nm = other\n";
    struct ini_text text;
    struct ini_entries entries;
    struct bytes copy;

    (void)state;
    bytes_init(&copy);
    bytes_add_text(&copy, file);
    assert_int_equal(ini_text_parse(&copy, &text, NULL), STATUS_OK);
    assert_int_equal(ini_list(&text, &entries), STATUS_OK);
    assert_int_equal(entries.count, 3);
    entries.items[0].skipped = entries.items[2].skipped = true;
    assert_int_equal(ini_read_values(&text, &entries), STATUS_OK);
    assert_null(entries.items[0].value);
    assert_string_equal(entries.items[1].value, "same");
    assert_null(entries.items[2].value);
    done(&text, &entries);
}

static void a_repeated_key_has_every_value(void **state)
{
    static const char file[] = "[a]\nk = 1\n[b]\nk = 2\n[a]\nK = 3\n";
    struct ini_text text;
    struct ini_entries entries;

    (void)state;
    read_bytes(file, strlen(file), &text, &entries);
    assert_int_equal(entries.count, 3);
    assert_string_equal(entries.items[0].value, "1");
    assert_string_equal(entries.items[1].value, "2");
    assert_string_equal(entries.items[2].value, "3");
    done(&text, &entries);
}

/* Each of these lines alone makes iniparser refuse or misread the whole file. */
static void junk_does_not_reach_iniparser(void **state)
{
    static const char file[] = "lost = 1\n[a]\nword\nk: v\n= 3\na:b = 4\n; comment \\\n"
                               "[x] ; y = z\nk = 5\n[]\nk = 6\n[b:c]\nk = 7\n[d\nk = 8\n";
    struct ini_text text;
    struct ini_entries entries;

    (void)state;
    read_bytes(file, strlen(file), &text, &entries);
    assert_int_equal(entries.count, 1);
    assert_string_equal(entries.items[0].section, "x");
    assert_string_equal(entries.items[0].value, "5");
    done(&text, &entries);
}

/* What was read is what stands where the value does, but for a quote at either end. */
static bool is_what_stands_there(const struct ini_line *line, const char *value)
{
    char memory[INI_LINE_MAX + 3];
    struct strbuf stands = STRBUF(memory);

    strbuf_add_bytes(&stands, line->logical + line->value_at, line->rest_at - line->value_at);
    const size_t length = ini_unescape(memory, NULL);
    const char *found = strstr(memory, value);
    if (!found || *value == '\0')
        return found && (length == 0 || strcmp(memory, "\"\"") == 0 || strcmp(memory, "''") == 0);
    const char *behind = found + strlen(value);
    return found - memory <= 1 && strspn(memory, "\"'") >= (size_t)(found - memory) &&
           (*behind == '\0' || (strchr("\"'", *behind) && behind[1] == '\0'));
}

/* Lines made of what matters to either; where a value stands and what it is must fit. */
static void values_stand_where_they_are_found(void **state)
{
    static const char *const pieces[] = {"k",  "=", " ",  "\"", "'",    ";",    "#",    "\\",
                                         "\n", "[", "]",  "a",  "\t",   "%",    "\r",   "%41",
                                         ".",  ":", "\f", "z9", "\x80", "\x1b", "\xc3", "k = "};
    enum { PIECES = sizeof pieces / sizeof pieces[0] };
    struct seeded seeded = seeded_start("values stand");

    (void)state;
    for (int round = 0; round < 20000; round++) {
        char memory[256];
        struct strbuf file = STRBUF(memory);
        struct ini_text text;
        struct ini_entries entries;

        strbuf_add(&file, "[s]\n");
        for (int i = seeded_whole(&seeded, 0, 29); i > 0; i--)
            strbuf_add(&file, pieces[seeded_whole(&seeded, 0, PIECES - 1)]);
        read_bytes(memory, file.length, &text, &entries);
        for (size_t i = 0; i < entries.count; i++)
            if (!is_what_stands_there(&text.lines[entries.items[i].line], entries.items[i].value))
                fail_msg("round %d, line %u of:\n%s", round, entries.items[i].line + 1, memory);
        done(&text, &entries);
    }
}

/* A Turkish locale has another lower case for I; a German one another point. */
static void the_locale_changes_nothing(void **state)
{
    static const char *const locales[] = {"tr_TR.UTF-8", "de_DE.UTF-8", "en_US.ISO-8859-1"};
    static const char file[] = "[VISIT.1]\nHUMIDITY = 41.5\nnote = \xC3\x9C\xA0\n";

    (void)state;
    for (size_t i = 0; i < sizeof locales / sizeof locales[0]; i++) {
        struct ini_text text;
        struct ini_entries entries;

        if (!setlocale(LC_ALL, locales[i])) {
            print_message("no locale %s here\n", locales[i]);
            continue;
        }
        read_bytes(file, strlen(file), &text, &entries);
        assert_int_equal(entries.count, 2);
        assert_string_equal(entries.items[0].section, "visit.1");
        assert_string_equal(entries.items[0].value, "41.5");
        assert_string_equal(entries.items[1].value, "\xC3\x9C\xA0");
        done(&text, &entries);
    }
    setlocale(LC_ALL, "C");
}

static void the_longest_names_are_safe(void **state)
{
    char names[INI_NAME_MAX + 2], memory[2000];
    struct strbuf file = STRBUF(memory);
    struct ini_text text;
    struct ini_entries entries;

    (void)state;
    memset(names, 'a', sizeof names);
    strbuf_addf(&file, "[%.*s]\n%.*s = v\n%.*s = w\n[%.*s]\n%.*s = x\n", INI_NAME_MAX, names,
                INI_NAME_MAX, names, INI_NAME_MAX + 1, names, INI_NAME_MAX + 1, names, INI_NAME_MAX,
                names);
    read_bytes(memory, file.length, &text, &entries);
    assert_int_equal(entries.count, 1);
    assert_string_equal(entries.items[0].value, "v");
    done(&text, &entries);
}

/* However many values there are, and however many of them are written the same. */
static void values_are_told_apart(void **state)
{
    enum { MOST = 400 };
    static char memory[MOST * 24];

    (void)state;
    for (int kinds = 1; kinds <= MOST; kinds += kinds < 4 || kinds % 36 > 33 ? 1 : 9) {
        struct strbuf file = STRBUF(memory);
        struct ini_text text;
        struct ini_entries entries;

        strbuf_add(&file, "[a]\n");
        for (int i = 0; i < MOST; i++)
            strbuf_addf(&file, "k = v%d%s\n", i * 7 % kinds, i % 5 == 0 ? "\\" : "");
        read_bytes(memory, file.length, &text, &entries);
        assert_int_equal(entries.count, MOST);
        for (int i = 0; i < MOST; i++) {
            char wanted_memory[24];
            struct strbuf wanted = STRBUF(wanted_memory);

            strbuf_addf(&wanted, "v%d%s", i * 7 % kinds, i % 5 == 0 ? "\\" : "");
            assert_string_equal(entries.items[i].value, wanted_memory);
        }
        done(&text, &entries);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out_decoded),
        cmocka_unit_test(values_are_told_apart),
        cmocka_unit_test(equal_values_are_equal_in_all),
        cmocka_unit_test(what_is_skipped_has_no_value),
        cmocka_unit_test(a_repeated_key_has_every_value),
        cmocka_unit_test(junk_does_not_reach_iniparser),
        cmocka_unit_test(values_stand_where_they_are_found),
        cmocka_unit_test(the_locale_changes_nothing),
        cmocka_unit_test(the_longest_names_are_safe),
    };

    return cmocka_run_group_tests_name("ini_read", tests, NULL, NULL) ? 1 : 0;
}
