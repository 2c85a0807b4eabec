/* SPDX-License-Identifier: MIT */
/*
 * The keys of the shelf, declared once: lookup, the key line and the help follow from this
 * table. Characters that are not in it narrow the list. No include guard: it is included
 * with SHELF_KEY defined.
 *
 * SHELF_KEY(id, key, other_key, mode, hint, words)
 *
 * `mode` is where the key has this meaning (SHELF_ANY: everywhere that gives it no other);
 * `hint` is for the key line, empty where it has no place there.
 */
/* clang-format off */
SHELF_KEY(OPEN, SILLET_KEY_ENTER, 0, SHELF_LIST, "opens", "open the instrument in hand; on an empty shelf, begin a new one")
SHELF_KEY(MENU, '+', 0, SHELF_LIST, "new, copy, archive", "the menu: n new, c copy, a archive, e earlier states, h these keys, q quit")
SHELF_KEY(TURN, SILLET_KEY_TAB, 0, SHELF_LIST, "leaf", "the next leaf: the Intake of the instrument in hand; Shift-Tab on it comes back here")
SHELF_KEY(LEAVE, SILLET_KEY_ESCAPE, 0, SHELF_LIST, "lists all, or quits", "drop what is typed, so that all are listed; with nothing typed, quit")
SHELF_KEY(ERASE, SILLET_KEY_BACKSPACE, 0, SHELF_LIST, "", "take back the last character")
SHELF_KEY(EMPTY, SILLET_KEY_CTRL('u'), 0, SHELF_LIST, "", "drop what is typed, so that all are listed")
SHELF_KEY(UP, SILLET_KEY_UP, 0, SHELF_ANY, "", "the one above")
SHELF_KEY(DOWN, SILLET_KEY_DOWN, 0, SHELF_ANY, "", "the one below")
SHELF_KEY(PAGE_UP, SILLET_KEY_PAGE_UP, 0, SHELF_LIST, "", "a page of the list up")
SHELF_KEY(PAGE_DOWN, SILLET_KEY_PAGE_DOWN, 0, SHELF_LIST, "page", "a page of the list down")
SHELF_KEY(HELP_UP, SILLET_KEY_PAGE_UP, 0, SHELF_HELP, "", "a page of these keys up")
SHELF_KEY(HELP_DOWN, SILLET_KEY_PAGE_DOWN, 0, SHELF_HELP, "", "a page of these keys down")
SHELF_KEY(FIRST, SILLET_KEY_HOME, 0, SHELF_ANY, "", "the first")
SHELF_KEY(LAST, SILLET_KEY_END, 0, SHELF_ANY, "", "the last")
SHELF_KEY(NEW, 'n', '1', SHELF_MENU, "or 1 new", "a new instrument, from a starting point for its kind")
SHELF_KEY(COPY, 'c', '2', SHELF_MENU, "or 2 copy", "a new instrument with all that this one has but its visits")
SHELF_KEY(ARCHIVE, 'a', '3', SHELF_MENU, "or 3 archive", "move this one to archive/, where it stays whole but is not listed")
SHELF_KEY(EARLIER, 'e', '4', SHELF_MENU, "or 4 earlier", "earlier states of this one, and other versions beside it: look at one, bring it back, put it away")
SHELF_KEY(HELP, 'h', '?', SHELF_MENU, "keys", "these keys")
SHELF_KEY(QUIT, 'q', 0, SHELF_MENU, "", "leave the shelf")
SHELF_KEY(CLOSE_MENU, SILLET_KEY_ESCAPE, '+', SHELF_MENU, "back", "close the menu; so does any other key")
SHELF_KEY(TAKE_PRESET, SILLET_KEY_ENTER, 0, SHELF_PRESETS, "takes it", "take this starting point; its number goes to it")
SHELF_KEY(LEAVE_PRESETS, SILLET_KEY_ESCAPE, SILLET_KEY_BACKSPACE, SHELF_PRESETS, "back to the list", "no new instrument")
SHELF_KEY(TAKE_NAME, SILLET_KEY_ENTER, 0, SHELF_NAMING, "files and opens it", "take the name")
SHELF_KEY(ERASE_NAME, SILLET_KEY_BACKSPACE, 0, SHELF_NAMING, "", "take back the last character of the name")
SHELF_KEY(EMPTY_NAME, SILLET_KEY_CTRL('u'), 0, SHELF_NAMING, "empties", "empty the name; Left, Right, Home, End and Del move and delete in it")
SHELF_KEY(LEAVE_NAME, SILLET_KEY_ESCAPE, 0, SHELF_NAMING, "files nothing", "no new instrument")
SHELF_KEY(ARCHIVE_NOW, SILLET_KEY_ENTER, 0, SHELF_ARCHIVING, "moves it", "move it to the archive")
SHELF_KEY(LEAVE_ARCHIVE, SILLET_KEY_ESCAPE, 0, SHELF_ARCHIVING, "leaves it here", "leave it on the shelf; so does any other key")
SHELF_KEY(LOOK, SILLET_KEY_ENTER, 0, SHELF_EARLIER, "looks at it", "open this earlier state, for reading only")
SHELF_KEY(BRING_BACK, 'b', '+', SHELF_EARLIER, "or + brings it back", "make it the current state; the one that is current becomes an earlier one")
SHELF_KEY(PUT_AWAY, 'p', '-', SHELF_EARLIER, "puts away", "put another version, which lies beside the file, with the earlier states; nothing is thrown away")
SHELF_KEY(LEAVE_EARLIER, SILLET_KEY_ESCAPE, SILLET_KEY_BACKSPACE, SHELF_EARLIER, "back to the list", "leave all as it is")
SHELF_KEY(REPAINT, SILLET_KEY_CTRL('l'), 0, SHELF_ANY, "", "list the folder and paint the screen anew")
SHELF_KEY(SUSPEND, SILLET_KEY_CTRL('z'), 0, SHELF_ANY, "", "stop for a while; the shell's fg comes back")
SHELF_KEY(END, SILLET_KEY_CTRL('c'), 0, SHELF_ANY, "", "quit")
/* clang-format on */
