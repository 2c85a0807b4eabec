/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "session/app.h"
#include "session/app_place.h"
#include "bench_session.h"
#include "build_record.h"

/* Takes a cell of the intake form in hand. */
static void go_to(struct app *app, enum field_id field)
{
    const struct reading_key key = field_get(field)->section == SECTION_VISIT
                                       ? reading_key_visit(field, app->visit)
                                       : reading_key_one(field);

    while (app->leaf != LEAF_INTAKE)
        bench_press(app, "{PgUp}");
    bench_press(app, "{Home}");
    while (app_cell(app)->key.field != field && app->at < app->route.count - 1)
        bench_press(app, "{Down}");
    assert_int_equal(route_find(&app->route, &key), app->at);
}

/* The wood of the board, on the neck leaf. */
static void take_wood(struct app *app)
{
    while (app->leaf != LEAF_NECK)
        bench_press(app, "{PgDn}");
    bench_press(app, "{Home}");
    while (app_cell(app)->key.field != FIELD_BOARD_WOOD)
        bench_press(app, "{Down}");
}

/* What a step proposes is no number that was typed. */
static void a_digit_takes_the_place_of_what_was_proposed(void **state)
{
    struct app *app = *state;

    take_wood(app);
    bench_press(app, "+3");
    assert_string_equal(app->entry.text, "3");
    bench_press(app, "{Esc}13");
    assert_string_equal(app->entry.text, "13");
}

/* The menu is the number pad's way out of a number that was opened. */
static void the_menu_opens_over_a_number_that_is_edited(void **state)
{
    struct app *app = *state;

    while (app->leaf != LEAF_BENCH)
        bench_press(app, "{PgDn}");
    bench_press(app, "{Home}{Ins}*");
    assert_int_equal(app->overlay, OVERLAY_MENU);
}

static void a_choice_is_stepped_through(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_ROD);
    bench_press(app, "2{Enter}");
    assert_string_equal(bench_text(app, "neck rod"), "one-way");
    bench_press(app, "{Up}+");
    assert_string_equal(app->entry_view.words, "two-way");
    bench_press(app, " ");
    assert_string_equal(app->entry_view.words, "fixed");
    /* Round and round, and back. */
    bench_press(app, "+");
    assert_string_equal(app->entry_view.words, "none");
    bench_press(app, "-");
    assert_string_equal(app->entry_view.words, "fixed");
    assert_string_equal(bench_text(app, "neck rod"), "one-way");
    bench_press(app, "{Enter}");
    assert_string_equal(bench_text(app, "neck rod"), "fixed");
}

static void another_number_takes_another_choice(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_ROD);
    bench_press(app, "23");
    assert_string_equal(app->entry.text, "3");
    bench_press(app, "{Esc}");
    go_to(app, FIELD_KIND);
    /* Of ten choices the tenth has two digits. */
    bench_press(app, "210");
    assert_string_equal(app->entry_view.words, "other");
    bench_press(app, "4{Enter}");
    assert_string_equal(bench_text(app, "instrument kind"), "bass");
}

static void a_choice_is_written_anew(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_ROD);
    bench_press(app, "2{Enter}{Up}no");
    assert_string_equal(app->entry_view.words, "none");
    bench_press(app, "{Enter}");
    assert_string_equal(bench_text(app, "neck rod"), "none");
    /* The number serves as well, and what begins no choice, or several, is refused. */
    bench_press(app, "{Up}3{Enter}");
    assert_string_equal(bench_text(app, "neck rod"), "two-way");
    go_to(app, FIELD_KIND);
    bench_press(app, "ba{Enter}");
    assert_int_equal(app->tone, TONE_WARNING);
    bench_press(app, "bas{Enter}");
    assert_int_equal(app->tone, TONE_NONE);
    assert_string_equal(bench_text(app, "instrument kind"), "bass");
}

/* A list that is open is gone through as a choice is, and takes what it does not know as well. */
static void a_wood_is_found_in_its_list(void **state)
{
    struct app *app = *state;
    const struct reading_key wood = reading_key_one(FIELD_BOARD_WOOD);

    app_take_leaf(app, LEAF_NECK);
    bench_press(app, "{Home}{Down}{Down}{Down}");
    assert_int_equal(app_cell(app)->key.field, FIELD_BOARD_WOOD);
    bench_press(app, "+");
    assert_string_equal(app->entry_view.words, "sugar maple");
    bench_press(app, "{PgDn}");
    assert_string_equal(app->entry_view.words, "Indian rosewood");
    bench_press(app, "{Down}{Down}{Up}");
    assert_string_equal(app->entry_view.words, "Brazilian rosewood");
    bench_press(app, "{Enter}");
    assert_string_equal(record_text(&app->record, &wood), "Brazilian rosewood");
    /* From the one that the cell holds; the ends meet. */
    bench_press(app, "{Up}-");
    assert_string_equal(app->entry_view.words, "Indian rosewood");
    bench_press(app, "{Esc}");
    bench_press(app, "18+");
    assert_string_equal(app->entry_view.words, "sugar maple");
    bench_press(app, "{Esc}");
}

/* What could mean several is asked about once; every key but Enter leaves it unfiled. */
static void a_word_of_several_woods_is_asked_about(void **state)
{
    struct app *app = *state;
    const struct reading_key wood = reading_key_one(FIELD_BOARD_WOOD);

    app_take_leaf(app, LEAF_NECK);
    bench_press(app, "{Home}{Down}{Down}{Down}rosewood");
    assert_int_equal(app->choice.found.count, 2);
    bench_press(app, "{Enter}");
    assert_null(record_text(&app->record, &wood));
    assert_non_null(strstr(app->message, "or keep it"));
    bench_press(app, "{Down}");
    assert_string_equal(app->entry_view.words, "Indian rosewood");
    bench_press(app, "{Enter}");
    assert_string_equal(record_text(&app->record, &wood), "Indian rosewood");
    bench_press(app, "{Up}rosewood{Enter}{Enter}");
    assert_string_equal(record_text(&app->record, &wood), "rosewood");
}

/* The bench's clock stands at 2026-03-02, a Monday. */
static void days_are_typed_as_people_say_them(void **state)
{
    static const struct {
        const char *keys, *words, *kept;
    } days[] = {
        {"today", "Monday, 2 March 2026", "2026-03-02"},
        {"yesterday", "Sunday, 1 March 2026", "2026-03-01"},
        {"-1", "Sunday, 1 March 2026", "2026-03-01"},
        {"0", "Monday, 2 March 2026", "2026-03-02"},
        {"28.2.", "Saturday, 28 February 2026", "2026-02-28"},
        {"24.12", "Wednesday, 24 December 2025", "2025-12-24"},
    };
    struct app *app = *state;
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, 1);

    app_take_leaf(app, LEAF_INTAKE);
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        bench_press(app, "{Home}");
        assert_int_equal(app_cell(app)->key.field, FIELD_VISIT_DATE);
        bench_press(app, days[i].keys);
        assert_string_equal(app->entry_view.words, days[i].words);
        bench_press(app, "{Enter}");
        assert_string_equal(record_text(&app->record, &date), days[i].kept);
    }
}

/* The note above E2 is F2, the one below Eb2 (twelve semitones an octave, ISO 16). */
static void a_note_goes_by_semitones(void **state)
{
    struct app *app = *state;

    bench_press(app, "{PgDn}");
    assert_int_equal(app_cell(app)->key.field, FIELD_STRING_NOTE);
    bench_press(app, "E2{Enter}{Up}+");
    assert_string_equal(app->entry.text, "F2");
    bench_press(app, "--{Enter}");
    assert_string_equal(bench_text(app, "string.6 note"), "Eb2");
}

/* A number is edited too, where somebody wants to; letters are commands in its cell. */
static void a_number_is_edited(void **state)
{
    struct app *app = *state;

    bench_press(app, "{Ins}");
    assert_string_equal(app->entry.text, ".013 in");
    bench_press(app, "{Left}{Left}{Left}{Back}4{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".014 in");
    /* Emptied, it is as it was. */
    bench_press(app, "{Home}{Ins}{^U}{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".014 in");
    bench_press(app, "{Home}0.2 mm{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), "0.2 mm");
}

static void a_text_is_written_anew_and_edited(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_NAME);
    bench_press(app, "Tenor{Enter}{Up}{Ins}");
    assert_string_equal(app->entry.text, "Tenor");
    bench_press(app, "{Home}4 {Right}{Del}{Back}t{End}s{Left}{Left}-{Enter}");
    assert_string_equal(bench_text(app, "instrument name"), "4 tno-rs");
    /* A letter and a digit do the same. */
    bench_press(app, "{Up}rose");
    assert_string_equal(app->entry.text, "rose");
    assert_string_equal(bench_text(app, "instrument name"), "4 tno-rs");
    bench_press(app, "{Esc}30*1");
    assert_string_equal(app->entry.text, "30*1");
    bench_press(app, "{Esc}{Enter}");
    assert_string_equal(bench_text(app, "instrument name"), "4 tno-rs");
    /* Erased, it is not typed, and the old text stays. */
    bench_press(app, "{Up}ab{Back}{Del}");
    assert_false(app_is_typing(app));
    bench_press(app, "{Enter}{Up}");
    assert_string_equal(bench_text(app, "instrument name"), "4 tno-rs");
    bench_press(app, "{^E}{^U}New{Enter}");
    assert_string_equal(bench_text(app, "instrument name"), "New");
    /* Backspace in an emptied text goes nowhere; Enter takes the text out. */
    bench_press(app, "{Up}{Ins}{^U}{Back}");
    assert_true(app_is_typing(app));
    bench_press(app, "{Enter}");
    assert_null(bench_text(app, "instrument name"));
    bench_press(app, "*u");
    assert_string_equal(bench_text(app, "instrument name"), "New");
}

static void a_list_of_frets_is_typed_anew_and_edited(void **state)
{
    struct app *app = *state;

    bench_press(app, "{F5}");
    assert_int_equal(app_cell(app)->key.field, FIELD_BUZZ);
    bench_press(app, "3+4{Enter}{Home}5");
    assert_string_equal(app->entry.text, "5");
    bench_press(app, "{Esc}{Ins}");
    assert_string_equal(app->entry.text, "3 4");
    bench_press(app, "+5{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 buzz.6"), "3 4 5");
}

static bool is_written_in_letters(const struct field *field)
{
    switch (field->kind) {
    case KIND_TEXT:
    case KIND_CHOICE:
    case KIND_YESNO:
    case KIND_NOTE:
    case KIND_DATE:
    case KIND_TIME:
        return true;
    default:
        return false;
    }
}

/* A visitor for the cells of a leaf that hold letters: every letter begins to write there. */
static int try_letters(struct app *app)
{
    const int last = app->route.count;
    int tried = 0;

    for (int at = 0; at < last; at++) {
        app->at = at;
        if (!is_written_in_letters(field_get(app_cell(app)->key.field)))
            continue;
        for (int c = 'A'; c <= 'z'; c++) {
            if (c > 'Z' && c < 'a')
                continue;
            const char keys[] = {(char)c, '\0'};

            assert_false(bench_press(app, keys).save);
            assert_string_equal(app->entry.text, keys);
            assert_true(app->writing);
            assert_int_equal(app->at, at);
            bench_press(app, "{Back}");
            assert_false(app_is_typing(app));
        }
        tried++;
    }
    return tried;
}

static void every_letter_begins_to_write_in_every_cell_of_letters(void **state)
{
    struct app *app = *state;
    int tried = 0;

    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        app_take_leaf(app, (enum leaf)leaf);
        if (leaf == LEAF_HISTORY)
            bench_press(app, "l");
        tried += try_letters(app);
    }
    assert_true(tried > 50);
}

/* A blank begins no text, and what other keys mean is kept: a preview, a pass, the menu. */
static void what_is_no_letter_is_no_text(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_NAME);
    bench_press(app, " ");
    assert_false(app_is_typing(app));
    assert_int_equal(app->tone, TONE_WARNING);
    bench_press(app, "?");
    assert_int_equal(app->overlay, OVERLAY_WHY);
    bench_press(app, "{Esc}*");
    assert_int_equal(app->overlay, OVERLAY_MENU);
    bench_press(app, "*(9) No. 9{Enter}");
    assert_string_equal(bench_text(app, "instrument name"), "(9) No. 9");
}

static void a_radius_may_be_flat(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_RADIUS_NUT);
    bench_press(app, "flat{Enter}");
    assert_string_equal(bench_text(app, "board radius_nut"), "flat");
}

static void what_is_typed_is_not_lost_by_turning_leaves(void **state)
{
    struct app *app = *state;

    static const char *const ways[] = {"{Tab}", "{PgDn}", "{PgUp}", "{Up}", "<", ">"};

    bench_press(app, ".01");
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        bench_press(app, ways[i]);
        assert_string_equal(app->entry.text, ".01");
        assert_int_equal(app->leaf, LEAF_BENCH);
        assert_int_equal(app->tone, TONE_WARNING);
    }
    bench_press(app, "{Esc}{Tab}");
    assert_int_equal(app->leaf, LEAF_STRINGS);
}

static void an_entry_is_mended_in_place(void **state)
{
    struct app *app = *state;

    bench_press(app, ".113{Left}{Left}{Back}0{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), ".013 in");
    bench_press(app, "{Home}.2{^U}");
    assert_false(app_is_typing(app));
    assert_int_equal(app->at, 0);
    bench_press(app, "{Right}");
    assert_false(app_is_typing(app));
}

/* Ins opens what the cell holds only where nothing is typed yet. */
static void what_is_typed_stays_under_ins(void **state)
{
    struct app *app = *state;

    bench_press(app, "12{Ins}");
    assert_string_equal(app->entry.text, "12");
    bench_press(app, "{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 relief"), "12 th");
}

/* A key held down fills the entry; what was typed first stays and is read. */
static void a_full_entry_keeps_its_first_digits(void **state)
{
    static const char digits[] = ".0123456789012345678901234567890";
    struct app *app = *state;

    bench_press(app, digits);
    assert_int_equal(app->tone, TONE_NONE);
    bench_press(app, "12");
    assert_string_equal(app->message, "The entry is full.");
    assert_string_equal(app->entry.text, digits);
    assert_true(app->entry_view.good);
}

/* A question before a word is answered, and the word is whole. */
static void a_letter_behind_an_answer_begins_the_text(void **state)
{
    struct app *app = *state;

    go_to(app, FIELD_VISIT_REASON);
    bench_press(app, "?");
    assert_int_equal(app->overlay, OVERLAY_WHY);
    bench_press(app, "why{Enter}");
    assert_string_equal(bench_text(app, "visit.1 reason"), "why");
    /* To a number a letter is none: it closes the answer alone. */
    go_to(app, FIELD_SCALE);
    bench_press(app, "?m");
    assert_int_equal(app->overlay, OVERLAY_NONE);
    assert_false(app->metric);
}

static void a_note_reads_as_the_tuning_calls_it(void **state)
{
    struct app *app = *state;

    while (app->leaf != LEAF_STRINGS)
        bench_press(app, "{PgDn}");
    bench_press(app, "{Home}Fb2");
    assert_string_equal(app->entry_view.words, "E2");
}

/* One Del more than was typed, as happens on the pad: what is filed stays. */
static void del_after_del_takes_nothing_out(void **state)
{
    struct app *app = *state;
    const struct event second = {.type = EVENT_NONE};
    const struct app_clock clock = {.date = "2026-03-02"};

    while (app->leaf != LEAF_STRINGS)
        bench_press(app, "{PgDn}");
    bench_press(app, "{Home}D2{Enter}{Home}F2{Del}{Del}{Del}{Del}");
    assert_non_null(record_text(&app->record, &app_cell(app)->key));
    assert_string_equal(record_text(&app->record, &app_cell(app)->key), "D2");
    assert_non_null(strstr(app->message, "* 2 takes out"));
    bench_press(app, "*2");
    assert_null(record_text(&app->record, &app_cell(app)->key));
    bench_press(app, "*1");
    /* After a while it is no slip. */
    bench_press(app, "F2{Del}{Del}");
    (void)app_handle(app, &second, &clock);
    bench_press(app, "{Del}");
    assert_null(record_text(&app->record, &app_cell(app)->key));
}

/* What the shop calls near enough is entered with what it wants, and the step of its leaves. */
static void a_tolerance_decides_what_is_due(void **state)
{
    struct app *app = *state;
    const struct move *rod = &app->now.moves.move[MOVE_ROD];

    assert_int_equal(rod->state, MOVE_DUE);
    go_to(app, FIELD_RELIEF_TOLERANCE);
    bench_press(app, "7{Enter}");
    assert_int_equal(rod->state, MOVE_GOOD);
    bench_press(app, "u");
    assert_int_equal(rod->state, MOVE_DUE);

    const double u_mm = app->now.moves.relief.u;
    go_to(app, FIELD_FEELER_STEP);
    bench_press(app, "2{Enter}");
    assert_true(app->now.moves.relief.u > u_mm);
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, bench_setup, bench_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(a_digit_takes_the_place_of_what_was_proposed),
        CASE(del_after_del_takes_nothing_out),
        CASE(the_menu_opens_over_a_number_that_is_edited),
        CASE(a_choice_is_stepped_through),
        CASE(a_choice_is_written_anew),
        CASE(another_number_takes_another_choice),
        CASE(a_number_is_edited),
        CASE(a_text_is_written_anew_and_edited),
        CASE(a_list_of_frets_is_typed_anew_and_edited),
        CASE(every_letter_begins_to_write_in_every_cell_of_letters),
        CASE(what_is_no_letter_is_no_text),
        CASE(a_radius_may_be_flat),
        CASE(what_is_typed_is_not_lost_by_turning_leaves),
        CASE(a_wood_is_found_in_its_list),
        CASE(a_word_of_several_woods_is_asked_about),
        CASE(days_are_typed_as_people_say_them),
        CASE(a_note_goes_by_semitones),
        CASE(an_entry_is_mended_in_place),
        CASE(what_is_typed_stays_under_ins),
        CASE(a_full_entry_keeps_its_first_digits),
        CASE(a_letter_behind_an_answer_begins_the_text),
        CASE(a_note_reads_as_the_tuning_calls_it),
        CASE(a_tolerance_decides_what_is_due),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
