/* SPDX-License-Identifier: MIT */
#include "leaf/strings/strings_words.h"

#include "words/amount.h"
#include "base/num.h"
#include "leaf/strings/leaf_strings.h"
#include "model/strings/gauge_sold.h"

const char *strings_words_origin(enum mass_origin origin)
{
    static const char *const words[] = {
        [MASS_WEIGHED] = "weighed",
        [MASS_LABEL] = "label",
        [MASS_ENTERED] = "entered",
        [MASS_BUILD] = "build",
    };
    return words[origin];
}

static bool is_wound(enum string_build_kind kind)
{
    return kind == BUILD_ROUND_WOUND || kind == BUILD_NYLON_WOUND;
}

/* What a string still needs for its pull to be known; nothing if it is known. */
static void add_need(const struct derived *derived, int string, struct strbuf *out)
{
    const struct string_facts *facts = &derived->string[string];
    const struct string_build *build = &facts->build;

    if (!facts->hz.given) {
        strbuf_add(out, "its note");
    } else if (facts->has_mass) {
        return;
    } else if (!facts->has_build || !(build->gauge_mm > 0)) {
        strbuf_add(out, "its gauge and build, or its mass");
    } else if (build->kind == BUILD_FLAT_WOUND) {
        strbuf_add(out, "a weighed length or its label's tension");
    } else if (is_wound(build->kind) && !(build->core_mm > 0)) {
        strbuf_add(out, "its core, or its mass");
    } else if (is_wound(build->kind) && build->wrap_material == MATERIAL_NONE) {
        strbuf_add(out, "its wrap, or its mass");
    } else {
        strbuf_add(out, "its mass: gauge and core do not match");
    }
}

static void add_mass(const struct unit_mass *mass, struct strbuf *out)
{
    static const char *const origins[] = {
        [MASS_WEIGHED] = "weighed",
        [MASS_LABEL] = "from its label",
        [MASS_ENTERED] = "entered",
        [MASS_BUILD] = "from its build",
    };

    num_format_fixed(mass->kg_per_m * 1000, 2, false, out);
    strbuf_add(out, " g/m ");
    strbuf_add(out, origins[mass->origin]);
    if (!(mass->stretch > 1))
        return;
    strbuf_add(out, mass->origin == MASS_WEIGHED ? " slack at " : "; slack it is ");
    num_format_fixed(mass->kg_per_m * mass->stretch * 1000, 2, false, out);
    strbuf_add(out, ", stretched ");
    num_format_fixed((mass->stretch - 1) * 100, 0, false, out);
    strbuf_add(out, " %");
}

enum unit strings_words_force(const struct app *app)
{
    return app->metric ? UNIT_N : UNIT_LB;
}

void strings_words_add_force(const struct app *app, double pull_n, int decimals, struct strbuf *out)
{
    const enum unit unit = strings_words_force(app);

    num_format_fixed(unit_from_pivot(unit, pull_n), decimals, false, out);
    strbuf_addf(out, " %s", unit_label(unit));
}

/* The mean pull of the other strings; absent where one is not known or there is none. */
static struct maybe others_mean(const struct derived *derived, int string)
{
    const int strings = derived->setup.board.strings;
    double sum_n = 0;

    for (int s = 1; s <= strings; s++) {
        if (s != string && !derived->string[s].tension_n.given)
            return maybe_absent();
        sum_n += s != string ? derived->string[s].tension_n.value : 0;
    }
    return strings > 1 ? maybe_given(sum_n / (strings - 1)) : maybe_absent();
}

/* The gauge sold with which the string would pull like the others. */
static void add_even_gauge(const struct app *app, int string, struct strbuf *out)
{
    const struct derived *derived = app_shown(app);
    const struct string_facts *facts = &derived->string[string];
    const struct maybe mean_n = others_mean(derived, string);
    const enum unit gauge = app->metric ? UNIT_MM : UNIT_IN;
    struct gauge_sold sold;

    if (!mean_n.given || !facts->has_build || !facts->hz.given ||
        gauge_sold_for_pull(&facts->build, derived->setup.board.contact_mm[string], facts->hz.value,
                            mean_n.value, &sold) != STATUS_OK)
        return;
    strbuf_add(out, "; to pull like the others, ");
    strings_words_add_force(app, mean_n.value, app->metric ? 0 : 1, out);
    strbuf_add(out, ": ");
    amount_add(out, sold.nearest.gauge_mm, gauge, false);
    amount_add_unit(out, gauge);
}

/* "; .044 15.9", `between` before it; nothing for none. */
static void add_sold(const struct app *app, const char *between, const struct gauge_pull *sold,
                     struct strbuf *out)
{
    if (sold->gauge_mm == 0)
        return;
    strbuf_add(out, between);
    amount_add(out, sold->gauge_mm, app->metric ? UNIT_MM : UNIT_IN, false);
    strbuf_add_char(out, ' ');
    num_format_fixed(unit_from_pivot(strings_words_force(app), sold->pull_n), 1, false, out);
}

void strings_words_sold(const struct app *app, int string, struct strbuf *out)
{
    const struct what_if_answer *answer = &strings_state(app)->what_if.answer.string[string];
    const struct gauge_pull *nearest = &answer->sold.nearest;

    if (answer->sold_status != STATUS_OK) {
        strbuf_add(out, answer->sold_status == STATUS_RANGE
                            ? "no gauge sold comes near that; it stays as it is"
                            : "no list of gauges sold for it; it stays as it is");
        return;
    }
    if (!answer->other_gauge)
        strbuf_add(out, "as it is, ");
    amount_add(out, nearest->gauge_mm, app->metric ? UNIT_MM : UNIT_IN, false);
    amount_add_unit(out, app->metric ? UNIT_MM : UNIT_IN);
    strbuf_add_char(out, ' ');
    strings_words_add_force(app, answer->other_gauge ? nearest->pull_n : answer->after_n.value, 1,
                            out);
    add_sold(app, "; ", &answer->sold.lighter, out);
    add_sold(app, answer->sold.lighter.gauge_mm > 0 ? ", " : "; ", &answer->sold.heavier, out);
}

void strings_words_string(const struct app *app, struct strbuf *out)
{
    const struct derived *derived = app_shown(app);
    const int string = app_string(app);
    const struct what_if_state *what_if = &strings_state(app)->what_if;

    if (derived->setup.board.strings < string)
        return;
    const struct string_facts *facts = &derived->string[string];
    if (what_if->known && what_if->pull_n[string].given) {
        strbuf_addf(out, "string %d, for ", string);
        strings_words_add_force(app, what_if->pull_n[string].value, 1, out);
        strbuf_add(out, ": ");
        strings_words_sold(app, string, out);
        return;
    }
    strbuf_addf(out, "string %d: ", string);
    if (facts->has_mass)
        add_mass(&facts->mass, out);
    if (!facts->hz.given || !facts->has_mass) {
        strbuf_add(out, facts->has_mass ? ", needs " : "needs ");
        add_need(derived, string, out);
    }
    if (what_if->known && what_if->answer.string[string].share_of_total.given) {
        strbuf_add(out, "; then ");
        num_format_fixed(what_if->answer.string[string].share_of_total.value * 100, 0, false, out);
        strbuf_add(out, " % of the total");
    } else if (!what_if->known) {
        add_even_gauge(app, string, out);
    }
}

/* The first string, from the bass, whose pull is not known; 0 for none. */
static int lacking_string(const struct derived *derived)
{
    for (int s = derived->setup.board.strings; s >= 1; s--)
        if (!derived->string[s].tension_n.given)
            return s;
    return 0;
}

/* "the pull bends the neck .006, then .004 in". */
static void add_pair(const struct app *app, const char *what, double now_mm,
                     const struct maybe *then_mm, struct strbuf *out)
{
    /* Never in hundredths of a mm or thousandths: those are for gauges, not for sentences. */
    const enum unit unit = app->metric ? UNIT_MM : UNIT_IN;

    strbuf_add(out, what);
    amount_add(out, now_mm, unit, false);
    if (strings_state(app)->what_if.known && then_mm->given) {
        strbuf_add(out, ", then ");
        amount_add(out, then_mm->value, unit, false);
    }
    amount_add_unit(out, unit);
}

/* "relief .009, then .012 +-.003 in, action 7 +-0.3 /64 on string 6". False, `out` untouched, if
 * nothing is asked or no relief was read. */
static bool add_expected(const struct app *app, struct strbuf *out)
{
    const struct survey_pull *pull = &strings_state(app)->what_if.answer.pull;
    const struct maybe relief_mm = figures_get(&app_shown(app)->figures, FIGURE_RELIEF, 0);
    const enum unit unit = app->metric ? UNIT_MM : UNIT_IN;
    const int bass = app_shown(app)->setup.board.strings;

    if (!strings_state(app)->what_if.known || !pull->relief_mm.given || !pull->relief_u_mm.given)
        return false;
    strbuf_add(out, "relief ");
    amount_add(out, relief_mm.value, unit, false);
    strbuf_add(out, ", then ");
    amount_add(out, pull->relief_mm.value, unit, false);
    amount_add_doubt(out, pull->relief_u_mm.value, unit);
    amount_add_unit(out, unit);
    if (pull->action_u_mm[bass].given) {
        const enum unit rule = app->units.bare[MEASURE_RULE];

        strbuf_add(out, ", action ");
        amount_add(out, pull->action_mm[bass].value, rule, false);
        amount_add_doubt(out, pull->action_u_mm[bass].value, rule);
        amount_add_unit(out, rule);
        strbuf_addf(out, " on string %d", bass);
    }
    strbuf_add(out, pull->seen > 0 ? ", as it did before" : pull->by_kind ? ", by its kind" : "");
    return true;
}

void strings_words_neck(const struct app *app, struct strbuf *out)
{
    const struct derived *derived = app_shown(app);
    const struct survey_what_if *answer = &strings_state(app)->what_if.answer;
    const int lacking = lacking_string(derived);
    const struct maybe bend_mm = figures_get(&derived->figures, FIGURE_RELIEF_PREDICTED, 0);
    const struct maybe relief_mm = figures_get(&derived->figures, FIGURE_RELIEF, 0);

    if (!derived->setup.has_board) {
        strbuf_add(out, "next: scale, strings and frets (Intake)");
        return;
    }
    if (lacking > 0) {
        strbuf_addf(out, "no total yet: string %d needs ", lacking);
        add_need(derived, lacking, out);
        return;
    }
    if (add_expected(app, out))
        return;
    if (!bend_mm.given) {
        strbuf_add(out, "how far the pull bends the neck: the Neck leaf says what is needed");
        return;
    }
    add_pair(app, "the pull bends the neck ", bend_mm.value, &answer->relief_predicted_after_mm,
             out);
    if (relief_mm.given) {
        strbuf_add(out, "; relief read ");
        amount_add(out, relief_mm.value, app->metric ? UNIT_MM : UNIT_IN, false);
        amount_add_unit(out, app->metric ? UNIT_MM : UNIT_IN);
    }
}

const char *strings_words_caution(const struct app *app)
{
    const struct derived *derived = app_shown(app);
    const struct findings *lists[] = {&strings_state(app)->what_if.findings, &derived->findings};
    const int first = strings_state(app)->what_if.known ? 0 : 1;

    for (int l = first; l < 2; l++)
        for (int i = 0; i < lists[l]->count; i++) {
            if (lists[l]->list[i].id == FINDING_STRING_NEAR_BREAK)
                return "a string marked ! is near its strength and may break: eye protection";
            if (lists[l]->list[i].id == FINDING_TOTAL_UNUSUAL)
                return "far more pull than this kind is strung with: check gauges, notes, scale";
            if (lists[l]->list[i].id == FINDING_TOTAL_FAR_ABOVE)
                return "over 15 % more pull than now: go up in steps, watch relief and bridge";
        }
    return what_if_is_on(&strings_state(app)->what_if)
               ? "strings under tension: slacken before changing them, eyes protected"
               : "";
}
