/* SPDX-License-Identifier: MIT */
#include "template/template_inside.h"

#include "base/num.h"
#include "base/unit.h"
#include "model/reading/record_access.h"

const struct page_stroke template_cut = {.width_mm = 0.15, .grey = 0};
const struct page_stroke template_guide = {.width_mm = 0.1, .grey = 0.5};
const struct page_stroke template_was = {.width_mm = 0.15, .line = PAGE_LINE_DOTTED, .grey = 0.2};
const struct page_stroke template_predicted = {
    .width_mm = 0.15, .line = PAGE_LINE_DASHED, .grey = 0.2};
const struct page_font template_plain = {.size_mm = 2.9};
const struct page_font template_strong = {.size_mm = 3.2, .weight = PAGE_BOLD};
const struct page_font template_small = {.size_mm = 2.4, .grey = 0.25};

/* The leaf that a reading is entered on. */
static const char *leaf_of(const struct reading_key *key)
{
    if (key->visit > 0)
        return "Bench";
    if (key->string > 0)
        return "Strings";
    return key->field == FIELD_HEEL_DEPTH || key->field == FIELD_POCKET_LENGTH ? "Neck" : "Intake";
}

bool template_need(const struct template_source *source, struct reading_key key)
{
    if (record_entered(source->record, key).given)
        return true;
    if (source->missing->length > 0)
        strbuf_add(source->missing, "; ");
    strbuf_add(source->missing, field_get(key.field)->label);
    if (key.string > 0)
        strbuf_addf(source->missing, ", string %d", key.string);
    strbuf_addf(source->missing, ", on %s", leaf_of(&key));
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
