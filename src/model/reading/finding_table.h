/* SPDX-License-Identifier: MIT */
/*
 * What the model has to say beside numbers, declared once. FINDING(id, weight, name, words)
 * with weight FAULT (geometry that cannot be: figures are absent for it), ADVICE (what it
 * means for the work) or CAUTION (someone or something can be hurt). Words hold %s where
 * the finding's own numbers are put in (finding_words).
 */
/* clang-format off */
FINDING(SCALE_ABSENT, FAULT, "scale-absent", "the scale length is missing; nothing can be placed without it")
FINDING(STRINGS_ABSENT, FAULT, "strings-absent", "the number of strings is missing, and no string is described")
FINDING(FRETS_ABSENT, FAULT, "frets-absent", "the number of frets is missing")
FINDING(JOIN_ABSENT, FAULT, "join-absent", "the body-join fret is missing; the neck's curve hangs on it")
FINDING(JOIN_BEYOND_FRETS, FAULT, "join-beyond-frets", "the body-join fret %s lies beyond the last fret")
FINDING(HEEL_OUTSIDE, FAULT, "heel-outside", "the heel fret %s does not lie between the nut and the last fret")
FINDING(ENDS_CROSSED, FAULT, "relief-ends-crossed", "the relief ends must be two frets on the board, the nut side's first; fret %s is not")
FINDING(RELIEF_FRET_OUTSIDE, FAULT, "relief-fret-outside", "relief at fret %s does not lie between the relief ends")
FINDING(RELIEF_NO_LEVER, FAULT, "relief-no-lever", "the neck is straight where relief is read (heel fret too near the nut)")
FINDING(ACTION_FRET_ZERO, FAULT, "action-fret-zero", "action cannot be read at the nut; the action fret is 2 or higher")
FINDING(ACTION_FRET_BEYOND, FAULT, "action-fret-beyond", "the action fret %s lies beyond the last fret")
FINDING(HELD_NEEDS_FRETS, FAULT, "held-needs-frets", "a gap with the string held on fret 3 needs three frets")
FINDING(CONTACT_SHORT, FAULT, "contact-short", "string %s: the setback puts the saddle contact on the fretboard")
FINDING(START_BEYOND, FAULT, "start-beyond", "string %s: it would start at or beyond the fret before the action fret")
FINDING(COURSES_UNEVEN, FAULT, "courses-uneven", "the strings do not divide into %s courses")
FINDING(ROD_NONE, ADVICE, "rod-none", "this neck has no rod that turns: relief takes heat, fretting or planing; else set the relief target to what is read")
FINDING(ROD_ONE_WAY, ADVICE, "rod-one-way", "a one-way rod cannot put relief in beyond slack: string pull and time must")
FINDING(SLOT_LOW, ADVICE, "slot-low", "string %s: the slot is too low; fill it or cut a new nut")
FINDING(ZERO_FRET_LOW, ADVICE, "zero-fret-low", "string %s: the zero fret is too low; put in one with a higher crown")
FINDING(EXPOSURE_SHORT, ADVICE, "exposure-short", "too little saddle would be left: reset the neck angle first")
FINDING(BACK_BOW, ADVICE, "back-bow", "the neck is back-bowed: slacken the rod before anything else; once slack it may have no more to give")
FINDING(RELIEF_AGAIN, ADVICE, "relief-again", "the relief does not fit the pass before and what was done since: read it again")
FINDING(GAP_AGAIN, ADVICE, "nut-gap-again", "string %s: the nut gap does not fit its neighbours and the pass before: read it again")
FINDING(ACTION_AGAIN, ADVICE, "action-again", "string %s: the action does not fit its neighbours and the pass before: read it again")
FINDING(CROWN_LOW, ADVICE, "crown-low", "fret %s: levelling would leave its crown under 0.6 mm; refret rather than level")
FINDING(ROD_SILENT, CAUTION, "rod-silent", "the rod no longer answers its turns: turn it no further")
FINDING(ROD_BACKWARDS, CAUTION, "rod-backwards", "the last turn moved the relief the wrong way: check which way tightens, and the reading, before another")
FINDING(ROD_FAR, CAUTION, "rod-far", "the relief target takes more turns than this rod has shown, and than a rod usually has from slack (about two, no published source): it may be out of reach")
FINDING(TOTAL_FAR_ABOVE, CAUTION, "total-far-above", "these strings would pull over 15 per cent harder than what the neck carries now (common practice's limit): go up in steps, watch relief and bridge")
FINDING(TOTAL_UNUSUAL, CAUTION, "total-unusual", "the strings together pull over 1.3 times what this kind of instrument is strung with (common practice's limit): check gauges, notes and scale before tuning up")
FINDING(STRING_NEAR_BREAK, CAUTION, "string-near-break", "string %s is near its strength and may break on the way up: eye protection")
FINDING(WOOD_THIN, CAUTION, "wood-thin", "under 3 mm of wood under the rod's slot")
FINDING(WOOD_THIN_RECUT, CAUTION, "wood-thin-recut", "under 3 mm of wood would be left under the recut slot")
FINDING(TENON_WEAK, CAUTION, "tenon-weak", "the short grain in front of the neck bolt is weaker than the bolt's pull")
FINDING(TENON_RISK, CAUTION, "tenon-risk", "the short grain in front of the neck bolt may give way before the bolt is tight: wood and torque scatter, and the stress at the bolt is about twice the mean")
/* clang-format on */
