/* SPDX-License-Identifier: MIT */
/*
 * The keys of the shelf, declared once: lookup, the key line, the help and the menu follow from
 * this table. Characters that are not in it narrow the list. No include guard: it is included with
 * SHELF_KEY defined.
 *
 * SHELF_KEY(id, key, other_key, letter, place, mode, hint, title, words, act, can)
 *
 * `mode` is where the keys have this meaning (SHELF_ANY: in every mode without one of its own).
 * Characters search the list, so its commands are in the menu: those with a `place` (menu.h), where
 * `letter` gives them. A command that the leaves have too has the same digit. `hint` is for the key
 * line, empty if it is not on it; `title` is for the menu; `words` say what the key does.
 * `act` does it: DO(function), or BY(function, step). `can` tells whether it can be done now, and
 * only then does the menu list it (0: always).
 */
/* clang-format off */
SHELF_KEY(OPEN, SILLET_KEY_ENTER, 0, 0, 0, SHELF_LIST, "opens", "", "open the instrument in hand; on an empty shelf, begin a new one", BY(shelf_open_at, LEAF_BENCH), 0)
SHELF_KEY(MENU, MENU_KEY, 0, 0, 0, SHELF_LIST, "menu: new, copy, quit", "", "the menu: what can be done now, by its digit or letter", DO(open_menu), 0)
SHELF_KEY(TURN, SILLET_KEY_TAB, 0, 0, 0, SHELF_LIST, "leaf", "", "the next leaf: the Intake of the instrument in hand; Shift-Tab there comes back here", BY(shelf_open_at, 0), 0)
SHELF_KEY(LEAVE, SILLET_KEY_ESCAPE, SILLET_KEY_F1 + 8, 0, 0, SHELF_LIST, "lists all", "", "drop what is typed, then what was asked, so that all are listed; it never quits", DO(shelf_leave), 0)
SHELF_KEY(ERASE, SILLET_KEY_BACKSPACE, SILLET_KEY_DELETE, 0, 0, SHELF_LIST, "", "", "delete the last character", DO(shelf_erase), 0)
SHELF_KEY(LIST_ALL, SILLET_KEY_CTRL('u'), 0, 'u', ON_FIRST(1), SHELF_LIST, "", "list all", "drop what is typed and what was asked, so that all are listed", DO(shelf_list_all), shelf_can_list_all)
SHELF_KEY(HOUSE, 0, 0, 'i', ON_FIRST(2), SHELF_LIST, "", "in the house, as promised", "only what is in the house: ticket, day promised, what is left to do; the same again lists all", BY(shelf_ask, SHELF_HOUSE), 0)
SHELF_KEY(DUE, 0, 0, 'd', ON_FIRST(3), SHELF_LIST, "", "due for a check", "only what is due for a check within a month: the air then and now", BY(shelf_ask, SHELF_DUE), 0)
SHELF_KEY(NEW, 0, 0, 'n', ON_FIRST(4), SHELF_LIST, "", "a new instrument", "a new instrument from a starting point; first those of the shop: what is on file without owner, serial number and visit", DO(shelf_begin_new), 0)
SHELF_KEY(PEEK, SILLET_KEY_RIGHT, 0, 'l', ON_FIRST(5), SHELF_LIST, "looks", "as it was last left", "strings, tuning, relief, action and gaps as it was last left, without opening it", DO(shelf_peek), shelf_has_item)
SHELF_KEY(PEEK_BACK, SILLET_KEY_LEFT, 0, 0, 0, SHELF_LIST, "", "", "the same as it was left the visit before", BY(shelf_peek_visit, -1), shelf_has_item)
SHELF_KEY(USUAL, 0, 0, 'v', ON_FIRST(6), SHELF_LIST, "", "what we usually set", "what is usually wanted and left, kind by kind, over all that match what is typed", BY(shelf_show_table, TABLE_USUAL), 0)
SHELF_KEY(COPY, 0, 0, 'f', ON_FIRST(7), SHELF_LIST, "", "start from this one", "a new instrument with the build, strings and targets of this one, but not its visits, owner or serial number", DO(shelf_begin_copy), shelf_can_copy)
SHELF_KEY(EARLIER, 0, 0, 'e', ON_FIRST(8), SHELF_LIST, "", "earlier states of this one", "earlier states of this one, and other versions beside it: look at one, bring it back, put it together with the file, put it away", DO(shelf_begin_earlier), shelf_has_item)
SHELF_KEY(ARCHIVE, 0, 0, 'g', ON_FIRST(9), SHELF_LIST, "", "archive this one", "move this one to archive/, where it stays whole but is not listed", DO(shelf_begin_archive), shelf_can_archive)
#define LEAF(id, name, letter, room) SHELF_KEY(GO_##id, SILLET_KEY_F1 + LEAF_##id, 0, letter, ON_LEAVES(1 + LEAF_##id), SHELF_LIST, "", name, "open the instrument in hand at its " name " leaf", BY(shelf_open_at, LEAF_##id), shelf_has_item)
#include "session/leaf_table.h"
#undef LEAF
SHELF_KEY(SADDLE, 0, 0, 's', ON_MORE(1), SHELF_LIST, "", "little saddle left", "only where the saddle is nearly used up, the least first", BY(shelf_ask, SHELF_SADDLE), 0)
SHELF_KEY(RODS, 0, 0, 'r', ON_MORE(2), SHELF_LIST, "", "nothing left in the rod", "only where the rod answers no longer, or was turned in as far as rods go", BY(shelf_ask, SHELF_RODS), 0)
SHELF_KEY(TURNS, 0, 0, 't', ON_MORE(3), SHELF_LIST, "", "what a quarter turn does", "what a quarter turn of the rod does to the relief, kind by kind", BY(shelf_show_table, TABLE_TURNS), 0)
SHELF_KEY(PROOF, 0, 0, 'p', ON_MORE(4), SHELF_LIST, "", "how right were we?", "how often readings were as expected after a move, kind by kind and move by move", BY(shelf_show_table, TABLE_PROOF), 0)
SHELF_KEY(JOURNAL, 0, 0, 'j', ON_MORE(5), SHELF_LIST, "", "journal: what was done today", "what was done to all instruments today; then Left and Right go to other days, Enter to the month", DO(shelf_open_journal), 0)
SHELF_KEY(DAY_BEFORE, SILLET_KEY_LEFT, '-', 0, 0, SHELF_JOURNAL, "before", "", "the last day before it on which anything was done", BY(shelf_step_journal, -1), 0)
SHELF_KEY(DAY_AFTER, SILLET_KEY_RIGHT, '+', 0, 0, SHELF_JOURNAL, "after", "", "the next day after it", BY(shelf_step_journal, 1), 0)
SHELF_KEY(MONTH, SILLET_KEY_ENTER, 0, 0, 0, SHELF_JOURNAL, "day or month", "", "the whole month, and back to the day", DO(shelf_turn_journal), 0)
SHELF_KEY(LEAVE_JOURNAL, SILLET_KEY_ESCAPE, SILLET_KEY_BACKSPACE, 0, 0, SHELF_JOURNAL, "back to the list", "", "back to the list", DO(shelf_to_list), 0)
SHELF_KEY(VISIT_BEFORE, SILLET_KEY_LEFT, '-', 0, 0, SHELF_PEEKING, "the visit before", "", "as it was left the visit before", BY(shelf_peek_visit, -1), 0)
SHELF_KEY(VISIT_AFTER, SILLET_KEY_RIGHT, '+', 0, 0, SHELF_PEEKING, "after", "", "as it was left the visit after", BY(shelf_peek_visit, 1), 0)
SHELF_KEY(LEAVE_PEEK, SILLET_KEY_ESCAPE, SILLET_KEY_BACKSPACE, 0, 0, SHELF_PEEKING, "back to the list", "", "back to the list; Up and Down show the one above and below", DO(shelf_to_list), 0)
SHELF_KEY(OPEN_PEEKED, SILLET_KEY_ENTER, 0, 0, 0, SHELF_PEEKING, "opens", "", "open the instrument in hand", BY(shelf_open_at, LEAF_BENCH), 0)
SHELF_KEY(LEAVE_TABLE, SILLET_KEY_ESCAPE, SILLET_KEY_LEFT, 0, 0, SHELF_TABLE, "back to the list", "", "back to the list", DO(shelf_to_list), 0)
SHELF_KEY(HELP, 0, 0, 'h', ON_MORE(6), SHELF_LIST, "", "all keys of the shelf", "these keys", DO(shelf_help), 0)
SHELF_KEY(QUIT, 0, 0, 'q', ON_LEAVES(9), SHELF_LIST, "", "quit", "quit", DO(shelf_quit), 0)
SHELF_KEY(UP, SILLET_KEY_UP, 0, 0, 0, SHELF_ANY, "", "", "the one above", BY(shelf_step, -1), 0)
SHELF_KEY(DOWN, SILLET_KEY_DOWN, 0, 0, 0, SHELF_ANY, "", "", "the one below", BY(shelf_step, 1), 0)
SHELF_KEY(PAGE_UP, SILLET_KEY_PAGE_UP, 0, 0, 0, SHELF_ANY, "", "", "a page up", BY(shelf_page, -1), 0)
SHELF_KEY(PAGE_DOWN, SILLET_KEY_PAGE_DOWN, 0, 0, 0, SHELF_ANY, "", "", "a page down", BY(shelf_page, 1), 0)
SHELF_KEY(FIRST, SILLET_KEY_HOME, 0, 0, 0, SHELF_ANY, "", "", "the first", BY(shelf_go_to_end, 0), 0)
SHELF_KEY(LAST, SILLET_KEY_END, 0, 0, 0, SHELF_ANY, "", "", "the last", BY(shelf_go_to_end, 1), 0)
SHELF_KEY(TAKE_PRESET, SILLET_KEY_ENTER, 0, 0, 0, SHELF_PRESETS, "takes it; type to find", "", "take this starting point; its number or words of its name find it: 12 string", DO(shelf_take_preset), 0)
SHELF_KEY(ERASE_START, SILLET_KEY_BACKSPACE, SILLET_KEY_DELETE, 0, 0, SHELF_PRESETS, "", "", "delete the last character; with nothing typed, begin no new instrument", DO(shelf_erase_start), 0)
SHELF_KEY(LEAVE_PRESETS, SILLET_KEY_ESCAPE, 0, MENU_KEY, 0, SHELF_PRESETS, "back to the list", "", "begin no new instrument", DO(shelf_to_list), 0)
SHELF_KEY(TAKE_NAME, SILLET_KEY_ENTER, 0, 0, 0, SHELF_NAMING, "files and opens it", "", "take the name", DO(shelf_take_name), 0)
SHELF_KEY(ERASE_NAME, SILLET_KEY_BACKSPACE, 0, 0, 0, SHELF_NAMING, "", "", "delete the last character of the name", DO(shelf_erase_name), 0)
SHELF_KEY(EDIT_NAME, SILLET_KEY_INSERT, SILLET_KEY_CTRL('e'), 0, 0, SHELF_NAMING, "edits it", "", "edit the proposed name; typing replaces it", DO(shelf_edit_name), 0)
SHELF_KEY(EMPTY_NAME, SILLET_KEY_CTRL('u'), 0, 0, 0, SHELF_NAMING, "", "", "empty the name; Left, Right, Home, End and Del move and delete in it", DO(shelf_empty_name), 0)
SHELF_KEY(BACK_FROM_NAME, SILLET_KEY_UP, 0, 0, 0, SHELF_NAMING, "back", "", "back to the starting points, or to the list; the name is dropped", DO(shelf_back_from_name), 0)
SHELF_KEY(LEAVE_NAME, SILLET_KEY_ESCAPE, 0, 0, 0, SHELF_NAMING, "files nothing", "", "begin no new instrument", DO(shelf_to_list), 0)
SHELF_KEY(UNITS_INCH, '1', 0, 'i', 0, SHELF_UNITS, "inches", "", "the shop's gauges read in inches", BY(shelf_take_units, SHELF_TAKE_INCH), 0)
SHELF_KEY(UNITS_METRIC, '2', 0, 'm', 0, SHELF_UNITS, "millimetres", "", "the shop's gauges read in millimetres", BY(shelf_take_units, SHELF_TAKE_METRIC), 0)
SHELF_KEY(UNITS_AGAIN, SILLET_KEY_ENTER, 0, 0, 0, SHELF_UNITS, "", "", "ask again: neither is taken unsaid", DO(shelf_ask_units), 0)
SHELF_KEY(LEAVE_UNITS, SILLET_KEY_ESCAPE, 0, 0, 0, SHELF_UNITS, "files nothing", "", "begin no new instrument; so does any other key", DO(shelf_to_list), 0)
SHELF_KEY(ARCHIVE_NOW, SILLET_KEY_ENTER, 0, 0, 0, SHELF_ARCHIVING, "moves it", "", "move it to the archive", DO(shelf_archive_now), 0)
SHELF_KEY(LEAVE_ARCHIVE, SILLET_KEY_ESCAPE, 0, MENU_KEY, 0, SHELF_ARCHIVING, "leaves it here", "", "leave it on the shelf; so does any other key", DO(shelf_to_list), 0)
SHELF_KEY(LOOK, SILLET_KEY_ENTER, 0, 0, 0, SHELF_EARLIER, "looks at it", "", "open this earlier state, for reading only", BY(shelf_take_earlier, SHELF_DO_LOOK), 0)
SHELF_KEY(BRING_BACK, '+', 0, 'b', 0, SHELF_EARLIER, "brings it back", "", "make it the current state; the one that is current now becomes an earlier one", BY(shelf_take_earlier, SHELF_DO_BRING_BACK), 0)
SHELF_KEY(PUT_AWAY, '-', 0, 'p', 0, SHELF_EARLIER, "puts away", "", "move another version from beside the file to the earlier states; nothing is thrown away", DO(shelf_put_away), 0)
SHELF_KEY(TOGETHER, '/', 0, 't', 0, SHELF_EARLIER, "puts together", "", "put another version and the file together, cell by cell; nothing is written before it is confirmed", DO(shelf_begin_together), 0)
SHELF_KEY(LEAVE_EARLIER, SILLET_KEY_ESCAPE, SILLET_KEY_BACKSPACE, MENU_KEY, 0, SHELF_EARLIER, "back", "", "leave all as it is", DO(shelf_to_list), 0)
SHELF_KEY(TAKE_LEFT, SILLET_KEY_LEFT, '4', 0, 0, SHELF_TOGETHER, "or Right takes", "", "take what the left has, the file; then on to the next that is open", BY(shelf_together_choose, JOIN_AS_LEFT), 0)
SHELF_KEY(TAKE_RIGHT, SILLET_KEY_RIGHT, '6', 0, 0, SHELF_TOGETHER, "", "", "take what the right has, the other version; then on to the next that is open", BY(shelf_together_choose, JOIN_AS_RIGHT), 0)
SHELF_KEY(TAKE_BOTH, '5', ' ', 'b', 0, SHELF_TOGETHER, "", "", "take both of two notes, one after the other", BY(shelf_together_choose, JOIN_AS_BOTH), 0)
SHELF_KEY(ALL_LEFT, '7', 0, 'l', 0, SHELF_TOGETHER, "or 9 takes all", "", "take the left side wherever both have something, or something is open", BY(shelf_together_choose_all, JOIN_AS_LEFT), 0)
SHELF_KEY(ALL_RIGHT, '9', 0, 'r', 0, SHELF_TOGETHER, "", "", "take the right side there", BY(shelf_together_choose_all, JOIN_AS_RIGHT), 0)
SHELF_KEY(NEXT_OPEN, '+', SILLET_KEY_TAB, 'n', 0, SHELF_TOGETHER, "next open", "", "the next that is open, or that differs", DO(shelf_together_next), 0)
SHELF_KEY(UP_TOGETHER, '8', SILLET_KEY_UP, 0, 0, SHELF_TOGETHER, "", "", "the one above", BY(shelf_step, -1), 0)
SHELF_KEY(DOWN_TOGETHER, '2', SILLET_KEY_DOWN, 0, 0, SHELF_TOGETHER, "", "", "the one below", BY(shelf_step, 1), 0)
SHELF_KEY(JOIN, SILLET_KEY_ENTER, 0, 0, 0, SHELF_TOGETHER, "saves", "", "save what was chosen; both that it comes from become earlier states, so that it can be undone", DO(shelf_together_save), 0)
SHELF_KEY(LEAVE_TOGETHER, SILLET_KEY_ESCAPE, 0, MENU_KEY, 0, SHELF_TOGETHER, "leaves", "", "leave both as they are", DO(shelf_to_list), 0)
SHELF_KEY(REPAINT, SILLET_KEY_CTRL('l'), 0, 0, 0, SHELF_ANY, "", "", "list the folder again and repaint the screen", DO(shelf_repaint), 0)
SHELF_KEY(SUSPEND, SILLET_KEY_CTRL('z'), 0, 0, 0, SHELF_ANY, "", "", "suspend; fg in the shell comes back", DO(shelf_suspend), 0)
SHELF_KEY(END, SILLET_KEY_CTRL('c'), 0, 0, 0, SHELF_ANY, "", "", "quit", DO(shelf_quit), 0)
/* clang-format on */
