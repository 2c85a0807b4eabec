/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_pane.h"

#include "shelf/shelf_visit.h"
#include "words/amount.h"

/* With less than 80 columns left the list would lose some of its own. */
enum { PANE = 52, LIST_LEAST = 80, LABEL = 12 };

struct pane {
    const struct pen *pen;
    const struct shelf_ground *ground;
    const struct shelf_facts *facts; /* as it is now */
    const struct shelf_visit *visit; /* that it was left by; NULL: the last */
    struct shelf_item left;          /* as it was left by that */
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

static void put_fact(struct pane *pane, const char *label, const struct shelf_item *item,
                     enum shelf_column column)
{
    char memory[128];
    struct strbuf text = STRBUF(memory);

    shelf_column_add(pane->ground, item, column, false, &text);
    put(pane, label, memory);
}

/* --- what was left --- */

/* "6.5 to 4 /64, wanted 6 to 4". */
static void put_ends(struct pane *pane, const char *label, enum shelf_column read,
                     enum shelf_column wanted)
{
    char memory[80], wanted_memory[40] = "";
    struct strbuf text = STRBUF(memory), target = STRBUF(wanted_memory);

    shelf_column_add(pane->ground, &pane->left, read, false, &text);
    if (wanted != COLUMN_NONE)
        shelf_column_add(pane->ground, &pane->left, wanted, false, &target);
    if (target.length > 0)
        strbuf_addf(&text, "%swanted %s", text.length > 0 ? ", " : "", wanted_memory);
    put(pane, label, memory);
}

/* "As left in the visit of 2026-03-12", and which visit it is if that was asked. */
static void put_visit(struct pane *pane)
{
    const bool dated = pane->left.facts->number[FACT_LEFT_DAY].given;
    const struct shelf_visit *visit = pane->visit;
    char memory[64];
    struct strbuf heading = STRBUF(memory);

    if (visit)
        strbuf_addf(&heading, "As %s in visit %d of %d", visit->over ? "left" : "it stands",
                    visit->number, visit->count);
    else
        strbuf_add(&heading, dated ? "As left in the visit of " : "As described, not measured yet");
    if (visit && dated)
        strbuf_add(&heading, ", ");
    shelf_column_add(pane->ground, &pane->left, COLUMN_LEFT, false, &heading);
    pen_put(pane->pen, pane->row++, pane->column, pane->width, ROLE_LABEL, memory);
}

static void put_left(struct pane *pane)
{
    put_visit(pane);
    put_fact(pane, "strings", &pane->left, COLUMN_STRINGS);
    put_fact(pane, "tuning", &pane->left, COLUMN_TUNING);
    put_ends(pane, "relief", COLUMN_RELIEF, COLUMN_WANTED_RELIEF);
    put_ends(pane, "action", COLUMN_ACTION, COLUMN_WANTED_ACTION);
    put_ends(pane, "nut gap", COLUMN_GAP, COLUMN_WANTED_GAP);
    put_ends(pane, "saddle", COLUMN_EXPOSURE, COLUMN_NONE);
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
    if (pane->facts->number[FACT_ROD_STANDS].given) {
        strbuf_add(&text, text.length > 0 ? "; stands at " : "stands at ");
        amount_add_turns(&text, pane->facts->number[FACT_ROD_STANDS].value, true);
    }
    put(pane, "rod", memory);
}

static void put_now(struct pane *pane, const struct shelf_item *item)
{
    put_fact(pane, "marks", item, COLUMN_MARKS);
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
    pane.visit = shelf_visit_shown(list);
    pane.left = *item;
    if (pane.visit)
        pane.left.facts = &pane.visit->facts;
    pen_put_cut(pen, pane.row++, column, pane.width, ROLE_VALUE, shelf_item_title(item));
    put(&pane, "owner", item->card.owner);
    put_fact(&pane, "contact", item, COLUMN_CONTACT);
    put(&pane, "maker", item->card.maker);
    put(&pane, "serial", item->card.serial);
    put(&pane, "kind", item->card.kind);
    skip_row(&pane);
    put_left(&pane);
    skip_row(&pane);
    put_now(&pane, item);
}
