/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "leaf/leaves.h"
#include "leaf/jobs/work_cautions.h"
#include "leaf/jobs/work_list.h"
#include "session/pass_end.h"
#include "session/refresh.h"
#include "bench_session.h"
#include "build_record.h"
#include "words/caution.h"

static struct app *start(const char *lines, const char *more)
{
    return bench_open(lines, more, LEAF_WORK);
}

static struct work_list list_of(const struct app *app)
{
    struct work_list list;

    work_list_make(app, &list);
    return list;
}

static int count(const struct app *app, bool (*is_such)(const struct move *))
{
    return move_set_count(&list_of(app).derived->moves, is_such);
}

static const char *left_words(const struct app *app)
{
    static char memory[200];
    struct strbuf out = STRBUF(memory);
    const struct work_list list = list_of(app);

    strbuf_clear(&out);
    work_add_left(&list, &out);
    return memory;
}

static void check_text(const struct app *app, const char *line, const char *want)
{
    const char *text = bench_text(app, line);

    if (!text)
        fail_msg("%s is absent", line);
    assert_string_equal(text, want);
}

static bool warns(const struct app *app, const char *words)
{
    const struct work_list list = list_of(app);

    for (int k = 0; k < caution_count(); k++)
        if (strstr(caution_text(k), words) && work_cautions_apply(app, &list, k))
            return true;
    return false;
}

/* Of work that is to do or done; a reset that is not due brings no heat, and neither does a shim.
 */
static void cautions_are_of_listed_work(void **state)
{
    static const char low[] = "visit.1.pass.1 exposure_bass = 1.5 mm\n"
                              "visit.1.pass.1 exposure_treble = 1.5 mm\n";
    const struct reading_key heel = reading_key_one(FIELD_HEEL_DEPTH);
    struct app *app = start(build_record_full, "");

    (void)state;
    assert_false(warns(app, "heat and steam"));
    assert_true(warns(app, "stop when it binds"));
    assert_false(warns(app, "cyanoacrylate"));
    bench_close(app);
    app = start(build_record_full, "visit.1.work.1 kind = glued a brace\n");
    assert_true(warns(app, "cyanoacrylate"));
    bench_close(app);
    app = start(build_record_full, low);
    assert_true(warns(app, "heat and steam"));
    assert_true(record_remove(&app->record, &heel));
    app_refresh(app);
    assert_true(warns(app, "slacken first"));
    assert_false(warns(app, "heat and steam"));
    bench_close(app);
}

/* The pocket's length need not be known. */
static void a_neck_in_a_pocket_is_shimmed(void **state)
{
    static const char pocket[] = "visit.1.pass.1 exposure_bass = 1.5 mm\n"
                                 "visit.1.pass.1 exposure_treble = 1.5 mm\n"
                                 "neck join = pocket\n";
    const struct reading_key heel = reading_key_one(FIELD_HEEL_DEPTH);
    struct app *app = start(build_record_full, pocket);

    (void)state;
    assert_true(record_remove(&app->record, &heel));
    app_refresh(app);
    assert_true(warns(app, "slacken first"));
    assert_false(warns(app, "heat and steam"));
    assert_false(warns(app, "chisel"));
    bench_close(app);
}

/* The cursor on a move that is not due calls for no caution. */
static void a_move_that_is_not_due_has_no_name_to_go_by(void **state)
{
    struct app *app = start(build_record_full, "");
    const struct work_list list = list_of(app);
    char memory[40];
    struct strbuf name = STRBUF(memory);

    (void)state;
    work_cautions_add_name(&list, MOVE_RESET, &name);
    assert_string_equal(memory, "");
    work_cautions_add_name(&list, MOVE_ROD, &name);
    assert_string_equal(memory, "rod ");
    bench_close(app);
}

/* A reset that is not due stands before the move that is. */
static void home_goes_to_the_first_open_move(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, "{Up}");
    assert_int_equal(work_move_in_hand(app), MOVE_RESET);
    bench_press(app, "{End}{Home}");
    assert_int_equal(work_move_in_hand(app), MOVE_ROD);
    bench_close(app);
}

/* So that slots and saddle wait for nothing. */
#define RELIEF_RIGHT "visit.1.pass.1 relief = .006 in\n"

/* The session begins at what is next; each d goes on to what is left. */
static void moves_are_marked_done_in_order(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    assert_int_equal(work_move_in_hand(app), MOVE_ROD);
    assert_non_null(strstr(left_words(app), "rod, slots, saddle"));
    assert_true(bench_press(app, " ").save);
    check_text(app, "visit.1.work.1 kind", "rod");
    check_text(app, "visit.1.work.1 amount",
               "tighten 1/4 turn at a time, reading: relief -.007 +-.001 in");
    check_text(app, "visit.1.work.1 time", "10:42");
    assert_non_null(strstr(bench_text(app, "visit.1.work.1 note"), "expect relief .006 in"));
    assert_true(move_is_done(&list_of(app).moves[MOVE_ROD]));
    /* By how many turns is left open: what rests on the relief waits until it is read. */
    bench_press(app, "{Enter}");
    assert_int_equal(work_move_in_hand(app), MOVE_COUNT_);
    assert_non_null(strstr(left_words(app), "measure again; waits: slots, saddle"));
    bench_close(app);
}

static void slots_and_saddle_are_marked_done_in_order(void **state)
{
    struct app *app = start(build_record_full, RELIEF_RIGHT);

    (void)state;
    assert_int_equal(work_move_in_hand(app), MOVE_SLOTS);
    bench_press(app, " ");
    assert_int_equal(work_move_in_hand(app), MOVE_SADDLE);
    assert_non_null(strstr(bench_text(app, "visit.1.work.1 amount"), "string 6 -.0"));
    assert_non_null(strstr(bench_text(app, "visit.1.work.1 note"), "expect action "));
    bench_press(app, " ");
    assert_int_equal(count(app, move_is_open), 0);
    assert_int_equal(count(app, move_is_done), 2);
    assert_non_null(strstr(left_words(app), "all marked done: measure again"));
    for (const char *c = bench_text(app, "visit.1.work.2 amount"); *c; c++)
        assert_true(*c >= ' ' && *c <= '~');
    bench_close(app);
}

/* With no move left, the cursor is on no line that is written: what is typed next replaces none. */
static void after_the_last_move_comes_a_line_of_ones_own(void **state)
{
    static const char *const ways[] = {"cut{Enter}lowered{Enter}", "  "};

    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct app *app = start(build_record_full, RELIEF_RIGHT);

        bench_press(app, ways[i]);
        assert_int_equal(count(app, move_is_open), 0);
        assert_int_equal(app_cell(app)->key.field, FIELD_WORK_KIND);
        assert_int_equal(app_cell(app)->key.part, 3);
        bench_press(app, "1{Enter}{Enter}");
        check_text(app, "visit.1.work.1 kind", "slots");
        check_text(app, "visit.1.work.3 kind", "1");
        bench_close(app);
    }
}

static void a_mark_is_one_step(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, " *u");
    assert_int_equal(record_last_work(&app->record, 1), 0);
    assert_int_equal(work_move_in_hand(app), MOVE_ROD);
    bench_press(app, "*r");
    check_text(app, "visit.1.work.1 kind", "rod");
    assert_int_equal(app->leaf, LEAF_WORK);
    bench_close(app);
}

/* A second d on the same readings asks for a new pass; x takes the mark off. */
static void a_done_move_waits_for_the_next_pass(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, " {Left}");
    assert_int_equal(work_move_in_hand(app), MOVE_ROD);
    assert_false(bench_press(app, " ").save);
    assert_non_null(strstr(app->message, "measure again"));
    bench_press(app, "*z");
    assert_int_equal(record_last_work(&app->record, 1), 0);
    assert_true(move_is_open(&list_of(app).moves[MOVE_ROD]));
    bench_press(app, "*u");
    check_text(app, "visit.1.work.1 kind", "rod");
    bench_close(app);
}

/* What was done of a move can be typed on the number pad. */
static void an_amount_typed_on_a_move_logs_it(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, "1/4{Enter}");
    check_text(app, "visit.1.work.1 kind", "rod");
    check_text(app, "visit.1.work.1 amount", "1/4");
    check_text(app, "visit.1.work.1 time", "10:42");
    /* What a turn does is not known: what rests on the relief waits until it is read. */
    assert_int_equal(work_move_in_hand(app), MOVE_COUNT_);
    bench_close(app);
    app = start(build_record_full, RELIEF_RIGHT);
    assert_int_equal(work_move_in_hand(app), MOVE_SLOTS);
    /* The plan's outcome is not to be expected of another amount. */
    bench_press(app, "-.002 in{Enter}");
    check_text(app, "visit.1.work.1 kind", "slots");
    assert_null(bench_text(app, "visit.1.work.1 note"));
    bench_close(app);
}

static void a_line_of_ones_own_begins_with_its_kind(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, "*ad new set{Enter}");
    check_text(app, "visit.1.work.1 kind", "d new set");
    check_text(app, "visit.1.work.1 time", "10:42");
    assert_int_equal(app_cell(app)->key.field, FIELD_WORK_AMOUNT);
    assert_int_equal(app_cell(app)->key.part, 1);
    bench_press(app, ".012{Enter}to .053{Enter}");
    check_text(app, "visit.1.work.1 amount", ".012");
    check_text(app, "visit.1.work.1 note", "to .053");
    bench_press(app, "{Up}{Down}*z");
    assert_int_equal(record_last_work(&app->record, 1), 0);
    bench_press(app, "*u");
    check_text(app, "visit.1.work.1 note", "to .053");
    bench_close(app);
}

/* A line that is written is replaced when that is asked for twice, or when it was opened for it. */
static void a_written_line_is_asked_about(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, "*aslot{Enter}filed{Enter}{Enter}{Enter}{Up}");
    assert_int_equal(app_cell(app)->key.field, FIELD_WORK_KIND);
    assert_int_equal(app_cell(app)->key.part, 1);
    assert_false(bench_press(app, "14{Enter}").save);
    assert_string_equal(app->message, "Held: line 1 says slot: replace it?");
    check_text(app, "visit.1.work.1 kind", "slot");
    assert_true(bench_press(app, "{Enter}").save);
    check_text(app, "visit.1.work.1 kind", "14");
    assert_true(bench_press(app, "{Ins} to .012{Enter}").save);
    check_text(app, "visit.1.work.1 amount", "filed to .012");
    bench_close(app);
}

/* A line taken out of the middle leaves the others' numbers alone. */
static void lines_keep_their_numbers(void **state)
{
    struct app *app = start(build_record_full, "visit.1.work.1 kind = one\n"
                                               "visit.1.work.2 kind = two\n"
                                               "visit.1.work.3 kind = three\n");

    (void)state;
    bench_press(app, "{Home}{Down}{Down}{Down}{Down}*z");
    assert_null(bench_text(app, "visit.1.work.2 kind"));
    check_text(app, "visit.1.work.3 kind", "three");
    bench_press(app, "*afour{Enter}");
    check_text(app, "visit.1.work.4 kind", "four");
    bench_close(app);
}

/* Work done before a pass was read is not what that pass asks for. */
static void only_work_since_the_readings_counts(void **state)
{
    struct app *app = start(build_record_full, "visit.1.pass.1 time = 10:00\n"
                                               "visit.1.work.1 kind = rod\n"
                                               "visit.1.work.1 time = 09:59\n"
                                               "visit.1.work.2 kind = slots\n"
                                               "visit.1.work.2 time = 2026-03-03T08:00\n"
                                               "visit.1.work.3 kind = saddle\n");

    (void)state;
    assert_true(move_is_open(&list_of(app).moves[MOVE_ROD]));
    assert_true(move_is_done(&list_of(app).moves[MOVE_SLOTS]));
    assert_int_equal(list_of(app).moves[MOVE_SLOTS].done_by, 2);
    /* Without a time nobody can tell. */
    assert_true(move_is_open(&list_of(app).moves[MOVE_SADDLE]));
    bench_close(app);
}

/* A pass that was begun and has no reading yet is left on the way to the jobs. */
static void an_empty_pass_keeps_the_jobs(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, " ");
    while (app->leaf != LEAF_BENCH)
        bench_press(app, "{PgUp}");
    bench_press(app, "p");
    assert_int_equal(app->pass, 2);
    while (app->leaf != LEAF_WORK)
        bench_press(app, "{PgDn}");
    assert_int_equal(app->pass, 1);
    assert_int_equal(list_of(app).pass, 1);
    assert_true(move_is_done(&list_of(app).moves[MOVE_ROD]));
    assert_int_equal(list_of(app).moves[MOVE_SLOTS].waits, WAIT_AGAIN);
    bench_close(app);
}

/* --- the rod's turns --- */

#define TURNS "visit.1.pass.2 rod_turn"

static void the_turns_are_asked_for_when_the_rod_is_marked(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    assert_true(bench_press(app, " ").save);
    assert_int_equal(app_cell(app)->key.field, FIELD_ROD_TURN);
    assert_non_null(strstr(app->message, "how many turns"));
    assert_true(bench_press(app, "1/4{Enter}").save);
    check_text(app, TURNS, "1/4 turn");
    assert_int_equal(work_move_in_hand(app), MOVE_COUNT_);
    assert_int_equal(list_of(app).moves[MOVE_SLOTS].waits, WAIT_AGAIN);
    /* The mark still counts, and the pass is not begun: its time is that of its first reading. */
    assert_true(move_is_done(&list_of(app).moves[MOVE_ROD]));
    assert_int_equal(app->pass, 1);
    assert_null(bench_text(app, "visit.1.pass.2 time"));
    bench_press(app, "{F2}p");
    assert_int_equal(app->pass, 2);
    assert_non_null(strstr(app->message, "rod, as marked on Work"));
    bench_press(app, "6{Enter}");
    check_text(app, "visit.1.pass.2 time", "10:42");
    check_text(app, TURNS, "1/4 turn");
    bench_close(app);
}

static void the_turns_can_be_left_open(void **state)
{
    static const char *const ways[] = {"{Enter}", " ", "{Up}{Down}{Down}"};

    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct app *app = start(build_record_full, "");

        bench_press(app, " ");
        assert_false(bench_press(app, ways[i]).save);
        assert_int_equal(list_of(app).moves[MOVE_SLOTS].waits, WAIT_AGAIN);
        assert_null(bench_text(app, TURNS));
        bench_close(app);
    }
}

static void logged_turns_are_taken_back_where_they_were_logged(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, " 1/4{Enter}*u");
    assert_null(bench_text(app, TURNS));
    assert_int_equal(app->leaf, LEAF_WORK);
    assert_int_equal(app->pass, 1);
    bench_close(app);
}

/* A gap that is typed straight on is no turn of the rod, here neither. */
static void a_gap_is_no_turn(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, " .029{Enter}");
    assert_null(bench_text(app, TURNS));
    assert_non_null(strstr(app->message, "nut gap"));
    bench_close(app);
}

static void a_refusal_stays_with_the_turns(void **state)
{
    static const char *const ways[] = {" 90{Enter}", " 2..5{Enter}", "*490{Enter}"};

    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct app *app = start(build_record_full, "");

        bench_press(app, ways[i]);
        assert_int_equal(app->tone, TONE_WARNING);
        assert_int_equal(app_cell(app)->key.field, FIELD_ROD_TURN);
        bench_press(app, ".25{Enter}");
        assert_null(bench_text(app, TURNS));
        bench_press(app, "{Back}.25{Enter}");
        check_text(app, TURNS, ".25 turn");
        assert_int_equal(record_last_work(&app->record, 1), 1);
        bench_close(app);
    }
}

static void back_from_the_turns_is_the_rod(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, " {Back}");
    assert_int_equal(work_move_in_hand(app), MOVE_ROD);
    assert_int_equal(app_cell(app)->key.field, FIELD_WORK_AMOUNT);
    bench_close(app);
}

/* As what was done of the rod, a number of turns is logged as such; both are one step. */
static void turns_typed_as_what_was_done_are_logged(void **state)
{
    static const struct {
        const char *typed, *amount, *turns;
    } cases[] = {
        {"1/4{Enter}", "1/4", "1/4 turn"},
        {".25{Enter}", ".25", ".25 turn"},
        {"1/8 turn{Enter}", "1/8 turn", "1/8 turn"},
        {"tightened{Enter}", "tightened", NULL},
        /* Held: how much that is, nobody can tell. */
        {"1/4 to the left{Enter}", NULL, NULL},
        {"1/4 to the left{Enter}{Enter}", "1/4 to the left", NULL},
        /* Held, as where the turns are asked for. */
        {".029{Enter}", NULL, NULL},
        {".029{Enter}{Enter}", ".029", ".029 turn"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = start(build_record_full, "");

        bench_press(app, cases[i].typed);
        if (cases[i].turns)
            check_text(app, TURNS, cases[i].turns);
        else
            assert_null(bench_text(app, TURNS));
        if (cases[i].amount) {
            check_text(app, "visit.1.work.1 amount", cases[i].amount);
            assert_int_equal(work_move_in_hand(app), MOVE_COUNT_);
            bench_press(app, "*1");
            assert_null(bench_text(app, TURNS));
        }
        assert_int_equal(record_last_work(&app->record, 1), 0);
        bench_close(app);
    }
}

/* A minus is easily left out; against the move, both rows ask before they file turns. */
static void turns_against_the_move_are_asked_about(void **state)
{
    static const char low[] = "visit.1.pass.1 relief = .002 in\n";
    static const char slackening[] = "1/4 turn tightens, but slackening is due; did you mean -1/4?";
    static const struct {
        const char *more, *typed, *said, *turns;
    } cases[] = {
        {low, "1/4", slackening, "1/4 turn"},
        {low, " 1/4", slackening, "1/4 turn"},
        {low, "-1/4", "", "-1/4 turn"},
        {low, " -1/4", "", "-1/4 turn"},
        {low, "0", "", "0 turn"},
        {"", "-.3125 turn", "-5/16 turn slackens, but tightening is due; did you mean 5/16?",
         "-.3125 turn"},
        {"", "-.333", "-0.333 turn slackens, but tightening is due; did you mean 0.333?",
         "-.333 turn"},
        {"visit.1.pass.1 relief = .006 in\n", "-1/4",
         "-1/4: nothing is due here; was it done all the same?", "-1/4 turn"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = start(build_record_full, cases[i].more);

        while (work_move_in_hand(app) != MOVE_ROD)
            bench_press(app, "{Up}");
        bench_press(app, cases[i].typed);
        assert_string_equal(app->doubt_words, cases[i].said);
        assert_true(strlen("Enter asks: ") + strlen(app->doubt_words) <= 78);
        bench_press(app, "{Enter}");
        if (cases[i].said[0]) {
            assert_null(bench_text(app, TURNS));
            bench_press(app, "{Enter}");
        }
        check_text(app, TURNS, cases[i].turns);
        bench_close(app);
    }
}

/* A neck that was seen to answer the other way is slackened where others are tightened. */
static void turns_go_by_the_order_not_by_the_usual_rod(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, "{Home}");
    assert_int_equal(work_move_in_hand(app), MOVE_ROD);
    struct move *rod = &app->now.moves.move[MOVE_ROD];
    rod->turns = maybe_given(-0.25);
    rod->per_turn = maybe_given(rod->amount.value / -0.25);
    assert_false(move_tightens(rod));
    bench_press(app, "-1/4");
    assert_int_equal(app->doubt.kind, DOUBT_NONE);
    bench_press(app, "{Esc}1/4");
    assert_string_equal(app->doubt_words,
                        "1/4 turn tightens, but slackening is due; did you mean -1/4?");
    bench_close(app);
}

/* Bench says what is to be done about a reading that does not fit. */
static void a_pass_with_a_questioned_reading_is_read_again(void **state)
{
    struct app *app = start(build_record_full, "");
    char memory[200];
    struct strbuf words = STRBUF(memory);

    (void)state;
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        app->now.moves.move[kind].state = MOVE_GOOD;
    app->now.moves.questioned[BELIEF_GAP][3] = QUESTIONED_HERE;
    assert_int_equal(move_set_verdict(&app->now.moves), MOVES_MEASURE);
    bench_press(app, "{F2}");
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        app->now.moves.move[kind].state = MOVE_GOOD;
    app->now.moves.questioned[BELIEF_GAP][3] = QUESTIONED_HERE;
    strbuf_clear(&words);
    pass_end_add_words(app, &words);
    assert_string_equal(memory, "all cells done; a reading does not fit the others: read it again");
    bench_close(app);
}

/* A digit that was meant for another cell is not filed as work, and of work that is, no number
 * stands alone. */
static void a_stray_number_is_no_work(void **state)
{
    static const struct {
        enum move_kind kind;
        const char *typed, *said;
    } cases[] = {
        {MOVE_RESET, "7", "7: nothing is due here; was it done all the same?"},
        {MOVE_SADDLE, "1/4", "1/4: how much is that? Say its unit, too"},
        {MOVE_SLOTS, "-.008", "-.008: how much is that? Say its unit, too"},
        {MOVE_SADDLE, "1/4 turn", ""},
        {MOVE_SADDLE, "1/64 in", ""},
        {MOVE_SLOTS, "string 6 -.008 in", ""},
        {MOVE_SADDLE, "lowered", ""},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = start(build_record_full, "");

        bench_press(app, "{Up}");
        for (int k = 0; k < MOVE_COUNT_ && work_move_in_hand(app) != cases[i].kind; k++)
            bench_press(app, "{Down}");
        assert_int_equal(work_move_in_hand(app), cases[i].kind);
        bench_press(app, cases[i].typed);
        assert_string_equal(app->doubt_words, cases[i].said);
        bench_press(app, "{Enter}");
        assert_int_equal(record_last_work(&app->record, 1), cases[i].said[0] ? 0 : 1);
        bench_press(app, cases[i].said[0] ? "{Enter}" : "");
        assert_int_equal(record_last_work(&app->record, 1), 1);
        bench_close(app);
    }
}

static void turns_are_logged_of_the_rod_alone(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, "{Down}1/4{Enter}{Enter}");
    check_text(app, "visit.1.work.1 kind", "slots");
    assert_null(bench_text(app, TURNS));
    bench_close(app);
}

/* --- letters --- */

/* They write on this leaf, so what was likely a command is asked about. */
static void a_letter_is_asked_about(void **state)
{
    static const struct {
        const char *typed, *said;
    } cases[] = {
        {"u", "u as what was done? Space marks it done; * 1 is undo"},
        {"a", "a as what was done? Space marks it done; * 7 is a line of your own work"},
        {"d", "d as what was done? Space marks it done"},
        {"ok", "ok as what was done? Space marks it done"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = start(build_record_full, "");

        bench_press(app, cases[i].typed);
        assert_string_equal(app->doubt_words, cases[i].said);
        assert_false(bench_press(app, "{Enter}").save);
        assert_non_null(strstr(app->message, cases[i].said));
        assert_int_equal(record_last_work(&app->record, 1), 0);
        bench_press(app, "{Enter}");
        check_text(app, "visit.1.work.1 amount", cases[i].typed);
        bench_close(app);
    }
}

/* What the doubt names works right away. */
static void its_commands_answer_the_doubt(void **state)
{
    static const char *const ways[] = {"u*", "u{Enter}*"};

    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct app *app = start(build_record_full, RELIEF_RIGHT);

        bench_press(app, " ");
        bench_press(app, ways[i]);
        assert_int_equal(app->overlay, OVERLAY_MENU);
        assert_false(app_is_typing(app));
        assert_true(bench_press(app, "1").save);
        assert_int_equal(record_last_work(&app->record, 1), 0);
        bench_close(app);
    }
    struct app *app = start(build_record_full, "");
    assert_true(bench_press(app, "d{Enter} ").save);
    check_text(app, "visit.1.work.1 amount",
               "tighten 1/4 turn at a time, reading: relief -.007 +-.001 in");
    bench_close(app);
}

static void other_texts_are_not_asked_about(void **state)
{
    struct app *app = start(build_record_full, "");

    (void)state;
    bench_press(app, "filed{Enter}");
    check_text(app, "visit.1.work.1 amount", "filed");
    bench_press(app, "*aok{Enter}");
    check_text(app, "visit.1.work.2 kind", "ok");
    bench_press(app, "no{Enter}");
    check_text(app, "visit.1.work.2 amount", "no");
    bench_close(app);
}

/* What is logged of the rod is no pass to go on from when the instrument is opened again. */
static void turns_alone_are_no_pass(void **state)
{
    struct app *app =
        bench_open(build_record_full, "visit.1.pass.2 rod_turn = 1/4 turn\n", LEAF_BENCH);

    (void)state;
    assert_int_equal(app->pass, 1);
    bench_press(app, "p");
    assert_int_equal(app->pass, 2);
    bench_close(app);
}

/* What an earlier pass asks for was done, or not, by the readings since. */
static void an_earlier_pass_marks_nothing(void **state)
{
    static const char *const ways[] = {" ", "{Down} ", "1/4{Enter}", "*4", "lowered{Enter}"};

    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct app *app = start(build_record_full, "visit.1.pass.2 relief = .007 in\n");

        bench_press(app, "<");
        assert_int_equal(app->pass, 1);
        assert_false(bench_press(app, ways[i]).save);
        assert_int_equal(app->tone, TONE_WARNING);
        assert_non_null(strstr(app->message, "A later pass was read since"));
        assert_false(app_is_typing(app));
        assert_int_equal(record_last_work(&app->record, 1), 0);
        /* A line of one's own belongs to the visit. */
        assert_true(bench_press(app, "*7cleaned{Enter}").save);
        bench_close(app);
    }
}

static void what_is_on_target_can_go_back(void **state)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.pass.1 relief = .006 in\n");
    for (int s = 1; s <= 6; s++) {
        const double share = (s - 1) / 5.0;

        build_record_put_mm(&record, reading_key_pass_at(FIELD_NUT_GAP, 1, 1, s, 0),
                            25.4 * (.012 + share * .006));
        build_record_put_mm(&record, reading_key_pass_at(FIELD_ACTION, 1, 1, s, 0),
                            25.4 / 64 * (4 + 2 * share));
    }
    bench_start_record(app, &record, false, false);
    assert_int_equal(count(app, move_is_open), 0);
    /* What was not checked is said, and asked of nobody. */
    assert_string_equal(left_words(app),
                        "all moves are on target and done: it can go back; not heard, not tuned");
    assert_int_equal(move_set_verdict(&app->now.moves), MOVES_READY);
    for (int i = 0; i < 2; i++) {
        build_record_add(&app->record,
                         i ? "visit.1.pass.1 cents.6.12 = 1\n" : "visit.1.pass.1 clean.6 = 0-5\n");
        app_refresh(app);
        assert_string_equal(left_words(app),
                            i ? "all moves are on target and done: it can go back"
                              : "all moves are on target and done: it can go back; not tuned");
    }
    while (app->leaf != LEAF_WORK)
        bench_press(app, "{PgDn}");
    assert_false(bench_press(app, " ").save);
    bench_close(app);
}

/* A gauge of .020 in cannot tell .012 in from .006 in: such a move is not left to do, and the
 * move says how far. Common practice, no published source: a
 * move under its own uncertainty is not worth making. */
static void a_move_within_measuring_error_is_not_left(void **state)
{
    struct app *app = start(build_record_full, "model feeler_step = .020 in\n");

    (void)state;
    assert_int_equal(list_of(app).moves[MOVE_ROD].state, MOVE_GOOD);
    assert_null(strstr(left_words(app), "back: rod"));
    bench_close(app);
}

static void without_readings_nothing_can_be_marked(void **state)
{
    struct app *app = start("", "");

    (void)state;
    assert_false(bench_press(app, " {Down} {Down} *z").save);
    assert_int_equal(record_last_work(&app->record, 1), 0);
    assert_non_null(strstr(left_words(app), "measure everything"));
    bench_close(app);
}

static void a_profile_for_reading_is_left_alone(void **state)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    bench_start_record(app, &record, false, true);
    while (app->leaf != LEAF_WORK)
        bench_press(app, "{PgDn}");
    assert_false(bench_press(app, " *aone{Enter}1{Enter}{Esc}*z").save);
    assert_int_equal(record_last_work(&app->record, 1), 0);
    bench_close(app);
}

static void every_row_is_laid(void **state)
{
    static const int boards[][2] = {{0, 0}, {0, 22}, {1, 0}, {12, 36}};
    struct route *route = malloc(sizeof *route);
    struct record record;

    (void)state;
    build_record(&record, "visit.2.work.1 note = one\nvisit.2.work.4 kind = four\n");
    for (size_t i = 0; i < sizeof boards / sizeof boards[0]; i++) {
        const struct leaf_place place = {.record = &record,
                                         .strings = boards[i][0],
                                         .frets = boards[i][1],
                                         .visit = 2,
                                         .pass = 1};
        const struct reading_key own = work_key(WORK_KIND, 2, 5);

        leaf_lay(&leaf_work, &place, route);
        /* Nothing asks for frets or pitch. */
        assert_int_equal(route->count, MOVE_COUNT_ - 2 + 2 * WORK_COLUMN_COUNT_ + 1);
        assert_int_equal(route_find(route, &own), route->count - 1);
    }
    record_done(&record);
    free(route);
}

/* More lines than a route holds: the last ones and the room for the next are there. */
static void a_long_visit_shows_its_last_lines(void **state)
{
    struct app *app = start(build_record_full, "visit.1.work.9998 kind = late\n"
                                               "visit.1.work.9000 kind = early\n");
    const struct reading_key own = work_key(WORK_KIND, 1, WORKS_MAX);

    (void)state;
    assert_int_equal(route_find(&app->route, &own), app->route.count - 1);
    bench_press(app, "*alast{Enter}");
    check_text(app, "visit.1.work.9999 kind", "last");
    bench_press(app, "*a");
    assert_false(app->writing);
    assert_false(bench_press(app, " ").save);
    bench_close(app);
}

/* It was done, so it is filed, and said to be a lot; turns that no bench makes are asked about. */
static void more_than_a_quarter_turn_is_said_to_be_a_lot(void **state)
{
    static const struct {
        const char *keys, *said;
    } cases[] = {
        {"1/4{Enter}", "Marked done, with the turns of the rod"},
        {"1/2{Enter}", "Filed: 1/2 turn without a reading. A quarter turn at most, then measure."},
        {"1{Enter}", "Filed: 1 turn without a reading. A quarter turn at most, then measure."},
        {"3{Enter}", "Held: 3 turns at once? A quarter turn at most, then measure"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct app *app = bench_open(build_record_full, "", LEAF_WORK);

        bench_press(app, cases[i].keys);
        if (!strstr(app->message, cases[i].said))
            fail_msg("%s: \"%s\"", cases[i].keys, app->message);
        assert_int_equal(bench_text(app, TURNS) != NULL, strncmp(cases[i].said, "Held", 4) != 0);
        bench_close(app);
    }
}

/* In the cell that asks for turns by themselves, too. */
static void turns_by_themselves_are_minded_too(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_WORK);

    (void)state;
    bench_press(app, " ");
    assert_int_equal(app_cell(app)->key.field, FIELD_ROD_TURN);
    bench_press(app, "-3/4{Enter}");
    if (app->held != HELD_NO)
        bench_press(app, "{Enter}");
    assert_non_null(strstr(app->message, "3/4 turn without a reading"));
    assert_string_equal(bench_text(app, TURNS), "-3/4 turn");
    bench_close(app);
}

/* A reading typed into the row of the tech's own work would be printed for the owner. */
static void work_without_a_word_is_asked_about(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_WORK);

    (void)state;
    bench_press(app, "{End}1{Enter}");
    assert_string_equal(app->message, "Held: 1: is that what was done?");
    assert_int_equal(record_last_work(&app->record, 1), 0);
    bench_press(app, "{Enter}");
    assert_int_equal(record_last_work(&app->record, 1), 1);
    bench_press(app, "{End}2 pegs{Enter}");
    assert_int_equal(record_last_work(&app->record, 1), 2);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(more_than_a_quarter_turn_is_said_to_be_a_lot),
        cmocka_unit_test(turns_by_themselves_are_minded_too),
        cmocka_unit_test(work_without_a_word_is_asked_about),
        cmocka_unit_test(cautions_are_of_listed_work),
        cmocka_unit_test(a_neck_in_a_pocket_is_shimmed),
        cmocka_unit_test(a_move_that_is_not_due_has_no_name_to_go_by),
        cmocka_unit_test(home_goes_to_the_first_open_move),
        cmocka_unit_test(moves_are_marked_done_in_order),
        cmocka_unit_test(slots_and_saddle_are_marked_done_in_order),
        cmocka_unit_test(after_the_last_move_comes_a_line_of_ones_own),
        cmocka_unit_test(a_mark_is_one_step),
        cmocka_unit_test(a_done_move_waits_for_the_next_pass),
        cmocka_unit_test(an_amount_typed_on_a_move_logs_it),
        cmocka_unit_test(a_line_of_ones_own_begins_with_its_kind),
        cmocka_unit_test(a_written_line_is_asked_about),
        cmocka_unit_test(lines_keep_their_numbers),
        cmocka_unit_test(only_work_since_the_readings_counts),
        cmocka_unit_test(an_empty_pass_keeps_the_jobs),
        cmocka_unit_test(the_turns_are_asked_for_when_the_rod_is_marked),
        cmocka_unit_test(the_turns_can_be_left_open),
        cmocka_unit_test(logged_turns_are_taken_back_where_they_were_logged),
        cmocka_unit_test(a_gap_is_no_turn),
        cmocka_unit_test(a_refusal_stays_with_the_turns),
        cmocka_unit_test(back_from_the_turns_is_the_rod),
        cmocka_unit_test(turns_typed_as_what_was_done_are_logged),
        cmocka_unit_test(turns_against_the_move_are_asked_about),
        cmocka_unit_test(turns_go_by_the_order_not_by_the_usual_rod),
        cmocka_unit_test(a_pass_with_a_questioned_reading_is_read_again),
        cmocka_unit_test(a_stray_number_is_no_work),
        cmocka_unit_test(turns_are_logged_of_the_rod_alone),
        cmocka_unit_test(a_letter_is_asked_about),
        cmocka_unit_test(its_commands_answer_the_doubt),
        cmocka_unit_test(other_texts_are_not_asked_about),
        cmocka_unit_test(turns_alone_are_no_pass),
        cmocka_unit_test(an_earlier_pass_marks_nothing),
        cmocka_unit_test(what_is_on_target_can_go_back),
        cmocka_unit_test(a_move_within_measuring_error_is_not_left),
        cmocka_unit_test(without_readings_nothing_can_be_marked),
        cmocka_unit_test(a_profile_for_reading_is_left_alone),
        cmocka_unit_test(every_row_is_laid),
        cmocka_unit_test(a_long_visit_shows_its_last_lines),
    };
    return cmocka_run_group_tests_name("leaf_work", tests, NULL, NULL) ? 1 : 0;
}
