/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_COURSE_RECORD_H
#define SILLET_TESTS_COURSE_RECORD_H

/* A twelve-string read by its six courses (gauges common practice, cores from memory), all a little
 * off. The setbacks are those of the courses: of each, the string that is named first. */
static const char course_record[] =
    "board scale = 25.4 in\nboard strings = 12\nboard courses = 6\nboard frets = 20\n"
    "board join_fret = 14\nnut width = 48 mm\nnut spread = equal-gaps\nnut course_gap = 1.5 mm\n"
    "bridge kind = blank\nbridge spread = 56 mm\nbridge saddle_width = 3 mm\n"
    "neck rod = two-way\n"
    "string.1 note = E4\nstring.1 gauge = .010 in\nstring.1 build = plain\n"
    "string.2 note = E4\nstring.2 gauge = .010 in\nstring.2 build = plain\n"
    "string.3 note = B3\nstring.3 gauge = .014 in\nstring.3 build = plain\n"
    "string.4 note = B3\nstring.4 gauge = .014 in\nstring.4 build = plain\n"
    "string.5 note = G3\nstring.5 gauge = .023 in\nstring.5 core = .012 in\n"
    "string.5 build = round-wound\nstring.5 wrap_material = phosphor-bronze\n"
    "string.6 note = G4\nstring.6 gauge = .008 in\nstring.6 build = plain\n"
    "string.7 note = D3\nstring.7 gauge = .030 in\nstring.7 core = .013 in\n"
    "string.7 build = round-wound\nstring.7 wrap_material = phosphor-bronze\n"
    "string.8 note = D4\nstring.8 gauge = .012 in\nstring.8 build = plain\n"
    "string.9 note = A2\nstring.9 gauge = .039 in\nstring.9 core = .015 in\n"
    "string.9 build = round-wound\nstring.9 wrap_material = phosphor-bronze\n"
    "string.10 note = A3\nstring.10 gauge = .018 in\nstring.10 build = plain\n"
    "string.11 note = E2\nstring.11 gauge = .047 in\nstring.11 core = .017 in\n"
    "string.11 build = round-wound\nstring.11 wrap_material = phosphor-bronze\n"
    "string.12 note = E3\nstring.12 gauge = .027 in\nstring.12 core = .013 in\n"
    "string.12 build = round-wound\nstring.12 wrap_material = phosphor-bronze\n"
    "string.1 setback = 1.5 mm\nstring.3 setback = 2.0 mm\nstring.5 setback = 2.5 mm\n"
    "string.7 setback = 3.0 mm\nstring.9 setback = 3.5 mm\nstring.11 setback = 4.0 mm\n"
    "targets relief = .008 in\ntargets action_bass = 6/64 in\ntargets action_treble = 4/64 in\n"
    "targets nut_gap_bass = .018 in\ntargets nut_gap_treble = .012 in\n"
    "visit.1 date = 2026-03-02\nvisit.1.pass.1 relief = .011 in\n"
    "visit.1.pass.1 nut_gap.1 = .015 in\nvisit.1.pass.1 nut_gap.3 = .016 in\n"
    "visit.1.pass.1 nut_gap.5 = .018 in\nvisit.1.pass.1 nut_gap.7 = .019 in\n"
    "visit.1.pass.1 nut_gap.9 = .021 in\nvisit.1.pass.1 nut_gap.11 = .022 in\n"
    "visit.1.pass.1 action.1 = 5/64 in\nvisit.1.pass.1 action.3 = 5.5/64 in\n"
    "visit.1.pass.1 action.5 = 6/64 in\nvisit.1.pass.1 action.7 = 6.5/64 in\n"
    "visit.1.pass.1 action.9 = 7/64 in\nvisit.1.pass.1 action.11 = 7.5/64 in\n"
    "visit.1.pass.1 exposure_bass = 4 mm\nvisit.1.pass.1 exposure_treble = 3.5 mm\n";

/* What the courses' setbacks say of their second strings, entered once more. */
static const char course_record_again[] =
    "string.2 setback = 1.5 mm\nstring.4 setback = 2.0 mm\nstring.6 setback = 2.5 mm\n"
    "string.8 setback = 3.0 mm\nstring.10 setback = 3.5 mm\nstring.12 setback = 4.0 mm\n";

#endif
