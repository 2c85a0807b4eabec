/* SPDX-License-Identifier: MIT */
/*
 * The instruments of the made-up shop. Owners, makers, names and serial numbers are invented. No
 * include guard: it is included with DEMO defined.
 *
 * DEMO(preset, name, maker, serial, owner, set, trait)
 *
 * `set` goes on at one of its visits; "" keeps the same strings. A trait is what the shop should
 * find out: PLAIN, SADDLE_LOW, ROD_SPENT, or IN_HOUSE for one that has not been handed over.
 */
/* clang-format off */
DEMO("steel-string-12", "Parlour No. 5", "Quayside Fret Works", "QFW-P-005", "Marlo Quillfeather", "steel-extra-light", PLAIN)
DEMO("electric-bolt-on", "Breakwater", "Lantern Row", "LR 2204", "Tansy Oarlock", "electric-regular", IN_HOUSE)
DEMO("bass", "Long Pier Bass No. 2", "Quayside Fret Works", "QFW-B-002", "Bram Saltmarsh", "bass-long-light", PLAIN)
DEMO("mandolin", "Sandpiper", "Osier and Wick", "OW 81", "Nell Driftwood", "mandolin-medium", PLAIN)
DEMO("classical", "Dove", "Abel Lanthorn", "1974/12", "Ivy Lockgate", "classical-high", PLAIN)
DEMO("electric-seven-two-scales", "Fathom Seven", "Mudlark Electric", "ME-7-031", "Corin Bellrope", "", PLAIN)
DEMO("steel-string-14", "Big Ferry", "Quayside Fret Works", "QFW-F-011", "Wren Tidewater", "steel-medium", SADDLE_LOW)
DEMO("steel-string-14", "Ferry No. 12", "Quayside Fret Works", "QFW-F-012", "Odo Fennimore", "steel-extra-light", IN_HOUSE)
DEMO("ukulele", "Little Gull", "Osier and Wick", "OW 203", "Juno Sandpiper", "", PLAIN)
DEMO("archtop", "Night Boat", "Saltglass", "SG-0417", "Silas Mooring", "", PLAIN)
DEMO("electric-set-neck", "Copper Lamp", "Lantern Row", "LR 1187", "Edda Halyard", "electric-medium", ROD_SPENT)
DEMO("bass-five", "Undertow", "Mudlark Electric", "ME-B5-008", "Linus Gannet", "", PLAIN)
DEMO("twelve-string-14", "Regatta", "Quayside Fret Works", "QFW-T-003", "Maud Capstan", "", PLAIN)
DEMO("resonator", "Tin Kettle", "Saltglass", "SG-0052", "Theo Fairlead", "", PLAIN)
DEMO("tenor-guitar", "Fourpenny", "Osier and Wick", "OW 17", "Greta Samphire", "", PLAIN)
DEMO("electric-bolt-on", "Harbour Bolt-on No. 4", "Quayside Fret Works", "QFW-E-004", "Jory Penwharf", "electric-light", PLAIN)
DEMO("classical", "Evening Tide", "Abel Lanthorn", "1988/03", "Una Shingle", "", IN_HOUSE)
DEMO("steel-string-14", "Slipway", "Saltglass", "SG-0633", "Felix Groyne", "steel-medium", PLAIN)
DEMO("bass", "Ballast", "Lantern Row", "LR B 90", "Ada Bulwark", "bass-long-medium", PLAIN)
DEMO("electric-seven", "Seventh Wave", "Mudlark Electric", "ME-7-044", "Corin Bellrope", "", PLAIN)
DEMO("mandolin", "Kittiwake", "Quayside Fret Works", "QFW-M-006", "Pia Kittiwake", "", IN_HOUSE)
DEMO("steel-string-12", "Parlour No. 8", "Quayside Fret Works", "QFW-P-008", "Hester Ropewalk", "", SADDLE_LOW)
DEMO("electric-baritone", "Fog Horn", "Mudlark Electric", "ME-BT-002", "Linus Gannet", "electric-baritone", PLAIN)
DEMO("archtop", "Sunday Steamer", "Saltglass", "SG-0388", "Rufus Wherry", "", PLAIN)
DEMO("electric-set-neck", "Brass Lamp", "Lantern Row", "LR 1190", "Tansy Oarlock", "", PLAIN)
DEMO("bass-short", "Dinghy", "Quayside Fret Works", "QFW-B-009", "Nell Driftwood", "", PLAIN)
DEMO("classical", "Lantern Song", "Osier and Wick", "OW 140", "Ivy Lockgate", "classical-normal", PLAIN)
DEMO("steel-string-14", "Groyne Street", "Quayside Fret Works", "QFW-F-019", "Felix Groyne", "", PLAIN)
DEMO("electric-bolt-on", "Skiff", "Mudlark Electric", "ME-E-117", "Wren Tidewater", "electric-medium", IN_HOUSE)
DEMO("ukulele", "Barnacle", "Quayside Fret Works", "QFW-U-014", "Maud Capstan", "", PLAIN)
DEMO("steel-string-14", "Old Lock", "Abel Lanthorn", "1969/07", "Silas Mooring", "steel-extra-light", ROD_SPENT)
DEMO("bass", "Keelson", "Mudlark Electric", "ME-B4-021", "Edda Halyard", "", PLAIN)
DEMO("resonator", "Biscuit Barge", "Saltglass", "SG-0071", "Odo Fennimore", "", PLAIN)
DEMO("steel-string-12", "Parlour No. 9", "Quayside Fret Works", "QFW-P-009", "Greta Samphire", "steel-light", IN_HOUSE)
DEMO("electric-bolt-on", "Pilot Cutter", "Lantern Row", "LR 2260", "Jory Penwharf", "", PLAIN)
DEMO("classical", "Ropewalk", "Abel Lanthorn", "1991/22", "Hester Ropewalk", "", SADDLE_LOW)
DEMO("steel-string-14", "Ferry No. 20", "Quayside Fret Works", "QFW-F-020", "Theo Fairlead", "steel-light", PLAIN)
DEMO("electric-set-neck", "Iron Lamp", "Lantern Row", "LR 1203", "Ada Bulwark", "electric-regular", PLAIN)
DEMO("twelve-string-14", "Twelve Bells", "Saltglass", "SG-0512", "Una Shingle", "", IN_HOUSE)
DEMO("bass-five", "Deep Five", "Quayside Fret Works", "QFW-B-011", "Bram Saltmarsh", "", PLAIN)
/* clang-format on */
