/* SPDX-License-Identifier: MIT */
/*
 * Every command, declared once: lookup, the key line and the help follow from
 * this table. No include guard: it is included with COMMAND defined.
 *
 * COMMAND(id, key, other_key, where, hint, words)
 *
 * `key` and `other_key` are what is pressed (0 for none); `where` is ANYWHERE or the one
 * leaf that the command belongs to; `hint` is for the key line, empty where it has no place
 * there; `words` say what the command does.
 */
/* clang-format off */
COMMAND(ACCEPT, SILLET_KEY_ENTER, 0, ANYWHERE, "next", "take what is typed, or leave the cell as it is, and go on along the route")
COMMAND(BACK, SILLET_KEY_BACKSPACE, 0, ANYWHERE, "back", "take back the last character; on an empty entry go back along the route")
COMMAND(CANCEL, SILLET_KEY_ESCAPE, 0, ANYWHERE, "", "drop what is typed; close a help or an explanation; else back to the shelf it came from")
COMMAND(CLEAR, SILLET_KEY_DELETE, 'x', ANYWHERE, "", "take the reading out of the cell")
COMMAND(UP, SILLET_KEY_UP, 0, ANYWHERE, "", "one row up")
COMMAND(DOWN, SILLET_KEY_DOWN, 0, ANYWHERE, "", "one row down")
COMMAND(LEFT, SILLET_KEY_LEFT, 0, ANYWHERE, "", "one cell to the left")
COMMAND(RIGHT, SILLET_KEY_RIGHT, 0, ANYWHERE, "", "one cell to the right")
COMMAND(FIRST, SILLET_KEY_HOME, 0, ANYWHERE, "", "the first cell of the route")
COMMAND(LAST, SILLET_KEY_END, 0, ANYWHERE, "", "the end of the route, where a pass is done")
COMMAND(LEAF, SILLET_KEY_TAB, SILLET_KEY_PAGE_DOWN, ANYWHERE, "leaf", "the next leaf")
COMMAND(LEAF_BACK, SILLET_KEY_BACKTAB, SILLET_KEY_PAGE_UP, ANYWHERE, "", "the leaf before; before the first, the shelf it came from")
COMMAND(WRITE, 'e', '=', ANYWHERE, "", "write into the cell in letters: a text begins with what it holds, all else anew; Enter takes it, Esc drops it")
COMMAND(CHOOSE, ' ', 0, ANYWHERE, "", "in a cell with choices, the next one, as + does; - is the one before, and a number takes the one that it stands beside; a note goes up and down by semitones")
COMMAND(EMPTY, SILLET_KEY_CTRL('u'), 0, ANYWHERE, "", "while typing: empty the entry; Left, Right, Home, End and Del move and delete in it")
COMMAND(UNDO, 'u', '*', ANYWHERE, "undo", "take back the last change")
COMMAND(REDO, 'r', 0, ANYWHERE, "", "make a change again that was taken back")
COMMAND(PASS, 'p', 0, LEAF_BENCH, "pass", "the pass is done: begin the next one")
COMMAND(EARLIER, '<', '[', ANYWHERE, "", "look at the pass before")
COMMAND(LATER, '>', ']', ANYWHERE, "", "look at the pass after")
COMMAND(VISIT, 'v', 0, ANYWHERE, "", "begin a new visit today")
COMMAND(METHOD, 'o', 0, LEAF_BENCH, "", "nut gaps read open, or with the string held on fret 3")
COMMAND(NUDGE_DOWN, 'n', 0, LEAF_BENCH, "", "what is wanted in this row a step lower; all moves follow at once")
COMMAND(NUDGE_UP, 'N', 0, LEAF_BENCH, "", "what is wanted in this row a step higher")
COMMAND(FROM_BEFORE, 'l', 0, LEAF_BENCH, "", "begin with the last reading of this cell; Enter takes it")
COMMAND(TUNING, 't', 0, LEAF_STRINGS, "", "what if: the next named tuning")
COMMAND(TUNING_BACK, 'T', 0, LEAF_STRINGS, "", "what if: the tuning before")
COMMAND(SET, 's', 0, LEAF_STRINGS, "", "what if: the next named set of strings")
COMMAND(SET_BACK, 'S', 0, LEAF_STRINGS, "", "what if: the set before")
COMMAND(SEMITONE_UP, 'k', 0, LEAF_STRINGS, "", "what if: the string in hand a semitone up")
COMMAND(SEMITONE_DOWN, 'j', 0, LEAF_STRINGS, "", "what if: the string in hand a semitone down")
COMMAND(WHAT_IF_TAKE, 'y', 0, LEAF_STRINGS, "", "take the what-if over into the record")
COMMAND(WHAT_IF_DROP, 'w', 0, LEAF_STRINGS, "", "drop the what-if")
COMMAND(NOTE, 'n', 0, LEAF_FRETS, "note", "look at the next note on the headroom map; past the last, at the tightest")
COMMAND(NOTE_BACK, 'b', 0, LEAF_FRETS, "", "look at the note before")
COMMAND(HISTORY_OPEN, SILLET_KEY_ENTER, 0, LEAF_HISTORY, "open", "take the pass looked at in hand, on the bench")
COMMAND(HISTORY_NAME, 'e', '=', LEAF_HISTORY, "name", "name the pass looked at: its label, then its note")
COMMAND(WORK_DONE, 'd', 0, LEAF_WORK, "done", "mark the move in hand done as planned, with the time and what proves it")
COMMAND(WORK_OWN, 'a', 0, LEAF_WORK, "", "write a line of your own work; its amount and note follow")
COMMAND(WORK_OUT, 'x', 0, LEAF_WORK, "", "take the line in hand out, or the mark off the move")
COMMAND(SHEET, 'c', 0, ANYWHERE, "", "write the customer's sheet of the visit in hand, into the folder sheets")
COMMAND(UNITS, 'm', 0, ANYWHERE, "", "inch gauges or metric gauges")
COMMAND(WHY, '?', 0, ANYWHERE, "why", "how the figure beside the cell in hand comes about")
COMMAND(HELP, 'h', 0, ANYWHERE, "keys", "these keys")
COMMAND(REPAINT, SILLET_KEY_CTRL('l'), 0, ANYWHERE, "", "paint the screen anew")
COMMAND(SUSPEND, SILLET_KEY_CTRL('z'), 0, ANYWHERE, "", "stop for a while; the shell's fg comes back")
COMMAND(QUIT, 'q', SILLET_KEY_CTRL('c'), ANYWHERE, "quit", "leave; everything is kept")
/* clang-format on */
