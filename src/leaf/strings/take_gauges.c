/* SPDX-License-Identifier: MIT */
#include "leaf/strings/take_gauges.h"

#include <stddef.h>

#include "leaf/strings/leaf_strings.h"
#include "leaf/strings/strings_put.h"

int take_gauges_count(const struct app *app)
{
    int count = 0;

    for (int s = 1; s <= STRINGS_MAX; s++)
        count += what_if_changes_gauge(&strings_state(app)->what_if, s);
    return count;
}

static bool has_more_than_build(const struct app *app, int string)
{
    const struct reading_key mass = reading_key_string(FIELD_MASS, string);

    return record_get(&app->record, &mass) || strings_have_own(app, string);
}

void take_gauges_add_words(const struct app *app, struct strbuf *out)
{
    const char *before = "; mass, weight and label of";

    strbuf_add(out, "Other gauges for ");
    strbuf_add_count(out, (size_t)take_gauges_count(app), "string", "strings");
    for (int s = STRINGS_MAX; s >= 1; s--) {
        if (!what_if_changes_gauge(&strings_state(app)->what_if, s) || !has_more_than_build(app, s))
            continue;
        strbuf_addf(out, "%s %d", before, s);
        before = "";
    }
    strbuf_add(out, before[0] ? "." : " go.");
}

enum status take_gauges_put(struct turn *turn, int string)
{
    const struct what_if_state *what_if = &strings_state(turn->app)->what_if;
    const struct string_build *build = what_if->set.strings > 0
                                           ? &what_if->set.string[string - 1].build
                                           : &turn->app->now.string[string].build;

    if (!what_if_changes_gauge(what_if, string))
        return STATUS_OK;
    const struct string_build other =
        gauge_sold_build(build, what_if->answer.string[string].sold.nearest.gauge_mm);
    enum status status = strings_put_diameter(turn, FIELD_GAUGE, string, other.gauge_mm);

    if (status == STATUS_OK && other.core_mm > 0)
        status = strings_put_diameter(turn, FIELD_CORE, string, other.core_mm);
    if (status == STATUS_OK)
        status = strings_put(turn, FIELD_MASS, string, NULL);
    return status == STATUS_OK ? strings_drop_own(turn, string) : status;
}
