/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "base/status.h"
#include "base/strbuf.h"

#include <string.h>

static void strbuf_builds_text(void **state)
{
    char memory[32];
    struct strbuf buf = STRBUF(memory);

    (void)state;
    assert_string_equal(buf.text, "");
    strbuf_add(&buf, "action");
    strbuf_add_char(&buf, ' ');
    strbuf_add_bytes(&buf, "7/64 in", 4);
    strbuf_addf(&buf, " at fret %d%s", 12, ".");
    assert_string_equal(buf.text, "action 7/64 at fret 12.");
    assert_int_equal(buf.length, strlen(buf.text));
    assert_false(buf.truncated);
}

/* English counts one thing apart. */
static void strbuf_counts_one_apart(void **state)
{
    char memory[32];
    struct strbuf buf = STRBUF(memory);

    (void)state;
    strbuf_add_count(&buf, 0, "pass", "passes");
    strbuf_add_char(&buf, ' ');
    strbuf_add_count(&buf, 1, "pass", "passes");
    strbuf_add_char(&buf, ' ');
    strbuf_add_count(&buf, 12, "pass", "passes");
    assert_string_equal(buf.text, "0 passes 1 pass 12 passes");
}

static void strbuf_fills_to_the_last_byte(void **state)
{
    char memory[6];
    struct strbuf buf = STRBUF(memory);

    (void)state;
    strbuf_add(&buf, "relie");
    assert_false(buf.truncated);
    assert_string_equal(buf.text, "relie");
    strbuf_add(&buf, "");
    assert_false(buf.truncated);
    strbuf_add(&buf, "f");
    assert_true(buf.truncated);
    assert_string_equal(buf.text, "relie");
    strbuf_clear(&buf);
    strbuf_addf(&buf, "%s", "relie");
    assert_false(buf.truncated);
    strbuf_clear(&buf);
    strbuf_addf(&buf, "%s", "relief");
    assert_true(buf.truncated);
    assert_string_equal(buf.text, "relie");
}

static void strbuf_adds_nothing_after_truncation(void **state)
{
    char memory[8];
    struct strbuf buf = STRBUF(memory);

    (void)state;
    strbuf_add(&buf, "12345\xE2\x99\xAD"); /* a flat sign, three bytes */
    assert_true(buf.truncated);
    assert_string_equal(buf.text, "12345");
    strbuf_add_char(&buf, 'x');
    strbuf_addf(&buf, "%d", 1);
    assert_string_equal(buf.text, "12345");
    strbuf_clear(&buf);
    assert_false(buf.truncated);
    strbuf_add(&buf, "new");
    assert_string_equal(buf.text, "new");
}

/* Characters of one to four bytes, cut at each room there is, added by each of the calls. */
static void strbuf_cuts_at_a_character_boundary(void **state)
{
    static const char text[] = "a\xC2\xBD\xE2\x99\xAD\xF0\x9D\x84\xAB";
    static const size_t kept[] = {0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10};

    (void)state;
    assert_int_equal(sizeof(text) - 1, 10);
    for (size_t room = 0; room <= 10; room++) {
        char memory[16];
        struct strbuf whole = strbuf_over(memory, room + 1);
        char memory_bytes[16];
        struct strbuf bytes = strbuf_over(memory_bytes, room + 1);
        char memory_format[16];
        struct strbuf format = strbuf_over(memory_format, room + 1);

        strbuf_add(&whole, text);
        for (size_t i = 0; i < 10; i++)
            strbuf_add_char(&bytes, text[i]);
        strbuf_addf(&format, "%s", text);
        assert_int_equal(whole.length, kept[room]);
        assert_int_equal(bytes.length, kept[room]);
        assert_int_equal(format.length, kept[room]);
        assert_memory_equal(whole.text, text, kept[room]);
        assert_int_equal(whole.text[kept[room]], '\0');
        assert_string_equal(bytes.text, whole.text);
        assert_string_equal(format.text, whole.text);
        assert_int_equal(whole.truncated, room < 10);
        assert_int_equal(bytes.truncated, room < 10);
        assert_int_equal(format.truncated, room < 10);
    }
}

static void strbuf_never_writes_past_its_size(void **state)
{
    char memory[12];

    (void)state;
    memset(memory, '#', sizeof(memory));
    {
        struct strbuf buf = strbuf_over(memory, 4);

        strbuf_add(&buf, "abcdefgh");
        strbuf_clear(&buf);
        strbuf_addf(&buf, "%s", "abcdefgh");
    }
    assert_string_equal(memory, "abc");
    assert_memory_equal(memory + 4, "########", 8);
}

static void strbuf_of_one_byte_stays_empty(void **state)
{
    char memory[1];
    struct strbuf buf = STRBUF(memory);

    (void)state;
    strbuf_add(&buf, "");
    assert_false(buf.truncated);
    strbuf_addf(&buf, "%d", 7);
    assert_true(buf.truncated);
    assert_string_equal(buf.text, "");
}

static void status_has_words_for_every_number(void **state)
{
    static const enum status all[] = {
#define STATUS_VALUE(name, number, text) name,
        STATUS_LIST(STATUS_VALUE)
#undef STATUS_VALUE
    };
    size_t count = sizeof(all) / sizeof(all[0]);

    (void)state;
    assert_string_equal(status_text(STATUS_OK), "good");
    assert_string_equal(status_text(STATUS_FULL), "no room left");
    assert_string_equal(status_text((enum status)12345), "an unknown failure");
    for (size_t i = 0; i < count; i++) {
        assert_true(all[i] <= 0);
        assert_string_not_equal(status_text(all[i]), "an unknown failure");
        for (size_t j = 0; j < i; j++)
            assert_string_not_equal(status_text(all[i]), status_text(all[j]));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(strbuf_builds_text),
        cmocka_unit_test(strbuf_counts_one_apart),
        cmocka_unit_test(strbuf_fills_to_the_last_byte),
        cmocka_unit_test(strbuf_adds_nothing_after_truncation),
        cmocka_unit_test(strbuf_cuts_at_a_character_boundary),
        cmocka_unit_test(strbuf_never_writes_past_its_size),
        cmocka_unit_test(strbuf_of_one_byte_stays_empty),
        cmocka_unit_test(status_has_words_for_every_number),
    };

    return cmocka_run_group_tests_name("strbuf", tests, NULL, NULL) ? 1 : 0;
}
