/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "base/num.h"
#include "model/reading/record_access.h"
#include "template/template_inside.h"

/* A wedge thinner than this cannot be measured, so there is nothing to cut. */
static const double nothing_mm = 0.05;

struct wedge {
    double length_mm, thick_mm; /* nothing at the other end; below 0: the other way round */
    const char *thin_end, *thick_end;
};

static void say_ends(struct page_list *list, const struct wedge *wedge, double x, double y)
{
    char memory[128];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "%s; %s: ", wedge->thin_end, wedge->thick_end);
    template_add_length(&text, fabs(wedge->thick_mm));
    template_say(list, x, y + 5, PAGE_LEFT, &template_plain, memory);
    strbuf_clear(&text);
    strbuf_add(&text, "length ");
    template_add_length(&text, wedge->length_mm);
    strbuf_add(&text, ", angle ");
    num_format_fixed(atan2(fabs(wedge->thick_mm), wedge->length_mm) * 180 / acos(-1), 3, false,
                     &text);
    strbuf_add(&text, "\xC2\xB0");
    template_say(list, x, y + 10, PAGE_LEFT, &template_plain, memory);
}

static const char *what_it_means(const struct template_source *source, const struct wedge *wedge)
{
    if (move_set_reset(&source->derived->moves) == RESET_SADDLE)
        return "By these readings the saddle is enough, and no reset is due.";
    if (wedge->thick_mm < -nothing_mm)
        return "The neck leans back too far as it is: the thick end goes to the other side.";
    if (wedge->thick_mm < nothing_mm)
        return "Nothing to cut by these readings.";
    return "Side view. Transfer both ends with a gauge; the line between them is straight.";
}

/* What else the plan says: a straight wedge does not right a neck that leans. */
static void say_plan(const struct template_source *source, struct page_list *list, double x,
                     double y)
{
    const struct move *reset = &source->derived->moves.move[MOVE_RESET];
    char memory[160];
    struct strbuf text = STRBUF(memory);

    if (reset->straightedge.given) {
        strbuf_add(&text, "A straightedge on the frets then meets the saddle ");
        template_add_length(&text, fabs(reset->straightedge.value));
        strbuf_add(&text, reset->straightedge.value < 0 ? " under" : " over");
        strbuf_add(&text, " the bridge's top.");
        template_say(list, x, y, PAGE_LEFT, &template_plain, memory);
    }
    if (!reset->lean.given)
        return;
    strbuf_clear(&text);
    strbuf_add(&text, "The neck leans: over the bridge's width ");
    template_add_length(&text, fabs(reset->lean.value));
    strbuf_add(&text, reset->lean.value < 0 ? ", bass low." : ", treble low.");
    template_say(list, x, y + 5, PAGE_LEFT, &template_strong, memory);
}

static enum status draw_wedge(const struct template_source *source, const struct wedge *wedge,
                              struct page_list **ret_drawing)
{
    enum { SIDE = 6, TOP = 8, BELOW = 30 };
    const double thick_mm = fabs(wedge->thick_mm), y = TOP + thick_mm;
    struct page_list *list;
    const enum status status =
        template_begin(fmax(wedge->length_mm + 2 * SIDE, 150), TOP + thick_mm + BELOW, &list);

    if (status != STATUS_OK)
        return status;
    const struct page_point sides[] = {{SIDE, y},
                                       {SIDE + wedge->length_mm, y},
                                       {SIDE + wedge->length_mm, y - thick_mm},
                                       {SIDE, y}};
    page_draw_path(list, sides, sizeof sides / sizeof sides[0], &template_cut);
    say_ends(list, wedge, SIDE, y);
    template_say(list, SIDE, y + 15, PAGE_LEFT, &template_strong, what_it_means(source, wedge));
    say_plan(source, list, SIDE, y + 20);
    return template_finish(list, ret_drawing);
}

/* Asks for the readings that the angle is computed from, to name those that are missing. */
static void need_angle(const struct template_source *source)
{
    const int last = source->layout.strings;
    const struct place place =
        source->place.pass > 0 ? source->place : place_of(source->record, 1, 1);

    (void)template_need_one(source, FIELD_JOIN_FRET);
    (void)template_need(source, place_key(place, FIELD_EXPOSURE_BASS));
    (void)template_need(source, place_key(place, FIELD_EXPOSURE_TREBLE));
    (void)template_need(source, place_key_at(place, FIELD_ACTION, 1, 0));
    if (last > 1)
        (void)template_need(source, place_key_at(place, FIELD_ACTION, last, 0));
    (void)template_need_one(source, FIELD_TARGET_ACTION_BASS);
    (void)template_need_one(source, FIELD_TARGET_ACTION_TREBLE);
    if (source->missing->length == 0)
        strbuf_add(source->missing, "readings that give the angle (see sillet figures)");
}

/* If the figure is absent, the readings that it needs are noted as missing. */
static bool find_wedge(const struct template_source *source, enum field_id field,
                       enum figure_id figure, struct wedge *wedge)
{
    const struct maybe length = record_entered_one(source->record, field);
    const struct maybe thick = figures_get(&source->derived->figures, figure, 0);

    wedge->length_mm = length.value;
    wedge->thick_mm = thick.value;
    if (thick.given && length.value > 0)
        return true;
    (void)template_need_one(source, field);
    need_angle(source);
    return false;
}

enum status template_draw_heel(const struct template_source *source, struct page_list **ret_drawing)
{
    struct wedge wedge = {.thin_end = "at the board: nothing", .thick_end = "at the cap"};

    if (!find_wedge(source, FIELD_HEEL_DEPTH, FIGURE_HEEL_CUT, &wedge))
        return STATUS_ABSENT;
    return draw_wedge(source, &wedge, ret_drawing);
}

enum status template_draw_shim(const struct template_source *source, struct page_list **ret_drawing)
{
    struct wedge wedge = {.thin_end = "toward the nut: nothing", .thick_end = "toward the bridge"};

    if (!find_wedge(source, FIELD_POCKET_LENGTH, FIGURE_POCKET_SHIM, &wedge))
        return STATUS_ABSENT;
    return draw_wedge(source, &wedge, ret_drawing);
}

enum status template_draw_tongue(const struct template_source *source,
                                 struct page_list **ret_drawing)
{
    const struct board *board = &source->derived->setup.board;
    struct wedge wedge = {.thin_end = "at the join: nothing", .thick_end = "at the board's end"};

    if (!find_wedge(source, FIELD_BOARD_END, FIGURE_TONGUE_WEDGE, &wedge))
        return STATUS_ABSENT;
    wedge.length_mm -= board->station_mm[LANE_MIDDLE][board->join_fret];
    if (wedge.length_mm > 0)
        return draw_wedge(source, &wedge, ret_drawing);
    strbuf_add(source->missing, "a board end behind the join, on Intake");
    return STATUS_ABSENT;
}
