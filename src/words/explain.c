/* SPDX-License-Identifier: MIT */
#include "words/explain.h"

#include <stddef.h>

#include "base/num.h"
#include "words/amount.h"
#include "words/explain_value.h"
#include "words/fret_words.h"
#include "words/move_words.h"

enum symbol_place {
    PLACE_FIELD,
    PLACE_STRING_FIELD,
    PLACE_VISIT_FIELD,
    PLACE_PASS_FIELD,
    PLACE_PASS_STRING_FIELD,
    PLACE_FIGURE,
    PLACE_FIGURE_BASS,
    PLACE_FIGURE_TREBLE,
    PLACE_SETUP,
    PLACE_CENTS, /* the cents read on the string */
};

struct symbol {
    enum figure_id figure;
    const char *text;
    enum symbol_place place;
    int item;
};

static const struct symbol symbols[] = {
#define SYMBOL(figure_, text_, place_, item_)                                                      \
    {.figure = FIGURE_##figure_, .text = text_, .place = PLACE_##place_, .item = (int)item_},
#include "words/explain_table.h"
#undef SYMBOL
};

enum { SYMBOL_COUNT = sizeof symbols / sizeof symbols[0] };

struct question {
    const struct explain_from *from;
    enum figure_id id;
    int string;
    struct explanation *out;
};

struct strbuf explain_add_line(struct explanation *explanation, enum explain_part part)
{
    /* A table too long for the array would overwrite the last line; it is far shorter. */
    const int at =
        explanation->count < EXPLAIN_LINES_MAX ? explanation->count++ : EXPLAIN_LINES_MAX - 1;
    struct explain_line *line = &explanation->lines[at];

    line->part = part;
    return strbuf_over(line->text, sizeof line->text);
}

static struct strbuf add_line(struct question *question, enum explain_part part)
{
    return explain_add_line(question->out, part);
}

static void add_cents(const struct question *question, struct strbuf *out)
{
    const struct explain_from *from = question->from;
    const struct cents_read read =
        derive_read_cents(from->place, &from->derived->setup.board, question->string);

    strbuf_add(out, read.count > 0 ? "" : "not read");
    for (int i = 0; i < read.count; i++) {
        strbuf_add(out, i > 0 ? ", " : "");
        num_format(read.at[i].cents, out);
        strbuf_addf(out, " at %s %d", outfit_fret_noun(&from->derived->setup.outfit),
                    read.at[i].fret);
    }
}

static void add_symbol(const struct question *question, const struct symbol *symbol,
                       struct strbuf *out)
{
    const struct explain_from *from = question->from;
    const enum field_id field = (enum field_id)symbol->item;
    const enum figure_id figure = (enum figure_id)symbol->item;
    const struct outfit *outfit = &from->derived->setup.outfit;

    switch (symbol->place) {
    case PLACE_FIELD:
        explain_add_field(from, reading_key_one(field), out);
        return;
    case PLACE_STRING_FIELD:
        explain_add_field(from, reading_key_string(field, question->string), out);
        return;
    case PLACE_VISIT_FIELD:
        explain_add_field(from, reading_key_visit(field, from->place.visit), out);
        return;
    case PLACE_PASS_FIELD:
        explain_add_field(from, place_key(from->place, field), out);
        return;
    case PLACE_PASS_STRING_FIELD:
        explain_add_field(from, place_key_at(from->place, field, question->string, 0), out);
        return;
    case PLACE_FIGURE:
        explain_add_figure(from, figure, question->string, out);
        return;
    case PLACE_FIGURE_BASS:
        explain_add_figure(from, figure, outfit->read_as[outfit->strings], out);
        return;
    case PLACE_FIGURE_TREBLE:
        explain_add_figure(from, figure, 1, out);
        return;
    case PLACE_SETUP:
        explain_add_item(from, (enum setup_item)symbol->item, question->string, out);
        return;
    case PLACE_CENTS:
        add_cents(question, out);
        return;
    }
}

/* Whose answer the turns of the rod go by, where it is not its own. */
static void add_others(struct question *question)
{
    const struct move *rod = &question->from->derived->moves.move[MOVE_ROD];
    const enum unit unit =
        question->from->units ? question->from->units->bare[MEASURE_FEELER] : UNIT_MM;

    if (question->id != move_figure(MOVE_ROD) || rod->others.necks == 0)
        return;
    struct strbuf line = add_line(question, EXPLAIN_NOTE);
    strbuf_add(&line,
               "No turn of this rod is known yet; its turns go by other necks of its kind on "
               "this shelf: a whole turn takes out ");
    amount_add(&line, -rod->others.per_turn_mm, unit, false);
    amount_add_doubt(&line, rod->others.per_turn_u_mm, unit);
    amount_add_unit(&line, unit);
    strbuf_addf(&line, " (%d necks, the median). At most half a turn at first, by quarters.",
                rod->others.necks);
}

/* What is not done string by string, or not now: a nut that is raised, a neck that the season
 * moved. False for any other figure. */
static bool add_whole(const struct explain_from *from, enum figure_id id, struct strbuf *out)
{
    const struct shop_units metric = shop_units_metric();
    struct move_words words;

    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        const struct move *move = &from->derived->moves.move[kind];

        if (id != move_figure((enum move_kind)kind) || kind == MOVE_FRETS ||
            !(move_waits_for_season(move) || move_is_left(move) || move->raise.given))
            continue;
        move_words_make(from->derived, (enum move_kind)kind, from->units ? from->units : &metric,
                        &words);
        strbuf_add(out, words.amount);
        return true;
    }
    return false;
}

/* From a pull to a gauge, the other way round. */
static void add_gauge(struct question *question)
{
    if (question->id != FIGURE_TENSION && question->id != FIGURE_TENSION_TOTAL)
        return;
    struct strbuf line = add_line(question, EXPLAIN_NOTE);
    strbuf_add(
        &line,
        "G asks for a pull and finds the gauge sold, made like this string, that pulls nearest "
        "to it here at its note: of a string, of each, or of all. All can keep what they pull "
        "now under another tuning: n, then G + + + Enter. A wound string's core is taken to "
        "grow as the square root of its gauge: common practice.");
}

static void explain_as_derived(const struct explain_from *from, enum figure_id id, int string,
                               struct explanation *ret_explanation)
{
    const struct figure_info *info = figure_info(id);
    struct question question = {.from = from, .id = id, .string = string, .out = ret_explanation};

    ret_explanation->count = 0;
    struct strbuf line = add_line(&question, EXPLAIN_HAND);
    if (!add_whole(from, id, &line))
        explain_add_hand(from, id, string, &line);
    line = add_line(&question, EXPLAIN_VALUE);
    if (info->per == PER_STRING) {
        explain_add_string(from, id, string, &line);
        strbuf_add(&line, ", ");
    }
    fret_words_add(&from->derived->setup.outfit, info->label, &line);
    strbuf_add(&line, ": ");
    explain_add_figure(from, id, string, &line);
    line = add_line(&question, EXPLAIN_FORMULA);
    fret_words_add(&from->derived->setup.outfit, info->formula, &line);
    for (size_t i = 0; i < SYMBOL_COUNT; i++) {
        if (symbols[i].figure != id)
            continue;
        line = add_line(&question, EXPLAIN_SYMBOL);
        fret_words_add(&from->derived->setup.outfit, symbols[i].text, &line);
        strbuf_add(&line, ": ");
        add_symbol(&question, &symbols[i], &line);
    }
    line = add_line(&question, EXPLAIN_SOURCE);
    fret_words_add(&from->derived->setup.outfit, info->source, &line);
    add_others(&question);
    if (explain_is_predicted(id) && info->per == PER_STRING &&
        from->derived->figures.at[id][string].u > 0) {
        line = add_line(&question, EXPLAIN_NOTE);
        explain_add_parts(from, id, string, &line);
    }
    add_gauge(&question);
}

/* Whether a predicted figure is among what is said, and so its ±. */
static bool names_prediction(enum figure_id id)
{
    bool names = explain_is_predicted(id);

    for (size_t i = 0; i < SYMBOL_COUNT; i++)
        names = names || (symbols[i].figure == id && symbols[i].place == PLACE_FIGURE &&
                          explain_is_predicted((enum figure_id)symbols[i].item));
    return names;
}

void explain_figure(const struct explain_from *from, enum figure_id id, int string,
                    struct explanation *ret_explanation)
{
    struct explain_from with_u = *from;
    struct derived derived;

    if (!from->derived->has_predicted_u && names_prediction(id)) {
        derived = *from->derived;
        derive_predicted_u(from->place, &derived);
        with_u.derived = &derived;
    }
    explain_as_derived(&with_u, id, string, ret_explanation);
}

int explain_symbol_count(enum figure_id id)
{
    int count = 0;

    for (size_t i = 0; i < SYMBOL_COUNT; i++)
        count += symbols[i].figure == id;
    return count;
}

enum figure_id explain_next(const struct derived *derived, enum figure_id id, int string, int by)
{
    int at = (int)id;

    do {
        at = (at + by + FIGURE_COUNT_) % FIGURE_COUNT_;
        const int row = figure_info((enum figure_id)at)->per == PER_STRING ? string : 0;

        if (derived->figures.at[at][row].known != KNOWN_ABSENT)
            break;
    } while (at != (int)id);
    return (enum figure_id)at;
}
