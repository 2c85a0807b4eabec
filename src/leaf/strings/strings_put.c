/* SPDX-License-Identifier: MIT */
#include "leaf/strings/strings_put.h"

#include <string.h>

#include "base/num.h"

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
