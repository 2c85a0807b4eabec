/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "session/again.h"
#include "session/app.h"
#include "bench_session.h"
#include "build_record.h"
#include "seeded.h"

/*
 * Nothing is filed but what the entry line showed. With any keys, a reading is added or changed
 * only after Enter; it is then the one in hand, it has the text and the value that were in the
 * entry line, and a doubtful one had been asked about. Otherwise only undo changes a reading.
 */
enum { KEYS = 12000 };

/* What stood on the screen before a key. */
struct shown {
    struct record record;
    struct reading_key key;
    bool has_cell, good, said, empty, emptied, doubted, asked;
    double value;
    char kept[ENTRY_TEXT_MAX];
};

static void look(const struct app *app, struct shown *ret_shown)
{
    const struct route_cell *cell = app_cell(app);
    struct strbuf kept = STRBUF(ret_shown->kept);

    *ret_shown = (struct shown){.has_cell = cell != NULL,
                                .good = app->entry_view.good,
                                .said = app->entry_view.words[0] != 0,
                                .empty = lineedit_is_empty(&app->entry),
                                .emptied = app_is_emptied(app),
                                .doubted = app->doubt.kind != DOUBT_NONE,
                                .asked = app->held == HELD_ASKED,
                                .value = app->entry_view.value};
    kept = STRBUF(ret_shown->kept);
    if (cell) {
        const struct field *field = field_get(cell->key.field);
        const struct day today = app_today_typed(app);

        ret_shown->key = cell->key;
        /* Of a note the entry line shows the octave too. */
        (void)entry_spell(field->kind == KIND_NOTE ? app->entry_view.words : app->entry.text, field,
                          &app->units, &today, &kept);
    }
    const struct reading *last = again_in_hand(app);
    const struct day day = app_today(app);
    /* The last value stands in the entry line, in [ ]. */
    if (last) {
        ret_shown->good = ret_shown->said = true;
        ret_shown->empty = false;
        ret_shown->value = last->value.value;
        strbuf_clear(&kept);
        (void)entry_spell(last->text, field_get(cell->key.field), &app->units, &day, &kept);
    }
    assert_int_equal(record_copy(&app->record, &ret_shown->record), STATUS_OK);
}

/* What the program writes beside a reading: when, how, and what a move was called. */
static bool is_company(enum field_id field)
{
    return field == FIELD_VISIT_DATE || field == FIELD_PASS_TIME || field == FIELD_PASS_LABEL ||
           field == FIELD_NUT_METHOD || field == FIELD_FORMAT ||
           field_get(field)->section == SECTION_WORK;
}

/* Commands that change targets, the what-if's strings or the method say what they did. */
static bool is_commanded(enum field_id field)
{
    const enum section section = field_get(field)->section;

    return is_company(field) || section == SECTION_TARGETS || section == SECTION_STRING ||
           field == FIELD_EXPOSURE_MIN;
}

static void fail_changed(const struct reading *now, const char *why)
{
    fail_msg("%s = %s: %s", field_get(now->key.field)->key, now->text, why);
}

/* A note is shown with a capital letter, and kept as typed. */
static bool is_same_text(enum field_kind kind, const char *a, const char *b)
{
    return (kind == KIND_NOTE ? strcasecmp(a, b) : strcmp(a, b)) == 0;
}

/* A setback's cell is that of its string, and what is read is of the pass in hand. */
static bool is_of_cell(const struct reading *now, const struct shown *shown)
{
    const struct reading_key setback = reading_key_string(FIELD_SETBACK, now->key.string);

    return reading_key_is_same_fact(now->key.field == FIELD_SETBACK_READ ? &setback : &now->key,
                                    &shown->key);
}

static void check_taken(const struct shown *shown, const struct reading *now)
{
    const enum field_kind kind = field_get(now->key.field)->kind;

    if (!is_of_cell(now, shown))
        fail_changed(now, "another cell was in hand");
    if (!shown->good || shown->empty || (kind != KIND_TEXT && !shown->said))
        fail_changed(now, "the entry line showed nothing to take");
    if (shown->doubted && !shown->asked)
        fail_changed(now, "it was in doubt, and nobody was asked");
    if (!is_same_text(kind, now->text, shown->kept))
        fail_changed(now, shown->kept);
    if ((kind == KIND_NUMBER || kind == KIND_COUNT) &&
        !near_is(now->value.value, shown->value, 1e-9))
        fail_changed(now, "the entry line showed another value");
}

static bool is_undo(const struct app *app)
{
    return strncmp(app->message, "Undone: ", 8) == 0 || strncmp(app->message, "Redone: ", 8) == 0;
}

/* As what was done of the rod, turns are logged as such too. */
static bool is_logged(const struct shown *shown, const struct reading *now)
{
    return now->key.field == FIELD_ROD_TURN && shown->has_cell && shown->good &&
           shown->key.field == FIELD_WORK_AMOUNT && (!shown->doubted || shown->asked);
}

/* Every reading that is new or another one. */
static int check_key(const struct app *app, const struct shown *shown, uint32_t key)
{
    int filed = 0;

    for (size_t i = 0; i < app->record.count; i++) {
        const struct reading *now = &app->record.readings[i];
        const struct reading *was = record_find(&shown->record, &now->key);

        if ((was && strcmp(was->text, now->text) == 0) || is_undo(app))
            continue;
        if (key == SILLET_KEY_ENTER && shown->has_cell && is_of_cell(now, shown)) {
            check_taken(shown, now);
            filed++;
        } else if (!is_commanded(now->key.field) &&
                   !(key == SILLET_KEY_ENTER && is_logged(shown, now)) &&
                   !(key == SILLET_KEY_ENTER && strstr(app->message, "taken out")) &&
                   !(key == '=' && strstr(app->message, ", correction: "))) {
            fail_changed(now, "nobody filed it");
        }
    }
    return filed;
}

static uint32_t random_key(struct seeded *seed)
{
    static const char digits[] = "0123456789012345678901234567890123.,.,/+- ";

    switch (seeded_whole(seed, 0, 9)) {
    case 0:
    case 1:
    case 2:
    case 3:
        return (uint32_t)digits[seeded_whole(seed, 0, sizeof digits - 2)];
    case 4:
    case 5:
    case 6:
        return SILLET_KEY_ENTER;
    case 7:
        return SILLET_KEY_ENTER +
               (uint32_t)seeded_whole(seed, 0, SILLET_KEY_F1 + 7 - SILLET_KEY_ENTER);
    default: {
        const struct command *command =
            command_get((enum command_id)seeded_whole(seed, 0, COMMAND_COUNT_ - 1));

        return command->letter ? command->letter : command->key;
    }
    }
}

static int press(struct app *app, uint32_t key)
{
    struct shown shown;

    look(app, &shown);
    (void)bench_key(app, key);
    const int filed = check_key(app, &shown, key);
    record_done(&shown.record);
    return filed;
}

static struct app *open_session(const char *lines, bool metric)
{
    struct app *app = malloc(sizeof *app);
    struct record record;

    assert_non_null(app);
    build_record(&record, lines);
    bench_start_record(app, &record, metric, false);
    return app;
}

static void nothing_is_filed_but_what_was_shown(void **state)
{
    static const char bare[] = "board strings = 6\nboard scale = 25.5 in\nboard frets = 22\n"
                               "board join_fret = 16\n";
    struct seeded seed = seeded_start("meant");
    int filed = 0;

    (void)state;
    for (int session = 0; session < 8; session++) {
        struct app *app = open_session(session & 2 ? bare : build_record_full, session & 1);

        for (int i = 0; i < KEYS / 8; i++)
            filed += press(app, random_key(&seed));
        bench_close(app);
    }
    /* It could fail: readings were filed. */
    print_message("%d readings filed\n", filed);
    assert_true(filed > KEYS / 100);
}

/* All sequences of one key and of two, in cells of leaves, of the rule and of a count. */
static void no_two_keys_file_what_was_not_shown(void **state)
{
    static const uint32_t keys[] = {'0',
                                    '1',
                                    '2',
                                    '5',
                                    '9',
                                    '.',
                                    ',',
                                    '/',
                                    '+',
                                    '-',
                                    ' ',
                                    'u',
                                    'r',
                                    'b',
                                    'p',
                                    'v',
                                    'o',
                                    'x',
                                    'm',
                                    '*',
                                    'f',
                                    '?',
                                    SILLET_KEY_ENTER,
                                    SILLET_KEY_BACKSPACE,
                                    SILLET_KEY_DELETE,
                                    SILLET_KEY_ESCAPE,
                                    SILLET_KEY_TAB,
                                    SILLET_KEY_UP,
                                    SILLET_KEY_DOWN,
                                    SILLET_KEY_RIGHT,
                                    SILLET_KEY_END,
                                    SILLET_KEY_INSERT};
    static const char *const places[] = {"", "{Down}", "{Down}{Down}", "{End}"};
    enum { COUNT = sizeof keys / sizeof keys[0] };

    (void)state;
    for (size_t place = 0; place < sizeof places / sizeof places[0]; place++)
        for (int first = 0; first < COUNT; first++)
            for (int second = 0; second < COUNT; second++) {
                struct app *app = open_session(build_record_full, place & 1);

                bench_press(app, places[place]);
                (void)press(app, keys[first]);
                (void)press(app, keys[second]);
                bench_close(app);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_filed_but_what_was_shown),
        cmocka_unit_test(no_two_keys_file_what_was_not_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
