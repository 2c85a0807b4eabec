/* SPDX-License-Identifier: MIT */
/*
 * What predictions of wood and pull rest on besides readings, each with its standard uncertainty:
 * 95 % of what occurs lies within twice it. No include guard: it is included with ASSUMPTION
 * defined.
 *
 * ASSUMPTION(id, value, how, u, unit, what, source)
 *
 * `value` is what is taken, where it is not a reading. `how` is SHARE where u is a share of the
 * number, whose logarithm is then normal, and PLUS where it is in `unit`.
 */

/* clang-format off */
ASSUMPTION(MODULUS, 0, SHARE, 0.22, "", "modulus of a wood that is known by its name",
           "Wood Handbook, FPL-GTR-190, ch. 5: coefficient of variation 22 % (from memory)")
ASSUMPTION(MODULUS_ENTERED, 0, SHARE, 0.10, "", "modulus entered for this piece of wood",
           "our estimate")
ASSUMPTION(CALLIPER, 0, PLUS, 0.1, "mm", "a size of the neck taken with callipers",
           "from memory: on a carved shaft no two people read closer")
ASSUMPTION(FULLNESS, 0, PLUS, 0.2, "", "exponent of the shaft's outline less 2, which is the half ellipse",
           "our estimate: from a slim V, 1.6, to a full U, 2.4")
ASSUMPTION(HEEL_FRET, 0, PLUS, 1.0, "fret", "where the heel begins to keep the neck straight, by the join",
           "from memory")
ASSUMPTION(HEEL_FRET_ENTERED, 0, PLUS, 0.5, "fret", "the same, entered",
           "our estimate")
ASSUMPTION(PULL, 0, SHARE, 0.03, "", "pull of all strings, worked out",
           "common practice: builds are a few per cent off, and not all to one side")
ASSUMPTION(ROD_TAKES, 0, PLUS, 0.15, "", "share of a change of pull that a rod which turns takes up",
           "our estimate: a steel bar of 5 mm 3 to 5 mm off the axis, held at its ends, stiffens a neck by up to a third")
ASSUMPTION(KIND, 0, SHARE, 0.35, "", "bend for a newton, of usual necks of a kind",
           "common practice, no published source: necks of a kind differ by half and more")
ASSUMPTION(OWN_BOW, 0, PLUS, 0.1, "mm", "relief of the neck with neither rod nor strings",
           "our estimate: a board is levelled straight, and creeps")
ASSUMPTION(HYGROMETER, 0, PLUS, 2.5, "%", "relative humidity as read",
           "common practice: a shop's hygrometer is good to 5 %")
ASSUMPTION(THERMOMETER, 0, PLUS, 1.0, "C", "temperature as read",
           "common practice")
ASSUMPTION(HOME_TEMPERATURE, 21, PLUS, 2.0, "C", "temperature where the instrument lives",
           "our estimate")
ASSUMPTION(SHRINKAGE, 0, SHARE, 0.15, "", "coefficient of movement of a wood that is known by its name",
           "Wood Handbook, ch. 4: shrinkage of one species varies by 15 % (from memory)")
ASSUMPTION(DIFFUSION, 3e-5, SHARE, 0.3, "mm2/s", "diffusion of moisture across the grain at 20 C and 8 to 10 %",
           "J. F. Siau, Transport Processes in Wood (1984): 2e-11 to 4e-11 m2/s for woods of 0.5 to 0.65 g/cm3 (from memory)")
ASSUMPTION(FINISH, 1.7, SHARE, 0.27, "", "how many times slower a finished neck is",
           "our estimate: 1 bare to 3 under lacquer; Wood Handbook, ch. 16, on what finishes keep out (from memory)")
ASSUMPTION(NECK_DEPTH, 21, SHARE, 0.06, "mm", "board and shaft together, where they were not measured",
           "common practice: 19 to 24 mm")
ASSUMPTION(CHORD_TILT, 0, PLUS, 0.00873, "rad", "frets' line against the top of the bridge: half a degree",
           "our estimate: within a degree on a flat top")
ASSUMPTION(ANCHOR, 0, PLUS, 0.5, "mm", "where the string comes up behind the saddle",
           "common practice: a ruler, and a hole with an edge")
ASSUMPTION(SADDLE_ARCH, 0, PLUS, 0.3, "mm", "how much higher the inner strings stand at the saddle",
           "our estimate")
/* clang-format on */
