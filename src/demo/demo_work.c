/* SPDX-License-Identifier: MIT */
#include "demo/demo_work.h"

#include "base/num.h"

/* What a careful hand misses by, standard deviations (memory). */
#define SLOT_ERROR_MM   0.015
#define SADDLE_ERROR_MM 0.05
#define STRING_ERROR_MM 0.02
#define TURN_ERROR      0.01

/* A rod whose answer nobody knows is turned by this much first; less where little is asked. */
#define FIRST_TURN       0.25
#define FIRST_TURN_SMALL 0.125
#define SMALL_MM         0.07

/* --- the rod --- */

static void add_turns(double turns, struct strbuf *out)
{
    num_format_fraction(fabs(turns), 8, out);
    strbuf_add(out, " turn");
}

void demo_work_log_turns(struct demo_book *book, double turns)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    if (turns == 0)
        return;
    strbuf_add(&text, turns < 0 ? "-" : "");
    add_turns(turns, &text);
    demo_book_put(book, reading_key_pass(FIELD_ROD_TURN, book->visit, book->pass), memory);
}

static double find_turns(const struct move *rod)
{
    const double change_mm = rod->amount.value;
    bool is_all;

    if (rod->turns.given)
        return copysign(move_turns_at_once(rod, &is_all), rod->turns.value);
    return copysign(fabs(change_mm) < SMALL_MM ? FIRST_TURN_SMALL : FIRST_TURN, -change_mm);
}

static double turn_rod(struct demo_book *book, struct demo_neck *neck, const struct move *rod)
{
    const double turns = find_turns(rod);
    char memory[48];
    struct strbuf amount = STRBUF(memory);

    strbuf_add(&amount, turns > 0 ? "tightened " : "slackened ");
    add_turns(turns, &amount);
    demo_neck_turn(neck, turns + demo_normal(&book->chance, TURN_ERROR));
    demo_book_work(book, work_mark_name(MOVE_ROD), memory);
    return turns;
}

/* --- slots and saddle --- */

/* "string 6 -.008, 5 -.007 in", or courses by their number. */
static void add_amount(const struct demo_book *book, const struct outfit *outfit, int string,
                       double mm, struct strbuf *out)
{
    if (out->length == 0)
        strbuf_addf(out, "%s ", outfit_noun(outfit, string));
    else
        strbuf_add(out, ", ");
    strbuf_addf(out, "%d ", outfit_number(outfit, string));
    demo_book_add_change(book, mm, out);
}

static void end_line(struct demo_book *book, enum move_kind kind, struct strbuf *amount)
{
    strbuf_addf(amount, " %s", demo_book_unit(book));
    demo_book_work(book, work_mark_name(kind), amount->text);
}

/* The strings of a course lie in slots of one depth. */
static void work_slots(struct demo_book *book, struct demo_neck *neck, const struct outfit *outfit,
                       const struct move *move)
{
    char memory[256];
    struct strbuf amount = STRBUF(memory);
    double off_mm[STRINGS_MAX + 1] = {0};

    for (int s = outfit->strings; s >= 1; s--) {
        if (!move->string[s].due)
            continue;
        off_mm[s] = demo_normal(&book->chance, SLOT_ERROR_MM);
        demo_neck_slot(neck, s, move->string[s].value + off_mm[outfit->read_as[s]]);
        if (outfit_is_read(outfit, s))
            add_amount(book, outfit, s, move->string[s].value, &amount);
    }
    end_line(book, MOVE_SLOTS, &amount);
}

/* Whether each string's height is set by itself: none between the outer ones is on two wheels. */
static bool is_set_singly(const struct setup *setup)
{
    for (int s = 1; s <= setup->outfit.strings; s++)
        if (!setup_has_own_height(setup, s))
            return false;
    return true;
}

/* What is really moved under each string: a saddle misses along its whole length, and a bridge on
 * two wheels moves in a straight line between them. */
static void move_saddle(struct demo_book *book, struct demo_neck *neck,
                        const struct derived *derived, const struct move *move)
{
    const int last = neck->strings;
    const bool each = is_set_singly(&derived->setup);
    const double together = demo_normal(&book->chance, SADDLE_ERROR_MM);
    const double bass = move->string[last].due ? move->string[last].value : 0;
    const double treble = move->string[1].due ? move->string[1].value : 0;

    for (int s = 1; s <= last; s++) {
        const double line = treble + (bass - treble) * neck->across[s];
        const double asked = move->string[s].due ? move->string[s].value : 0;
        const double own = each ? demo_normal(&book->chance, STRING_ERROR_MM) : 0;

        if (each && asked == 0)
            continue;
        demo_neck_saddle(neck, s, (each ? asked : line) + together + own);
    }
}

static void work_saddle(struct demo_book *book, struct demo_neck *neck,
                        const struct derived *derived, const struct move *move)
{
    const struct outfit *outfit = &derived->setup.outfit;
    char memory[256];
    struct strbuf amount = STRBUF(memory);

    move_saddle(book, neck, derived, move);
    for (int s = outfit->strings; s >= 1; s--)
        if (move->string[s].due && outfit_is_read(outfit, s))
            add_amount(book, outfit, s, move->string[s].value, &amount);
    end_line(book, MOVE_SADDLE, &amount);
}

enum move_kind demo_work(struct demo_book *book, struct demo_neck *neck,
                         const struct derived *derived, double *ret_turns)
{
    const struct move *move = derived->moves.move;
    enum move_kind last = MOVE_COUNT_;

    if (move[MOVE_RESET].state == MOVE_DUE)
        return last;
    if (move_is_open(&move[MOVE_ROD]) && neck->per_turn_mm < 0) {
        *ret_turns = turn_rod(book, neck, &move[MOVE_ROD]);
        return MOVE_ROD;
    }
    if (move_is_open(&move[MOVE_SLOTS])) {
        work_slots(book, neck, &derived->setup.outfit, &move[MOVE_SLOTS]);
        last = MOVE_SLOTS;
    }
    if (move_is_open(&move[MOVE_SADDLE])) {
        work_saddle(book, neck, derived, &move[MOVE_SADDLE]);
        last = MOVE_SADDLE;
    }
    return last;
}
