/* SPDX-License-Identifier: MIT */
/*
 * The command line, declared once: the parser and the usage follow from this table, and completion
 * and documents from the usage. No include guard: it is included with LINE and OPTION defined.
 *
 * LINE(id, name, operands, words)
 * OPTION(line, id, name, value, words)
 *
 * A line is one way to call the program; the options after it belong to it. `value` names the value
 * of an option, "" for none; completion knows what to offer for FILE, FOLDER, PAPER and NAME
 * (for which the program lists all names when it is given a wrong one). `words` say what it does,
 * on one or more lines.
 */
/* clang-format off */
LINE(SHELF_SCREEN, "", "", "the instruments on file; Enter opens one")
OPTION(SHELF_SCREEN, SCREEN_FOLDER, "--shelf", "FOLDER", "the same, in another folder")
LINE(BENCH, "", "FILE", "open an instrument's profile at the bench")
LINE(FIGURES, "figures", "FILE...", "print every figure as INI")
OPTION(FIGURES, ALL_VISITS, "--all-visits", "", "instead, every visit and pass as CSV, for a spreadsheet")
OPTION(FIGURES, MORE, "--more", "", "also the levelling plan, buzz, layout, wood, rod and passes")
OPTION(FIGURES, TUNING, "--tuning", "NAME", "what if it were in this tuning (a wrong NAME lists them all)")
OPTION(FIGURES, NOTES, "--notes", "\"E2 A2 ...\"", "or tuned to these notes, from the bass side to the treble side")
OPTION(FIGURES, SHIFT, "--shift", "N", "or tuned N semitones up, -N down")
OPTION(FIGURES, SET, "--set", "NAME", "or strung with this set (a wrong NAME lists them all)")
LINE(SHEET, "sheet", "FILE...", "print the customer's sheet")
OPTION(SHEET, SHEET_OUTPUT, "-o", "FILE", "write it to a file that ends in .pdf, .svg or .txt; a %\nin it stands for the name of each of several FILEs")
OPTION(SHEET, SHEET_PAPER, "--paper", "PAPER", "a4 or letter")
OPTION(SHEET, SHEET_ESTIMATE, "--estimate", "", "instead, what is due by what was found, with the shop's prices")
OPTION(SHEET, SHEET_CARD, "--card", "", "instead, a card for the bench: nut slots, and frets to rock")
OPTION(SHEET, SHEET_LABEL, "--label", "SIZE", "instead, a label for the case: small, medium or large; -o as well")
OPTION(SHEET, SHEET_VISIT, "--visit", "N", "for an earlier visit")
LINE(LAYOUT, "layout", "FILE... [TEMPLATE...]", "templates at true scale: board nut saddle heel shim\ntongue; if none is named, all that are of use")
OPTION(LAYOUT, LAYOUT_OUTPUT, "-o", "FILE", "the file to write, which ends in .pdf or .svg; required;\na % in it as for sheet")
OPTION(LAYOUT, LAYOUT_PAPER, "--paper", "PAPER", "a4 or letter; by default, what goes with the shop's units")
OPTION(LAYOUT, LAYOUT_VISIT, "--visit", "N", "from an earlier visit")
OPTION(LAYOUT, LAYOUT_PASS, "--pass", "N", "from this pass; by default, what a reset takes is from the\npass that asked for it, the rest from the last pass")
LINE(CHECK, "check", "FILE...", "name every problem of a profile, line by line")
LINE(SHELF, "shelf", "[WORDS]", "list the instruments on file, or those that match")
OPTION(SHELF, SHELF_HOUSE, "--house", "", "only what is in the house, as promised: what is left to do")
OPTION(SHELF, SHELF_DUE, "--due", "", "only what is due for a check, and the air then and now")
OPTION(SHELF, SHELF_SADDLE, "--saddle", "", "only where the saddle is nearly used up")
OPTION(SHELF, SHELF_RODS, "--rods", "", "only where the rod has nothing left")
OPTION(SHELF, SHELF_USUAL, "--usual", "", "instead, what is usually wanted and left, kind by kind")
OPTION(SHELF, SHELF_TURNS, "--turns", "", "instead, what a quarter turn of the rod does, kind by kind")
OPTION(SHELF, SHELF_PROOF, "--proof", "", "instead, how right we were: how often readings were as expected")
OPTION(SHELF, SHELF_LEFT, "--left", "", "as last left: strings, tuning, relief, action, gap, saddle")
OPTION(SHELF, SHELF_WHEN, "--when", "DAY", "the same, as left by an earlier DAY, a month as 2026-04 or a year")
OPTION(SHELF, SHELF_CSV, "--csv", "", "as CSV, for a spreadsheet")
OPTION(SHELF, SHELF_FOLDER, "--shelf", "FOLDER", "in another folder")
LINE(JOURNAL, "journal", "[DAY]", "what was done to all instruments: today, or on a DAY, or in a\nmonth as 2026-11")
OPTION(JOURNAL, JOURNAL_CSV, "--csv", "", "as CSV, for a spreadsheet")
OPTION(JOURNAL, JOURNAL_FOLDER, "--shelf", "FOLDER", "in another folder")
LINE(DEMO, "demo", "FOLDER", "make a made-up shop of 40 instruments there, to look around in")
OPTION(DEMO, DEMO_SEED, "--seed", "N", "another shop")
OPTION(DEMO, DEMO_UNTIL, "--until", "DAY", "its three years end on that day, as 2026-03-02; else today")
OPTION(DEMO, DEMO_TRUTH, "--truth", "FILE", "also write what was true of every reading, as CSV")
LINE(HELP, "", "--help, --version", "")
/* clang-format on */
