/* SPDX-License-Identifier: MIT */
/*
 * Every figure that is computed, declared once: how it is printed, and what a person is
 * told who asks how it comes about. No include guard: it is included with FIGURE defined.
 *
 * FIGURE(id, section, per, needs, name, unit, factor, printed_u, label, formula, source)
 *
 * `needs` is SETUP for what moves_solve and reset_solve make of the set-up readings alone: they
 * clear it, and uncertainty_solve gives it its uncertainty. It is MORE for all others.
 * `name` and `unit` make the key ("saddle_change" and "mm"); an uncertainty is printed
 * between them ("saddle_change_u_mm") where `printed_u` is 1. `factor` turns the inner
 * unit (mm, N, rad) into the printed one.
 */

#define FIGURE_CHORD "heights square to the chord through the crowns of the relief ends"

/* clang-format off */
FIGURE(RELIEF, NECK_CURVE, ONE, SETUP, "relief", "mm", 1, 1, "relief",
       "kappa rho(relief fret); kappa = sum(r rho) / sum(rho^2) over the relief readings r",
       "least squares; one curvature from nut to heel fret, straight from there")
FIGURE(CURVATURE, NECK_CURVE, ONE, SETUP, "curvature", "per_m", 1000, 0, "curvature",
       "kappa = sum(r rho) / sum(rho^2), rho the gap that unit curvature gives",
       "least squares")
FIGURE(TILT, NECK_CURVE, ONE, SETUP, "tilt", "mrad", 1000, 0, "tilt of the chord",
       "phi = (w(x_a) - w(x_b)) / (x_b - x_a), w = kappa (x_h - x)^2 / 2 before the heel fret",
       "geometry: how far the chord turns against the body as the neck bends")

FIGURE(ACTION, STRING, STRING, SETUP, "action", "mm", 1, 1, "action",
       "as read at the action fret; between measured strings by string number",
       "reading")
FIGURE(NUT_GAP, STRING, STRING, SETUP, "nut_gap", "mm", 1, 0, "nut gap, open",
       "u(x_1) - z(x_1), u the straight string, z the crown",
       "reading, or converted from the gap with the string held on fret 3")
FIGURE(NUT_HEIGHT, STRING, STRING, SETUP, "nut_height", "mm", 1, 0, "slot bottom over the chord",
       "N from u(x_1) = z_1 + g and u(x_k) = z_k + h; held on 3: N = (g + z_1 - z_3 q)/(1 - q), q = x_1/x_3",
       "geometry, " FIGURE_CHORD)
FIGURE(SADDLE_HEIGHT, STRING, STRING, SETUP, "saddle_height", "mm", 1, 0, "saddle top over the chord",
       "S = N + (u_k - N) Ls / x_k, Ls = scale + setback",
       "geometry, " FIGURE_CHORD)
FIGURE(ACTION_AFTER_ROD, STRING, STRING, SETUP, "action_after_rod", "mm", 1, 0, "action after the rod",
       "N = n0 + z(0), S = Sb - w(x_b) + phi (Ls - x_b) with kappa moved to its target; u(x_k) - z_k",
       "slot fixed to the neck, saddle to the body")
FIGURE(GAP_AFTER_ROD, STRING, STRING, SETUP, "nut_gap_after_rod", "mm", 1, 0, "nut gap after the rod",
       "u(x_1) - z_1 with kappa moved to its target",
       "slot fixed to the neck, saddle to the body")
FIGURE(GAP_AT_TARGET, STRING, STRING, SETUP, "nut_gap_at_target", "mm", 1, 0, "nut gap once the action is right",
       "N + (z_k + h* - N) x_1 / x_k - z_1, neck after the rod, slot as it is",
       "geometry: a high saddle flatters a slot that is too low")
FIGURE(SLOT_CHANGE, STRING, STRING, SETUP, "slot_change", "mm", 1, 1, "slot",
       "N* - N, N* on the line through the gap wanted at fret 1 and the action wanted at fret k; 0 inside the tolerance",
       "geometry; negative: file deeper")
FIGURE(ACTION_AFTER_NUT, STRING, STRING, SETUP, "action_after_nut", "mm", 1, 0, "action after the slots",
       "u(x_k) - z_k with the slots done and the saddle untouched",
       "geometry")
FIGURE(SADDLE_CHANGE, STRING, STRING, SETUP, "saddle_change", "mm", 1, 1, "saddle",
       "S* - S, S* = N + (z_k + h* - N) Ls / x_k; 0 where the action is inside its tolerance",
       "geometry; check (common practice): twice the action change comes off the saddle")
FIGURE(PITCH, STRING, STRING, MORE, "pitch", "hz", 1, 0, "pitch",
       "f = a4 2^((m - 69)/12), m the note's semitone number",
       "equal temperament; A4 = 440 Hz, ISO 16:1975")
FIGURE(UNIT_MASS, STRING, STRING, MORE, "unit_mass", "g_per_m", 1000, 0, "unit mass",
       "weighed, from a label's tension, entered, or from gauge, core and materials; "
       "of slack nylon or fluorocarbon, over its stretch to pitch",
       "see docs/method.md")
FIGURE(TENSION, STRING, STRING, MORE, "tension", "n", 1, 0, "tension",
       "T = mu (2 Ls f)^2",
       "Mersenne's law for an ideal string")
FIGURE(STRESS_SHARE, STRING, STRING, MORE, "stress_share", "", 1, 0, "share of the core's strength",
       "T / A_core over S = 2211 MPa / d^0.145, d in mm",
       "ASTM A228; Shigley, Mechanical Engineering Design, Table 10-4")
FIGURE(SETBACK_PREDICTED, STRING, STRING, MORE, "setback_predicted", "mm", 1, 1, "setback predicted",
       "the s with cents(12) = 0 at the target geometry",
       "Anderson and Beausoleil, J. Acoust. Soc. Am. 156 (1), 683 (2024)")
FIGURE(SETBACK_BEST, STRING, STRING, MORE, "setback_best", "mm", 1, 1, "setback, best over frets 1 to 12",
       "the (s, v) with the least sum of squared cents over frets 1 to 12, target geometry",
       "Anderson and Beausoleil, J. Acoust. Soc. Am. 156 (1), 683 (2024)")
FIGURE(NUT_ADVANCE_BEST, STRING, STRING, MORE, "nut_advance_best", "mm", 1, 1, "nut advance, best over frets 1 to 12",
       "the (s, v) with the least sum of squared cents over frets 1 to 12, target geometry",
       "Anderson and Beausoleil, J. Acoust. Soc. Am. 156 (1), 683 (2024)")
FIGURE(CENTS_BEST_RMS, STRING, STRING, MORE, "cents_best_rms", "", 1, 0, "cents left at best",
       "root mean square of cents(1..12) at the best (s, v)",
       "Anderson and Beausoleil, J. Acoust. Soc. Am. 156 (1), 683 (2024)")
FIGURE(SETBACK_CHANGE, STRING, STRING, MORE, "setback_change", "mm", 1, 1, "setback to add",
       "Ls l (k - 1)/(l - k Ls), k = 2^(-c/1200), l = Ls - x_n, from the cents c read at fret n",
       "geometry; check (common practice): about .015 in a cent on a 25.5 in scale")
FIGURE(SETBACK_FIT, STRING, STRING, MORE, "setback_fit", "mm", 1, 0, "setback to add, all frets read",
       "least squares: cents + (1731.23/L)(s (1 - 2^(n/12)) - v) = 0",
       "least squares over the frets read")
FIGURE(NUT_ADVANCE_FIT, STRING, STRING, MORE, "nut_advance_fit", "mm", 1, 0, "nut advance, all frets read",
       "least squares: cents + (1731.23/L)(s (1 - 2^(n/12)) - v) = 0",
       "least squares over the frets read")
FIGURE(CENTS_LEFT_RMS, STRING, STRING, MORE, "cents_left_rms", "", 1, 0, "cents left by the fit",
       "root mean square of what the fit leaves",
       "least squares over the frets read")
FIGURE(SADDLE_TURNS, STRING, STRING, SETUP, "saddle_turns", "", 1, 0, "turns of the saddle screw",
       "saddle change / thread pitch; at posts the outer two's mean, and their difference by post to post over "
       "string to string, all over 1 - posts to saddles / posts to the rest",
       "geometry")
FIGURE(SADDLE_BOTTOM, STRING, STRING, SETUP, "saddle_bottom", "mm", 1, 0, "saddle, off the bottom",
       "the line through the outer two changes, raised until no string's change lies above it",
       "a straight cut")
FIGURE(SADDLE_TOP, STRING, STRING, SETUP, "saddle_top", "mm", 1, 0, "saddle, still off the top",
       "saddle change - what comes off the bottom",
       "a straight cut")
FIGURE(BREAK_ANGLE, STRING, STRING, MORE, "break_angle", "deg", 57.295779513082320877, 1, "break angle over the saddle",
       "atan(drop/distance) behind + (S - N)/Ls in front; read along the string, the drop has both",
       "statics; see docs/method.md")
FIGURE(DOWNFORCE, STRING, STRING, MORE, "downforce", "n", 1, 1, "force down on the saddle",
       "T (sin behind + sin in front)",
       "statics of a string without friction")
FIGURE(SADDLE_OVER, STRING, STRING, MORE, "saddle_over_outer", "mm", 1, 0, "saddle top over the outer two's line",
       "S + d less the line between the outer two; S over the chord at the targets of relief, gap and action, d the "
       "chord of the crowns -(R - sqrt(R^2 - y^2)) under the string, extended to the saddle",
       "geometry: crowns on a cone, R = R_nut + (R_end - R_nut) x / x_end")
FIGURE(SADDLE_OVER_NOW, STRING, STRING, MORE, "saddle_over_outer_now", "mm", 1, 1, "the same as it stands",
       "S + d less the line between the outer two, S by the readings",
       "geometry: crowns on a cone")

FIGURE(SADDLE_RADIUS, SADDLE, ONE, MORE, "saddle_radius", "mm", 1, 0, "radius of the saddle's top",
       "sqrt(w^2 + d^2), d = sum(h (w^2 - y^2 - h^2)) / (2 sum(h^2)) over the inner strings, h over the outer two's "
       "line, y from the middle, w half the spread",
       "least squares: the circle through the outer two tops")
FIGURE(BOARD_RADIUS, SADDLE, ONE, MORE, "board_radius", "mm", 1, 0, "the board's radius, at the saddle",
       "R_nut + (R_end - R_nut) Ls / x_end",
       "geometry: the board's cone, extended")

FIGURE(EXPOSURE_BASS_AFTER, RESET, ONE, SETUP, "exposure_bass_after", "mm", 1, 0, "bass exposure after",
       "exposure + saddle change",
       "geometry; about an eighth of an inch is wanted (common practice)")
FIGURE(EXPOSURE_TREBLE_AFTER, RESET, ONE, SETUP, "exposure_treble_after", "mm", 1, 0, "treble exposure after",
       "exposure + saddle change",
       "geometry; about an eighth of an inch is wanted (common practice)")
FIGURE(ANGLE, RESET, ONE, SETUP, "angle", "deg", 57.295779513082320877, 1, "neck angle",
       "theta = (E_new - (E + saddle change)) / (Ls - x_join), outer two strings averaged",
       "small angles: a neck angle moves the saddle line by theta times the distance")
FIGURE(HEEL_CUT, RESET, ONE, SETUP, "heel_cut", "mm", 1, 0, "heel taper at the cap",
       "theta x heel depth",
       "small angles")
FIGURE(POCKET_SHIM, RESET, ONE, SETUP, "pocket_shim", "mm", 1, 0, "pocket shim",
       "theta x pocket length",
       "small angles")
FIGURE(TONGUE_WEDGE, RESET, ONE, SETUP, "tongue_wedge", "mm", 1, 0, "wedge under the tongue",
       "theta x (board end - x_join)",
       "small angles")

FIGURE(TENSION_TOTAL, LOAD, ONE, MORE, "tension_total", "n", 1, 0, "total tension",
       "sum of the strings' tensions",
       "Mersenne's law for an ideal string")
FIGURE(DOWNFORCE_TOTAL, LOAD, ONE, MORE, "downforce_total", "n", 1, 1, "force down on the bridge",
       "T, all strings (sin behind + sin in front), both the mean of the outer strings",
       "statics of a string without friction")

FIGURE(EI_FIRST, NECK_BEAM, ONE, MORE, "ei_first", "nm2", 1e-6, 1, "stiffness at fret 1",
       "transformed section: EI = sum E (I + A (y - y0)^2)", "beam theory, see docs/method.md")
FIGURE(EI_HEEL, NECK_BEAM, ONE, MORE, "ei_heel", "nm2", 1e-6, 1, "stiffness at the heel",
       "transformed section: EI = sum E (I + A (y - y0)^2)", "beam theory, see docs/method.md")
FIGURE(RELIEF_PREDICTED, NECK_BEAM, ONE, MORE, "relief_predicted", "mm", 1, 1, "relief from the strings' pull",
       "w(x) = integral of (M/EI)(xi - x), M = T e; gap at the relief fret, rod slack",
       "beam theory, see docs/method.md")
FIGURE(EI_FIRST_FILLED, NECK_BEAM, ONE, MORE, "ei_first_filled", "nm2", 1e-6, 1, "stiffness at fret 1, slot filled",
       "the slot's rectangle put back in spline wood", "beam theory, see docs/method.md")
FIGURE(EI_HEEL_FILLED, NECK_BEAM, ONE, MORE, "ei_heel_filled", "nm2", 1e-6, 1, "stiffness at the heel, slot filled",
       "the slot's rectangle put back in spline wood", "beam theory, see docs/method.md")
FIGURE(RELIEF_FILLED, NECK_BEAM, ONE, MORE, "relief_predicted_filled", "mm", 1, 1, "relief from the pull, slot filled",
       "as the relief from the strings' pull, slot filled", "beam theory, see docs/method.md")
FIGURE(EI_FIRST_RECUT, NECK_BEAM, ONE, MORE, "ei_first_recut", "nm2", 1e-6, 1, "stiffness at fret 1, slot recut",
       "the filled section less the new slot", "beam theory, see docs/method.md")
FIGURE(EI_HEEL_RECUT, NECK_BEAM, ONE, MORE, "ei_heel_recut", "nm2", 1e-6, 1, "stiffness at the heel, slot recut",
       "the filled section less the new slot", "beam theory, see docs/method.md")
FIGURE(RELIEF_RECUT, NECK_BEAM, ONE, MORE, "relief_predicted_recut", "mm", 1, 1, "relief from the pull, slot recut",
       "as the relief from the strings' pull, slot recut", "beam theory, see docs/method.md")
FIGURE(ROD_HOLDS, NECK_BEAM, ONE, MORE, "rod_holds", "mm", 1, 1, "held by the rod",
       "relief from the strings' pull with the rod slack - relief read",
       "the neck's own bow, were it slack and unstrung, is in it")
FIGURE(WOOD_LEFT, NECK_BEAM, ONE, MORE, "wood_left", "mm", 1, 0, "wood left under the slot",
       "least of shaft depth - slot depth from fret 1 to the heel", "geometry")
FIGURE(WOOD_LEFT_RECUT, NECK_BEAM, ONE, MORE, "wood_left_recut", "mm", 1, 0, "wood left under the recut slot",
       "least of shaft depth - recut depth from fret 1 to the heel", "geometry")
FIGURE(STOP_DEPTH, NECK_BEAM, ONE, MORE, "stop_depth", "mm", 1, 0, "router stop",
       "rod height + cap + tape layers x tape thickness", "the tape lifts the jig off the neck")
FIGURE(TENON_SAFETY, NECK_BEAM, ONE, MORE, "tenon_safety", "", 1, 0, "tenon, times its load",
       "2 edge thickness shear / (torque / (K diameter)), K = 0.2",
       "shear along the grain, Wood Handbook; bolt preload, Shigley")

FIGURE(EMC, CLIMATE, ONE, MORE, "emc", "pct", 1, 1, "equilibrium moisture content",
       "Wood Handbook eq. (4-5) from temperature and humidity",
       "Forest Products Laboratory, Wood Handbook, FPL-GTR-282, eq. (4-5)")
/* clang-format on */

#undef FIGURE_CHORD
