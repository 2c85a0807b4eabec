/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_done_heights.h"

#include <math.h>
#include <string.h>

#include "model/reading/work_amount.h"
#include "model/setup/work_done.h"
#include "sheet/sheet_say.h"

/* What was done to a height, down and up, and where no string is named. */
struct done_words {
    const char *down, *up, *otherwise;
};

/* The strings that were lowered, or raised. */
static uint64_t find_strings(const struct work_amount *amount, bool up)
{
    uint64_t set = 0;

    for (int s = 1; s <= STRINGS_MAX; s++)
        if (amount->is_said[s] && (up ? amount->value[s] > 0 : amount->value[s] < 0))
            set |= UINT64_C(1) << s;
    return set;
}

/* "strings 6 to 2"; where the strings lie in courses, "courses 6 to 2". */
static void say_numbers(const struct outfit *outfit, uint64_t strings, struct strbuf *out)
{
    const bool by_course = outfit->courses < outfit->strings;
    uint64_t set = 0;

    for (int s = 1; s <= outfit->strings; s++)
        if (strings >> s & 1)
            set |= UINT64_C(1) << (by_course ? outfit->course[s] : s);
    sheet_say_numbers(out, set, true, by_course ? "course" : "string",
                      by_course ? "courses" : "strings");
}

/* " by .002 to .004 in (0.05 to 0.10 mm)", over such strings. */
static void say_by(const struct sheet_maker *maker, const struct work_amount *amount,
                   uint64_t strings, struct strbuf *out)
{
    double least = (double)INFINITY, most = 0;

    for (int s = 1; s <= STRINGS_MAX; s++)
        if (strings >> s & 1) {
            least = fmin(least, fabs(amount->value[s]));
            most = fmax(most, fabs(amount->value[s]));
        }
    strbuf_add(out, " by ");
    sheet_say_range(out, least, most, &maker->ask->units, MEASURE_FEELER);
}

/* "filed on strings 6 to 2, filled on string 1"; with `by`, by how much as well. */
static void say_strings(const struct sheet_maker *maker, const struct work_amount *amount, bool by,
                        const struct done_words *words, struct strbuf *out)
{
    const uint64_t sets[] = {find_strings(amount, false), find_strings(amount, true)};
    const char *const verbs[] = {words->down, words->up};

    for (int up = 0; up <= 1; up++) {
        if (!sets[up])
            continue;
        strbuf_addf(out, "%s%s", up && sets[0] ? ", " : "", verbs[up]);
        if (by)
            say_by(maker, amount, sets[up], out);
        strbuf_add(out, " on ");
        say_numbers(&maker->left.setup.outfit, sets[up], out);
    }
    if (!sets[0] && !sets[1])
        strbuf_add(out, words->otherwise);
}

static const struct done_words slot_words = {"filed", "filled", "worked on"};
static const struct done_words nut_words = {"lowered", "raised", "worked on"};
static const struct done_words saddle_words = {"lowered", "raised", "set to height"};

static const struct done_words *words_of(const struct sheet_maker *maker, enum move_kind kind)
{
    const struct outfit *outfit = &maker->left.setup.outfit;

    if (kind == MOVE_SADDLE)
        return &saddle_words;
    return outfit->lap || outfit->zero_fret ? &nut_words : &slot_words;
}

void sheet_say_slots_done(const struct sheet_maker *maker, const char *plan, struct strbuf *out)
{
    struct work_amount amount;

    work_amount_of_plan(plan, &maker->left.setup.outfit, &amount);
    if (strncmp(plan, "put in", strlen("put in")) == 0)
        strbuf_add(out, "a higher zero fret put in");
    else if (maker->left.setup.outfit.zero_fret)
        strbuf_add(out, "zero fret levelled");
    else if (*plan == 'r')
        strbuf_add(out, "nut raised");
    else
        say_strings(maker, &amount, false, words_of(maker, MOVE_SLOTS), out);
}

/* A whole saddle goes one way at both its ends: "lowered, bass 0.95 mm (.037 in), treble 1.30 mm
 * (.051 in)". */
static bool say_ends(const struct sheet_maker *maker, const struct work_amount *amount,
                     struct strbuf *out)
{
    const int last = maker->left.setup.board.strings;
    const double bass = amount->value[last], treble = amount->value[1];

    if (amount->unit != WORK_AMOUNT_MM || !amount->is_said[last] || !amount->is_said[1] ||
        (find_strings(amount, false) && find_strings(amount, true)))
        return false;
    strbuf_add(out, bass < 0 ? "lowered, bass " : "raised, bass ");
    sheet_say_length(out, fabs(bass), &maker->ask->units, MEASURE_FEELER);
    strbuf_add(out, ", treble ");
    sheet_say_length(out, fabs(treble), &maker->ask->units, MEASURE_FEELER);
    return true;
}

void sheet_say_saddle_done(const struct sheet_maker *maker, const char *plan, struct strbuf *out)
{
    struct work_amount amount;

    work_amount_of_plan(plan, &maker->left.setup.outfit, &amount);
    if (!say_ends(maker, &amount, out))
        say_strings(maker, &amount, false, &saddle_words, out);
}

/* Whether a tech typed numbers with nothing but strings and units: "string 6 -.008, 5 -.007 in". */
static bool is_numbers(const char *amount)
{
    static const char *const words[] = {"string", "course", "in", "mm", "turn", "turns"};

    while (*amount) {
        const size_t length = strspn(amount, "abcdefghijklmnopqrstuvwxyz");
        bool known = length == 0;

        for (size_t i = 0; i < sizeof words / sizeof words[0] && !known; i++)
            known = strlen(words[i]) == length && strncmp(amount, words[i], length) == 0;
        if (!known || (length == 0 && !strchr(" ,:;+-./0123456789", *amount)))
            return false;
        amount += length > 0 ? length : 1;
    }
    return true;
}

bool sheet_say_numbers_done(const struct sheet_maker *maker, enum move_kind kind,
                            struct place before, int line, const char *text, struct strbuf *out)
{
    struct work_amount amount = {.unit = WORK_AMOUNT_MM};
    struct work_done done;
    struct derived derived;
    bool any = false;

    if ((kind != MOVE_SLOTS && kind != MOVE_SADDLE) || before.pass == 0 || !is_numbers(text))
        return false;
    derive_pass(before, &derived);
    if (derived.moves.move[kind].done_by != line)
        return false;
    work_done_find(before, &derived.setup, &derived.moves, kind, &done);
    for (int s = 1; s <= derived.setup.board.strings; s++) {
        if (!done.is_said || isnan(done.mm[s]))
            return false;
        amount.is_said[s] = true;
        amount.value[s] = done.mm[s];
        any = any || done.mm[s] != 0;
    }
    if (any)
        say_strings(maker, &amount, true, words_of(maker, kind), out);
    return any;
}
