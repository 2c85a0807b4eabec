/* SPDX-License-Identifier: MIT */
/*
 * Every command, declared once: lookup, the key line and the help follow from
 * this table. No include guard: it is included with COMMAND defined.
 *
 * COMMAND(id, key, other_key, hint, words)
 *
 * `key` and `other_key` are what is pressed (0 for none); `hint` is for the key line, empty
 * where it has no place there; `words` say what the command does.
 */
/* clang-format off */
COMMAND(ACCEPT, SILLET_KEY_ENTER, 0, "next", "take what is typed, or leave the cell as it is, and go on along the route")
COMMAND(BACK, SILLET_KEY_BACKSPACE, 0, "back", "take back the last character; on an empty entry go back along the route")
COMMAND(CANCEL, SILLET_KEY_ESCAPE, 0, "", "drop what is typed; close a help or an explanation")
COMMAND(CLEAR, SILLET_KEY_DELETE, 'x', "", "take the reading out of the cell")
COMMAND(UP, SILLET_KEY_UP, 0, "", "one row up")
COMMAND(DOWN, SILLET_KEY_DOWN, 0, "", "one row down")
COMMAND(LEFT, SILLET_KEY_LEFT, 0, "", "one cell to the left")
COMMAND(RIGHT, SILLET_KEY_RIGHT, 0, "", "one cell to the right")
COMMAND(FIRST, SILLET_KEY_HOME, 0, "", "the first cell of the route")
COMMAND(LAST, SILLET_KEY_END, 0, "", "the end of the route, where a pass is done")
COMMAND(UNDO, 'u', '*', "undo", "take back the last change")
COMMAND(REDO, 'r', 0, "", "make a change again that was taken back")
COMMAND(PASS, 'p', 0, "pass done", "the pass is done: begin the next one")
COMMAND(EARLIER, '<', '[', "", "look at the pass before")
COMMAND(LATER, '>', ']', "", "look at the pass after")
COMMAND(VISIT, 'v', 0, "", "begin a new visit today")
COMMAND(METHOD, 'o', 0, "", "nut gaps read open, or with the string held on fret 3")
COMMAND(UNITS, 'm', 0, "", "inch gauges or metric gauges")
COMMAND(WHY, '?', 0, "why", "how the figure beside the cell in hand comes about")
COMMAND(HELP, 'h', 0, "keys", "these keys")
COMMAND(REPAINT, SILLET_KEY_CTRL('l'), 0, "", "paint the screen anew")
COMMAND(SUSPEND, SILLET_KEY_CTRL('z'), 0, "", "stop for a while; the shell's fg comes back")
COMMAND(QUIT, 'q', SILLET_KEY_CTRL('c'), "quit", "leave; everything is kept")
/* clang-format on */
