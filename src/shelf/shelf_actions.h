/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_ACTIONS_H
#define SILLET_SHELF_SHELF_ACTIONS_H

#include "shelf/shelf_list.h"

/* What the shelf's keys do. */

/* One event being handled. */
struct shelf_turn {
    struct shelf_list *list;
    struct shelf_effects effects;
};

/* Opens the instrument in hand at a leaf (enum leaf). */
void shelf_open_at(struct shelf_turn *turn, int leaf);

/* A character of the search, or of the name being typed. */
void shelf_type(struct shelf_turn *turn, uint32_t key);
void shelf_erase(struct shelf_turn *turn);
void shelf_list_all(struct shelf_turn *turn);
void shelf_leave(struct shelf_turn *turn);

void shelf_step(struct shelf_turn *turn, int by);
void shelf_page(struct shelf_turn *turn, int by);
void shelf_go_to_end(struct shelf_turn *turn, int last);

/* A new instrument: its starting point, then its name. */
void shelf_begin_new(struct shelf_turn *turn);
void shelf_type_start(struct shelf_turn *turn, uint32_t key);
void shelf_erase_start(struct shelf_turn *turn);
void shelf_begin_copy(struct shelf_turn *turn);
void shelf_take_preset(struct shelf_turn *turn);
void shelf_take_name(struct shelf_turn *turn);
/* Where the shop's settings do not say its units, they are asked for before the first one is filed;
 * `units` is an enum shelf_take_units. */
void shelf_ask_units(struct shelf_turn *turn);
void shelf_take_units(struct shelf_turn *turn, int units);
void shelf_edit_name(struct shelf_turn *turn);
void shelf_empty_name(struct shelf_turn *turn);
void shelf_erase_name(struct shelf_turn *turn);
void shelf_back_from_name(struct shelf_turn *turn);

void shelf_begin_archive(struct shelf_turn *turn);
void shelf_archive_now(struct shelf_turn *turn);

/* Earlier states and other versions; `action` is an enum shelf_action. */
void shelf_begin_earlier(struct shelf_turn *turn);
void shelf_take_earlier(struct shelf_turn *turn, int action);
void shelf_put_away(struct shelf_turn *turn);

/* Two versions put together; `side` is an enum join_side. */
void shelf_begin_together(struct shelf_turn *turn);
void shelf_together_choose(struct shelf_turn *turn, int side);
void shelf_together_choose_all(struct shelf_turn *turn, int side);
void shelf_together_next(struct shelf_turn *turn);
void shelf_together_save(struct shelf_turn *turn);

/* Lists the answer to a question (enum shelf_question); asked again, all. */
void shelf_ask(struct shelf_turn *turn, int question);

/* Shows a table (enum shelf_table_id), or the one in hand as it was last left. */
void shelf_show_table(struct shelf_turn *turn, int table);
void shelf_peek(struct shelf_turn *turn);
/* The same, as the visit before or after left it (-1, 1). */
void shelf_peek_visit(struct shelf_turn *turn, int by);

/* The journal (shelf_journal.h): of today, of another day, of the day or its month. */
void shelf_open_journal(struct shelf_turn *turn);
void shelf_step_journal(struct shelf_turn *turn, int by);
void shelf_turn_journal(struct shelf_turn *turn);

/* Back to the list, nothing done. */
void shelf_to_list(struct shelf_turn *turn);
void shelf_help(struct shelf_turn *turn);
void shelf_repaint(struct shelf_turn *turn);
void shelf_suspend(struct shelf_turn *turn);
void shelf_quit(struct shelf_turn *turn);

/* Whether the menu lists them now. */
bool shelf_has_item(const struct shelf_list *list);
bool shelf_can_list_all(const struct shelf_list *list);
bool shelf_can_copy(const struct shelf_list *list);
bool shelf_can_archive(const struct shelf_list *list);

#endif
