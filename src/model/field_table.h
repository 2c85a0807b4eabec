/* SPDX-License-Identifier: MIT */
/*
 * Every reading, choice and text that a profile can hold, declared once. The file
 * reader and writer, the screens, the help texts and `sillet check` follow from this
 * table. No include guard: it is included with FIELD defined (field.h, field.c).
 *
 * FIELD(id, section, per, key, label, kind, quantity, measure, step,
 *       possible_min, possible_max, usual_min, usual_max, fallback, choices, help)
 *
 * Limits are in the quantity's pivot unit (mm, C, N, ...): outside *possible* an entry is
 * refused, outside *usual* it is taken and marked. For texts possible_max is the length
 * in bytes. `fallback` is what holds when the reading is absent ("" for: then absent).
 */

/* clang-format off */
FIELD(FORMAT, PROFILE, ONE, "format", "file format", COUNT, PLAIN, NONE, NONE,
      1, 1000000, 1, 1, "", "", "Version of the profile's format.")

FIELD(NAME, INSTRUMENT, ONE, "name", "name", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "What the shop calls the instrument.")
FIELD(KIND, INSTRUMENT, ONE, "kind", "kind", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "steel-string|classical|electric|bass|archtop|resonator|mandolin|banjo|ukulele|other",
      "The family of instrument.")
FIELD(MAKER, INSTRUMENT, ONE, "maker", "maker", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "Who built it.")
FIELD(SERIAL, INSTRUMENT, ONE, "serial", "serial", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "Serial number or mark.")
FIELD(BUILT, INSTRUMENT, ONE, "built", "built", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "When it was built, as far as known.")
FIELD(OWNER, INSTRUMENT, ONE, "owner", "owner", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "Whose it is.")
FIELD(CONTACT, INSTRUMENT, ONE, "contact", "contact", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "How to reach the owner.")
FIELD(NOTE, INSTRUMENT, ONE, "note", "note", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "Anything worth remembering about the instrument.")

FIELD(SCALE, BOARD, ONE, "scale", "scale length", NUMBER, LENGTH, LONG, NONE,
      100, 2000, 300, 920, "", "", "Nut to saddle without setback: twice nut to fret 12.")
FIELD(SCALE_TREBLE, BOARD, ONE, "scale_treble", "treble scale", NUMBER, LENGTH, LONG, NONE,
      100, 2000, 300, 920, "", "", "Scale of string 1 on a multi-scale board.")
FIELD(SCALE_BASS, BOARD, ONE, "scale_bass", "bass scale", NUMBER, LENGTH, LONG, NONE,
      100, 2000, 300, 920, "", "", "Scale of the lowest string on a multi-scale board.")
FIELD(STRINGS, BOARD, ONE, "strings", "strings", COUNT, PLAIN, NONE, NONE,
      1, 12, 3, 12, "", "", "How many strings.")
FIELD(FRETS, BOARD, ONE, "frets", "frets", COUNT, PLAIN, NONE, NONE,
      0, 36, 12, 27, "", "", "How many frets, a zero fret not counted.")
FIELD(JOIN_FRET, BOARD, ONE, "join_fret", "body-join fret", COUNT, PLAIN, NONE, NONE,
      0, 99, 10, 24, "", "", "The fret where the neck meets the body.")
FIELD(HEEL_FRET, BOARD, ONE, "heel_fret", "heel fret", COUNT, PLAIN, NONE, NONE,
      0, 99, 7, 23, "", "", "From here on the neck does not bend; join fret - 3, or - 1 in a pocket, where not given.")
FIELD(ACTION_FRET, BOARD, ONE, "action_fret", "action fret", COUNT, PLAIN, NONE, NONE,
      0, 99, 10, 17, "12", "", "The fret at which the action is read.")
FIELD(RELIEF_FRET, BOARD, ONE, "relief_fret", "relief fret", COUNT, PLAIN, NONE, NONE,
      0, 99, 4, 12, "", "", "The fret at which relief is read; midway between the ends where not given.")
FIELD(RELIEF_END_LOW, BOARD, ONE, "relief_end_low", "relief end, nut side", COUNT, PLAIN, NONE, NONE,
      0, 99, 1, 3, "1", "", "The straightedge, or the held string, rests on this crown.")
FIELD(RELIEF_END_HIGH, BOARD, ONE, "relief_end_high", "relief end, body side", COUNT, PLAIN, NONE, NONE,
      0, 99, 10, 24, "", "", "The straightedge, or the held string, rests on this crown; the join fret where not given.")
FIELD(RADIUS_NUT, BOARD, ONE, "radius_nut", "radius at the nut", RADIUS, LENGTH, LONG, NONE,
      20, 5000, 180, 520, "", "", "Fretboard radius at the nut, or flat.")
FIELD(RADIUS_END, BOARD, ONE, "radius_end", "radius at the end", RADIUS, LENGTH, LONG, NONE,
      20, 5000, 180, 520, "", "", "Fretboard radius at its end, or flat.")
FIELD(BOARD_END, BOARD, ONE, "board_end", "board end", NUMBER, LENGTH, LONG, NONE,
      10, 2000, 150, 750, "", "", "From the nut's front edge to the end of the board.")
FIELD(WIDTH_NUT, BOARD, ONE, "width_nut", "board width at the nut", NUMBER, LENGTH, SMALL, NONE,
      10, 200, 26, 70, "", "", "Width of the board at the nut's front edge.")
FIELD(WIDTH_JOIN, BOARD, ONE, "width_join", "board width at the join", NUMBER, LENGTH, SMALL, NONE,
      10, 250, 30, 90, "", "", "Width of the board at the body-join fret.")
FIELD(THICKNESS, BOARD, ONE, "thickness", "board thickness", NUMBER, LENGTH, SMALL, NONE,
      0.5, 40, 3, 9, "", "", "Thickness of the board alone.")
FIELD(BOARD_WOOD, BOARD, ONE, "wood", "board wood", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "Wood of the board, as the wood table names it.")
FIELD(BOARD_MODULUS, BOARD, ONE, "modulus", "board modulus", NUMBER, STRESS, NONE, NONE,
      100, 500000, 5000, 25000, "", "", "Stiffness along the grain; the wood table's where not given.")
FIELD(CROWN_HEIGHT, BOARD, ONE, "crown_height", "crown height", NUMBER, LENGTH, SMALL, NONE,
      0, 5, 0.5, 1.6, "", "", "Height of a fret's crown over the board.")
FIELD(CROWN_WIDTH, BOARD, ONE, "crown_width", "crown width", NUMBER, LENGTH, SMALL, NONE,
      0, 10, 1, 3.2, "", "", "Width of a fret's crown.")

FIELD(NUT_KIND, NUT, ONE, "kind", "nut", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "slotted", "slotted|zero-fret", "Strings in slots, or over a zero fret.")
FIELD(NUT_WIDTH, NUT, ONE, "width", "nut width", NUMBER, LENGTH, SMALL, NONE,
      10, 200, 26, 70, "", "", "Length of the nut across the board.")
FIELD(NUT_MARGIN_BASS, NUT, ONE, "margin_bass", "bass margin", NUMBER, LENGTH, SMALL, NONE,
      0, 40, 1.5, 6, "", "", "Board edge to the edge of the lowest string at the nut.")
FIELD(NUT_MARGIN_TREBLE, NUT, ONE, "margin_treble", "treble margin", NUMBER, LENGTH, SMALL, NONE,
      0, 40, 1.5, 6, "", "", "Board edge to the edge of string 1 at the nut.")
FIELD(NUT_SPREAD, NUT, ONE, "spread", "nut spread", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "equal-gaps|equal-centres", "The rule by which the strings are spread at the nut.")

FIELD(BRIDGE_KIND, BRIDGE, ONE, "kind", "bridge", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "blank|screw|post|wheel", "A saddle blank, screws at each saddle, or posts or wheels at both sides.")
FIELD(THREAD, BRIDGE, ONE, "thread", "thread pitch", NUMBER, LENGTH, SMALL, NONE,
      0.05, 10, 0.3, 1.6, "", "", "Height gained in one turn of a saddle screw, post or wheel.")
FIELD(EXPOSURE_MIN, BRIDGE, ONE, "exposure_min", "least exposure", NUMBER, LENGTH, DEPTH, NONE,
      0, 50, 0.5, 6, "3 mm", "", "The least saddle over the bridge (or travel left) that is enough.")
FIELD(EXPOSURE_NEW, BRIDGE, ONE, "exposure_new", "exposure wanted", NUMBER, LENGTH, DEPTH, NONE,
      0, 50, 2, 8, "4 mm", "", "The exposure wanted after a neck reset.")
FIELD(ANCHOR_DISTANCE, BRIDGE, ONE, "anchor_distance", "saddle to anchor", NUMBER, LENGTH, SMALL, NONE,
      0.5, 500, 4, 150, "", "", "From the saddle to the pin or tailpiece that the string comes up from.")
FIELD(SADDLE_SPREAD, BRIDGE, ONE, "spread", "spread at the saddle", NUMBER, LENGTH, SMALL, NONE,
      1, 300, 25, 90, "", "", "Between the outer strings at the saddle.")

FIELD(JOIN, NECK, ONE, "join", "neck join", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "glued|bolted|pocket|through", "How the neck is held.")
FIELD(HEEL_DEPTH, NECK, ONE, "heel_depth", "heel depth", NUMBER, LENGTH, SMALL, NONE,
      1, 300, 40, 120, "", "", "From the board down to the heel cap.")
FIELD(POCKET_LENGTH, NECK, ONE, "pocket_length", "pocket length", NUMBER, LENGTH, SMALL, NONE,
      1, 400, 50, 130, "", "", "Length of the neck pocket along the strings.")
FIELD(NECK_WOOD, NECK, ONE, "wood", "neck wood", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "Wood of the neck, as the wood table names it.")
FIELD(SHAFT_FIRST, NECK, ONE, "shaft_first", "shaft depth at fret 1", NUMBER, LENGTH, SMALL, NONE,
      2, 100, 9, 25, "", "", "Depth of the neck under the board at fret 1.")
FIELD(SHAFT_HEEL, NECK, ONE, "shaft_heel", "shaft depth at the heel", NUMBER, LENGTH, SMALL, NONE,
      2, 150, 10, 30, "", "", "Depth of the neck under the board at the heel fret.")
FIELD(ROD, NECK, ONE, "rod", "truss rod", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "none|one-way|two-way|fixed", "The kind of truss rod.")
FIELD(ROD_HEIGHT, NECK, ONE, "rod_height", "rod height", NUMBER, LENGTH, SMALL, NONE,
      0.5, 60, 5, 14, "", "", "Height of the rod.")
FIELD(ROD_CAP, NECK, ONE, "rod_cap", "rod cap", NUMBER, LENGTH, SMALL, NONE,
      0, 30, 0, 6, "", "", "Height of the cap strip over the rod.")
FIELD(SLOT_WIDTH, NECK, ONE, "slot_width", "slot width", NUMBER, LENGTH, SMALL, NONE,
      0, 60, 4, 13, "", "", "Width of the rod's slot as found.")
FIELD(SLOT_DEPTH, NECK, ONE, "slot_depth", "slot depth", NUMBER, LENGTH, SMALL, NONE,
      0, 60, 5, 16, "", "", "Depth of the rod's slot as found.")
FIELD(SPLINE_MODULUS, NECK, ONE, "spline_modulus", "spline modulus", NUMBER, STRESS, NONE, NONE,
      100, 500000, 5000, 25000, "", "", "Stiffness of the wood that refills the slot.")
FIELD(RECUT_WIDTH, NECK, ONE, "recut_width", "recut width", NUMBER, LENGTH, SMALL, NONE,
      0, 60, 4, 13, "", "", "Width of the slot cut anew.")
FIELD(RECUT_DEPTH, NECK, ONE, "recut_depth", "recut depth", NUMBER, LENGTH, SMALL, NONE,
      0, 60, 5, 16, "", "", "Depth of the slot cut anew.")
FIELD(NECK_MODULUS, NECK, ONE, "modulus", "neck modulus", NUMBER, STRESS, NONE, NONE,
      100, 500000, 5000, 25000, "", "", "Stiffness along the grain; the wood table's where not given.")
FIELD(SHEAR_STRENGTH, NECK, ONE, "shear_strength", "shear strength", NUMBER, STRESS, NONE, NONE,
      0.1, 1000, 4, 25, "", "", "Shear strength along the grain; the wood table's where not given.")
FIELD(TAPE_LAYERS, NECK, ONE, "tape_layers", "tape layers", COUNT, PLAIN, NONE, NONE,
      0, 100, 0, 6, "", "", "Layers of tape under the routing jig.")
FIELD(TAPE_THICKNESS, NECK, ONE, "tape_thickness", "tape thickness", NUMBER, LENGTH, SMALL, NONE,
      0, 5, 0.02, 0.4, "", "", "Thickness of one layer of tape.")
FIELD(TENON_EDGE, NECK, ONE, "tenon_edge", "grain before the bolt", NUMBER, LENGTH, SMALL, NONE,
      0.5, 200, 5, 40, "", "", "Short grain between the cross bolt and the tenon's end.")
FIELD(TENON_THICKNESS, NECK, ONE, "tenon_thickness", "tenon thickness", NUMBER, LENGTH, SMALL, NONE,
      1, 200, 12, 60, "", "", "Thickness of the tenon along the bolt.")
FIELD(BOLT_DIAMETER, NECK, ONE, "bolt_diameter", "bolt diameter", NUMBER, LENGTH, SMALL, NONE,
      0.5, 50, 4, 10, "", "", "Diameter of the neck bolt.")
FIELD(BOLT_TORQUE, NECK, ONE, "bolt_torque", "bolt torque", NUMBER, TORQUE, NONE, NONE,
      0.001, 500, 0.5, 8, "", "", "Torque that the neck bolt is tightened with.")

FIELD(STRING_NOTE, STRING, ONE, "note", "note", NOTE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "The open string's note, for example E2 or F#3.")
FIELD(GAUGE, STRING, ONE, "gauge", "gauge", NUMBER, LENGTH, GAUGE, NONE,
      0.05, 10, 0.18, 3.6, "", "", "Diameter of the string.")
FIELD(BUILD, STRING, ONE, "build", "build", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "plain|round-wound|flat-wound|nylon|nylon-wound", "How the string is made.")
FIELD(CORE, STRING, ONE, "core", "core", NUMBER, LENGTH, GAUGE, NONE,
      0.03, 10, 0.2, 1.6, "", "", "Diameter of the core; across flats where it is hexagonal.")
FIELD(HEX, STRING, ONE, "hex", "hex core", YESNO, PLAIN, NONE, NONE,
      0, 0, 0, 0, "no", "no|yes", "Whether the core is hexagonal.")
FIELD(CORE_MATERIAL, STRING, ONE, "core_material", "core material", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "Material of the core.")
FIELD(WRAP_MATERIAL, STRING, ONE, "wrap_material", "wrap material", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "Material of the winding.")
FIELD(STRING_MODULUS, STRING, ONE, "modulus", "core modulus", NUMBER, STRESS, NONE, NONE,
      10, 1000000, 1000, 220000, "", "", "Stiffness of the core; the material's where not given.")
FIELD(MASS, STRING, ONE, "mass", "unit mass", NUMBER, UNIT_MASS, NONE, NONE,
      0.001, 1000, 0.2, 40, "", "", "Mass of a metre of string.")
FIELD(WEIGH_MASS, STRING, ONE, "weigh_mass", "weighed mass", NUMBER, MASS, NONE, NONE,
      0.0001, 1000, 0.05, 60, "", "", "Mass of a cut length of this string.")
FIELD(WEIGH_LENGTH, STRING, ONE, "weigh_length", "weighed length", NUMBER, LENGTH, LONG, NONE,
      1, 20000, 100, 2000, "", "", "The cut length that was weighed.")
FIELD(LABEL_TENSION, STRING, ONE, "label_tension", "label tension", NUMBER, FORCE, NONE, NONE,
      0.1, 5000, 30, 400, "", "", "Tension that the set's label gives.")
FIELD(LABEL_NOTE, STRING, ONE, "label_note", "label note", NOTE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "The note at which the label's tension holds.")
FIELD(LABEL_SCALE, STRING, ONE, "label_scale", "label scale", NUMBER, LENGTH, LONG, NONE,
      100, 2000, 300, 920, "", "", "The scale at which the label's tension holds.")
FIELD(SETBACK, STRING, ONE, "setback", "setback", NUMBER, LENGTH, SMALL, NONE,
      -50, 80, -1, 10, "0 mm", "", "How far the saddle contact stands behind the scale length.")

FIELD(PRESET, TARGETS, ONE, "preset", "preset", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "The starting point that the targets were taken from.")
FIELD(TARGET_RELIEF, TARGETS, ONE, "relief", "relief wanted", NUMBER, LENGTH, FEELER, NONE,
      -10, 15, 0, 0.6, "", "", "Relief to set.")
FIELD(TARGET_ACTION_BASS, TARGETS, ONE, "action_bass", "bass action wanted", NUMBER, LENGTH, RULE, NONE,
      0, 60, 0.8, 5, "", "", "Action to set on the lowest string.")
FIELD(TARGET_ACTION_TREBLE, TARGETS, ONE, "action_treble", "treble action wanted", NUMBER, LENGTH, RULE, NONE,
      0, 60, 0.8, 5, "", "", "Action to set on string 1.")
FIELD(TARGET_GAP_BASS, TARGETS, ONE, "nut_gap_bass", "bass nut gap wanted", NUMBER, LENGTH, FEELER, NONE,
      0, 20, 0.02, 1.2, "", "", "Nut gap to set on the lowest string.")
FIELD(TARGET_GAP_TREBLE, TARGETS, ONE, "nut_gap_treble", "treble nut gap wanted", NUMBER, LENGTH, FEELER, NONE,
      0, 20, 0.02, 1.2, "", "", "Nut gap to set on string 1.")
FIELD(RELIEF_TOLERANCE, TARGETS, ONE, "relief_tolerance", "relief tolerance", NUMBER, LENGTH, FEELER, NONE,
      0, 5, 0, 0.2, ".001 in", "", "Relief within this of the target is left alone.")
FIELD(ACTION_TOLERANCE, TARGETS, ONE, "action_tolerance", "action tolerance", NUMBER, LENGTH, RULE, NONE,
      0, 10, 0, 0.6, "1/128 in", "", "Action within this of the target is left alone.")
FIELD(GAP_TOLERANCE, TARGETS, ONE, "nut_gap_tolerance", "nut gap tolerance", NUMBER, LENGTH, FEELER, NONE,
      0, 5, 0, 0.2, ".001 in", "", "A nut gap within this of the target is left alone.")
FIELD(CENTS_TOLERANCE, TARGETS, ONE, "cents_tolerance", "cents tolerance", NUMBER, CENTS, NONE, NONE,
      0, 100, 0.5, 10, "2", "", "A note within this of its pitch is left alone.")
FIELD(TOUCH, TARGETS, ONE, "touch", "touch", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "medium", "soft|medium|hard", "How hard the player plucks.")

FIELD(PLUCK_DISTANCE, MODEL, ONE, "pluck_distance", "pluck to saddle", NUMBER, LENGTH, SMALL, NONE,
      1, 1500, 30, 300, "150 mm", "", "Where the string is plucked, from the saddle.")
FIELD(PRESS_DISTANCE, MODEL, ONE, "press_distance", "press behind the fret", NUMBER, LENGTH, SMALL, NONE,
      0, 100, 2, 20, "10 mm", "", "How far behind the fret the string is pressed.")
FIELD(PRESS_DEPTH, MODEL, ONE, "press_depth", "press depth", NUMBER, LENGTH, SMALL, NONE,
      0, 20, 0, 1.5, "0 mm", "", "How much deeper than the sounding line the string is pressed.")
FIELD(FREE_LENGTH, MODEL, ONE, "free_length", "length behind the ends", NUMBER, LENGTH, SMALL, NONE,
      0, 3000, 20, 400, "75 mm", "", "String behind nut and saddle that stretches along.")
FIELD(CLAMPED_ENDS, MODEL, ONE, "clamped_ends", "clamped ends", NUMBER, PLAIN, NONE, NONE,
      0, 2, 0, 2, "1", "", "How many ends hold the string's angle: 0 hinged, 1, 2 clamped.")
FIELD(CORE_MODULUS, MODEL, ONE, "core_modulus", "steel core modulus", NUMBER, STRESS, NONE, NONE,
      10, 1000000, 150000, 220000, "203400", "", "Stiffness of a steel core where its string names none.")
FIELD(A4, MODEL, ONE, "a4", "pitch of A4", NUMBER, FREQUENCY, NONE, NONE,
      200, 900, 415, 466, "440", "", "The pitch standard.")
FIELD(FEELER_STEP, MODEL, ONE, "feeler_step", "feeler step", NUMBER, LENGTH, FEELER, NONE,
      0, 2, 0.005, 0.1, ".001 in", "", "The step of the leaves that read relief, nut gaps, spots.")
FIELD(RULE_STEP, MODEL, ONE, "rule_step", "rule step", NUMBER, LENGTH, RULE, NONE,
      0, 5, 0.01, 1, "1/128 in", "", "The step of the rule that reads action and exposure.")
FIELD(TUNER_STEP, MODEL, ONE, "tuner_step", "tuner step", NUMBER, CENTS, NONE, NONE,
      0, 50, 0.1, 5, "1", "", "The step of the tuner that reads cents.")

FIELD(VISIT_DATE, VISIT, ONE, "date", "date", DATE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "The day of the visit, year-month-day.")
FIELD(VISIT_REASON, VISIT, ONE, "reason", "reason", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 400, "", "", "Why the instrument came in.")
FIELD(HUMIDITY, VISIT, ONE, "humidity", "humidity", NUMBER, PERCENT, NONE, NONE,
      0, 100, 20, 75, "", "", "Relative humidity of the shop.")
FIELD(TEMPERATURE, VISIT, ONE, "temperature", "temperature", NUMBER, TEMPERATURE, TEMPERATURE, NONE,
      -40, 80, 10, 35, "", "", "Temperature of the shop.")
FIELD(VISIT_NOTE, VISIT, ONE, "note", "note", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "Anything worth remembering about the visit.")
FIELD(VISIT_PASSES, VISIT, ONE, "passes", "passes", COUNT, PLAIN, NONE, NONE,
      0, 999, 0, 20, "", "", "How many passes were measured in the visit.")

FIELD(PASS_LABEL, PASS, ONE, "label", "label", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 40, "", "", "What the pass shows: as found, after the rod, as left.")
FIELD(PASS_TIME, PASS, ONE, "time", "time", TIME, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "When the pass was measured.")
FIELD(ROD_TURN, PASS, ONE, "rod_turn", "rod turned", NUMBER, TURNS, NONE, NONE,
      -20, 20, -1, 1, "", "", "Turns of the rod since the pass before; positive tightens.")
FIELD(RELIEF, PASS, ONE, "relief", "relief", NUMBER, LENGTH, FEELER, FEELER,
      -10, 15, -0.3, 1.2, "", "", "Gap between straightedge, or string held at both ends, and the crown at the relief fret; negative for back-bow.")
FIELD(RELIEF_AT, PASS, FRET, "relief", "relief at fret", NUMBER, LENGTH, FEELER, FEELER,
      -10, 15, -0.3, 1.2, "", "", "The same gap at another fret.")
FIELD(FALL_AWAY, PASS, ONE, "fall_away", "fall-away", NUMBER, LENGTH, FEELER, FEELER,
      -10, 15, -0.1, 1, "", "", "How far the last crown lies below the line over the body.")
FIELD(NUT_METHOD, PASS, ONE, "nut_method", "nut gap read", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "open", "open|held-3", "Nut gaps read with the string open, or held down on fret 3.")
FIELD(NUT_GAP, PASS, STRING, "nut_gap", "nut gap", NUMBER, LENGTH, FEELER, FEELER,
      0, 20, 0, 1.2, "", "", "Gap between string and crown at fret 1.")
FIELD(ACTION, PASS, STRING, "action", "action", NUMBER, LENGTH, RULE, RULE,
      0, 60, 0.8, 6, "", "", "Gap between the open string and the crown at the action fret.")
FIELD(EXPOSURE_BASS, PASS, ONE, "exposure_bass", "bass exposure", NUMBER, LENGTH, DEPTH, RULE,
      0, 80, 0, 12, "", "", "Saddle over the bridge top (or travel left) under the lowest string.")
FIELD(EXPOSURE_TREBLE, PASS, ONE, "exposure_treble", "treble exposure", NUMBER, LENGTH, DEPTH, RULE,
      0, 80, 0, 12, "", "", "Saddle over the bridge top (or travel left) under string 1.")
FIELD(CENTS, PASS, STRING_FRET, "cents", "cents", NUMBER, CENTS, NONE, TUNER,
      -1200, 1200, -50, 50, "", "", "How far the fretted note sounds above its pitch.")
FIELD(SPOT, PASS, FRET, "spot", "spot", NUMBER, LENGTH, FEELER, FEELER,
      -5, 5, -0.3, 0.3, "", "", "How far a crown stands above its neighbours' line.")
FIELD(CROWN, PASS, FRET, "crown", "crown", NUMBER, LENGTH, SMALL, NONE,
      0, 5, 0.4, 1.6, "", "", "Height of this crown over the board.")
FIELD(BUZZ, PASS, STRING, "buzz", "buzzing notes", FRETS, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "Frets whose notes buzz on the string; 0 is open.")
FIELD(CLEAN, PASS, STRING, "clean", "clean notes", FRETS, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "Frets whose notes sound clean on the string; 0 is open.")
FIELD(PASS_NOTE, PASS, ONE, "note", "note", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "Anything worth remembering about the pass.")

FIELD(WORK_KIND, WORK, ONE, "kind", "work", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "What was done.")
FIELD(WORK_AMOUNT, WORK, ONE, "amount", "amount", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "How much was done.")
FIELD(WORK_NOTE, WORK, ONE, "note", "note", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "Anything worth remembering about the work.")
FIELD(WORK_TIME, WORK, ONE, "time", "time", TIME, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "When it was done.")
/* clang-format on */
