/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <locale.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "seeded.h"
#include "store/ini_escape.h"
#include "store/ini_read.h"

static void parse(const char *bytes, size_t length, struct ini_text *ret_text)
{
    struct bytes copy;

    bytes_init(&copy);
    bytes_add(&copy, bytes, length);
    assert_int_equal(ini_text_parse(&copy, ret_text, NULL), STATUS_OK);
}

static void read_bytes(const char *bytes, size_t length, struct ini_text *ret_text)
{
    parse(bytes, length, ret_text);
    assert_int_equal(ini_read(ret_text), STATUS_OK);
}

/* The index of the line with the value of that number, from 0; the text's line_count past the last.
 */
static size_t find_line(const struct ini_text *text, size_t number)
{
    size_t i = 0;

    while (i < text->line_count && !(text->lines[i].value && number-- == 0))
        i++;
    return i;
}

static const struct ini_line *line_at(const struct ini_text *text, size_t number)
{
    const size_t i = find_line(text, number);

    assert_true(i < text->line_count);
    return &text->lines[i];
}

static const char *value_at(const struct ini_text *text, size_t number)
{
    return line_at(text, number)->value;
}

static void assert_count(const struct ini_text *text, size_t count)
{
    assert_true(count == 0 || find_line(text, count - 1) < text->line_count);
    assert_int_equal(find_line(text, count), text->line_count);
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

        strbuf_addf(&file, "[a]\n%s\n", cases[i].line);
        read_bytes(memory, file.length, &text);
        assert_string_equal(value_at(&text, 0), cases[i].value);
        assert_string_equal(line_at(&text, 0)->name, "k");
        assert_int_equal(line_at(&text, 0)->zero, strstr(cases[i].line, "%00") != NULL);
        ini_text_done(&text);
    }
}

/* A value that stands there twice is read once, and both lines say the same of it. */
static void equal_values_are_equal_in_all(void **state)
{
    static const char file[] = "[a]\nk = %61b%00\n[b]\nl = %61b%00\nm = ab\n";
    struct ini_text text;

    (void)state;
    read_bytes(file, strlen(file), &text);
    assert_count(&text, 3);
    for (int i = 0; i < 2; i++) {
        assert_string_equal(value_at(&text, (size_t)i), "ab%00");
        assert_true(line_at(&text, (size_t)i)->zero);
        assert_true(line_at(&text, (size_t)i)->escaped);
    }
    assert_false(line_at(&text, 2)->zero || line_at(&text, 2)->escaped);
    ini_text_done(&text);
}

static void what_is_skipped_has_no_value(void **state)
{
    static const char file[] = "[a]\nk = same\nl = same\nm = other\n";
    struct ini_text text;

    (void)state;
    parse(file, strlen(file), &text);
    text.lines[1].skipped = text.lines[3].skipped = true;
    assert_int_equal(ini_read(&text), STATUS_OK);
    assert_null(text.lines[1].value);
    assert_string_equal(text.lines[2].value, "same");
    assert_null(text.lines[3].value);
    ini_text_done(&text);
}

static void a_repeated_key_has_every_value(void **state)
{
    static const char file[] = "[a]\nk = 1\n[b]\nk = 2\n[a]\nK = 3\n";
    struct ini_text text;

    (void)state;
    read_bytes(file, strlen(file), &text);
    assert_count(&text, 3);
    assert_string_equal(value_at(&text, 0), "1");
    assert_string_equal(value_at(&text, 1), "2");
    assert_string_equal(value_at(&text, 2), "3");
    ini_text_done(&text);
}

/* Each of these lines alone makes iniparser refuse or misread the whole file. */
static void junk_does_not_reach_iniparser(void **state)
{
    static const char file[] = "lost = 1\n[a]\nword\nk: v\n= 3\na:b = 4\n; comment \\\n"
                               "[x] ; y = z\nk = 5\n[]\nk = 6\n[b:c]\nk = 7\n[d\nk = 8\n";
    struct ini_text text;

    (void)state;
    read_bytes(file, strlen(file), &text);
    assert_count(&text, 1);
    assert_string_equal(ini_line_section(&text, line_at(&text, 0)), "x");
    assert_string_equal(value_at(&text, 0), "5");
    ini_text_done(&text);
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

        strbuf_add(&file, "[s]\n");
        for (int i = seeded_whole(&seeded, 0, 29); i > 0; i--)
            strbuf_add(&file, pieces[seeded_whole(&seeded, 0, PIECES - 1)]);
        read_bytes(memory, file.length, &text);
        for (size_t i = 0; i < text.line_count; i++)
            if (text.lines[i].value && !is_what_stands_there(&text.lines[i], text.lines[i].value))
                fail_msg("round %d, line %zu of:\n%s", round, i + 1, memory);
        ini_text_done(&text);
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

        if (!setlocale(LC_ALL, locales[i])) {
            print_message("no locale %s here\n", locales[i]);
            continue;
        }
        read_bytes(file, strlen(file), &text);
        assert_count(&text, 2);
        assert_string_equal(ini_line_section(&text, line_at(&text, 0)), "visit.1");
        assert_string_equal(value_at(&text, 0), "41.5");
        assert_string_equal(value_at(&text, 1), "\xC3\x9C\xA0");
        ini_text_done(&text);
    }
    setlocale(LC_ALL, "C");
}

static void the_longest_names_are_safe(void **state)
{
    char names[INI_NAME_MAX + 2], memory[2000];
    struct strbuf file = STRBUF(memory);
    struct ini_text text;

    (void)state;
    memset(names, 'a', sizeof names);
    strbuf_addf(&file, "[%.*s]\n%.*s = v\n%.*s = w\n[%.*s]\n%.*s = x\n", INI_NAME_MAX, names,
                INI_NAME_MAX, names, INI_NAME_MAX + 1, names, INI_NAME_MAX + 1, names, INI_NAME_MAX,
                names);
    read_bytes(memory, file.length, &text);
    assert_count(&text, 1);
    assert_string_equal(value_at(&text, 0), "v");
    ini_text_done(&text);
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

        strbuf_add(&file, "[a]\n");
        for (int i = 0; i < MOST; i++)
            strbuf_addf(&file, "k = v%d%s\n", i * 7 % kinds, i % 5 == 0 ? "\\" : "");
        read_bytes(memory, file.length, &text);
        assert_count(&text, MOST);
        for (int i = 0; i < MOST; i++) {
            char wanted_memory[24];
            struct strbuf wanted = STRBUF(wanted_memory);

            strbuf_addf(&wanted, "v%d%s", i * 7 % kinds, i % 5 == 0 ? "\\" : "");
            assert_string_equal(text.lines[1 + i].value, wanted_memory);
        }
        ini_text_done(&text);
    }
}

/* Many more values than are remembered, all of them again and again. */
static void no_value_is_lost_for_another(void **state)
{
    enum { KINDS = 15000, TURNS = 2 };
    struct ini_text text;
    struct bytes bytes;

    (void)state;
    bytes_init(&bytes);
    bytes_add_text(&bytes, "[a]\n");
    for (int i = 0; i < KINDS * TURNS; i++) {
        char memory[24];
        struct strbuf line = STRBUF(memory);

        strbuf_addf(&line, "k = v%d\n", i % KINDS);
        bytes_add_text(&bytes, memory);
    }
    read_bytes(bytes.data, bytes.length, &text);
    bytes_done(&bytes);
    for (int i = 0; i < KINDS * TURNS; i++) {
        char memory[24];
        struct strbuf wanted = STRBUF(memory);

        strbuf_addf(&wanted, "v%d", i % KINDS);
        assert_string_equal(text.lines[1 + i].value, memory);
    }
    ini_text_done(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out_decoded),
        cmocka_unit_test(values_are_told_apart),
        cmocka_unit_test(no_value_is_lost_for_another),
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
