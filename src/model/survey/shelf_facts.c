/* SPDX-License-Identifier: MIT */
#include "model/survey/shelf_facts.h"

#include <math.h>
#include <string.h>

#include "model/reading/moment.h"
#include "model/reading/note_name.h"
#include "model/survey/next_check.h"
#include "model/survey/proof.h"

static const size_t sizes[FACT_TEXTS_] = {
#define FACT_NUMBER(id)
#define FACT_TEXT(id, size) [FACT_##id] = size,
#include "model/survey/shelf_facts_table.h"
#undef FACT_NUMBER
#undef FACT_TEXT
};

static size_t place_of_text(enum fact_text id)
{
    size_t at = 0;

    for (int i = 0; i < (int)id; i++)
        at += sizes[i];
    return at;
}

const char *shelf_facts_text(const struct shelf_facts *facts, enum fact_text id)
{
    return facts->texts + place_of_text(id);
}

void shelf_facts_put_text(struct shelf_facts *facts, enum fact_text id, const char *text)
{
    struct strbuf out = strbuf_over(facts->texts + place_of_text(id), sizes[id]);

    strbuf_add(&out, text);
}

const struct shelf_facts *shelf_facts_blank(void)
{
    static const struct shelf_facts blank = {.texts = ""};

    return &blank;
}

static void put(struct shelf_facts *facts, enum fact_number id, double value)
{
    facts->number[id] = maybe_given(value);
}

/* --- the last visit --- */

static struct maybe day_of(const struct record *record, enum field_id field, int visit)
{
    const struct reading_key key = reading_key_visit(field, visit);

    return moment_find(record_text(record, &key), NULL);
}

static bool is_followed(const struct record *record)
{
    static const enum field_id kept[] = {FIELD_VISIT_TICKET, FIELD_VISIT_PROMISED,
                                         FIELD_VISIT_HANDED_OVER};
    int visit = 0;

    while (record_next_visit(record, &visit))
        for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++) {
            const struct reading_key key = reading_key_visit(kept[i], visit);

            if (record_find(record, &key))
                return true;
        }
    return false;
}

static bool is_handed_over(const struct record *record, int visit)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_HANDED_OVER, visit);

    return record_find(record, &key) != NULL;
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

static void find_visit(const struct record *record, const struct derived *now,
                       struct shelf_facts *facts)
{
    const int visit = record_last_visit(record);
    const struct reading_key ticket = reading_key_visit(FIELD_VISIT_TICKET, visit);
    struct next_check check;
    char memory[64];
    struct strbuf to_do = STRBUF(memory);

    if (visit == 0)
        return;
    next_check_find(record, visit, &check);
    facts->number[FACT_LAST_DAY] = day_of(record, FIELD_VISIT_DATE, visit);
    facts->number[FACT_PROMISED_DAY] = day_of(record, FIELD_VISIT_PROMISED, visit);
    facts->number[FACT_MOISTURE] = check.shop_pct;
    if (check.known)
        facts->number[FACT_NEXT_CHECK_DAY] = check.day_number;
    put(facts, FACT_HANDED_OVER, is_handed_over(record, visit));
    put(facts, FACT_FOLLOWED, is_followed(record));
    if (record_text(record, &ticket))
        shelf_facts_put_text(facts, FACT_TICKET, record_text(record, &ticket));
    add_to_do(&now->moves, &to_do);
    shelf_facts_put_text(facts, FACT_TO_DO, memory);
}

/* --- saddle and rod --- */

static void find_saddle(const struct derived *now, struct shelf_facts *facts)
{
    const struct setup *setup = &now->setup;
    const struct move *reset = &now->moves.move[MOVE_RESET];
    const struct maybe bass = setup->exposure_bass_mm, treble = setup->exposure_treble_mm;

    if (!bass.given && !treble.given)
        return;
    put(facts, FACT_SADDLE_OVER_LEAST,
        fmin(maybe_or(bass, treble.value), maybe_or(treble, bass.value)) - setup->exposure_min_mm);
    put(facts, FACT_SADDLE_LOW, reset->state == MOVE_DUE || reset->little);
}

static void find_rod(const struct record *record, struct past *past, struct shelf_facts *facts)
{
    const struct survey_rod *rod = past_rod(past, place_current(record));

    if (!rod->known && rod->stands == 0)
        return;
    put(facts, FACT_ROD_STANDS, rod->stands);
    put(facts, FACT_ROD_SPENT,
        rod->answer == ROD_ANSWERS_NO_LONGER || rod->stands - rod->slackest >= ROD_TURNS_USUAL);
}

/* --- as it was last left --- */

/* The last pass of the last visit that is over: handed over, or followed by another. */
static struct place last_left(const struct record *record)
{
    struct place place = place_current(record);
    const bool over = is_handed_over(record, place.visit) || !is_followed(record);
    struct place earlier = place;

    while (!over && earlier.visit == place.visit)
        if (!place_before(&earlier))
            return place;
    return place_of(record, earlier.visit, earlier.pass);
}

/* The last reading of the visit up to the pass: not everything is read again in each. */
static struct maybe last_read(struct place place, enum field_id field, int string)
{
    const int visit = place.visit;
    struct maybe read = maybe_absent();

    while (place.visit == visit && place.pass > 0 && !read.given) {
        read = place_read_at(place, field, string, 0);
        if (!read.given && !place_before(&place))
            break;
    }
    return read;
}

static void find_left(struct place place, struct shelf_facts *facts)
{
    struct outfit outfit;

    if (place.pass == 0)
        return;
    outfit_read(&outfit, &place.record, place.visit);
    const int bass = outfit.strings > 0 ? outfit.read_as[outfit.strings] : 0;
    const int treble = outfit.strings > 0 ? outfit.read_as[1] : 0;
    facts->number[FACT_LEFT_DAY] = day_of(&place.record, FIELD_VISIT_DATE, place.visit);
    facts->number[FACT_LEFT_RELIEF] = last_read(place, FIELD_RELIEF, 0);
    facts->number[FACT_LEFT_ACTION_BASS] = last_read(place, FIELD_ACTION, bass);
    facts->number[FACT_LEFT_ACTION_TREBLE] = last_read(place, FIELD_ACTION, treble);
    facts->number[FACT_LEFT_GAP_BASS] = last_read(place, FIELD_NUT_GAP, bass);
    facts->number[FACT_LEFT_GAP_TREBLE] = last_read(place, FIELD_NUT_GAP, treble);
    facts->number[FACT_LEFT_EXPOSURE_BASS] = last_read(place, FIELD_EXPOSURE_BASS, 0);
    facts->number[FACT_LEFT_EXPOSURE_TREBLE] = last_read(place, FIELD_EXPOSURE_TREBLE, 0);
}

static void find_wanted(const struct record *record, struct shelf_facts *facts)
{
    static const struct {
        enum fact_number fact;
        enum field_id field;
    } wanted[] = {
        {FACT_WANTED_RELIEF, FIELD_TARGET_RELIEF},
        {FACT_WANTED_ACTION_BASS, FIELD_TARGET_ACTION_BASS},
        {FACT_WANTED_ACTION_TREBLE, FIELD_TARGET_ACTION_TREBLE},
        {FACT_WANTED_GAP_BASS, FIELD_TARGET_GAP_BASS},
        {FACT_WANTED_GAP_TREBLE, FIELD_TARGET_GAP_TREBLE},
    };

    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
        facts->number[wanted[i].fact] = record_entered_one(record, wanted[i].field);
}

static const char *gauge_text(const struct record *record, int string)
{
    const struct reading_key key = reading_key_string(FIELD_GAUGE, string);

    return record_text(record, &key);
}

/* The unit that all gauges are typed in, with its blank; NULL if they differ. */
static const char *gauge_unit(const struct record *record, int strings)
{
    const char *unit = NULL;

    for (int s = strings; s >= 1; s--) {
        const char *text = gauge_text(record, s), *blank = text ? strrchr(text, ' ') : NULL;

        if (text && (!blank || (unit && strcmp(unit, blank) != 0)))
            return NULL;
        unit = blank ? blank : unit;
    }
    return unit;
}

/* Each gauge as typed; the unit once, at the end, where all have the same. */
static void add_gauges(const struct record *record, int strings, struct strbuf *out)
{
    const char *unit = gauge_unit(record, strings);

    for (int s = strings; s >= 1; s--) {
        const char *text = gauge_text(record, s);

        if (!text)
            continue;
        strbuf_add(out, out->length > 0 ? " " : "");
        strbuf_add_bytes(out, text, strlen(text) - (unit ? strlen(unit) : 0));
    }
    strbuf_add(out, unit ? unit : "");
}

static void find_strings(const struct record *record, struct shelf_facts *facts)
{
    const int strings = record_string_count(record);
    char memory[96], notes_memory[64];
    struct strbuf gauges = STRBUF(memory), notes = STRBUF(notes_memory);

    add_gauges(record, strings, &gauges);
    shelf_facts_put_text(facts, FACT_GAUGES, memory);
    for (int s = strings; s >= 1; s--) {
        char name_memory[16];
        struct strbuf name = STRBUF(name_memory);

        if (note_name_of(record, s, &name))
            strbuf_addf(&notes, "%s%s", notes.length > 0 ? " " : "", name_memory);
    }
    shelf_facts_put_text(facts, FACT_TUNING, notes_memory);
}

/* --- how right we were --- */

int shelf_facts_level(char c)
{
    return c >= PROOF_FIRST && c < PROOF_FIRST + PROOF_LEVELS ? c - PROOF_FIRST : -1;
}

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
    const struct place left = last_left(record);

    *ret_facts = (struct shelf_facts){.texts = ""};
    find_visit(record, now, ret_facts);
    find_saddle(now, ret_facts);
    find_rod(record, past, ret_facts);
    find_wanted(&left.record, ret_facts);
    find_left(left, ret_facts);
    find_strings(&left.record, ret_facts);
    find_proof(record, ret_facts);
    round_numbers(ret_facts);
}

bool shelf_facts_in_house(const struct shelf_facts *facts, int today)
{
    const struct maybe handed = facts->number[FACT_HANDED_OVER], day = facts->number[FACT_LAST_DAY];

    if (!handed.given || handed.value != 0)
        return false;
    return facts->number[FACT_FOLLOWED].value != 0 ||
           (day.given && today - day.value <= SHELF_FACTS_HOUSE_DAYS);
}
