/* SPDX-License-Identifier: MIT */
/*
 * Every command, declared once: lookup, the key line, the help and the menu follow from this
 * table. No include guard: it is included with COMMAND defined.
 *
 * COMMAND(id, key, other_key, letter, place, where, hint, title, words)
 *
 * `key` and `other_key` are keys that no cell takes for itself (0 for none). `letter` does the
 * same in the menu, and without it where the cell in hand takes no letters. A letter IN_MENU is for
 * the menu alone: it would change readings, and begins words that are typed into a number's cell by
 * mistake (none, one), or its leaf has texts. 0 for what the moving keys of every keyboard and
 * number pad do. `place` is the command's page and digit in the menu (0:
 * it is not listed there): ON_FIRST is one step behind `*`, ON_LEAVES behind 0, ON_MORE behind a
 * point. The commands that hold anywhere have 1 to 3 of the first page, a leaf's own the rest of
 * it, and 8 and 9 behind the point. `where` is ANYWHERE or the one leaf that the command belongs
 * to; `hint` is for the key line, empty where it has no place there; `title` is for the menu;
 * `words` say what the command does.
 */
/* clang-format off */
COMMAND(ACCEPT, SILLET_KEY_ENTER, 0, 0, 0, ANYWHERE, "next", "", "take what is typed, or leave the cell as it is, and go on along the route")
COMMAND(BACK, SILLET_KEY_BACKSPACE, 0, 0, 0, ANYWHERE, "", "", "take back the last character; on an empty entry go back along the route")
COMMAND(CANCEL, SILLET_KEY_ESCAPE, 0, 0, 0, ANYWHERE, "", "", "drop what is typed; close a help, an explanation or the menu; else back to the shelf it came from")
COMMAND(UP, SILLET_KEY_UP, 0, 0, 0, ANYWHERE, "", "", "one row up")
COMMAND(DOWN, SILLET_KEY_DOWN, 0, 0, 0, ANYWHERE, "", "", "one row down")
COMMAND(LEFT, SILLET_KEY_LEFT, 0, 0, 0, ANYWHERE, "", "", "one cell to the left")
COMMAND(RIGHT, SILLET_KEY_RIGHT, 0, 0, 0, ANYWHERE, "", "", "one cell to the right")
COMMAND(FIRST, SILLET_KEY_HOME, 0, 0, 0, ANYWHERE, "", "", "the first cell of the route")
COMMAND(LAST, SILLET_KEY_END, 0, 0, 0, ANYWHERE, "", "", "the end of the route, where a pass is done")
COMMAND(LEAF, SILLET_KEY_TAB, SILLET_KEY_PAGE_DOWN, 0, 0, ANYWHERE, "leaf", "", "the next leaf")
COMMAND(LEAF_BACK, SILLET_KEY_BACKTAB, SILLET_KEY_PAGE_UP, 0, 0, ANYWHERE, "", "", "the leaf before; before the first, the shelf it came from")
COMMAND(EDIT, SILLET_KEY_INSERT, SILLET_KEY_CTRL('e'), 0, 0, ANYWHERE, "", "", "open what the cell holds, to edit it; to write anew, just type")
COMMAND(CHOOSE, ' ', 0, 0, 0, ANYWHERE, "", "", "in a cell with choices, the next one, as + does; - is the one before, and a number takes the one that it stands beside; a note goes up and down by semitones")
COMMAND(EMPTY, SILLET_KEY_CTRL('u'), 0, 0, 0, ANYWHERE, "", "", "while typing: empty the entry; Left, Right, Home, End and Del move and delete in it")
COMMAND(UNDO, 0, 0, 'u', ON_FIRST(1), ANYWHERE, "undo", "undo", "take back the last change; while typing, drop what is typed")
COMMAND(CLEAR, SILLET_KEY_DELETE, 0, IN_MENU('x'), ON_FIRST(2), ANYWHERE, "", "take out", "take the reading out of the cell")
COMMAND(SHEET, 0, 0, 'c', ON_FIRST(3), ANYWHERE, "", "write the customer's sheet", "write the customer's sheet of the visit in hand, into the folder sheets")
COMMAND(PASS, 0, 0, 'p', ON_FIRST(4), LEAF_BENCH, "pass", "pass done: the next one", "the pass is done: begin the next one")
COMMAND(NUDGE_DOWN, 0, 0, 'j', ON_FIRST(5), LEAF_BENCH, "", "wanted: a step lower", "what is wanted in this row a step lower; all moves follow at once")
COMMAND(NUDGE_UP, 0, 0, 'k', ON_FIRST(6), LEAF_BENCH, "", "wanted: a step higher", "what is wanted in this row a step higher")
COMMAND(FROM_BEFORE, 0, 0, 'b', ON_FIRST(7), LEAF_BENCH, "", "begin with the reading before", "begin with the last reading of this cell from before; Enter takes it")
COMMAND(METHOD, 0, 0, IN_MENU('o'), ON_FIRST(8), LEAF_BENCH, "", "nut gaps open, or held on fret 3", "nut gaps read open, or with the string held on fret 3")
COMMAND(TUNING_NAMED, 0, 0, 'n', ON_FIRST(4), LEAF_STRINGS, "", "what if: a tuning by name", "what if: a tuning by its name, of a list; + and - step through it")
COMMAND(TUNING, 0, 0, 't', ON_MORE(8), LEAF_STRINGS, "", "what if: the next tuning", "what if: the next named tuning")
COMMAND(SEMITONE_DOWN, 0, 0, 'j', ON_FIRST(5), LEAF_STRINGS, "", "what if: a semitone lower", "what if: the string in hand a semitone lower")
COMMAND(SEMITONE_UP, 0, 0, 'k', ON_FIRST(6), LEAF_STRINGS, "", "what if: a semitone higher", "what if: the string in hand a semitone higher")
COMMAND(SET_NAMED, 0, 0, 'g', ON_FIRST(7), LEAF_STRINGS, "", "what if: a set by name", "what if: a set of strings by its name or gauges, of a list; + and - step through it")
COMMAND(SET, 0, 0, 's', ON_MORE(9), LEAF_STRINGS, "", "what if: the next set", "what if: the next named set of strings")
COMMAND(WHAT_IF_TAKE, 0, 0, 'y', ON_FIRST(8), LEAF_STRINGS, "", "take the what-if over", "take the what-if over into the record")
COMMAND(WHAT_IF_DROP, 0, 0, 'w', ON_FIRST(9), LEAF_STRINGS, "", "drop the what-if", "drop the what-if")
COMMAND(NOTE_BACK, 0, 0, 'j', ON_FIRST(5), LEAF_FRETS, "", "look at the note below", "look at the next lower note on the headroom map")
COMMAND(NOTE, 0, 0, 'k', ON_FIRST(6), LEAF_FRETS, "note", "look at the note above", "look at the next higher note on the headroom map; past the last, at the tightest")
COMMAND(WORK_DONE, ' ', 0, IN_MENU('d'), ON_FIRST(4), LEAF_WORK, "done", "the move is done", "mark the move in hand done as planned, with the time and what proves it")
COMMAND(WORK_OWN, 0, 0, IN_MENU('a'), ON_FIRST(7), LEAF_WORK, "", "a line of your own work", "write a line of your own work; its amount and note follow")
COMMAND(WORK_OUT, 0, 0, IN_MENU('z'), ON_FIRST(8), LEAF_WORK, "", "take the work line out", "take the line in hand out, or the mark off the move")
COMMAND(HISTORY_OPEN, SILLET_KEY_ENTER, 0, 'i', ON_FIRST(4), LEAF_HISTORY, "open", "take this pass to the bench", "take the pass looked at in hand, on the bench")
COMMAND(HISTORY_NAME, 0, 0, 'l', ON_FIRST(7), LEAF_HISTORY, "label", "label this pass", "label the pass looked at, then write its note")
COMMAND(PASS_OUT, 0, 0, 'z', ON_FIRST(8), LEAF_HISTORY, "", "take this pass out", "take the pass looked at out, with all its readings, once Enter has said so too")
COMMAND(VISIT_OUT, 0, 0, 'Z', ON_FIRST(9), LEAF_HISTORY, "", "take this whole visit out", "take the visit looked at out, with all its passes and work, once Enter has said so too")
COMMAND(INTAKE_OUT, 0, 0, 'Z', ON_FIRST(9), LEAF_INTAKE, "", "take this whole visit out", "take the visit in hand out, with all its passes and work, once Enter has said so too")
#define LEAF(id, name, letter, lay, figure) COMMAND(GO_##id, SILLET_KEY_F1 + LEAF_##id, 0, letter, ON_LEAVES(1 + LEAF_##id), ANYWHERE, "", name, "turn to the " name " leaf")
#include "app/leaf_table.h"
#undef LEAF
COMMAND(REDO, 0, 0, 'r', ON_MORE(1), ANYWHERE, "", "make again", "make a change again that was taken back")
COMMAND(EARLIER, '[', 0, '<', ON_MORE(2), ANYWHERE, "", "look at the pass before", "look at the pass before")
COMMAND(LATER, ']', 0, '>', ON_MORE(3), ANYWHERE, "", "look at the pass after", "look at the pass after")
COMMAND(VISIT, 0, 0, 'v', ON_MORE(4), ANYWHERE, "", "a new visit today", "begin a new visit today")
COMMAND(MENU, '*', 0, 0, 0, ANYWHERE, "menu", "", "the menu: every command that can be given now, by its digit or letter; while a text is written, a character of it")
COMMAND(WHY, 0, 0, '?', ON_MORE(5), ANYWHERE, "why", "why this figure", "how the figure beside the cell in hand comes about")
COMMAND(HELP, 0, 0, 'h', ON_MORE(6), ANYWHERE, "keys", "all keys of this leaf", "these keys")
COMMAND(UNITS, 0, 0, 'm', ON_MORE(7), ANYWHERE, "", "inch gauges or metric ones", "inch gauges or metric gauges")
COMMAND(REPAINT, SILLET_KEY_CTRL('l'), 0, 0, 0, ANYWHERE, "", "", "paint the screen anew")
COMMAND(SUSPEND, SILLET_KEY_CTRL('z'), 0, 0, 0, ANYWHERE, "", "", "stop for a while; the shell's fg comes back")
COMMAND(QUIT, SILLET_KEY_F1 + 8, SILLET_KEY_CTRL('c'), 'q', ON_LEAVES(9), ANYWHERE, "quit", "leave", "leave, back to the shelf it came from; everything is kept")
/* clang-format on */
