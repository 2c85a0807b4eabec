/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_CELL_ACTIONS_H
#define SILLET_SESSION_CELL_ACTIONS_H

#include "session/turn.h"

/* The commands that every leaf has: moving between cells and leaves, and quitting. */

void turn_accept(struct turn *turn);
void turn_back(struct turn *turn);
void turn_cancel(struct turn *turn);
void turn_choose(struct turn *turn);
void turn_empty(struct turn *turn);

void turn_move_row(struct turn *turn, int by);
void turn_move_column(struct turn *turn, int by);
void turn_move_first(struct turn *turn);
void turn_move_last(struct turn *turn);

void turn_leaf_on(struct turn *turn);
void turn_leaf_back(struct turn *turn);
void turn_go_to_leaf(struct turn *turn, int leaf);

void turn_explain(struct turn *turn);
void turn_help(struct turn *turn);
void turn_ask_paper(struct turn *turn, int paper);
void turn_toggle_units(struct turn *turn);
void turn_repaint(struct turn *turn);
void turn_suspend(struct turn *turn);

/* Quits the session. While the last save has failed, it has to be asked for twice. */
void turn_quit(struct turn *turn);

/* Appends where quitting leads, for the menu. */
void turn_add_where_to(const struct app *app, struct strbuf *out);

/* What Enter does in an ordinary cell: files the entry and goes on; false if it did neither. */
bool turn_accept_cell(struct turn *turn);

#endif
