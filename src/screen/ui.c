/* SPDX-License-Identifier: MIT */
#include "screen/ui.h"

#include <string.h>

#include "base/num.h"
#include "base/utf8.h"
#include "screen/menu_view.h"
#include "screen/overlay_view.h"
#include "screen/prompt_view.h"
#include "screen/strip_view.h"

static const char *text_or(const struct app *app, struct reading_key key, const char *otherwise)
{
    const char *text = record_text(&app->record, &key);

    return text ? text : otherwise;
}

/* "visit 2 - pass 1 of 3 - as found"; if `dated`, the visit's date too. */
static void add_place(const struct app *app, bool dated, struct strbuf *out)
{
    const char *date = text_or(app, reading_key_visit(FIELD_VISIT_DATE, app->visit), "today");
    const char *label = text_or(app, reading_key_pass(FIELD_PASS_LABEL, app->visit, app->pass), "");

    strbuf_addf(out, "visit %d", app->visit);
    if (dated) {
        strbuf_add(out, ", ");
        strbuf_add(out, date);
    }
    strbuf_addf(out, " \xC2\xB7 pass %d", app->pass);
    if (app_last_pass(app) != app->pass)
        strbuf_addf(out, " of %d", app_last_pass(app));
    if (label[0]) {
        strbuf_add(out, " \xC2\xB7 ");
        strbuf_add(out, label);
    }
}

static void add_climate(const struct app *app, struct strbuf *out)
{
    const char *humidity = text_or(app, reading_key_visit(FIELD_HUMIDITY, app->visit), "");
    const struct maybe celsius =
        record_entered(&app->record, reading_key_visit(FIELD_TEMPERATURE, app->visit));
    const struct maybe emc = figures_get(&app->now.figures, FIGURE_EMC, 0);
    const enum unit unit = app->units.bare[MEASURE_TEMPERATURE];

    if (humidity[0]) {
        strbuf_add(out, humidity);
        strbuf_add(out, humidity[strlen(humidity) - 1] == '%' ? "" : " %");
    }
    if (celsius.given) {
        strbuf_add(out, humidity[0] ? " " : "");
        num_format_fixed(unit_from_pivot(unit, celsius.value), 0, false, out);
        strbuf_addf(out, " %s", unit_label(unit));
    }
    if (emc.given) {
        strbuf_add(out, " EMC ");
        num_format_fixed(emc.value, 1, false, out);
        strbuf_add(out, " %");
    }
}

static void draw_title(const struct pen *pen, const struct app *app)
{
    const int columns = pen->frame->columns;
    char place_memory[160], climate_memory[64];
    struct strbuf place = STRBUF(place_memory), climate = STRBUF(climate_memory);
    int climate_width, place_width;

    add_place(app, columns >= 100, &place);
    add_climate(app, &climate);
    frame_set_role(pen->frame, 0, 0, columns, ROLE_TITLE);
    climate_width = utf8_columns(climate_memory);
    place_width = utf8_columns(place_memory);
    pen_put_right(pen, 0, 0, columns - 1, ROLE_TITLE, climate_memory);
    /* The name gets the rest of the row; if that is too little, the place is shortened. */
    int at = columns - 2 - climate_width - 2 - place_width;
    if (at < 18)
        at = 18;
    pen_put(pen, 0, at, columns - 3 - climate_width - at, ROLE_TITLE, place_memory);
    pen_put(pen, 0, 1, at - 2, ROLE_TITLE,
            text_or(app, reading_key_one(FIELD_NAME), "unnamed instrument"));
}

static void draw_strip(const struct pen *pen, const struct app *app)
{
    char memory[48];
    struct strbuf kept = STRBUF(memory);

    const int used = strip_view_names(pen, 1, app->from_shelf, (int)app->leaf);

    switch (app->keeping) {
    case KEEPING_AS_FILED:
        strbuf_add(&kept, "as filed");
        break;
    case KEEPING_KEPT:
        strbuf_add(&kept, "kept ");
        strbuf_add(&kept, app->kept_at);
        break;
    case KEEPING_FAILED:
        strbuf_add(&kept, app->from_shelf ? "NOT KEPT " : "NOT KEPT since ");
        strbuf_add(&kept, app->kept_at);
        break;
    case KEEPING_READ_ONLY:
        strbuf_add(&kept, "reading only");
        break;
    }
    /* With all the names in the strip, 80 columns leave room only for whether it is saved. */
    const char *units = app->metric ? "  metric" : "  inch";
    if (used + utf8_columns(memory) + (int)strlen(units) < pen->frame->columns)
        strbuf_add(&kept, units);
    pen_put_right(pen, 1, 0, pen->frame->columns - 1,
                  app->keeping == KEEPING_FAILED ? ROLE_CAUTION : ROLE_DIM, memory);
}

void ui_compose(const struct app *app, bool utf8, struct frame *frame)
{
    const struct pen pen = {.frame = frame, .utf8 = utf8};
    const int rows = frame->rows;

    frame_clear(frame);
    if (strip_view_too_small(&pen))
        return;
    draw_title(&pen, app);
    draw_strip(&pen, app);
    if (app->overlay == OVERLAY_MENU) {
        menu_view_draw(&pen, &app->menu, leaf_name(app->leaf), 2, rows - 3);
        menu_view_draw_keys(&pen, &app->menu, rows - 1);
        return;
    }
    if (app->overlay != OVERLAY_NONE) {
        overlay_view_draw(&pen, app, 3, rows - 5);
        pen_put(&pen, rows - 1, 1, frame->columns - 2, ROLE_DIM, "any other key closes this");
        return;
    }
    const char *caution = app_row(app)->draw(&pen, app, 2, rows - 5);
    prompt_view_draw(&pen, app, caution);
}
