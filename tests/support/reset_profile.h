/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_RESET_PROFILE_H
#define SILLET_TESTS_RESET_PROFILE_H

/* A neck that needs a reset, and the lines of it done and strung up again. */
static const char reset_asking[] =
    "[profile]\nformat = 1\n[board]\nscale = 650 mm\nstrings = 2\nfrets = 19\njoin_fret = 12\n"
    "[neck]\njoin = glued\nheel_depth = 90 mm\n[bridge]\nkind = blank\n"
    "[targets]\nrelief = 0.2 mm\naction_bass = 2.4 mm\naction_treble = 2 mm\n"
    "nut_gap_bass = 0.5 mm\nnut_gap_treble = 0.5 mm\n[visit.1]\ndate = 2026-03-02\n"
    "[visit.1.pass.1]\ntime = 10:00\nrelief = 0.2 mm\nnut_gap.1 = 0.5 mm\nnut_gap.2 = 0.5 mm\n"
    "action.1 = 3.6 mm\naction.2 = 4 mm\nexposure_bass = 2.2 mm\nexposure_treble = 3.6 mm\n";
static const char reset_strung[] =
    "[visit.1.work.1]\nkind = reset\ntime = 2026-03-03T09:00\n[visit.1.pass.2]\n"
    "time = 2026-03-04T10:00\nrelief = 0.2 mm\nnut_gap.1 = 0.5 mm\nnut_gap.2 = 0.5 mm\n"
    "action.1 = 2 mm\naction.2 = 2.4 mm\nexposure_bass = 4 mm\nexposure_treble = 4 mm\n";

#endif
