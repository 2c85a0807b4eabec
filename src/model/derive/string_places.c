/* SPDX-License-Identifier: MIT */
#include "model/derive/string_places.h"

#include "model/frets/layout.h"
#include "model/reading/record_access.h"

/* String 1 first, as layout.h counts; false where the rule or a gauge is not known. */
static bool find_gauges(const struct record *record, const struct string_facts *facts, int strings,
                        enum layout_rule *ret_rule, double gauge_mm[STRINGS_MAX])
{
    const int rule = record_choice_or(record, reading_key_one(FIELD_NUT_SPREAD), -1);

    if (rule < 0)
        return false;
    for (int s = 1; s <= strings; s++) {
        gauge_mm[s - 1] = facts[s].build.gauge_mm;
        if (!(gauge_mm[s - 1] > 0))
            return false;
    }
    *ret_rule = (enum layout_rule)rule;
    return true;
}

bool string_places_nut(const struct record *record, const struct string_facts *facts, int strings,
                       double ret_centre_mm[STRINGS_MAX + 1])
{
    const struct maybe nut = record_entered_one(record, FIELD_NUT_WIDTH);
    const struct maybe board = record_entered_one(record, FIELD_WIDTH_NUT);
    const struct maybe width = nut.given ? nut : board;
    const struct maybe bass = record_entered_one(record, FIELD_NUT_MARGIN_BASS);
    const struct maybe treble = record_entered_one(record, FIELD_NUT_MARGIN_TREBLE);
    double gauge_mm[STRINGS_MAX];
    enum layout_rule rule;

    return find_gauges(record, facts, strings, &rule, gauge_mm) && width.given && bass.given &&
           treble.given &&
           layout_spread_nut(width.value, bass.value, treble.value, rule, strings, gauge_mm,
                             ret_centre_mm + 1) == STATUS_OK;
}

bool string_places_saddle(const struct record *record, const struct string_facts *facts,
                          int strings, double ret_centre_mm[STRINGS_MAX + 1])
{
    const struct maybe span = record_entered_one(record, FIELD_SADDLE_SPREAD);
    double gauge_mm[STRINGS_MAX];
    enum layout_rule rule;

    return find_gauges(record, facts, strings, &rule, gauge_mm) && span.given &&
           layout_spread_saddle(span.value, rule, strings, gauge_mm, ret_centre_mm + 1) ==
               STATUS_OK;
}
