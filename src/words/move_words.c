/* SPDX-License-Identifier: MIT */
#include "words/move_words.h"

#include <math.h>
#include <string.h>

#include "base/num.h"
#include "model/setup/survey_rod.h"
#include "words/move_words_inside.h"

static void add_range(struct strbuf *out, double bass_mm, double treble_mm, enum unit unit)
{
    amount_add_range(out, bass_mm, treble_mm, unit);
    amount_add_unit(out, unit);
}

/* What the outer strings read then, "action 7.3 to 5.1 /64". False where one is not known. */
static bool add_then(struct maker *maker, const char *what, const struct maybe *then,
                     enum unit unit)
{
    const struct maybe *bass = &then[maker->setup->board.strings], *treble = &then[1];

    if (!bass->given || !treble->given)
        return false;
    strbuf_add(&maker->then, what);
    add_range(&maker->then, bass->value, treble->value, unit);
    return true;
}

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
    add_then(maker, ", action ", action, maker->units->bare[MEASURE_RULE]);
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

    if (!open && add_then(maker, what, saddle->held_then, unit))
        strbuf_add(&maker->then, " held");
    else if (add_then(maker, what, saddle->gap_then, unit) && !open)
        strbuf_add(&maker->then, " open");
}

/* Under a bar: the height that is wanted at that end. */
static void add_height(struct maker *maker, const char *what, const struct maybe *target)
{
    const enum unit rule = maker->units->bare[MEASURE_RULE];

    strbuf_add(&maker->then, what);
    amount_add(&maker->then, target->value, rule, false);
    amount_add_unit(&maker->then, rule);
}

void move_words_say_slots(struct maker *maker)
{
    const struct move *move = maker->move;
    const struct move *saddle = maker->set->move + MOVE_SADDLE;

    maker->words->foretold = move_words_say_nut(maker);
    if (!maker->words->foretold)
        return;
    if (maker->setup->outfit.lap) {
        add_height(maker, "height at the nut ", &maker->setup->height_nut_target_mm);
        return;
    }
    if (add_then(maker, "action ", move->action_then, maker->units->bare[MEASURE_RULE]))
        strbuf_add(&maker->then, "; ");
    add_gap(maker, saddle);
}

static void add_exposure(struct maker *maker)
{
    const struct setup *setup = maker->setup;
    const struct move_amount *amount = maker->move->string;

    if (!setup->exposure_bass_mm.given || !setup->exposure_treble_mm.given)
        return;
    const double bass = setup->exposure_bass_mm.value + amount[setup->board.strings].value;
    const double treble = setup->exposure_treble_mm.value + amount[1].value;
    strbuf_add(&maker->then, ", exposure ");
    /* Rounded to what a rule reads; more decimals would promise too much. */
    const enum unit unit = maker->units->bare[MEASURE_DEPTH];
    add_range(&maker->then, amount_on_rule(bass, unit), amount_on_rule(treble, unit), unit);
}

static void add_bottom(struct maker *maker, const struct straight_cut *bottom, enum unit unit)
{
    const double bass = amount_of_work(bottom->bass_mm, unit);
    const double treble = amount_of_work(bottom->treble_mm, unit);

    if (bass > 0 || treble > 0) {
        strbuf_add(&maker->then, bass >= 0 && treble >= 0 ? ", raise the bottom by " : ", bottom ");
        add_range(&maker->then, bass, treble, unit);
        return;
    }
    strbuf_add(&maker->then, ", off the bottom, bass ");
    amount_add(&maker->then, -bass, unit, false);
    strbuf_add(&maker->then, " to treble ");
    amount_add(&maker->then, -treble, unit, false);
    amount_add_unit(&maker->then, unit);
}

/* A blank is cut, or shimmed, at the bottom in one straight line; the rest comes off the top. */
static void add_cut(struct maker *maker)
{
    const struct saddle_work *work = &maker->move->saddle_work;
    const enum unit unit = move_words_change_unit(maker->units);
    const int first = saddle_work_next_top(work, maker->setup->board.strings + 1);

    if (!work->known)
        return;
    if (work->bottom.bass_mm != 0 || work->bottom.treble_mm != 0)
        add_bottom(maker, &work->bottom, unit);
    for (int s = first; s > 0; s = saddle_work_next_top(work, s)) {
        strbuf_addf(&maker->then, s == first ? ", off the top, string %d " : ", %d ", s);
        amount_add(&maker->then, -amount_of_work(work->top_mm[s], unit), unit, false);
    }
    if (first > 0)
        amount_add_unit(&maker->then, unit);
}

/* A plate that floats is level only by its springs: what one degree more or less is worth. */
static void add_level(struct maker *maker)
{
    const struct maybe back_mm = maker->setup->post_to_saddle_mm;
    const enum unit unit = maker->units->bare[MEASURE_SMALL];
    const double tan_of_degree = 0.017455;

    if (!back_mm.given || maker->setup->post_lever.given)
        return;
    strbuf_add(&maker->caution, ": 1 degree is ");
    amount_add(&maker->caution, back_mm.value * tan_of_degree, unit, false);
    amount_add_unit(&maker->caution, unit);
}

/* "travel runs out: string 4 by .02, 3 by .015 in; the neck's angle gives more". */
static bool say_short(struct maker *maker)
{
    const struct move *move = maker->move;
    const enum unit unit = maker->units->bare[MEASURE_SMALL];
    int count = 0;

    for (int s = maker->setup->board.strings; s >= 1; s--) {
        if (!move->short_mm[s].given || !move->string[s].due)
            continue;
        strbuf_addf(&maker->caution, count++ ? ", %d by " : "travel runs out: string %d by ", s);
        amount_add_cut(&maker->caution, move->short_mm[s].value, unit);
    }
    if (count == 0)
        return false;
    amount_add_unit(&maker->caution, unit);
    strbuf_add(&maker->caution, "; the neck's angle gives more");
    return true;
}

static void say_saddle_caution(struct maker *maker)
{
    const struct setup *setup = maker->setup;

    if (say_short(maker))
        return;
    switch (setup->bridge) {
    case BRIDGE_SCREW:
        strbuf_add(&maker->caution, "slacken the string first; turn both screws of a saddle alike");
        return;
    case BRIDGE_POST:
        strbuf_add(&maker->caution, setup->post_lever.given
                                        ? "slacken the strings before a side is turned up"
                                        : "slacken first; then level a tremolo plate again");
        add_level(maker);
        return;
    case BRIDGE_WHEEL:
        strbuf_add(&maker->caution, "slacken the strings before a side is turned up");
        return;
    default:
        strbuf_add(&maker->caution,
                   setup->floating ? "sanding the feet: respirator; keep them fitted to the top"
                                   : "sanding a saddle: respirator; keep the bottom square");
    }
}

bool move_words_in_turns(const struct setup *setup)
{
    return is_turned(setup->bridge) && setup->thread_mm.given;
}

double move_words_turns_u(const struct setup *setup, double u_mm)
{
    return ceil(setup_at_post_u(setup, u_mm) / setup->thread_mm.value * 8) / 8;
}

/* What the outer strings read once it is made, as a rule reads it. */
static void add_action(struct maker *maker, enum unit unit)
{
    const struct maybe *then = maker->move->action_then;
    const struct maybe *bass = &then[maker->setup->board.strings], *treble = &then[1];

    if (!bass->given || !treble->given)
        return;
    strbuf_add(&maker->then, "action ");
    add_range(&maker->then, amount_on_rule(bass->value, unit), amount_on_rule(treble->value, unit),
              unit);
}

void move_words_say_saddle(struct maker *maker)
{
    const struct setup *setup = maker->setup;
    const enum unit rule = maker->units->bare[MEASURE_RULE];
    const double u = maker->move->most_u;

    if (move_words_in_turns(setup)) {
        strbuf_add(&maker->amount, "turns \xC2\xB1");
        amount_add_turns(&maker->amount, move_words_turns_u(setup, u), false);
        strbuf_add(&maker->amount, ", + raises");
    } else {
        strbuf_add(&maker->amount, "height");
        move_words_add_u(&maker->amount, u, move_words_change_unit(maker->units));
    }
    if (setup->outfit.lap) {
        add_height(maker, "height at the saddle end ", &setup->height_saddle_target_mm);
    } else {
        add_action(maker, rule);
        add_exposure(maker);
        add_cut(maker);
    }
    say_saddle_caution(maker);
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
        strbuf_add(out, "ok");
    else
        amount_add_turns(out, turns, true);
}

/* Of a string that gets no amount now: off beyond doubt, not beyond it, or right; and one of which
 * something has yet to be read. */
static const char *left_word(const struct maker *maker, const struct move_amount *amount)
{
    if (!amount->known)
        return maker->move->state == MOVE_DUE ? "read" : "";
    if (!amount->off)
        return "ok";
    return fabs(amount->value) <= amount->u ? "near" : amount->value > 0 ? "low" : "high";
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
            strbuf_add(&text, "again");
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
        maker->words->works[s] = amount->due && strcmp(words, "ok") != 0;
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
