/* SPDX-License-Identifier: MIT */
#include "words/move_words.h"

#include <math.h>
#include <string.h>

#include "base/num.h"
#include "model/reading/work_line.h"
#include "model/setup/survey_rod.h"
#include "words/move_words_inside.h"

/* Where the turns at once leave more than can be told, or go by other necks, the relief is read
 * before the rest; where nobody knows what a turn does, after each. An eighth that is more than
 * those give is no amount of theirs. */
static void add_rod_turns(struct maker *maker)
{
    const bool is_own = maker->move->others.necks == 0;
    bool is_all = false;
    const double now =
        maker->move->turns.given ? move_turns_at_once(maker->move, &is_all) : ROD_TURN_AT_ONCE;

    if (maker->move->turns.given && now > 0) {
        amount_add_turns(&maker->amount, now, false);
        strbuf_add(&maker->amount, !is_own  ? " turn as its kind, then read: "
                                   : is_all ? " turn: "
                                            : " turn, then read: ");
    } else {
        strbuf_add(&maker->amount, maker->move->turns.given ? "1/8 turn at most, then read: "
                                                            : "1/4 turn at a time, reading: ");
    }
}

/* What a rod cannot be relied on for comes before the rest. */
static void add_rod_caution(struct maker *maker)
{
    const struct move *move = maker->move;
    const bool up = move->amount.value > 0;
    struct strbuf *out = &maker->caution;

    strbuf_add(out, "eye protection, strings slack; ");
    if (move->far.known) {
        strbuf_add(out, "it needs ");
        num_format_fixed(move->far.turns, 1, false, out);
        strbuf_add(out, " turns in all, rods have about ");
        num_format(round(move->far.most * 10) / 10, out);
    } else if (move->per_turn.value > 0) {
        strbuf_add(out, "this one turns the other way");
    } else if (up && maker->setup->rod == ROD_ONE_WAY) {
        strbuf_add(out, "past slack only string pull and time help");
    } else if (up && maker->setup->relief_target_mm.value < move->amount.value) {
        strbuf_add(out, "it may go slack or bind: stop there");
    } else {
        strbuf_add(out, "stop when it binds");
    }
}

/* What the turns made at once do; nothing in numbers where nobody can tell. */
static void say_rod_then(struct maker *maker, enum unit unit)
{
    const struct move *rod = maker->move;
    const struct maybe share = move_rod_share(rod, setup_rod_turns(maker->setup), maybe_absent());
    struct maybe action[STRINGS_MAX + 1];

    if (!share.given) {
        strbuf_add(&maker->then, "read the relief again");
        maker->words->foretold = false;
        return;
    }
    for (int s = 1; s <= maker->setup->board.strings; s++)
        action[s] = move_part(maker->set->action[s].mm, rod->action_then[s], share);
    strbuf_add(&maker->then, share.value == 1 ? "relief " : "relief about ");
    amount_add(&maker->then, move_part(maker->set->relief.mm, rod->relief_then, share).value, unit,
               false);
    amount_add_unit(&maker->then, unit);
    move_words_add_then(maker, ", action ", action, maker->units->bare[MEASURE_RULE]);
}

void move_words_say_rod(struct maker *maker)
{
    const struct move_amount *change = &maker->move->amount;
    const enum unit unit = maker->units->bare[MEASURE_FEELER];

    strbuf_add(&maker->amount, move_tightens(maker->move) ? "tighten " : "slacken ");
    add_rod_turns(maker);
    strbuf_add(&maker->amount, "relief ");
    amount_add(&maker->amount, change->value, unit, true);
    move_words_add_u(&maker->amount, change->u, unit);
    say_rod_then(maker, unit);
    add_rod_caution(maker);
}

/* As it is read: what an open string leaves over fret 1 is not what one held down does. */
static void add_gap(struct maker *maker, const struct move *saddle)
{
    const char *what = "once the saddle is done gap ";
    const enum unit unit = maker->units->bare[MEASURE_FEELER];
    const bool open = maker->setup->nut_method == NUT_OPEN;

    if (!open && move_words_add_then(maker, what, saddle->held_then, unit))
        strbuf_add(&maker->then, " held");
    else if (move_words_add_then(maker, what, saddle->gap_then, unit) && !open)
        strbuf_add(&maker->then, " open");
}

void move_words_say_slots(struct maker *maker)
{
    const struct move *move = maker->move;
    const struct move *saddle = maker->set->move + MOVE_SADDLE;

    maker->words->foretold = move_words_say_nut(maker);
    if (!maker->words->foretold)
        return;
    if (maker->setup->outfit.lap) {
        move_words_add_height(maker, "height at the nut ", &maker->setup->height_nut_target_mm);
        return;
    }
    if (move_words_add_then(maker, "action ", move->action_then, maker->units->bare[MEASURE_RULE]))
        strbuf_add(&maker->then, "; ");
    add_gap(maker, saddle);
}

/* One string's saddle, or the post beside it, in turns to an eighth; one that needs less is right.
 */
static void add_turns(const struct maker *maker, int string, struct strbuf *out)
{
    const struct setup *setup = maker->setup;
    const struct move_amount *amount = maker->move->string;
    const int last = setup->board.strings, other = last + 1 - string;
    const bool outer = (string == 1 || string == last) && amount[other].known;
    const double change_mm =
        setup_at_post(setup, amount[string].value, amount[outer ? other : string].value);
    const double turns = change_mm / setup->thread_mm.value;

    if (round(turns * 8) == 0)
        strbuf_add(out, WORK_STRING_OK);
    else
        amount_add_turns(out, turns, true);
}

/* Of a string that gets no amount now: off beyond doubt, not beyond it, or right; and one of which
 * something has yet to be read. */
static const char *left_word(const struct maker *maker, const struct move_amount *amount)
{
    if (!amount->known)
        return maker->move->state == MOVE_DUE ? WORK_STRING_READ : "";
    if (!amount->off)
        return WORK_STRING_OK;
    return fabs(amount->value) <= amount->u ? WORK_STRING_NEAR
           : amount->value > 0              ? WORK_STRING_LOW
                                            : WORK_STRING_HIGH;
}

static void say_strings(struct maker *maker, enum move_kind kind)
{
    const struct setup *setup = maker->setup;
    const bool turned = kind == MOVE_SADDLE && move_words_in_turns(setup);

    maker->words->by_string = true;
    for (int s = 1; s <= setup->board.strings; s++) {
        const struct move_amount *amount = &maker->move->string[s];
        char *const words = maker->words->string[s];
        struct strbuf text = STRBUF(maker->words->string[s]);

        if (outfit_is_read(&setup->outfit, s) &&
            (maker->set->questioned[BELIEF_GAP][s] || maker->set->questioned[BELIEF_ACTION][s]))
            strbuf_add(&text, WORK_STRING_AGAIN);
        if (text.length > 0 || !outfit_is_read(&setup->outfit, s) ||
            (turned && !setup_has_own_height(setup, s)) ||
            (kind == MOVE_SLOTS && !outfit_has_slot(&setup->outfit, s)))
            continue;
        if (!amount->due)
            strbuf_add(&text, left_word(maker, amount));
        else if (turned)
            add_turns(maker, s, &text);
        else
            amount_add_work(&text, amount->value, move_words_change_unit(maker->units));
        maker->words->works[s] = amount->due && strcmp(words, WORK_STRING_OK) != 0;
    }
}

/* What to ask oneself before the work is begun at all. */
static void add_first(struct maker *maker, enum move_kind kind)
{
    const bool cuts = kind == MOVE_SLOTS || kind == MOVE_RESET ||
                      (kind == MOVE_SADDLE && !is_turned(maker->setup->bridge));

    if (maker->move->undone)
        strbuf_addf(&maker->caution, "marked done, but nothing moved: %s done? ",
                    kind == MOVE_SLOTS ? "were the slots" : "was the saddle");
    if (cuts && maker->set->air != 0)
        strbuf_addf(&maker->caution, "%s as it came in: let it settle before %s; ",
                    maker->set->air > 0 ? "damp" : "dry",
                    kind == MOVE_RESET ? "the neck comes off" : "cutting");
}

static void say_due(struct maker *maker, enum move_kind kind)
{
    static void (*const say[MOVE_COUNT_])(struct maker *) = {
#define MOVE(id, own_, ...) [MOVE_##id] = move_words_say_##own_,
#include "model/reading/move_table.h"
#undef MOVE
    };

    if (kind == MOVE_SLOTS || kind == MOVE_SADDLE)
        say_strings(maker, kind);
    maker->words->foretold = true;
    add_first(maker, kind);
    say[kind](maker);
}

void move_words_make(const struct derived *derived, enum move_kind kind,
                     const struct shop_units *units, struct move_words *ret_words)
{
    struct maker maker = {.figures = &derived->figures,
                          .setup = &derived->setup,
                          .units = units,
                          .set = &derived->moves,
                          .move = &derived->moves.move[kind],
                          .words = ret_words,
                          .amount = STRBUF(ret_words->amount),
                          .then = STRBUF(ret_words->then),
                          .caution = STRBUF(ret_words->caution)};

    *ret_words = (struct move_words){.outfit = derived->setup.outfit};
    switch (maker.move->state) {
    case MOVE_UNKNOWN:
        move_words_say_need(&maker, kind);
        return;
    case MOVE_GOOD:
        move_words_say_good(&maker, kind);
        return;
    case MOVE_WAITS:
        move_words_say_wait(&maker, kind);
        return;
    case MOVE_DUE:
        say_due(&maker, kind);
    }
}
