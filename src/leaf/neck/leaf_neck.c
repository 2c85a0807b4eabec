/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "leaf/leaves.h"
#include "leaf/neck/neck_view.h"
#include "session/app.h"

/* The cells, and the figure that `?` explains of each. */
static const struct {
    enum field_id field;
    enum figure_id figure;
} cells[] = {
    {FIELD_WIDTH_NUT, FIGURE_RELIEF_PREDICTED},
    {FIELD_WIDTH_JOIN, FIGURE_RELIEF_PREDICTED},
    {FIELD_THICKNESS, FIGURE_RELIEF_PREDICTED},
    {FIELD_BOARD_WOOD, FIGURE_RELIEF_PREDICTED},
    {FIELD_BOARD_MODULUS, FIGURE_RELIEF_PREDICTED},
    {FIELD_CROWN_HEIGHT, FIGURE_RELIEF_PREDICTED},
    {FIELD_BOARD_END, FIGURE_TONGUE_WEDGE},
    {FIELD_NECK_WOOD, FIGURE_RELIEF_PREDICTED},
    {FIELD_NECK_MODULUS, FIGURE_RELIEF_PREDICTED},
    {FIELD_SHAFT_FIRST, FIGURE_EI_FIRST},
    {FIELD_SHAFT_HEEL, FIGURE_EI_HEEL},
    {FIELD_ROD, FIGURE_ROD_HOLDS},
    {FIELD_ROD_HEIGHT, FIGURE_STOP_DEPTH},
    {FIELD_ROD_CAP, FIGURE_STOP_DEPTH},
    {FIELD_SLOT_WIDTH, FIGURE_WOOD_LEFT},
    {FIELD_SLOT_DEPTH, FIGURE_WOOD_LEFT},
    {FIELD_SPLINE_MODULUS, FIGURE_RELIEF_FILLED},
    {FIELD_RECUT_WIDTH, FIGURE_WOOD_LEFT_RECUT},
    {FIELD_RECUT_DEPTH, FIGURE_WOOD_LEFT_RECUT},
    {FIELD_TAPE_LAYERS, FIGURE_STOP_DEPTH},
    {FIELD_TAPE_THICKNESS, FIGURE_STOP_DEPTH},
    {FIELD_JOIN, FIGURE_ANGLE},
    {FIELD_HEEL_DEPTH, FIGURE_HEEL_CUT},
    {FIELD_POCKET_LENGTH, FIGURE_POCKET_SHIM},
    {FIELD_TENON_EDGE, FIGURE_TENON_SAFETY},
    {FIELD_TENON_THICKNESS, FIGURE_TENON_SAFETY},
    {FIELD_SHEAR_STRENGTH, FIGURE_TENON_SAFETY},
    {FIELD_BOLT_DIAMETER, FIGURE_TENON_SAFETY},
    {FIELD_BOLT_TORQUE, FIGURE_TENON_SAFETY},
};

static void lay(const struct leaf_place *place, struct route *route)
{
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++)
        route_add(route, reading_key_one(cells[i].field), (int)i, 0, place->strings);
}

static enum figure_id find_figure(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    return cell ? cells[cell->row].figure : FIGURE_RELIEF_PREDICTED;
}

const struct leaf_row leaf_neck = {.lay = lay,
                                   .shows = DERIVE_FIGURES,
                                   .leaf_figure = FIGURE_RELIEF_PREDICTED,
                                   .figure = find_figure,
                                   .has_figure = leaf_every_cell,
                                   .draw = neck_view_draw};
