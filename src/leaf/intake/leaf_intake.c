/* SPDX-License-Identifier: MIT */
#include "leaf/intake/price_question.h"
#include "leaf/leaves.h"
#include "screen/form_view.h"

#include <stddef.h>

/* What is entered once for an instrument. On the leaf it comes below the fields of the visit. */
static const enum field_id instrument_fields[] = {
    FIELD_NAME,
    FIELD_KIND,
    FIELD_MAKER,
    FIELD_SERIAL,
    FIELD_BUILT,
    FIELD_OWNER,
    FIELD_CONTACT,
    FIELD_NOTE,
    FIELD_SCALE,
    FIELD_SCALE_TREBLE,
    FIELD_SCALE_BASS,
    FIELD_STRINGS,
    FIELD_COURSES,
    FIELD_FRETS,
    FIELD_FRETLESS,
    FIELD_JOIN_FRET,
    FIELD_HEEL_FRET,
    FIELD_ACTION_FRET,
    FIELD_RELIEF_FRET,
    FIELD_RELIEF_END_LOW,
    FIELD_RELIEF_END_HIGH,
    FIELD_BOARD_END,
    FIELD_RADIUS_NUT,
    FIELD_RADIUS_END,
    FIELD_WIDTH_NUT,
    FIELD_WIDTH_JOIN,
    FIELD_CROWN_HEIGHT,
    FIELD_CROWN_WIDTH,
    FIELD_NUT_KIND,
    FIELD_NUT_WIDTH,
    FIELD_NUT_MARGIN_BASS,
    FIELD_NUT_MARGIN_TREBLE,
    FIELD_NUT_SPREAD,
    FIELD_COURSE_GAP,
    FIELD_BRIDGE_KIND,
    FIELD_THREAD,
    FIELD_EXPOSURE_MIN,
    FIELD_EXPOSURE_NEW,
    FIELD_ANCHOR_DISTANCE,
    FIELD_ANCHOR_DROP,
    FIELD_SADDLE_SPREAD,
    FIELD_SADDLE_WIDTH,
    FIELD_POST_SPREAD,
    FIELD_POST_TO_SADDLE,
    FIELD_POST_TO_REST,
    FIELD_INTONATION_THREAD,
    FIELD_FLOATING,
    FIELD_JOIN,
    FIELD_ROD,
    FIELD_TARGET_RELIEF,
    FIELD_TARGET_ACTION_BASS,
    FIELD_TARGET_ACTION_TREBLE,
    FIELD_TARGET_GAP_BASS,
    FIELD_TARGET_GAP_TREBLE,
    FIELD_TARGET_HEIGHT_NUT,
    FIELD_TARGET_HEIGHT_SADDLE,
    FIELD_HEIGHT_TOLERANCE,
    FIELD_RELIEF_TOLERANCE,
    FIELD_ACTION_TOLERANCE,
    FIELD_GAP_TOLERANCE,
    FIELD_CENTS_TOLERANCE,
    FIELD_TOUCH,
    FIELD_HOME_HUMIDITY_LOW,
    FIELD_HOME_HUMIDITY_HIGH,
    FIELD_FEELER_STEP,
    FIELD_RULE_STEP,
    FIELD_TUNER_STEP,
};

static const enum field_id visit_fields[] = {
    FIELD_VISIT_DATE, FIELD_VISIT_TICKET, FIELD_VISIT_REASON, FIELD_VISIT_PROMISED,
    FIELD_HUMIDITY,   FIELD_TEMPERATURE,  FIELD_VISIT_NOTE,   FIELD_VISIT_FOR_OWNER,
};

/* What was entered is shown, though another kind of nut no longer asks for it. */
static bool is_asked(const struct leaf_place *place, enum field_id field)
{
    const struct reading_key key = reading_key_one(field);

    return outfit_asks(&place->outfit, field, 0) || record_get(place->record, &key);
}

static void lay(const struct leaf_place *place, struct route *route)
{
    const struct reading_key handed = reading_key_visit(FIELD_VISIT_HANDED_OVER, place->visit);
    int row = 0;

    for (size_t i = 0; i < sizeof visit_fields / sizeof visit_fields[0]; i++)
        route_add(route, reading_key_visit(visit_fields[i], place->visit), row++, 0,
                  place->strings);
    /* A command files the day; once it is there it can be corrected. */
    if (record_get(place->record, &handed))
        route_add(route, handed, row++, 0, place->strings);
    for (size_t i = 0; i < sizeof instrument_fields / sizeof instrument_fields[0]; i++)
        if (is_asked(place, instrument_fields[i]))
            route_add(route, reading_key_one(instrument_fields[i]), row++, 0, place->strings);
}

static const char *draw(const struct pen *pen, const struct app *app, int row, int rows)
{
    const struct form_area all = {
        .row = row, .rows = rows, .column = 0, .width = pen->frame->columns};

    form_view_draw(pen, app, &all, 0, app->route.count - 1);
    return "";
}

const struct leaf_row leaf_intake = {.state_size = sizeof(struct intake_state),
                                     .lay = lay,
                                     .shows = DERIVE_MOVES,
                                     .leaf_figure = FIGURE_RELIEF,
                                     .draw = draw};
