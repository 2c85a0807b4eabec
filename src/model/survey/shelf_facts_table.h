/* SPDX-License-Identifier: MIT */
/*
 * What the shelf's questions ask of an instrument, declared once: the shelf's cache keeps it, and
 * lists and statistics read it. No include guard: it is included with FACT_NUMBER and FACT_TEXT
 * defined.
 *
 * FACT_NUMBER(id): a number that may be absent; lengths mm, days as in day.h
 * FACT_TEXT(id, size): a text, with its size in bytes
 */
/* clang-format off */
/* The last visit. */
FACT_NUMBER(LAST_DAY)          /* its day */
FACT_NUMBER(WORKED_DAY)        /* the last day on which anything was read or done in it */
FACT_NUMBER(HANDED_OVER)       /* 1: it was handed over, 0: it was not */
FACT_NUMBER(FOLLOWED)          /* 1: somebody keeps tickets, promises or handing over for this one */
FACT_NUMBER(PROMISED_DAY)
FACT_NUMBER(NEXT_CHECK_DAY)    /* when to look at it again */
FACT_NUMBER(MOISTURE)          /* of wood in the shop's air then, % */
/* As it is now. */
FACT_NUMBER(SADDLE_OVER_LEAST) /* the lower end's exposure over the least that will do */
FACT_NUMBER(SADDLE_LOW)        /* 1: it is nearly used up */
FACT_NUMBER(ROD_SPENT)         /* 1: the rod answers no longer, or stands as tight as rods go */
FACT_NUMBER(ROD_STANDS)        /* turns from where it was first, + tightened */
/* What is wanted, and what was last left so. */
FACT_NUMBER(WANTED_RELIEF)
FACT_NUMBER(WANTED_ACTION_BASS)
FACT_NUMBER(WANTED_ACTION_TREBLE)
FACT_NUMBER(WANTED_GAP_BASS)
FACT_NUMBER(WANTED_GAP_TREBLE)
FACT_NUMBER(LEFT_DAY)
FACT_NUMBER(LEFT_RELIEF)
FACT_NUMBER(LEFT_ACTION_BASS)
FACT_NUMBER(LEFT_ACTION_TREBLE)
FACT_NUMBER(LEFT_GAP_BASS)
FACT_NUMBER(LEFT_GAP_TREBLE)
FACT_NUMBER(LEFT_EXPOSURE_BASS)
FACT_NUMBER(LEFT_EXPOSURE_TREBLE)

/* It is found by this too: its tuning, the years of its visits, the last first:
 * "guitar-standard 2026 2024"; as much as there is room for. */
FACT_TEXT(ALSO, 96)
FACT_TEXT(CONTACT, 96)          /* how to reach the owner */
FACT_TEXT(TICKET, 24)
FACT_TEXT(TICKET_LAST, 24)     /* of all visits, the one to count on from */
FACT_TEXT(TO_DO, 64)           /* of the last visit: "rod, slots", "measure", "hand over" */
FACT_TEXT(TUNING, 64)          /* when it was last left: "E2 A2 D3 G3 B3 E4" */
FACT_TEXT(GAUGES, 96)          /* ".053 .042 .032 .024 .016 .012 in" */
/* Days on which anything was done (shelf_facts.h). */
FACT_TEXT(DAYS, 192)
/* What was expected and then read, one character a check (shelf_facts.h). */
FACT_TEXT(PROOF_ROD, 96)
FACT_TEXT(PROOF_SLOTS, 96)
FACT_TEXT(PROOF_SADDLE, 96)
/* clang-format on */
