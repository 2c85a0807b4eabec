/* SPDX-License-Identifier: MIT */
#include "leaf/strings/pull_question.h"

#include "base/num.h"
#include "leaf/strings/leaf_strings.h"
#include "leaf/strings/strings_words.h"
#include "session/refresh.h"

static struct maybe total_now(const struct app *app)
{
    return figures_get(&app->now.figures, FIGURE_TENSION_TOTAL, 0);
}

static double pull_now(const struct app *app, int string)
{
    return maybe_or(figures_get(&app->now.figures, FIGURE_TENSION, string), 0);
}

/* Whether the pull asked for is that of all strings together. */
static bool is_total(enum pull_of of)
{
    return of == PULL_OF_EVEN || of == PULL_OF_SHARES;
}

/* The force that stands for an empty entry. */
static struct maybe find_kept(const struct app *app)
{
    const struct maybe total_n = total_now(app);

    switch (strings_state(app)->pull_of) {
    case PULL_OF_EACH:
        return total_n.given ? maybe_given(total_n.value / app->now.setup.board.strings) : total_n;
    case PULL_OF_EVEN:
    case PULL_OF_SHARES:
        return total_n;
    case PULL_OF_STRING:
    case PULL_OF_COUNT_:
        break;
    }
    return maybe_absent();
}

static void want(struct app *app, double pull_n)
{
    struct strings_state *state = strings_state(app);
    const int strings = app->now.setup.board.strings;
    const double total_n = maybe_or(total_now(app), 1);

    for (int s = 1; s <= strings; s++) {
        struct maybe *wanted_n = &state->what_if.pull_n[s];

        switch (state->pull_of) {
        case PULL_OF_STRING:
            *wanted_n = s == app_string(app) ? maybe_given(pull_n) : *wanted_n;
            break;
        case PULL_OF_EACH:
            *wanted_n = maybe_given(pull_n);
            break;
        case PULL_OF_EVEN:
            *wanted_n = maybe_given(pull_n / strings);
            break;
        case PULL_OF_SHARES:
            *wanted_n = maybe_given(pull_n * pull_now(app, s) / total_n);
            break;
        case PULL_OF_COUNT_:
            break;
        }
    }
}

/* --- how the entry is read --- */

/* Reads the force; what is wrong with it goes into the view. */
static bool read_pull(struct app *app, double *ret_n)
{
    enum { LEAST_N = 1, MOST_N = 5000 };
    struct strbuf words = STRBUF(app->entry_view.words);
    char memory[ENTRY_TEXT_MAX];
    struct strbuf text = STRBUF(memory);
    struct num_fault fault;

    entry_add_pointed(app->entry.text, &text);
    if (num_parse(memory, QUANTITY_FORCE, strings_words_force(app), ret_n, &fault) != STATUS_OK)
        strbuf_add(&words, fault.what);
    else if (!(*ret_n >= LEAST_N && *ret_n <= MOST_N))
        strbuf_add(&words, "no string or set pulls that");
    else if (strings_state(app)->pull_of == PULL_OF_SHARES && !total_now(app).given)
        strbuf_add(&words, "what each string pulls now is not known yet");
    else
        return true;
    return false;
}

/* "162 lb together, now 155". */
static void add_together(const struct app *app, struct strbuf *out)
{
    const struct survey_what_if *answer = &strings_state(app)->what_if.answer;

    if (!answer->total_after_n.given) {
        strbuf_add(out, "not all pulls are known");
        return;
    }
    strings_words_add_force(app, answer->total_after_n.value, 0, out);
    strbuf_add(out, " together");
    if (!answer->total_before_n.given)
        return;
    strbuf_add(out, ", now ");
    strings_words_add_force(app, answer->total_before_n.value, 0, out);
}

void pull_question_look(struct app *app)
{
    struct strings_state *state = strings_state(app);
    const bool is_empty = lineedit_is_empty(&app->entry);
    struct maybe pull_n = find_kept(app);

    state->what_if = state->before;
    app->entry_view = (struct entry_view){.empty = is_empty};
    if (!is_empty)
        pull_n.given = app->entry_view.good = read_pull(app, &pull_n.value);
    if (!pull_n.given)
        return;
    want(app, pull_n.value);
    what_if_derive(&state->what_if, &app->record, app_shown(app));
    if (is_empty)
        return;
    app->entry_view.value = pull_n.value;
    struct strbuf words = STRBUF(app->entry_view.words);
    if (state->pull_of == PULL_OF_STRING)
        strings_words_sold(app, app_string(app), &words);
    else
        add_together(app, &words);
}

bool pull_question_step(struct turn *turn, uint32_t key)
{
    struct strings_state *state = strings_state(turn->app);
    const int by = key == '-' ? PULL_OF_COUNT_ - 1 : 1;

    if (key != ' ' && key != '+' && key != '-')
        return false;
    /* A blank may stand before a unit. */
    if (key == ' ' && !lineedit_is_empty(&turn->app->entry))
        return false;
    const bool total = is_total(state->pull_of);
    state->pull_of = (enum pull_of)(((int)state->pull_of + by) % PULL_OF_COUNT_);
    /* What was typed for one string is no pull of all of them together. */
    if (is_total(state->pull_of) != total)
        (void)lineedit_set(&turn->app->entry, "");
    app_refresh_entry(turn->app);
    return true;
}

/* --- the entry line --- */

void pull_question_add_prompt(const struct app *app, struct strbuf *out)
{
    static const char *const of[PULL_OF_COUNT_] = {
        [PULL_OF_EACH] = "each string at",
        [PULL_OF_EVEN] = "all together, evenly",
        [PULL_OF_SHARES] = "all together, shared as now",
    };
    const enum pull_of pull_of = strings_state(app)->pull_of;

    strbuf_add(out, "what if: ");
    if (pull_of == PULL_OF_STRING)
        strbuf_addf(out, "string %d at", app_string(app));
    else
        strbuf_add(out, of[pull_of]);
    strbuf_add(out, " >");
}

void pull_question_add_hint(const struct app *app, struct strbuf *out)
{
    const struct maybe kept_n = find_kept(app);

    if (kept_n.given) {
        strings_words_add_force(app, kept_n.value, 1, out);
        strbuf_add(out, " as now; + and - step");
    } else {
        strbuf_addf(out, "its pull, in %s; + and -: each, all",
                    strings_words_force(app) == UNIT_N ? "N or kgf" : "lb, N or kgf");
    }
}
