/* SPDX-License-Identifier: MIT */
/*
 * Every reading, choice and text that a profile can hold, declared once. The file
 * reader and writer, the screens, the help texts and `sillet check` follow from this
 * table. No include guard: it is included with FIELD defined (field.h, field.c).
 *
 * FIELD(id, section, per, key, label, kind, quantity, measure, step,
 *       possible_min, possible_max, usual_min, usual_max, fallback, choices, help)
 *
 * `step` names the gauge whose step is a reading's uncertainty, or that a target is set to.
 * Limits are in the quantity's pivot unit (mm, C, N, ...): outside *possible* an entry is
 * refused, outside *usual* it is taken and marked. For texts possible_max is the length
 * in bytes. Of a date usual_max is how many days from now it may lie in the future; where that is
 * more than none, a day typed without its year is the next such day, else the last one.
 * `fallback` is what holds when the reading is absent ("" for: then absent).
 */

/* clang-format off */
FIELD(FORMAT, PROFILE, ONE, "format", "file format", COUNT, PLAIN, NONE, NONE,
      1, 1000000, 1, 2, "", "", "version of the profile's format")

FIELD(NAME, INSTRUMENT, ONE, "name", "name", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "what the shop calls the instrument")
FIELD(KIND, INSTRUMENT, ONE, "kind", "kind", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "steel-string|classical|electric|bass|archtop|resonator|mandolin|banjo|ukulele|other",
      "the family of instrument")
FIELD(MAKER, INSTRUMENT, ONE, "maker", "maker", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "who built it")
FIELD(SERIAL, INSTRUMENT, ONE, "serial", "serial", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "serial number, or a mark that tells it apart")
FIELD(BUILT, INSTRUMENT, ONE, "built", "built", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "when it was built, as far as known")
FIELD(OWNER, INSTRUMENT, ONE, "owner", "owner", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "whose it is")
FIELD(CONTACT, INSTRUMENT, ONE, "contact", "contact", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "how to reach the owner")
FIELD(HOME_HUMIDITY_LOW, INSTRUMENT, ONE, "home_humidity_low", "home, driest", NUMBER, PERCENT, NONE, NONE,
      0, 100, 15, 75, "", "", "least relative humidity where it lives, over the year")
FIELD(HOME_HUMIDITY_HIGH, INSTRUMENT, ONE, "home_humidity_high", "home, dampest", NUMBER, PERCENT, NONE, NONE,
      0, 100, 20, 85, "", "", "most relative humidity where it lives, over the year")
FIELD(NOTE, INSTRUMENT, ONE, "note", "note", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "anything to remember about it; the shop's own, never printed")

FIELD(SCALE, BOARD, ONE, "scale", "scale length", NUMBER, LENGTH, LONG, NONE,
      100, 2000, 300, 920, "", "", "nut to fret 12, doubled; no setback in it")
FIELD(SCALE_TREBLE, BOARD, ONE, "scale_treble", "treble scale", NUMBER, LENGTH, LONG, NONE,
      100, 2000, 300, 920, "", "", "multi-scale only: nut to fret 12 doubled, string 1")
FIELD(SCALE_BASS, BOARD, ONE, "scale_bass", "bass scale", NUMBER, LENGTH, LONG, NONE,
      100, 2000, 300, 920, "", "", "multi-scale only: the same along the lowest string")
FIELD(STRINGS, BOARD, ONE, "strings", "strings", COUNT, PLAIN, NONE, NONE,
      1, 12, 3, 12, "", "", "how many strings")
FIELD(FRETS, BOARD, ONE, "frets", "frets", COUNT, PLAIN, NONE, NONE,
      0, 36, 12, 27, "", "", "how many frets; a zero fret is not counted")
FIELD(JOIN_FRET, BOARD, ONE, "join_fret", "body-join fret", COUNT, PLAIN, NONE, NONE,
      0, 99, 10, 24, "", "", "fret where the neck meets the body")
FIELD(HEEL_FRET, BOARD, ONE, "heel_fret", "heel fret", COUNT, PLAIN, NONE, NONE,
      0, 99, 7, 23, "", "", "from this fret on the heel keeps the neck straight")
FIELD(ACTION_FRET, BOARD, ONE, "action_fret", "action fret", COUNT, PLAIN, NONE, NONE,
      0, 99, 10, 17, "12", "", "fret at which the action is read")
FIELD(RELIEF_FRET, BOARD, ONE, "relief_fret", "relief fret", COUNT, PLAIN, NONE, NONE,
      0, 99, 4, 12, "", "", "fret at which relief is read; else midway")
FIELD(RELIEF_END_LOW, BOARD, ONE, "relief_end_low", "relief end, nut side", COUNT, PLAIN, NONE, NONE,
      0, 99, 1, 3, "1", "", "fret that the straightedge rests on there")
FIELD(RELIEF_END_HIGH, BOARD, ONE, "relief_end_high", "relief end, body side", COUNT, PLAIN, NONE, NONE,
      0, 99, 10, 24, "", "", "fret that it rests on there; else the join")
FIELD(RADIUS_NUT, BOARD, ONE, "radius_nut", "radius at the nut", RADIUS, LENGTH, LONG, NONE,
      20, 5000, 180, 520, "", "", "curve across the board at the nut, or flat")
FIELD(RADIUS_END, BOARD, ONE, "radius_end", "radius at the end", RADIUS, LENGTH, LONG, NONE,
      20, 5000, 180, 520, "", "", "curve across the board at its end, or flat")
FIELD(BOARD_END, BOARD, ONE, "board_end", "board end", NUMBER, LENGTH, LONG, NONE,
      10, 2000, 150, 750, "", "", "nut's front edge to the end of the board")
FIELD(WIDTH_NUT, BOARD, ONE, "width_nut", "board width at the nut", NUMBER, LENGTH, SMALL, NONE,
      10, 200, 26, 70, "", "", "across the board at the nut, edge to edge")
FIELD(WIDTH_JOIN, BOARD, ONE, "width_join", "board width at the join", NUMBER, LENGTH, SMALL, NONE,
      10, 250, 30, 90, "", "", "across the board at the join, edge to edge")
FIELD(THICKNESS, BOARD, ONE, "thickness", "board thickness", NUMBER, LENGTH, SMALL, NONE,
      0.5, 40, 3, 9, "", "", "the board alone in the middle, no frets, no neck")
FIELD(BOARD_WOOD, BOARD, ONE, "wood", "board wood", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "wood of the board; + lists the woods")
FIELD(BOARD_MODULUS, BOARD, ONE, "modulus", "board modulus", NUMBER, STRESS, NONE, NONE,
      100, 500000, 5000, 25000, "", "", "stiffness along the grain; else the wood's")
FIELD(CROWN_HEIGHT, BOARD, ONE, "crown_height", "crown height", NUMBER, LENGTH, SMALL, NONE,
      0, 5, 0.5, 1.6, "", "", "top of a fret's crown over the board")
FIELD(CROWN_WIDTH, BOARD, ONE, "crown_width", "crown width", NUMBER, LENGTH, SMALL, NONE,
      0, 10, 1, 3.2, "", "", "across a fret, from side to side of the crown")
FIELD(COURSES, BOARD, ONE, "courses", "courses", COUNT, PLAIN, NONE, NONE,
      1, 12, 3, 12, "", "", "groups of strings played as one; else each string is one")
FIELD(FRETLESS, BOARD, ONE, "fretless", "fretless", YESNO, PLAIN, NONE, NONE,
      0, 0, 0, 0, "no", "no|yes", "the frets counted are lines or places on a bare board")

FIELD(NUT_KIND, NUT, ONE, "kind", "nut", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "slotted", "slotted|zero-fret|raised", "strings in slots, over a zero fret, or raised for a bar")
FIELD(NUT_WIDTH, NUT, ONE, "width", "nut width", NUMBER, LENGTH, SMALL, NONE,
      10, 200, 26, 70, "", "", "length of the nut, across the board")
FIELD(NUT_MARGIN_BASS, NUT, ONE, "margin_bass", "bass margin", NUMBER, LENGTH, SMALL, NONE,
      0, 40, 1.5, 6, "", "", "board edge to the near edge of the lowest string")
FIELD(NUT_MARGIN_TREBLE, NUT, ONE, "margin_treble", "treble margin", NUMBER, LENGTH, SMALL, NONE,
      0, 40, 1.5, 6, "", "", "board edge to the near edge of string 1")
FIELD(NUT_SPREAD, NUT, ONE, "spread", "nut spread", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "equal-gaps|equal-centres", "which is equal at the nut: gaps or centres")
FIELD(COURSE_GAP, NUT, ONE, "course_gap", "gap in a course", NUMBER, LENGTH, SMALL, NONE,
      0, 20, 0.5, 5, "", "", "between the edges of the strings of one course")

FIELD(BRIDGE_KIND, BRIDGE, ONE, "kind", "bridge", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "blank|screw|post|wheel", "what raises and lowers the strings")
FIELD(THREAD, BRIDGE, ONE, "thread", "thread pitch", NUMBER, LENGTH, SMALL, NONE,
      0.05, 10, 0.3, 1.6, "", "", "height gained in one turn of screw, post or wheel")
FIELD(EXPOSURE_MIN, BRIDGE, ONE, "exposure_min", "least exposure", NUMBER, LENGTH, DEPTH, NONE,
      0, 50, 0.3, 6, "1.6 mm", "", "least saddle over the bridge that will do")
FIELD(EXPOSURE_NEW, BRIDGE, ONE, "exposure_new", "exposure wanted", NUMBER, LENGTH, DEPTH, NONE,
      0, 50, 2, 8, "4 mm", "", "saddle to stand over the bridge after a reset")
FIELD(ANCHOR_DISTANCE, BRIDGE, ONE, "anchor_distance", "saddle to anchor", NUMBER, LENGTH, SMALL, NONE,
      0.5, 500, 4, 150, "", "", "saddle to the pin or tailpiece behind it")
FIELD(ANCHOR_DROP, BRIDGE, ONE, "anchor_drop", "drop to anchor", NUMBER, LENGTH, SMALL, NONE,
      0, 200, 0.5, 60, "", "", "straightedge on the strings down to where they are held")
FIELD(SADDLE_SPREAD, BRIDGE, ONE, "spread", "spread at the saddle", NUMBER, LENGTH, SMALL, NONE,
      1, 300, 25, 90, "", "", "lowest string to string 1, centre to centre")
FIELD(SADDLE_WIDTH, BRIDGE, ONE, "saddle_width", "saddle width", NUMBER, LENGTH, SMALL, NONE,
      0.2, 50, 2, 12, "", "", "front to back over the saddle's top, along the strings")
FIELD(POST_SPREAD, BRIDGE, ONE, "post_spread", "between the posts", NUMBER, LENGTH, SMALL, NONE,
      1, 400, 40, 120, "", "", "post to post or wheel to wheel, centre to centre")
FIELD(POST_TO_SADDLE, BRIDGE, ONE, "post_to_saddle", "posts to the saddles", NUMBER, LENGTH, SMALL, NONE,
      0, 200, 5, 60, "", "", "a tremolo's edges on its posts back to its saddles")
FIELD(POST_TO_REST, BRIDGE, ONE, "post_to_rest", "posts to the rest", NUMBER, LENGTH, SMALL, NONE,
      1, 400, 20, 150, "", "", "back to where its plate rests; none if it floats")
FIELD(INTONATION_THREAD, BRIDGE, ONE, "intonation_thread", "intonation thread", NUMBER, LENGTH, SMALL, NONE,
      0.05, 10, 0.3, 1.6, "", "", "setback gained in one turn of a saddle's own screw")
FIELD(FLOATING, BRIDGE, ONE, "floating", "floating bridge", YESNO, PLAIN, NONE, NONE,
      0, 0, 0, 0, "no", "no|yes", "does it stand on the top, held by the strings alone?")

FIELD(JOIN, NECK, ONE, "join", "neck join", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "glued|bolted|pocket|through", "how the neck is held to the body")
FIELD(HEEL_DEPTH, NECK, ONE, "heel_depth", "heel depth", NUMBER, LENGTH, SMALL, NONE,
      1, 300, 40, 120, "", "", "underside of the board down to the heel cap")
FIELD(POCKET_LENGTH, NECK, ONE, "pocket_length", "pocket length", NUMBER, LENGTH, SMALL, NONE,
      1, 400, 50, 130, "", "", "the neck pocket, along the strings")
FIELD(NECK_WOOD, NECK, ONE, "wood", "neck wood", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "wood of the neck; + lists the woods")
FIELD(SHAFT_FIRST, NECK, ONE, "shaft_first", "shaft depth at fret 1", NUMBER, LENGTH, SMALL, NONE,
      2, 100, 9, 25, "", "", "neck alone at fret 1, board not included")
FIELD(SHAFT_HEEL, NECK, ONE, "shaft_heel", "shaft depth at the heel", NUMBER, LENGTH, SMALL, NONE,
      2, 150, 10, 30, "", "", "neck alone at the heel fret, no board")
FIELD(ROD, NECK, ONE, "rod", "truss rod", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "none|one-way|two-way|fixed", "the kind of truss rod")
FIELD(ROD_HEIGHT, NECK, ONE, "rod_height", "rod height", NUMBER, LENGTH, SMALL, NONE,
      0.5, 60, 5, 14, "", "", "the rod alone, from its bottom to its top")
FIELD(ROD_CAP, NECK, ONE, "rod_cap", "rod cap", NUMBER, LENGTH, SMALL, NONE,
      0, 30, 0, 6, "", "", "height of the strip of wood glued in over the rod")
FIELD(SLOT_WIDTH, NECK, ONE, "slot_width", "slot width", NUMBER, LENGTH, SMALL, NONE,
      0, 60, 4, 13, "", "", "the rod's slot as found, wall to wall")
FIELD(SLOT_DEPTH, NECK, ONE, "slot_depth", "slot depth", NUMBER, LENGTH, SMALL, NONE,
      0, 60, 5, 16, "", "", "slot as found, from the face under the board down")
FIELD(SPLINE_MODULUS, NECK, ONE, "spline_modulus", "spline modulus", NUMBER, STRESS, NONE, NONE,
      100, 500000, 5000, 25000, "", "", "stiffness of the wood that refills the slot")
FIELD(RECUT_WIDTH, NECK, ONE, "recut_width", "recut width", NUMBER, LENGTH, SMALL, NONE,
      0, 60, 4, 13, "", "", "slot to be cut anew, wall to wall")
FIELD(RECUT_DEPTH, NECK, ONE, "recut_depth", "recut depth", NUMBER, LENGTH, SMALL, NONE,
      0, 60, 5, 16, "", "", "slot cut anew, from the face under the board down")
FIELD(NECK_MODULUS, NECK, ONE, "modulus", "neck modulus", NUMBER, STRESS, NONE, NONE,
      100, 500000, 5000, 25000, "", "", "stiffness along the grain; else the wood's")
FIELD(SHEAR_STRENGTH, NECK, ONE, "shear_strength", "shear strength", NUMBER, STRESS, NONE, NONE,
      0.1, 1000, 4, 25, "", "", "of the tenon, along the grain; else the wood's")
FIELD(TAPE_LAYERS, NECK, ONE, "tape_layers", "tape layers", COUNT, PLAIN, NONE, NONE,
      0, 100, 0, 6, "", "", "layers of tape under the routing jig")
FIELD(TAPE_THICKNESS, NECK, ONE, "tape_thickness", "tape thickness", NUMBER, LENGTH, SMALL, NONE,
      0, 5, 0.02, 0.4, "", "", "one layer of that tape")
FIELD(TENON_EDGE, NECK, ONE, "tenon_edge", "grain before the bolt", NUMBER, LENGTH, SMALL, NONE,
      0.5, 200, 5, 40, "", "", "cross bolt's hole to the end of the tenon")
FIELD(TENON_THICKNESS, NECK, ONE, "tenon_thickness", "tenon thickness", NUMBER, LENGTH, SMALL, NONE,
      1, 200, 12, 60, "", "", "wood of the tenon, along the cross bolt")
FIELD(BOLT_DIAMETER, NECK, ONE, "bolt_diameter", "bolt diameter", NUMBER, LENGTH, SMALL, NONE,
      0.5, 50, 4, 10, "", "", "neck bolt, over the outside of its thread")
FIELD(BOLT_TORQUE, NECK, ONE, "bolt_torque", "bolt torque", NUMBER, TORQUE, NONE, NONE,
      0.001, 500, 0.5, 8, "", "", "how tight the neck bolt is drawn")

FIELD(STRING_NOTE, STRING, ONE, "note", "note", NOTE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "note of the open string with octave: E2, Eb2, F#3")
FIELD(GAUGE, STRING, ONE, "gauge", "gauge", NUMBER, LENGTH, GAUGE, NONE,
      0.05, 10, 0.18, 3.6, "", "", "outer diameter, as the packet says it")
FIELD(BUILD, STRING, ONE, "build", "build", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "plain|round-wound|flat-wound|nylon|nylon-wound", "how the string is made")
FIELD(CORE, STRING, ONE, "core", "core", NUMBER, LENGTH, GAUGE, NONE,
      0.03, 10, 0.2, 1.6, "", "", "wire inside a wound string; hex: across the flats")
FIELD(HEX, STRING, ONE, "hex", "hex core", YESNO, PLAIN, NONE, NONE,
      0, 0, 0, 0, "no", "no|yes", "is the core six-sided?")
FIELD(CORE_MATERIAL, STRING, ONE, "core_material", "core material", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "what the core is made of; + lists them")
FIELD(WRAP_MATERIAL, STRING, ONE, "wrap_material", "wrap material", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "what it is wound with; + lists them")
FIELD(STRING_MODULUS, STRING, ONE, "modulus", "core modulus", NUMBER, STRESS, NONE, NONE,
      10, 1000000, 1000, 220000, "", "", "stiffness of the core; else its material's")
FIELD(MASS, STRING, ONE, "mass", "unit mass", NUMBER, UNIT_MASS, NONE, NONE,
      0.001, 1000, 0.2, 40, "", "", "mass of one metre of this string")
FIELD(WEIGH_MASS, STRING, ONE, "weigh_mass", "weighed mass", NUMBER, MASS, NONE, NONE,
      0.0001, 1000, 0.05, 60, "", "", "a cut piece of this string on the balance")
FIELD(WEIGH_LENGTH, STRING, ONE, "weigh_length", "weighed length", NUMBER, LENGTH, LONG, NONE,
      1, 20000, 100, 2000, "", "", "length of the piece that was weighed")
FIELD(LABEL_TENSION, STRING, ONE, "label_tension", "label tension", NUMBER, FORCE, NONE, NONE,
      0.1, 5000, 30, 400, "", "", "tension that the packet gives")
FIELD(LABEL_NOTE, STRING, ONE, "label_note", "label note", NOTE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "note that the packet's tension is for")
FIELD(LABEL_SCALE, STRING, ONE, "label_scale", "label scale", NUMBER, LENGTH, LONG, NONE,
      100, 2000, 300, 920, "", "", "scale that the packet's tension is for")
FIELD(SETBACK, STRING, ONE, "setback", "setback", NUMBER, LENGTH, SMALL, NONE,
      -50, 80, -1, 10, "0 mm", "", "its contact, behind the scale's end")
FIELD(FROM_FRET, STRING, ONE, "from_fret", "starts at fret", COUNT, PLAIN, NONE, NONE,
      0, 24, 0, 12, "", "", "fret that a short string starts at; else the nut")

FIELD(PRESET, TARGETS, ONE, "preset", "preset", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "the starting point that the targets were taken from")
FIELD(TARGET_RELIEF, TARGETS, ONE, "relief", "relief target", NUMBER, LENGTH, FEELER, FEELER,
      -10, 15, 0, 0.6, "", "", "gap to leave at the relief fret")
FIELD(TARGET_ACTION_BASS, TARGETS, ONE, "action_bass", "bass action target", NUMBER, LENGTH, RULE, NONE,
      0, 60, 1.15, 5, "", "", "height to set at the action fret, lowest string")
FIELD(TARGET_ACTION_TREBLE, TARGETS, ONE, "action_treble", "treble action target", NUMBER, LENGTH, RULE, NONE,
      0, 60, 1.15, 5, "", "", "height to set at the action fret, string 1")
FIELD(TARGET_GAP_BASS, TARGETS, ONE, "nut_gap_bass", "bass nut gap target", NUMBER, LENGTH, FEELER, FEELER,
      0, 20, 0.02, 1.2, "", "", "open gap to leave at fret 1, lowest string")
FIELD(TARGET_GAP_TREBLE, TARGETS, ONE, "nut_gap_treble", "treble nut gap target", NUMBER, LENGTH, FEELER, FEELER,
      0, 20, 0.02, 1.2, "", "", "open gap to leave at fret 1, string 1")
FIELD(TARGET_HEIGHT_NUT, TARGETS, ONE, "height_nut", "nut height target", NUMBER, LENGTH, RULE, RULE,
      0, 60, 4, 20, "", "", "raised nut: height to set over the board at the nut")
FIELD(TARGET_HEIGHT_SADDLE, TARGETS, ONE, "height_saddle", "end height target", NUMBER, LENGTH, RULE, RULE,
      0, 60, 4, 30, "", "", "raised nut: height to set at the end of the board")
FIELD(HEIGHT_TOLERANCE, TARGETS, ONE, "height_tolerance", "height tolerance", NUMBER, LENGTH, RULE, NONE,
      0, 10, 0, 0.8, "1/64 in", "", "raised nut: a height this near is left alone")
FIELD(RELIEF_TOLERANCE, TARGETS, ONE, "relief_tolerance", "relief tolerance", NUMBER, LENGTH, FEELER, NONE,
      0, 5, 0, 0.2, ".001 in", "", "relief this near to its target is left alone")
FIELD(ACTION_TOLERANCE, TARGETS, ONE, "action_tolerance", "action tolerance", NUMBER, LENGTH, RULE, NONE,
      0, 10, 0, 0.6, "1/128 in", "", "action this near to its target is left alone")
FIELD(GAP_TOLERANCE, TARGETS, ONE, "nut_gap_tolerance", "nut gap tolerance", NUMBER, LENGTH, FEELER, NONE,
      0, 5, 0, 0.2, ".001 in", "", "a nut gap this near to its target is left alone")
FIELD(CENTS_TOLERANCE, TARGETS, ONE, "cents_tolerance", "cents tolerance", NUMBER, CENTS, NONE, NONE,
      0, 100, 0.5, 10, "2", "", "a note this near to its pitch is left alone")
FIELD(TOUCH, TARGETS, ONE, "touch", "touch", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "medium", "soft|medium|hard", "how hard the player plucks")

FIELD(PLUCK_DISTANCE, MODEL, ONE, "pluck_distance", "pluck to saddle", NUMBER, LENGTH, SMALL, NONE,
      1, 1500, 30, 300, "150 mm", "", "where the string is plucked, from the saddle")
FIELD(PRESS_DISTANCE, MODEL, ONE, "press_distance", "press behind the fret", NUMBER, LENGTH, SMALL, NONE,
      0, 100, 2, 20, "10 mm", "", "how far behind the fret the string is pressed")
FIELD(PRESS_DEPTH, MODEL, ONE, "press_depth", "press depth", NUMBER, LENGTH, SMALL, NONE,
      0, 20, 0, 1.5, "0 mm", "", "how far below its sounding line the string is pressed")
FIELD(FREE_LENGTH, MODEL, ONE, "free_length", "length behind the ends", NUMBER, LENGTH, SMALL, NONE,
      0, 3000, 20, 400, "75 mm", "", "string behind nut and saddle that stretches along")
FIELD(CLAMPED_ENDS, MODEL, ONE, "clamped_ends", "clamped ends", NUMBER, PLAIN, NONE, NONE,
      0, 2, 0, 2, "1", "", "how many ends hold the string's angle: 0 hinged, 1, 2 clamped")
FIELD(CORE_MODULUS, MODEL, ONE, "core_modulus", "steel core modulus", NUMBER, STRESS, NONE, NONE,
      10, 1000000, 150000, 220000, "203400", "", "stiffness of a steel core where its string names none")
FIELD(A4, MODEL, ONE, "a4", "pitch of A4", NUMBER, FREQUENCY, NONE, NONE,
      200, 900, 415, 466, "440", "", "the pitch standard")
FIELD(FEELER_STEP, MODEL, ONE, "feeler_step", "feeler step", NUMBER, LENGTH, FEELER, NONE,
      0, 2, 0.005, 0.1, ".001 in", "", "step of the leaves that read relief, nut gaps, spots")
FIELD(RULE_STEP, MODEL, ONE, "rule_step", "rule step", NUMBER, LENGTH, RULE, NONE,
      0, 5, 0.01, 1, "1/128 in", "", "step of the rule that reads action and exposure")
FIELD(TUNER_STEP, MODEL, ONE, "tuner_step", "tuner step", NUMBER, CENTS, NONE, NONE,
      0, 50, 0.1, 5, "1", "", "step of the tuner that reads cents")

FIELD(VISIT_DATE, VISIT, ONE, "date", "date", DATE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "day of the visit: 24.6.2026, today or 0, yesterday or -1")
FIELD(VISIT_TICKET, VISIT, ONE, "ticket", "ticket", TEXT, PLAIN, NONE, NONE,
      0, 40, 0, 12, "", "", "number of the job, on the tag and on the owner's papers")
FIELD(VISIT_REASON, VISIT, ONE, "reason", "reason", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 400, "", "", "why the instrument came in")
FIELD(VISIT_PROMISED, VISIT, ONE, "promised", "promised for", DATE, PLAIN, NONE, NONE,
      0, 36600, 0, 366, "", "", "day it is to be ready: 24.6., tomorrow or 1, in a week 7")
FIELD(HUMIDITY, VISIT, ONE, "humidity", "humidity", NUMBER, PERCENT, NONE, NONE,
      0, 100, 20, 75, "", "", "relative humidity of the air in the shop")
FIELD(TEMPERATURE, VISIT, ONE, "temperature", "temperature", NUMBER, TEMPERATURE, TEMPERATURE, NONE,
      -40, 80, 10, 35, "", "", "of the air in the shop; a unit may follow: C or F")
FIELD(VISIT_NOTE, VISIT, ONE, "note", "note", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "anything to remember about the visit; never printed")
FIELD(VISIT_FOR_OWNER, VISIT, ONE, "for_owner", "note on the sheet", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "for the owner: printed on the customer's sheet")
FIELD(VISIT_HANDED_OVER, VISIT, ONE, "handed_over", "handed over", DATE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "day the owner got it back; until then it is in the house")
FIELD(VISIT_PASSES, VISIT, ONE, "passes", "passes", COUNT, PLAIN, NONE, NONE,
      0, 999, 0, 20, "", "", "how many passes were measured in the visit")

FIELD(PASS_LABEL, PASS, ONE, "label", "label", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 40, "", "", "what it shows: as found, as left")
FIELD(PASS_TIME, PASS, ONE, "time", "time", TIME, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "when the pass was measured")
FIELD(ROD_TURN, PASS, ONE, "rod_turn", "rod turned", NUMBER, TURNS, NONE, NONE,
      -20, 20, -1, 1, "", "", "turns since the pass before: 1/4; -1/4 slackened")
FIELD(RELIEF, PASS, ONE, "relief", "relief", NUMBER, LENGTH, FEELER, FEELER,
      -10, 15, -0.3, 1.2, "", "", "straightedge on the relief ends, gap at the relief fret; negative is back-bow")
FIELD(RELIEF_AT, PASS, FRET, "relief", "relief at fret", NUMBER, LENGTH, FEELER, FEELER,
      -10, 15, -0.3, 1.2, "", "", "the same gap at another fret")
FIELD(FALL_AWAY, PASS, ONE, "fall_away", "fall-away", NUMBER, LENGTH, FEELER, FEELER,
      -10, 15, -0.1, 1, "", "", "straightedge along heel and join, gap at the last fret")
FIELD(NUT_METHOD, PASS, ONE, "nut_method", "nut gap read", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "open", "open|held-3", "nut gaps read with the string open, or held down on fret 3")
FIELD(NUT_GAP, PASS, STRING, "nut_gap", "nut gap", NUMBER, LENGTH, FEELER, FEELER,
      0, 20, 0, 1.2, "", "", "gap between the string and the crown of fret 1")
FIELD(ACTION, PASS, STRING, "action", "action", NUMBER, LENGTH, RULE, RULE,
      0, 60, 0.8, 6, "", "", "gap between the open string and the crown at the action fret")
FIELD(HEIGHT_NUT, PASS, STRING, "height_nut", "height at the nut", NUMBER, LENGTH, RULE, RULE,
      0, 60, 4, 20, "", "", "raised nut: the board there up to the string")
FIELD(HEIGHT_SADDLE, PASS, STRING, "height_saddle", "height at the end", NUMBER, LENGTH, RULE, RULE,
      0, 60, 4, 30, "", "", "raised nut: the board there up to the string")
FIELD(EXPOSURE_BASS, PASS, ONE, "exposure_bass", "bass exposure", NUMBER, LENGTH, DEPTH, RULE,
      0, 80, 0, 12, "", "", "saddle over the bridge, or travel left, at the lowest string")
FIELD(EXPOSURE_TREBLE, PASS, ONE, "exposure_treble", "treble exposure", NUMBER, LENGTH, DEPTH, RULE,
      0, 80, 0, 12, "", "", "saddle over the bridge, or travel left, at string 1")
FIELD(EXPOSURE, PASS, STRING, "exposure", "travel left", NUMBER, LENGTH, DEPTH, RULE,
      0, 80, 0, 12, "", "", "how far this inner saddle can still be lowered")
FIELD(CENTS, PASS, STRING_FRET, "cents", "cents", NUMBER, CENTS, NONE, TUNER,
      -1200, 1200, -50, 50, "", "", "fretted note against its pitch; + is sharp")
FIELD(SETBACK_READ, PASS, STRING, "setback", "setback", NUMBER, LENGTH, SMALL, NONE,
      -50, 80, -1, 10, "", "", "its contact, behind the scale's end")
FIELD(SPOT, PASS, FRET, "spot", "spot", NUMBER, LENGTH, FEELER, FEELER,
      -5, 5, -0.3, 0.3, "", "", "crown over the line of its neighbours; - is low")
FIELD(CROWN, PASS, FRET, "crown", "crown", NUMBER, LENGTH, SMALL, NONE,
      0, 5, 0.4, 1.6, "", "", "top of this fret's crown over the board")
FIELD(BUZZ, PASS, STRING, "buzz", "buzzing notes", FRETS, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "frets whose notes buzz, 0 is open: 0+3+5-7")
FIELD(CLEAN, PASS, STRING, "clean", "clean notes", FRETS, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "frets whose notes ring clean, 0 is open: 0+3")
FIELD(PASS_NOTE, PASS, ONE, "note", "note", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "anything to remember about the pass; never printed")

FIELD(WORK_KIND, WORK, ONE, "kind", "work", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 80, "", "", "what was done")
FIELD(WORK_AMOUNT, WORK, ONE, "amount", "amount", TEXT, PLAIN, NONE, NONE,
      0, 400, 0, 400, "", "", "how much was done")
FIELD(WORK_NOTE, WORK, ONE, "note", "note", TEXT, PLAIN, NONE, NONE,
      0, 8000, 0, 2000, "", "", "anything to remember about the work")
FIELD(WORK_TIME, WORK, ONE, "time", "time", TIME, PLAIN, NONE, NONE,
      0, 0, 0, 0, "", "", "when it was done: 10:42")
/* clang-format on */
