/* SPDX-License-Identifier: MIT */
#include "virtual/tech.h"

#include <math.h>
#include <stdlib.h>

#include "build_record.h"
#include "near.h"

/* A feeler of .001 in, a rule of half 64ths, and what a careful hand misses by. */
#define FEELER_MM 0.0254
#define RULE_MM   (25.4 / 128)
#define CAREFUL                                                                                    \
    .feeler_error_mm = 0.008, .rule_error_mm = 0.04, .slot_error_mm = 0.015,                       \
    .saddle_error_mm = 0.05, .string_error_mm = 0.02, .relief_error_mm = 0.01
#define ROUGH                                                                                      \
    .feeler_error_mm = 0.008, .rule_error_mm = 0.04, .slot_error_mm = 0.03,                        \
    .saddle_error_mm = 0.1, .string_error_mm = 0.04, .relief_error_mm = 0.02

const struct virtual_hand virtual_hands[] = {
    {"careful hand", FEELER_MM, RULE_MM, CAREFUL, .marks = true},
    {"marks nothing", FEELER_MM, RULE_MM, CAREFUL, .marks = false},
    {"screws, 0.05 mm gauge", 0.05, 0.1, CAREFUL, .marks = true, .screws = true},
    {"one wrong row in 5 passes", FEELER_MM, RULE_MM, CAREFUL, .marks = true, .slips = true},
    {"hand twice as rough", FEELER_MM, RULE_MM, ROUGH, .marks = true},
    {"two seasons", FEELER_MM, RULE_MM, CAREFUL, .marks = true, .seasons = 1},
    {"0.05 mm gauge, looks again", 0.05, 0.1, CAREFUL, .marks = true, .looks_again = 4},
    {"looks again", FEELER_MM, RULE_MM, CAREFUL, .marks = true, .looks_again = 4},
    {"reads what is asked", FEELER_MM, RULE_MM, CAREFUL, .marks = true, .spares = true},
    {"stubborn rods, high frets", FEELER_MM, RULE_MM, CAREFUL, .marks = true, .spoilt = true},
    {"marks what it did not do", FEELER_MM, RULE_MM, CAREFUL, .marks = true, .claims = true},
    {"no rod, three seasons", FEELER_MM, RULE_MM, CAREFUL, .marks = true, .seasons = 2,
     .rodless = true},
    {"dead rod, three seasons", FEELER_MM, RULE_MM, CAREFUL, .marks = true, .seasons = 2,
     .spoilt = true, .dead = true},
};
const int virtual_hand_count = sizeof virtual_hands / sizeof virtual_hands[0];

struct shop {
    struct virtual_instrument *made;
    const struct virtual_hand *hand;
    struct seeded *seed;
    struct virtual_way *way;
    struct record record;
    struct derived derived;
    int visit, pass, work;
    double turned; /* last */
    bool filled[VIRTUAL_STRINGS + 1], deep[VIRTUAL_STRINGS + 1];
    /* What the work since the last pass has moved. */
    bool moved_relief, moved_gap[VIRTUAL_STRINGS + 1], moved_action[VIRTUAL_STRINGS + 1];
};

/* --- reading --- */

static double read_by(struct shop *shop, double truth_mm, double step_mm, double error_mm)
{
    return step_mm * round((truth_mm + virtual_normal(shop->seed, error_mm)) / step_mm);
}

static double read_feeler(struct shop *shop, double truth_mm)
{
    return read_by(shop, truth_mm, shop->hand->feeler_mm, shop->hand->feeler_error_mm);
}

static double read_rule(struct shop *shop, double truth_mm)
{
    return read_by(shop, truth_mm, shop->hand->rule_mm, shop->hand->rule_error_mm);
}

static void put_pass(struct shop *shop, enum field_id field, int string, double mm)
{
    build_record_put_mm(&shop->record,
                        reading_key_pass_at(field, shop->visit, shop->pass, string, 0), mm);
}

static void put_text(struct shop *shop, enum field_id field, int part, const char *text)
{
    const struct reading_key key = reading_key_pass(field, shop->visit, part);

    assert_int_equal(record_put(&shop->record, &key, text, false, NULL), STATUS_OK);
}

static void put_time(struct shop *shop, enum field_id field, int part, int minute)
{
    char text[16];

    snprintf(text, sizeof text, "%02d:%02d", 8 + minute / 60, minute % 60);
    put_text(shop, field, part, text);
}

static void read_relief(struct shop *shop)
{
    put_pass(shop, FIELD_RELIEF, 0, read_feeler(shop, virtual_relief(shop->made)));
}

static void read_gap(struct shop *shop, int string)
{
    put_pass(shop, FIELD_NUT_GAP, string,
             fmax(0, read_feeler(shop, virtual_gap(shop->made, string))));
}

static void read_action(struct shop *shop, int string)
{
    put_pass(shop, FIELD_ACTION, string,
             fmax(0, read_rule(shop, virtual_action(shop->made, string))));
}

/* What was typed in the wrong row, or for the wrong mark of the rule: a gap a quarter millimetre
 * too wide, an action a millimetre too high. Returns the string, 0 for none. */
static int slip(struct shop *shop, enum field_id *ret_field)
{
    const struct virtual_instrument *made = shop->made;
    const int string = seeded_whole(shop->seed, 1, made->kind->strings);

    if (!shop->hand->slips || seeded_whole(shop->seed, 1, 5) > 1)
        return 0;
    *ret_field = seeded_whole(shop->seed, 0, 1) ? FIELD_ACTION : FIELD_NUT_GAP;
    if (*ret_field == FIELD_ACTION)
        put_pass(shop, FIELD_ACTION, string, read_rule(shop, virtual_action(made, string) + 1));
    else
        put_pass(shop, FIELD_NUT_GAP, string, read_feeler(shop, virtual_gap(made, string) + 0.25));
    shop->way->slips++;
    return string;
}

static void derive(struct shop *shop)
{
    derive_pass(place_of(&shop->record, shop->visit, shop->pass), &shop->derived);
}

/* Reads again what does not fit, as the program asks; three times at the most. */
static void read_again(struct shop *shop, int slipped, enum field_id field)
{
    const struct move_set *moves = &shop->derived.moves;

    for (int times = 0; times < 3 && move_set_is_questioned(moves); times++) {
        if (moves->questioned[BELIEF_RELIEF][0])
            read_relief(shop);
        shop->way->questioned += moves->questioned[BELIEF_RELIEF][0] != QUESTIONED_NOT;
        for (int s = 1; s <= shop->made->kind->strings; s++) {
            const bool gap = moves->questioned[BELIEF_GAP][s];
            const bool action = moves->questioned[BELIEF_ACTION][s];
            const bool found = s == slipped && (field == FIELD_ACTION ? action : gap);

            shop->way->slips_found += found && times == 0;
            shop->way->questioned += gap + action - found;
            if (gap)
                read_gap(shop, s);
            if (action)
                read_action(shop, s);
        }
        derive(shop);
    }
}

/* Reads what the program asks for before it says more of slots and saddle. */
static void read_missed(struct shop *shop)
{
    const struct move *move = shop->derived.moves.move;
    const bool gaps = move[MOVE_SLOTS].needs == NEED_GAP && move_is_missed(&move[MOVE_SLOTS]);
    const bool actions =
        move[MOVE_SADDLE].needs == NEED_ACTION && move_is_missed(&move[MOVE_SADDLE]);

    for (int s = 1; s <= shop->made->kind->strings; s++) {
        if (gaps)
            read_gap(shop, s);
        if (actions)
            read_action(shop, s);
    }
    if (gaps || actions)
        derive(shop);
}

/* Over its neighbours, which are level but for what crowns always are. */
static void rock(struct shop *shop)
{
    const int fret = shop->made->kind->action_fret;
    const double *uneven = shop->made->uneven_mm;

    build_record_put_mm(
        &shop->record, reading_key_pass_at(FIELD_SPOT, shop->visit, shop->pass, 0, fret),
        read_feeler(shop, uneven[fret] - (uneven[fret - 1] + uneven[fret + 1]) / 2));
}

static void forget_moved(struct shop *shop)
{
    shop->moved_relief = false;
    for (int s = 1; s <= VIRTUAL_STRINGS; s++)
        shop->moved_gap[s] = shop->moved_action[s] = false;
}

static void read_all(struct shop *shop)
{
    const struct virtual_instrument *made = shop->made;
    const bool all = shop->pass == 0 || !shop->hand->spares;
    enum field_id field = FIELD_ACTION;

    shop->pass++;
    put_time(shop, FIELD_PASS_TIME, shop->pass, 30 * shop->pass);
    if (all || shop->moved_relief)
        read_relief(shop);
    for (int s = 1; s <= made->kind->strings; s++) {
        if (all || shop->moved_gap[s])
            read_gap(shop, s);
        if (all || shop->moved_action[s])
            read_action(shop, s);
    }
    forget_moved(shop);
    if (shop->hand->spoilt)
        rock(shop);
    put_pass(shop, FIELD_EXPOSURE_BASS, 0, read_rule(shop, made->exposure_bass_mm));
    put_pass(shop, FIELD_EXPOSURE_TREBLE, 0, read_rule(shop, made->exposure_treble_mm));
    shop->way->read += 1 + 2 * made->kind->strings;
    const int slipped = slip(shop, &field);
    derive(shop);
    read_missed(shop);
    read_again(shop, slipped, field);
}

/* --- working --- */

/* A shim is made to size, and lifts all strings alike. */
static void raise_nut(struct shop *shop, double mm)
{
    const double made_mm = mm + virtual_normal(shop->seed, shop->hand->slot_error_mm);

    for (int s = 1; s <= shop->made->kind->strings; s++) {
        virtual_work_slot(shop->made, s, made_mm);
        shop->moved_gap[s] = shop->moved_action[s] = true;
    }
}

/* A file can only take away, a fill is levelled to what was meant: both miss. */
static void work_slots(struct shop *shop, const struct move *move)
{
    struct virtual_instrument *made = shop->made;

    if (move->raise.given)
        raise_nut(shop, move->raise.value);
    for (int s = 1; s <= made->kind->strings && !move->raise.given; s++) {
        if (!move->string[s].due)
            continue;
        shop->moved_gap[s] = shop->moved_action[s] = true;
        const double wanted = virtual_gap_wanted(made, s), before = virtual_gap_at_target(made, s);

        virtual_work_slot(
            made, s, move->string[s].value + virtual_normal(shop->seed, shop->hand->slot_error_mm));
        if (move->string[s].value > 0 && before > wanted - 0.06)
            shop->filled[s] = true;
        if (move->string[s].value < 0 && virtual_gap_at_target(made, s) < wanted - 0.06)
            shop->deep[s] = true;
    }
}

/* A blank misses along its whole length and by string; screws by themselves, to a tenth of a
 * turn. */
static void work_saddle(struct shop *shop, const struct move *move)
{
    const struct virtual_hand *hand = shop->hand;
    const double thread = shop->made->kind->thread_mm;
    const double together = virtual_normal(shop->seed, hand->saddle_error_mm);

    for (int s = 1; s <= shop->made->kind->strings; s++) {
        const double value = move->string[s].value;

        if (!move->string[s].due)
            continue;
        shop->moved_action[s] = true;
        const double own = virtual_normal(shop->seed, hand->string_error_mm);
        virtual_work_saddle(shop->made, s,
                            hand->screws && thread > 0 ? thread * round(10 * value / thread) / 10
                                                       : value + together + own);
    }
}

static void mark(struct shop *shop, enum move_kind kind)
{
    if (!shop->hand->marks)
        return;
    put_text(shop, FIELD_WORK_KIND, ++shop->work, work_mark_name(kind));
    put_time(shop, FIELD_WORK_TIME, shop->work, 30 * shop->pass + 5 + (int)kind);
}

/* Until the relief is right; that moves each action. */
static void turn_rod(struct shop *shop, double relief_mm)
{
    virtual_set_relief(shop->made,
                       relief_mm + virtual_normal(shop->seed, shop->hand->relief_error_mm));
    shop->moved_relief = true;
    for (int s = 1; s <= shop->made->kind->strings; s++)
        shop->moved_action[s] = true;
}

static void log_turn(struct shop *shop, double turns)
{
    const struct move *rod = &shop->derived.moves.move[MOVE_ROD];
    const struct reading_key key = reading_key_pass(FIELD_ROD_TURN, shop->visit, shop->pass + 1);
    char text[32];

    virtual_turn(shop->made, turns);
    if (turns * shop->made->per_turn_mm * rod->amount.value <= 0)
        shop->way->turned += fabs(turns);
    snprintf(text, sizeof text, "%.3f turn", turns);
    assert_int_equal(record_put(&shop->record, &key, text, false, NULL), STATUS_OK);
    shop->turned = turns;
}

/* As many turns as are asked for at once, else a quarter, the way that is said; they are logged,
 * and what follows from that is looked at before anything else is done. */
static void turn_as_asked(struct shop *shop)
{
    const struct move *rod = &shop->derived.moves.move[MOVE_ROD];
    bool is_all;
    const double turns = rod->turns.given
                             ? copysign(move_turns_at_once(rod, &is_all), rod->turns.value)
                             : copysign(0.25, -rod->amount.value);

    log_turn(shop, turns);
}

/* A relief that went the wrong way is brought back, to see that it was the rod; a nut that may be
 * loose is turned on, to see whether it bites. */
static bool see_to_rod(struct shop *shop)
{
    const struct move *rod = &shop->derived.moves.move[MOVE_ROD];

    if (!move_is_rod_looked_at(rod))
        return false;
    log_turn(shop, rod->needs == NEED_ROD_WAY ? -shop->turned : copysign(0.25, rod->way));
    mark(shop, MOVE_ROD);
    return true;
}

static void level(struct shop *shop)
{
    const int fret = shop->made->kind->action_fret;

    shop->made->uneven_mm[fret] += shop->derived.moves.frets.fret[fret].value;
}

/* One move of a spoilt instrument, and the list read again; false where it is not due. */
static bool work_spoilt(struct shop *shop, enum move_kind kind)
{
    const struct move *move = &shop->derived.moves.move[kind];

    if (!move_is_open(move))
        return false;
    if (kind == MOVE_ROD)
        turn_as_asked(shop);
    else if (kind == MOVE_FRETS)
        level(shop);
    else if (kind == MOVE_SLOTS)
        work_slots(shop, move);
    else
        work_saddle(shop, move);
    mark(shop, kind);
    derive(shop);
    return true;
}

/* Does what is due, and looks at the list again once a move is marked; false where nothing was. A
 * reset ends it: the bench has instruments that need none. */
static bool work_all(struct shop *shop)
{
    const struct move *move = shop->derived.moves.move;
    const struct virtual_kind *kind = shop->made->kind;
    bool any = shop->hand->spoilt && see_to_rod(shop);

    for (int k = MOVE_ROD; k <= MOVE_SADDLE && shop->hand->spoilt; k++)
        any = work_spoilt(shop, (enum move_kind)k) || any;
    for (int k = MOVE_ROD; k <= MOVE_SADDLE && !shop->hand->spoilt; k++) {
        if (!move_is_measured((enum move_kind)k) || !move_is_open(&move[k]))
            continue;
        any = true;
        if (k == MOVE_ROD && shop->hand->rodless)
            continue; /* asked for all the same */
        if (shop->hand->claims && seeded_whole(shop->seed, 1, 5) == 1)
            shop->way->claimed++;
        else if (k == MOVE_ROD)
            turn_rod(shop, kind->relief_mm);
        else if (k == MOVE_SLOTS)
            work_slots(shop, &move[k]);
        else
            work_saddle(shop, &move[k]);
        mark(shop, (enum move_kind)k);
        derive(shop);
    }
    return any;
}

/* --- the way --- */

static void put_one(struct shop *shop, enum field_id field, double mm)
{
    build_record_put_mm(&shop->record, reading_key_one(field), mm);
}

static void begin(struct shop *shop)
{
    const struct virtual_kind *kind = shop->made->kind;
    char lines[300];

    snprintf(lines, sizeof lines,
             "board strings = %d\nboard frets = %d\nboard join_fret = %d\n"
             "board action_fret = %d\nboard relief_fret = %d\nbridge kind = %s\n"
             "neck rod = %s\n",
             kind->strings, kind->frets, kind->join, kind->action_fret, shop->made->relief_fret,
             kind->bridge == VIRTUAL_BLANK ? "blank" : "screw",
             shop->hand->rodless ? "none" : "two-way");
    build_record(&shop->record, lines);
    put_one(shop, FIELD_SCALE, kind->scale_mm);
    put_one(shop, FIELD_TARGET_RELIEF, kind->relief_mm);
    put_one(shop, FIELD_TARGET_ACTION_BASS, kind->action_bass_mm);
    put_one(shop, FIELD_TARGET_ACTION_TREBLE, kind->action_treble_mm);
    put_one(shop, FIELD_TARGET_GAP_BASS, kind->gap_bass_mm);
    put_one(shop, FIELD_TARGET_GAP_TREBLE, kind->gap_treble_mm);
    put_one(shop, FIELD_FEELER_STEP, shop->hand->feeler_mm);
    put_one(shop, FIELD_RULE_STEP, shop->hand->rule_mm);
    put_one(shop, FIELD_EXPOSURE_MIN, 1);
    for (int s = 1; s <= kind->strings; s++)
        build_record_put_mm(&shop->record, reading_key_string(FIELD_SETBACK, s), 2);
    if (kind->thread_mm > 0)
        put_one(shop, FIELD_THREAD, kind->thread_mm);
}

static void look(const struct shop *shop, struct virtual_way *way, bool asked)
{
    const bool right = virtual_is_right(shop->made);

    way->passes++;
    if (right && way->first_right == 0)
        way->first_right = way->passes;
    way->asked_right += right && asked;
}

/* In other air than the last time slots and saddle wait for the rod; where none turns, for the
 * first air. */
static bool is_cut_early(const struct shop *shop)
{
    const struct move *move = shop->derived.moves.move;
    const bool turns = !shop->hand->rodless && !shop->hand->dead;

    return shop->visit == 2 && (turns ? shop->pass == 1 && move_is_open(&move[MOVE_ROD]) : true) &&
           (move_is_open(&move[MOVE_SLOTS]) || move_is_open(&move[MOVE_SADDLE]));
}

/* Nothing was asked for: read once more, and whatever is asked for now is done. */
static void look_again(struct shop *shop)
{
    for (int i = 0; i < shop->hand->looks_again; i++) {
        read_all(shop);
        shop->way->looked_again++;
        shop->way->asked_again += work_all(shop);
    }
}

/* One visit, until nothing is asked for. */
static void visit_shop(struct shop *shop, int most, const char *date, const char *humidity)
{
    struct virtual_way *way = shop->way;
    bool cut_early = false;

    shop->visit++;
    shop->pass = shop->work = 0;
    put_text(shop, FIELD_VISIT_DATE, 0, date);
    put_text(shop, FIELD_HUMIDITY, 0, humidity);
    put_text(shop, FIELD_TEMPERATURE, 0, "21 C");
    way->ended = false;
    while (shop->pass < most && !way->ended) {
        read_all(shop);
        look(shop, way, move_set_count(&shop->derived.moves, move_is_open) > 0);
        cut_early = cut_early || is_cut_early(shop);
        way->ended = !work_all(shop) && !move_set_is_questioned(&shop->derived.moves);
    }
    way->cut_early += cut_early;
    look_again(shop);
}

/* From dry air to damp and back, or the other way round. */
static void work_in_seasons(struct shop *shop, int most)
{
    static const char *const days[] = {"2026-03-02", "2026-09-02", "2027-03-02"};
    static const char *const humidity[] = {"45", "70"};
    const bool back = shop->hand->seasons > 1, damp_first = back && seeded_whole(shop->seed, 0, 1);
    double sign = damp_first ? -1 : 1;

    visit_shop(shop, most, days[0], humidity[damp_first]);
    if (shop->hand->seasons == 0)
        return;
    const double relief_mm = seeded_between(shop->seed, 0.1, 0.25);
    const double lift_mm = seeded_between(shop->seed, 0, 0.5);
    shop->way->returns++;
    for (int i = 1; i <= shop->hand->seasons; i++, sign = -sign) {
        virtual_season(shop->made, sign * relief_mm, sign * lift_mm);
        visit_shop(shop, most, days[i], humidity[(i % 2 == 1) != damp_first]);
    }
}

void virtual_work(struct virtual_instrument *made, const struct virtual_hand *hand, int most,
                  struct seeded *seed, struct virtual_way *ret_way)
{
    struct shop *shop = calloc(1, sizeof *shop);
    struct virtual_way way = {.strings = made->kind->strings};

    assert_non_null(shop);
    *shop = (struct shop){.made = made, .hand = hand, .seed = seed, .way = &way};
    begin(shop);
    work_in_seasons(shop, most);
    way.right = virtual_is_right(made);
    for (int s = 1; s <= made->kind->strings; s++) {
        way.filled += shop->filled[s];
        way.deep += shop->deep[s];
    }
    record_done(&shop->record);
    free(shop);
    *ret_way = way;
}
