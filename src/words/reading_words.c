/* SPDX-License-Identifier: MIT */
#include "words/reading_words.h"

#include "model/reading/field.h"

void reading_words_add_name(struct strbuf *out, const struct reading_key *key,
                            const struct outfit *outfit)
{
    const struct field *field = field_get(key->field);

    strbuf_add(out, field->label);
    if (key->field == FIELD_RELIEF_AT)
        strbuf_addf(out, " %d", key->fret);
    else if (field->per == PER_FRET || field->per == PER_STRING_FRET)
        strbuf_addf(out, " at %s %d", outfit_fret_noun(outfit), key->fret);
    if (key->string > 0 && outfit_is_of_course(key->field))
        strbuf_addf(out, ", %s %d", outfit_noun(outfit, key->string),
                    outfit_number(outfit, key->string));
    else if (key->string > 0)
        strbuf_addf(out, ", string %d", key->string);
}

void reading_words_add_place(struct strbuf *out, const struct reading_key *key)
{
    if (reading_key_is_change(key))
        strbuf_addf(out, "from visit %d on, ", key->visit);
    else if (key->visit > 0)
        strbuf_addf(out, "visit %d, ", key->visit);
    if (key->part > 0)
        strbuf_addf(out, "%s %d, ",
                    field_get(key->field)->section == SECTION_PASS ? "pass" : "work line",
                    key->part);
}
