/* SPDX-License-Identifier: MIT */
#include "model/survey/shelf_facts.h"

#include <math.h>
#include <string.h>

#include "model/reading/journal.h"
#include "model/reading/moment.h"
#include "model/reading/note_name.h"
#include "model/reading/ticket.h"
#include "model/reading/work_line.h"
#include "model/survey/as_left.h"
#include "model/survey/next_check.h"
#include "model/survey/proof.h"

static void put(struct shelf_facts *facts, enum fact_number id, double value)
{
    facts->number[id] = maybe_given(value);
}

/* --- the last visit --- */

static void take_later(const struct record *record, struct reading_key time, struct maybe *last)
{
    const struct maybe moment = moment_of(record, &time);

    if (moment.given && !(maybe_or(*last, -1) >= floor(moment.value)))
        *last = maybe_given(floor(moment.value));
}

/* A visit that is never handed over stays the last one, and is worked in months later. Only times
 * that bring their own day say another than the visit's. */
static struct maybe worked_day(const struct record *record, int visit)
{
    struct maybe last = moment_of_day(record, FIELD_VISIT_DATE, visit);

    for (int pass = 1; pass <= record_last_pass(record, visit); pass++)
        take_later(record, reading_key_pass(FIELD_PASS_TIME, visit, pass), &last);
    for (int line = 1; line <= record_last_work(record, visit); line++)
        take_later(record, work_key(WORK_TIME, visit, line), &last);
    return last;
}

/* The moves that are open; else what is missing before it can go back. */
static void add_to_do(const struct move_set *moves, struct strbuf *out)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (move_is_open(&moves->move[kind])) {
            strbuf_add(out, out->length > 0 ? ", " : "");
            strbuf_add(out, work_mark_name((enum move_kind)kind));
        }
    if (out->length == 0)
        strbuf_add(out, move_set_verdict(moves) == MOVES_READY ? "hand over" : "measure");
}

static void find_ticket(const struct record *record, struct shelf_facts *facts)
{
    const struct ticket last = ticket_last(record);
    char memory[TICKET_SIZE];
    struct strbuf text = STRBUF(memory);

    ticket_add(&last, &text);
    shelf_facts_put_text(facts, FACT_TICKET_LAST, memory);
}

static void add_years(const struct record *record, struct strbuf *out)
{
    enum { YEAR_LENGTH = 4 };

    for (int visit = record_last_visit(record); visit > 0 && !out->truncated; visit--) {
        const struct reading_key key = reading_key_visit(FIELD_VISIT_DATE, visit);
        const struct reading *date = record_get(record, &key);
        char memory[YEAR_LENGTH + 1];
        struct strbuf year = STRBUF(memory);

        if (!date || date->value.state == READING_BAD)
            continue;
        strbuf_add_bytes(&year, date->text, YEAR_LENGTH);
        if (!strstr(out->text, memory))
            strbuf_addf(out, " %s", memory);
    }
}

static void find_also(const struct record *record, struct shelf_facts *facts)
{
    const struct tuning *tuning = note_name_tuning(record);
    char memory[96];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, tuning ? tuning->name : "");
    add_years(record, &text);
    shelf_facts_put_text(facts, FACT_ALSO, memory);
}

void shelf_facts_glance(const struct record *record, struct shelf_facts *ret_facts)
{
    const int visit = record_last_visit(record);
    const struct reading_key ticket = reading_key_visit(FIELD_VISIT_TICKET, visit);

    *ret_facts = *shelf_facts_blank();
    find_also(record, ret_facts);
    if (visit == 0)
        return;
    ret_facts->number[FACT_LAST_DAY] = moment_of_day(record, FIELD_VISIT_DATE, visit);
    ret_facts->number[FACT_WORKED_DAY] = worked_day(record, visit);
    ret_facts->number[FACT_PROMISED_DAY] = moment_of_day(record, FIELD_VISIT_PROMISED, visit);
    put(ret_facts, FACT_HANDED_OVER, as_left_is_handed_over(record, visit));
    put(ret_facts, FACT_FOLLOWED, as_left_is_followed(record));
    if (record_text(record, &ticket))
        shelf_facts_put_text(ret_facts, FACT_TICKET, record_text(record, &ticket));
    find_ticket(record, ret_facts);
}

/* What of the last visit has to be worked out. */
static void find_visit(const struct record *record, const struct derived *now,
                       struct shelf_facts *facts)
{
    const int visit = record_last_visit(record);
    struct next_check check;
    char memory[64];
    struct strbuf to_do = STRBUF(memory);

    if (visit == 0)
        return;
    next_check_find(record, visit, &check);
    facts->number[FACT_MOISTURE] = check.shop_pct;
    if (check.known)
        facts->number[FACT_NEXT_CHECK_DAY] = check.day_number;
    add_to_do(&now->moves, &to_do);
    shelf_facts_put_text(facts, FACT_TO_DO, memory);
}

/* --- saddle and rod --- */

/* A saddle with less than this over the least cannot be lowered once more: 1/64 in less action at
 * fret 12 takes 1/32 in off it. */
#define NEARLY_USED_UP_MM (25.4 / 32)

static void find_saddle(const struct derived *now, struct shelf_facts *facts)
{
    const struct setup *setup = &now->setup;
    const struct move *reset = &now->moves.move[MOVE_RESET];
    const struct maybe bass = setup->exposure_bass_mm, treble = setup->exposure_treble_mm;

    if (!bass.given && !treble.given)
        return;
    const double over_mm =
        fmin(maybe_or(bass, treble.value), maybe_or(treble, bass.value)) - setup->exposure_min_mm;
    put(facts, FACT_SADDLE_OVER_LEAST, over_mm);
    put(facts, FACT_SADDLE_LOW,
        reset->state == MOVE_DUE || reset->little || over_mm < NEARLY_USED_UP_MM);
}

static void find_rod(const struct record *record, struct past *past, struct shelf_facts *facts)
{
    const struct survey_rod *rod = past_rod(past, place_current(record));

    if (!rod->known && rod->stands == 0)
        return;
    put(facts, FACT_ROD_STANDS, rod->stands);
    put(facts, FACT_ROD_SPENT, survey_rod_is_silent(rod) || survey_rod_is_spent(rod));
}

/* --- days on which anything was done --- */

enum { DAYS_MAX = 256 };

struct days {
    int at[DAYS_MAX]; /* the last first */
    int count;
};

/* Of more than there is room for, the oldest go. */
static void take_day(void *taker, const struct journal_entry *entry)
{
    struct days *days = taker;
    const int day = (int)entry->moment;
    int at = days->count;

    while (at > 0 && days->at[at - 1] < day)
        at--;
    if ((at > 0 && days->at[at - 1] == day) || at == DAYS_MAX)
        return;
    days->count += days->count < DAYS_MAX;
    for (int i = days->count - 1; i > at; i--)
        days->at[i] = days->at[i - 1];
    days->at[at] = day;
}

static void find_days(const struct record *record, struct shelf_facts *facts)
{
    struct days days = {.count = 0};

    journal_walk(record, 0, JOURNAL_END, take_day, &days);
    shelf_facts_put_days(facts, days.at, days.count);
}

/* --- how right we were --- */

struct proofs {
    char memory[MOVE_COUNT_][96];
    struct strbuf out[MOVE_COUNT_];
};

static void take_check(void *taker, const struct proof_check *check)
{
    struct proofs *proofs = taker;
    /* What comes from inches does not subtract to the last digit. */
    const double level = fmin(ceil(check->share / PROOF_STEP - 1e-9), PROOF_LEVELS - 1);

    strbuf_add_char(&proofs->out[check->move], (char)(PROOF_FIRST + (int)level));
}

static void find_proof(const struct record *record, struct shelf_facts *facts)
{
    struct proofs proofs;

    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        proofs.out[kind] = STRBUF(proofs.memory[kind]);
    proof_walk(record, take_check, &proofs);
    shelf_facts_put_text(facts, FACT_PROOF_ROD, proofs.memory[MOVE_ROD]);
    shelf_facts_put_text(facts, FACT_PROOF_SLOTS, proofs.memory[MOVE_SLOTS]);
    shelf_facts_put_text(facts, FACT_PROOF_SADDLE, proofs.memory[MOVE_SADDLE]);
}

static void round_numbers(struct shelf_facts *facts)
{
    for (int i = 0; i < FACT_NUMBERS_; i++)
        if (facts->number[i].given)
            facts->number[i].value = round(facts->number[i].value * FACT_PARTS) / FACT_PARTS;
}

void shelf_facts_make(const struct record *record, const struct derived *now, struct past *past,
                      struct shelf_facts *ret_facts)
{
    const struct reading_key contact = reading_key_one(FIELD_CONTACT);

    shelf_facts_glance(record, ret_facts);
    if (record_text(record, &contact))
        shelf_facts_put_text(ret_facts, FACT_CONTACT, record_text(record, &contact));
    find_visit(record, now, ret_facts);
    find_saddle(now, ret_facts);
    find_rod(record, past, ret_facts);
    as_left_make(record, as_left_last(record), ret_facts);
    find_days(record, ret_facts);
    find_proof(record, ret_facts);
    round_numbers(ret_facts);
}
