/* SPDX-License-Identifier: MIT */
#include "template/template.h"

#include <string.h>

#include "base/num.h"
#include "base/unit.h"
#include "model/note_name.h"
#include "model/record_access.h"
#include "template/template_inside.h"

typedef enum status draw(const struct template_source *source, struct page_list **ret_drawing);

static const struct {
    const char *name, *title, *caution;
    draw *draw;
} kinds[TEMPLATE_COUNT_] = {
    [TEMPLATE_BOARD] = {"board", "Frets, side dots and inlays",
                        "Slotting and drilling: clamp the board, hands behind the edge; ebony and "
                        "rosewood dust: respirator.",
                        template_draw_board},
    [TEMPLATE_NUT] = {"nut", "Nut slots",
                      "Bone and shell dust: respirator. Slacken the strings first.",
                      template_draw_nut},
    [TEMPLATE_SADDLE] = {"saddle", "Saddle contacts",
                         "Slacken the strings first. Bone dust: respirator.", template_draw_saddle},
    [TEMPLATE_HEEL] = {"heel", "Heel taper",
                       "Chisel work: clamp the neck, hands behind the edge. Know the finish first.",
                       template_draw_heel},
    [TEMPLATE_SHIM] = {"shim", "Pocket shim",
                       "Plane and saw: hands behind the edge. Slacken the strings first.",
                       template_draw_shim},
    [TEMPLATE_TONGUE] = {"tongue", "Wedge under the tongue",
                         "Heat and steam burn, and lift finish and glue. Plane: hands behind the "
                         "edge.",
                         template_draw_tongue},
};

const struct page_stroke template_cut = {.width_mm = 0.15, .grey = 0};
const struct page_stroke template_guide = {.width_mm = 0.1, .grey = 0.5};
const struct page_stroke template_was = {.width_mm = 0.15, .line = PAGE_LINE_DOTTED, .grey = 0.2};
const struct page_stroke template_predicted = {
    .width_mm = 0.15, .line = PAGE_LINE_DASHED, .grey = 0.2};
const struct page_font template_plain = {.size_mm = 2.9};
const struct page_font template_strong = {.size_mm = 3.2, .weight = PAGE_BOLD};
const struct page_font template_small = {.size_mm = 2.4, .grey = 0.25};

const char *template_name(enum template_kind kind)
{
    return kinds[kind].name;
}

const char *template_title(enum template_kind kind)
{
    return kinds[kind].title;
}

const char *template_caution(enum template_kind kind)
{
    return kinds[kind].caution;
}

bool template_find(const char *name, enum template_kind *ret_kind)
{
    for (int kind = 0; kind < TEMPLATE_COUNT_; kind++)
        if (strcmp(kinds[kind].name, name) == 0) {
            *ret_kind = (enum template_kind)kind;
            return true;
        }
    return false;
}

bool template_applies(enum template_kind kind, const struct record *record,
                      const struct derived *derived)
{
    const int join = record_choice_or(record, reading_key_one(FIELD_JOIN), JOIN_UNKNOWN);

    if (kind != TEMPLATE_HEEL && kind != TEMPLATE_TONGUE && kind != TEMPLATE_SHIM)
        return true;
    if (derived->verdict == RESET_SADDLE)
        return false;
    if (kind != TEMPLATE_SHIM)
        return join != JOIN_POCKET && join != JOIN_THROUGH;
    return join == JOIN_POCKET;
}

/* What every one of them stands on. */
static void need_board(const struct template_source *source)
{
    if (!record_entered_one(source->record, FIELD_SCALE_TREBLE).given ||
        !record_entered_one(source->record, FIELD_SCALE_BASS).given)
        (void)template_need_one(source, FIELD_SCALE);
    (void)template_need_one(source, FIELD_STRINGS);
    (void)template_need_one(source, FIELD_FRETS);
    if (source->missing->length == 0)
        strbuf_add(source->missing, "a board that can be (see sillet check)");
}

enum status template_draw(enum template_kind kind, const struct record *record,
                          const struct derived *derived, struct page_list **ret_drawing,
                          struct strbuf *missing)
{
    struct template_source source = {.record = record, .derived = derived, .missing = missing};

    survey_layout(record, derived, &source.layout);
    if (!source.layout.known || source.layout.strings < 1) {
        need_board(&source);
        return STATUS_ABSENT;
    }
    return kinds[kind].draw(&source, ret_drawing);
}

bool template_need(const struct template_source *source, struct reading_key key)
{
    double value;

    if (record_value(source->record, &key, &value))
        return true;
    if (source->missing->length > 0)
        strbuf_add(source->missing, ", ");
    reading_key_section(&key, source->missing);
    strbuf_add(source->missing, ".");
    reading_key_name(&key, source->missing);
    return false;
}

bool template_need_one(const struct template_source *source, enum field_id field)
{
    return template_need(source, reading_key_one(field));
}

enum status template_begin(double width_mm, double height_mm, struct page_list **ret_drawing)
{
    const enum status status = page_list_new((struct page_size){width_mm, height_mm}, ret_drawing);

    if (status == STATUS_OK)
        page_begin(*ret_drawing);
    return status;
}

enum status template_finish(struct page_list *drawing, struct page_list **ret_drawing)
{
    const enum status status = page_list_status(drawing);

    if (status == STATUS_OK)
        *ret_drawing = drawing;
    else
        page_list_free(drawing);
    return status;
}

void template_add_length(struct strbuf *out, double mm)
{
    num_format_fixed(mm, 2, false, out);
    strbuf_add(out, " mm  ");
    num_format_fixed(unit_from_pivot(UNIT_IN, mm), 3, true, out);
    strbuf_add(out, " in");
}

void template_say(struct page_list *drawing, double x_mm, double y_mm, enum page_align align,
                  const struct page_font *font, const char *text)
{
    page_draw_text(drawing, (struct page_point){x_mm, y_mm}, align, 0, font, text);
}

void template_add_string(struct strbuf *out, const struct record *record, int string)
{
    char memory[16];
    struct strbuf note = STRBUF(memory);

    strbuf_addf(out, "%d", string);
    if (note_name_of(record, string, &note))
        strbuf_addf(out, " %s", memory);
}
