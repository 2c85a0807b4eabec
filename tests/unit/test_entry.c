/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "session/entry.h"
#include "seeded.h"

static const struct day today = {2026, 11, 26};

static const struct field *gap(void)
{
    return field_get(FIELD_NUT_GAP);
}

static const struct field *action(void)
{
    return field_get(FIELD_ACTION);
}

static struct entry_view look(const char *text, const struct field *field)
{
    const struct shop_units units = shop_units_inch();
    struct entry_view view;

    entry_look(text, field, &units, &today, &view);
    return view;
}

static void entry_nothing_is_empty(void **state)
{
    const struct entry_view view = look("", gap());

    (void)state;
    assert_true(view.empty);
    assert_false(view.good);
    assert_string_equal(view.words, "");
}

/* Leaf and rule readings as a tech types them; inches by 25.4 mm. */
static void entry_reads_leaves_and_rules(void **state)
{
    (void)state;
    assert_near(look("13", gap()).value, 0.013 * 25.4, 1e-12);
    assert_near(look(".013", gap()).value, 0.013 * 25.4, 1e-12);
    assert_near(look("10+3", gap()).value, 0.013 * 25.4, 1e-12);
    assert_near(look("8 1/4", action()).value, 8.25 / 64 * 25.4, 1e-12);
    assert_near(look("8-1/4", action()).value, 8.25 / 64 * 25.4, 1e-12);
    assert_near(look("7/64", action()).value, 7.0 / 64 * 25.4, 1e-12);
    assert_near(look("2.75 mm", action()).value, 2.75, 1e-12);
    assert_true(look("13", gap()).good);
    assert_false(look("13", gap()).empty);
    assert_non_null(strstr(look("7/64", action()).words, "7/64 in"));
    assert_non_null(strstr(look("7/64", action()).words, "2.778 mm"));
}

static void an_unusual_entry_is_good(void **state)
{
    (void)state;
    assert_true(look("90", gap()).good);
}

static void entry_says_what_is_wrong(void **state)
{
    static const char *const wrong[] = {"abc", "1..2", "13 apples", "-5", "9999", "1/0", "+", "."};

    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        const struct entry_view view = look(wrong[i], gap());

        assert_false(view.good);
        assert_false(view.empty);
        assert_true(strlen(view.words) > 5);
    }
}

static const char *spell(const char *text, const struct field *field, bool metric)
{
    static char memory[128];
    struct strbuf out = STRBUF(memory);
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();

    assert_int_equal(entry_spell(text, field, &units, &today, &out), STATUS_OK);
    return memory;
}

static const char *show(const char *text, const struct field *field, bool metric)
{
    static char memory[128];
    struct strbuf out = STRBUF(memory);
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();

    entry_show(text, field, &units, &out);
    return memory;
}

/* Cents are sharp or flat: +6 is 6. A gap is never below 0, and its plus only joins leaves. */
static void entry_takes_a_plus_where_a_minus_goes(void **state)
{
    const struct shop_units units = shop_units_inch();
    const struct field *cents = field_get(FIELD_CENTS);
    char memory[32];
    struct strbuf kept = STRBUF(memory);

    (void)state;
    assert_true(look("+6", cents).good);
    assert_near(look("+6", cents).value, 6, 1e-12);
    assert_near(look("-6", cents).value, -6, 1e-12);
    assert_false(look("+", cents).good);
    assert_false(look("++6", cents).good);
    assert_false(look("+13", gap()).good);
    assert_int_equal(entry_spell("+6", cents, &units, &today, &kept), STATUS_OK);
    assert_int_equal(strncmp(memory, "6", 1), 0);
}

static void entry_is_kept_with_its_unit(void **state)
{
    (void)state;
    assert_string_equal(spell("13", gap(), false), "13 th");
    assert_string_equal(spell("13", gap(), true), "13/100 mm");
    assert_string_equal(spell("6", action(), false), "6/64 in");
    assert_string_equal(spell("1.8", action(), true), "1.8 mm");
    assert_string_equal(spell("flat", field_get(FIELD_RADIUS_NUT), false), "flat");
    assert_string_equal(spell("Flat", field_get(FIELD_RADIUS_NUT), false), "flat");
    assert_string_equal(spell("FLAT", field_get(FIELD_RADIUS_END), false), "flat");
    assert_string_equal(spell("E2", field_get(FIELD_STRING_NOTE), false), "E2");
}

static void entry_spell_keeps_what_it_cannot_spell_out(void **state)
{
    const struct shop_units units = shop_units_inch();
    char memory[128];
    struct strbuf out = STRBUF(memory);

    (void)state;
    strbuf_add(&out, "before");
    assert_int_not_equal(entry_spell("13 apples", gap(), &units, &today, &out), STATUS_OK);
    assert_string_equal(memory, "before");
}

static void entry_shows_the_kept_without_the_row_s_unit(void **state)
{
    (void)state;
    assert_string_equal(show(".013 in", gap(), false), ".013");
    assert_string_equal(show("6/64 in", action(), false), "6");
    assert_string_equal(show("1.8 mm", action(), true), "1.8");
    assert_string_equal(show(".6 mm", action(), true), "0.6");
    assert_string_equal(show("-.05 mm", gap(), true), "-0.05");
    /* In another unit's row, or refused, it stands as it was kept. */
    assert_string_equal(show("0.33 mm", gap(), false), "0.33 mm");
    assert_string_equal(show("tight?", gap(), false), "tight?");
    assert_string_equal(show("as found", field_get(FIELD_PASS_LABEL), false), "as found");
}

/* Leaves stand in a row of inches: 13 alone would be thirteen inches there. */
static void entry_shows_leaves_as_the_row_is_headed(void **state)
{
    (void)state;
    assert_string_equal(show("13 th", gap(), false), ".013");
    assert_string_equal(show("2 th", gap(), false), ".002");
    assert_string_equal(show("10+12 th", gap(), false), "10+12 th");
    assert_string_equal(show("13/100 mm", gap(), true), "0.13");
}

/* What is kept means what was typed, in every shop. */
static void entry_keeps_the_value(void **state)
{
    struct seeded seed = seeded_start("entry");
    static const char *const before[] = {"", ".0", "0.", "", "", ""};
    static const char *const behind[] = {"", "", " mm", " mm", "/64", "+2"};

    (void)state;
    for (int i = 0; i < 4000; i++) {
        const struct field *field = seeded_whole(&seed, 0, 1) ? gap() : action();
        const bool metric = seeded_whole(&seed, 0, 1);
        const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();
        char text[32];
        struct entry_view view;
        struct field_value kept;

        const int form = seeded_whole(&seed, 0, 5);
        snprintf(text, sizeof text, "%s%d%s", before[form], seeded_whole(&seed, 1, 99),
                 behind[form]);
        entry_look(text, field, &units, &today, &view);
        if (!view.good)
            continue;
        assert_int_equal(
            field_read(field, spell(text, field, metric), field_file_unit(field), &kept, NULL),
            STATUS_OK);
        assert_true(kept.value == view.value);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(entry_nothing_is_empty),
        cmocka_unit_test(entry_reads_leaves_and_rules),
        cmocka_unit_test(an_unusual_entry_is_good),
        cmocka_unit_test(entry_says_what_is_wrong),
        cmocka_unit_test(entry_takes_a_plus_where_a_minus_goes),
        cmocka_unit_test(entry_is_kept_with_its_unit),
        cmocka_unit_test(entry_spell_keeps_what_it_cannot_spell_out),
        cmocka_unit_test(entry_shows_the_kept_without_the_row_s_unit),
        cmocka_unit_test(entry_shows_leaves_as_the_row_is_headed),
        cmocka_unit_test(entry_keeps_the_value),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
