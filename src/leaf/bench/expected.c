/* SPDX-License-Identifier: MIT */
#include "leaf/bench/expected.h"

struct maybe bench_expect(struct bench_expecting *expecting, const struct app *app,
                          const struct route_cell *cell)
{
    const struct bench_row *row = bench_row_in(&app->now.setup.outfit, cell->row);
    struct forecast *forecast = &expecting->forecast;

    if (!app->has_before)
        return maybe_absent();
    if (!expecting->begun)
        forecast_begin(forecast, &app->record, &app->before, app->visit, app->pass);
    expecting->begun = true;
    return forecast_find(forecast, row, cell->key.field, cell->string, app_nut_method(app)).mm;
}

struct maybe bench_expected(const struct app *app, const struct route_cell *cell)
{
    struct bench_expecting once;

    once.begun = false;
    return bench_expect(&once, app, cell);
}

bool bench_add_expected_after(const struct app *app, struct strbuf *out)
{
    struct forecast forecast;
    int count = 0;

    forecast_begin(&forecast, &app->record, &app->before, app->visit, app->pass);
    if (forecast_is_beyond(&forecast))
        return false;
    strbuf_add(out, "after ");
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (forecast.move[kind]) {
            strbuf_add(out, count++ ? ", " : "");
            strbuf_add(out, outfit_move_name(&app->before.setup.outfit, (enum move_kind)kind));
        }
    strbuf_add(out, forecast.unread   ? "; amount not understood"
                    : forecast.marked ? ", as marked on Work"
                                      : ", if done (Work marks it)");
    return true;
}
