/* SPDX-License-Identifier: MIT */
#include "template/template.h"

#include <string.h>

#include "model/reading/record_access.h"
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

bool template_is_of_reset(enum template_kind kind)
{
    return kind == TEMPLATE_HEEL || kind == TEMPLATE_SHIM || kind == TEMPLATE_TONGUE;
}

bool template_applies(enum template_kind kind, const struct record *record,
                      const struct derived *derived)
{
    const int join = record_choice_or(record, reading_key_one(FIELD_JOIN), JOIN_UNKNOWN);

    /* Over a zero fret the slots only guide the strings, and none is cut to a height. */
    if (!template_is_of_reset(kind))
        return kind != TEMPLATE_NUT || !derived->setup.outfit.zero_fret;
    if (move_set_reset(&derived->moves) == RESET_SADDLE)
        return false;
    if (kind != TEMPLATE_SHIM)
        return join != JOIN_POCKET && join != JOIN_THROUGH;
    return join == JOIN_POCKET;
}

/* Every template needs a board. */
static void need_board(const struct template_source *source)
{
    if (!record_entered_one(source->record, FIELD_SCALE_TREBLE).given ||
        !record_entered_one(source->record, FIELD_SCALE_BASS).given)
        (void)template_need_one(source, FIELD_SCALE);
    (void)template_need_one(source, FIELD_STRINGS);
    (void)template_need_one(source, FIELD_FRETS);
    if (source->missing->length == 0)
        strbuf_add(source->missing, "a possible board (see sillet check)");
}

enum status template_draw(enum template_kind kind, struct place place,
                          const struct derived *derived, struct page_list **ret_drawing,
                          struct strbuf *missing)
{
    struct template_source source = {
        .record = &place.record, .place = place, .derived = derived, .missing = missing};

    survey_layout(&place.record, derived, &source.layout);
    if (!source.layout.known || source.layout.strings < 1) {
        need_board(&source);
        return STATUS_ABSENT;
    }
    return kinds[kind].draw(&source, ret_drawing);
}
