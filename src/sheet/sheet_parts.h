/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_PARTS_H
#define SILLET_SHEET_SHEET_PARTS_H

#include "model/derive/derive.h"
#include "model/reading/work_line.h"
#include "sheet/sheet_make.h"

/* Private to sheet: the parts of a sheet. Each adds its blocks, or none if nothing is known. */

struct sheet_maker {
    struct record then; /* the record as of the visit */
    const struct record *record;
    const struct sheet_ask *ask;
    struct sheet *sheet;
    int visit;
    int first, last;      /* passes of the visit with readings; 0 for none */
    struct derived found; /* of the first pass */
    struct derived left;  /* of the last pass, which may be the same one */
    bool goes_back;     /* the sheet that goes back with it: it says when, not what was promised */
    bool says_off;      /* a state as left is not good */
    unsigned says_good; /* MOVE_BIT of the moves whose readings as left are said to be good */
    bool says_now;      /* a state changes with what is still to be done */
};

/* What the parts of a visit's document are made from; the caller frees it. Fails as sheet_make. */
enum status sheet_maker_new(const struct record *record, const struct sheet_ask *ask,
                            struct sheet *sheet, struct sheet_maker **ret_maker);

/* Ends it, and gives what was put into its sheet; that is released if a block could not be added.
 */
enum status sheet_maker_end(struct sheet_maker *maker, struct sheet *ret_sheet);

/* The moves after which what was read of relief, gaps and heights holds no longer. A levelled crown
 * moves no more than the readings over itself, by about a step of the gauge. */
#define SHEET_HEIGHT_MOVES                                                                         \
    (MOVE_BIT(MOVE_RESET) | MOVE_BIT(MOVE_ROD) | MOVE_BIT(MOVE_SLOTS) | MOVE_BIT(MOVE_SADDLE))

/* Whether the visit has a first and a different last pass. */
bool sheet_has_both(const struct sheet_maker *maker);

/* Whether every move is known, and none is due beyond its own uncertainty. */
bool sheet_is_on_target(const struct sheet_maker *maker);

/* What it is called, whose instrument it is, and why it came in. */
void sheet_make_head(struct sheet_maker *maker, const char *what);

/* What the owner keeps: the ticket's number, and when it is promised; nothing without a ticket. */
void sheet_make_claim(struct sheet_maker *maker);

void sheet_make_readings(struct sheet_maker *maker);
void sheet_make_done(struct sheet_maker *maker);
void sheet_make_notes(struct sheet_maker *maker);
void sheet_make_due(struct sheet_maker *maker);
void sheet_make_strings(struct sheet_maker *maker);
void sheet_make_intonation(struct sheet_maker *maker);
void sheet_make_headroom(struct sheet_maker *maker);
void sheet_make_climate(struct sheet_maker *maker);
void sheet_make_watch(struct sheet_maker *maker);
void sheet_make_cautions(struct sheet_maker *maker);

/* Adds what was heard to buzz in the first pass, and in the last one that was heard. */
void sheet_add_heard(struct sheet_maker *maker);

/* "Tuned to E2 A2 ...", ".053 to .012 in (1.35 to 0.30 mm)", that with "Strings" before it, "Next
 * check: about July 2026"; false, nothing added, where it is not known. */
bool sheet_say_tuning(const struct sheet_maker *maker, struct strbuf *out);
/* "Tuned to standard: E2 A2 ...", without the pitch where that is the usual one. */
bool sheet_say_tuning_short(const struct sheet_maker *maker, struct strbuf *out);
bool sheet_say_gauge_range(const struct sheet_maker *maker, struct strbuf *out);
bool sheet_say_gauges(const struct sheet_maker *maker, struct strbuf *out);
bool sheet_say_check(const struct sheet_maker *maker, struct strbuf *out);

/* "truss rod": a move's name as an owner knows it. */
const char *sheet_move_name(const struct outfit *outfit, enum move_kind kind);
/* What a move that is due would do, in words for the owner. */
void sheet_say_due(const struct sheet_maker *maker, enum move_kind kind, struct strbuf *out);

/* Adds the model's findings of one weight about the last pass that an owner should know, as items.
 */
void sheet_add_findings(struct sheet_maker *maker, enum finding_weight weight);

/* Adds what lets the neck move for some days more after this visit, and when to look again; nothing
 * where nothing does. */
void sheet_add_settling(struct sheet_maker *maker);

/* Add the drawings and their data to the sheet. */
void sheet_make_side_view(struct sheet_maker *maker);
void sheet_make_cents_curve(struct sheet_maker *maker);

/* A text of the visit or of one of its passes; NULL if it is absent or not understood. */
const char *sheet_text_of(const struct sheet_maker *maker, struct reading_key key);

/* The same of one of the visit's work lines; "" in place of NULL. */
const char *sheet_text_of_line(const struct sheet_maker *maker, enum work_column column, int line);

#endif
