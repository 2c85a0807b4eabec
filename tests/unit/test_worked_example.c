/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "commands/figures_command.h"
#include "near.h"
#include "store/profile/profile.h"

/*
 * The worked example of the set-up model: every figure that an independent program computed
 * for the profile must come out, to a millionth, and no other. [moves] is left out: it repeats the
 * changes that are due (test_move.c); so is the ± of predicted setbacks and cents, which has its
 * own random draws (test_pitch_coverage.c).
 */

enum { FIGURES_MOST = 2000, LINE_LENGTH = 200 };

struct printed {
    char where[LINE_LENGTH]; /* "[string.1] action_mm" */
    char value[LINE_LENGTH];
};

struct list {
    struct printed item[FIGURES_MOST];
    int count;
};

static const char *example, *example_figures;
static struct derived derived;
static struct list ours, theirs;

static void add_line(struct list *list, const char *section, const char *line)
{
    const char *sign = strstr(line, " = ");

    assert_non_null(sign);
    assert_true(list->count < FIGURES_MOST);
    struct printed *item = &list->item[list->count++];

    snprintf(item->where, sizeof item->where, "[%.60s] %.*s", section, (int)(sign - line), line);
    snprintf(item->value, sizeof item->value, "%.*s", (int)strcspn(sign + 3, "\n"), sign + 3);
}

/* The +- of predicted notes and setbacks (test_pitch_coverage.c). */
static bool is_pitch_u(const char *section, const char *line)
{
    static const char *const keys[] = {"setback_predicted_u_mm ", "setback_best_u_mm ",
                                       "nut_advance_best_u_mm "};
    int fret;
    char u[3];

    if (strncmp(section, "pitch.", 6) == 0 && sscanf(line, "fret.%d%2[_u]", &fret, u) == 2)
        return true;
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (strncmp(line, keys[i], strlen(keys[i])) == 0)
            return true;
    return false;
}

/* What the independent program does not know: these are tried by random draws
 * (test_wood_coverage.c). */
static bool is_tried_by_draws(const char *section, const char *line)
{
    if (is_pitch_u(section, line))
        return true;
    if (strcmp(section, "neck-beam") == 0)
        return strstr(line, "_u_") || strncmp(line, "rod_holds", 9) == 0;
    return strncmp(line, "break_angle", 11) == 0 || strncmp(line, "downforce", 9) == 0 ||
           strncmp(line, "emc_u", 5) == 0;
}

static void read_figures(FILE *in, struct list *list)
{
    char line[LINE_LENGTH], section[LINE_LENGTH] = "";

    list->count = 0;
    while (fgets(line, sizeof line, in)) {
        if (line[0] == '[')
            snprintf(section, sizeof section, "%.*s", (int)strcspn(line + 1, "]"), line + 1);
        else if (line[0] != ';' && line[0] != '\n' && strcmp(section, "moves") != 0 &&
                 !is_tried_by_draws(section, line))
            add_line(list, section, line);
    }
}

static const struct printed *find(const struct list *list, const char *where)
{
    for (int i = 0; i < list->count; i++)
        if (strcmp(list->item[i].where, where) == 0)
            return &list->item[i];
    return NULL;
}

static int load(void **state)
{
    (void)state;
    struct profile *profile = NULL;
    struct printer printer = {.out = tmpfile()};
    FILE *in = fopen(example_figures, "r");

    assert_non_null(in);
    assert_non_null(printer.out);
    read_figures(in, &theirs);
    fclose(in);
    assert_int_equal(profile_open(example, PROFILE_TO_READ, NULL, &profile), STATUS_OK);
    derive_current(profile_record(profile), &derived);
    profile_close(profile);
    figures_print(&derived, &printer);
    rewind(printer.out);
    read_figures(printer.out, &ours);
    fclose(printer.out);
    return 0;
}

/* Clear over envelope for a pluck of 1 mm: what the least of is the headroom. */
static double headroom_over(int string, int note, int fret)
{
    const struct board *board = &derived.setup.board;
    const double open = derived.string[string].tension_n.value;
    double crown[FRETS_MAX + 1], tension[FRETS_MAX + 1], clear, envelope;

    for (int n = 0; n <= board->frets; n++) {
        crown[n] = neck_curve_height_mm(&derived.lines.curve_now, board, string, n);
        tension[n] = open + (n ? assert_given(derived.pitch[string].rise_n[n]) : 0);
    }
    const struct clearance_string over = {
        .last_fret = board->frets,
        .x_mm = board->station_mm[string],
        .z_mm = crown,
        .saddle_x_mm = board->contact_mm[string],
        .nut_height_mm = derived.lines.now[string].nut_mm,
        .saddle_height_mm = derived.lines.now[string].saddle_mm,
        .open_tension_n = open,
        .tension_n = tension,
        .pluck_mm = 150,
    };
    assert_int_equal(clearance_find_clear(&over, note, fret, &clear), STATUS_OK);
    assert_int_equal(clearance_find_envelope(&over, note, fret, 1, &envelope), STATUS_OK);
    return clear / envelope;
}

/* Where crowns lie on one straight line several frets are equally near, and rounding
 * decides which of them a program names. */
static bool is_tie(const char *where, int fret)
{
    int string, note;

    if (sscanf(where, "[clearance.%d] at.%d", &string, &note) != 2)
        return false;
    const double least = derived.clearance[string].headroom_mm[note].value;

    return fret > note && fret <= derived.setup.board.frets &&
           near_is(headroom_over(string, note, fret), least, 1e-9 * fabs(least));
}

static void compare(const struct printed *want, const struct printed *got)
{
    char *end;
    const double number = strtod(want->value, &end);

    if (*end != '\0') {
        assert_string_equal(got->value, want->value);
        return;
    }
    const double value = strtod(got->value, &end);

    assert_true(*end == '\0' && end != got->value);
    if (!near_is(value, number, fmax(1e-6 * fabs(number), 1e-9)) &&
        !is_tie(want->where, (int)number))
        fail_msg("%s is %s, should be %s", want->where, got->value, want->value);
}

static void test_every_figure_comes_out(void **state)
{
    (void)state;
    assert_true(theirs.count > 500);
    for (int i = 0; i < theirs.count; i++) {
        const struct printed *got = find(&ours, theirs.item[i].where);

        if (!got)
            fail_msg("not printed: %s", theirs.item[i].where);
        compare(&theirs.item[i], got);
    }
}

static void test_no_other_figure_comes_out(void **state)
{
    (void)state;
    for (int i = 0; i < ours.count; i++)
        if (!find(&theirs, ours.item[i].where))
            fail_msg("not in the example: %s", ours.item[i].where);
    assert_int_equal(ours.count, theirs.count);
}

static int section_of(const char *where, char *section)
{
    return sscanf(where, "[%60[^]]", section);
}

/* Sections stand in the example's order, so that two prints can be laid side by side. */
static void test_sections_keep_their_order(void **state)
{
    (void)state;
    char want[64], got[64];

    for (int i = 0; i < theirs.count && i < ours.count; i++) {
        assert_int_equal(section_of(theirs.item[i].where, want), 1);
        assert_int_equal(section_of(ours.item[i].where, got), 1);
        assert_string_equal(got, want);
    }
}

/* A fret that ties must not be mistaken for one that does not. */
static void test_ties_are_true_ones(void **state)
{
    (void)state;
    const int least = derived.clearance[1].at[0];

    assert_true(is_tie("[clearance.1] at.0", least));
    assert_false(is_tie("[clearance.1] at.0", least + 1));
    assert_false(is_tie("[clearance.1] at.0", 0));
    assert_false(is_tie("[string.1] action_mm", least));
}

int main(int count, char **words)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_figure_comes_out),
        cmocka_unit_test(test_no_other_figure_comes_out),
        cmocka_unit_test(test_sections_keep_their_order),
        cmocka_unit_test(test_ties_are_true_ones),
    };

    if (count != 3)
        return 2;
    example = words[1];
    example_figures = words[2];
    return cmocka_run_group_tests(tests, load, NULL) ? 1 : 0;
}
