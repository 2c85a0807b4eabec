/* SPDX-License-Identifier: MIT */
/*
 * Every command, declared once: lookup, the key line, the help and the menu follow from this table.
 * No include guard: it is included with COMMAND defined.
 *
 * COMMAND(id, key, other_key, letter, place, where, hint, title, words, act, can, what)
 *
 * `key` and `other_key` work in every cell (0 for none). `letter` works in the menu, and outside it
 * unless the cell in hand takes letters. A letter IN_MENU works in the menu only: it would change
 * readings and begins a word that may be typed into a number's cell by mistake (none, one), or its
 * leaf has texts. 0 for the moving keys of keyboard and number pad.
 *
 * `place` is the command's page and digit in the menu (0: it is not listed): ON_FIRST is one key
 * after `*`, ON_LEAVES after `* 0`, ON_VISIT after `* 0 0`, ON_MORE after `* .`, ON_REST after
 * `* . .`. Commands of all leaves have 1 to 3 on the first page; a leaf's own have the rest of it,
 * 8 and 9 of ON_MORE, and ON_REST. `where` is ANYWHERE or the one leaf that has the command.
 *
 * `hint` is for the key line, empty if the command is not on it; `title` is for the menu; `words`
 * say what the command does. `act` does it: DO(function), or BY(function, step). `can` says whether
 * it can be done now, and the menu lists it only then (0: always); `what` adds to the title what it
 * would be done to (0: nothing).
 */
/* clang-format off */
COMMAND(ACCEPT, SILLET_KEY_ENTER, 0, 0, 0, ANYWHERE, "next", "", "take what is typed, or leave the cell as it is, and go on along the route", DO(turn_accept), 0, 0)
COMMAND(BACK, SILLET_KEY_BACKSPACE, 0, 0, 0, ANYWHERE, "", "", "delete the last character; on an empty entry go back along the route", DO(turn_back), 0, 0)
COMMAND(CANCEL, SILLET_KEY_ESCAPE, 0, 0, 0, ANYWHERE, "", "", "drop what is typed; close the help, an explanation or the menu; else go back to the shelf", DO(turn_cancel), 0, 0)
COMMAND(UP, SILLET_KEY_UP, 0, 0, 0, ANYWHERE, "", "", "one row up", BY(turn_move_row, -1), 0, 0)
COMMAND(DOWN, SILLET_KEY_DOWN, 0, 0, 0, ANYWHERE, "", "", "one row down", BY(turn_move_row, 1), 0, 0)
COMMAND(LEFT, SILLET_KEY_LEFT, 0, 0, 0, ANYWHERE, "", "", "one cell to the left", BY(turn_move_column, -1), 0, 0)
COMMAND(RIGHT, SILLET_KEY_RIGHT, 0, 0, 0, ANYWHERE, "", "", "one cell to the right", BY(turn_move_column, 1), 0, 0)
COMMAND(FIRST, SILLET_KEY_HOME, 0, 0, 0, ANYWHERE, "", "", "the first cell of the route; on Work the first move that is due", DO(turn_move_first), 0, 0)
COMMAND(LAST, SILLET_KEY_END, 0, 0, 0, ANYWHERE, "", "", "the end of the route, where a pass is done", DO(turn_move_last), 0, 0)
COMMAND(LEAF, SILLET_KEY_TAB, SILLET_KEY_PAGE_DOWN, 0, 0, ANYWHERE, "leaf", "", "the next leaf", DO(turn_leaf_on), 0, 0)
COMMAND(LEAF_BACK, SILLET_KEY_BACKTAB, SILLET_KEY_PAGE_UP, 0, 0, ANYWHERE, "", "", "the leaf before; from the first, back to the shelf", DO(turn_leaf_back), 0, 0)
COMMAND(EDIT, SILLET_KEY_INSERT, SILLET_KEY_CTRL('e'), 0, 0, ANYWHERE, "", "", "open what the cell holds, to edit it; to replace it, just type", DO(typing_open), 0, 0)
COMMAND(CHOOSE, ' ', 0, 0, 0, ANYWHERE, "", "", "in a cell with choices: the next one, like +; - is the one before, and a number takes the choice beside it; a note goes by semitones", DO(turn_choose), 0, 0)
COMMAND(EMPTY, SILLET_KEY_CTRL('u'), 0, 0, 0, ANYWHERE, "", "", "while typing: empty the entry; Left, Right, Home, End and Del move and delete in it", DO(turn_empty), 0, 0)
COMMAND(UNDO, 0, 0, 'u', ON_FIRST(1), ANYWHERE, "undo", "undo", "undo the last change; while typing, drop what is typed", BY(turn_undo, -1), turn_can_undo, turn_add_undone)
COMMAND(CLEAR, SILLET_KEY_DELETE, 0, IN_MENU('x'), ON_FIRST(2), ANYWHERE, "", "take out", "take the reading out of the cell", DO(turn_clear_cell), turn_can_clear, turn_add_cleared)
COMMAND(SHEET, 0, 0, 'c', ON_FIRST(3), ANYWHERE, "", "write the customer's sheet", "write the customer's sheet for this visit into the folder sheets", BY(turn_ask_paper, PAPER_SHEET), 0, 0)
COMMAND(PASS, 0, 0, 'p', ON_FIRST(4), LEAF_BENCH, "pass", "pass done: begin the next", "this pass is done: begin the next one", DO(bench_begin_pass), bench_can_begin_pass, 0)
COMMAND(NUDGE_DOWN, 0, 0, 'j', ON_FIRST(5), LEAF_BENCH, "", "target: a step lower", "set this row's target a step lower; all moves follow at once", BY(bench_nudge, -1), bench_can_nudge, 0)
COMMAND(NUDGE_UP, 0, 0, 'k', ON_FIRST(6), LEAF_BENCH, "", "target: a step higher", "set this row's target a step higher", BY(bench_nudge, 1), bench_can_nudge, 0)
COMMAND(FROM_BEFORE, 0, 0, 'b', ON_FIRST(7), LEAF_BENCH, "", "start from the reading before", "start from this cell's last earlier reading; Enter takes it", DO(bench_begin_from_before), bench_has_before, 0)
COMMAND(METHOD, 0, 0, IN_MENU('o'), ON_FIRST(8), LEAF_BENCH, "", "nut gaps open, or held on fret 3", "read nut gaps with the string open, or held down on fret 3", DO(bench_toggle_method), app_may_change, 0)
COMMAND(ROW_AGAIN, 0, 0, 's', ON_FIRST(9), LEAF_BENCH, "", "this row is as it was", "this row was looked over and is as it was: file its last values, in [ ], as read now", DO(bench_take_row), bench_can_take_row, 0)
COMMAND(ALONE, 0, 0, IN_MENU('O'), ON_MORE(8), LEAF_BENCH, "", "read by itself", "read another string of this course by itself; on such a string: take it with its course again", DO(own_string_toggle), own_string_can, own_string_add)
COMMAND(TUNING_NAMED, 0, 0, 'n', ON_FIRST(4), LEAF_STRINGS, "", "what if: a tuning by name", "what if: a tuning by its name, from a list; + and - step through it", DO(question_ask_tuning), strings_has_strings, 0)
COMMAND(PULL_WANTED, 0, 0, 'G', ON_MORE(8), LEAF_STRINGS, "", "what if: gauges for a pull", "what if: the gauges sold for a pull: of this string, of each, or of all together; + and - step through that", DO(question_ask_pull), strings_has_strings, 0)
COMMAND(ALL_DOWN, 0, 0, 'J', ON_REST(8), LEAF_STRINGS, "", "all a semitone down", "what if: all strings a semitone lower", BY(strings_step_all, -1), strings_has_strings, 0)
COMMAND(SEMITONE_DOWN, 0, 0, 'j', ON_FIRST(5), LEAF_STRINGS, "", "what if: a semitone lower", "what if: the string in hand a semitone lower", BY(strings_step_semitone, -1), strings_has_strings, 0)
COMMAND(SEMITONE_UP, 0, 0, 'k', ON_FIRST(6), LEAF_STRINGS, "", "what if: a semitone higher", "what if: the string in hand a semitone higher", BY(strings_step_semitone, 1), strings_has_strings, 0)
COMMAND(SET_NAMED, 0, 0, 'g', ON_FIRST(7), LEAF_STRINGS, "", "what if: a set by name", "what if: a set of strings by its name or gauges, from a list; + and - step through it", DO(question_ask_set), strings_has_strings, 0)
COMMAND(ALL_UP, 0, 0, 'K', ON_REST(9), LEAF_STRINGS, "", "all a semitone up", "what if: all strings a semitone higher", BY(strings_step_all, 1), strings_has_strings, 0)
COMMAND(WHAT_IF_TAKE, 0, 0, 'y', ON_FIRST(8), LEAF_STRINGS, "", "take the what-if over", "put the what-if into the record", DO(strings_take_what_if), strings_can_take_what_if, 0)
COMMAND(WHAT_IF_DROP, 0, 0, 'w', ON_FIRST(9), LEAF_STRINGS, "", "drop the what-if", "drop the what-if", DO(strings_drop_what_if), strings_can_drop_what_if, 0)
COMMAND(RESTRUNG, 0, 0, IN_MENU('C'), ON_VISIT(2), LEAF_STRINGS, "", "restrung", "it was restrung: file the what-if's set and tuning, or the same set again, with a line of work", DO(restring_do), restring_can, restring_add_with)
COMMAND(CROWNS_FILL, 0, 0, IN_MENU('L'), ON_FIRST(4), LEAF_FRETS, "", "all crowns alike", "file the crown's height in hand, or the one read just before, on all frets that have none", DO(frets_fill_crowns), frets_can_fill_crowns, frets_add_fill)
COMMAND(NOTE_BACK, 0, 0, 'j', ON_FIRST(5), LEAF_FRETS, "", "look at the note below", "look at the next lower note on the headroom map", BY(frets_step_note, -1), frets_has_note, 0)
COMMAND(NOTE, 0, 0, 'k', ON_FIRST(6), LEAF_FRETS, "note", "look at the note above", "look at the next higher note on the headroom map; after the last, the tightest", BY(frets_step_note, 1), frets_has_note, 0)
COMMAND(WORK_DONE, ' ', 0, IN_MENU('d'), ON_FIRST(4), LEAF_WORK, "done", "the move is done", "mark the move in hand done as planned, with the time and the reading that shows it", DO(work_mark_done), work_can_mark_done, work_add_to_mark)
COMMAND(WORK_TEMPLATES, 0, 0, IN_MENU('t'), ON_FIRST(5), LEAF_WORK, "", "write the reset's templates", "write the templates of the neck reset that this visit asked for into the folder templates", BY(turn_ask_paper, PAPER_RESET), work_can_ask_templates, 0)
COMMAND(WORK_CARD, 0, 0, IN_MENU('f'), ON_FIRST(6), LEAF_WORK, "", "write a card for the bench", "write a card for the bench, with nut slots and frets to rock, into the folder sheets", BY(turn_ask_paper, PAPER_CARD), 0, 0)
COMMAND(WORK_OWN, 0, 0, IN_MENU('a'), ON_FIRST(7), LEAF_WORK, "", "a line of your own work", "write a line of your own work; its amount and note follow", DO(work_write_own), work_can_write_own, 0)
COMMAND(WORK_OUT, 0, 0, IN_MENU('z'), ON_FIRST(8), LEAF_WORK, "", "take the work line out", "take out the line in hand, or the mark off the move", DO(work_take_out), work_can_take_out, 0)
COMMAND(WORK_LABEL, 0, 0, IN_MENU('e'), ON_FIRST(9), LEAF_WORK, "", "write a label for the case", "write a label for the case into the folder sheets", BY(turn_ask_paper, PAPER_LABEL), 0, 0)
COMMAND(HISTORY_OPEN, SILLET_KEY_ENTER, 0, 'i', ON_FIRST(4), LEAF_HISTORY, "open", "take this pass to the bench", "open the pass looked at, on the bench", DO(history_open), history_has_pass, 0)
COMMAND(HISTORY_NAME, 0, 0, 'l', ON_FIRST(7), LEAF_HISTORY, "label", "label this pass", "label the pass looked at, then write its note, and a note for the owner that the sheet prints", DO(history_name), history_can_name, 0)
COMMAND(PASS_OUT, 0, 0, 'z', ON_FIRST(8), LEAF_HISTORY, "", "take this pass out", "take out the pass looked at, with all its readings; Enter has to confirm it", DO(take_out_pass), take_out_has_pass, 0)
COMMAND(VISIT_OUT, 0, 0, 'Z', ON_VISIT(9), LEAF_HISTORY, "", "take this whole visit out", "take out the visit looked at, with all its passes and work; Enter has to confirm it", DO(take_out_visit), take_out_has_visit, 0)
COMMAND(TARGETS_KEEP, 0, 0, IN_MENU('R'), ON_FIRST(4), LEAF_INTAKE, "", "keep these targets as the shop's", "keep targets, tolerances and gauge steps as the shop's own for this kind: a new instrument of it begins with them", DO(intake_keep_targets), intake_can_keep_targets, intake_add_kind)
COMMAND(TARGETS_FORGET, 0, 0, IN_MENU('D'), ON_FIRST(5), LEAF_INTAKE, "", "drop the shop's own targets", "drop the shop's own targets for this kind; instruments on file stay as they are", DO(intake_forget_targets), intake_can_forget_targets, intake_add_kind)
COMMAND(INTAKE_ESTIMATE, 0, 0, IN_MENU('E'), ON_FIRST(6), LEAF_INTAKE, "", "write an estimate", "write an estimate of what is due by what was found, with the shop's prices, into the folder sheets", BY(turn_ask_paper, PAPER_ESTIMATE), 0, 0)
COMMAND(INTAKE_PRICES, 0, 0, IN_MENU('$'), ON_FIRST(7), LEAF_INTAKE, "", "the shop's prices", "type the shop's price of each move and of new strings, beside what this visit's estimate comes to", DO(price_question_ask), 0, 0)
COMMAND(INTAKE_OUT, 0, 0, 'Z', ON_VISIT(9), LEAF_INTAKE, "", "take this whole visit out", "take out this visit, with all its passes and work; Enter has to confirm it", DO(take_out_visit), take_out_has_visit, 0)
#define LEAF(id, name, letter, room) COMMAND(GO_##id, SILLET_KEY_F1 + LEAF_##id, 0, letter, ON_LEAVES(1 + LEAF_##id), ANYWHERE, "", name, "turn to the " name " leaf", BY(turn_go_to_leaf, LEAF_##id), 0, 0)
#include "session/leaf_table.h"
#undef LEAF
COMMAND(REDO, 0, 0, 'r', ON_MORE(1), ANYWHERE, "", "redo", "redo the change that was undone last", BY(turn_undo, 1), turn_can_redo, turn_add_redone)
COMMAND(EARLIER, '[', 0, '<', ON_MORE(2), ANYWHERE, "", "look at the pass before", "look at the pass before", BY(turn_look_at, -1), turn_has_earlier, 0)
COMMAND(LATER, ']', 0, '>', ON_MORE(3), ANYWHERE, "", "look at the pass after", "look at the pass after", BY(turn_look_at, 1), turn_has_later, 0)
COMMAND(VISIT, 0, 0, 'v', ON_MORE(4), ANYWHERE, "", "a new visit today", "begin a new visit today", DO(turn_begin_visit), turn_can_begin_visit, 0)
COMMAND(CORRECT, 0, 0, '=', ON_VISIT(1), ANYWHERE, "", "correct", "file corrections of all visits, or changes from this visit on; of a change that is filed already, make a correction", DO(change_toggle), change_can_toggle, change_add_toggled)
COMMAND(HAND_OVER, 0, 0, IN_MENU('A'), ON_VISIT(3), ANYWHERE, "", "hand over", "the instrument goes back to its owner: file today as the day, and write the customer's sheet", DO(hand_over_do), hand_over_can, hand_over_add_left)
COMMAND(MENU, '*', 0, 0, 0, ANYWHERE, "menu", "", "the menu: everything that can be done now, by digit or letter; in a text, a character", DO(turn_open_menu), 0, 0)
COMMAND(WHY, 0, 0, '?', ON_MORE(5), ANYWHERE, "why", "why this figure", "how this cell is measured, and how its figure is worked out", DO(turn_explain), 0, 0)
COMMAND(HELP, 0, 0, 'h', ON_MORE(6), ANYWHERE, "keys", "all keys of this leaf", "these keys", DO(turn_help), 0, 0)
COMMAND(UNITS, 0, 0, 'm', ON_MORE(7), ANYWHERE, "", "inch gauges or metric gauges", "inch gauges or metric gauges", DO(turn_toggle_units), 0, 0)
COMMAND(REPAINT, SILLET_KEY_CTRL('l'), 0, 0, 0, ANYWHERE, "", "", "repaint the screen", DO(turn_repaint), 0, 0)
COMMAND(SUSPEND, SILLET_KEY_CTRL('z'), 0, 0, 0, ANYWHERE, "", "", "suspend; fg in the shell comes back", DO(turn_suspend), 0, 0)
COMMAND(QUIT, SILLET_KEY_F1 + 8, SILLET_KEY_CTRL('c'), 'q', ON_LEAVES(9), ANYWHERE, "quit", "quit", "quit, or go back to the shelf if it was opened there; everything is kept", DO(turn_quit), 0, turn_add_where_to)
/* clang-format on */
