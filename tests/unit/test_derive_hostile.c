/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "model/derive/derive.h"
#include "near.h"
#include "seeded.h"

/*
 * Records with any nonsense in any field: deriving must not crash, and whatever it calls
 * known must be a number. Once with texts, which the table of fields checks, and once with
 * values that bypass it.
 */

enum { RECORDS = 20000, FRETS = 24, STRINGS = 6 };

static const char *const nonsense[] = {
    "0",    "-0",  "-1",   "1",     "1e308",  "-1e308",  "1e-308", "nan",         "NaN",
    "-nan", "inf", "-inf", "1e999", "5e-324", "999999",  "0.001",  "99999999999", "-999999",
    "0x10", "",    "yes",  "none",  "E2",     "B9",      "C0",     "0 5 36",      "0-36",
    "1/0",  "0/0", "1/3",  "7 1/2", "steel",  "unknown", "36",     "12",          "absent",
};

static const char *const units[] = {"", " mm", " in", " th", " m", " N", " C", " F", " %", " g"};

static const double values[] = {
    0,      -0.0,  -1,  1,     1e-300,           -1e-300, 1e300,
    -1e300, 1e155, 1e9, -1e9,  (double)NAN,      5e-324,  0.5,
    2,      36,    37,  1e-12, (double)INFINITY, 99,      -(double)INFINITY,
};

enum {
    NONSENSE = (int)(sizeof nonsense / sizeof nonsense[0]),
    UNITS = (int)(sizeof units / sizeof units[0]),
    VALUES = (int)(sizeof values / sizeof values[0]),
};

static const char more[] = "board width_nut = 45 mm\nboard width_join = 55 mm\n"
                           "board thickness = 6 mm\nboard crown_height = 1.1 mm\n"
                           "board modulus = 13000\nneck shaft_first = 14 mm\n"
                           "neck shaft_heel = 16 mm\nneck wood = mahogany\n"
                           "neck rod_height = 9.5 mm\nneck rod_cap = 1.5 mm\n"
                           "neck slot_width = 6.35 mm\nneck slot_depth = 11 mm\n"
                           "neck tape_layers = 2\nneck tape_thickness = 0.06 mm\n"
                           "neck spline_modulus = 12600\nneck recut_width = 6 mm\n"
                           "neck recut_depth = 8 mm\nneck tenon_edge = 7 mm\n"
                           "neck tenon_thickness = 25 mm\nneck bolt_diameter = 6 mm\n"
                           "neck bolt_torque = 2 Nm\nvisit.1 humidity = 41\n"
                           "visit.1 temperature = 21 C\nvisit.1.pass.1 fall_away = 8 th\n"
                           "visit.1.pass.1 spot.1 = 1 th\nvisit.1.pass.1 relief.4 = 10 th\n"
                           "visit.1.pass.1 cents.1.12 = 4\nvisit.1.pass.1 cents.2.3 = 2\n"
                           "visit.1.pass.1 cents.2.12 = -3\nvisit.1.pass.1 buzz.1 = 3 4\n"
                           "visit.1.pass.1 clean.1 = 0-2 5-12\n";

static void add_string(struct record *record, int s)
{
    char lines[400];

    snprintf(lines, sizeof lines,
             "string.%d note = E%d\nstring.%d gauge = %d th\nstring.%d build = %s\n"
             "string.%d core = %d th\nstring.%d wrap_material = nickel\n"
             "string.%d setback = 2 mm\n",
             s, s < 3 ? 4 : 3, s, 9 + 7 * s, s, s < 3 ? "plain" : "round-wound", s, 8 + s, s, s);
    build_record_add(record, lines);
}

static void build_whole(struct record *ret_record)
{
    build_record(ret_record, build_record_full);
    build_record_add(ret_record, more);
    for (int s = 1; s <= STRINGS; s++)
        add_string(ret_record, s);
}

/* A key that the field can have, of the instrument or of a change in its visit. */
static struct reading_key any_key(struct seeded *seed, enum field_id id)
{
    const struct field *field = field_get(id);
    int visit = 0, part = 0, string = 0, fret = 0;

    if (field->section == SECTION_VISIT || field->section == SECTION_PASS ||
        field->section == SECTION_WORK)
        visit = 1;
    else if (field_may_change(id))
        visit = seeded_whole(seed, 0, 1);
    if (field->section == SECTION_PASS || field->section == SECTION_WORK)
        part = 1;
    if (field->section == SECTION_STRING || field->per == PER_STRING ||
        field->per == PER_STRING_FRET)
        string = seeded_whole(seed, 1, seeded_whole(seed, 0, 3) ? STRINGS : STRINGS_MAX);
    if (field->per == PER_FRET || field->per == PER_STRING_FRET)
        fret = seeded_whole(seed, 0, seeded_whole(seed, 0, 3) ? FRETS : FRETS_MAX);
    return reading_key_pass_at(id, visit, part, string, fret);
}

static void put_text(struct record *record, struct seeded *seed, enum field_id id)
{
    const struct reading_key key = any_key(seed, id);
    char text[64];

    snprintf(text, sizeof text, "%s%s", nonsense[seeded_whole(seed, 0, NONSENSE - 1)],
             units[seeded_whole(seed, 0, UNITS - 1)]);
    (void)record_put(record, &key, text, true, NULL);
}

/* At the edges of what the table lets through, where formulas come nearest to breaking. */
static void put_edge(struct record *record, struct seeded *seed, enum field_id id)
{
    const struct field *field = field_get(id);
    const struct reading_key key = any_key(seed, id);
    const double edges[] = {field->possible_min, field->possible_max, field->usual_min,
                            field->usual_max, 0};
    char text[64], memory[40];
    struct strbuf number = STRBUF(memory);

    num_format(edges[seeded_whole(seed, 0, 4)], &number);
    snprintf(text, sizeof text, "%s%s", memory, field->quantity == QUANTITY_LENGTH ? " mm" : "");
    (void)record_put(record, &key, text, true, NULL);
}

/* Past the table: a value that no text gives. Whole numbers and choices index arrays, and
 * the table alone keeps those within bounds, so they stay as they are. */
static void put_value(struct record *record, struct seeded *seed)
{
    struct reading *reading = &record->readings[seeded_whole(seed, 0, (int)record->count - 1)];
    const enum field_kind kind = field_get(reading->key.field)->kind;

    if (kind == KIND_NUMBER || kind == KIND_NOTE)
        reading->value =
            (struct field_value){values[seeded_whole(seed, 0, VALUES - 1)], READING_GOOD};
}

static void check_figures(const struct figures *figures, uint64_t record)
{
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++) {
            const struct figure *figure = &figures->at[id][s];

            if (figure->known != KNOWN_ABSENT &&
                (!isfinite(figure->value) || isnan(figure->u) || figure->u < 0))
                fail_msg("record %d: %s of string %d is %g, u %g", (int)record,
                         figure_info((enum figure_id)id)->name, s, figure->value, figure->u);
        }
}

static void check_frets(const struct derived *derived)
{
    const int frets = derived->setup.has_board ? derived->setup.board.frets : 0;

    for (int s = 1; s <= STRINGS_MAX; s++)
        for (int n = 0; n <= FRETS_MAX; n++) {
            const struct fret_pitch *pitch = &derived->pitch[s];
            const struct fret_clearance *clearance = &derived->clearance[s];

            if (pitch->cents[n].given)
                assert_true(n <= frets && isfinite(pitch->cents[n].value));
            if (pitch->rise_n[n].given)
                assert_true(n <= frets && isfinite(pitch->rise_n[n].value));
            if (clearance->headroom_mm[n].given)
                assert_true(n < frets && isfinite(clearance->headroom_mm[n].value) &&
                            clearance->at[n] > n && clearance->at[n] <= frets);
        }
}

static int count_known(const struct figures *figures)
{
    int known = 0;

    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            known += figures->at[id][s].known != KNOWN_ABSENT;
    return known;
}

/* What is derived finds no more that cannot be than reading the setup does, which `check` goes by.
 */
static void check_faults(const struct record *record, const struct findings *derived)
{
    struct findings read = {.count = 0};
    struct setup setup;
    int next = 0;

    setup_read(&setup, place_current(record), &read);
    for (int i = 0; i < derived->count; i++) {
        if (finding_weight(derived->list[i].id) != WEIGHT_FAULT)
            continue;
        while (next < read.count && finding_weight(read.list[next].id) != WEIGHT_FAULT)
            next++;
        assert_true(next < read.count);
        assert_int_equal(derived->list[i].id, read.list[next].id);
        next++;
    }
}

static int check_record(const struct record *record, uint64_t number)
{
    static struct derived derived;

    derive_current(record, &derived);
    check_figures(&derived.figures, number);
    check_faults(record, &derived.findings);
    check_frets(&derived);
    assert_true(isfinite(derived.touch.share) && derived.touch.share >= 0);
    return count_known(&derived.figures);
}

/* Each field in turn, so that none is left out, with every kind of nonsense. */
static void test_every_field_alone(void **state)
{
    (void)state;
    struct seeded seed = seeded_start("every field alone");
    struct record whole, record;
    enum { TRIES = 40 };

    build_whole(&whole);
    for (int id = 0; id < FIELD_COUNT_; id++)
        for (int i = 0; i < TRIES; i++) {
            assert_int_equal(record_copy(&whole, &record), STATUS_OK);
            if (i % 2)
                put_text(&record, &seed, (enum field_id)id);
            else
                put_edge(&record, &seed, (enum field_id)id);
            check_record(&record, (uint64_t)(id * TRIES + i));
            record_done(&record);
        }
    record_done(&whole);
}

static void spoil(struct record *record, struct seeded *seed)
{
    const int changes = seeded_whole(seed, 1, 12);

    for (int i = 0; i < changes; i++) {
        const enum field_id id = (enum field_id)seeded_whole(seed, 0, FIELD_COUNT_ - 1);

        switch (seeded_whole(seed, 0, 3)) {
        case 0:
            put_text(record, seed, id);
            break;
        case 1:
            put_edge(record, seed, id);
            break;
        case 2:
            put_value(record, seed);
            break;
        default:
            if (record->count > 1) {
                const struct reading_key key =
                    record->readings[seeded_whole(seed, 0, (int)record->count - 1)].key;
                record_remove(record, &key);
            }
        }
    }
}

static void test_many_fields_together(void **state)
{
    (void)state;
    struct seeded seed = seeded_start("many fields together");
    struct record whole, record;
    long known = 0;

    build_whole(&whole);
    const int most = check_record(&whole, 0);
    for (int i = 0; i < RECORDS; i++) {
        assert_int_equal(record_copy(&whole, &record), STATUS_OK);
        spoil(&record, &seed);
        known += check_record(&record, (uint64_t)i);
        record_done(&record);
    }
    record_done(&whole);
    /* Nonsense in a field takes away what hangs on it, not the rest. */
    assert_true(known > (long)most * RECORDS / 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_field_alone),
        cmocka_unit_test(test_many_fields_together),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
