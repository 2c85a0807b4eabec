/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "model/reading/record_access.h"
#include "model/reading/note_name.h"
#include "template/template_inside.h"

enum { LEFT = 18, EDGE = 6, TABLE_ROW = 5 };

/* Above a string's line. Strings of a course are too close for one row of numbers. */
static void number_string(const struct template_source *source, struct page_list *list, int string,
                          double x_mm, double y_mm)
{
    char memory[16];
    struct strbuf text = STRBUF(memory);
    const bool raised = source->layout.strings > 6 && string % 2 == 0;

    strbuf_addf(&text, "%d", string);
    template_say(list, x_mm, raised ? y_mm - 4 : y_mm, PAGE_CENTRE, &template_strong, memory);
}

static void need_spread(const struct template_source *source)
{
    (void)template_need_one(source, FIELD_NUT_SPREAD);
    for (int s = 1; s <= source->layout.strings; s++)
        (void)template_need(source, reading_key_string(FIELD_GAUGE, s));
    if (source->derived->setup.outfit.courses < source->layout.strings)
        (void)template_need_one(source, FIELD_COURSE_GAP);
    if (source->missing->length == 0)
        strbuf_add(source->missing, "room for all strings between the margins");
}

static void say_string(const struct template_source *source, struct page_list *list, int string,
                       double y_mm)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    note_name_add_string(&text, source->record, string);
    template_say(list, LEFT, y_mm, PAGE_LEFT, &template_strong, memory);
}

static void say_length(struct page_list *list, double x_mm, double y_mm, double mm)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    template_add_length(&text, mm);
    template_say(list, x_mm, y_mm, PAGE_LEFT, &template_plain, memory);
}

/* --- the nut --- */

enum { NUT_TOP = 12, NUT_HEIGHT = 12, NUT_TABLE = NUT_TOP + NUT_HEIGHT + 14 };

static void draw_slot(const struct template_source *source, struct page_list *list, int string)
{
    const double centre_mm = source->layout.string[string].nut_centre_mm.value;
    const double gauge_mm = source->derived->string[string].build.gauge_mm;
    const double x = LEFT + centre_mm;

    page_fill_box(list, (struct page_point){x - gauge_mm / 2, NUT_TOP}, gauge_mm, NUT_HEIGHT, 0.8);
    page_draw_line(list, (struct page_point){x, NUT_TOP - 4},
                   (struct page_point){x, NUT_TOP + NUT_HEIGHT + 4}, &template_cut);
    number_string(source, list, string, x, NUT_TOP - 5);
}

static void say_slots(const struct template_source *source, struct page_list *list)
{
    enum { CENTRE = LEFT + 14, GAUGE = CENTRE + 40 };
    double y = NUT_TABLE;

    template_say(list, LEFT, y, PAGE_LEFT, &template_small, "string");
    template_say(list, CENTRE, y, PAGE_LEFT, &template_small, "centre, from the bass edge");
    template_say(list, GAUGE, y, PAGE_LEFT, &template_small, "gauge, grey");
    for (int s = source->layout.strings; s >= 1; s--) {
        if (!source->layout.string[s].nut_centre_mm.given)
            continue;
        y += TABLE_ROW;
        say_string(source, list, s, y);
        say_length(list, CENTRE, y, source->layout.string[s].nut_centre_mm.value);
        say_length(list, GAUGE, y, source->derived->string[s].build.gauge_mm);
    }
}

enum status template_draw_nut(const struct template_source *source, struct page_list **ret_drawing)
{
    const struct maybe nut = record_entered_one(source->record, FIELD_NUT_WIDTH);
    const struct maybe board = record_entered_one(source->record, FIELD_WIDTH_NUT);
    const double width_mm = nut.given ? nut.value : board.value;
    struct page_list *list;

    if (!source->layout.string[1].nut_line_mm.given) {
        if (!record_entered_one(source->record, FIELD_WIDTH_NUT).given)
            (void)template_need_one(source, FIELD_NUT_WIDTH);
        (void)template_need_one(source, FIELD_NUT_MARGIN_BASS);
        (void)template_need_one(source, FIELD_NUT_MARGIN_TREBLE);
        need_spread(source);
        return STATUS_ABSENT;
    }
    const enum status status =
        template_begin(fmax(2 * LEFT + width_mm, 110),
                       NUT_TABLE + TABLE_ROW * (source->layout.strings + 1), &list);
    if (status != STATUS_OK)
        return status;
    page_draw_box(list, (struct page_point){LEFT, NUT_TOP}, width_mm, NUT_HEIGHT, &template_cut);
    template_say(list, LEFT - 2, NUT_TOP + 5, PAGE_RIGHT, &template_small, "bass edge");
    for (int s = 1; s <= source->layout.strings; s++)
        if (source->layout.string[s].nut_centre_mm.given)
            draw_slot(source, list, s);
    say_slots(source, list);
    return template_finish(list, ret_drawing);
}

/* --- the saddle --- */

enum { SADDLE_TOP = 14, TICK = 4 };

struct saddle_drawing {
    const struct template_source *source;
    struct page_list *list;
    double base_mm; /* y of the scale length */
    double low_mm, high_mm;
};

static void reach(struct saddle_drawing *drawing, int string, const struct maybe *contact)
{
    if (!contact->given)
        return;
    const double setback_mm =
        contact->value - board_scale_mm(&drawing->source->derived->setup.board, string);
    drawing->low_mm = fmin(drawing->low_mm, setback_mm);
    drawing->high_mm = fmax(drawing->high_mm, setback_mm);
}

/* Where the contact is, and where the cents read ask for it, are known only from the setback
 * entered. */
static struct maybe if_entered(const struct saddle_drawing *drawing, int string,
                               struct maybe contact)
{
    contact.given = contact.given && drawing->source->derived->setup.setback[string].mm.given;
    return contact;
}

static struct maybe contact_now(const struct saddle_drawing *drawing, int string)
{
    return if_entered(drawing, string,
                      maybe_given(drawing->source->layout.string[string].contact_mm));
}

/* The fit over all frets read is better than the contact from one note. */
static struct maybe asked_for(const struct saddle_drawing *drawing, int string)
{
    const struct string_layout *of = &drawing->source->layout.string[string];

    return if_entered(drawing, string,
                      of->contact_fit_mm.given ? of->contact_fit_mm : of->contact_read_mm);
}

static void tick(const struct saddle_drawing *drawing, int string, double x,
                 const struct maybe *contact, const struct page_stroke *stroke)
{
    if (!contact->given)
        return;
    const double y = drawing->base_mm + contact->value -
                     board_scale_mm(&drawing->source->derived->setup.board, string);
    page_draw_line(drawing->list, (struct page_point){x - TICK / 2.0, y},
                   (struct page_point){x + TICK / 2.0, y}, stroke);
}

static void draw_contact(const struct saddle_drawing *drawing, int string)
{
    const struct string_layout *of = &drawing->source->layout.string[string];
    const double x = LEFT + EDGE + of->saddle_centre_mm.value;
    const double top = drawing->base_mm + drawing->low_mm - 4;
    const struct maybe now = contact_now(drawing, string), asked = asked_for(drawing, string);

    page_draw_line(drawing->list, (struct page_point){x, top},
                   (struct page_point){x, drawing->base_mm + drawing->high_mm + 4},
                   &template_guide);
    tick(drawing, string, x, &now, &template_was);
    tick(drawing, string, x, &of->contact_predicted_mm, &template_predicted);
    tick(drawing, string, x, &asked, &template_cut);
    number_string(drawing->source, drawing->list, string, x, top - 1);
}

/* --- the same in numbers --- */

static void say_setback(const struct saddle_drawing *drawing, int string, double x, double y,
                        const struct maybe *contact)
{
    if (contact->given)
        say_length(drawing->list, x, y,
                   contact->value - board_scale_mm(&drawing->source->derived->setup.board, string));
}

/* Whether the curve of the top is known. */
static bool has_top(const struct template_source *source)
{
    return figures_get(&source->derived->figures, FIGURE_SADDLE_OVER, 2).given;
}

static void say_top(const struct saddle_drawing *drawing, int string, double x, double y)
{
    const struct maybe over =
        figures_get(&drawing->source->derived->figures, FIGURE_SADDLE_OVER, string);

    if (over.given)
        say_length(drawing->list, x, y, over.value);
}

/* Its radius, where it has one. */
static void say_radius(const struct saddle_drawing *drawing, double y)
{
    const struct maybe radius =
        figures_get(&drawing->source->derived->figures, FIGURE_SADDLE_RADIUS, 0);

    if (!radius.given)
        return;
    template_say(drawing->list, LEFT, y, PAGE_LEFT, &template_small,
                 radius.value < 0 ? "radius, hollow" : "radius of the top");
    say_length(drawing->list, LEFT + 34, y, fabs(radius.value));
}

/* In place of a contact that was not read, or beside what is expected instead. */
static const char *why_not_read(const struct saddle_drawing *drawing, int string)
{
    const struct setback *setback = &drawing->source->derived->setup.setback[string];

    if (!setback->is_expected)
        return "setback not entered";
    return setback->mm.given ? "moved, not read" : "saddle moved, not read";
}

static void draw_table(const struct saddle_drawing *drawing, double top)
{
    enum { NOW = LEFT + 14, PREDICTED = NOW + 34, ASKED = PREDICTED + 34, OVER = ASKED + 38 };
    double y = top;

    template_say(drawing->list, LEFT, y, PAGE_LEFT, &template_small, "string");
    template_say(drawing->list, NOW, y, PAGE_LEFT, &template_small, "now, dotted");
    template_say(drawing->list, PREDICTED, y, PAGE_LEFT, &template_small, "predicted, dashed");
    template_say(drawing->list, ASKED, y, PAGE_LEFT, &template_small, "by the cents read, solid");
    if (has_top(drawing->source))
        template_say(drawing->list, OVER, y, PAGE_LEFT, &template_small, "top over outer two");
    for (int s = drawing->source->layout.strings; s >= 1; s--) {
        const struct string_layout *of = &drawing->source->layout.string[s];
        const struct maybe now = contact_now(drawing, s), asked = asked_for(drawing, s);

        y += TABLE_ROW;
        say_string(drawing->source, drawing->list, s, y);
        if (!now.given || drawing->source->derived->setup.setback[s].is_expected)
            template_say(drawing->list, now.given ? NOW + 14 : NOW, y, PAGE_LEFT, &template_small,
                         why_not_read(drawing, s));
        say_setback(drawing, s, NOW, y, &now);
        say_setback(drawing, s, PREDICTED, y, &of->contact_predicted_mm);
        say_setback(drawing, s, ASKED, y, &asked);
        say_top(drawing, s, OVER, y);
    }
}

static void find_reach(struct saddle_drawing *drawing)
{
    for (int s = 1; s <= drawing->source->layout.strings; s++) {
        const struct string_layout *of = &drawing->source->layout.string[s];
        const struct maybe now = contact_now(drawing, s), asked = asked_for(drawing, s);

        reach(drawing, s, &now);
        reach(drawing, s, &of->contact_predicted_mm);
        reach(drawing, s, &asked);
    }
    drawing->base_mm = SADDLE_TOP - drawing->low_mm;
}

enum status template_draw_saddle(const struct template_source *source,
                                 struct page_list **ret_drawing)
{
    struct saddle_drawing drawing = {.source = source};
    const int strings = source->layout.strings;

    if (!source->layout.string[1].saddle_centre_mm.given) {
        (void)template_need_one(source, FIELD_SADDLE_SPREAD);
        need_spread(source);
        return STATUS_ABSENT;
    }
    find_reach(&drawing);
    const double span_mm = source->layout.string[1].saddle_centre_mm.value;
    const double table = drawing.base_mm + drawing.high_mm + 12;
    const enum status status =
        template_begin(fmax(2 * (LEFT + EDGE) + span_mm, has_top(source) ? 180 : 140),
                       table + TABLE_ROW * (strings + 2 + has_top(source)), &drawing.list);
    if (status != STATUS_OK)
        return status;
    page_draw_line(drawing.list, (struct page_point){LEFT, drawing.base_mm},
                   (struct page_point){LEFT + 2 * EDGE + span_mm, drawing.base_mm}, &template_cut);
    template_say(drawing.list, LEFT + 2 * EDGE + span_mm + 2, drawing.base_mm + 1, PAGE_LEFT,
                 &template_small, "scale length from the nut");
    for (int s = 1; s <= strings; s++)
        draw_contact(&drawing, s);
    draw_table(&drawing, table);
    template_say(drawing.list, LEFT, table + TABLE_ROW * (strings + 1), PAGE_LEFT, &template_small,
                 "behind the scale length, away from the nut");
    say_radius(&drawing, table + TABLE_ROW * (strings + 2));
    return template_finish(drawing.list, ret_drawing);
}
