/* SPDX-License-Identifier: MIT */
#include "published.h"

#include <math.h>
#include <string.h>

enum { ORIGINS = 3 };
static const char *const origins[ORIGINS] = {"read", "memory", "practice"};

/* How many checks there are, and how far off the farthest of them is. */
struct tally {
    int checks, origin[ORIGINS], exceptions;
    double most, most_share; /* exceptions left out; the share of the published number, % */
};

static bool is_exception(const struct published_case *c)
{
    return c->exception[0] != '\0';
}

static double wanted(const struct published_item *expect)
{
    double value;

    return published_parse(expect->text, &value) ? value : (double)NAN;
}

/* The larger of two, NaN if either is. */
static double larger(double a, double b)
{
    return isnan(a) || a > b ? a : b;
}

static void count_check(struct tally *tally, const struct published_case *c,
                        const struct published_item *expect)
{
    double off = fabs(expect->found - wanted(expect));

    tally->checks++;
    for (int i = 0; i < ORIGINS; i++)
        tally->origin[i] += strcmp(c->origin, origins[i]) == 0;
    if (is_exception(c)) {
        tally->exceptions++;
        return;
    }
    tally->most = larger(tally->most, off);
    tally->most_share = larger(tally->most_share, 100 * off / fabs(wanted(expect)));
}

/* Counts the checks of a group and a quantity; NULL counts all groups or all quantities. */
static struct tally count_checks(const struct published_case *cases, size_t count,
                                 const char *group, const struct published_item *quantity)
{
    struct tally tally = {0};

    for (size_t i = 0; i < count; i++) {
        if (group != NULL && strcmp(cases[i].group, group) != 0)
            continue;
        for (size_t k = 0; k < cases[i].expect_count; k++) {
            const struct published_item *expect = &cases[i].expect[k];

            if (quantity == NULL || (strcmp(quantity->name, expect->name) == 0 &&
                                     strcmp(quantity->unit, expect->unit) == 0))
                count_check(&tally, &cases[i], expect);
        }
    }
    return tally;
}

static const struct published_case *first_of_group(const struct published_case *cases,
                                                   const char *group)
{
    while (strcmp(cases->group, group) != 0)
        cases++;
    return cases;
}

static void print_check(FILE *out, const struct published_case *c,
                        const struct published_item *expect)
{
    char difference[40];

    snprintf(difference, sizeof difference, "%+.2g", expect->found - wanted(expect));
    fprintf(out, "  %s | %s | %s | %s | %s %s | %.6g %s | %s | %s\n", c->source, c->place, c->title,
            expect->name, expect->text, expect->unit, expect->found, expect->unit, difference,
            c->origin);
    if (is_exception(c))
        fprintf(out, "    exception: %s\n", c->exception);
}

static void print_tally(FILE *out, const struct tally *tally)
{
    fprintf(out, "%d checks: %d read, %d from memory, %d of practice; %d of them exceptions\n",
            tally->checks, tally->origin[0], tally->origin[1], tally->origin[2], tally->exceptions);
}

static void print_group(FILE *out, const struct published_case *cases, size_t count,
                        const char *group)
{
    struct tally tally = count_checks(cases, count, group, NULL);

    fprintf(out, "\n%s\n", group);
    fputs("  source | place | case | what | published | sillet | difference | origin\n", out);
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; strcmp(cases[i].group, group) == 0 && k < cases[i].expect_count; k++)
            print_check(out, &cases[i], &cases[i].expect[k]);
    }
    fputs("  ", out);
    print_tally(out, &tally);
}

void published_print(FILE *out, const struct published_case *cases, size_t count)
{
    struct tally tally = count_checks(cases, count, NULL, NULL);

    for (size_t i = 0; i < count; i++) {
        if (first_of_group(cases, cases[i].group) == &cases[i])
            print_group(out, cases, count, cases[i].group);
    }
    fputs("\nall\n  ", out);
    print_tally(out, &tally);
}

static void print_quantity(FILE *out, const struct tally *tally, const char *group,
                           const struct published_item *quantity)
{
    fprintf(out, "| %s | %s | %d | %d | %d | %d | %d |", group, quantity->name, tally->checks,
            tally->origin[0], tally->origin[1], tally->origin[2], tally->exceptions);
    if (tally->checks == tally->exceptions)
        fputs(" |\n", out);
    else if (tally->most_share >= 1e-6)
        fprintf(out, " %.2g%s%s (%.2g %%) |\n", tally->most, quantity->unit[0] != '\0' ? " " : "",
                quantity->unit, tally->most_share);
    else
        fputs(" none |\n", out);
}

/* Whether a quantity of a case is met here for the first time in its group. */
static bool is_first(const struct published_case *cases, const struct published_case *c,
                     const struct published_item *quantity)
{
    for (const struct published_case *other = cases; other <= c; other++) {
        for (size_t k = 0; strcmp(other->group, c->group) == 0 && k < other->expect_count; k++) {
            if (&other->expect[k] == quantity)
                return true;
            if (strcmp(other->expect[k].name, quantity->name) == 0 &&
                strcmp(other->expect[k].unit, quantity->unit) == 0)
                return false;
        }
    }
    return true;
}

static void print_group_summary(FILE *out, const struct published_case *cases, size_t count,
                                const char *group)
{
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; strcmp(cases[i].group, group) == 0 && k < cases[i].expect_count; k++) {
            const struct published_item *quantity = &cases[i].expect[k];
            struct tally tally = count_checks(cases, count, group, quantity);

            if (is_first(cases, &cases[i], quantity))
                print_quantity(out, &tally, group, quantity);
        }
    }
}

static void print_exceptions(FILE *out, const struct published_case *cases, size_t count)
{
    fputs("\n| known exception | published | sillet | why |\n|---|---|---|---|\n", out);
    for (size_t i = 0; i < count; i++) {
        const struct published_item *expect = &cases[i].expect[0];

        if (is_exception(&cases[i]))
            fprintf(out, "| %s: %s | %s %s | %.4g | %s |\n", cases[i].group, cases[i].title,
                    expect->text, expect->unit, expect->found, cases[i].exception);
    }
}

void published_print_summary(FILE *out, const struct published_case *cases, size_t count)
{
    struct tally tally = count_checks(cases, count, NULL, NULL);

    print_tally(out, &tally);
    fputs("\n| group | what | checks | read | memory | practice | exceptions | farthest off |\n"
          "|---|---|---|---|---|---|---|---|\n",
          out);
    for (size_t i = 0; i < count; i++) {
        if (first_of_group(cases, cases[i].group) == &cases[i])
            print_group_summary(out, cases, count, cases[i].group);
    }
    print_exceptions(out, cases, count);
}
