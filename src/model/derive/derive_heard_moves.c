/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_heard_moves.h"

#include <math.h>

#include "model/derive/derive_saddle_fit.h"
#include "model/derive/buzz_cause.h"
#include "model/derive/heard.h"
#include "model/derive/lie.h"

/* --- what asks --- */

bool derive_hears_buzz(struct place place, const struct board *board)
{
    for (int s = 1; s <= board->strings; s++)
        if (heard_at(place, s, board->start_fret[s], board->frets).buzzing != 0)
            return true;
    return false;
}

/* The frets whose high spots of an earlier pass have not been rocked since. */
static uint64_t spots_left(struct place place, int frets)
{
    const double u_mm = rocker_u_mm(&place.record);
    uint64_t left = 0;

    for (int n = 1; n <= frets && n <= FRETS_MAX; n++) {
        struct place then = place;

        while (then.pass >= lie_first_pass(place) && !place_read_at(then, FIELD_SPOT, 0, n).given)
            then.pass--;
        if (then.pass > 0 && then.pass < place.pass &&
            rocker_is_high(place_read_at(then, FIELD_SPOT, 0, n), u_mm))
            left |= UINT64_C(1) << n;
    }
    return left;
}

/* A fret that stands high, or a note that buzzes or did before the last work. */
static bool asks_for_frets(struct place place, int strings, int frets)
{
    const double u_mm = rocker_u_mm(&place.record);

    for (int n = 1; n <= frets && n <= FRETS_MAX; n++)
        if (rocker_is_high(place_read_at(place, FIELD_SPOT, 0, n), u_mm))
            return true;
    for (int s = 1; s <= strings; s++) {
        const struct heard_notes notes = heard_at(place, s, 0, frets);

        if ((notes.buzzing | notes.again) != 0)
            return true;
    }
    return spots_left(place, frets) != 0;
}

static bool is_off_pitch(struct place place, int string, int frets)
{
    const double tolerance = record_or_fallback(&place.record, FIELD_CENTS_TOLERANCE);

    for (int n = 1; n <= frets && n <= FRETS_MAX; n++) {
        const struct maybe cents = place_read_at(place, FIELD_CENTS, string, n);

        if (cents.given && setup_is_off(cents.value, tolerance))
            return true;
    }
    return false;
}

static bool is_untuned(struct place place, int strings, int frets)
{
    for (int s = 1; s <= strings; s++)
        if (heard_cents_are_left(place, s, frets))
            return true;
    return false;
}

bool derive_asks(struct place place, enum move_kind kind, int strings, int frets)
{
    if (place.pass < 1)
        return false;
    if (kind == MOVE_FRETS)
        return asks_for_frets(place, strings, frets);
    for (int s = 1; kind == MOVE_PITCH && s <= strings; s++)
        if (is_off_pitch(place, s, frets))
            return true;
    return kind == MOVE_PITCH && is_untuned(place, strings, frets);
}

/* --- frets --- */

/* The most that any witness asks for comes off. */
static void take_off(struct fret_work *work, int fret, double mm, double u)
{
    struct move_amount *amount = &work->fret[fret];

    if (amount->due && -amount->value >= mm)
        return;
    *amount = (struct move_amount){.known = true, .due = true, .value = -mm, .u = u};
}

/* Whether rod, slots or saddle are to change how the strings lie, now or in a while. */
static bool any_set_up(const struct move_set *moves)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (move_is_measured((enum move_kind)kind) && moves->move[kind].state >= MOVE_WAITS &&
            !move_is_left(&moves->move[kind]))
            return true;
    return false;
}

/* What the strings come to, on the way. */
struct hearing {
    struct fret_work work;
    uint64_t explaining; /* frets found high that explain a buzz, bit n for fret n */
    bool by_state[MOVE_DUE + 1];
    bool any;   /* a note was heard */
    bool again; /* something has to be heard again: a note that buzzed before work, or one of an
                   earlier pass, where this one does not say enough to explain it */
};

static enum move_state take_guess(const struct clearance_high_fret *high, int string,
                                  struct fret_work *work)
{
    take_off(work, high->fret, high->least_mm, high->bounded ? high->most_mm - high->least_mm : 0);
    work->guessed[high->fret] = true;
    work->quiet[string] = high->buzz_left == 0;
    return MOVE_DUE;
}

/* What one string's buzz makes of the move. */
static enum move_state hear_string(const struct derived *derived, int string,
                                   const struct buzz *buzz, struct hearing *hearing)
{
    struct fret_work *work = &hearing->work;
    const uint64_t fret = UINT64_C(1) << buzz->fret;

    work->low |= buzz->low;
    switch (buzz->cause) {
    case BUZZ_NONE:
        return MOVE_GOOD;
    case BUZZ_ROCKED:
        hearing->explaining |= fret;
        work->quiet[string] = true;
        return MOVE_DUE;
    case BUZZ_LOW:
        work->worn |= buzz->rock;
        return MOVE_DUE;
    case BUZZ_UNEXPLAINED:
        return MOVE_UNKNOWN;
    default:
        break;
    }
    /* A guess is made from how the strings lie, and that is about to change. */
    if (any_set_up(&derived->moves) || buzz->cause == BUZZ_AS_READ)
        return MOVE_WAITS;
    if (buzz->cause == BUZZ_HIGH)
        return take_guess(&derived->clearance[string].high, string, work);
    work->rock |= buzz->cause == BUZZ_UNSURE ? fret : 0;
    work->again |= buzz->cause == BUZZ_UNFIT ? fret : 0;
    work->worn |= buzz->rock;
    return MOVE_UNKNOWN;
}

/* What an earlier pass asked for is not known to be right, whether it was done or not, until this
 * pass has heard it; that is no use before the strings lie as they will. */
static void ask_again(const struct move_set *moves, struct move *move, enum move_need need)
{
    const bool waits = any_set_up(moves);

    move->state = waits ? MOVE_WAITS : MOVE_UNKNOWN;
    move->waits = waits ? WAIT_SETUP : WAIT_NOTHING;
    move->needs = waits ? NEED_NOTHING : need;
}

static void hear_strings(struct place place, const struct derived *derived, struct hearing *hearing)
{
    const struct board *board = &derived->setup.board;

    for (int s = 1; s <= board->strings; s++) {
        const int start = board->start_fret[s];
        const struct heard_notes notes = heard_at(place, s, start, board->frets);
        const bool here = heard_in_pass(place, s, start, board->frets).buzzing != 0;
        struct buzz buzz;

        hearing->again = hearing->again || notes.again != 0;
        if ((notes.clean | notes.buzzing) == 0)
            continue;
        hearing->any = true;
        buzz_find(place, derived, s, &notes, &buzz);
        const enum move_state state = hear_string(derived, s, &buzz, hearing);
        if (state == MOVE_UNKNOWN && !here)
            hearing->again = true;
        else
            hearing->by_state[state] = true;
    }
}

/* What the rocker found high comes off, unless what was heard says that it is another fret. */
static void take_spots(const struct setup *setup, double u_mm, struct hearing *hearing)
{
    const uint64_t again = hearing->work.again;
    const uint64_t doubted = (again | again << 1 | again >> 1) & ~hearing->explaining;

    for (int n = 1; n <= setup->board.frets; n++) {
        if (rocker_is_high(setup->spot_mm[n], u_mm) && !(doubted >> n & 1)) {
            take_off(&hearing->work, n, setup->spot_mm[n].value, u_mm);
            hearing->by_state[MOVE_DUE] = true;
        } else if (setup->spot_mm[n].given) {
            hearing->by_state[MOVE_GOOD] = true;
        }
    }
}

static void find_frets(struct place place, const struct derived *derived, struct move_set *moves)
{
    const struct setup *setup = &derived->setup;
    struct move *move = &moves->move[MOVE_FRETS];
    struct hearing hearing = {.any = false};
    const bool *by_state = hearing.by_state;

    hear_strings(place, derived, &hearing);
    take_spots(setup, rocker_u_mm(&place.record), &hearing);
    hearing.work.left = spots_left(place, setup->board.frets);
    move->unchecked = !hearing.any;
    if (by_state[MOVE_DUE]) {
        move->state = MOVE_DUE;
    } else if (by_state[MOVE_WAITS] && any_set_up(moves)) {
        move->state = MOVE_WAITS;
        move->waits = WAIT_SETUP;
    } else if ((hearing.work.rock | hearing.work.worn | hearing.work.again) != 0) {
        move->needs = NEED_ROCKER;
    } else if (by_state[MOVE_WAITS] || by_state[MOVE_UNKNOWN]) {
        move->needs = NEED_CAUSE;
    } else if (hearing.again || hearing.work.left != 0) {
        ask_again(moves, move, NEED_HEARING);
    } else if (by_state[MOVE_GOOD]) {
        move->state = MOVE_GOOD;
    }
    moves->frets = hearing.work;
}

/* --- pitch --- */

static struct move_amount setback_of(const struct figures *figures, int string)
{
    const struct figure *one = &figures->at[FIGURE_SETBACK_CHANGE][string];
    const struct figure *fit = &figures->at[FIGURE_SETBACK_FIT][string];
    const struct figure *found = one->known != KNOWN_ABSENT ? one : fit;

    if (found->known == KNOWN_ABSENT)
        return (struct move_amount){.known = false};
    return (struct move_amount){.known = true, .value = found->value, .u = found->u};
}

/* A contact that is not known cannot be said to go anywhere. */
static struct saddle_fit fit_saddle(const struct record *record, const struct derived *derived,
                                    const struct move *move)
{
    struct maybe wanted_mm[STRINGS_MAX + 1] = {{.given = false}};

    for (int s = 1; s <= derived->setup.board.strings; s++) {
        const struct maybe now = derived->setup.setback[s].mm;

        if (now.given && move->string[s].due)
            wanted_mm[s] = maybe_given(now.value + move->string[s].value);
    }
    return derive_saddle_fit(record, derived, wanted_mm);
}

/* A bridge that stands loose is moved at both feet: by what the outer strings ask for, alike where
 * that tells no difference. Without one of them the other stands for both. */
static bool find_feet(const struct setup *setup, struct move_amount *bass,
                      struct move_amount *treble)
{
    if (!setup->floating || (!bass->known && !treble->known))
        return false;
    if (!bass->known || !treble->known) {
        *bass = *treble = bass->known ? *bass : *treble;
    } else if (fabs(bass->value - treble->value) <= hypot(bass->u, treble->u)) {
        bass->value = treble->value = (bass->value + treble->value) / 2;
        bass->u = treble->u = hypot(bass->u, treble->u) / 2;
    }
    bass->due = fabs(bass->value) >= MOVE_SETBACK_MM;
    treble->due = fabs(treble->value) >= MOVE_SETBACK_MM;
    return bass->due || treble->due;
}

/* The inner strings go with it; what is left of theirs the next pass shows. */
static void move_whole(const struct setup *setup, bool off, struct move *move)
{
    const int last = setup->board.strings;
    struct move_amount bass = move->string[last], treble = move->string[1];

    if (!off || !find_feet(setup, &bass, &treble))
        return;
    for (int s = 1; s <= last; s++)
        move->string[s] = (struct move_amount){.known = false};
    move->string[last] = bass;
    move->string[1] = treble;
    move->whole = true;
    move->state = MOVE_DUE;
    move->most_u = fmax(bass.due ? bass.u : 0, treble.due ? treble.u : 0);
}

static void find_pitch(struct place place, const struct derived *derived, struct move_set *moves)
{
    const struct board *board = &derived->setup.board;
    struct move *move = &moves->move[MOVE_PITCH];
    bool unexplained = false;

    move->unchecked = !heard_any_cents(place, board->strings, board->frets);
    move->within_cents = record_or_fallback(&place.record, FIELD_CENTS_TOLERANCE);
    for (int s = 1; s <= board->strings; s++) {
        struct move_amount amount = setback_of(&derived->figures, s);
        const bool off = is_off_pitch(place, s, board->frets);

        amount.due = off && amount.known && fabs(amount.value) >= MOVE_SETBACK_MM;
        unexplained = unexplained || (off && !amount.due);
        move->string[s] = amount;
        if (amount.due)
            move->most_u = fmax(move->most_u, amount.u);
        if (amount.due)
            move->state = MOVE_DUE;
        else if (amount.known && move->state == MOVE_UNKNOWN)
            move->state = MOVE_GOOD;
    }
    move_whole(&derived->setup,
               is_off_pitch(place, 1, board->frets) ||
                   is_off_pitch(place, board->strings, board->frets),
               move);
    if (move->state == MOVE_DUE && !move->whole)
        move->saddle = fit_saddle(&place.record, derived, move);
    if (unexplained && move->state != MOVE_DUE) {
        move->state = MOVE_UNKNOWN;
        move->needs = NEED_CAUSE;
    } else if (move->state != MOVE_DUE && is_untuned(place, board->strings, board->frets)) {
        ask_again(moves, move, NEED_TUNING);
    }
}

static void put_off(struct move_set *moves, enum move_wait waits, int strings)
{
    if (move_is_asked(&moves->move[MOVE_PITCH]))
        move_put_off(&moves->move[MOVE_PITCH], waits, strings);
    if (move_is_asked(&moves->move[MOVE_FRETS]))
        move_put_off(&moves->move[MOVE_FRETS], waits, strings);
    moves->frets = (struct fret_work){.low = 0};
}

void derive_heard_moves(struct place place, const struct derived *derived, struct move_set *moves)
{
    const int strings = derived->setup.board.strings;

    if (place.pass < 1)
        return;
    find_frets(place, derived, moves);
    find_pitch(place, derived, moves);
    if (moves->move[MOVE_RESET].state == MOVE_DUE)
        put_off(moves, WAIT_RESET, strings);
    else if (moves->season_first)
        put_off(moves, WAIT_SEASON, strings);
    /* The setback changes with the heights. */
    else if (any_set_up(moves) && move_is_asked(&moves->move[MOVE_PITCH]))
        move_put_off(&moves->move[MOVE_PITCH], WAIT_SETUP, strings);
}
