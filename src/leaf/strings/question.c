/* SPDX-License-Identifier: MIT */
#include "leaf/strings/question.h"

#include "leaf/strings/strings_actions.h"
#include "session/refresh.h"
#include "session/typing.h"
#include "leaf/strings/leaf_strings.h"

/* The name of the tuning, or of the set; NULL for none. */
static const char *name_of(enum name_list_of of, const struct what_if_state *what_if)
{
    if (of == NAMES_OF_TUNINGS)
        return what_if->tuning ? what_if->tuning->name : NULL;
    return what_if->set.strings > 0 ? what_if->set.name : NULL;
}

static void put_back(struct app *app)
{
    strings_state(app)->what_if = strings_state(app)->before;
}

static void close_question(struct app *app)
{
    app->asked = NULL;
    app_drop_entry(app);
    app_refresh_entry(app);
}

/* --- the answer --- */

/* Puts the name in hand into the what-if. */
static void try_on(struct app *app, const struct name_list *list)
{
    struct what_if_state *what_if = &strings_state(app)->what_if;
    char name[NAME_LIST_NAME_SIZE];
    const struct tuning *tuning;
    struct string_set set;

    put_back(app);
    if (!name_list_name(list, app->choice.in_hand, name, sizeof name))
        return;
    if (list->of == NAMES_OF_SETS && string_set_find(name, &set) == STATUS_OK)
        what_if_set_strings(what_if, &set);
    else if (list->of == NAMES_OF_TUNINGS && tuning_find(name, &tuning) == STATUS_OK)
        what_if_set_tuning(what_if, tuning);
}

static void look(struct app *app)
{
    const struct name_list list = app_names(app);
    const char *kept = name_of(list.of, &strings_state(app)->before);

    entry_look_at_name(app->entry.text, &list, &app->entry_view);
    if (app->entry_view.empty)
        choice_show(&list, kept ? name_list_place(&list, kept) : -1, &app->choice);
    else
        choice_look(app->entry.text, &list, &app->choice);
    try_on(app, &list);
}

/* Enter. With nothing typed it leaves everything as it was. A tuning or set that is on already is
 * not a what-if. */
static void answer(struct turn *turn)
{
    struct app *app = turn->app;
    const bool is_empty = app->entry_view.empty, is_tuning = app->asked->names == NAMES_OF_TUNINGS;
    const bool is_named = !app->asked->add_prompt;

    if (!is_empty && !app->entry_view.good) {
        turn_refuse_entry(turn, app->entry_view.words);
        return;
    }
    app->asked = NULL;
    app_drop_entry(app);
    if (is_named && !is_empty && strings_leave_what_is_on(app, is_tuning))
        app_say(app, TONE_NOTE,
                is_tuning ? "The strings are in this tuning already."
                          : "These strings are on already, going by their gauges.");
    app_refresh_entry(app);
}

/* --- keys --- */

/* Keys that work as usual whatever is typed. */
static bool passes(uint32_t key, enum leaf leaf)
{
    const enum command_id command = command_find(key, leaf);

    return command == COMMAND_REPAINT || command == COMMAND_SUSPEND || command == COMMAND_QUIT ||
           command == COMMAND_WHY || command == COMMAND_HELP;
}

/* A key that goes elsewhere closes the question, unless something is typed. */
static bool leave(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    if (key != SILLET_KEY_BACKSPACE && !lineedit_is_empty(&app->entry)) {
        turn_warn(turn, "Enter takes what is typed, Esc drops it.");
        return true;
    }
    put_back(app);
    close_question(app);
    return key == SILLET_KEY_BACKSPACE;
}

static bool take_key(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    if (key == SILLET_KEY_ENTER) {
        answer(turn);
        return true;
    }
    if (key == SILLET_KEY_ESCAPE || key == MENU_KEY) {
        put_back(app);
        close_question(app);
        return key == SILLET_KEY_ESCAPE;
    }
    if (app->asked->add_prompt ? pull_question_step(turn, key) : typing_choose(turn, key))
        return true;
    if (typing_edit(turn, key) || typing_add(turn, key))
        return true;
    if (key == SILLET_KEY_BACKSPACE && !lineedit_is_empty(&app->entry))
        return typing_erase(turn);
    return !passes(key, app->leaf) && leave(turn, key);
}

/* --- asking --- */

static const struct asked which_tuning = {
    .take_key = take_key, .names = NAMES_OF_TUNINGS, .look = look};
static const struct asked which_set = {.take_key = take_key, .names = NAMES_OF_SETS, .look = look};

static const struct asked which_pull = {.take_key = take_key,
                                        .look = pull_question_look,
                                        .add_prompt = pull_question_add_prompt,
                                        .add_hint = pull_question_add_hint};

static void begin(struct app *app, const struct asked *asked)
{
    app_drop_entry(app);
    strings_state(app)->before = strings_state(app)->what_if;
    app->asked = asked;
    app_refresh_entry(app);
}

static void ask(struct turn *turn, const struct asked *asked)
{
    const enum name_list_of of = asked->names;
    struct app *app = turn->app;
    const struct name_list list = name_list_for(of, &app->record);

    if (name_list_count(&list) == 0 || !app_cell(app)) {
        turn_warn(turn, of == NAMES_OF_TUNINGS
                            ? "No named tuning fits this instrument; j and k tune one string."
                            : "No named set fits this instrument; enter the gauges.");
        return;
    }
    begin(app, asked);
}

void question_ask_tuning(struct turn *turn)
{
    ask(turn, &which_tuning);
}

void question_ask_set(struct turn *turn)
{
    ask(turn, &which_set);
}

void question_ask_pull(struct turn *turn)
{
    if (!app_cell(turn->app))
        return;
    strings_state(turn->app)->pull_of = PULL_OF_STRING;
    begin(turn->app, &which_pull);
}
