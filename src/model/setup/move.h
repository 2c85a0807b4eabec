/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_MOVE_H
#define SILLET_MODEL_SETUP_MOVE_H

#include <stdbool.h>
#include <stdint.h>

#include "model/pitch/saddle_fit.h"
#include "model/setup/belief.h"
#include "model/figure/figure.h"
#include "model/reading/record.h"
#include "model/setup/reset.h"
#include "model/setup/rod_prior.h"
#include "model/setup/saddle_work.h"
#include "model/setup/setup.h"
#include "model/setup/survey_rod.h"
#include "model/reading/work_mark.h"

/*
 * The moves as data: what all passes of a visit ask for, in the trade's order, by how much, and
 * what has been done about it since. Decided here once; the bench, the job list, the shelf and
 * the customer's sheet only put it into words.
 */

/* In the order in which one string's state outweighs another's. */
enum move_state {
    MOVE_UNKNOWN, /* something has to be read or wanted first: `needs` */
    MOVE_GOOD,    /* on target, or off it by no more than can be told: leave it */
    MOVE_WAITS,   /* off target, but something comes first: `waits` */
    MOVE_DUE,
};

/* What a move waits for. */
enum move_wait {
    WAIT_NOTHING,
    WAIT_RESET,  /* the neck is reset first, strung up and read again */
    WAIT_SEASON, /* the air has moved the neck: the rod first, where one turns, and nothing is cut
                    until it settles */
    WAIT_SETUP,  /* what is heard rests on how the strings lie: rod, slots and saddle first */
    WAIT_ROD,    /* the rod first, then everything is read again: nothing is cut on a guess of what
                    it will do */
    WAIT_AGAIN,  /* it rests on readings that work since has made void: read again first */
    WAIT_OTHER_WORK, /* relief: its rod shows nothing more, and nothing on this list moves it */
};

/* What an unknown move waits for, in the order in which a tech would supply it. */
enum move_need {
    NEED_NOTHING,
    NEED_BOARD, /* scale, strings, frets, join fret */
    NEED_RELIEF,
    NEED_RELIEF_TARGET,
    NEED_GAP,
    NEED_ACTION,
    NEED_TARGETS, /* for action and nut gap */
    NEED_EXPOSURE,
    NEED_EXPOSURE_FIRST, /* by an earlier pass's a reset may be due: it is read before any cut */
    NEED_AGAIN,          /* a reading does not fit the others */
    NEED_CAUSE,          /* a note buzzes or is off, and neither fret nor saddle explains it */
    NEED_ROD_NUT,        /* the rod shows nothing: a loose nut, or its end, is seen on the rod */
    NEED_ROD_WAY,        /* the relief went the wrong way when the rod was turned: see why first */
    NEED_ROCKER,  /* which fret makes a note buzz, only the rocker tells: fret_work has where */
    NEED_HEARING, /* an earlier pass asked for frets, and this one has not heard or rocked them */
    NEED_TUNING,  /* an earlier pass was off pitch, and this one has not read it */
    NEED_HEIGHT_NUT, /* under a bar: the heights at either end, and what they should be */
    NEED_HEIGHT_SADDLE,
    NEED_HEIGHT_TARGETS,
};

struct move_amount {
    bool known;
    bool due;    /* to be made now */
    bool off;    /* beyond its tolerance, whether that can be told or not */
    bool unsure; /* it would be due but for its doubt, and another reading tells more */
    /* Rod: relief to let in (+) or take out (-), mm. Slot: fill (+) or cut (-), mm. Saddle:
     * raise (+) or lower (-), mm. Reset: the angle to set the neck back by, rad. Fret: what comes
     * off its crown (-), mm. Pitch: saddle back (+) or forward (-), mm. */
    double value;
    double u; /* expanded, k = 2, of what is believed to be off */
};

/* How far the target would have a rod go from its other end, and how far it or a usual one goes. */
struct rod_reach {
    bool known;
    double turns, most;
};

struct move {
    enum move_state state; /* by the readings alone */
    enum move_need needs;
    int need_on;     /* of a gap or an action: the string that has to be read again, 0 for any */
    bool tells_more; /* that would be due or not if this were known better */
    enum move_wait waits;
    struct move_amount amount;                  /* rod and reset */
    struct move_amount string[STRINGS_MAX + 1]; /* slots, saddle and pitch, by string number */
    double most_u;                              /* the largest u of the amounts that are due */
    bool any_up, any_down;   /* whether any amount, due or not, is above or below 0 */
    bool inner_follow;       /* inner strings are off, but move only with the outer two */
    bool whole;              /* pitch: the bridge moves as a whole, by the outer strings' amounts */
    struct maybe turns;      /* rod: toward the target, + tightens, where its answer is known */
    struct maybe per_turn;   /* rod: what a turn does to the relief, mm, where `turns` is given */
    struct rod_prior others; /* rod: what `turns` rests on, where its own answer is not known */
    struct rod_reach far;    /* rod: the target is farther than it may go */
    enum rod_stop stop;      /* rod: why it is not turned on; */
    double way;              /* its last turn: 1 tightened, -1 slackened, 0 none */
    bool holds;              /* it brings the relief back that the season moved: its last turns
                                showed what they do, or none was tried */
    struct maybe raise;      /* slots: half of them or more are low; by so much the nut is, mm */
    bool too_high[STRINGS_MAX + 1]; /* and these are too high then: the next pass says by what */
    struct saddle_work saddle_work; /* saddle: due, of a blank; what `string` is made by */
    /* What the gauges read once this move and those before it are made, mm, by string; where it is
     * not due, as it is. A gap with the string open, and held down on fret 3. */
    struct maybe relief_then, gap_then[STRINGS_MAX + 1], held_then[STRINGS_MAX + 1],
        action_then[STRINGS_MAX + 1];
    struct maybe
        short_mm[STRINGS_MAX + 1]; /* saddle: its travel is short by so much, beyond doubt */
    bool is_asked; /* reset: it may be due, and something has to be read to tell how far */
    bool little;   /* reset: not due, but less saddle is left than one likes to see */
    struct maybe saddle_then[STRINGS_MAX + 1]; /* reset: how far the saddle moves after it, mm */
    /* Reset: where a straightedge on the frets then meets the saddle, over the bridge's top, mm;
     * and how much more saddle the bass side has left than the treble side, where the neck leans.
     */
    struct maybe straightedge, lean;
    double within_cents;      /* pitch: a note this near is left alone */
    struct saddle_fit saddle; /* pitch: whether the saddle of a blank bridge is wide enough */
    bool unchecked;           /* frets, pitch: no note was heard, or tuned, since the last work */
    bool undone;              /* slots, saddle: marked done, and the readings say it was not */
    int done_by;              /* the work line that marks it done since the readings, 0 for none */
};

/* What all passes of the visit say, mm, with its expanded uncertainty; a value that is not given is
 * not known. */
struct believed {
    struct maybe mm;
    double u;
};

/* What comes off the crowns, by fret, and which strings then play clean. Sets have bit n set for
 * fret n. */
struct fret_work {
    struct move_amount fret[FRETS_MAX + 1];
    bool guessed[FRETS_MAX + 1]; /* by ear alone: the rocker has to confirm it */
    bool quiet[STRINGS_MAX + 1];
    uint64_t low;   /* found low, and notes stopped there buzz: the others go down to them */
    uint64_t rock;  /* the rocker has to find them high before anything is known of them, */
    uint64_t worn;  /* or low; */
    uint64_t again; /* or notes and spots do not agree on what is there */
    uint64_t left;  /* found high by an earlier pass, and not rocked since */
};

/* The moves of a pass, and what they come to. */
struct move_set {
    struct move move[MOVE_COUNT_];
    struct fret_work frets;
    bool restrung;     /* other strings went on since the readings: nothing read before holds */
    bool retuned;      /* or the same ones were tuned to other notes, which does as much */
    int air;           /* as it came in, its wood was damp, 1, or dry, -1 */
    bool season_first; /* the neck has moved with the season: nothing but a rod that turns is due */
    struct believed relief, gap[STRINGS_MAX + 1], action[STRINGS_MAX + 1];
    struct believed held[STRINGS_MAX + 1]; /* the gap, held down on fret 3 */
    /* Of each reading, the relief at string 0: whether it does not fit the others, and is not used
     * until it is read again; and whether it holds: read in the visit, and nothing since asks for
     * it again, not even a pass that is but begun. `by_passes` is false where that is not worked
     * out. */
    enum questioned questioned[BELIEF_ROWS_][STRINGS_MAX + 1];
    bool holds[BELIEF_ROWS_][STRINGS_MAX + 1];
    bool by_passes;
};

enum move_verdict { MOVES_READY, MOVES_WORK, MOVES_RESET, MOVES_MEASURE };

/*
 * Finds the moves that what is believed asks for. A reset that is not known to be due and not
 * known not to be is MOVE_UNKNOWN. `figures` are those of the pass: they give the angle of a
 * reset. `done_by` is left 0.
 */
void move_set_find(const struct setup *setup, const struct figures *figures,
                   const struct belief *belief, struct move_set *ret_moves);

/* Adds the turns that the rod's move takes, from what a turn did to this neck, mm of relief; a
 * rod that does nothing, or the wrong thing, gives none. */
void move_set_turns(struct move_set *moves, double per_turn_mm);

/* The same from what a turn did to other necks of its kind: toward the target, but no more than
 * ROD_TURN_OF_OTHERS. */
void move_set_turns_of_others(struct move_set *moves, const struct rod_prior *others);

/* Whether a due rod is turned tighter: by what it was seen to do, else as rods usually answer. */
static inline bool move_tightens(const struct move *rod)
{
    return rod->turns.given ? rod->turns.value > 0 : rod->amount.value < 0;
}

/* Of turns that are known, how many are made at once: in eighths, at most 1/32 of a turn too far,
 * as far as a hand turns without measuring again, and at least one. All of them, `*ret_is_all`,
 * where that leaves no more than can be told; else the relief is read before the rest. 0 where
 * other necks' answer gives less than an eighth. */
double move_turns_at_once(const struct move *rod, bool *ret_is_all);

/* How much of the way to its target a due rod takes the relief: by the turns that were made (+
 * tightens), else by those that are asked for at once; 1 where no rod turns, and where nobody knows
 * what a turn does: it is turned until the relief is right. Absent where turns were made whose
 * answer is not known. */
struct maybe move_rod_share(const struct move *rod, bool rod_turns, struct maybe turned);

/* Between what is and what will be, `share` of the way; absent where any of them is. */
struct maybe move_part(struct maybe now, struct maybe then, struct maybe share);

/* The neck has moved with the season: where the rod is due, slots and saddle wait for it, and so
 * will frets and pitch. Where no rod holds it, all of it waits until the neck has settled, relief
 * and reset too. */
void move_set_wait_for_season(struct move_set *moves);

/* It came in damp (`air` 1) or dry (-1): nobody knows how it stands at home. A rod is turned first
 * where it is `guessed` what a turn does. */
void move_set_came_in(struct move_set *moves, const struct setup *setup, int air, bool guessed);

bool move_waits_for_season(const struct move *move);

/* Nothing is open, and something waits for the neck to settle: it is read again then. */
bool move_set_settles(const struct move_set *moves);

/* Whether the relief of a neck moves by turning its rod: it has one, and that shows what it does.
 */
static inline bool move_rod_turns(const struct setup *setup, const struct move *rod)
{
    return setup_rod_turns(setup) && rod->stop != ROD_SILENT;
}

/* Whether the rod itself has to be seen to before it is turned on, or anything is cut. */
static inline bool move_is_rod_looked_at(const struct move *rod)
{
    return rod->state == MOVE_UNKNOWN && (rod->needs == NEED_ROD_NUT || rod->needs == NEED_ROD_WAY);
}

/* Off target, and left so: nothing that is done on a bench brings it there. */
bool move_is_left(const struct move *move);

/* Whether any of its amounts is off its tolerance. */
bool move_is_off(const struct move *move);

/* Puts off what does not grow again, and rests on readings that work since has made void: a rod was
 * turned otherwise than to its target, other strings went on. `turned` is how far the rod was
 * turned. After move_set_mark. */
void move_set_wait_for_reading(struct move_set *moves, const struct setup *setup,
                               struct maybe turned);

/* Adds which of them the work lines since a pass mark done. */
void move_set_mark(struct move_set *moves, struct place place);

/* Whether a due move, made as planned, changes what is read of a string; string 0: of any. A shim
 * under the nut lifts them all, and inner strings go with the two sides of a bridge. */
bool move_reaches(const struct move_set *moves, const struct setup *setup, enum move_kind kind,
                  int string);

/* Off target by the readings, and marked done since: the next pass has to prove it. */
bool move_is_done(const struct move *move);

/* Due, and not done since. */
bool move_is_open(const struct move *move);

/* The last of rod, slots and saddle that is due: what the gauges read in the end, its ..._then say.
 * Where frets alone are due, the slots, which stay as they are; MOVE_COUNT_ where nothing is. */
enum move_kind move_set_last_due(const struct move_set *moves);

/* Of frets and pitch, whether what was heard or tuned before has to be so again. */
bool move_waits_for_ear(const struct move *move);

/* Of frets and pitch, whether what was heard, rocked or tuned asks for anything. */
bool move_is_asked(const struct move *move);

/* What is known of a move is kept; made it is later. */
void move_put_off(struct move *move, enum move_wait waits, int strings);

/* Not known, though it should be before the instrument goes back. Exposure, which alone tells
 * whether a reset is due, need not be read, and nobody need listen to every note. */
bool move_is_missed(const struct move *move);

/* Whether the reading of a field on a string, of the relief with string 0, is questioned; whether
 * it is of those that hold or do not, and holds. */
bool move_set_questions(const struct move_set *moves, enum field_id field, int string);
bool move_set_tells(const struct move_set *moves, enum field_id field);
bool move_set_holds(const struct move_set *moves, enum field_id field, int string);

/* Whether any reading is questioned; and of those that a move goes by, the first one: how, and on
 * which string, 0 for the relief. */
bool move_set_is_questioned(const struct move_set *moves);
enum questioned move_set_question(const struct move_set *moves, enum move_kind kind,
                                  int *ret_string);

/* How many are such: move_is_open, move_is_done, move_is_missed. */
int move_set_count(const struct move_set *moves, bool (*is_such)(const struct move *move));

/* What it all comes to: a reset first, else open moves, else something to measure, else ready. A
 * move that was marked done has to be measured again, and so has a reading that is questioned. */
enum move_verdict move_set_verdict(const struct move_set *moves);

/* Whether the saddle is enough: by the readings alone, whatever was done since. */
enum reset_verdict move_set_reset(const struct move_set *moves);

/* "ready", "work", "reset", "measure". */
const char *move_verdict_name(enum move_verdict verdict);

/* The figure that a move's amount comes from; of MOVE_COUNT_ the relief. */
enum figure_id move_figure(enum move_kind kind);

/* The one that `?` explains. Under a bar no amount follows from a figure, and the pull is told. */
enum figure_id move_explained(const struct outfit *outfit, enum move_kind kind);

/* Whether it has an amount for each string, in `string`; else one in `amount`. */
bool move_is_by_string(enum move_kind kind);

#endif
