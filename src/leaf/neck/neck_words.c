/* SPDX-License-Identifier: MIT */
#include "leaf/neck/neck_words.h"

static bool has(const struct derived *derived, enum figure_id figure)
{
    return figures_get(&derived->figures, figure, 0).given;
}

void neck_words_next(const struct derived *derived, struct strbuf *out)
{
    const struct neck_facts *neck = &derived->neck;

    if (derived->setup.outfit.lap) {
        strbuf_add(out, "played with a bar: no curve to work out");
    } else if (!derived->setup.board.has_curve) {
        strbuf_add(out, "next: scale, frets and join (Intake)");
    } else if (neck->lacks_count > 0) {
        strbuf_add(out, "next: ");
        strbuf_add(out, field_get(neck->lacks[0])->label);
        if (neck->lacks[0] == FIELD_BOARD_MODULUS || neck->lacks[0] == FIELD_NECK_MODULUS)
            strbuf_add(out, ", or wood");
        if (neck->lacks_count > 1)
            strbuf_addf(out, ", %d more", neck->lacks_count - 1);
    } else if (!has(derived, FIGURE_EI_FIRST) || !has(derived, FIGURE_EI_HEEL)) {
        strbuf_add(out, "a slot this size leaves no neck");
    } else if (!has(derived, FIGURE_TENSION_TOTAL)) {
        strbuf_add(out, "next: every string's tension (Strings)");
    } else if (!has(derived, FIGURE_RELIEF_PREDICTED)) {
        strbuf_add(out, "next: crown height; action, gaps (Bench)");
    } else if (outfit_asks(&derived->setup.outfit, FIELD_EXPOSURE_BASS, 0) &&
               move_set_reset(&derived->moves) == RESET_UNKNOWN) {
        strbuf_add(out, "next: both exposures (Bench)");
    }
}

static const char *join_caution(enum neck_join join)
{
    switch (join) {
    case JOIN_GLUED:
        return "steam scalds, heat lifts finish: gloves; chisel: cut away from you";
    case JOIN_BOLTED:
    case JOIN_POCKET:
        return "strings slack first; chisel: cut away from the hand that holds";
    case JOIN_THROUGH:
        return "a neck that runs through does not come off: ask a qualified repairer";
    case JOIN_UNKNOWN:
        break;
    }
    return "enter the neck join before anything is steamed, heated or cut";
}

static const char *work_caution(enum field_id field, enum neck_join join)
{
    switch (field) {
    case FIELD_ROD:
    case FIELD_ROD_HEIGHT:
    case FIELD_ROD_CAP:
    case FIELD_SLOT_WIDTH:
    case FIELD_SLOT_DEPTH:
    case FIELD_RECUT_WIDTH:
    case FIELD_RECUT_DEPTH:
    case FIELD_TAPE_LAYERS:
    case FIELD_TAPE_THICKNESS:
        return "router: clamp neck and jig, shallow passes, hands clear; eyes, lungs";
    case FIELD_SPLINE_MODULUS:
        return "glue: ventilate, gloves; a spline is worth no more than its glue line";
    case FIELD_THICKNESS:
    case FIELD_BOARD_WOOD:
    case FIELD_BOARD_MODULUS:
        return "heat burns and lifts finish; dust of ebony and rosewood sensitises";
    case FIELD_JOIN:
    case FIELD_HEEL_DEPTH:
    case FIELD_POCKET_LENGTH:
    case FIELD_BOARD_END:
        return join_caution(join);
    case FIELD_TENON_EDGE:
    case FIELD_TENON_THICKNESS:
    case FIELD_SHEAR_STRENGTH:
    case FIELD_BOLT_DIAMETER:
    case FIELD_BOLT_TORQUE:
        return "neck bolt: strings slack, stop when it binds; short grain splits at once";
    default:
        return "woods differ by a fifth from the mean used here; the gauge decides";
    }
}

static bool found(const struct derived *derived, enum finding_id id)
{
    for (int i = 0; i < derived->findings.count; i++)
        if (derived->findings.list[i].id == id)
            return true;
    return false;
}

const char *neck_words_caution(const struct derived *derived, enum field_id field)
{
    if (found(derived, FINDING_WOOD_THIN_RECUT))
        return "the slot planned would leave under 3 mm of wood: cut it shallower";
    if (found(derived, FINDING_WOOD_THIN))
        return "under 3 mm of wood under the slot: no deeper, and no hard turn of the rod";
    if (found(derived, FINDING_TENON_WEAK))
        return "the short grain before the bolt is weaker than the bolt's pull";
    if (found(derived, FINDING_TENON_RISK))
        return "the short grain may give way before the bolt is tight: tighten it less";
    return work_caution(field, derived->neck.join);
}

const char *neck_words_verdict(enum reset_verdict verdict)
{
    switch (verdict) {
    case RESET_SADDLE:
        return "the saddle is enough: no reset";
    case RESET_NECK:
        return "too little saddle: reset the neck angle";
    case RESET_UNKNOWN:
        break;
    }
    return "";
}
