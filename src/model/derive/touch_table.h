/* SPDX-License-Identifier: MIT */
/*
 * TOUCH(kind as field_table.h spells it, treble string, bass string): the medium touch, mm. The
 * least headroom that a usual set-up of the kind has over its whole board (the targets of
 * share/presets, which are common practice), rounded down to 0.05 mm: such a set-up is just clean.
 * `other`, and what has no kind, is taken for a steel-string.
 */
TOUCH("steel-string", 0.90, 1.30)
TOUCH("classical", 1.30, 1.70)
TOUCH("electric", 0.50, 0.80)
TOUCH("bass", 0.85, 1.20)
TOUCH("archtop", 0.90, 1.30)
TOUCH("resonator", 1.15, 1.55)
TOUCH("mandolin", 0.70, 0.90)
TOUCH("banjo", 0.50, 0.75)
TOUCH("ukulele", 1.10, 1.25)
TOUCH("other", 0.90, 1.30)
