/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_pane.h"

#include "base/num.h"
#include "model/common/day.h"
#include "words/amount.h"

/* With less than 80 columns left the list would lose some of its own. */
enum { PANE = 48, LIST_LEAST = 80, LABEL = 12 };

struct pane {
    const struct pen *pen;
    const struct shelf_ground *ground;
    const struct shelf_facts *facts;
    int row, end, column, width;
};

int shelf_pane_columns(int frame_columns)
{
    return frame_columns >= LIST_LEAST + PANE ? PANE : 0;
}

/* A label and what goes with it; nothing for an empty text. */
static void put(struct pane *pane, const char *label, const char *text)
{
    if (!text[0] || pane->row >= pane->end)
        return;
    pen_put(pane->pen, pane->row, pane->column, LABEL, ROLE_LABEL, label);
    pane->row += pen_wrap(pane->pen, pane->row, pane->column + LABEL, pane->width - LABEL,
                          pane->end - pane->row, ROLE_VALUE, text);
}

static void skip_row(struct pane *pane)
{
    pane->row++;
}

static struct maybe fact(const struct pane *pane, enum fact_number id)
{
    return pane->facts->number[id];
}

static void put_fact(struct pane *pane, const char *label, const struct shelf_item *item,
                     enum shelf_column column)
{
    char memory[80];
    struct strbuf text = STRBUF(memory);

    shelf_column_add(pane->ground, item, column, false, &text);
    put(pane, label, memory);
}

static void add_day(struct maybe number, struct strbuf *out)
{
    if (!number.given)
        return;
    const struct day day = day_of_number((int)number.value);
    day_add(&day, out);
}

/* --- what was left --- */

/* "6 to 4", bass to treble, or one of the two; nothing where neither is known. */
static void add_ends(struct maybe bass, struct maybe treble, enum unit unit, struct strbuf *out)
{
    if (bass.given && treble.given)
        amount_add_range(out, bass.value, treble.value, unit);
    else if (bass.given || treble.given)
        amount_add(out, bass.given ? bass.value : treble.value, unit, false);
}

/* "6.5 to 4 /64, wanted 6 to 4". */
static void put_ends(struct pane *pane, const char *label, enum field_id field,
                     const enum fact_number left[2], const enum fact_number wanted[2])
{
    const enum unit unit = field_bare_unit(field_get(field), &pane->ground->units);
    char memory[80], wanted_memory[40] = "";
    struct strbuf text = STRBUF(memory), target = STRBUF(wanted_memory);

    add_ends(fact(pane, left[0]), fact(pane, left[1]), unit, &text);
    if (wanted)
        add_ends(fact(pane, wanted[0]), fact(pane, wanted[1]), unit, &target);
    if (text.length > 0)
        amount_add_unit(&text, unit);
    if (text.length > 0 && target.length > 0)
        strbuf_add(&text, ", ");
    if (target.length > 0)
        strbuf_addf(&text, "wanted %s", wanted_memory);
    put(pane, label, memory);
}

static void put_left(struct pane *pane)
{
    static const enum fact_number relief[] = {FACT_LEFT_RELIEF, FACT_LEFT_RELIEF};
    static const enum fact_number relief_wanted[] = {FACT_WANTED_RELIEF, FACT_WANTED_RELIEF};
    static const enum fact_number action[] = {FACT_LEFT_ACTION_BASS, FACT_LEFT_ACTION_TREBLE};
    static const enum fact_number action_wanted[] = {FACT_WANTED_ACTION_BASS,
                                                     FACT_WANTED_ACTION_TREBLE};
    static const enum fact_number gap[] = {FACT_LEFT_GAP_BASS, FACT_LEFT_GAP_TREBLE};
    static const enum fact_number gap_wanted[] = {FACT_WANTED_GAP_BASS, FACT_WANTED_GAP_TREBLE};
    static const enum fact_number saddle[] = {FACT_LEFT_EXPOSURE_BASS, FACT_LEFT_EXPOSURE_TREBLE};
    const struct maybe day = fact(pane, FACT_LEFT_DAY);
    char memory[48];
    struct strbuf heading = STRBUF(memory);

    strbuf_add(&heading, day.given ? "As left in the visit of " : "As described, not measured yet");
    add_day(day, &heading);
    pen_put(pane->pen, pane->row++, pane->column, pane->width, ROLE_LABEL, memory);
    put(pane, "strings", shelf_facts_text(pane->facts, FACT_GAUGES));
    put(pane, "tuning", shelf_facts_text(pane->facts, FACT_TUNING));
    put_ends(pane, "relief", FIELD_RELIEF, relief, relief_wanted);
    put_ends(pane, "action", FIELD_ACTION, action, action_wanted);
    put_ends(pane, "nut gap", FIELD_NUT_GAP, gap, gap_wanted);
    put_ends(pane, "saddle", FIELD_EXPOSURE_BASS, saddle, NULL);
}

/* --- now --- */

static void put_rod(struct pane *pane, const struct shelf_item *item)
{
    const enum unit unit = field_bare_unit(field_get(FIELD_RELIEF), &pane->ground->units);
    char memory[80];
    struct strbuf text = STRBUF(memory);

    if (rod_neck_is_known(&item->card.rod)) {
        strbuf_add(&text, "a quarter turn ");
        amount_add(&text, item->card.rod.per_turn_mm / 4, unit, false);
        amount_add_unit(&text, unit);
    }
    if (fact(pane, FACT_ROD_STANDS).given) {
        strbuf_add(&text, text.length > 0 ? "; stands at " : "stands at ");
        amount_add_turns(&text, fact(pane, FACT_ROD_STANDS).value, true);
    }
    put(pane, "rod", memory);
}

static void put_now(struct pane *pane, const struct shelf_item *item)
{
    put_fact(pane, "last visit", item, COLUMN_VISIT);
    if (shelf_facts_in_house(pane->facts, pane->ground->today)) {
        put_fact(pane, "ticket", item, COLUMN_TICKET);
        put_fact(pane, "promised", item, COLUMN_PROMISED);
        put_fact(pane, "left to do", item, COLUMN_TO_DO);
    } else {
        put_fact(pane, "next check", item, COLUMN_CHECK);
    }
    put_rod(pane, item);
}

void shelf_pane_draw(const struct pen *pen, const struct shelf_list *list, int row, int rows,
                     int column)
{
    const struct shelf_item *item = shelf_list_item(list);
    struct pane pane = {.pen = pen,
                        .ground = &list->ground,
                        .row = row,
                        .end = row + rows,
                        .column = column,
                        .width = pen->frame->columns - column - 1};

    if (!item)
        return;
    pane.facts = item->facts;
    pen_put_cut(pen, pane.row++, column, pane.width, ROLE_VALUE, shelf_item_title(item));
    put(&pane, "owner", item->card.owner);
    put(&pane, "maker", item->card.maker);
    put(&pane, "serial", item->card.serial);
    put(&pane, "kind", item->card.kind);
    skip_row(&pane);
    put_left(&pane);
    skip_row(&pane);
    put_now(&pane, item);
}
