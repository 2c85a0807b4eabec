/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "leaf/leaves.h"
#include "leaf/neck/neck_view.h"
#include "session/app.h"

static const enum field_id fields[] = {
    FIELD_WIDTH_NUT,     FIELD_WIDTH_JOIN,      FIELD_THICKNESS,
    FIELD_BOARD_WOOD,    FIELD_BOARD_MODULUS,   FIELD_CROWN_HEIGHT,
    FIELD_BOARD_END,     FIELD_NECK_WOOD,       FIELD_NECK_MODULUS,
    FIELD_SHAFT_FIRST,   FIELD_SHAFT_HEEL,      FIELD_ROD,
    FIELD_ROD_HEIGHT,    FIELD_ROD_CAP,         FIELD_SLOT_WIDTH,
    FIELD_SLOT_DEPTH,    FIELD_SPLINE_MODULUS,  FIELD_RECUT_WIDTH,
    FIELD_RECUT_DEPTH,   FIELD_TAPE_LAYERS,     FIELD_TAPE_THICKNESS,
    FIELD_JOIN,          FIELD_HEEL_DEPTH,      FIELD_POCKET_LENGTH,
    FIELD_TENON_EDGE,    FIELD_TENON_THICKNESS, FIELD_SHEAR_STRENGTH,
    FIELD_BOLT_DIAMETER, FIELD_BOLT_TORQUE,
};

static void lay(const struct leaf_place *place, struct route *route)
{
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        route_add(route, reading_key_one(fields[i]), (int)i, 0, place->strings);
}

static enum figure_id find_figure(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    switch (cell ? cell->key.field : FIELD_WIDTH_NUT) {
    case FIELD_SHAFT_FIRST:
        return FIGURE_EI_FIRST;
    case FIELD_SHAFT_HEEL:
        return FIGURE_EI_HEEL;
    case FIELD_ROD_HEIGHT:
    case FIELD_ROD_CAP:
    case FIELD_TAPE_LAYERS:
    case FIELD_TAPE_THICKNESS:
        return FIGURE_STOP_DEPTH;
    case FIELD_SLOT_WIDTH:
    case FIELD_SLOT_DEPTH:
        return FIGURE_WOOD_LEFT;
    case FIELD_SPLINE_MODULUS:
        return FIGURE_RELIEF_FILLED;
    case FIELD_RECUT_WIDTH:
    case FIELD_RECUT_DEPTH:
        return FIGURE_WOOD_LEFT_RECUT;
    case FIELD_BOARD_END:
        return FIGURE_TONGUE_WEDGE;
    case FIELD_JOIN:
        return FIGURE_ANGLE;
    case FIELD_HEEL_DEPTH:
        return FIGURE_HEEL_CUT;
    case FIELD_POCKET_LENGTH:
        return FIGURE_POCKET_SHIM;
    case FIELD_TENON_EDGE:
    case FIELD_TENON_THICKNESS:
    case FIELD_SHEAR_STRENGTH:
    case FIELD_BOLT_DIAMETER:
    case FIELD_BOLT_TORQUE:
        return FIGURE_TENON_SAFETY;
    default:
        return FIGURE_RELIEF_PREDICTED;
    }
}

const struct leaf_row leaf_neck = {.lay = lay,
                                   .leaf_figure = FIGURE_RELIEF_PREDICTED,
                                   .figure = find_figure,
                                   .has_figure = leaf_every_cell,
                                   .draw = neck_view_draw};
