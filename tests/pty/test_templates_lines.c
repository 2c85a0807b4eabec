/* SPDX-License-Identifier: MIT */

/* The lines of every small template, card and label, read back from its PDF in mm and held against
 * numbers that do not come from the program. */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_command.h"
#include "raster.h"
#include "vector.h"

/* Beside the worked example, which says neither where its strings stand nor how wide its pocket
 * is. */
#define ADDED                                                                                      \
    "\n[nut]\nwidth = 46 mm\nmargin_bass = 3.2 mm\nmargin_treble = 3 mm\nspread = equal-gaps\n"

enum { STRINGS = 6, FRETS = 19 };
#define NEAR_MM 0.004 /* a PDF keeps a 256th of a point, on either side */

static const double gauge_mm[STRINGS + 1] = {0,           .012 * 25.4, .016 * 25.4, .024 * 25.4,
                                             .032 * 25.4, .042 * 25.4, .053 * 25.4};
static const double setback_mm[STRINGS + 1] = {0, 1.5, 2.5, 1.8, 2.4, 3.0, 3.6};

/* Of the worked example, by the program that knows nothing of this one
 * (tests/data/worked-example.figures). */
static const double predicted_mm[STRINGS + 1] = {0,          1.48409078, 2.86644826, 1.66449528,
                                                 2.09191921, 3.02220735, 4.48017848};
static const double change_mm[STRINGS + 1] = {0, 1.4768404, 0, 0, 0, 0, 3.3707436};
#define HEEL_CUT_MM 0.0403854677
#define TONGUE_MM   0.0553693941

/* The scale, and the octave's fret in the middle of it. */
#define SCALE_MM (24.9 * 25.4)
#define END_MM   (17.2 * 25.4)

static bool can_measure(void)
{
    return SILLET_HAS_CAIRO && raster_can_draw() && vector_can_read();
}

/* --- pages --- */

/* Replaces one part of a profile and appends another. */
static void write_profile(const char *path, const char *source, const char *was, const char *is,
                          const char *more)
{
    size_t length;
    char *text = tree_read(source, &length);

    assert_non_null(text);
    char *all = calloc(1, length + strlen(is) + strlen(more) + 1);
    assert_non_null(all);
    const char *at = strstr(text, was);
    assert_non_null(at);
    sprintf(all, "%.*s%s%s%s", (int)(at - text), text, is, at + strlen(was), more);
    tree_write_text(path, all);
    free(all);
    free(text);
}

static const char *worked_profile(struct bench *bench)
{
    const char *path = tree_path(bench->tree, "worked.ini");

    write_profile(path, bench_data("worked-example.ini"), "[bridge]\n",
                  "[bridge]\nspread = 57 mm\n", ADDED);
    return path;
}

static void draw(struct bench *bench, const char *profile, const char *template,
                 struct vector *ret_vector)
{
    const char *pdf = tree_path(bench->tree, "x.pdf");
    const char *const words[] = {"layout", "-o", pdf, "--pass", "1", profile, template, NULL};
    struct command command;

    command_run_words(bench, words, &command);
    if (command.code != 0)
        fail_msg("%s", command.err);
    command_done(&command);
    vector_read(pdf, 1, ret_vector);
}

/* The bars that the page is checked by. */
static void check_bars(const struct vector *vector)
{
    int across_100 = 0, across_4_in = 0, along_100 = 0;

    for (int i = 0; i < vector->count; i++) {
        const struct vector_path *path = &vector->path[i];

        across_100 += vector_is_across(path) && near_is(vector_length_mm(path), 100, NEAR_MM);
        across_4_in += vector_is_across(path) && near_is(vector_length_mm(path), 101.6, NEAR_MM);
        along_100 += vector_is_down(path) && near_is(vector_length_mm(path), 100, NEAR_MM);
    }
    assert_int_equal(across_100, 1);
    assert_int_equal(across_4_in, 1);
    assert_int_equal(along_100, 1);
}

/* The only path of so many points. */
static struct vector_path find_shape(const struct vector *vector, int points)
{
    struct vector_path shape = {.count = 0};
    int found = 0;

    for (int i = 0; i < vector->count; i++)
        if (vector->path[i].count == points) {
            shape = vector->path[i];
            found++;
        }
    assert_int_equal(found, 1);
    return shape;
}

/* The first line across the page that is so long. */
static struct vector_path find_across(const struct vector *vector, double length_mm)
{
    for (int i = 0; i < vector->count; i++)
        if (vector_is_across(&vector->path[i]) &&
            near_is(vector_length_mm(&vector->path[i]), length_mm, NEAR_MM))
            return vector->path[i];
    fail_msg("no line of %.2f mm across the page", length_mm);
    return (struct vector_path){.count = 0};
}

/* --- strings --- */

/* How far a string lies from the outermost bass string, where all gaps between strings over `span`
 * are alike. */
static double across_mm(int string, double span_mm)
{
    double gaps_mm = span_mm - (gauge_mm[STRINGS] + gauge_mm[1]) / 2, at_mm = 0;

    for (int s = 2; s < STRINGS; s++)
        gaps_mm -= gauge_mm[s];
    for (int s = STRINGS; s > string; s--)
        at_mm += (gauge_mm[s] + gauge_mm[s - 1]) / 2 + gaps_mm / (STRINGS - 1);
    return at_mm;
}

static void check_contact(const struct vector_path *path, double left_mm, double base_mm,
                          int count[STRINGS + 1][3])
{
    const double at_mm = (path->x_mm[0] + path->x_mm[1]) / 2 - left_mm;
    const double behind_mm = path->y_mm[0] - base_mm;

    for (int s = 1; s <= STRINGS; s++) {
        if (!near_is(at_mm, across_mm(s, 57), 2 * NEAR_MM))
            continue;
        const double wanted_mm = path->line == VECTOR_DOTTED   ? setback_mm[s]
                                 : path->line == VECTOR_DASHED ? predicted_mm[s]
                                                               : setback_mm[s] + change_mm[s];
        assert_near(behind_mm, wanted_mm, 2 * NEAR_MM);
        count[s][path->line]++;
        return;
    }
    fail_msg("a contact %.3f mm from the bass string is no string's", at_mm);
}

static void contacts_at_the_saddle_are_at_true_scale(void **state)
{
    struct bench *bench = *state;
    int count[STRINGS + 1][3] = {{0}};
    struct vector vector;

    if (!can_measure())
        skip();
    draw(bench, worked_profile(bench), "saddle", &vector);
    check_bars(&vector);
    /* The scale length goes 6 mm past the outer strings. */
    const struct vector_path base = find_across(&vector, 57 + 2 * 6);
    for (int i = 0; i < vector.count; i++)
        if (vector_is_across(&vector.path[i]) &&
            near_is(vector_length_mm(&vector.path[i]), 4, NEAR_MM))
            check_contact(&vector.path[i], base.x_mm[0] + 6, base.y_mm[0], count);
    for (int s = 1; s <= STRINGS; s++) {
        assert_int_equal(count[s][VECTOR_DOTTED], 1);
        assert_int_equal(count[s][VECTOR_DASHED], 1);
        assert_int_equal(count[s][VECTOR_SOLID], change_mm[s] > 0);
    }
}

static void slots_of_the_nut_are_at_true_scale(void **state)
{
    struct bench *bench = *state;
    const double span_mm = 46 - 3.2 - 3 - (gauge_mm[1] + gauge_mm[STRINGS]) / 2;
    struct vector vector;
    int slots = 0;

    if (!can_measure())
        skip();
    draw(bench, worked_profile(bench), "nut", &vector);
    check_bars(&vector);
    const struct vector_path box = find_shape(&vector, 4);
    assert_near(box.x_mm[1] - box.x_mm[0], 46, NEAR_MM);
    for (int i = 0; i < vector.count; i++) {
        const struct vector_path *path = &vector.path[i];

        if (!vector_is_down(path) || !path->black || path->x_mm[0] > box.x_mm[1] ||
            path->y_mm[0] > box.y_mm[2])
            continue;
        slots++;
        /* From the thinnest on; the bass edge is at the left. */
        assert_near(path->x_mm[0] - box.x_mm[0],
                    3.2 + gauge_mm[STRINGS] / 2 + across_mm(slots, span_mm), 2 * NEAR_MM);
    }
    assert_int_equal(slots, STRINGS);
}

/* --- wedges --- */

static void check_wedge(struct bench *bench, const char *profile, const char *template,
                        double length_mm, double thick_mm)
{
    struct vector vector;

    draw(bench, profile, template, &vector);
    check_bars(&vector);
    const struct vector_path wedge = find_shape(&vector, 4);
    assert_near(wedge.x_mm[1] - wedge.x_mm[0], length_mm, NEAR_MM);
    assert_near(wedge.y_mm[0] - wedge.y_mm[1], 0, NEAR_MM);
    assert_near(wedge.x_mm[2] - wedge.x_mm[1], 0, NEAR_MM);
    assert_near(wedge.y_mm[1] - wedge.y_mm[2], thick_mm, NEAR_MM);
    assert_near(wedge.y_mm[3] - wedge.y_mm[0], 0, NEAR_MM);
}

static void wedges_of_the_worked_example_are_at_true_scale(void **state)
{
    struct bench *bench = *state;

    if (!can_measure())
        skip();
    check_wedge(bench, bench_data("worked-example.ini"), "heel", 88, HEEL_CUT_MM);
    check_wedge(bench, bench_data("worked-example.ini"), "tongue", END_MM - SCALE_MM / 2,
                TONGUE_MM);
}

/* The angle of a pass, as `sillet figures` prints it. */
static double angle_deg(struct bench *bench, const char *profile)
{
    struct command command;
    double angle = (double)NAN;

    command_run(bench, "figures", profile, &command);
    const char *at = strstr(command.out, "\nangle_deg = ");
    assert_non_null(at);
    assert_int_equal(sscanf(at, "\nangle_deg = %lf", &angle), 1);
    command_done(&command);
    return angle;
}

/* A neck that has to be set back: thick enough to be seen, and the same angle in all three. */
static void wedges_of_a_reset_have_its_angle(void **state)
{
    static const char low[] = "exposure_bass = 1.6 mm\nexposure_treble = 1.6 mm\n";
    struct bench *bench = *state;
    const char *glued = tree_path(bench->tree, "glued.ini");
    char pocket[400];

    if (!can_measure())
        skip();
    snprintf(pocket, sizeof pocket, "%s", tree_path(bench->tree, "pocket.ini"));
    write_profile(glued, bench_data("worked-example.ini"),
                  "exposure_bass = 5 mm\nexposure_treble = 4.5 mm\n", low, "");
    write_profile(pocket, glued, "join = bolted\n", "join = pocket\npocket_length = 76 mm\n", "");
    const double slope = tan(angle_deg(bench, glued) * acos(-1) / 180);
    assert_true(slope > 0.005);
    check_wedge(bench, glued, "heel", 88, 88 * slope);
    check_wedge(bench, glued, "tongue", END_MM - SCALE_MM / 2, (END_MM - SCALE_MM / 2) * slope);
    check_wedge(bench, pocket, "shim", 76, 76 * slope);
}

/* --- the board's dots --- */

static double station_mm(int fret)
{
    return SCALE_MM * (1 - pow(2, -fret / 12.0));
}

/* Midway between two frets, a small cross marks each inlay: its line across is there. */
static void inlays_stand_midway_between_frets(void **state)
{
    static const int marked[] = {3, 5, 7};
    struct bench *bench = *state;
    struct vector vector;

    if (!can_measure())
        skip();
    draw(bench, worked_profile(bench), "board", &vector);
    const double nut_mm = find_across(&vector, 45).y_mm[0];
    for (size_t m = 0; m < sizeof marked / sizeof marked[0]; m++) {
        const double wanted_mm = (station_mm(marked[m] - 1) + station_mm(marked[m])) / 2;
        int found = 0;

        for (int i = 0; i < vector.count; i++)
            found += vector_is_across(&vector.path[i]) && vector_length_mm(&vector.path[i]) < 10 &&
                     near_is(vector.path[i].y_mm[0] - nut_mm, wanted_mm, NEAR_MM);
        if (found == 0)
            fail_msg("no mark for the dot at fret %d, %.2f mm from the nut", marked[m], wanted_mm);
    }
}

/* --- cards --- */

static char *card_text(struct bench *bench)
{
    const char *pdf = tree_path(bench->tree, "x.pdf"), *profile = worked_profile(bench);
    const char *const words[] = {"sheet", "--card", "-o", pdf, profile, NULL};
    struct command command;
    char text[600];

    command_run_words(bench, words, &command);
    assert_int_equal(command.code, 0);
    command_done(&command);
    snprintf(text, sizeof text, "pdftotext -layout '%s' -", pdf);
    return raster_command(text);
}

/* An edge that rests on a fret and its neighbours, and on no other: 1 mm more than from the one to
 * the other, and 1 mm less than to the next. */
static void check_rocker(const char *card)
{
    const char *at = strstr(card, "Fret rocker");
    double over, under;
    int fret, frets = 0;

    assert_non_null(at);
    for (; (at = strchr(at, '\n')) != NULL; at++) {
        const int found = sscanf(at + 1, " %d %lf %lf", &fret, &over, &under);

        if (found >= 2) {
            assert_near(over * 25.4, station_mm(fret + 1) - station_mm(fret - 1) + 1, 0.013);
            frets++;
        }
        if (found == 3)
            assert_near(under * 25.4, station_mm(fret + 2) - station_mm(fret - 1) - 1, 0.013);
        assert_int_equal(found == 3 || found < 2, found < 2 || fret + 2 <= FRETS);
    }
    assert_int_equal(frets, FRETS - 2);
}

/* The string's gauge, and a file that is .08 mm thicker at most; the gap as it was read. */
static void check_slots(const char *card)
{
    static const double gap_in[STRINGS + 1] = {0, .020, .021, .024, .025, .028, .030};
    const char *at = strstr(card, "Nut slots");
    int slots = 0;

    assert_non_null(at);
    const char *end = strstr(card, "Fret rocker");
    for (; (at = strchr(at, '\n')) != NULL && at < end; at++) {
        double gauge, file, gap;
        int string;

        if (sscanf(at + 1, "%d %*2s %lf %lf %lf", &string, &gauge, &file, &gap) != 4)
            continue;
        assert_in_range(string, 1, STRINGS);
        assert_near(gauge * 25.4, gauge_mm[string], 0.013);
        assert_near(file * 25.4, gauge_mm[string] + 0.08, 0.013);
        assert_near(gap, gap_in[string], 0.0006);
        slots++;
    }
    assert_int_equal(slots, STRINGS);
}

static void cards_have_the_frets_and_the_strings_numbers(void **state)
{
    if (!can_measure())
        skip();
    char *card = card_text(*state);

    check_rocker(card);
    check_slots(card);
    free(card);
}

/* --- labels --- */

/* Each word's box lies on the label. */
static void check_label(const char *pdf, double width_mm, double height_mm)
{
    char command[600];
    double width, height;
    int words = 0;

    snprintf(command, sizeof command, "pdftotext -bbox '%s' -", pdf);
    char *text = raster_command(command);
    const char *at = strstr(text, "<page ");
    assert_non_null(at);
    assert_int_equal(sscanf(at, "<page width=\"%lf\" height=\"%lf\"", &width, &height), 2);
    assert_near(width * 25.4 / 72, width_mm, 0.01);
    assert_near(height * 25.4 / 72, height_mm, 0.01);
    while ((at = strstr(at, "<word ")) != NULL) {
        double left, top, right, bottom;

        assert_int_equal(sscanf(at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"",
                                &left, &top, &right, &bottom),
                         4);
        assert_true(left >= 5 && right <= width - 5 && top >= 0 && bottom <= height);
        words++;
        at++;
    }
    assert_true(words > 10);
    free(text);
}

/* Whatever the name, there is room for what the label is for. */
static void check_said(const char *pdf)
{
    static const char *const words[] = {"2 March 2026", "Strings .053 to .012 in",
                                        "Tuned to standard: E2 A2 D3 G3 B3 E4"};
    char command[600];

    snprintf(command, sizeof command, "pdftotext '%s' -", pdf);
    char *text = raster_command(command);
    for (char *at = text; *at; at++)
        if (*at == '\n')
            *at = ' ';
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (!strstr(text, words[i]))
            fail_msg("'%s' is not on the label: %s", words[i], text);
    free(text);
}

static void labels_are_as_large_as_they_are_called(void **state)
{
    static const struct {
        const char *name;
        double width_mm, height_mm;
    } sizes[] = {{"small", 57, 32}, {"medium", 89, 36}, {"large", 102, 59}};
    static const char long_name[] =
        "name = A Guitar of a Very Long Name, Which Somebody Gave It on a Rainy Day in Autumn\n";
    struct bench *bench = *state;
    const char *pdf = tree_path(bench->tree, "x.pdf");
    char profile[400];

    if (!can_measure())
        skip();
    snprintf(profile, sizeof profile, "%s", tree_path(bench->tree, "long.ini"));
    write_profile(profile, worked_profile(bench), "name = Parlour No. 3\n", long_name, "");
    for (size_t i = 0; i < 2 * sizeof sizes / sizeof sizes[0]; i++) {
        const char *const words[] = {"sheet", "--label", sizes[i / 2].name,
                                     "-o",    pdf,       i % 2 ? profile : worked_profile(bench),
                                     NULL};
        struct command command;

        command_run_words(bench, words, &command);
        assert_int_equal(command.code, 0);
        command_done(&command);
        check_label(pdf, sizes[i / 2].width_mm, sizes[i / 2].height_mm);
        check_said(pdf);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(contacts_at_the_saddle_are_at_true_scale),
        BENCH_CASE(slots_of_the_nut_are_at_true_scale),
        BENCH_CASE(wedges_of_the_worked_example_are_at_true_scale),
        BENCH_CASE(wedges_of_a_reset_have_its_angle),
        BENCH_CASE(inlays_stand_midway_between_frets),
        BENCH_CASE(cards_have_the_frets_and_the_strings_numbers),
        BENCH_CASE(labels_are_as_large_as_they_are_called),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
