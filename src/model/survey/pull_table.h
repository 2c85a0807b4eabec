/* SPDX-License-Identifier: MIT */
/*
 * PULL(kind as field_table.h spells it, relief in mm for 1 N more pull). Usual necks of the kind,
 * as the beam of neck_beam.h bends them and as a set one gauge heavier is seen to move them (0.05
 * to 0.1 mm on a steel-string or electric guitar): common practice, no published source.
 */
PULL("steel-string", 0.0007)
PULL("classical", 0.0005)
PULL("electric", 0.0010)
PULL("bass", 0.0012)
PULL("archtop", 0.0007)
PULL("resonator", 0.0006)
PULL("mandolin", 0.0002)
PULL("banjo", 0.0008)
PULL("ukulele", 0.0003)
PULL("other", 0.0007)
