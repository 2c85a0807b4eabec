/* SPDX-License-Identifier: MIT */
#include "leaf/strings/strings_put.h"

#include <string.h>

#include "base/num.h"

static const enum field_id own_fields[] = {
    FIELD_WEIGH_MASS, FIELD_WEIGH_LENGTH, FIELD_LABEL_TENSION, FIELD_LABEL_NOTE, FIELD_LABEL_SCALE};

enum { OWN_FIELDS = sizeof own_fields / sizeof own_fields[0] };

enum status strings_put(struct turn *turn, enum field_id field, int string, const char *text)
{
    const struct reading_key key = reading_key_string(field, string);
    const char *kept = record_text(&turn->app->record, &key);

    if (kept ? text && strcmp(kept, text) == 0 : !text)
        return STATUS_OK;
    return turn_put(turn, key, text, NULL);
}

enum status strings_put_diameter(struct turn *turn, enum field_id field, int string, double mm)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    if (!(mm > 0))
        return strings_put(turn, field, string, NULL);
    num_format_fixed(unit_from_pivot(UNIT_IN, mm), 4, true, &text);
    if (text.length > 0 && memory[text.length - 1] == '0') {
        memory[text.length - 1] = '\0';
        text.length--;
    }
    strbuf_add(&text, " in");
    return strings_put(turn, field, string, memory);
}

bool strings_have_own(const struct app *app, int string)
{
    for (int i = 0; i < OWN_FIELDS; i++) {
        const struct reading_key key = reading_key_string(own_fields[i], string);

        if (record_get(&app->record, &key))
            return true;
    }
    return false;
}

enum status strings_drop_own(struct turn *turn, int string)
{
    enum status status = STATUS_OK;

    for (int i = 0; i < OWN_FIELDS && status == STATUS_OK; i++)
        status = strings_put(turn, own_fields[i], string, NULL);
    return status;
}
