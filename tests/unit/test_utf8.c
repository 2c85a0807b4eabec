/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "base/utf8.h"

#include <string.h>

/* The Unicode Standard, Table 3-7, well-formed UTF-8 byte sequences. */
static const struct row {
    uint32_t first, last;
    size_t length;
    unsigned char low[4], high[4];
} well_formed[] = {
    {0x0000, 0x007F, 1, {0x00}, {0x7F}},
    {0x0080, 0x07FF, 2, {0xC2, 0x80}, {0xDF, 0xBF}},
    {0x0800, 0x0FFF, 3, {0xE0, 0xA0, 0x80}, {0xE0, 0xBF, 0xBF}},
    {0x1000, 0xCFFF, 3, {0xE1, 0x80, 0x80}, {0xEC, 0xBF, 0xBF}},
    {0xD000, 0xD7FF, 3, {0xED, 0x80, 0x80}, {0xED, 0x9F, 0xBF}},
    {0xE000, 0xFFFF, 3, {0xEE, 0x80, 0x80}, {0xEF, 0xBF, 0xBF}},
    {0x10000, 0x3FFFF, 4, {0xF0, 0x90, 0x80, 0x80}, {0xF0, 0xBF, 0xBF, 0xBF}},
    {0x40000, 0xFFFFF, 4, {0xF1, 0x80, 0x80, 0x80}, {0xF3, 0xBF, 0xBF, 0xBF}},
    {0x100000, 0x10FFFF, 4, {0xF4, 0x80, 0x80, 0x80}, {0xF4, 0x8F, 0xBF, 0xBF}},
};

enum { ROWS = sizeof(well_formed) / sizeof(well_formed[0]) };

/* Length of the well-formed character at `bytes` by the table, 0 when none is. */
static size_t by_table(const unsigned char *bytes, size_t length)
{
    for (int i = 0; i < ROWS; i++) {
        const struct row *row = &well_formed[i];
        size_t at = 0;

        if (row->length > length)
            continue;
        while (at < row->length && bytes[at] >= row->low[at] && bytes[at] <= row->high[at])
            at++;
        if (at == row->length)
            return at;
    }
    return 0;
}

static void decode_follows_the_table_at_its_edges(void **state)
{
    (void)state;
    for (int i = 0; i < ROWS; i++) {
        uint32_t rune = 0;
        bool valid = false;
        char text[4];

        memcpy(text, well_formed[i].low, 4);
        assert_int_equal(utf8_decode(text, 4, &rune, &valid), well_formed[i].length);
        assert_true(valid);
        assert_int_equal(rune, well_formed[i].first);
        memcpy(text, well_formed[i].high, 4);
        assert_int_equal(utf8_decode(text, 4, &rune, &valid), well_formed[i].length);
        assert_true(valid);
        assert_int_equal(rune, well_formed[i].last);
    }
}

/* Every pair of first bytes, with third and fourth bytes around their limits. */
static void decode_agrees_with_the_table(void **state)
{
    static const unsigned char tails[] = {0x00, 0x41, 0x7F, 0x80, 0xBF, 0xC0, 0xFF};
    enum { TAILS = sizeof(tails) };

    (void)state;
    for (unsigned start = 0; start < 0x10000; start++)
        for (unsigned tail = 0; tail < TAILS * TAILS; tail++) {
            unsigned char bytes[4] = {(unsigned char)(start >> 8), (unsigned char)start,
                                      tails[tail / TAILS], tails[tail % TAILS]};
            char text[4];
            size_t want = by_table(bytes, 4);
            uint32_t rune;
            bool valid;
            size_t got;

            memcpy(text, bytes, 4);
            got = utf8_decode(text, 4, &rune, &valid);
            if (got != (want ? want : 1) || valid != (want > 0) ||
                (!valid && rune != UTF8_REPLACEMENT))
                fail_msg("%02X %02X %02X %02X: took %zu", bytes[0], bytes[1], bytes[2], bytes[3],
                         got);
        }
}

static void decode_refuses_cut_characters(void **state)
{
    (void)state;
    for (int i = 0; i < ROWS; i++)
        for (size_t length = 1; length < well_formed[i].length; length++) {
            char text[4];
            uint32_t rune = 0;
            bool valid = true;

            memcpy(text, well_formed[i].high, 4);
            assert_int_equal(utf8_decode(text, length, &rune, &valid), 1);
            assert_false(valid);
            assert_int_equal(rune, UTF8_REPLACEMENT);
        }
    {
        uint32_t rune = 7;
        bool valid = true;

        assert_int_equal(utf8_decode("", 0, &rune, &valid), 0);
        assert_int_equal(rune, 7);
        assert_true(valid);
        assert_int_equal(utf8_decode("a", 1, &rune, NULL), 1);
        assert_int_equal(rune, 'a');
    }
}

static void encode_is_undone_by_decode(void **state)
{
    (void)state;
    for (uint32_t rune = 0; rune <= 0x10FFFF; rune++) {
        char text[4];
        uint32_t back;
        bool valid;
        size_t length = utf8_encode(rune, text);
        uint32_t want = rune >= 0xD800 && rune <= 0xDFFF ? UTF8_REPLACEMENT : rune;

        if (utf8_decode(text, length, &back, &valid) != length || !valid || back != want)
            fail_msg("U+%04X does not come back", (unsigned)rune);
    }
    {
        char text[4];

        assert_int_equal(utf8_encode(0x110000, text), 3);
        assert_memory_equal(text, "\xEF\xBF\xBD", 3);
    }
}

static void valid_takes_the_whole_text(void **state)
{
    (void)state;
    assert_true(utf8_valid("", 0));
    assert_true(utf8_valid("B\xE2\x99\xAD 8\xC2\xBC", 8));
    assert_true(utf8_valid("a\0b", 3));
    assert_false(utf8_valid("B\xE2\x99", 3));
    assert_false(utf8_valid("\xC0\x80", 2));         /* overlong NUL */
    assert_false(utf8_valid("\xE0\x80\xAF", 3));     /* overlong slash */
    assert_false(utf8_valid("\xED\xA0\x80", 3));     /* a surrogate */
    assert_false(utf8_valid("\xF4\x90\x80\x80", 4)); /* above U+10FFFF */
    assert_false(utf8_valid("fine\xFF", 5));
}

/* Unicode Character Database 14.0: EastAsianWidth.txt and general categories. */
static void width_of_characters(void **state)
{
    static const struct {
        uint32_t rune;
        int width;
    } cases[] = {
        {0x00, -1},   {0x1B, -1},   {0x1F, -1},   {0x20, 1},     {0x7E, 1},    {0x7F, -1},
        {0x80, -1},   {0x9F, -1},   {0xA0, 1},    {0xAD, 1},     {0xE9, 1},    {0x2FF, 1},
        {0x300, 0},   {0x36F, 0},   {0x370, 1},   {0x591, 0},    {0x5D0, 1},   {0x600, 1},
        {0x93C, 0},   {0x93F, 1},   {0xE31, 0},   {0x10FF, 1},   {0x1100, 2},  {0x115F, 2},
        {0x1160, 0},  {0x11FF, 0},  {0x200B, 0},  {0x200D, 0},   {0x2013, 1},  {0x20D0, 0},
        {0x2190, 1},  {0x231A, 2},  {0x231C, 1},  {0x2500, 1},   {0x2588, 1},  {0x266D, 1},
        {0x26A1, 2},  {0x2705, 2},  {0x2800, 1},  {0x28FF, 1},   {0x2E80, 2},  {0x3000, 2},
        {0x303F, 1},  {0x3041, 2},  {0x3099, 0},  {0x4E00, 2},   {0x9FFF, 2},  {0xA000, 2},
        {0xAC00, 2},  {0xD7A3, 2},  {0xF900, 2},  {0xFB1E, 0},   {0xFE0F, 0},  {0xFEFF, 0},
        {0xFF01, 2},  {0xFF60, 2},  {0xFF61, 1},  {0xFFE0, 2},   {0xFFFD, 1},  {0x1D12B, 1},
        {0x1D165, 1}, {0x1D167, 0}, {0x1F3B8, 2}, {0x1F321, 1},  {0x1F600, 2}, {0x1F9F0, 2},
        {0x20000, 2}, {0x3FFFD, 2}, {0xE0100, 0}, {0x10FFFD, 1},
    };

    (void)state;
    for (size_t i = 0; i < sizeof(cases) / sizeof(cases[0]); i++)
        if (utf8_width(cases[i].rune) != cases[i].width)
            fail_msg("U+%04X is %d wide, want %d", (unsigned)cases[i].rune,
                     utf8_width(cases[i].rune), cases[i].width);
}

/* Directions: the Unicode Standard, annex 9 (UAX 9), table 4, and the deprecated ones of chapter
 * 23.3; from memory. */
static void unsafe_characters(void **state)
{
    static const struct {
        uint32_t first, last;
    } ranges[] = {
        {0x00, 0x1F},       {0x7F, 0x9F},         {0x2028, 0x202E},   {0x2066, 0x206F},
        {0x061C, 0x061C},   {0x200E, 0x200F},     {0xD800, 0xDFFF},   {0xFDD0, 0xFDEF},
        {0xFEFF, 0xFEFF},   {0xFFFE, 0xFFFF},     {0x1FFFE, 0x1FFFF}, {0xDFFFE, 0xE007F},
        {0xFFFFE, 0xFFFFF}, {0x10FFFE, 0x110001},
    };

    (void)state;
    for (size_t i = 0; i < sizeof(ranges) / sizeof(ranges[0]); i++) {
        for (uint32_t rune = ranges[i].first; rune <= ranges[i].last; rune++)
            assert_true(utf8_unsafe(rune));
        if (ranges[i].first > 0)
            assert_false(utf8_unsafe(ranges[i].first - 1));
        if (ranges[i].last < 0x10FFFF)
            assert_false(utf8_unsafe(ranges[i].last + 1));
    }
    assert_false(utf8_unsafe(0x200D));
    assert_false(utf8_unsafe(0xFE0F));
    assert_false(utf8_unsafe(0x266D));
    assert_false(utf8_unsafe(UTF8_REPLACEMENT));
}

static void columns_of_texts(void **state)
{
    (void)state;
    assert_int_equal(utf8_columns(""), 0);
    assert_int_equal(utf8_columns("relief .013"), 11);
    assert_int_equal(utf8_columns("8\xC2\xBC"), 2);
    assert_int_equal(utf8_columns("e\xCC\x81"), 1);    /* e, acute */
    assert_int_equal(utf8_columns("\xE5\xBC\xA6"), 2); /* U+5F26 */
    assert_int_equal(utf8_columns("a\x1B[m"), 4);      /* ESC counts one */
    assert_int_equal(utf8_columns("\xE2\x80\xAE"
                                  "a"),
                     2); /* an override too */
    assert_int_equal(utf8_columns("\xFF\xC2"), 2);
}

static void clip_keeps_whole_characters(void **state)
{
    static const char text[] = "e\xCC\x81\xE5\xBC\xA6"
                               "a\xCC\x81"; /* columns 1, 2, 1 */

    (void)state;
    assert_int_equal(utf8_clip(text, -1), 0);
    assert_int_equal(utf8_clip(text, 0), 0);
    assert_int_equal(utf8_clip(text, 1), 3);
    assert_int_equal(utf8_clip(text, 2), 3);
    assert_int_equal(utf8_clip(text, 3), 6);
    assert_int_equal(utf8_clip(text, 4), 9);
    assert_int_equal(utf8_clip(text, 99), 9);
    assert_int_equal(utf8_clip("\xFFz", 1), 1);
    assert_int_equal(utf8_clip("\xCC\x81", -1), 0);
}

static void expect_folded(const char *text, const char *folded)
{
    char memory[200];
    struct strbuf out = STRBUF(memory);

    utf8_add_folded(&out, text);
    assert_string_equal(memory, folded);
}

/* Letters by the names of their code points in the Unicode Standard. */
static void what_is_folded_is_cut_where_it_ends(void **state)
{
    char memory[5];
    struct strbuf out = STRBUF(memory);

    (void)state;
    utf8_add_folded(&out, "Four");
    assert_string_equal(memory, "four");
    assert_false(out.truncated);
    utf8_add_folded(&out, "x");
    assert_string_equal(memory, "four");
    assert_true(out.truncated);
    strbuf_clear(&out);
    utf8_add_folded(&out, "AB\xE6\x97\xA5"
                          "C");
    assert_string_equal(memory, "ab");
    assert_true(out.truncated);
    utf8_add_folded(&out, "C");
    assert_string_equal(memory, "ab");
}

static void case_and_accents_are_folded(void **state)
{
    (void)state;
    expect_folded("Parlour No. 3", "parlour no. 3");
    expect_folded("\xC3\x89t\xC3\xA9 \xC3\x85NGSTR\xC3\x96M \xC3\xB1\xC3\x91", "ete angstrom nn");
    expect_folded("e\xCC\x81", "e"); /* e and a combining acute accent */
    expect_folded("\xC5\x81\xC3\xB3"
                  "d\xC5\xBA \xC5\xA0 \xC5\xBD \xC5\xB8 \xC4\xB0 \xC5\xBF",
                  "lodz s z y i s");
    expect_folded("Stra\xC3\x9F"
                  "e \xC3\x86 \xC5\x93 \xC3\x9E",
                  "strasse ae oe th");
    expect_folded("\xD0\x9C\xD0\xB8\xD1\x80 \xD0\x81", "\xD0\xBC\xD0\xB8\xD1\x80 \xD1\x91");
    expect_folded("\xCE\xA3\xCF\x82\xCF\x83", "\xCF\x83\xCF\x83\xCF\x83");
    expect_folded("\xE6\x97\xA5 \xC3\x97", "\xE6\x97\xA5 \xC3\x97");
    expect_folded("a\xFF\x80", "a\xEF\xBF\xBD\xEF\xBF\xBD");
    expect_folded("", "");
}

static void what_is_plain_is_a_byte_and_a_column(void **state)
{
    static const struct {
        const char *text;
        size_t plain;
        int columns;
    } cases[] = {{"", 0, 0},
                 {"quay", 4, 4},
                 {" ~", 2, 2},
                 {"a\tb", 1, 3},
                 {"\x7F", 0, 1},
                 {"e\xCC\x81", 1, 1},
                 {"a\xE6\x97\xA5", 1, 3},
                 {"a\xFF", 1, 2}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_int_equal(utf8_plain_length(cases[i].text), cases[i].plain);
        assert_int_equal(utf8_columns(cases[i].text), cases[i].columns);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_plain_is_a_byte_and_a_column),
        cmocka_unit_test(decode_follows_the_table_at_its_edges),
        cmocka_unit_test(decode_agrees_with_the_table),
        cmocka_unit_test(decode_refuses_cut_characters),
        cmocka_unit_test(encode_is_undone_by_decode),
        cmocka_unit_test(valid_takes_the_whole_text),
        cmocka_unit_test(width_of_characters),
        cmocka_unit_test(unsafe_characters),
        cmocka_unit_test(columns_of_texts),
        cmocka_unit_test(clip_keeps_whole_characters),
        cmocka_unit_test(case_and_accents_are_folded),
        cmocka_unit_test(what_is_folded_is_cut_where_it_ends),
    };

    return cmocka_run_group_tests_name("utf8", tests, NULL, NULL) ? 1 : 0;
}
