/* SPDX-License-Identifier: MIT */
#include "model/derive/string_places.h"

#include <math.h>

#include "model/frets/layout.h"
#include "model/reading/record_access.h"

/* The strings as they are spread: each by itself, or the strings of a course side by side as one
 * that is as wide as they are together. */
struct spread {
    const struct outfit *outfit;
    enum layout_rule rule;
    double gauge_mm[STRINGS_MAX]; /* by string, from [0] on; and by course: */
    double wide_mm[STRINGS_MAX];
    double gap_mm;
};

/* String 1 first, as layout.h counts; false where one is not known. */
static bool find_gauges(const struct string_facts *facts, int strings, double gauge_mm[STRINGS_MAX])
{
    for (int s = 1; s <= strings; s++) {
        gauge_mm[s - 1] = facts[s].build.gauge_mm;
        if (!(gauge_mm[s - 1] > 0))
            return false;
    }
    return true;
}

static void measure_courses(struct spread *spread)
{
    const struct outfit *outfit = spread->outfit;

    for (int s = 1; s <= outfit->strings; s++)
        spread->wide_mm[outfit->course[s] - 1] +=
            spread->gauge_mm[s - 1] + (outfit_first(outfit, s) == s ? 0 : spread->gap_mm);
}

/* False where the rule, a gauge or the gap within a course is not known. */
static bool find_spread(const struct record *record, const struct string_facts *facts,
                        const struct outfit *outfit, struct spread *ret_spread)
{
    const int rule = record_choice_or(record, reading_key_one(FIELD_NUT_SPREAD), -1);
    const struct maybe gap = record_entered_one(record, FIELD_COURSE_GAP);

    *ret_spread = (struct spread){
        .outfit = outfit, .rule = (enum layout_rule)rule, .gap_mm = maybe_or(gap, 0)};
    if (rule < 0 || !find_gauges(facts, outfit->strings, ret_spread->gauge_mm) ||
        (outfit->courses < outfit->strings && !gap.given))
        return false;
    measure_courses(ret_spread);
    return true;
}

static double half_wide_mm(const struct spread *spread, int course)
{
    return spread->wide_mm[course - 1] / 2;
}

/* The centres of the strings, from those of the courses, which are measured from the bass side. */
static void place_strings(const struct spread *spread, const double *course_mm, double *ret_mm)
{
    const struct outfit *outfit = spread->outfit;

    for (int s = 1; s <= outfit->strings; s++) {
        const int course = outfit->course[s];
        const bool first = outfit_first(outfit, s) == s;

        if (outfit->courses == outfit->strings)
            ret_mm[s] = course_mm[s - 1];
        else if (first)
            ret_mm[s] =
                course_mm[course - 1] + half_wide_mm(spread, course) - spread->gauge_mm[s - 1] / 2;
        else
            ret_mm[s] = ret_mm[s - 1] - spread->gap_mm -
                        (spread->gauge_mm[s - 2] + spread->gauge_mm[s - 1]) / 2;
    }
}

/* On from its neighbours in their steps, as if its line went on to the nut; false without two of
 * them. */
static bool place_short(int course, int step, int courses, double *course_mm)
{
    const int near = course + step, far = near + step;

    if (far < 1 || far > courses || isnan(course_mm[near - 1]) || isnan(course_mm[far - 1]))
        return false;
    course_mm[course - 1] = 2 * course_mm[near - 1] - course_mm[far - 1];
    return true;
}

static bool place_shorts(int courses, double *course_mm)
{
    for (int c = 1; c <= courses; c++)
        if (isnan(course_mm[c - 1]))
            (void)place_short(c, -1, courses, course_mm);
    for (int c = courses; c >= 1; c--)
        if (isnan(course_mm[c - 1]) && !place_short(c, 1, courses, course_mm))
            return false;
    return true;
}

/* The courses in slots share the nut, as if there were no others. */
static bool spread_over_nut(const struct spread *spread, double width_mm, double bass_mm,
                            double treble_mm, double course_mm[STRINGS_MAX])
{
    const struct outfit *outfit = spread->outfit;
    double wide_mm[STRINGS_MAX], centre_mm[STRINGS_MAX];
    int course_of[STRINGS_MAX], count = 0;

    for (int s = 1; s <= outfit->strings; s++) {
        const int course = outfit->course[s] - 1;

        course_mm[course] = (double)NAN;
        if (outfit_first(outfit, s) != s || !outfit_has_slot(outfit, s))
            continue;
        course_of[count] = course;
        wide_mm[count++] = spread->wide_mm[course];
    }
    if (layout_spread_nut(width_mm, bass_mm, treble_mm, spread->rule, count, wide_mm, centre_mm) !=
        STATUS_OK)
        return false;
    for (int i = 0; i < count; i++)
        course_mm[course_of[i]] = centre_mm[i];
    return place_shorts(outfit->courses, course_mm);
}

bool string_places_nut(const struct record *record, const struct string_facts *facts,
                       const struct outfit *outfit, double ret_centre_mm[STRINGS_MAX + 1])
{
    const struct maybe nut = record_entered_one(record, FIELD_NUT_WIDTH);
    const struct maybe board = record_entered_one(record, FIELD_WIDTH_NUT);
    const struct maybe width = nut.given ? nut : board;
    const struct maybe bass = record_entered_one(record, FIELD_NUT_MARGIN_BASS);
    const struct maybe treble = record_entered_one(record, FIELD_NUT_MARGIN_TREBLE);
    double course_mm[STRINGS_MAX];
    struct spread spread;

    if (!find_spread(record, facts, outfit, &spread) || !width.given || !bass.given ||
        !treble.given ||
        !spread_over_nut(&spread, width.value, bass.value, treble.value, course_mm))
        return false;
    place_strings(&spread, course_mm, ret_centre_mm);
    return true;
}

/* The span is that of the outer strings; the courses' own centres lie within it. */
bool string_places_saddle(const struct record *record, const struct string_facts *facts,
                          const struct outfit *outfit, double ret_centre_mm[STRINGS_MAX + 1])
{
    const struct maybe span = record_entered_one(record, FIELD_SADDLE_SPREAD);
    double course_mm[STRINGS_MAX];
    struct spread spread;

    if (!find_spread(record, facts, outfit, &spread) || !span.given)
        return false;
    const double bass_mm =
        half_wide_mm(&spread, outfit->courses) - spread.gauge_mm[outfit->strings - 1] / 2;
    const double treble_mm = half_wide_mm(&spread, 1) - spread.gauge_mm[0] / 2;
    if (layout_spread_saddle(span.value - bass_mm - treble_mm, spread.rule, outfit->courses,
                             spread.wide_mm, course_mm) != STATUS_OK)
        return false;
    place_strings(&spread, course_mm, ret_centre_mm);
    for (int s = 1; s <= outfit->strings; s++)
        ret_centre_mm[s] += bass_mm;
    return true;
}
