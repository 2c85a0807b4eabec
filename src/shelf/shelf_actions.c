/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_actions.h"

#include "shelf/shelf_journal.h"
#include "shelf/shelf_move.h"
#include "shelf/shelf_visit.h"

/* --- the list --- */

static void drop_filter(struct shelf_list *list)
{
    list->used = false;
    lineedit_clear(&list->filter);
    shelf_list_narrow(list);
}

/* What is typed goes first, then the question. */
void shelf_leave(struct shelf_turn *turn)
{
    if (lineedit_is_empty(&turn->list->filter) && turn->list->question != SHELF_ALL)
        shelf_ask(turn, SHELF_ALL);
    else if (lineedit_is_empty(&turn->list->filter))
        shelf_list_say(turn->list, TONE_NOTE, "To quit: * and then q, or Ctrl-C.");
    else
        drop_filter(turn->list);
}

void shelf_ask(struct shelf_turn *turn, int question)
{
    struct shelf_list *list = turn->list;

    shelf_to_list(turn);
    list->question =
        list->question == (enum shelf_question)question ? SHELF_ALL : (enum shelf_question)question;
    list->chosen[0] = '\0';
    shelf_list_narrow(list);
}

void shelf_show_table(struct shelf_turn *turn, int table)
{
    turn->list->mode = SHELF_TABLE;
    turn->list->table = table;
    turn->list->help_top = 0;
}

void shelf_peek(struct shelf_turn *turn)
{
    if (shelf_list_item(turn->list))
        turn->list->mode = SHELF_PEEKING;
}

void shelf_peek_visit(struct shelf_turn *turn, int by)
{
    shelf_peek(turn);
    turn->list->visit.by = by;
    if (shelf_list_item(turn->list))
        turn->effects.action = SHELF_DO_VISIT;
}

void shelf_open_journal(struct shelf_turn *turn)
{
    shelf_journal_open(turn->list);
    turn->effects.action = SHELF_DO_JOURNAL;
}

void shelf_step_journal(struct shelf_turn *turn, int by)
{
    if (shelf_journal_step(turn->list, by))
        turn->effects.action = SHELF_DO_JOURNAL;
}

void shelf_turn_journal(struct shelf_turn *turn)
{
    shelf_journal_turn(turn->list);
    turn->effects.action = SHELF_DO_JOURNAL;
}

void shelf_erase(struct shelf_turn *turn)
{
    struct shelf_list *list = turn->list;

    list->used = false;
    if (lineedit_backspace(&list->filter)) {
        list->typing = true;
        shelf_list_narrow(list);
    }
}

void shelf_type(struct shelf_turn *turn, uint32_t key)
{
    struct shelf_list *list = turn->list;
    const bool naming = list->mode == SHELF_NAMING;
    struct lineedit *line = naming ? &list->name : &list->filter;
    bool *anew = naming ? &list->proposed : &list->used;

    if (*anew)
        lineedit_clear(line);
    *anew = false;
    if (!lineedit_add(line, key)) {
        shelf_list_say(turn->list, TONE_WARNING, "The entry is full.");
        return;
    }
    list->typing = true;
    if (!naming)
        shelf_list_narrow(list);
}

void shelf_list_all(struct shelf_turn *turn)
{
    shelf_to_list(turn);
    turn->list->question = SHELF_ALL;
    drop_filter(turn->list);
}

/* --- moving --- */

void shelf_step(struct shelf_turn *turn, int by)
{
    shelf_move(turn->list, by);
}

void shelf_page(struct shelf_turn *turn, int by)
{
    shelf_move(turn->list, by * (turn->list->rows > 1 ? turn->list->rows - 1 : 1));
}

void shelf_go_to_end(struct shelf_turn *turn, int last)
{
    shelf_move_to_end(turn->list, last != 0);
}

/* --- the rest --- */

void shelf_to_list(struct shelf_turn *turn)
{
    shelf_visit_drop(turn->list);
    turn->list->mode = SHELF_LIST;
}

void shelf_help(struct shelf_turn *turn)
{
    turn->list->mode = SHELF_HELP;
    turn->list->help_top = 0;
}

void shelf_repaint(struct shelf_turn *turn)
{
    turn->effects.rescan = turn->effects.repaint = true;
}

void shelf_suspend(struct shelf_turn *turn)
{
    turn->effects.suspend = true;
}

void shelf_quit(struct shelf_turn *turn)
{
    turn->effects.quit = true;
}

/* --- the menu --- */

bool shelf_has_item(const struct shelf_list *list)
{
    return shelf_list_item(list) != NULL;
}

bool shelf_can_list_all(const struct shelf_list *list)
{
    return !lineedit_is_empty(&list->filter) || list->question != SHELF_ALL;
}

bool shelf_can_copy(const struct shelf_list *list)
{
    const struct shelf_item *item = shelf_list_item(list);

    return item && !(item->marks & SHELF_BROKEN);
}

bool shelf_can_archive(const struct shelf_list *list)
{
    const struct shelf_item *item = shelf_list_item(list);

    return item && !(item->marks & SHELF_IN_USE);
}
