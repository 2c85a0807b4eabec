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
};

const char *shelf_column_heading(enum shelf_column column, bool plain)
{
    return plain && columns[column].plain ? columns[column].plain : columns[column].heading;
}

/* "2026-11-20", and in words " late" or " today". */
static void add_day(const struct shelf_ground *ground, struct maybe number, const char *past,
                    struct strbuf *out)
{
    if (!number.given)
        return;
    const struct day day = day_of_number((int)number.value);

    day_add(&day, out);
    if (ground->plain || number.value > ground->today)
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

static void add_fact(const struct shelf_ground *ground, const struct shelf_facts *facts,
                     enum shelf_column column, struct strbuf *out)
{
    switch (column) {
    case COLUMN_PROMISED:
        add_day(ground, facts->number[FACT_PROMISED_DAY], " late", out);
        break;
    case COLUMN_TICKET:
        strbuf_add(out, shelf_facts_text(facts, FACT_TICKET));
        break;
    case COLUMN_TO_DO:
        strbuf_add(out, shelf_facts_text(facts, FACT_TO_DO));
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
    default:
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
    else if (texts[column])
        strbuf_add(out, texts[column]);
    else
        add_fact(ground, item->facts, column, out);
}
