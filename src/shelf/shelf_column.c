/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_column.h"

#include "base/num.h"
#include "model/common/day.h"
#include "words/amount.h"

static const struct {
    const char *heading, *plain; /* NULL: the same */
} columns[COLUMN_COUNT_] = {
    [COLUMN_FILE] = {"file", NULL},
    [COLUMN_NAME] = {"name", NULL},
    [COLUMN_KIND] = {"kind", NULL},
    [COLUMN_OWNER] = {"owner", NULL},
    [COLUMN_CONTACT] = {"contact", NULL},
    [COLUMN_MAKER] = {"maker", NULL},
    [COLUMN_SERIAL] = {"serial", NULL},
    [COLUMN_VISIT] = {"last visit", NULL},
    [COLUMN_MARKS] = {"marks", NULL},
    [COLUMN_PROMISED] = {"promised", NULL},
    [COLUMN_TICKET] = {"ticket", NULL},
    [COLUMN_TO_DO] = {"left to do", NULL},
    [COLUMN_CHECK] = {"next check", NULL},
    [COLUMN_AIR_THEN] = {"EMC then", "EMC then, %"},
    [COLUMN_AIR_NOW] = {"EMC now", "EMC now, %"},
    [COLUMN_SADDLE] = {"to spare", "saddle over the least, mm"},
    [COLUMN_ROD] = {"turned in", "rod stands, turns"},
    [COLUMN_LEFT] = {"as left", NULL},
    [COLUMN_STRINGS] = {"strings", NULL},
    [COLUMN_TUNING] = {"tuning", NULL},
    [COLUMN_RELIEF] = {"relief", "relief, mm"},
    [COLUMN_ACTION] = {"action", "action bass, mm"},
    [COLUMN_ACTION_TREBLE] = {"", "action treble, mm"},
    [COLUMN_GAP] = {"nut gap", "nut gap bass, mm"},
    [COLUMN_GAP_TREBLE] = {"", "nut gap treble, mm"},
    [COLUMN_EXPOSURE] = {"saddle", "saddle bass, mm"},
    [COLUMN_EXPOSURE_TREBLE] = {"", "saddle treble, mm"},
    [COLUMN_WANTED_RELIEF] = {"wanted", "relief wanted, mm"},
    [COLUMN_WANTED_ACTION] = {"wanted", "action bass wanted, mm"},
    [COLUMN_WANTED_ACTION_TREBLE] = {"", "action treble wanted, mm"},
    [COLUMN_WANTED_GAP] = {"wanted", "nut gap bass wanted, mm"},
    [COLUMN_WANTED_GAP_TREBLE] = {"", "nut gap treble wanted, mm"},
};

/* Readings and targets from bass to treble, and the field that they are typed into; where there are
 * no ends, or for one of them, both are the same. What is wanted stands after what was read and
 * does not say the unit again. */
static const struct ends {
    enum { NO_ENDS, READ, WANTED } what;
    enum field_id field;
    enum fact_number first, last;
} all_ends[COLUMN_COUNT_] = {
#define BOTH(column, what, field, bass, treble)                                                    \
    [column] = {what, field, bass, treble}, [(column) + 1] = {what, field, treble, treble}
    [COLUMN_RELIEF] = {READ, FIELD_RELIEF, FACT_LEFT_RELIEF, FACT_LEFT_RELIEF},
    BOTH(COLUMN_ACTION, READ, FIELD_ACTION, FACT_LEFT_ACTION_BASS, FACT_LEFT_ACTION_TREBLE),
    BOTH(COLUMN_GAP, READ, FIELD_NUT_GAP, FACT_LEFT_GAP_BASS, FACT_LEFT_GAP_TREBLE),
    BOTH(COLUMN_EXPOSURE, READ, FIELD_EXPOSURE_BASS, FACT_LEFT_EXPOSURE_BASS,
         FACT_LEFT_EXPOSURE_TREBLE),
    [COLUMN_WANTED_RELIEF] = {WANTED, FIELD_RELIEF, FACT_WANTED_RELIEF, FACT_WANTED_RELIEF},
    BOTH(COLUMN_WANTED_ACTION, WANTED, FIELD_ACTION, FACT_WANTED_ACTION_BASS,
         FACT_WANTED_ACTION_TREBLE),
    BOTH(COLUMN_WANTED_GAP, WANTED, FIELD_NUT_GAP, FACT_WANTED_GAP_BASS, FACT_WANTED_GAP_TREBLE),
#undef BOTH
};

enum shelf_column shelf_column_other_end(enum shelf_column column)
{
    return all_ends[column].first == all_ends[column].last ? COLUMN_NONE : column + 1;
}

const char *shelf_column_heading(enum shelf_column column, bool plain)
{
    return plain && columns[column].plain ? columns[column].plain : columns[column].heading;
}

/* "2026-11-20", and in words " late" or " today"; without words for a day that is past, neither. */
static void add_day(const struct shelf_ground *ground, struct maybe number, const char *past,
                    struct strbuf *out)
{
    if (!number.given)
        return;
    const struct day day = day_of_number((int)number.value);

    day_add(&day, out);
    if (ground->plain || !past[0] || number.value > ground->today)
        return;
    strbuf_add(out, number.value < ground->today ? past : " today");
}

static void add_number(const struct shelf_ground *ground, struct maybe number, int decimals,
                       const char *unit, struct strbuf *out)
{
    if (!number.given)
        return;
    num_format_fixed(number.value, decimals, false, out);
    strbuf_add(out, ground->plain ? "" : unit);
}

static void add_length(const struct shelf_ground *ground, struct maybe mm, struct strbuf *out)
{
    const enum unit unit = ground->units.bare[MEASURE_DEPTH];

    if (!mm.given || ground->plain) {
        add_number(ground, mm, 2, "", out);
        return;
    }
    amount_add(out, mm.value, unit, false);
    amount_add_unit(out, unit);
}

static void add_turns(const struct shelf_ground *ground, struct maybe turns, struct strbuf *out)
{
    if (!turns.given || ground->plain) {
        add_number(ground, turns, 3, "", out);
        return;
    }
    amount_add_turns(out, turns.value, true);
    strbuf_add(out, " turn");
}

/* "6 to 4 /64", bass to treble, or the one that is known; for a spreadsheet the first alone. */
static void add_ends(const struct shelf_ground *ground, const struct shelf_facts *facts,
                     const struct ends *ends, struct strbuf *out)
{
    const struct maybe first = facts->number[ends->first], last = facts->number[ends->last];
    const enum unit unit = field_bare_unit(field_get(ends->field), &ground->units);

    if (ground->plain) {
        add_number(ground, first, 3, "", out);
        return;
    }
    if (first.given && last.given && ends->first != ends->last)
        amount_add_range(out, first.value, last.value, unit);
    else if (first.given || last.given)
        amount_add(out, first.given ? first.value : last.value, unit, false);
    if (ends->what == READ && (first.given || last.given))
        amount_add_unit(out, unit);
}

/* "slots, saddle"; in a list that has no marks also what keeps one from beginning. */
static void add_to_do(const struct shelf_ground *ground, const struct shelf_item *item,
                      struct strbuf *out)
{
    if (!ground->plain && item->marks & SHELF_VERSIONS)
        strbuf_add(out, "versions; ");
    if (!ground->plain && item->marks & SHELF_VERSION)
        strbuf_add(out, "a version; ");
    if (!ground->plain && item->marks & SHELF_IN_USE)
        strbuf_add(out, "in use; ");
    strbuf_add(out, shelf_facts_text(item->facts, FACT_TO_DO));
}

static void add_fact(const struct shelf_ground *ground, const struct shelf_facts *facts,
                     enum shelf_column column, struct strbuf *out)
{
    switch (column) {
    case COLUMN_PROMISED:
        add_day(ground, facts->number[FACT_PROMISED_DAY], " late", out);
        break;
    case COLUMN_CONTACT:
        strbuf_add(out, shelf_facts_text(facts, FACT_CONTACT));
        break;
    case COLUMN_TICKET:
        strbuf_add(out, shelf_facts_text(facts, FACT_TICKET));
        break;
    case COLUMN_CHECK:
        add_day(ground, facts->number[FACT_NEXT_CHECK_DAY], " due", out);
        break;
    case COLUMN_AIR_THEN:
        add_number(ground, facts->number[FACT_MOISTURE], 1, " %", out);
        break;
    case COLUMN_AIR_NOW:
        add_number(ground, ground->moisture_now, 1, " %", out);
        break;
    case COLUMN_SADDLE:
        add_length(ground, facts->number[FACT_SADDLE_OVER_LEAST], out);
        break;
    case COLUMN_ROD:
        add_turns(ground, facts->number[FACT_ROD_STANDS], out);
        break;
    case COLUMN_LEFT:
        add_day(ground, facts->number[FACT_LEFT_DAY], "", out);
        break;
    case COLUMN_STRINGS:
        strbuf_add(out, shelf_facts_text(facts, FACT_GAUGES));
        break;
    case COLUMN_TUNING:
        strbuf_add(out, shelf_facts_text(facts, FACT_TUNING));
        break;
    default:
        if (all_ends[column].what != NO_ENDS)
            add_ends(ground, facts, &all_ends[column], out);
        break;
    }
}

void shelf_column_add(const struct shelf_ground *ground, const struct shelf_item *item,
                      enum shelf_column column, bool in_short, struct strbuf *out)
{
    const struct card *card = &item->card;
    const char *const texts[COLUMN_COUNT_] = {
        [COLUMN_FILE] = item->file,   [COLUMN_NAME] = card->name,   [COLUMN_KIND] = card->kind,
        [COLUMN_OWNER] = card->owner, [COLUMN_MAKER] = card->maker, [COLUMN_SERIAL] = card->serial,
        [COLUMN_VISIT] = card->visit,
    };

    if (column == COLUMN_MARKS)
        shelf_item_marks(item, in_short, out);
    else if (column == COLUMN_TO_DO)
        add_to_do(ground, item, out);
    else if (texts[column])
        strbuf_add(out, texts[column]);
    else
        add_fact(ground, item->facts, column, out);
}
