/* SPDX-License-Identifier: MIT */
#include "model/survey/shelf_glance.h"

const bool *shelf_glance_fields(void)
{
    static const bool fields[FIELD_COUNT_] = {
        [FIELD_FORMAT] = true,
        [FIELD_NAME] = true,
        [FIELD_KIND] = true,
        [FIELD_OWNER] = true,
        [FIELD_MAKER] = true,
        [FIELD_SERIAL] = true,
        /* The tuning's name follows from these. */
        [FIELD_STRINGS] = true,
        [FIELD_STRING_NOTE] = true,
        [FIELD_VISIT_DATE] = true,
        [FIELD_VISIT_TICKET] = true,
        [FIELD_VISIT_PROMISED] = true,
        [FIELD_VISIT_HANDED_OVER] = true,
    };

    return fields;
}

void shelf_glance_make(const struct record *record, struct card *ret_card,
                       struct shelf_facts *ret_facts)
{
    card_glance(record, ret_card);
    shelf_facts_glance(record, ret_facts);
}
