/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "store/ini_text.h"

static void parse(const char *bytes, size_t length, struct ini_text *ret_text)
{
    struct bytes copy;
    struct ini_fault fault = {0};

    bytes_init(&copy);
    bytes_add(&copy, bytes, length);
    const enum status status = ini_text_parse(&copy, ret_text, &fault);
    if (status != STATUS_OK)
        fail_msg("%s, line %zu: %s", status_text(status), fault.line, fault.words);
}

static void parse_text(const char *text, struct ini_text *ret_text)
{
    parse(text, strlen(text), ret_text);
}

/* What stands where the value does, quotes and all; until the next call. */
static const char *value_of(const struct ini_line *line)
{
    static char value[INI_LINE_MAX + 1];
    struct strbuf text = STRBUF(value);

    strbuf_add_bytes(&text, line->logical + line->value_at, line->rest_at - line->value_at);
    return value;
}

/* What stands behind it in its logical line; until the next call. */
static const char *rest_of(const struct ini_line *line)
{
    static char rest[INI_LINE_MAX + 1];
    struct strbuf text = STRBUF(rest);

    strbuf_add_bytes(&text, line->logical + line->rest_at,
                     (size_t)line->logical_length - line->rest_at);
    return rest;
}

static void refuse(const char *bytes, size_t length, enum status wanted, size_t line)
{
    struct bytes copy;
    struct ini_fault fault = {0};
    struct ini_text text;

    bytes_init(&copy);
    bytes_add(&copy, bytes, length);
    assert_int_equal(ini_text_parse(&copy, &text, &fault), wanted);
    assert_int_equal(fault.line, line);
    assert_non_null(fault.words);
    assert_int_equal(copy.length, length); /* still the caller's */
    bytes_done(&copy);
}

static void lines_are_told_apart(void **state)
{
    static const enum ini_kind kinds[] = {INI_COMMENT, INI_BLANK,   INI_SECTION, INI_KEY,
                                          INI_KEY,     INI_COMMENT, INI_JUNK,    INI_JUNK,
                                          INI_JUNK,    INI_SECTION, INI_KEY};
    struct ini_text text;

    (void)state;
    parse_text("; c\n \t\n[Board] ; the board\nscale = 25.5 in\n  Frets=20\n # d\nword\n"
               "= 3\n[string.1\n[ nut ]\nwidth = 43 mm",
               &text);
    assert_int_equal(text.line_count, sizeof kinds / sizeof kinds[0]);
    for (size_t i = 0; i < text.line_count; i++)
        assert_int_equal(text.lines[i].kind, kinds[i]);
    assert_string_equal(text.lines[2].name, "board");
    assert_string_equal(text.lines[4].name, "frets");
    assert_string_equal(value_of(&text.lines[4]), "20");
    assert_string_equal(text.sections[text.lines[10].section].name, "nut");
    assert_int_equal(text.lines[10].end_length, 0);
    ini_text_done(&text);
}

/* Many more names than are remembered, each twice in a row and all of them twice. */
static void names_are_told_apart(void **state)
{
    enum { NAMES = 1000 };
    struct bytes bytes;
    struct ini_text text;

    (void)state;
    bytes_init(&bytes);
    for (int i = 0; i < 2 * NAMES; i++) {
        char memory[64];
        struct strbuf lines = STRBUF(memory);

        strbuf_addf(&lines, "Cents.%d = 1\ncents.%d = 2\n", i % NAMES, i % NAMES);
        bytes_add_text(&bytes, memory);
    }
    assert_int_equal(ini_text_parse(&bytes, &text, NULL), STATUS_OK);
    for (int i = 0; i < 4 * NAMES; i++) {
        char memory[16];
        struct strbuf name = STRBUF(memory);

        strbuf_addf(&name, "cents.%d", i / 2 % NAMES);
        assert_string_equal(text.lines[i].name, memory);
        assert_ptr_equal(text.lines[i].name, text.lines[i / 2 * 2].name);
    }
    ini_text_done(&text);
}

/* Without this, the keys of [string.3 would be taken for those of string 2. */
static void keys_under_a_broken_section_belong_to_none(void **state)
{
    static const char *const broken[] = {"[string.3", "[string.3]x", "[]", "[a:b]", "[ ]"};

    (void)state;
    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++) {
        char memory[128];
        struct strbuf file = STRBUF(memory);
        struct ini_text text;

        strbuf_addf(&file, "[string.2]\ngauge = .016 in\n%s\ngauge = .024 in\n", broken[i]);
        parse_text(memory, &text);
        assert_int_equal(text.section_count, 3);
        assert_null(text.sections[text.lines[3].section].name);
        assert_string_equal(text.sections[text.lines[1].section].name, "string.2");
        ini_text_done(&text);
    }
}

struct value_case {
    const char *line, *value, *rest;
};

static void values_are_found(void **state)
{
    static const struct value_case cases[] = {
        {"k = a", "a", ""},
        {"k=a", "a", ""},
        {"k =", "", ""},
        {"k = ; c", "", "; c"},
        {"k = a b  ; c", "a b", "  ; c"},
        {"k = a#c", "a", "#c"},
        {"k = \"a ; b\" ; c", "\"a ; b\"", " ; c"},
        {"k = ' a '", "' a '", ""},
        {"k = \"\"", "\"\"", ""},
        {"k = '' # c", "''", " # c"},
        {"k = \"open", "\"open", ""},
        {"k = \"a\" b", "\"a\"", " b"},
        {"k = a\"b\"", "a\"b\"", ""},
        {"k = it's", "it's", ""},
        {"k = \"", "\"", ""},
        {"k = a = b", "a = b", ""},
        {"k = 41 %", "41 %", ""},
        {"k = [x]", "[x]", ""},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct ini_text text;

        parse_text(cases[i].line, &text);
        assert_int_equal(text.lines[0].kind, INI_KEY);
        assert_string_equal(text.lines[0].name, "k");
        assert_string_equal(value_of(&text.lines[0]), cases[i].value);
        assert_string_equal(rest_of(&text.lines[0]), cases[i].rest);
        ini_text_done(&text);
    }
}

static void a_backslash_joins_lines(void **state)
{
    struct ini_text text;

    (void)state;
    parse_text("[a]\nk = one \\\n   two \\\nthree\nl = 2\n", &text);
    assert_string_equal(value_of(&text.lines[1]), "one    two three");
    assert_int_equal(text.lines[2].kind, INI_CONTINUATION);
    assert_int_equal(text.lines[3].kind, INI_CONTINUATION);
    assert_string_equal(value_of(&text.lines[4]), "2");
    ini_text_done(&text);
}

static void a_backslash_never_swallows_a_key(void **state)
{
    static const char *const next[] = {"l = 2\n", "\n", "; c\n", "[b]\n", "", "  # c\n"};

    (void)state;
    for (size_t i = 0; i < sizeof next / sizeof next[0]; i++) {
        char memory[64];
        struct strbuf file = STRBUF(memory);
        struct ini_text text;

        strbuf_addf(&file, "[a]\nk = C:\\\n%s", next[i]);
        parse_text(memory, &text);
        assert_string_equal(value_of(&text.lines[1]), "C:\\");
        assert_true(text.lines[1].final_backslash);
        assert_int_not_equal(text.lines[2].kind, INI_CONTINUATION);
        if (i == 0)
            assert_string_equal(value_of(&text.lines[2]), "2");
        ini_text_done(&text);
    }
    struct ini_text text;
    parse_text("k = \\\n  \"a ; b\" ; c\n", &text);
    assert_string_equal(value_of(&text.lines[0]), "\"a ; b\"");
    ini_text_done(&text);
    parse_text("k = a ; see C:\\\nword\n", &text);
    assert_int_equal(text.lines[1].kind, INI_JUNK);
    ini_text_done(&text);
}

static void bom_and_crlf_are_stepped_over(void **state)
{
    struct ini_text text;

    (void)state;
    parse_text("\xEF\xBB\xBF[a]\r\nk = v\r\nl = w\n", &text);
    assert_int_equal(text.start, 3);
    assert_string_equal(text.sections[1].name, "a");
    assert_string_equal(value_of(&text.lines[1]), "v");
    assert_int_equal(text.lines[1].end_length, 2);
    assert_int_equal(text.lines[2].end_length, 1);
    assert_string_equal(ini_text_line_end(&text), "\r\n");
    ini_text_done(&text);
}

static void unusable_names_are_no_names(void **state)
{
    struct ini_text text;

    (void)state;
    parse_text("[a]\na:b = 1\nnaïve = 2\na b = 3\nA.B-c_9 = 4\n", &text);
    for (size_t i = 1; i < 4; i++)
        assert_null(text.lines[i].name);
    assert_string_equal(text.lines[4].name, "a.b-c_9");
    ini_text_done(&text);
}

static void refuses_what_no_profile_is(void **state)
{
    enum { KEYS = INI_LINES_MAX + 1000 };
    char *many = malloc(KEYS * 4);
    char line[1200] = "k = ";
    struct ini_text text;

    (void)state;
    refuse("[a]\nk = \0\n", 10, STATUS_BINARY, 2);
    refuse("\0", 1, STATUS_BINARY, 1);
    memset(line + 4, 'x', sizeof line - 4);
    parse(line, 1022, &text);
    ini_text_done(&text);
    refuse(line, 1023, STATUS_TOO_LONG, 1);
    line[1022] = '\r';
    line[1023] = '\n';
    parse(line, 1024, &text);
    ini_text_done(&text);
    line[1022] = '\n';
    line[1021] = '\\'; /* no room left for its escape */
    refuse(line, 1023, STATUS_TOO_LONG, 1);
    assert_non_null(many);
    for (size_t i = 0; i < KEYS; i++)
        memcpy(many + 4 * i, "k=1\n", 4);
    refuse(many, 4 * (size_t)KEYS, STATUS_TOO_LARGE, INI_LINES_MAX + 1);
    parse(many, 4 * (size_t)INI_LINES_MAX, &text);
    ini_text_done(&text);
    free(many);
}

/* Joined lines count together, in ours as in iniparser. */
static void refuses_endless_joins(void **state)
{
    char file[4000];
    size_t length = 0;

    (void)state;
    memcpy(file, "k = ", 4);
    for (length = 4; length < 3000; length += 500) {
        memset(file + length, 'x', 498);
        memcpy(file + length + 498, "\\\n", 2);
    }
    refuse(file, length, STATUS_TOO_LONG, 3);
}

static void an_empty_file_has_no_lines(void **state)
{
    struct ini_text text;

    (void)state;
    parse_text("", &text);
    assert_int_equal(text.line_count, 0);
    assert_int_equal(text.section_count, 1);
    assert_string_equal(ini_text_line_end(&text), "\n");
    ini_text_done(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_are_told_apart),
        cmocka_unit_test(names_are_told_apart),
        cmocka_unit_test(keys_under_a_broken_section_belong_to_none),
        cmocka_unit_test(values_are_found),
        cmocka_unit_test(a_backslash_joins_lines),
        cmocka_unit_test(a_backslash_never_swallows_a_key),
        cmocka_unit_test(bom_and_crlf_are_stepped_over),
        cmocka_unit_test(unusable_names_are_no_names),
        cmocka_unit_test(refuses_what_no_profile_is),
        cmocka_unit_test(refuses_endless_joins),
        cmocka_unit_test(an_empty_file_has_no_lines),
    };

    return cmocka_run_group_tests_name("ini_text", tests, NULL, NULL) ? 1 : 0;
}
