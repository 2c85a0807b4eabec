/* SPDX-License-Identifier: MIT */
#include "model/reading/reading_key.h"

#include <string.h>

#include "near.h"
#include "seeded.h"

static bool per_string(const struct field *field)
{
    return field->per == PER_STRING || field->per == PER_STRING_FRET;
}

static bool per_fret(const struct field *field)
{
    return field->per == PER_FRET || field->per == PER_STRING_FRET;
}

static bool in_visit(const struct field *field)
{
    return field->section >= SECTION_VISIT;
}

static bool in_part(const struct field *field)
{
    return field->section == SECTION_PASS || field->section == SECTION_WORK;
}

static int part_max(const struct field *field)
{
    return field->section == SECTION_PASS ? PASSES_MAX : WORKS_MAX;
}

static void check_roundtrip(const struct reading_key *key)
{
    char section_text[80], name_text[80];
    struct strbuf section = STRBUF(section_text), name = STRBUF(name_text);
    struct reading_key back = {.field = FIELD_COUNT_};

    reading_key_section(key, &section);
    reading_key_name(key, &name);
    assert_false(section.truncated || name.truncated);
    if (reading_key_parse(section_text, name_text, &back) != STATUS_OK)
        fail_msg("not parsed: [%s] %s", section_text, name_text);
    if (reading_key_compare(key, &back) != 0)
        fail_msg("comes back as another: [%s] %s", section_text, name_text);
    assert_true(reading_key_is_section(section_text));
    assert_int_equal(back.field, key->field);
    assert_int_equal(back.visit, key->visit);
    assert_int_equal(back.part, key->part);
    assert_int_equal(back.string, key->string);
    assert_int_equal(back.fret, key->fret);
}

/* All strings and frets of one field, within one visit and part. */
static void check_indices(struct reading_key key)
{
    const struct field *field = field_get(key.field);
    const bool strings = per_string(field) || field->section == SECTION_STRING;

    for (int s = strings ? 1 : 0; s <= (strings ? STRINGS_MAX : 0); s++)
        for (int n = 0; n <= (per_fret(field) ? FRETS_MAX : 0); n++) {
            key = reading_key_pass_at(key.field, key.visit, key.part, s, n);
            check_roundtrip(&key);
        }
}

static void test_roundtrip_every_field(void **state)
{
    const int visits[] = {1, 2, 9, 10, 99, 100, 999, 1000, VISITS_MAX};

    (void)state;
    for (int id = 0; id < FIELD_COUNT_; id++) {
        const struct field *field = field_get((enum field_id)id);
        const int parts[] = {1, 9, 10, part_max(field)};

        for (size_t v = 0; v < (in_visit(field) ? 9 : 1); v++)
            for (size_t p = 0; p < (in_part(field) ? 4 : 1); p++)
                check_indices(reading_key_pass(field->id, in_visit(field) ? visits[v] : 0,
                                               in_part(field) ? parts[p] : 0));
    }
}

/* Of what the instrument has for good there are no changes. */
static void test_roundtrip_every_change(void **state)
{
    const int visits[] = {1, 10, VISITS_MAX};
    int changes = 0;

    (void)state;
    for (int id = 0; id < FIELD_COUNT_; id++)
        for (size_t v = 0; field_may_change((enum field_id)id) && v < 3; v++, changes++)
            check_indices(reading_key_visit((enum field_id)id, visits[v]));
    assert_true(changes > 100);
    assert_true(reading_key_is_correction("visit.2.board", "scale"));
    assert_true(reading_key_is_correction("visit.2.neck", "wood"));
    assert_false(reading_key_is_correction("board", "scale"));
    assert_false(reading_key_is_correction("visit.2.board", "thickness"));
    assert_false(reading_key_is_correction("visit.2.board", "gauge"));
    assert_false(reading_key_is_correction("visit.2", "date"));
}

static void test_spelling(void **state)
{
    char memory[80];
    struct strbuf out = STRBUF(memory);
    struct reading_key key = reading_key_pass_at(FIELD_CENTS, 2, 1, 6, 12);

    (void)state;
    reading_key_section(&key, &out);
    assert_string_equal(memory, "visit.2.pass.1");
    strbuf_clear(&out);
    reading_key_name(&key, &out);
    assert_string_equal(memory, "cents.6.12");
    strbuf_clear(&out);
    key = reading_key_string(FIELD_GAUGE, 3);
    reading_key_section(&key, &out);
    strbuf_add_char(&out, '/');
    reading_key_name(&key, &out);
    assert_string_equal(memory, "string.3/gauge");
    strbuf_clear(&out);
    key = reading_key_pass(FIELD_RELIEF, 1, 2);
    reading_key_name(&key, &out);
    assert_string_equal(memory, "relief");
    strbuf_clear(&out);
    key = reading_key_pass_at(FIELD_RELIEF_AT, 1, 2, 0, 7);
    reading_key_name(&key, &out);
    assert_string_equal(memory, "relief.7");
    strbuf_clear(&out);
    key = (struct reading_key){.field = FIELD_WORK_KIND, .visit = 3, .part = 4};
    reading_key_section(&key, &out);
    assert_string_equal(memory, "visit.3.work.4");
    strbuf_clear(&out);
    key = reading_key_as_of(reading_key_string(FIELD_GAUGE, 3), 2);
    reading_key_section(&key, &out);
    assert_string_equal(memory, "visit.2.string.3");
    strbuf_clear(&out);
    key = reading_key_as_of(reading_key_pass(FIELD_RELIEF, 3, 4), 2);
    reading_key_section(&key, &out);
    assert_string_equal(memory, "visit.3.pass.4");
}

struct hostile {
    const char *section, *name;
};

static void test_hostile_refused(void **state)
{
    static const struct hostile list[] = {
        {"", ""},
        {"", "scale"},
        {"board", ""},
        {"board", "scale "},
        {"board", " scale"},
        {"board", "Scale"},
        {"BOARD", "scale"},
        {"board.", "scale"},
        {"board.1", "scale"},
        {"boards", "scale"},
        {"boar", "scale"},
        {".board", "scale"},
        {"board", "scale.1"},
        {"board", "scale_"},
        {"nut", "scale"},
        {"end", "lines"},
        {"string", "gauge"},
        {"string.0", "gauge"},
        {"string.13", "gauge"},
        {"string.01", "gauge"},
        {"string.1.2", "gauge"},
        {"string.-1", "gauge"},
        {"string.1", "gauge.1"},
        {"string. 1", "gauge"},
        {"string.4294967297", "gauge"},
        {"string.99999999999999999999", "gauge"},
        {"visit.0", "date"},
        {"visit", "date"},
        {"visit.", "date"},
        {"visit.01", "date"},
        {"visit.10000", "date"},
        {"visit.1.pass", "relief"},
        {"visit.1.pass.", "relief"},
        {"visit.1.pass.0", "relief"},
        {"visit.1.pass.1000", "relief"},
        {"visit.1.pass.1.", "relief"},
        {"visit.1.pass.1.pass.1", "relief"},
        {"visit.1.work.0", "kind"},
        {"visit.1.work.10000", "kind"},
        {"visit.1.works.1", "kind"},
        {"pass.1", "relief"},
        {"visit.1.pass.1", "relief."},
        {"visit.1.pass.1", "relief.37"},
        {"visit.1.pass.1", "relief.-1"},
        {"visit.1.pass.1", "relief.07"},
        {"visit.1.pass.1", "relief.7.7"},
        {"visit.1.pass.1", "nut_gap"},
        {"visit.1.pass.1", "nut_gap.0"},
        {"visit.1.pass.1", "nut_gap.13"},
        {"visit.1.pass.1", "nut_gap.1.1"},
        {"visit.1.pass.1", "nut_gap.+1"},
        {"visit.1.pass.1", "nut_gap..1"},
        {"visit.1.pass.1", "cents.1"},
        {"visit.1.pass.1", "cents.1.37"},
        {"visit.1.pass.1", "cents.0.12"},
        {"visit.1.pass.1", "cents.1.12.1"},
        {"visit.1.pass.1", "cents.1.12 "},
        {"visit.1.pass.1", "date"},
        {"visit.1", "relief"},
        {"visit.1.profile", "format"},
        {"visit.1.board", "scale"},
        {"visit.1.board.1", "thickness"},
        {"visit.01.board", "thickness"},
        {"visit.0.board", "thickness"},
        {"visit.10000.board", "thickness"},
        {"visit..board", "thickness"},
        {"visit.board", "thickness"},
        {"visit.1.string", "gauge"},
        {"visit.1.string.13", "gauge"},
        {"visit.1.string.1.2", "gauge"},
        {"visit.1.visit.1", "date"},
        {"visit.1.visit.1.board", "thickness"},
        {"visit.1.pass.1.board", "thickness"},
        {"visit.1", "\xff\xfe"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof list / sizeof list[0]; i++) {
        struct reading_key key = {.field = FIELD_A4, .fret = 31};

        if (reading_key_parse(list[i].section, list[i].name, &key) != STATUS_NOT_FOUND)
            fail_msg("taken: [%s] %s", list[i].section, list[i].name);
        assert_int_equal(key.field, FIELD_A4);
        assert_int_equal(key.fret, 31);
    }
}

static void test_what_is_no_section(void **state)
{
    static const char *const list[] = {
        "",
        "BOARD",
        "board.",
        "board.1",
        "boar",
        "boards",
        ".board",
        "end",
        "string",
        "string.0",
        "string.13",
        "string.01",
        "string.1.2",
        "visit",
        "visit.0",
        "pass.1",
        "visit.1.pass",
        "visit.1.pass.0",
        "visit.1.pass.1.",
        "visit.1.play.1",
        "visit.1.profile",
        "visit.1.board.",
        "visit.1.string",
        "visit.1.string.0",
        "visit.1.visit.1",
    };

    (void)state;
    for (size_t i = 0; i < sizeof list / sizeof list[0]; i++)
        if (reading_key_is_section(list[i]))
            fail_msg("a section: [%s]", list[i]);
}

/* Keys put together from pieces of keys: whatever is taken spells the same again. */
static void test_random_pieces(void **state)
{
    static const char *const pieces[] = {
        "visit.1", ".pass.2", ".work", "string.3", ".board", "cents", "relief", "scale",
        "gauge",   "nut_gap", ".1",    ".12",      ".36",    ".0",    ".",      ".string.2"};
    const int count = (int)(sizeof pieces / sizeof pieces[0]);
    struct seeded seed = seeded_start("reading_key");
    int taken = 0;

    (void)state;
    for (int round = 0; round < 200000; round++) {
        char texts[2][80], again_text[80];

        for (int t = 0; t < 2; t++) {
            struct strbuf text = STRBUF(texts[t]);

            for (int i = seeded_whole(&seed, 1, 3); i > 0; i--)
                strbuf_add(&text, pieces[seeded_whole(&seed, 0, count - 1)]);
        }
        struct reading_key key;
        struct strbuf again = STRBUF(again_text);
        if (reading_key_parse(texts[0], texts[1], &key) != STATUS_OK)
            continue;
        taken++;
        reading_key_section(&key, &again);
        assert_string_equal(again_text, texts[0]);
        strbuf_clear(&again);
        reading_key_name(&key, &again);
        assert_string_equal(again_text, texts[1]);
    }
    assert_true(taken > 100);
}

static void test_order(void **state)
{
    const struct reading_key rising[] = {
        reading_key_one(FIELD_FORMAT),
        reading_key_one(FIELD_NAME),
        reading_key_one(FIELD_SCALE),
        reading_key_string(FIELD_GAUGE, 1),
        reading_key_as_of(reading_key_string(FIELD_GAUGE, 1), 1),
        reading_key_as_of(reading_key_string(FIELD_GAUGE, 1), 3),
        reading_key_string(FIELD_SETBACK, 1),
        reading_key_as_of(reading_key_string(FIELD_SETBACK, 1), 2),
        reading_key_string(FIELD_STRING_NOTE, 2),
        reading_key_string(FIELD_STRING_NOTE, 10),
        reading_key_one(FIELD_TARGET_RELIEF),
        reading_key_visit(FIELD_VISIT_DATE, 1),
        reading_key_pass(FIELD_RELIEF, 1, 1),
        reading_key_pass_at(FIELD_NUT_GAP, 1, 1, 1, 0),
        reading_key_pass_at(FIELD_NUT_GAP, 1, 1, 2, 0),
        reading_key_pass_at(FIELD_CENTS, 1, 1, 1, 12),
        reading_key_pass_at(FIELD_CENTS, 1, 1, 2, 5),
        reading_key_pass(FIELD_RELIEF, 1, 2),
        reading_key_pass(FIELD_RELIEF, 1, 10),
        {.field = FIELD_WORK_KIND, .visit = 1, .part = 1},
        reading_key_visit(FIELD_VISIT_DATE, 2),
        reading_key_visit(FIELD_VISIT_DATE, 10),
    };
    const int count = (int)(sizeof rising / sizeof rising[0]);

    (void)state;
    for (int a = 0; a < count; a++)
        for (int b = 0; b < count; b++) {
            const int order = reading_key_compare(&rising[a], &rising[b]);

            assert_true(a < b ? order < 0 : a > b ? order > 0 : order == 0);
        }
}

/* The greatest numbers come after all smaller ones, and before what follows them. */
static void test_order_of_the_greatest(void **state)
{
    const struct reading_key rising[] = {
        reading_key_string(FIELD_SETBACK, STRINGS_MAX),
        reading_key_string(FIELD_SETBACK, STRINGS_MAX + 1),
        reading_key_one(FIELD_TARGET_RELIEF),
        reading_key_pass_at(FIELD_CENTS, 1, PASSES_MAX, STRINGS_MAX, FRETS_MAX),
        reading_key_pass(FIELD_PASS_NOTE, 1, PASSES_MAX),
        reading_key_pass(FIELD_PASS_LABEL, 1, WORKS_MAX + 1),
        {.field = FIELD_WORK_TIME, .visit = 1, .part = WORKS_MAX},
        {.field = FIELD_WORK_KIND, .visit = 1, .part = WORKS_MAX + 1},
        reading_key_visit(FIELD_VISIT_DATE, 2),
        reading_key_visit(FIELD_VISIT_DATE, VISITS_MAX),
        {.field = FIELD_WORK_TIME, .visit = VISITS_MAX, .part = WORKS_MAX + 1},
        reading_key_visit(FIELD_VISIT_DATE, VISITS_MAX + 1),
    };

    (void)state;
    for (size_t i = 1; i < sizeof rising / sizeof rising[0]; i++)
        assert_true(reading_key_compare(&rising[i - 1], &rising[i]) < 0);
}

/* A section's fields are looked for from its first one on. */
static void test_fields_stand_by_section(void **state)
{
    (void)state;
    for (int id = 1; id < FIELD_COUNT_; id++)
        assert_true(field_get((enum field_id)(id - 1))->section <=
                    field_get((enum field_id)id)->section);
}

/* In a file what a visit changed follows the visit's own readings. */
static void test_order_of_writing(void **state)
{
    const struct reading_key rising[] = {
        reading_key_one(FIELD_FORMAT),
        reading_key_string(FIELD_GAUGE, 1),
        reading_key_string(FIELD_GAUGE, 2),
        reading_key_one(FIELD_A4),
        reading_key_visit(FIELD_VISIT_PASSES, 1),
        reading_key_as_of(reading_key_one(FIELD_THICKNESS), 1),
        reading_key_as_of(reading_key_string(FIELD_GAUGE, 1), 1),
        reading_key_as_of(reading_key_string(FIELD_SETBACK, 1), 1),
        reading_key_as_of(reading_key_string(FIELD_GAUGE, 2), 1),
        reading_key_as_of(reading_key_one(FIELD_TARGET_RELIEF), 1),
        reading_key_pass(FIELD_RELIEF, 1, 1),
        reading_key_pass(FIELD_RELIEF, 1, 2),
        {.field = FIELD_WORK_KIND, .visit = 1, .part = 1},
        reading_key_visit(FIELD_VISIT_DATE, 2),
        reading_key_as_of(reading_key_string(FIELD_GAUGE, 1), 2),
        reading_key_pass(FIELD_RELIEF, 2, 1),
    };
    const int count = (int)(sizeof rising / sizeof rising[0]);

    (void)state;
    for (int a = 0; a < count; a++)
        for (int b = 0; b < count; b++) {
            const int order = reading_key_compare_written(&rising[a], &rising[b]);

            assert_true(a < b ? order < 0 : a > b ? order > 0 : order == 0);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_roundtrip_every_field),
        cmocka_unit_test(test_roundtrip_every_change),
        cmocka_unit_test(test_spelling),
        cmocka_unit_test(test_hostile_refused),
        cmocka_unit_test(test_what_is_no_section),
        cmocka_unit_test(test_random_pieces),
        cmocka_unit_test(test_order),
        cmocka_unit_test(test_order_of_the_greatest),
        cmocka_unit_test(test_fields_stand_by_section),
        cmocka_unit_test(test_order_of_writing),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
