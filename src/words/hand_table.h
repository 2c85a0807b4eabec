/* SPDX-License-Identifier: MIT */
/*
 * What a figure means for the hand: the first thing that `?` says about it. No include guard: it is
 * included with HAND defined.
 *
 * HAND(figure, measure, above, below, zero)
 *
 * The words for a figure above 0, below 0, and at 0; "" if those of `above` serve. In the words %
 * is the amount without its sign, # the string or course, "string 6", and @ the fret (or mark)
 * that its gap is read over, "fret 6". `measure` is what the amount is measured with (field.h), NONE if it is not a
 * length.
 */
/* clang-format off */
HAND(RELIEF, FEELER, "the neck dips by % at the relief fret",
     "back-bow: the neck humps up by % at the relief fret",
     "the neck is straight at the relief fret")
HAND(CURVATURE, NONE, "how sharply the neck bends; set the relief, and this follows", "", "")
HAND(TILT, NONE, "how far the neck turns against the body as it bends, and lifts the strings with it", "", "")
HAND(ACTION, RULE, "the open # stands % over the crown at the action fret", "", "")
HAND(NUT_GAP, FEELER, "the open # clears @ by %",
     "the open # lies on @ already, % too low", "the open # just touches @")
HAND(NUT_HEIGHT, FEELER, "the bottom of the slot of # is % over the line of the crowns; no gauge reads this, but the slot move follows from it",
     "the bottom of the slot of # is % under the line of the crowns", "")
HAND(SADDLE_HEIGHT, RULE, "the saddle under # is % over the line of the crowns; the saddle move follows from it",
     "the saddle under # is % under the line of the crowns", "")
HAND(ACTION_AFTER_ROD, RULE, "with the relief set, # will read % of action: measure again before slots and saddle", "", "")
HAND(GAP_AFTER_ROD, FEELER, "with the relief set, # will clear @ by %",
     "with the relief set, # will lie on @", "")
HAND(GAP_AT_TARGET, FEELER, "once the action is right, # will clear @ by %: judge the slot by this, not by what it reads now",
     "once the action is right, # will lie on @: its slot is too deep", "")
HAND(SLOT_CHANGE, FEELER, "the slot of # is too deep by %: fill it, or shim the nut", "file the slot of # deeper by %",
     "leave the slot of # as it is")
HAND(ACTION_AFTER_NUT, RULE, "with the slots done, # will read % of action", "", "")
HAND(SADDLE_CHANGE, FEELER, "raise the saddle under # by %", "lower the saddle under # by %",
     "leave the saddle under # as it is")
HAND(PITCH, NONE, "the frequency of # when it is in tune", "", "")
HAND(UNIT_MASS, NONE, "what a metre of # weighs: its pull follows from that", "", "")
HAND(TENSION, NONE, "how hard # pulls on neck and bridge when it is in tune", "", "")
HAND(STRESS_SHARE, NONE, "how near # is to breaking: at 1 its core gives way", "", "")
HAND(SETBACK_PREDICTED, FEELER, "set the saddle under # % behind the scale's end, before any cents are read",
     "set the saddle under # % before the scale's end", "set the saddle under # at the scale's end")
HAND(SETBACK_BEST, FEELER, "if the nut is moved too, the saddle under # belongs % behind the scale's end",
     "if the nut is moved too, the saddle under # belongs % before the scale's end", "")
HAND(NUT_ADVANCE_BEST, FEELER, "bring the nut at # % towards @", "take the nut at # % back from @",
     "leave the nut at # where it is")
HAND(CENTS_BEST_RMS, NONE, "how far # stays off, in cents over its first twelve frets, with nut and saddle at their best", "", "")
HAND(SETBACK_CHANGE, FEELER, "move the saddle under # back, away from the nut, by %",
     "move the saddle under # forward, towards the nut, by %", "leave the saddle under # where it is")
HAND(SETBACK_FIT, FEELER, "by all frets read, move the saddle under # back, away from the nut, by %",
     "by all frets read, move the saddle under # forward, towards the nut, by %", "leave the saddle under # where it is")
HAND(NUT_ADVANCE_FIT, FEELER, "by all frets read, bring the nut at # % towards @",
     "by all frets read, take the nut at # % back from @", "leave the nut at # where it is")
HAND(CENTS_LEFT_RMS, NONE, "how far # stays off, in cents, once nut and saddle are moved like that", "", "")
HAND(SADDLE_TURNS, NONE, "raise the screw at # by % turns", "lower the screw at # by % turns",
     "leave the screw at # as it is")
HAND(SADDLE_BOTTOM, FEELER, "raise the saddle at # by %: a shim, or a new blank",
     "take % off the bottom of the saddle at #", "take nothing off the bottom of the saddle at #")
HAND(SADDLE_TOP, FEELER, "", "then take % off the top of the saddle under #",
     "the straight cut is enough: leave the top of the saddle under #")
HAND(BREAK_ANGLE, NONE, "how sharply # bends over the saddle: the sharper, the harder it presses", "", "# runs straight over the saddle, and does not press on it")
HAND(DOWNFORCE, NONE, "how hard # presses on the saddle", "# lifts off the saddle", "# does not press on the saddle")
HAND(SADDLE_OVER, FEELER, "make the saddle's top at # stand % over a straightedge from outer string to outer string",
     "make the saddle's top at # stand % under a straightedge from outer string to outer string",
     "make the saddle's top at # level with the outer two")
HAND(SADDLE_OVER_NOW, FEELER, "by its action, the saddle's top at # stands % over the line of the outer two",
     "by its action, the saddle's top at # stands % under the line of the outer two",
     "by its action, the saddle's top at # is level with the outer two")
HAND(SADDLE_RADIUS, LONG, "shape the saddle's top to a radius of %: the strings then follow the board",
     "the saddle's top has to be hollow, with a radius of %", "")
HAND(BOARD_RADIUS, LONG, "the board's curve, run on to the saddle, has a radius of %", "", "")
HAND(EXPOSURE_BASS_AFTER, DEPTH, "after the saddle move, % is left of the saddle, or of its travel, at the lowest string; with too little, reset the neck instead",
     "the saddle would have to go % lower than it can at the lowest string: reset the neck instead", "")
HAND(EXPOSURE_TREBLE_AFTER, DEPTH, "after the saddle move, % is left of the saddle, or of its travel, at string 1; with too little, reset the neck instead",
     "the saddle would have to go % lower than it can at string 1: reset the neck instead", "")
HAND(ANGLE, NONE, "tip the neck back by this much", "the neck is tipped back further than it needs, by this much", "leave the neck angle as it is")
HAND(HEEL_CUT, SMALL, "take % off the heel at its cap, tapering to nothing under the board", "add % at the heel cap, tapering to nothing under the board", "leave the heel as it is")
HAND(POCKET_SHIM, SMALL, "put a shim in the pocket, % at its thick end, tapering to nothing", "the pocket's shim is % too thick at its thick end", "no shim is needed")
HAND(TONGUE_WEDGE, SMALL, "a wedge under the tongue, % at the end of the board, nothing at the join", "plane the bed of the tongue, % at the end of the board, nothing at the join", "no wedge is needed")
HAND(TENSION_TOTAL, NONE, "how hard all strings together pull on neck and bridge", "", "")
HAND(DOWNFORCE_TOTAL, NONE, "how hard all strings together press on the bridge", "the strings lift off the saddle", "the strings do not press on the bridge")
HAND(EI_FIRST, NONE, "how stiff the neck is at fret 1: twice as stiff bends half as far", "", "")
HAND(EI_HEEL, NONE, "how stiff the neck is by the heel: twice as stiff bends half as far", "", "")
HAND(RELIEF_PREDICTED, FEELER, "the strings alone bend the neck by % at the relief fret, the rod slack", "", "")
HAND(EI_FIRST_FILLED, NONE, "how stiff the neck is at fret 1 once the slot is filled", "", "")
HAND(EI_HEEL_FILLED, NONE, "how stiff the neck is by the heel once the slot is filled", "", "")
HAND(RELIEF_FILLED, FEELER, "with the slot filled, the strings alone bend the neck by %", "", "")
HAND(EI_FIRST_RECUT, NONE, "how stiff the neck is at fret 1 once the slot is recut", "", "")
HAND(EI_HEEL_RECUT, NONE, "how stiff the neck is by the heel once the slot is recut", "", "")
HAND(RELIEF_RECUT, FEELER, "with the slot recut, the strings alone bend the neck by %", "", "")
HAND(ROD_HOLDS, FEELER, "the rod holds back % of the bend that the strings alone would make",
     "the neck bends % more than the strings alone would bend it: its own bow, or the rod's push", "the rod holds nothing: the neck bends as the strings alone bend it")
HAND(WOOD_LEFT, SMALL, "% of wood is left under the slot at the thinnest place", "the slot is % deeper than the neck is thick", "the slot goes right through")
HAND(WOOD_LEFT_RECUT, SMALL, "% of wood will be left under the slot at the thinnest place", "this slot would be % deeper than the neck is thick: do not cut it", "this slot would go right through: do not cut it")
HAND(STOP_DEPTH, SMALL, "set the router's stop % below the jig", "", "")
HAND(TENON_SAFETY, NONE, "the tenon holds this many times the bolt's pull: under 1 it splits", "", "")
HAND(EMC, NONE, "the moisture content that wood settles at in this air: more swells it, less shrinks it", "", "")
/* clang-format on */
