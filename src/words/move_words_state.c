/* SPDX-License-Identifier: MIT */
#include "words/frets_plan.h"
#include "words/move_words_inside.h"

#include <math.h>

/* Moves that are not due: what they need, what they wait for, or that they are good. */

static bool is_said_before(const struct maker *maker, enum move_kind kind)
{
    for (int before = MOVE_ROD; before < (int)kind; before++)
        if (maker->set->move[before].state == MOVE_UNKNOWN &&
            maker->set->move[before].needs == maker->move->needs)
            return true;
    return false;
}

/* Its slot or its saddle was worked on, or may have been, and the others were left; or it is not
 * known well enough. */
static void say_need_on(struct maker *maker, int string)
{
    const struct outfit *outfit = &maker->setup->outfit;

    strbuf_addf(&maker->amount,
                maker->move->tells_more ? "to tell more: read the %s of %s %d"
                                        : "may have moved: read the %s of %s %d again",
                maker->move->needs == NEED_GAP ? "nut gap" : "action", outfit_noun(outfit, string),
                outfit_number(outfit, string));
}

/* No turn is asked for before it is known what the last one did. */
static void say_rod_way(struct maker *maker)
{
    strbuf_addf(&maker->amount, "relief went %s: stop; read it again, see its nut",
                maker->move->way > 0 ? "up when tightened" : "down when slackened");
    strbuf_add(&maker->caution,
               "a slip in the log? else turn back; a rod that works the other way shows it then");
}

/* A nut that is a turn loose shows as little as one at the end of its thread. */
static void say_rod_nut(struct maker *maker)
{
    strbuf_addf(&maker->amount, "%s: %s", move_words_wait(WAIT_OTHER_WORK),
                maker->move->way < 0 ? "slack, or in its play? 1/4 more, then read"
                                     : "nut loose, or at its end? snug it, then read");
    strbuf_add(
        &maker->caution,
        maker->move->way < 0
            ? "stop when it binds; a whole turn for nothing, or rod = fixed on Intake: its end"
            : "1/4 at a time; stop when it binds (washers?); at its end: rod = fixed on "
              "Intake");
}

/* "due before: hear it again, rock fret 9". */
static void say_hearing(struct maker *maker)
{
    const uint64_t left = maker->set->frets.left;

    strbuf_add(&maker->amount, "due before: hear it again");
    if (left == 0)
        return;
    strbuf_add(&maker->amount, ", rock ");
    frets_add_frets(&maker->amount, &maker->setup->outfit, left);
}

/* What one move waits for, the next one needs too, so only the first says it. */
void move_words_say_need(struct maker *maker, enum move_kind kind)
{
    static const char *const needs[] = {
        [NEED_NOTHING] = "",
        [NEED_BOARD] = "scale, strings, frets and join fret come first",
        [NEED_RELIEF] = "measure the relief first",
        [NEED_RELIEF_TARGET] = "the target for relief is missing",
        [NEED_GAP] = "measure a nut gap next",
        [NEED_ACTION] = "measure an action next",
        [NEED_TARGETS] = "the targets for action and nut gap are missing",
        [NEED_EXPOSURE] = "measure exposure and action first",
        [NEED_EXPOSURE_FIRST] = "measure exposure first: a reset may be due",
        [NEED_AGAIN] = "a reading does not fit the others: read it again",
        [NEED_CAUSE] = "",
        [NEED_ROD_NUT] = "",
        [NEED_ROD_WAY] = "",
        [NEED_ROCKER] = "",
        [NEED_HEARING] = "",
        [NEED_TUNING] = "off before: tune and read the notes again",
        [NEED_HEIGHT_NUT] = "measure a height at the nut first",
        [NEED_HEIGHT_SADDLE] = "measure a height at the saddle end",
        [NEED_HEIGHT_TARGETS] = "the targets for the heights are missing",
    };

    if (maker->move->needs == NEED_HEARING)
        say_hearing(maker);
    else if (maker->move->needs == NEED_CAUSE)
        strbuf_add(&maker->amount,
                   kind == MOVE_FRETS
                       ? maker->setup->outfit.fretless
                             ? "notes buzz, and nothing on the board explains it"
                             : "notes buzz, and no fret explains it: look further"
                       : "notes are off, and not by the saddle: slots, frets, string");
    else if (maker->move->needs == NEED_ROCKER)
        move_words_say_rocker(maker);
    else if (maker->move->needs == NEED_ROD_WAY)
        say_rod_way(maker);
    else if (maker->move->needs == NEED_ROD_NUT)
        say_rod_nut(maker);
    else if (is_said_before(maker, kind))
        return;
    else if (maker->move->need_on > 0)
        say_need_on(maker, maker->move->need_on);
    else
        strbuf_add(&maker->amount, needs[maker->move->needs]);
}

/* The amount that is farthest off, of the strings or of the whole. */
static const struct move_amount *find_farthest(const struct move *move)
{
    const struct move_amount *farthest = &move->amount;

    for (int s = 1; s <= STRINGS_MAX; s++)
        if (move->string[s].off && fabs(move->string[s].value) > fabs(farthest->value))
            farthest = &move->string[s];
    return farthest;
}

/* Off beyond its tolerance, but not beyond doubt; or left where no rod turns. */
static void say_near(struct maker *maker, enum move_kind kind)
{
    const enum unit unit = kind == MOVE_ROD ? maker->units->bare[MEASURE_FEELER]
                                            : move_words_change_unit(maker->units);
    const struct move_amount *farthest = find_farthest(maker->move);

    strbuf_add(&maker->amount, kind == MOVE_ROD || fabs(farthest->value) <= farthest->u
                                   ? "leave it: off by "
                               : farthest->value > 0 ? "leave it: low by "
                                                     : "leave it: high by ");
    strbuf_add(&maker->amount, kind == MOVE_ROD ? "" : "up to ");
    amount_add(&maker->amount, fabs(farthest->value), unit, false);
    move_words_add_u(&maker->amount, farthest->u, unit);
    if (kind == MOVE_ROD && !move_rod_turns(maker->setup, maker->move))
        strbuf_add(&maker->amount, setup_rod_turns(maker->setup) ? ", and the rod shows nothing"
                                                                 : ", and no rod turns");
}

/* A reading that the others contradict is right once it is read so again, in another pass. */
static bool add_questioned(struct maker *maker, enum move_kind kind)
{
    const struct outfit *outfit = &maker->setup->outfit;
    int string = 0;
    const enum questioned question = move_set_question(maker->set, kind, &string);

    if (question == QUESTIONED_NOT)
        return false;
    if (string > 0)
        strbuf_addf(&maker->amount, "%s %d", outfit_noun(outfit, string),
                    outfit_number(outfit, string));
    else
        strbuf_add(&maker->amount, "the relief");
    strbuf_add(&maker->amount, " does not fit: ");
    strbuf_add(&maker->amount,
               question == QUESTIONED_HERE ? "p, then read it again" : "read it again");
    return true;
}

void move_words_say_good(struct maker *maker, enum move_kind kind)
{
    if (kind == MOVE_RESET) {
        strbuf_add(&maker->amount, !maker->move->little ? "not due: the saddle has enough left"
                                   : maker->setup->outfit.one_piece
                                       ? "not due: where the bridge gets too low, make a higher one"
                                       : "not due, but little saddle is left");
    } else if (maker->move->inner_follow) {
        strbuf_add(&maker->amount, "outer strings on target; the inner ones follow the sides");
    } else if (add_questioned(maker, kind)) {
        return;
    } else if (move_is_off(maker->move)) {
        say_near(maker, kind);
    } else {
        strbuf_add(&maker->amount, "on target, leave it");
    }
}

const char *move_words_wait(enum move_wait waits)
{
    static const char *const words[] = {
        [WAIT_NOTHING] = "",
        [WAIT_RESET] = "wait: the reset first",
        [WAIT_SEASON] = "wait: the season moved the neck",
        [WAIT_SETUP] = "wait: the other moves first",
        [WAIT_ROD] = "rod first, then measure",
        [WAIT_AGAIN] = "measure first: what it rests on has changed",
        [WAIT_OTHER_WORK] = "does not answer",
    };
    return words[waits];
}

/* What does not turn any more is left, and what else moves a relief is other work. */
static void say_left(struct maker *maker)
{
    const enum unit unit = maker->units->bare[MEASURE_FEELER];
    const bool slack = maker->move->way < 0;

    if (setup_rod_turns(maker->setup))
        strbuf_addf(&maker->amount, "%s: %s no further; relief stays ",
                    move_words_wait(WAIT_OTHER_WORK), slack ? "slacken" : "tighten");
    else
        strbuf_add(&maker->amount, "no rod turns: relief stays ");
    amount_add(&maker->amount, fabs(maker->move->amount.value), unit, false);
    amount_add_unit(&maker->amount, unit);
    strbuf_add(&maker->amount, maker->move->amount.value < 0 ? " high" : " low");
    strbuf_add(&maker->caution,
               !setup_rod_turns(maker->setup) ? "heat press, refret or planing is other work"
               : slack
                   ? "slack already? then string pull, heat press, refret or planing is other work"
                   : "nut loose, or at its thread's end (washers)? heat press, refret, planing is "
                     "other work");
}

/* Where a rod brings the neck back, it is not for time to do. */
static void say_season(struct maker *maker, enum move_kind kind)
{
    const struct move *move = maker->move;
    const bool fills = kind == MOVE_SLOTS && move->any_up;
    const bool settles = !maker->set->move[MOVE_ROD].holds;

    strbuf_addf(&maker->amount, "%s;%s", move_words_wait(WAIT_SEASON),
                settles ? " let it settle" : "");
    if (kind == MOVE_ROD)
        return;
    strbuf_addf(&maker->amount, "%s %s nothing yet", settles ? "," : "",
                !fills           ? "cut"
                : move->any_down ? "cut and fill"
                                 : "fill");
}

void move_words_say_wait(struct maker *maker, enum move_kind kind)
{
    if (maker->move->waits == WAIT_OTHER_WORK) {
        say_left(maker);
    } else if (maker->move->waits == WAIT_ROD) {
        strbuf_add(&maker->amount,
                   kind == MOVE_RESET ? "rod first; may need " : move_words_wait(WAIT_ROD));
        if (kind == MOVE_RESET)
            move_words_add_reset(maker);
    } else if (maker->move->waits == WAIT_AGAIN) {
        strbuf_add(&maker->amount, move_words_wait(WAIT_AGAIN));
    } else if (maker->move->waits == WAIT_SEASON)
        say_season(maker, kind);
    else if (maker->move->waits == WAIT_SETUP)
        strbuf_add(&maker->amount, kind == MOVE_PITCH
                                       ? "the other moves first, then tune and read again"
                                       : "the other moves first, then listen again");
    else if (kind == MOVE_ROD)
        strbuf_add(&maker->amount, "after the reset: then string up and read again");
    else
        strbuf_add(&maker->amount, "after the reset");
}
