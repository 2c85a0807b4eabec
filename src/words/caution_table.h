/* SPDX-License-Identifier: MIT */
/*
 * What can hurt someone, or an instrument, in a shop. No include guard: it is included with CAUTION
 * defined. CAUTION(words, text, owner_words, owner): `text` goes with work whose name has a word
 * that begins with one of `words`, separated by |. `owner` is for the owner who gets the instrument
 * back after work, or with a wood, that matches `owner_words`. Source: common practice.
 */
/* clang-format off */
CAUTION("string|tune|tuning|rod", "strings under tension: eye protection, slacken first",
        "string|restring|restrung|tune|tuning|retune", "New or slackened strings settle: tune again in the first days, eyes away from them.")
CAUTION("rod|truss", "rod: a quarter turn at most, then measure; stop when it binds",
        "rod|truss", "Leave the truss rod as it is set: a wrong turn can break a neck.")
CAUTION("reset|heat|steam|iron|press|bend|neck", "heat and steam: burns; they lift finish and glue",
        "", "")
CAUTION("glue|glu|cyano|superglue|solvent|acetone|fill|lacquer|finish|thinner|shellac", "cyanoacrylate and solvents: ventilation, no flame",
        "glue|glu|lacquer|finish|refinish|shellac|varnish", "Glue and finish take days to harden: until then no heat, straps or rubber stands.")
CAUTION("slot|saddle|nut|bone|shell|file|filing|sand|level|crown|dress|fret|refret|plane|wood|ebony|rosewood", "wood and bone dust: respirator; ebony and rosewoods sensitise",
        "", "")
CAUTION("fret|level|crown", "fret work: eye protection; metal dust and cut ends fly",
        "", "")
CAUTION("reset|rout|chisel|plane|saw|drill|knife|tenon|slotting", "router and chisel: clamp the work, hands behind the edge",
        "", "")
CAUTION("nut|saddle|bone|ivory|shell|pearl|tortoise|rosewood|ebony|inlay|board|bridge", "protected species across borders: local law decides",
        "bone|ivory|shell|pearl|tortoise|rosewood|ebony|inlay", "Some woods, shell and ivory are protected: ask about papers before the instrument crosses a border.")
CAUTION("reset|finish|lacquer|varnish|shellac|inlay|refinish|touch", "old finishes and inlay: know them before heat, solvent or sanding",
        "", "")
/* clang-format on */
