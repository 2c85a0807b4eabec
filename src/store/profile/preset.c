/* SPDX-License-Identifier: MIT */
#include "store/profile/preset.h"

#include <string.h>

#include "store/profile/profile_load.h"

static const struct preset presets[] = {
#include "preset_table.inc"
};

const struct preset *preset_get(int index)
{
    const int count = (int)(sizeof presets / sizeof presets[0]);

    return index >= 0 && index < count ? &presets[index] : NULL;
}

const struct preset *preset_find(const char *id)
{
    int i = 0;

    while (preset_get(i) && strcmp(preset_get(i)->id, id) != 0)
        i++;
    return preset_get(i);
}

enum status preset_record(const struct preset *preset, struct record *ret_record)
{
    const struct reading_key key = reading_key_one(FIELD_PRESET);
    struct profile_content content;
    struct bytes bytes;

    bytes_init(&bytes);
    bytes_add_text(&bytes, preset->text);
    enum status status = bytes_status(&bytes);
    if (status == STATUS_OK)
        status = profile_load(&bytes, NULL, &content);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        return status;
    struct record record = content.record;
    record_init(&content.record);
    profile_content_done(&content);
    status = record_put(&record, &key, preset->id, false, NULL);
    if (status != STATUS_OK)
        record_done(&record);
    else
        *ret_record = record;
    return status;
}
