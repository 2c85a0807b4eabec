/* SPDX-License-Identifier: MIT */
#include "leaf/jobs/work_list.h"

#include <stddef.h>
#include <string.h>

enum move_kind work_move_in_hand(const struct app *app)
{
    const struct route_cell *cell = app->leaf == LEAF_WORK ? app_cell(app) : NULL;

    return cell && cell->row < MOVE_COUNT_ ? (enum move_kind)cell->row : MOVE_COUNT_;
}

bool work_turns_key(struct place place, struct reading_key *ret_key)
{
    const int read = record_last_read_pass(&place.record, place.visit);

    if (place.pass > read)
        place.pass = read;
    if (place.pass < 1 || place.pass >= PASSES_MAX || work_mark_line(place, MOVE_ROD) == 0)
        return false;
    *ret_key = reading_key_pass(FIELD_ROD_TURN, place.visit, place.pass + 1);
    return true;
}

void work_list_make(const struct app *app, struct work_list *ret_list)
{
    const bool empty = app->has_before && app_pass_is_empty(app);
    const struct derived *derived = empty ? &app->before : app_shown(app);

    *ret_list = (struct work_list){.derived = derived,
                                   .moves = derived->moves.move,
                                   .pass = empty ? app->pass - 1 : app->pass};
}

/* Appends a text of the program; with `plain`, its plus-minus in ASCII. */
static void add_words(struct strbuf *out, const char *text, bool plain)
{
    for (; *text; text++)
        if (plain && text[0] == '\xC2' && text[1] == '\xB1') {
            strbuf_add(out, "+-");
            text++;
        } else {
            strbuf_add_char(out, *text);
        }
}

/* A string and its amount, which no end of a line parts: "8:-1 1/2". */
static void add_together(struct strbuf *out, const char *between, int string, const char *amount)
{
    const size_t whole = strcspn(amount, " ");

    strbuf_addf(out, "%s %d:", between, string);
    strbuf_add_bytes(out, amount, whole);
    if (amount[whole])
        strbuf_addf(out, "\xC2\xA0%s", amount + whole + 1);
}

/* The noun stands where it changes: "; course 6 -.2, 5 -.1, string 2 -.3". */
static void add_plainly(struct strbuf *out, const struct move_words *words, int string,
                        const char **noun)
{
    const char *its = outfit_noun(&words->outfit, string);

    strbuf_add(out, *noun ? "," : ";");
    if (!*noun || strcmp(*noun, its) != 0)
        strbuf_addf(out, " %s", its);
    strbuf_addf(out, " %d %s", outfit_number(&words->outfit, string), words->string[string]);
    *noun = its;
}

void work_add_amount(const struct move_words *words, bool plain, struct strbuf *out)
{
    const char *noun = NULL;
    int added = 0;

    if (plain && words->done[0]) {
        strbuf_add(out, words->done);
        return;
    }
    add_words(out, words->amount, plain);
    for (int s = STRINGS_MAX; s >= 1 && words->by_string; s--) {
        if (!words->works[s])
            continue;
        if (plain)
            add_plainly(out, words, s, &noun);
        else
            add_together(out,
                         added                                 ? ""
                         : outfit_is_course(&words->outfit, s) ? "  course"
                                                               : " ",
                         outfit_number(&words->outfit, s), words->string[s]);
        added++;
    }
}

void work_add_proof(const struct app *app, const struct work_list *list, enum move_kind kind,
                    struct strbuf *out)
{
    struct move_words words;

    move_words_make(list->derived, kind, &app->units, &words);
    if (!words.foretold || !words.then[0])
        return;
    strbuf_add(out, "expect ");
    add_words(out, words.then, true);
}

bool work_is_past(const struct app *app)
{
    struct work_list list;

    work_list_make(app, &list);
    return list.pass < record_last_read_pass(&app->record, app->visit);
}

static bool waits_for_reset(const struct move *move)
{
    return move->state == MOVE_WAITS && move->waits == WAIT_RESET;
}

static bool waits_otherwise(const struct move *move)
{
    return move->state == MOVE_WAITS && move->waits != WAIT_RESET && !move_is_left(move);
}

static bool waits_for_rocker(const struct move *move)
{
    return move->state == MOVE_UNKNOWN && move->needs == NEED_ROCKER;
}

/* Appends `words` and the moves for which is_such is true, "rod, saddle"; false, nothing appended,
 * for none. */
static bool add_names(const struct work_list *list, bool (*is_such)(const struct move *),
                      const char *words, struct strbuf *out)
{
    int count = 0;

    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        if (!is_such(&list->moves[kind]))
            continue;
        strbuf_add(out, count++ ? ", " : words);
        strbuf_add(out, outfit_move_name(&list->derived->setup.outfit, (enum move_kind)kind));
    }
    return count > 0;
}

void work_add_left(const struct work_list *list, struct strbuf *out)
{
    const struct move_set *moves = &list->derived->moves;
    const bool rocks = move_set_count(moves, waits_for_rocker) > 0;
    const bool missed = move_set_count(moves, move_is_missed) >
                        move_set_count(moves, move_waits_for_ear) + (rocks ? 1 : 0);
    const bool waits =
        move_set_count(moves, waits_for_reset) + move_set_count(moves, waits_otherwise) > 0;

    if (add_names(list, move_is_open, "left to do before it goes back: ", out))
        strbuf_add(out, missed || rocks ? "; more once measured" : "");
    else if (move_set_count(moves, move_is_rod_looked_at) > 0)
        strbuf_add(out, "see to the rod first, then read the relief again");
    else if (missed)
        strbuf_add(out, "measure everything on Bench to see what is left");
    else if (rocks)
        strbuf_add(out, "rock what Frets names to see what is left: F5 or * 0 5");
    else if (move_set_count(moves, move_is_done) > 0)
        strbuf_add(out, waits ? "what is due is marked done: measure again"
                              : "all marked done: measure again before it goes back");
    else if (moves->restrung)
        strbuf_add(out, "restrung: tune it up and measure again before it goes back");
    else if (moves->retuned)
        strbuf_add(out, "retuned: measure again at pitch before it goes back");
    else if (move_set_is_questioned(moves))
        strbuf_add(out, "a reading does not fit the others: read it again");
    else if (move_set_settles(moves))
        strbuf_add(out, "the season moved the neck: let it settle, then measure again");
    else if (!add_names(list, move_waits_for_ear,
                        "hear and tune again before it goes back: ", out)) {
        strbuf_add(out, move_set_count(moves, move_is_left) > 0
                            ? "all but the relief is on target and done"
                            : "all moves are on target and done");
        move_words_add_ready(out, list->derived);
    }
    add_names(list, waits_for_reset, "; after it: ", out);
    add_names(list, waits_otherwise, "; waits: ", out);
}
