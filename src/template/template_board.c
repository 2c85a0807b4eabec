/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "model/reading/record_access.h"
#include "model/reading/note_name.h"
#include "template/template_inside.h"

enum {
    TOP = 7,      /* mm over the nut's front edge */
    BOTTOM = 3,   /* and below its end: the middle line goes on by that */
    LABELS = 16,  /* left of the board: fret numbers */
    LENGTHS = 62, /* right of it: distances from the nut */
    NARROW = 40,  /* if the board's width is not known */
    RULER = 26,   /* width of a ruler, for a board with two scales */
};

static const double side_dot_mm = 1, inlay_mm = 3;

struct board_drawing {
    const struct template_source *source;
    const struct board *board;
    struct page_list *list;
    struct maybe width_nut, width_join;
    double left_mm; /* x of the board's bass edge at its widest */
    double width_mm;
    double end_mm; /* of the board, from the nut */
};

static double width_at(const struct board_drawing *drawing, double x_mm)
{
    const struct board *board = drawing->board;

    if (!drawing->width_nut.given)
        return NARROW;
    if (!drawing->width_join.given || board->join_fret < 1)
        return drawing->width_nut.value;
    const double join_mm = board->station_mm[LANE_MIDDLE][board->join_fret];
    const double width_mm = drawing->width_nut.value +
                            (drawing->width_join.value - drawing->width_nut.value) * x_mm / join_mm;
    return fmax(width_mm, 0);
}

static double centre_x(const struct board_drawing *drawing)
{
    return drawing->left_mm + drawing->width_mm / 2;
}

static void line_across(const struct board_drawing *drawing, double x_mm,
                        const struct page_stroke *stroke)
{
    const double half = width_at(drawing, x_mm) / 2, middle = centre_x(drawing), y = TOP + x_mm;

    page_draw_line(drawing->list, (struct page_point){middle - half, y},
                   (struct page_point){middle + half, y}, stroke);
}

static void edges(const struct board_drawing *drawing)
{
    for (int side = -1; side <= 1; side += 2) {
        const double near = width_at(drawing, 0) / 2, far = width_at(drawing, drawing->end_mm) / 2;

        page_draw_line(drawing->list, (struct page_point){centre_x(drawing) + side * near, TOP},
                       (struct page_point){centre_x(drawing) + side * far, TOP + drawing->end_mm},
                       &template_cut);
    }
    page_draw_line(drawing->list, (struct page_point){centre_x(drawing), TOP - 4},
                   (struct page_point){centre_x(drawing), TOP + drawing->end_mm + BOTTOM},
                   &template_guide);
}

static void spot(const struct board_drawing *drawing, double x, double y, double radius)
{
    page_draw_circle(drawing->list, (struct page_point){x, y}, radius, &template_cut);
    page_draw_line(drawing->list, (struct page_point){x - radius / 2, y},
                   (struct page_point){x + radius / 2, y}, &template_guide);
    page_draw_line(drawing->list, (struct page_point){x, y - radius / 2},
                   (struct page_point){x, y + radius / 2}, &template_guide);
}

/* Between the distances of the frets on either side, smaller. */
static void say_dot(const struct board_drawing *drawing, double x_mm)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, "dot ");
    template_add_length(&text, x_mm);
    template_say(drawing->list, drawing->left_mm + drawing->width_mm + 4, TOP + x_mm + 0.8,
                 PAGE_LEFT, &template_small, memory);
}

/* The octave frets have two. */
static void dots(const struct board_drawing *drawing, int fret)
{
    const double x_mm = drawing->source->layout.middle[fret].dot_mm, y = TOP + x_mm;
    const double width = width_at(drawing, x_mm), middle = centre_x(drawing);
    const double apart = fret % 12 == 0 ? width / 4 : 0, beside = fret % 12 == 0 ? 2.5 : 0;

    for (int i = 0; i < (fret % 12 == 0 ? 2 : 1); i++) {
        const int side = i == 0 ? -1 : 1;

        spot(drawing, middle + side * apart, y, inlay_mm);
        spot(drawing, middle - width / 2, y + side * beside, side_dot_mm);
    }
    say_dot(drawing, x_mm);
}

static void label_fret(const struct board_drawing *drawing, int fret, double x_mm)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);
    const double y = TOP + x_mm + 1;

    strbuf_addf(&text, "%d", fret);
    template_say(drawing->list, drawing->left_mm - 4, y, PAGE_RIGHT, &template_strong, memory);
    strbuf_clear(&text);
    template_add_length(&text, x_mm);
    template_say(drawing->list, drawing->left_mm + drawing->width_mm + 4, y, PAGE_LEFT,
                 &template_plain, memory);
}

/* Straight lines from the string's nut to the saddle, whose spread is centred on the board; whether
 * the readings give any. */
static bool draw_strings(const struct board_drawing *drawing)
{
    const struct survey_layout *layout = &drawing->source->layout;
    const double nut_mm = width_at(drawing, 0), saddle_mm = drawing->board->scale_mm[LANE_MIDDLE];
    const double span_mm = layout->string[1].saddle_centre_mm.value;
    bool any = false;

    for (int s = 1; s <= layout->strings; s++) {
        const struct string_layout *of = &layout->string[s];

        if (!of->nut_line_mm.given || !of->saddle_centre_mm.given || !drawing->width_nut.given)
            continue;
        const double at_nut = centre_x(drawing) + of->nut_line_mm.value - nut_mm / 2;
        const double at_saddle = centre_x(drawing) + of->saddle_centre_mm.value - span_mm / 2;
        const double slope = (at_saddle - at_nut) / saddle_mm;

        any = true;
        page_draw_line(drawing->list,
                       (struct page_point){at_nut + slope * of->start_mm, TOP + of->start_mm},
                       (struct page_point){at_nut + slope * drawing->end_mm, TOP + drawing->end_mm},
                       &template_guide);
    }
    return any;
}

static void say_legend(const struct board_drawing *drawing, bool strings)
{
    const bool fretless = drawing->source->derived->setup.outfit.fretless;
    const char *const lines[] = {
        fretless ? "its front edge; lines, no slots" : "its front edge; frets: mid-slot",
        "dots and inlays: the usual frets,",
        "midway; the crosses count, not the size",
        strings ? "grey: strings, saddle centred" : "grey: the middle",
    };

    for (int i = 0; i < (int)(sizeof lines / sizeof lines[0]); i++)
        template_say(drawing->list, drawing->left_mm + drawing->width_mm + 4, TOP + 1 + 4 * i,
                     PAGE_LEFT, &template_small, lines[i]);
}

static void draw_frets(const struct board_drawing *drawing)
{
    const struct layout_fret *fret = drawing->source->layout.middle;

    edges(drawing);
    const bool strings = draw_strings(drawing);
    line_across(drawing, 0, &template_cut);
    template_say(drawing->list, drawing->left_mm - 4, TOP + 1, PAGE_RIGHT, &template_strong, "nut");
    say_legend(drawing, strings);
    for (int n = 1; n <= drawing->board->frets; n++) {
        line_across(drawing, fret[n].from_nut_mm, &template_cut);
        label_fret(drawing, n, fret[n].from_nut_mm);
        if (survey_layout_has_dot(n))
            dots(drawing, n);
    }
    line_across(drawing, drawing->end_mm, &template_guide);
}

/* --- strings of different scales: one ruler for each of the outer two --- */

static void draw_ruler(const struct board_drawing *drawing, int string, double x, int side)
{
    const struct layout_fret *fret = drawing->source->layout.string[string].fret;
    char memory[64];
    struct strbuf text = STRBUF(memory);
    const double to = x + side * RULER / 2.0;

    page_draw_line(drawing->list, (struct page_point){x, TOP},
                   (struct page_point){x, TOP + fret[drawing->board->frets].from_nut_mm},
                   &template_cut);
    for (int n = 0; n <= drawing->board->frets; n++) {
        const double y = TOP + fret[n].from_nut_mm;

        page_draw_line(drawing->list, (struct page_point){x, y}, (struct page_point){to, y},
                       &template_cut);
        strbuf_clear(&text);
        if (n == 0) {
            note_name_add_string(&text, drawing->source->record, string);
            strbuf_add(&text, ", nut front");
        } else {
            strbuf_addf(&text, "%d   ", n);
            template_add_length(&text, fret[n].from_nut_mm);
        }
        template_say(drawing->list, to + side * 2, y + 1, side < 0 ? PAGE_RIGHT : PAGE_LEFT,
                     &template_plain, memory);
        if (n > 0 && survey_layout_has_dot(n))
            spot(drawing, x, TOP + fret[n].dot_mm, side_dot_mm);
    }
}

static void draw_rulers(const struct board_drawing *drawing)
{
    const double middle = centre_x(drawing);

    draw_ruler(drawing, drawing->board->strings, middle - 4, -1);
    draw_ruler(drawing, 1, middle + 4, 1);
    template_say(drawing->list, middle, TOP - 5, PAGE_CENTRE, &template_small,
                 drawing->source->derived->setup.outfit.fretless
                     ? "lay each scale along its own string: a line goes through both marks"
                     : "lay each scale along its own string: a fret goes through both marks");
}

static double longest(const struct board_drawing *drawing)
{
    const int frets = drawing->board->frets;
    double end_mm = drawing->source->layout.middle[frets].from_nut_mm;

    for (int s = 1; s <= drawing->board->strings; s++)
        end_mm = fmax(end_mm, drawing->source->layout.string[s].fret[frets].from_nut_mm);
    return end_mm;
}

static void find_size(struct board_drawing *drawing)
{
    const struct record *record = drawing->source->record;
    const struct maybe end = record_entered_one(record, FIELD_BOARD_END);
    const double last_mm = longest(drawing);

    drawing->width_nut = record_entered_one(record, FIELD_WIDTH_NUT);
    drawing->width_join = record_entered_one(record, FIELD_WIDTH_JOIN);
    drawing->end_mm = end.given && end.value > last_mm ? end.value : last_mm;
    drawing->width_mm = fmax(width_at(drawing, 0), width_at(drawing, drawing->end_mm));
    drawing->left_mm = LABELS;
    if (drawing->source->layout.multi_scale) {
        drawing->left_mm = LENGTHS;
        drawing->width_mm = NARROW;
        drawing->end_mm = last_mm;
    }
}

enum status template_draw_board(const struct template_source *source,
                                struct page_list **ret_drawing)
{
    struct board_drawing drawing = {.source = source, .board = &source->derived->setup.board};

    if (drawing.board->frets < 1) {
        if (template_need_one(source, FIELD_FRETS))
            strbuf_add(source->missing, "a board with frets");
        return STATUS_ABSENT;
    }
    find_size(&drawing);
    const enum status status = template_begin(drawing.left_mm + drawing.width_mm + LENGTHS,
                                              TOP + drawing.end_mm + BOTTOM, &drawing.list);
    if (status != STATUS_OK)
        return status;
    if (source->layout.multi_scale)
        draw_rulers(&drawing);
    else
        draw_frets(&drawing);
    return template_finish(drawing.list, ret_drawing);
}
