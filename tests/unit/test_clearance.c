/* SPDX-License-Identifier: MIT */
#include "model/frets/clearance.h"

#include <math.h>

#include "near.h"
#include "seeded.h"
#include "worked_geometry.h"

/* A string with arrays of its own. */
struct bench {
    double x_mm[WORKED_FRETS + 1];
    double z_mm[WORKED_FRETS + 1];
    double tension_n[WORKED_FRETS + 1];
    struct clearance_string string;
};

static void bench_join(struct bench *b)
{
    b->string.x_mm = b->x_mm;
    b->string.z_mm = b->z_mm;
    b->string.tension_n = b->tension_n;
}

/* Tension of the worked example's string i (from 0) stopped at n: pressed 10 mm behind the
 * fret, at most half the space; core modulus 203 400 MPa; 75 mm free behind nut and saddle. */
static double stopped_tension_n(int i, int n)
{
    const double saddle_mm = WORKED_SCALE_MM + worked_setback_mm[i];
    const double nut = worked_nut_mm[i];
    const double rise = worked_saddle_mm[i] - worked_crown_mm(n);
    const double x = worked_fret_mm(n);
    const double core_mm = worked_core_in[i] * 25.4;
    const double press = fmin(10, (x - worked_fret_mm(n - 1)) / 2);
    const double dip = press * rise / (saddle_mm - x);
    const double open = hypot(saddle_mm, worked_saddle_mm[i] - nut);
    const double path = hypot(x - press, worked_crown_mm(n) - dip - nut) + hypot(press, dip) +
                        hypot(saddle_mm - x, rise);
    const double area = 3.14159265358979323846 * core_mm * core_mm / 4;
    return worked_tension_n[i] + 203400 * area * (path - open) / (open + 75);
}

static void bench_worked(struct bench *b, int i)
{
    b->x_mm[0] = b->z_mm[0] = b->tension_n[0] = 0;
    for (int n = 1; n <= WORKED_FRETS; n++) {
        b->x_mm[n] = worked_fret_mm(n);
        b->z_mm[n] = worked_crown_mm(n);
        b->tension_n[n] = stopped_tension_n(i, n);
    }
    b->string = (struct clearance_string){
        .last_fret = WORKED_FRETS,
        .saddle_x_mm = WORKED_SCALE_MM + worked_setback_mm[i],
        .nut_height_mm = worked_nut_mm[i],
        .saddle_height_mm = worked_saddle_mm[i],
        .open_tension_n = worked_tension_n[i],
        .pluck_mm = 150,
    };
    bench_join(b);
}

/* Three frets on a 600 mm string, flat crowns, saddle 6 mm up: sums for the head. */
static void bench_plain(struct bench *b)
{
    *b = (struct bench){
        .x_mm = {0, 100, 200, 400},
        .tension_n = {0, 80, 100, 100},
        .string = {.last_fret = 3,
                   .saddle_x_mm = 600,
                   .nut_height_mm = 1,
                   .saddle_height_mm = 7,
                   .open_tension_n = 80,
                   .pluck_mm = 150},
    };
    bench_join(b);
}

/* From the worked example's independent program. */
static const double worked_headroom[WORKED_STRINGS][WORKED_FRETS] = {
    {1.65834033, 1.48801311, 1.46710552, 1.45204875, 1.38249835, 1.39027194, 1.39915387, 1.46842168,
     1.56063464, 1.6923734, 1.85820792, 2.05696923, 2.28793226, 2.5588211, 2.5593274, 2.55988306,
     2.56048742, 2.56114063, 2.56184338},
    {1.7162529, 1.53606805, 1.51908871, 1.50835106, 1.44336949, 1.45623883, 1.47070089, 1.54624317,
     1.6454566, 1.78507265, 1.95978648, 2.1686197, 2.41105797, 2.69544491, 2.71414374, 2.71530737,
     2.7165697, 2.71793116, 2.71939335},
    {1.85139943, 1.62125411, 1.61091075, 1.60763493, 1.55114675, 1.57346428, 1.59858366, 1.68606822,
     1.7988146, 1.95383189, 2.14622746, 2.37552396, 2.64188806, 2.95455605, 2.96082035, 2.96160763,
     2.96245979, 2.96337742, 2.96436184},
    {1.94790316, 1.72252093, 1.72031167, 1.72603622, 1.67944733, 1.71276888, 1.75012716, 1.85132759,
     1.97949315, 2.15194803, 2.36417541, 2.61618882, 2.9087711, 3.25199052, 3.2722559, 3.27351073,
     3.27486337, 3.27631526, 3.27786882},
    {2.08304969, 1.81073545, 1.81542467, 1.82901016, 1.79100572, 1.83393034, 1.88193471, 1.99511252,
     2.13673422, 2.32441835, 2.55395907, 2.82580147, 3.14124729, 3.5110938, 3.54774692, 3.54988771,
     3.55219182, 3.55466192, 3.55730223},
    {2.19887482, 1.90780939, 1.92025022, 1.94275772, 1.91442067, 1.96819551, 2.02819439, 2.15491388,
     2.31175342, 2.51669308, 2.76587476, 3.06025421, 3.40172382, 3.80194721, 3.85825732, 3.8620944,
     3.86621577, 3.87062681, 3.87533545},
};
/* Where it lies, for the notes whose frets ahead do not all lie on one straight line. */
static const int worked_at[WORKED_HEEL] = {4, 6, 7, 8, 10, 11, 13, 14, 16, 17};

static void map_headroom(const struct clearance_string *string, double *ret_headroom_mm,
                         int *ret_at)
{
    for (int n = 0; n < WORKED_FRETS; n++)
        assert_int_equal(clearance_find_headroom(string, n, &ret_headroom_mm[n], &ret_at[n]),
                         STATUS_OK);
}

static void test_worked_example(void **state)
{
    (void)state;
    for (int i = 0; i < WORKED_STRINGS; i++) {
        struct bench b;
        double headroom_mm[WORKED_FRETS];
        int at[WORKED_FRETS];
        bench_worked(&b, i);
        map_headroom(&b.string, headroom_mm, at);
        for (int n = 0; n < WORKED_FRETS; n++) {
            assert_near_relative(headroom_mm[n], worked_headroom[i][n], 1e-8);
            if (n < WORKED_HEEL)
                assert_int_equal(at[n], worked_at[n]);
        }
    }
}

/* 6 mm over 500 mm: 1.2 mm at 100 mm; the pluck shares are .7 stopped and .75 open. */
static void test_sums_by_hand(void **state)
{
    struct bench b;
    double value = 0;
    (void)state;
    bench_plain(&b);
    assert_int_equal(clearance_find_clear(&b.string, 1, 2, &value), STATUS_OK);
    assert_near(value, 7 * 100.0 / 500, 1e-14);
    assert_int_equal(clearance_find_clear(&b.string, 0, 1, &value), STATUS_OK);
    assert_near(value, 1 + 6 / 6.0, 1e-14);
    assert_int_equal(clearance_find_envelope(&b.string, 1, 2, 1, &value), STATUS_OK);
    assert_near(value, 0.7 / 0.75 * 100 / 150, 1e-14);
    /* Beyond the pluck the other side of the parallelogram. */
    assert_int_equal(clearance_find_envelope(&b.string, 1, 3, 1, &value), STATUS_OK);
    assert_near(value, 0.7 / 0.75 * 200 / 350, 1e-14);
    assert_int_equal(clearance_find_margin(&b.string, 1, 3, 2, &value), STATUS_OK);
    assert_near(value, 7 * 300.0 / 500 - 2 * 0.7 / 0.75 * 200 / 350, 1e-14);
}

/* A short string is plucked at its middle: l = 250 mm, p = 125 mm, tension up by a quarter. */
static void test_pluck_never_past_the_middle(void **state)
{
    struct bench b;
    double value = 0;
    (void)state;
    bench_plain(&b);
    b.x_mm[2] = 350;
    assert_int_equal(clearance_find_envelope(&b.string, 2, 3, 1, &value), STATUS_OK);
    assert_near(value, 0.5 / 0.75 * 0.8 * 50 / 125, 1e-14);
}

/* A triangle of height 1 with its corner at `corner`, continued as an odd periodic wave. */
static double pluck_shape(double x, double corner, double length)
{
    x = fmod(fmod(x, 2 * length) + 2 * length, 2 * length);
    const double sign = x > length ? -1 : 1;
    if (x > length)
        x = 2 * length - x;
    return sign * (x < corner ? x / corner : (length - x) / (length - corner));
}

/* d'Alembert's solution of the wave equation, the mean of two travelling pluck shapes,
 * never goes below the envelope and touches it. */
static void test_envelope_is_the_waves(void **state)
{
    struct bench b;
    (void)state;
    bench_plain(&b);
    b.x_mm[1] = 150;
    for (int fret = 1; fret <= 3; fret++) {
        double envelope = 0;
        double lowest = 0;
        const double x = b.x_mm[fret];
        assert_int_equal(clearance_find_envelope(&b.string, 0, fret, 1, &envelope), STATUS_OK);
        for (int i = 0; i < 1200; i++)
            lowest =
                fmin(lowest, (pluck_shape(x - i, 450, 600) + pluck_shape(x + i, 450, 600)) / 2);
        assert_near(lowest, -envelope, 1e-12);
    }
}

static void test_headroom_is_where_the_margin_ends(void **state)
{
    struct bench b;
    (void)state;
    bench_worked(&b, 5);
    for (int n = 0; n < WORKED_FRETS; n++) {
        double headroom_mm = 0;
        double margin_mm = 1;
        int at = 0;
        assert_int_equal(clearance_find_headroom(&b.string, n, &headroom_mm, &at), STATUS_OK);
        assert_int_equal(clearance_find_margin(&b.string, n, at, headroom_mm, &margin_mm),
                         STATUS_OK);
        assert_near(margin_mm, 0, 1e-12);
        for (int k = n + 1; k <= WORKED_FRETS; k++) {
            clearance_find_margin(&b.string, n, k, headroom_mm, &margin_mm);
            assert_true(margin_mm >= -1e-12);
        }
    }
}

static void test_a_risen_crown_never_helps(void **state)
{
    struct seeded seed = seeded_start("clearance, risen crown");
    (void)state;
    for (int round = 0; round < 2000; round++) {
        struct bench b;
        double before[WORKED_FRETS], after[WORKED_FRETS];
        int at[WORKED_FRETS];
        bench_worked(&b, seeded_whole(&seed, 0, WORKED_STRINGS - 1));
        for (int n = 1; n <= WORKED_FRETS; n++)
            b.z_mm[n] += seeded_between(&seed, -0.1, 0.1);
        const int risen = seeded_whole(&seed, 1, WORKED_FRETS);
        map_headroom(&b.string, before, at);
        b.z_mm[risen] += seeded_between(&seed, 0, 1);
        map_headroom(&b.string, after, at);
        for (int n = 0; n < risen; n++)
            assert_true(after[n] <= before[n]);
        for (int n = risen + 1; n < WORKED_FRETS; n++)
            assert_true(after[n] == before[n]);
    }
}

/* Plays every note on crowns that nobody measured and writes down what is heard. */
static int listen(const struct bench *truth, double y0_mm, enum clearance_heard *heard)
{
    int buzzes = 0;
    for (int n = 0; n < WORKED_FRETS; n++) {
        double headroom_mm = 0;
        clearance_find_headroom(&truth->string, n, &headroom_mm, NULL);
        heard[n] = headroom_mm < y0_mm ? CLEARANCE_BUZZES : CLEARANCE_CLEAN;
        buzzes += heard[n] == CLEARANCE_BUZZES;
    }
    heard[WORKED_FRETS] = CLEARANCE_NOT_PLAYED;
    return buzzes;
}

/* The fret that does stand high always fits what is heard, so the best one fits it too;
 * and when it is named, its height lies between the bounds. */
static void test_high_fret_is_found(void **state)
{
    struct seeded seed = seeded_start("clearance, high fret");
    int named = 0;
    int heard_at_all = 0;
    (void)state;
    for (int round = 0; round < 2000; round++) {
        struct bench measured, truth;
        enum clearance_heard heard[WORKED_FRETS + 1];
        struct clearance_high_fret high;
        const int string = seeded_whole(&seed, 0, WORKED_STRINGS - 1);
        const int fret = seeded_whole(&seed, 2, WORKED_FRETS);
        const double height_mm = seeded_between(&seed, 0.05, 0.6);
        bench_worked(&measured, string);
        bench_worked(&truth, string);
        truth.z_mm[fret] += height_mm;
        if (!listen(&truth, 1.2, heard))
            continue;
        heard_at_all++;
        assert_int_equal(clearance_find_high_fret(&measured.string, 1.2, heard, &high), STATUS_OK);
        assert_int_equal(high.buzz_left + high.clean_against, 0);
        if (high.fret != fret)
            continue;
        named++;
        assert_true(high.least_mm <= height_mm);
        assert_true(!high.bounded || height_mm <= high.most_mm);
    }
    assert_true(heard_at_all > 500);
    assert_true(named > heard_at_all / 2);
}

static void test_high_fret_evidence(void **state)
{
    struct bench measured, truth;
    enum clearance_heard heard[WORKED_FRETS + 1];
    struct clearance_high_fret high;
    double margin_mm = 0;
    (void)state;
    bench_worked(&measured, 0);
    bench_worked(&truth, 0);
    truth.z_mm[9] += 0.25;
    assert_true(listen(&truth, 1.2, heard) > 0);
    assert_int_equal(clearance_find_high_fret(&measured.string, 1.2, heard, &high), STATUS_OK);
    assert_int_equal(high.fret, 9);
    assert_true(high.bounded && high.least_mm > 0);
    assert_int_equal(heard[high.least_note], CLEARANCE_BUZZES);
    assert_int_equal(heard[high.most_note], CLEARANCE_CLEAN);
    clearance_find_margin(&measured.string, high.least_note, 9, 1.2, &margin_mm);
    assert_near(high.least_mm, margin_mm, 1e-15);
    clearance_find_margin(&measured.string, high.most_note, 9, 1.2, &margin_mm);
    assert_near(high.most_mm, margin_mm, 1e-15);
}

static void test_high_fret_without_an_answer(void **state)
{
    struct bench b;
    enum clearance_heard heard[WORKED_FRETS + 1] = {CLEARANCE_CLEAN};
    struct clearance_high_fret high = {.fret = 77};
    (void)state;
    bench_worked(&b, 0);
    assert_int_equal(clearance_find_high_fret(&b.string, 1.2, heard, &high), STATUS_ABSENT);
    assert_int_equal(clearance_find_high_fret(&b.string, 1.2, NULL, &high), STATUS_ABSENT);
    heard[WORKED_FRETS] = CLEARANCE_BUZZES;
    assert_int_equal(clearance_find_high_fret(&b.string, 1.2, heard, &high), STATUS_NOT_FOUND);
    heard[3] = CLEARANCE_BUZZES;
    assert_int_equal(clearance_find_high_fret(&b.string, (double)NAN, heard, &high), STATUS_DOMAIN);
    assert_int_equal(clearance_find_high_fret(&b.string, 0, heard, &high), STATUS_DOMAIN);
    assert_int_equal(high.fret, 77);
    assert_int_equal(clearance_find_high_fret(&b.string, 1.2, heard, &high), STATUS_OK);
    assert_int_equal(high.buzz_left, 1);
}

/* The numbers of a string one by one, for spoiling. */
static double *number_of(struct bench *b, int k)
{
    switch (k) {
    case 0:
        return &b->string.saddle_x_mm;
    case 1:
        return &b->string.nut_height_mm;
    case 2:
        return &b->string.saddle_height_mm;
    case 3:
        return &b->string.open_tension_n;
    case 4:
        return &b->string.pluck_mm;
    case 5:
        return &b->x_mm[5];
    case 6:
        return &b->z_mm[5];
    case 7:
        return &b->tension_n[5];
    case 8:
        return &b->x_mm[0];
    default:
        return NULL;
    }
}

static void test_hostile_numbers(void **state)
{
    const double bad[] = {0,     -1,     (double)NAN, (double)INFINITY, -(double)INFINITY,
                          1e308, -1e308, 1e-308};
    (void)state;
    for (int k = 0; k < 9; k++) {
        for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
            struct bench b;
            bench_worked(&b, 2);
            *number_of(&b, k) = bad[i];
            for (int n = 0; n < WORKED_FRETS; n++) {
                double headroom_mm = -77;
                int at = -77;
                if (clearance_find_headroom(&b.string, n, &headroom_mm, &at) != STATUS_OK)
                    assert_true(headroom_mm == -77 && at == -77);
                else
                    assert_true(isfinite(bad[i]) && isfinite(headroom_mm) && at > n &&
                                at <= WORKED_FRETS);
            }
        }
    }
}

static void test_refusals(void **state)
{
    struct bench b;
    double value = -77;
    (void)state;
    bench_worked(&b, 0);
    assert_int_equal(clearance_find_clear(&b.string, 5, 5, &value), STATUS_DOMAIN);
    assert_int_equal(clearance_find_clear(&b.string, -1, 5, &value), STATUS_DOMAIN);
    assert_int_equal(clearance_find_clear(&b.string, 5, 20, &value), STATUS_DOMAIN);
    assert_int_equal(clearance_find_headroom(&b.string, 19, &value, NULL), STATUS_DOMAIN);
    assert_int_equal(clearance_find_margin(&b.string, 0, 1, -1, &value), STATUS_DOMAIN);
    assert_int_equal(clearance_find_envelope(&b.string, 0, 1, (double)NAN, &value), STATUS_DOMAIN);
    b.string.tension_n = NULL;
    assert_int_equal(clearance_find_clear(&b.string, 0, 1, &value), STATUS_ABSENT);
    bench_worked(&b, 0);
    b.string.last_fret = 0;
    assert_int_equal(clearance_find_clear(&b.string, 0, 1, &value), STATUS_DOMAIN);
    b.string.last_fret = CLEARANCE_FRETS_MAX + 1;
    assert_int_equal(clearance_find_clear(&b.string, 0, 1, &value), STATUS_DOMAIN);
    assert_true(value == -77);
}

/* The swing near the fret of a stiff string by its modes, to that of the ideal one: plucked at
 * 0.23 of its length from the saddle, looked at 0.12 of it from the fret, 100 periods, no loss. */
static double stiff_swing(double stiffness)
{
    enum { MODES = 120, STEPS = 500, PERIODS = 100 };
    const double pi = acos(-1), pluck = 0.23, at = 0.12;
    double least = 0;

    for (int k = 0; k < STEPS * PERIODS; k++) {
        double y = 0;

        for (int n = 1; n <= MODES; n++)
            y += 2 / (n * n * pi * pi * pluck * (1 - pluck)) * sin(n * pi * (1 - pluck)) *
                 sin(n * pi * at) *
                 cos(2 * pi * n * sqrt(1 + stiffness * n * n) * (double)k / STEPS);
        least = fmin(least, y);
    }
    return -least / (at / pluck);
}

/* What docs/method.md says of stiffness: more swing near the fret, never less. The modes of a stiff
 * string: H. Fletcher, J. Acoust. Soc. Am. 36 (1964) 203 (from memory). */
static void test_stiff_string(void **state)
{
    (void)state;
    assert_near(stiff_swing(0), 1, 0.01);
    for (double stiffness = 1.5e-5; stiffness < 1e-3; stiffness *= 4) {
        const double more = stiff_swing(stiffness);

        assert_true(more > 1.05 && more < 1.26);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_worked_example),
        cmocka_unit_test(test_sums_by_hand),
        cmocka_unit_test(test_pluck_never_past_the_middle),
        cmocka_unit_test(test_envelope_is_the_waves),
        cmocka_unit_test(test_headroom_is_where_the_margin_ends),
        cmocka_unit_test(test_a_risen_crown_never_helps),
        cmocka_unit_test(test_high_fret_is_found),
        cmocka_unit_test(test_high_fret_evidence),
        cmocka_unit_test(test_high_fret_without_an_answer),
        cmocka_unit_test(test_hostile_numbers),
        cmocka_unit_test(test_refusals),
        cmocka_unit_test(test_stiff_string),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
