/* SPDX-License-Identifier: MIT */
#include "commands/shop_settings.h"

#include <errno.h>
#include <stdlib.h>

#include "store/shop_targets.h"

static void add_first(const struct problems *problems, struct strbuf *out)
{
    if (problems->count == 0)
        return;
    strbuf_addf(out, "shop.ini:%d: ", problems->items[0].line);
    strbuf_add(out, problems->items[0].words);
    if (problems->count > 1)
        strbuf_addf(out, " (and %zu more: sillet check)", problems->count - 1);
}

static void add_failure(enum status status, int error, struct strbuf *out)
{
    strbuf_add(out, "shop.ini cannot be read: ");
    report_words(status, error, out);
    strbuf_add(out, "; inch gauges hold");
}

struct shop_units shop_settings_read(struct strbuf *words)
{
    struct shop_units units = shop_units_inch();
    struct problems problems;
    char *path = NULL;

    if (shop_path(&path) != STATUS_OK)
        return units;
    problems_init(&problems);
    errno = 0;
    const enum status status = shop_read(path, &problems, &units);
    const int error = errno;
    problems_sort(&problems);
    if (words && status != STATUS_OK)
        add_failure(status, error, words);
    else if (words)
        add_first(&problems, words);
    problems_done(&problems);
    free(path);
    return units;
}

bool shop_settings_say_units(void)
{
    bool says = true;
    char *path = NULL;

    if (shop_path(&path) == STATUS_OK)
        (void)shop_says_units(path, &says);
    free(path);
    return says;
}

enum status shop_settings_put_units(bool metric)
{
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();
    char *path = NULL;
    enum status status = shop_path(&path);

    if (status == STATUS_OK)
        status = shop_write(path, &units);
    free(path);
    return status;
}

enum status shop_settings_take_targets(struct record *record, struct strbuf *words)
{
    int count = 0;
    char *path = NULL;

    if (shop_path(&path) != STATUS_OK)
        return STATUS_OK;
    const enum status status = shop_targets_take(path, record, &count);
    free(path);
    if (count > 0)
        strbuf_addf(words, "%d of its targets, tolerances and steps are the shop's own (Intake).",
                    count);
    return status == STATUS_NO_MEMORY ? status : STATUS_OK;
}

struct shop_letterhead shop_settings_letterhead(void)
{
    struct shop_letterhead letterhead = {.paper = SHOP_PAPER_UNSAID};
    char *path = NULL;

    if (shop_path(&path) == STATUS_OK)
        (void)shop_read_letterhead(path, &letterhead);
    free(path);
    return letterhead;
}

struct prices shop_settings_prices(void)
{
    struct prices prices = {.currency = ""};
    char *path = NULL;

    if (shop_path(&path) == STATUS_OK)
        (void)shop_prices_read(path, &prices);
    free(path);
    return prices;
}

enum shop_paper shop_settings_paper(const struct shop_letterhead *letterhead,
                                    const struct shop_units *units)
{
    if (letterhead->paper != SHOP_PAPER_UNSAID)
        return letterhead->paper;
    return units->bare[MEASURE_RULE] == UNIT_MM ? SHOP_PAPER_A4 : SHOP_PAPER_LETTER;
}

enum exit_code shop_settings_check(void)
{
    struct shop_units units;
    struct problems problems;
    enum exit_code code = EXIT_GOOD;
    char *path = NULL;

    if (shop_path(&path) != STATUS_OK)
        return code;
    problems_init(&problems);
    errno = 0;
    const enum status status = shop_read(path, &problems, &units);
    const int error = errno;
    problems_sort(&problems);
    report_problems(path, &problems, PROBLEM_NOTE, stderr);
    if (problems.errors > 0)
        code = EXIT_FINDINGS;
    if (status != STATUS_OK) {
        report_failure(path, status, error, stderr);
        code = EXIT_CANNOT;
    }
    problems_done(&problems);
    free(path);
    return code;
}
