/* SPDX-License-Identifier: MIT */
#include "leaf/strings/pulls_view.h"

#include <math.h>

#include "words/amount.h"
#include "leaf/strings/strings_words.h"
#include "base/num.h"
#include "leaf/strings/leaf_strings.h"

/* One column: the text for a string (or the total), and its role. */
struct pulls_column {
    const char *name, *unit;
    int width; /* the blank before it included */
    enum role (*add)(const struct app *app, int string, struct strbuf *out);
};

static enum role now_role(const struct app *app)
{
    return app->previewing ? ROLE_PREVIEW : ROLE_VALUE;
}

/* Tenths for a string, whole units for the total. */
static void add_force(double value_n, enum unit unit, int string, struct strbuf *out)
{
    num_format_fixed(unit_from_pivot(unit, value_n), string == PULLS_TOTAL ? 0 : 1, false, out);
}

static struct maybe pull_now(const struct app *app, int string)
{
    const enum figure_id figure = string == PULLS_TOTAL ? FIGURE_TENSION_TOTAL : FIGURE_TENSION;

    return figures_get(&app_shown(app)->figures, figure, string);
}

static enum role add_pull(const struct app *app, int string, enum unit unit, struct strbuf *out)
{
    const struct maybe pull_n = pull_now(app, string);

    if (!pull_n.given) {
        strbuf_add_char(out, '-');
        return ROLE_DIM;
    }
    add_force(pull_n.value, unit, string, out);
    return now_role(app);
}

static enum role add_pull_n(const struct app *app, int string, struct strbuf *out)
{
    return add_pull(app, string, UNIT_N, out);
}

static enum role add_pull_lb(const struct app *app, int string, struct strbuf *out)
{
    return add_pull(app, string, UNIT_LB, out);
}

static enum role add_stress(double share, enum role role, struct strbuf *out)
{
    num_format_fixed(share * 100, 0, false, out);
    if (!(share > STRESS_SHARE_MAX))
        return role;
    strbuf_add_char(out, '!');
    return ROLE_CAUTION;
}

static enum role add_stress_now(const struct app *app, int string, struct strbuf *out)
{
    const struct maybe share = figures_get(&app_shown(app)->figures, FIGURE_STRESS_SHARE, string);

    if (string == PULLS_TOTAL)
        return ROLE_DIM;
    if (share.given)
        return add_stress(share.value, now_role(app), out);
    strbuf_add_char(out, '-');
    return ROLE_DIM;
}

static enum role add_mass(const struct app *app, int string, struct strbuf *out)
{
    const struct string_facts *facts = &app_shown(app)->string[string];

    if (string == PULLS_TOTAL)
        return ROLE_DIM;
    if (!facts->has_mass) {
        strbuf_add_char(out, '-');
        return ROLE_DIM;
    }
    num_format_fixed(facts->mass.kg_per_m * 1000, 2, false, out);
    strbuf_add_char(out, ' ');
    strbuf_add(out, strings_words_origin(facts->mass.origin));
    return facts->mass.origin == MASS_BUILD && !app->previewing ? ROLE_ASSUMED : now_role(app);
}

static const struct maybe *pull_then(const struct app *app, int string)
{
    const struct survey_what_if *answer = &strings_state(app)->what_if.answer;

    return string == PULLS_TOTAL ? &answer->total_after_n : &answer->string[string].after_n;
}

static enum role add_then(const struct app *app, int string, enum unit unit, struct strbuf *out)
{
    const struct maybe *pull = pull_then(app, string);

    if (!pull->given) {
        strbuf_add_char(out, '-');
        return ROLE_DIM;
    }
    add_force(pull->value, unit, string, out);
    return ROLE_PREVIEW;
}

static enum role add_then_n(const struct app *app, int string, struct strbuf *out)
{
    return add_then(app, string, UNIT_N, out);
}

static enum role add_then_lb(const struct app *app, int string, struct strbuf *out)
{
    return add_then(app, string, UNIT_LB, out);
}

static enum role add_change(const struct app *app, int string, struct strbuf *out)
{
    const struct maybe *pull = pull_then(app, string);
    const enum unit unit = app->metric ? UNIT_N : UNIT_LB;
    const struct maybe now = pull_now(app, string);

    if (!pull->given || !now.given) {
        strbuf_add_char(out, '-');
        return ROLE_DIM;
    }
    if (pull->value > now.value)
        strbuf_add_char(out, '+');
    num_format_fixed(unit_from_pivot(unit, pull->value - now.value), 1, false, out);
    return ROLE_PREVIEW;
}

static enum role add_then_note(const struct app *app, int string, struct strbuf *out)
{
    const struct maybe *semitone = &strings_state(app)->what_if.answer.string[string].semitone;

    if (string == PULLS_TOTAL)
        return ROLE_DIM;
    if (survey_what_if_add_note(&app->record, &strings_state(app)->what_if.answer, string, out))
        return ROLE_PREVIEW;
    strbuf_add_char(out, semitone->given ? '?' : '-');
    return ROLE_DIM;
}

/* The gauge that the string would have; of one that stays, the one that it has. */
static struct maybe gauge_then(const struct app *app, int string)
{
    const struct what_if_state *what_if = &strings_state(app)->what_if;

    if (what_if_changes_gauge(what_if, string))
        return maybe_given(what_if->answer.string[string].sold.nearest.gauge_mm);
    if (string <= what_if->set.strings)
        return maybe_given(what_if->set.string[string - 1].build.gauge_mm);
    return record_entered_string(&app->record, FIELD_GAUGE, string);
}

static enum role add_then_gauge(const struct app *app, int string, struct strbuf *out)
{
    const struct what_if_state *what_if = &strings_state(app)->what_if;
    const bool changes = what_if->set.strings > 0 || what_if_changes_gauge(what_if, string);
    const struct maybe gauge_mm = string == PULLS_TOTAL ? maybe_absent() : gauge_then(app, string);

    if (gauge_mm.given)
        amount_add(out, gauge_mm.value, field_bare_unit(field_get(FIELD_GAUGE), &app->units),
                   false);
    return changes ? ROLE_PREVIEW : ROLE_DIM;
}

static enum role add_then_stress(const struct app *app, int string, struct strbuf *out)
{
    const struct maybe *share = &strings_state(app)->what_if.answer.string[string].stress_share;

    if (string == PULLS_TOTAL)
        return ROLE_DIM;
    if (share->given)
        return add_stress(share->value, ROLE_PREVIEW, out);
    strbuf_add_char(out, '-');
    return ROLE_DIM;
}

static enum role add_then_share(const struct app *app, int string, struct strbuf *out)
{
    const struct maybe *share = &strings_state(app)->what_if.answer.string[string].share_of_total;

    if (string == PULLS_TOTAL)
        return ROLE_DIM;
    if (share->given)
        num_format_fixed(share->value * 100, 0, false, out);
    else
        strbuf_add_char(out, '-');
    return share->given ? ROLE_PREVIEW : ROLE_DIM;
}

static void add_column(struct pulls *pulls, const struct pulls_column *column)
{
    if (pulls->count == PULLS_MAX)
        return;
    pulls->columns[pulls->count++] = column;
    pulls->width += column->width;
}

void pulls_lay_now(struct pulls *pulls, const struct app *app)
{
    static const struct pulls_column newton = {"pull", "N", 6, add_pull_n};
    static const struct pulls_column pound = {"pull", "lb", 5, add_pull_lb};
    static const struct pulls_column stress = {"stress", "%", 7, add_stress_now};

    *pulls = (struct pulls){.app = app};
    add_column(pulls, &newton);
    if (!app->metric)
        add_column(pulls, &pound);
    add_column(pulls, &stress);
}

void pulls_add_mass(struct pulls *pulls)
{
    static const struct pulls_column mass = {"mass from", "g/m", PULLS_MASS_WIDTH, add_mass};

    add_column(pulls, &mass);
}

void pulls_lay_then(struct pulls *pulls, const struct app *app, bool roomy)
{
    static const struct pulls_column note = {"note", "", 5, add_then_note};
    static const struct pulls_column gauge_in = {"gauge", "in", 6, add_then_gauge};
    static const struct pulls_column gauge_mm = {"gauge", "mm", 6, add_then_gauge};
    static const struct pulls_column newton = {"pull", "N", 6, add_then_n};
    static const struct pulls_column pound = {"pull", "lb", 5, add_then_lb};
    static const struct pulls_column change_lb = {"change", "lb", 7, add_change};
    static const struct pulls_column change_n = {"change", "N", 8, add_change};
    static const struct pulls_column stress = {"stress", "%", 7, add_then_stress};
    static const struct pulls_column share = {"of all", "%", 7, add_then_share};

    *pulls = (struct pulls){.app = app};
    add_column(pulls, &note);
    if (strings_state(app)->what_if.set.strings > 0 ||
        what_if_has_pulls(&strings_state(app)->what_if))
        add_column(pulls, app->metric ? &gauge_mm : &gauge_in);
    add_column(pulls, &newton);
    if (!app->metric)
        add_column(pulls, &pound);
    add_column(pulls, app->metric ? &change_n : &change_lb);
    add_column(pulls, &stress);
    if (roomy)
        add_column(pulls, &share);
}

void pulls_draw_heading(const struct pen *pen, const struct pulls *pulls, int row)
{
    int column = pulls->column;

    for (int i = 0; i < pulls->count; i++) {
        const int width = pulls->columns[i]->width - 1;

        pen_put_right(pen, row, column + 1, width, ROLE_LABEL, pulls->columns[i]->name);
        pen_put_right(pen, row + 1, column + 1, width, ROLE_DIM, pulls->columns[i]->unit);
        column += width + 1;
    }
}

void pulls_draw(const struct pen *pen, const struct pulls *pulls, int row, int string)
{
    int column = pulls->column;

    for (int i = 0; i < pulls->count; i++) {
        const int width = pulls->columns[i]->width - 1;
        char memory[48];
        struct strbuf text = STRBUF(memory);
        const enum role role = pulls->columns[i]->add(pulls->app, string, &text);

        pen_put_right(pen, row, column + 1, width, role, memory);
        column += width + 1;
    }
}

static double most_n(const struct app *app)
{
    double most = 0;

    for (int s = 1; s <= app_shown(app)->setup.board.strings; s++) {
        most = fmax(most, maybe_or(pull_now(app, s), 0));
        if (strings_state(app)->what_if.known && pull_then(app, s)->given)
            most = fmax(most, pull_then(app, s)->value);
    }
    return most;
}

void pulls_draw_bars(const struct pen *pen, const struct app *app, int row)
{
    enum { LEFT = 9 };
    const int strings = app_shown(app)->setup.board.strings;
    const double most = most_n(app), length = pen->frame->columns - LEFT - 2;

    for (int s = strings; s >= 1 && most > 0; s--, row++) {
        char memory[16];
        struct strbuf number = STRBUF(memory);
        const double pull_n = maybe_or(pull_now(app, s), 0);

        strbuf_addf(&number, "%d pull", s);
        pen_put_right(pen, row, 0, LEFT - 1, ROLE_LABEL, memory);
        for (int i = 0; i < (int)lround(pull_n / most * length); i++)
            frame_put_rune(pen->frame, row, LEFT + i, ROLE_NOW, pen->utf8 ? 0x2501 : '=');
        if (strings_state(app)->what_if.known && pull_then(app, s)->given)
            frame_put_rune(pen->frame, row,
                           LEFT + (int)lround(pull_then(app, s)->value / most * length), ROLE_AFTER,
                           pen->utf8 ? 0x2503 : '|');
    }
}
