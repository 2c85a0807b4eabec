/* SPDX-License-Identifier: MIT */
/*
 * What can hurt someone, or an instrument, in a shop. No include guard: it is included with
 * CAUTION defined. CAUTION(words, text): `words` are how work begins to be called that it
 * stands by, with | between them. Source: common practice.
 */
/* clang-format off */
CAUTION("string|tune|tuning|rod", "strings under tension: eye protection, slacken first")
CAUTION("rod|truss", "rod: a quarter turn at most, then measure; stop when it binds")
CAUTION("reset|heat|steam|iron|press|bend|neck", "heat and steam: burns; they lift finish and glue")
CAUTION("glue|glu|cyano|superglue|solvent|acetone|fill|lacquer|finish|thinner|shellac", "cyanoacrylate and solvents: ventilation, no flame")
CAUTION("slot|saddle|nut|bone|shell|file|filing|sand|level|crown|dress|fret|refret|plane|wood|ebony|rosewood", "wood and bone dust: respirator; ebony and rosewoods sensitise")
CAUTION("reset|rout|chisel|plane|saw|drill|knife|tenon|slotting", "router and chisel: clamp the work, hands behind the edge")
CAUTION("nut|saddle|bone|ivory|shell|pearl|tortoise|rosewood|ebony|inlay|board|bridge", "protected species across borders: local law decides")
CAUTION("reset|finish|lacquer|varnish|shellac|inlay|refinish|touch", "old finishes and inlay: know them before heat, solvent or sanding")
/* clang-format on */
