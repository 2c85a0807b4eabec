/* SPDX-License-Identifier: MIT */
#include "session/menu_actions.h"

/* While something is typed, the menu lists only commands that cannot lose it by accident. */
static bool holds_while_typing(enum command_id id)
{
    return id == COMMAND_UNDO || id == COMMAND_WHY || id == COMMAND_HELP;
}

static bool is_listed(const struct app *app, enum command_id id)
{
    const struct command *command = command_get(id);

    if (!command->place || !command_is_on(id, app->leaf))
        return false;
    if (app_is_typing(app) && !holds_while_typing(id))
        return false;
    return !app_act(app, id)->can || app_act(app, id)->can(app);
}

/* "undo: action, string 6", "the move is done: rod". */
static void add_title(const struct app *app, enum command_id id, struct strbuf *out)
{
    const struct command_act *act = app_act(app, id);

    strbuf_add(out, command_get(id)->title);
    if (act->add_what)
        act->add_what(app, out);
    if ((int)id == COMMAND_GO_INTAKE + (int)app->leaf)
        strbuf_add(out, ", shown now");
}

void turn_open_menu(struct turn *turn)
{
    struct app *app = turn->app;

    menu_clear(&app->menu);
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);

        if (command->place && command_is_on((enum command_id)id, app->leaf))
            menu_keep_page(&app->menu, command->place);
        if (!is_listed(app, (enum command_id)id))
            continue;
        struct menu_item *item = menu_add(&app->menu, id, command->place, command->letter);
        if (!item)
            break;
        struct strbuf words = STRBUF(item->words);
        add_title(app, (enum command_id)id, &words);
    }
    app->overlay = OVERLAY_MENU;
}
