/* SPDX-License-Identifier: MIT */
#include "app/held.h"

#include <string.h>

#include "app/cell_words.h"
#include "app/doubt_words.h"
#include "app/typed_text.h"
#include "app/work_actions.h"
#include "app/work_list.h"
#include "base/utf8.h"

/* --- what is doubted --- */

static struct entered find_wanted(const struct app *app, const struct reading_key *key)
{
    const struct setup *setup = &app->now.setup;
    struct entered wanted = {.given = false};

    if (key->field == FIELD_RELIEF)
        return setup->relief_target_mm;
    if (key->field == FIELD_NUT_GAP)
        wanted.given = setup_target_at(&setup->gap_target_bass_mm, &setup->gap_target_treble_mm,
                                       setup->board.strings, key->string, &wanted.value);
    if (key->field == FIELD_ACTION)
        wanted.given =
            setup_target_at(&setup->action_target_bass_mm, &setup->action_target_treble_mm,
                            setup->board.strings, key->string, &wanted.value);
    return wanted;
}

static struct doubt_about find_about(const struct app *app, const struct route_cell *cell)
{
    struct doubt_about about = {.today = app->today,
                                .wanted = find_wanted(app, &cell->key),
                                .of_move = cell->key.field == FIELD_WORK_AMOUNT &&
                                           work_move_in_hand(app) != MOVE_COUNT_};
    struct reading_key before = cell->key;

    about.expected.given = app_expected(app, cell, &about.expected.value);
    before.part--;
    if (about.expected.given)
        about.before = record_entered(&app->record, before);
    return about;
}

/* The number that was typed alone, with a point or a comma; 0 for anything else. */
static double bare_number(const char *text)
{
    char memory[ENTRY_TEXT_MAX];
    struct strbuf number = STRBUF(memory);
    double value = 0;

    entry_add_pointed(text, &number);
    (void)num_decimal(memory, number.length, &value);
    return value;
}

void held_look(struct app *app)
{
    const struct route_cell *cell = app_cell(app);
    char memory[ENTRY_TEXT_MAX], typed[ENTRY_TEXT_MAX];
    struct strbuf kept = STRBUF(memory), words = STRBUF(app->doubt_words);
    struct doubt_entry entry = {.text = memory};

    if (!cell || !app->entry_view.good)
        return;
    if (app->entry_view.doubtful) {
        app->doubt.kind = DOUBT_NAME;
        strbuf_add(&words, app->entry_view.words);
        return;
    }
    const struct field *field = field_get(cell->key.field);
    const struct day today = app_today(app);
    if (entry_spell(typed_text(app, typed), field, &app->units, &today, &kept) != STATUS_OK)
        return;
    const struct doubt_about about = find_about(app, cell);
    struct entry_view view = app->entry_view;
    struct reading_key key = cell->key;
    /* It is logged as the rod's turns too. */
    if (work_reads_as_turns(app, &view))
        key.field = FIELD_ROD_TURN;
    entry.value = (struct field_value){.value = view.value};
    entry.whole = strspn(app->entry.text, "0123456789") == app->entry.length;
    entry.bare = bare_number(app->entry.text);
    app->doubt = doubt_find(&app->record, &key, &entry, &about);
    doubt_words_add(&words, &app->doubt, &key, &entry, &app->units);
}

/* --- what is held --- */

bool held_holds(struct turn *turn)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (app->doubt.kind == DOUBT_NONE || app->held == HELD_ASKED)
        return false;
    app->held = HELD_ASKED;
    strbuf_add(&words, "Held: ");
    strbuf_add(&words, app->doubt_words);
    turn_warn(turn, memory);
    return true;
}

static bool begins_anew(const struct app *app, uint32_t key)
{
    if (key < ' ' || key >= SILLET_KEY_ENTER)
        return false;
    return app->writing || (key < 0x80 && strchr("0123456789.,/+-", (int)key));
}

/* Who types on without looking sees at least that it is still the same cell. */
static void say_instead(struct app *app)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    strbuf_add(&words, "In place of the ");
    strbuf_add_bytes(&words, app->entry.text, utf8_clip(app->entry.text, 20));
    strbuf_add(&words, " that was held, still in ");
    cell_words_add_name(app, app_cell(app), &words);
    app_say(app, TONE_NOTE, memory);
}

/* Letters would be taken for a unit's and go on with an entry that was just asked about; those
 * that only tell something keep their meaning. */
static bool take_letter(struct turn *turn, uint32_t key)
{
    const enum command_id command = command_find(key, turn->app->leaf);

    if (key >= SILLET_KEY_ENTER || key < ' ')
        return false;
    if (command == COMMAND_UNDO || command == COMMAND_WHY || command == COMMAND_HELP ||
        command == COMMAND_MENU)
        turn_run(turn, command);
    else
        turn_warn(turn, "Enter asks again, digits begin it anew, Esc empties it.");
    return true;
}

/* What a letter in doubt is answered with: the commands that its doubt names. */
static bool means_command(const struct app *app, uint32_t key)
{
    return app->doubt.kind == DOUBT_LETTERS &&
           (key == MENU_KEY || (key == ' ' && app->held != HELD_NO));
}

bool held_take_key(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    if (means_command(app, key)) {
        app_drop_entry(app);
        app_refresh_entry(app);
        return false;
    }
    if (app->held == HELD_NO || key == SILLET_KEY_ENTER)
        return false;
    app->held = HELD_WAITS;
    if (begins_anew(app, key)) {
        say_instead(app);
        lineedit_clear(&app->entry);
        app->held = HELD_NO;
        return false;
    }
    if (key == SILLET_KEY_BACKSPACE || key == SILLET_KEY_ESCAPE || key == SILLET_KEY_DELETE ||
        key == SILLET_KEY_CTRL('u')) {
        app_drop_entry(app);
        app_refresh_entry(app);
        return true;
    }
    /* With these it is edited, which is as good as typing it. */
    if (key == SILLET_KEY_LEFT || key == SILLET_KEY_RIGHT || key == SILLET_KEY_HOME ||
        key == SILLET_KEY_END)
        app->held = HELD_NO;
    return take_letter(turn, key);
}
