/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"
#include "seeded.h"
#include "store/crc32.h"
#include "store/ini_escape.h"
#include "store/ini_read.h"
#include "store/ini_write.h"
#include "store/profile/ini_end.h"

static struct bytes bytes_of(const char *text)
{
    struct bytes bytes;

    bytes_init(&bytes);
    bytes_add_text(&bytes, text);
    return bytes;
}

/* The text with one edit made. */
static void assert_edited(const char *before, struct ini_edit *edits, size_t count,
                          const char *after)
{
    struct bytes bytes = bytes_of(before), out;
    struct ini_text text;

    bytes_init(&out);
    assert_int_equal(ini_text_parse(&bytes, &text, NULL), STATUS_OK);
    assert_int_equal(ini_write(&text, edits, count, &out), STATUS_OK);
    bytes_add(&out, "", 1);
    assert_string_equal(out.data ? out.data : "", after);
    bytes_done(&out);
    ini_text_done(&text);
}

struct escape_case {
    const char *text, *written;
};

static void values_are_quoted_only_where_needed(void **state)
{
    static const struct escape_case cases[] = {
        {".013 in", ".013 in"},
        {"7/64 in", "7/64 in"},
        {".010+.002 in", ".010+.002 in"},
        {"-.1 mm", "-.1 mm"},
        {"41 %", "41 %"},
        {"2026-03-02T10:42", "2026-03-02T10:42"},
        {"", "\"\""},
        {" x", "\" x\""},
        {"x ", "\"x \""},
        {"12\" board", "\"12%22 board\""},
        {"C:\\", "\"C:%5C\""},
        {"a;b#c", "\"a%3Bb%23c\""},
        {"'a' it's", "\"%27a' it's\""},
        {"Bb\xC2\xBD \xE2\x99\xAD", "\"Bb\xC2\xBD \xE2\x99\xAD\""},
        {"%41", "\"%2541\""},
        {"5%", "5%"},
        {"\x7F\x1B", "\"%7F%1B\""},
        {"a\nb\r\t", "\"a%0Ab%0D%09\""},
        {"\xFF\xC3", "\"%FF%C3\""},
        {"\xE2\x80\xAE", "\"%E2%80%AE\""}, /* right-to-left override */
        {"(x)=[y]", "\"(x)=[y]\""},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct bytes out;

        bytes_init(&out);
        assert_int_equal(ini_escape(cases[i].text, strlen(cases[i].text), &out),
                         strlen(cases[i].text));
        bytes_add(&out, "", 1);
        assert_string_equal(out.data, cases[i].written);
        bytes_done(&out);
    }
}

/* A text of any bytes but NUL, short or long, rich in what could go wrong. */
static size_t random_text(struct seeded *seeded, char *out, size_t size)
{
    static const char *const pieces[] = {"\"",
                                         "'",
                                         "%",
                                         "\\",
                                         ";",
                                         "#",
                                         "\n",
                                         "\r",
                                         "\t",
                                         " ",
                                         "=",
                                         "[",
                                         "]",
                                         "%41",
                                         "%0",
                                         "\x7F",
                                         "\x1B[2J",
                                         "\xC2\xBD",
                                         "\xE2\x99\xAD",
                                         "\xF0\x9F\x8E\xB8",
                                         "\xE2\x80\xAE",
                                         "\xEF\xBB\xBF",
                                         "\xC3",
                                         "\xED\xA0\x80",
                                         "in",
                                         "7/64",
                                         "e\xCC\x81"};
    enum { PIECES = sizeof pieces / sizeof pieces[0] };
    struct strbuf text = strbuf_over(out, size);
    const int count = seeded_whole(seeded, 0, seeded_whole(seeded, 0, 9) == 0 ? 1500 : 20);

    for (int i = 0; i < count; i++) {
        if (seeded_whole(seeded, 0, 2) == 0)
            strbuf_add_char(&text, (char)(unsigned char)seeded_whole(seeded, 1, 255));
        else
            strbuf_add(&text, pieces[seeded_whole(seeded, 0, PIECES - 1)]);
    }
    return text.length;
}

/* Writes a text as key, key.1 ... as ini_write does, and puts the entries together. */
static void assert_roundtrip(const char *value)
{
    struct ini_edit edits[] = {
        {.kind = INI_ADD_SECTION, .order = 0, .name = "visit.1"},
        {.kind = INI_ADD_BELOW, .order = 1, .name = "note", .value = value, .long_text = true},
        {.kind = INI_ADD_BELOW, .order = 2, .name = "date", .value = "2026-03-02"},
    };
    struct bytes empty = bytes_of(""), file, joined;
    struct ini_text text;
    const char *date = NULL;

    bytes_init(&file);
    bytes_init(&joined);
    assert_int_equal(ini_text_parse(&empty, &text, NULL), STATUS_OK);
    assert_int_equal(ini_write(&text, edits, 3, &file), STATUS_OK);
    ini_text_done(&text);
    assert_int_equal(ini_text_parse(&file, &text, NULL), STATUS_OK);
    assert_int_equal(ini_read(&text), STATUS_OK);
    for (size_t i = 0; i < text.line_count; i++) {
        const struct ini_line *line = &text.lines[i];

        if (!line->value)
            continue;
        assert_true(utf8_valid(line->bytes, line->length));
        if (strcmp(line->name, "date") == 0)
            date = line->value;
        else
            bytes_add_text(&joined, line->value);
    }
    bytes_add(&joined, "", 1);
    assert_string_equal(joined.data, value);
    assert_non_null(date);
    assert_string_equal(date, "2026-03-02");
    bytes_done(&joined);
    ini_text_done(&text);
}

static void any_text_survives(void **state)
{
    enum { ROUNDS = 20000, SIZE = 8001 };
    struct seeded seeded = seeded_start("any text survives");
    char *text = malloc(SIZE);

    (void)state;
    assert_non_null(text);
    for (int i = 0; i < ROUNDS; i++) {
        random_text(&seeded, text, SIZE);
        assert_roundtrip(text);
    }
    free(text);
}

static void a_changed_value_keeps_its_line(void **state)
{
    static const struct {
        const char *before, *value, *after;
    } cases[] = {
        {"[a]\n  Relief=.013 in ; cold\nx = 1\n", ".010 in",
         "[a]\n  Relief=.010 in ; cold\nx = 1\n"},
        {"[a]\nrelief = \"old\"   # c\n", "new;", "[a]\nrelief = \"new%3B\"   # c\n"},
        {"[a]\nrelief = \"old\" lost\n", "n", "[a]\nrelief = n\n"},
        {"[a]\r\nrelief =\r\nx = 1\n", ".1", "[a]\r\nrelief = .1\r\nx = 1\n"},
        {"[a]\nrelief =", ".1", "[a]\nrelief = .1\n"},
        {"[a]\nrelief = one \\\n two ; c\nx = 1\n", "n", "[a]\nrelief = n ; c\nx = 1\n"},
        {"[a]\nrelief = x\\\n", "y", "[a]\nrelief = y\n"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct ini_edit edit = {
            .kind = INI_REPLACE, .at = 1, .name = "relief", .value = cases[i].value};

        assert_edited(cases[i].before, &edit, 1, cases[i].after);
    }
}

static void a_long_comment_moves_over_its_line(void **state)
{
    char before[600] = "[a]\nk = 1 ; ", after[600] = "[a]\n; ";
    struct ini_edit edit = {.kind = INI_REPLACE, .at = 1, .name = "k", .value = "2"};

    (void)state;
    memset(before + strlen(before), 'c', 400);
    memset(after + strlen(after), 'c', 400);
    strcat(before, "\n");
    strcat(after, "\nk = 2\n");
    assert_edited(before, &edit, 1, after);
}

static void additions_find_their_place(void **state)
{
    struct ini_edit edits[] = {
        {.kind = INI_ADD_BELOW, .at = 2, .order = 3, .name = "y", .value = "2"},
        {.kind = INI_ADD_SECTION, .at = 2, .order = 2, .name = "b"},
        {.kind = INI_ADD, .at = 2, .order = 5, .name = "m", .value = "3"},
        {.kind = INI_DROP, .at = 3},
        {.kind = INI_ADD, .at = 99, .order = 9, .name = "z", .value = "4"},
    };

    (void)state;
    assert_edited("[a]\nk = 1\n; c\ngone = 1\\\nstill\n\n[d]\nlast = 1", edits, 5,
                  "[a]\nk = 1\nm = 3\n\n[b]\ny = 2\n; c\n\n[d]\nlast = 1\nz = 4\n");
}

/* `k` ends in a backslash of its own; the word must not become its next line. */
static void a_dropped_line_joins_nothing(void **state)
{
    struct ini_edit edit = {.kind = INI_DROP, .at = 2};

    (void)state;
    assert_edited("[a]\nk = C:\\\nx = 1\nword\n", &edit, 1, "[a]\nk = C:\\\n\nword\n");
}

static void a_value_that_may_not_go_on_is_refused(void **state)
{
    char value[INI_VALUE_MAX + 2];
    struct ini_edit edit = {.kind = INI_ADD, .name = "k", .value = value};
    struct bytes empty = bytes_of(""), out;
    struct ini_text text;

    (void)state;
    memset(value, 'x', sizeof value);
    value[INI_VALUE_MAX + 1] = '\0';
    bytes_init(&out);
    assert_int_equal(ini_text_parse(&empty, &text, NULL), STATUS_OK);
    assert_int_equal(ini_write(&text, &edit, 1, &out), STATUS_TOO_LONG);
    value[INI_VALUE_MAX] = '\0';
    assert_int_equal(ini_write(&text, &edit, 1, &out), STATUS_OK);
    bytes_done(&out);
    ini_text_done(&text);
}

/* The check value of the algorithm, as catalogues of CRCs give it (from memory). */
static void the_crc_is_that_of_ieee_802_3(void **state)
{
    (void)state;
    assert_int_equal(crc32_of("123456789", 9), 0xCBF43926u);
    assert_int_equal(crc32_of("", 0), 0);
    assert_int_equal(crc32_of("a", 1), 0xE8B7BE43u);
}

/* Bit by bit, with the polynomial itself. */
static uint32_t slow_crc32(const char *bytes, size_t length)
{
    uint32_t crc = 0xFFFFFFFFu;

    for (size_t i = 0; i < length; i++) {
        crc ^= (unsigned char)bytes[i];
        for (int bit = 0; bit < 8; bit++)
            crc = crc & 1 ? crc >> 1 ^ 0xEDB88320u : crc >> 1;
    }
    return crc ^ 0xFFFFFFFFu;
}

static void checksums_of_long_texts(void **state)
{
    enum { LENGTH = 5000 };
    static char bytes[LENGTH];

    (void)state;
    for (int i = 0; i < LENGTH; i++)
        bytes[i] = (char)(unsigned char)(i * i / 7 + i % 251);
    for (size_t length = LENGTH - 1000; length <= LENGTH; length++)
        assert_int_equal(crc32_of(bytes, length), slow_crc32(bytes, length));
}

static void the_end_tells_any_change(void **state)
{
    struct bytes file = bytes_of("[a]\nk = 1\n\n");
    size_t line;

    (void)state;
    ini_end_add(&file, "\n");
    assert_int_equal(ini_end_check(file.data, file.length, &line), INI_END_GOOD);
    assert_int_equal(line, 4);
    for (size_t cut = 0; cut < file.length; cut++)
        assert_int_not_equal(ini_end_check(file.data, cut, &line), INI_END_GOOD);
    for (size_t bit = 0; bit < 8 * file.length; bit++) {
        file.data[bit / 8] = (char)(file.data[bit / 8] ^ (1 << bit % 8));
        assert_int_not_equal(ini_end_check(file.data, file.length, &line), INI_END_GOOD);
        file.data[bit / 8] = (char)(file.data[bit / 8] ^ (1 << bit % 8));
    }
    bytes_add_text(&file, "\n");
    assert_int_equal(ini_end_check(file.data, file.length, &line), INI_END_WRONG);
    bytes_done(&file);
    file = bytes_of("");
    assert_int_equal(ini_end_check(file.data, file.length, &line), INI_END_MISSING);
    assert_int_equal(line, 0);
    ini_end_add(&file, "\r\n");
    assert_int_equal(ini_end_check(file.data, file.length, &line), INI_END_GOOD);
    bytes_done(&file);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_are_quoted_only_where_needed),
        cmocka_unit_test(any_text_survives),
        cmocka_unit_test(a_changed_value_keeps_its_line),
        cmocka_unit_test(a_long_comment_moves_over_its_line),
        cmocka_unit_test(additions_find_their_place),
        cmocka_unit_test(a_dropped_line_joins_nothing),
        cmocka_unit_test(a_value_that_may_not_go_on_is_refused),
        cmocka_unit_test(the_crc_is_that_of_ieee_802_3),
        cmocka_unit_test(checksums_of_long_texts),
        cmocka_unit_test(the_end_tells_any_change),
    };

    return cmocka_run_group_tests_name("ini_write", tests, NULL, NULL) ? 1 : 0;
}
