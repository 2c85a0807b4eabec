/* SPDX-License-Identifier: MIT */
#include "session/cell_words.h"

#include <string.h>

#include "session/setback_cell.h"

#include "words/amount.h"
#include "words/fret_words.h"
#include "words/reading_words.h"
#include "base/utf8.h"
#include "model/figure/bench_row.h"
#include "model/reading/record_access.h"

void cell_words_add_name(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    const struct bench_row *row = bench_row_of(cell->key.field);

    reading_words_add_name(out, &cell->key, &app->now.setup.outfit);
    if (row)
        bench_row_add_place(row, &app->now.setup.outfit, &app->now.setup.board, out);
}

void cell_words_add_held(const struct app *app, const struct route_cell *cell, const char *between,
                         struct strbuf *out)
{
    enum { SHOWN_COLUMNS = 24 };
    const char *text = record_text(&app->record, &cell->key);
    char memory[ENTRY_TEXT_MAX];
    struct strbuf shown = STRBUF(memory);

    cell_words_add_name(app, cell, out);
    if (!text)
        return;
    entry_show(text, field_get(cell->key.field), &app->units, &shown);
    const size_t fits = utf8_clip(memory, SHOWN_COLUMNS);
    strbuf_add(out, between);
    strbuf_add_bytes(out, memory, fits);
    strbuf_add(out, memory[fits] ? "..." : "");
}

/* --- what is measured --- */

static void add_relief(const struct app *app, struct strbuf *out)
{
    const struct board *board = &app->now.setup.board;

    if (board->has_relief)
        strbuf_addf(out, "straightedge on %s %d and %d, the gap; - is back-bow",
                    app->now.setup.outfit.fretless ? "marks" : "frets", board->end_low,
                    board->end_high);
    else
        strbuf_add(out, "gap under the straightedge; - is back-bow");
}

/* Of a saddle blank, the height above the bridge counts; of screws, posts and wheels, how far they
 * can still go down. */
static void add_exposure(const struct app *app, bool bass, struct strbuf *out)
{
    const struct outfit *outfit = &app->now.setup.outfit;
    const struct maybe kind = record_entered_one(&app->record, FIELD_BRIDGE_KIND);
    const bool blank = !kind.given || (int)kind.value == 0;

    strbuf_add(out, blank ? "saddle over the bridge top" : "how far it can still be lowered");
    if (bass)
        strbuf_addf(out, ", lowest %s", outfit_noun(outfit, outfit->read_as[outfit->strings]));
    else
        strbuf_addf(out, ", %s 1", outfit_noun(outfit, 1));
}

/* Of a string that starts higher, over the first fret that it crosses. */
static void add_gap(const struct app *app, int string, struct strbuf *out)
{
    const struct setup *setup = &app->now.setup;
    const int over = setup->has_board ? board_gap_fret(&setup->board, string) : 1;
    const int hold = setup->has_board ? board_hold_fret(&setup->board, string) : 3;
    const char *to = setup->outfit.fretless ? "the board at mark" : "the crown of fret";

    if (app_nut_method(app) == NUT_HELD_3)
        strbuf_addf(out, "held down on %s %d: gap to %s %d", outfit_fret_noun(&setup->outfit), hold,
                    to, over);
    else
        strbuf_addf(out, "string open: gap to %s %d", to, over);
}

void cell_words_add_what(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    switch (cell->key.field) {
    case FIELD_RELIEF:
        add_relief(app, out);
        return;
    case FIELD_NUT_GAP:
        add_gap(app, cell->key.string, out);
        return;
    case FIELD_ACTION:
        strbuf_add(out, app->now.setup.outfit.fretless ? "string open: gap to the board there"
                                                       : "string open: gap to that fret's crown");
        return;
    case FIELD_EXPOSURE_BASS:
    case FIELD_EXPOSURE_TREBLE:
        add_exposure(app, cell->key.field == FIELD_EXPOSURE_BASS, out);
        return;
    default:
        fret_words_add(&app->now.setup.outfit, field_get(cell->key.field)->help, out);
    }
}

/* --- what it holds --- */

/* What the cell held in the pass before, in the unit of its row, to compare with. */
static void add_before(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    const struct reading *before = app_row(app)->is_bench ? app_reading_before(app, cell) : NULL;
    const struct field *field = field_get(cell->key.field);
    const enum unit unit = field_bare_unit(field, &app->units);

    if (!before)
        return;
    strbuf_add(out, "; before ");
    if (before->value.state == READING_BAD || field->quantity != QUANTITY_LENGTH) {
        strbuf_add(out, before->text);
        return;
    }
    amount_add(out, before->value.value, unit, false);
    amount_add_unit(out, unit);
}

static void add_figure(const struct figure *figure, enum figure_id id, struct strbuf *out)
{
    const double factor = figure_info(id)->factor;
    const struct amount_with_u amount = {.value = figure->value * factor, .u = figure->u * factor};

    amount_add_with_u(out, &amount, " ");
}

/* "; break angle 23 +-2 deg, 42 +-4 N down": what follows from a saddle's exposure. */
static void add_break(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    const struct derived *derived = app_shown(app);
    const int string = cell->key.field == FIELD_EXPOSURE_BASS ? derived->setup.board.strings : 1;
    const struct figure *angle = &derived->figures.at[FIGURE_BREAK_ANGLE][string];
    const struct figure *force = &derived->figures.at[FIGURE_DOWNFORCE][string];

    if ((cell->key.field != FIELD_EXPOSURE_BASS && cell->key.field != FIELD_EXPOSURE_TREBLE) ||
        angle->known == KNOWN_ABSENT)
        return;
    strbuf_add(out, "; break angle ");
    add_figure(angle, FIGURE_BREAK_ANGLE, out);
    strbuf_add(out, " deg");
    if (force->known == KNOWN_ABSENT)
        return;
    strbuf_add(out, ", ");
    add_figure(force, FIGURE_DOWNFORCE, out);
    strbuf_add(out, " N down");
}

/* In the unit that the cell is read in, and in that of the other system. */
static void add_both(const struct app *app, const struct field *field, double mm,
                     struct strbuf *out)
{
    const enum unit own = field_bare_unit(field, &app->units);
    const enum unit other = own == UNIT_MM || own == UNIT_100THS ? UNIT_TH : UNIT_100THS;

    amount_add(out, mm, own, false);
    amount_add_unit(out, own);
    strbuf_add(out, " = ");
    amount_add(out, mm, other, false);
    amount_add_unit(out, other);
}

/* "usual here 6 (5.5 to 6.5) /64": the median and the middle half of what is wanted of the other
 * instruments of its kind. */
static void add_usual(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    const struct usual *usual = usual_for_target(&app->usuals, cell->key.field);
    const enum unit unit = field_bare_unit(field_get(cell->key.field), &app->units);
    char kind[KIND_NAME_SIZE];

    /* Its kind may have been changed since. */
    if (!usual || !record_kind(&app->record, kind) || strcmp(kind, app->usuals.kind) != 0)
        return;
    strbuf_add(out, out->length > 0 ? "; usual here " : "usual here ");
    amount_add(out, usual->median_mm, unit, false);
    strbuf_add(out, " (");
    amount_add_range(out, usual->low_mm, usual->high_mm, unit);
    strbuf_add_char(out, ')');
    amount_add_unit(out, unit);
}

void cell_words_add_now(const struct app *app, const struct route_cell *cell, struct strbuf *out)
{
    const struct field *field = field_get(cell->key.field);
    const struct maybe expected = app_expected(app, cell);
    const struct maybe now =
        setback_cell_is_moved(app, cell) ? maybe_absent() : record_entered(&app->record, cell->key);

    if (field->quantity != QUANTITY_LENGTH)
        return;
    if (now.given) {
        strbuf_add(out, "now ");
        amount_add_all(out, now.value, field_bare_unit(field, &app->units));
        add_break(app, cell, out);
        add_before(app, cell, out);
    } else if (expected.given) {
        strbuf_add(out, "should read ");
        add_both(app, field, expected.value, out);
        strbuf_add_char(out, ' ');
        (void)app_row(app)->add_expected_after(app, out);
    }
    add_usual(app, cell, out);
}
