/* SPDX-License-Identifier: MIT */
#include "words/move_words_inside.h"

#include <math.h>

#include "model/reading/work_line.h"

/* What is done to slots, to a zero fret's crown, or to a nut that is raised for a bar. */
static const char *nut_work(const struct maker *maker)
{
    const struct outfit *outfit = &maker->setup->outfit;
    const bool up = maker->move->any_up, down = maker->move->any_down;

    if (outfit->lap)
        return !up ? "lower the nut" : down ? "level the nut" : WORK_RAISE_NUT;
    if (outfit->zero_fret)
        return "level the zero fret";
    return !up ? "file" : down ? "-file +fill" : "fill";
}

/* "read the gaps: strings 5, 3 will be high": what the shim lifts too high. By how much it does,
 * the next pass reads; until then no amount of theirs is work. */
static bool add_too_high(struct maker *maker)
{
    const struct outfit *outfit = &maker->setup->outfit;
    int count = 0, last = 0;

    for (int s = maker->setup->board.strings; s >= 1; s--)
        last = maker->move->too_high[s] && outfit_is_read(outfit, s) ? s : last;
    for (int s = maker->setup->board.strings; s >= 1; s--) {
        if (!maker->move->too_high[s] || !outfit_is_read(outfit, s))
            continue;
        if (count == 0)
            strbuf_addf(&maker->then, "read the gaps: %s%s", outfit_noun(outfit, s),
                        s == last ? " " : "s ");
        strbuf_addf(&maker->then, count++ > 0 ? ", %d" : "%d", outfit_number(outfit, s));
    }
    strbuf_add(&maker->then, count > 0 ? " will be high" : "");
    return count > 0;
}

static void add_raise(struct maker *maker, enum unit unit)
{
    const bool zero_fret = maker->setup->outfit.zero_fret;
    struct strbuf done = STRBUF(maker->words->done);

    strbuf_add(&maker->amount, zero_fret ? WORK_ZERO_FRET " higher by " : WORK_RAISE_NUT ", shim ");
    if (zero_fret)
        amount_add(&maker->amount, amount_of_work(maker->move->raise.value, unit), unit, false);
    else /* a shim is made to size */
        amount_add(&maker->amount, maker->move->raise.value, unit, true);
    amount_add_unit(&maker->amount, unit);
    strbuf_addf(&done, "%s", maker->amount.text);
    strbuf_add(&maker->amount, zero_fret ? "" : ", or a new one");
    maker->words->by_string = false;
}

/* Of one slot at least the doubt is as large as the cut: that one is made by reading. */
static bool is_small(const struct move *move)
{
    for (int s = 1; s <= STRINGS_MAX; s++)
        if (move->string[s].due && fabs(move->string[s].value) <= move->string[s].u)
            return true;
    return false;
}

static void add_caution(struct maker *maker)
{
    const bool up = maker->move->any_up, small = is_small(maker->move);

    if (maker->setup->outfit.zero_fret)
        strbuf_add(&maker->caution,
                   up ? "warm the old fret before it is pulled; eye protection"
                      : "eye protection and respirator; crown it again afterwards");
    else
        strbuf_add(&maker->caution,
                   up      ? "fill a low slot or make a new nut; respirator, and air for glue"
                   : small ? "bone, shell, some woods: respirator; file a stroke, then read"
                           : "bone, shell and some woods: wear a respirator when filing");
}

bool move_words_say_nut(struct maker *maker)
{
    const enum unit unit = move_words_change_unit(maker->units);

    if (maker->move->raise.given) {
        add_raise(maker, unit);
    } else {
        strbuf_add(&maker->amount, nut_work(maker));
        move_words_add_u(&maker->amount, maker->move->most_u, unit);
    }
    add_caution(maker);
    return !(maker->move->raise.given && add_too_high(maker));
}
