/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_question.h"

#include <math.h>

#include "model/derive/season.h"

static struct maybe fact(const struct shelf_item *item, enum fact_number id)
{
    return item->facts->number[id];
}

/* Those without the number come last. */
static double ordered(struct maybe number)
{
    return maybe_or(number, (double)INFINITY);
}

static bool is_in_house(const struct shelf_ground *ground, const struct shelf_item *item)
{
    return shelf_facts_in_house(item->facts, ground->today);
}

static double order_promised(const struct shelf_item *item)
{
    return ordered(fact(item, FACT_PROMISED_DAY));
}

/* Where nobody knows when, the air decides: once it has gone farther than a season indoors. */
static bool is_due(const struct shelf_ground *ground, const struct shelf_item *item)
{
    const struct maybe check = fact(item, FACT_NEXT_CHECK_DAY);
    const struct maybe then = fact(item, FACT_MOISTURE);

    if (is_in_house(ground, item))
        return false;
    if (check.given)
        return check.value <= ground->today + QUESTION_AHEAD_DAYS;
    return then.given && ground->moisture_now.given &&
           fabs(ground->moisture_now.value - then.value) > SEASON_EMC_PCT;
}

static double order_check(const struct shelf_item *item)
{
    return ordered(fact(item, FACT_NEXT_CHECK_DAY));
}

static bool has_low_saddle(const struct shelf_ground *ground, const struct shelf_item *item)
{
    (void)ground;
    return maybe_or(fact(item, FACT_SADDLE_LOW), 0) != 0;
}

static double order_saddle(const struct shelf_item *item)
{
    return ordered(fact(item, FACT_SADDLE_OVER_LEAST));
}

static bool has_spent_rod(const struct shelf_ground *ground, const struct shelf_item *item)
{
    (void)ground;
    return maybe_or(fact(item, FACT_ROD_SPENT), 0) != 0;
}

static bool was_left(const struct shelf_ground *ground, const struct shelf_item *item)
{
    (void)ground;
    return fact(item, FACT_LEFT_DAY).given || shelf_facts_text(item->facts, FACT_GAUGES)[0];
}

static double order_rod(const struct shelf_item *item)
{
    return -fact(item, FACT_ROD_STANDS).value;
}

static const struct shelf_question_row rows[SHELF_QUESTIONS_] = {
#define QUESTION(id, title_, none_, answers_, order_, ...)                                         \
    [SHELF_##id] = {.title = title_,                                                               \
                    .none = none_,                                                                 \
                    .shown = {__VA_ARGS__},                                                        \
                    .shown_count = sizeof((const int[][2]){__VA_ARGS__}) / sizeof(int[2]),         \
                    .answers = answers_,                                                           \
                    .order = order_},
#include "shelf/shelf_question_table.h"
#undef QUESTION
};

const struct shelf_question_row *shelf_question_get(enum shelf_question question)
{
    return &rows[question];
}
