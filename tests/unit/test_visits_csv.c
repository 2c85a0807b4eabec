/* SPDX-License-Identifier: MIT */
#include "commands/visits_csv.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "near.h"

enum { COLUMNS = 13, LINES_MAX = 4000 };
enum { VISIT, DATE, PASS, LABEL, KEY, NAME, STRING, FRET, VALUE, UNIT, U, KNOWN, TYPED };

/* --- an independent, strict reader of RFC 4180: a fault fails the test --- */

struct sheet {
    char *text; /* fields point into it */
    char *field[LINES_MAX][COLUMNS];
    int lines;
    bool fault; /* an impossible geometry */
};

/* Reads the field at *at, which moves behind it. */
static char *read_field(char **at)
{
    char *start = *at, *to = *at, *from = *at;

    if (*from != '"') {
        from += strcspn(from, ",\r\n\"");
        assert_int_not_equal(*from, '"');
        *at = from;
        return start;
    }
    for (from++; *from != '"' || from[1] == '"'; from++) {
        assert_int_not_equal(*from, '\0');
        if (*from == '"')
            from++;
        *to++ = *from;
    }
    *at = from + 1;
    *to = '\0';
    return start;
}

static void read_line(char **at, char *fields[COLUMNS])
{
    for (int i = 0; i < COLUMNS; i++) {
        fields[i] = read_field(at);
        const char separator = **at;

        **at = '\0';
        if (i < COLUMNS - 1) {
            assert_int_equal(separator, ',');
            ++*at;
        } else {
            assert_int_equal(separator, '\r');
            assert_int_equal((*at)[1], '\n');
            *at += 2;
        }
    }
}

static char *file_text(FILE *file)
{
    const long size = ftell(file);
    char *text = malloc((size_t)size + 1);

    assert_non_null(text);
    rewind(file);
    assert_int_equal(fread(text, 1, (size_t)size, file), size);
    text[size] = '\0';
    return text;
}

static void sheet_of_record(const struct record *record, struct sheet *ret_sheet)
{
    FILE *file = tmpfile();

    assert_non_null(file);
    *ret_sheet = (struct sheet){.lines = 0};
    visits_csv_print_headings(false, file);
    visits_csv_print(NULL, record, file, &ret_sheet->fault);
    ret_sheet->text = file_text(file);
    for (char *at = ret_sheet->text; *at != '\0'; ret_sheet->lines++) {
        assert_true(ret_sheet->lines < LINES_MAX);
        read_line(&at, ret_sheet->field[ret_sheet->lines]);
    }
    assert_int_equal(fclose(file), 0);
}

static void sheet_of(const char *lines, const char *more, struct sheet *ret_sheet)
{
    struct record record;

    build_record(&record, lines);
    build_record_add(&record, more);
    sheet_of_record(&record, ret_sheet);
    record_done(&record);
}

/* The one line of a visit, pass, key, string and fret as spelled; NULL when there is none. */
static char **find(struct sheet *sheet, const char *visit, const char *pass, const char *key,
                   const char *string, const char *fret)
{
    char **found = NULL;

    for (int i = 1; i < sheet->lines; i++) {
        char **at = sheet->field[i];

        if (strcmp(at[VISIT], visit) || strcmp(at[PASS], pass) || strcmp(at[KEY], key) ||
            strcmp(at[STRING], string) || strcmp(at[FRET], fret))
            continue;
        assert_null(found);
        found = at;
    }
    return found;
}

static const char visits[] = "visit.1 date = 2026-03-02\n"
                             "visit.1 humidity = 38\n"
                             "visit.1 temperature = 20 C\n"
                             "visit.1.pass.1 label = as found, \"stiff\"\n"
                             "visit.1.pass.1 note = =HYPERLINK(\"x\",\"y\")\n"
                             "visit.1.pass.1 cents.2.12 = -3\n"
                             "visit.1.work.2 amount = +1/4 turn\n"
                             "visit.3 reason = @SUM(A1)\n"
                             "visit.3.pass.2 action.6 = 6/64 in\n";

static void readings_are_read_back(void **state)
{
    struct sheet sheet;

    (void)state;
    sheet_of(build_record_full, visits, &sheet);
    char **cents = find(&sheet, "1", "1", "cents", "2", "12");
    assert_non_null(cents);
    assert_string_equal(cents[DATE], "2026-03-02");
    assert_string_equal(cents[LABEL], "as found, \"stiff\"");
    assert_string_equal(cents[VALUE], "-3");
    assert_string_equal(cents[UNIT], "cents");
    assert_string_equal(cents[KNOWN], "entered");
    /* 2 x 1 cent / sqrt(12): JCGM 100:2008, 4.3.7 and 6.2 */
    assert_near(strtod(cents[U], NULL), 0.57735027, 1e-8);

    char **action = find(&sheet, "3", "2", "action", "6", "");
    assert_non_null(action);
    /* 6/64 in at 25.4 mm to the inch */
    assert_near(strtod(action[VALUE], NULL), 2.38125, 1e-9);
    assert_string_equal(action[TYPED], "6/64 in");
    assert_string_equal(action[UNIT], "mm");
    assert_string_equal(action[DATE], "");
    free(sheet.text);
}

static void what_a_visit_changed_is_told_with_it(void **state)
{
    struct sheet sheet;

    (void)state;
    sheet_of(build_record_full, visits, &sheet);
    assert_null(find(&sheet, "3", "", "string.gauge", "6", ""));
    free(sheet.text);
    sheet_of(build_record_full,
             "visit.1 date = 2026-03-02\nvisit.3 reason = strings\n"
             "string.6 gauge = .053 in\nvisit.3.string.6 gauge = .056 in\n"
             "visit.3.string.6 weigh_mass = absent\nvisit.3.targets relief = .004 in\n"
             "visit.3.pass.1 relief = .010 in\n",
             &sheet);
    char **gauge = find(&sheet, "3", "", "string.gauge", "6", "");
    assert_non_null(gauge);
    /* .056 in at 25.4 mm to the inch */
    assert_near(strtod(gauge[VALUE], NULL), 1.4224, 1e-9);
    assert_string_equal(gauge[KNOWN], "entered");
    assert_string_equal(gauge[TYPED], ".056 in");
    char **weight = find(&sheet, "3", "", "string.weigh_mass", "6", "");
    assert_string_equal(weight[KNOWN], "absent");
    assert_string_equal(weight[VALUE], "");
    assert_string_equal(find(&sheet, "3", "", "targets.relief", "", "")[TYPED], ".004 in");
    assert_null(find(&sheet, "1", "", "string.gauge", "6", ""));
    free(sheet.text);
}

static void a_radius_is_a_number(void **state)
{
    struct sheet sheet;

    (void)state;
    sheet_of(build_record_full,
             "visit.1 date = 2026-03-02\nboard radius_nut = 12 in\n"
             "visit.2 reason = board trued\nvisit.2.board radius_nut = 16 in\n"
             "visit.3 reason = board trued\nvisit.3.board radius_nut = flat\n",
             &sheet);
    char **round = find(&sheet, "2", "", "board.radius_nut", "", "");
    assert_non_null(round);
    /* 16 in at 25.4 mm to the inch */
    assert_near(strtod(round[VALUE], NULL), 406.4, 1e-9);
    assert_string_equal(round[UNIT], "mm");
    assert_string_equal(round[TYPED], "16 in");
    char **flat = find(&sheet, "3", "", "board.radius_nut", "", "");
    assert_non_null(flat);
    assert_string_equal(flat[VALUE], "");
    assert_string_equal(flat[UNIT], "");
    assert_string_equal(flat[KNOWN], "entered");
    assert_string_equal(flat[TYPED], "flat");
    free(sheet.text);
}

static void no_text_is_a_formula(void **state)
{
    struct sheet sheet;

    (void)state;
    sheet_of(build_record_full, visits, &sheet);
    assert_string_equal(find(&sheet, "1", "1", "note", "", "")[TYPED], "'=HYPERLINK(\"x\",\"y\")");
    assert_string_equal(find(&sheet, "3", "", "reason", "", "")[TYPED], "'@SUM(A1)");
    assert_string_equal(find(&sheet, "1", "", "work.2.amount", "", "")[TYPED], "'+1/4 turn");
    for (int i = 0; i < sheet.lines; i++)
        for (int column = 0; column < COLUMNS; column++) {
            char *field = sheet.field[i][column], *end;

            if (field[0] == '\0' || !strchr("=+-@\t\r", field[0]))
                continue;
            /* what begins so is a number and nothing behind it */
            assert_int_equal(field[0], '-');
            (void)strtod(field, &end);
            assert_string_equal(end, "");
        }
    free(sheet.text);
}

static void figures_stand_in_their_pass(void **state)
{
    struct sheet sheet;

    (void)state;
    sheet_of(build_record_full, visits, &sheet);
    const struct derived derived = build_derived(build_record_full, "");
    char **saddle = find(&sheet, "1", "1", "saddle_change_mm", "6", "");
    assert_non_null(saddle);
    assert_string_equal(saddle[KNOWN], "derived");
    const double moved = assert_given(figures_get(&derived.figures, FIGURE_SADDLE_CHANGE, 6));
    assert_near(strtod(saddle[VALUE], NULL), moved, 1e-8);
    assert_true(strtod(saddle[U], NULL) > 0);

    /* Climate is the visit's: once, in no pass. */
    assert_non_null(find(&sheet, "1", "", "emc_pct", "", ""));
    assert_null(find(&sheet, "1", "1", "emc_pct", "", ""));
    assert_null(find(&sheet, "3", "", "emc_pct", "", ""));
    /* One string's action was read: nothing about a string that needs two. */
    assert_null(find(&sheet, "3", "2", "saddle_change_mm", "1", ""));
    assert_false(sheet.fault);
    free(sheet.text);
}

static void what_was_not_read_is_assumed(void **state)
{
    struct sheet sheet;

    (void)state;
    sheet_of(build_record_full, "visit.1.pass.2 action.1 = 2 mm\nvisit.1.pass.2 action.3 = 3 mm\n",
             &sheet);
    assert_string_equal(find(&sheet, "1", "2", "action_mm", "2", "")[KNOWN], "assumed");
    assert_string_equal(find(&sheet, "1", "2", "action_mm", "1", "")[KNOWN], "derived");
    assert_null(find(&sheet, "1", "2", "action", "2", ""));
    assert_string_equal(find(&sheet, "1", "2", "nut_method", "", "")[KNOWN], "assumed");
    assert_string_equal(find(&sheet, "1", "2", "nut_method", "", "")[TYPED], "open");
    free(sheet.text);
}

static void nothing_on_file_is_a_heading(void **state)
{
    struct sheet sheet;

    (void)state;
    sheet_of("", "", &sheet);
    assert_int_equal(sheet.lines, 1);
    assert_string_equal(sheet.field[0][VISIT], "visit");
    assert_string_equal(sheet.field[0][TYPED], "as typed");
    free(sheet.text);
}

static void the_longest_text_stays_whole(void **state)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_NOTE, 1);
    static char quotes[FIELD_TEXT_MAX + 1];
    struct record record;
    struct sheet sheet;

    (void)state;
    memset(quotes, '"', FIELD_TEXT_MAX);
    record_init(&record);
    assert_int_equal(record_put(&record, &key, quotes, false, NULL), STATUS_OK);
    sheet_of_record(&record, &sheet);
    record_done(&record);
    assert_int_equal(strlen(find(&sheet, "1", "", "note", "", "")[TYPED]), FIELD_TEXT_MAX);
    free(sheet.text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(readings_are_read_back),
        cmocka_unit_test(what_a_visit_changed_is_told_with_it),
        cmocka_unit_test(a_radius_is_a_number),
        cmocka_unit_test(no_text_is_a_formula),
        cmocka_unit_test(figures_stand_in_their_pass),
        cmocka_unit_test(what_was_not_read_is_assumed),
        cmocka_unit_test(nothing_on_file_is_a_heading),
        cmocka_unit_test(the_longest_text_stays_whole),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
