/* SPDX-License-Identifier: MIT */
/*
 * What a predicted pitch rests on besides the gauges, declared once: what is assumed, about which
 * centre, and how far the truth may lie from it. No include guard: it is included with
 * ASSUMPTION defined.
 *
 * ASSUMPTION(id, about, centre, shape, size, label, source)
 *
 * `centre` is the value that is used where nothing was entered; AS_USED where the value comes
 * from the record in any case. `size` is the standard uncertainty of NORMAL, half the width of
 * RECTANGLE and TRIANGLE, the whole width of FALLING and UPWARD; in mm, in ends, or, for modulus, core
 * and mass, as a share of the value. FROM_RECORD: the tolerance or the calibration says it.
 * A reading narrows its assumption: which row holds for a string is found in derive.
 */

/* clang-format off */
ASSUMPTION(ENDS_ASSUMED, ENDS, 1, TRIANGLE, 1, "clamped ends",
           "centre: Anderson and Beausoleil (2024); none and both are the limits; the shape is from memory")
ASSUMPTION(ENDS_ENTERED, ENDS, AS_USED, NORMAL, 0.1, "clamped ends entered", "from memory")
ASSUMPTION(DEPTH_ASSUMED, DEPTH, 0, UPWARD, 0.4, "press depth",
           "from memory: a light touch goes no deeper than the fret needs, a firm one less than half a crown")
ASSUMPTION(DEPTH_ENTERED, DEPTH, AS_USED, NORMAL, 0.05, "press depth entered", "from memory")
ASSUMPTION(BY_TUNER, PRESSED, AS_USED, NORMAL, FROM_RECORD, "depth and ends by the tuner",
           "calibration from the string's own cents")
ASSUMPTION(DISTANCE_ASSUMED, DISTANCE, 10, TRIANGLE, 5, "press distance", "from memory")
ASSUMPTION(DISTANCE_ENTERED, DISTANCE, AS_USED, NORMAL, 1.5, "press distance entered", "from memory")
ASSUMPTION(FREE_ASSUMED, FREE, 75, TRIANGLE, 75, "length behind the ends",
           "from memory; a nut that grips leaves none")
ASSUMPTION(FREE_ENTERED, FREE, AS_USED, NORMAL, 10, "length behind the ends entered", "from memory")
ASSUMPTION(MODULUS_STEEL, MODULUS, 203400, NORMAL, 0.02, "core modulus",
           "Shigley, Table 10-5: 203 400 MPa under 0.032 in, 200 000 above; the width is from memory")
ASSUMPTION(MODULUS_ENTERED, MODULUS, AS_USED, NORMAL, 0.05, "core modulus entered",
           "from memory: a weight and a rule")
ASSUMPTION(CORE_OF_SET, CORE, AS_USED, NORMAL, 0.08, "core of a usual set",
           "from memory; recorded strings ask for 7 to 17 % more (GuitarSet)")
ASSUMPTION(CORE_ENTERED, CORE_MM, AS_USED, RECTANGLE, 0.0127, "core",
           "a caliper's .001 in")
ASSUMPTION(CORE_PLAIN, CORE_MM, AS_USED, RECTANGLE, 0.00508, "gauge",
           "a plain wire within .0002 in of its packet (common practice)")
ASSUMPTION(CORE_NYLON, CORE, AS_USED, RECTANGLE, 0.02, "gauge", "from memory")
ASSUMPTION(MASS_WEIGHED, MASS, AS_USED, RECTANGLE, 0.01, "weighed mass", "from memory")
ASSUMPTION(MASS_LABEL, MASS, AS_USED, RECTANGLE, 0.02, "mass by the label", "from memory")
ASSUMPTION(MASS_ENTERED, MASS, AS_USED, RECTANGLE, 0.01, "mass entered", "from memory")
ASSUMPTION(MASS_ROUND, MASS, AS_USED, RECTANGLE, 0.04, "mass from the gauge",
           "a few per cent (common practice)")
ASSUMPTION(MASS_FLAT, MASS, AS_USED, RECTANGLE, 0.1, "mass from the gauge", "5 to 10 % (from memory)")
ASSUMPTION(MASS_NYLON, MASS, AS_USED, RECTANGLE, 0.04, "mass from the gauge",
           "nine published masses, all within 3.6 % (read)")
ASSUMPTION(MASS_FLUOROCARBON, MASS, AS_USED, RECTANGLE, 0.08, "mass from the gauge", "from memory")
ASSUMPTION(CONTACT_ASSUMED, CONTACT, 0, FALLING, 5, "setback not entered", "from memory")
ASSUMPTION(CONTACT_ENTERED, CONTACT, AS_USED, RECTANGLE, 0.5, "setback entered",
           "from memory: where a crown bears, read with a rule")
ASSUMPTION(CONTACT_MOVED, CONTACT, AS_USED, RECTANGLE, 0.7, "setback expected",
           "from memory: read with a rule, and a saddle moved by hand to half a mm since")
ASSUMPTION(ACTION_REACHED, ACTION, AS_USED, RECTANGLE, FROM_RECORD, "action reached",
           "the action's tolerance: nearer it is left alone")
ASSUMPTION(GAP_REACHED, GAP, AS_USED, RECTANGLE, FROM_RECORD, "nut gap reached",
           "the nut gap's tolerance: nearer it is left alone")
/* clang-format on */
