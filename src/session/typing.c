/* SPDX-License-Identifier: MIT */
#include "session/typing.h"

#include <math.h>
#include <string.h>

#include "model/reading/note_name.h"
#include "model/strings/pitch.h"
#include "session/refresh.h"

void typing_open(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);
    const char *text = cell ? record_text(&app->record, &cell->key) : NULL;

    /* An entry is being edited already. */
    if (app_is_typing(app))
        return;
    if (!text) {
        turn_warn(turn, "There is nothing to edit here yet: just type.");
        return;
    }
    if (!turn_may_change(turn))
        return;
    app_drop_entry(app);
    app->writing = app->opened = true;
    if (!lineedit_set(&app->entry, text)) {
        app_drop_entry(app);
        turn_warn(turn, "This text is longer than the entry line; edit it in the file.");
    }
    app_refresh_entry(app);
}

/* --- choices --- */

/* The entry as a number in the list, from 1; 0 if it is none. */
static int typed_number(const struct app *app, int count)
{
    int number;

    return num_count(app->entry.text, app->entry.length, 99, &number) == STATUS_OK &&
                   number <= count
               ? number
               : 0;
}

/* The place in the list of the name that the cell holds, or of the one that a question shows; -1
 * for none. */
static int kept_place(const struct app *app, const struct name_list *list)
{
    const char *text = record_text(&app->record, &app_cell(app)->key);
    struct choice kept;

    if (app_is_asked(app))
        return app->choice.in_hand;
    if (!text || strspn(text, "0123456789") == strlen(text))
        return -1;
    choice_look(text, list, &kept);
    return kept.in_hand;
}

/* Steps from the name that is proposed; else to the first (back: the last) that could be meant;
 * else from the one that is kept. Wraps around. */
static int step_choice(const struct app *app, const struct name_list *list, int count, int by)
{
    const struct choice *choice = &app->choice;
    const int kept = kept_place(app, list);

    if (choice->in_hand >= 0 && choice->state != CHOICE_NONE)
        return (choice->in_hand + by + count) % count + 1;
    if (choice->state == CHOICE_WHICH || choice->state == CHOICE_NEAREST)
        return choice->found.at[by > 0 ? 0 : choice->found.count - 1] + 1;
    if (kept >= 0)
        return (kept + by + count) % count + 1;
    return by > 0 ? 1 : count;
}

static void put_number(struct app *app, int number)
{
    char memory[16];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "%d", number);
    (void)lineedit_set(&app->entry, memory);
    app->writing = app->opened = app->proposed = false;
}

/* The note a step away, named as the other strings are; down from D is Db, up from D is D#. */
static enum status spell_step(const struct app *app, int semitone, int by, struct strbuf *out)
{
    const struct reading_key *key = &app_cell(app)->key;

    if (key->field == FIELD_STRING_NOTE)
        return note_name_beside(&app->record, key->string, semitone + by, by < 0, out);
    return pitch_spell(semitone + by, by < 0, out);
}

/* Steps a note by a semitone, from the one typed or proposed, else from the one kept. */
static bool step_note(struct app *app, uint32_t key)
{
    char memory[16];
    struct strbuf text = STRBUF(memory);

    if (key != ' ' && key != '+' && key != '-')
        return false;
    const struct maybe now = app->entry_view.good
                                 ? maybe_given(app->entry_view.value)
                                 : record_entered(&app->record, app_cell(app)->key);
    if (!now.given)
        return false;
    if (spell_step(app, (int)lround(now.value), key == '-' ? -1 : 1, &text) != STATUS_OK)
        return false;
    (void)lineedit_set(&app->entry, memory);
    app_refresh_entry(app);
    return true;
}

/* How far a key steps in the list; 0 for a key that does not. Where letters are written, + and -
 * may belong to them, and a blank to all that is typed; Up, Down and the pages step only while
 * something is typed. */
static int list_step(const struct app *app, uint32_t key)
{
    enum { PAGE = 10 };

    if (key == ' ' && !lineedit_is_empty(&app->entry) && !app->proposed)
        return 0;
    if (!app->writing && (key == ' ' || key == '+' || key == '-'))
        return key == '-' ? -1 : 1;
    if (!app_is_typing(app))
        return 0;
    switch (key) {
    case SILLET_KEY_UP:
        return -1;
    case SILLET_KEY_DOWN:
        return 1;
    case SILLET_KEY_PAGE_UP:
        return -PAGE;
    case SILLET_KEY_PAGE_DOWN:
        return PAGE;
    default:
        return 0;
    }
}

/* Whether a number past the list's end begins a name, as the gauge of a set does. */
static bool begins_name(const struct name_list *list, int number)
{
    char memory[16];
    struct strbuf text = STRBUF(memory);
    struct choice choice;

    strbuf_addf(&text, "%d", number);
    choice_look(memory, list, &choice);
    return choice.state == CHOICE_TAKEN || choice.state == CHOICE_WHICH;
}

/* A digit goes on with the typed number of a choice, or begins a new one. If it can do neither, as
 * in 80/20, it is text. */
static bool add_number(struct app *app, uint32_t key, const struct name_list *list, int count)
{
    const int typed = app->proposed ? 0 : typed_number(app, count);
    const bool of_list = app->proposed || lineedit_is_empty(&app->entry) || typed > 0;
    const int digit = (int)key - '0', longer = 10 * typed + digit;

    if (key < '0' || key > '9' || app->writing || !of_list || longer == 0)
        return false;
    if (longer > count && (digit == 0 || digit > count || begins_name(list, longer)))
        return false;
    put_number(app, longer <= count ? longer : digit);
    return true;
}

bool typing_choose(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;
    const struct field *field = app_field(app);

    if (!field && (!app_is_asked(app) || app->asked->add_prompt))
        return false;
    if (field && field->kind == KIND_NOTE)
        return !app->writing && step_note(app, key);
    const struct name_list list = app_names(app);
    const int count = name_list_count(&list), by = list_step(app, key);
    if (count == 0)
        return false;
    if (by != 0) {
        put_number(app, step_choice(app, &list, count, by % count));
        app->proposed = true;
    } else if (!add_number(app, key, &list, count)) {
        return false;
    }
    app_refresh_entry(app);
    return true;
}

/* --- characters --- */

/* After a key changed the entry. Once a new entry is empty again, nothing is typed any more. */
static void follow(struct app *app)
{
    if (lineedit_is_empty(&app->entry) && !app_is_emptied(app))
        app_drop_entry(app);
    app_refresh_entry(app);
}

bool typing_edit(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    if (!app_is_typing(app))
        return false;
    if (key == SILLET_KEY_DELETE)
        (void)(lineedit_delete(&app->entry) || lineedit_backspace(&app->entry));
    else if (!lineedit_move(&app->entry, key))
        return false;
    follow(app);
    return true;
}

bool typing_erase(struct turn *turn)
{
    if (!app_is_typing(turn->app))
        return false;
    (void)lineedit_backspace(&turn->app->entry);
    follow(turn->app);
    return true;
}

static bool is_one_of(const char *keys, uint32_t key)
{
    return key < 0x80 && strchr(keys, (int)key);
}

static bool is_letter(uint32_t key)
{
    return (key >= 'a' && key <= 'z') || (key >= 'A' && key <= 'Z') || key >= 0x80;
}

/* A half, a quarter, an eighth in one character: 1/4 1/2 3/4, 1/8 3/8 5/8 7/8. */
static bool is_vulgar(uint32_t key)
{
    return (key >= 0xBC && key <= 0xBE) || (key >= 0x215B && key <= 0x215E);
}

/* Whether a key begins an entry in letters. A number does not, except for the word "flat" for a
 * radius. */
static bool begins_in_letters(const struct app *app, uint32_t key)
{
    const struct field *field = app_field(app);

    if (!app_takes_letters(app))
        return field && field->kind == KIND_RADIUS && (key == 'f' || key == 'F');
    return is_letter(key) || (field && field->kind == KIND_TEXT);
}

/* Keys that no number needs stay commands, so that `?` can explain a preview; in a text they are
 * characters. A blank begins nothing. */
static bool is_for_entry(const struct app *app, uint32_t key)
{
    if (!app_cell(app) || key >= SILLET_KEY_ENTER || key < ' ')
        return false;
    /* No number contains *, and it is the number pad's only way out of an entry. */
    if (app->writing)
        return key != '*' || app_takes_letters(app);
    if (is_one_of("*?<>[]", key))
        return false;
    if (lineedit_is_empty(&app->entry))
        return is_one_of("0123456789.,/+-", key) || is_vulgar(key) ||
               (key != ' ' && begins_in_letters(app, key));
    return true;
}

/* A number that long means that a key was held down. */
static bool is_full(const struct app *app)
{
    enum { NUMBER_MAX = 32 }; /* fits beside the longest prompt */

    return !app_is_edited(app) && app->entry.length >= NUMBER_MAX;
}

bool typing_add(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    if (!is_for_entry(app, key))
        return false;
    if (begins_in_letters(app, key))
        app->writing = true;
    if (is_full(app) || !lineedit_add(&app->entry, key))
        turn_warn(turn, "The entry is full.");
    app_refresh_entry(app);
    return true;
}
