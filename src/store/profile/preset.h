/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PRESET_H
#define SILLET_STORE_PROFILE_PRESET_H

#include "base/status.h"
#include "model/record.h"

/*
 * Starting points for a new instrument: structure, strings and targets as they are common
 * for a kind. They are the profiles of share/presets, built in; where each number comes
 * from stands there.
 */
struct preset {
    const char *id;    /* "steel-string-14" */
    const char *title; /* "Steel-string flat-top, 14 frets to the body" */
    const char *text;  /* the profile */
};

/* In the order of the files' names; NULL from the first index that is none. */
const struct preset *preset_get(int index);

/* Makes a record of a preset, its id under [targets] preset. STATUS_NO_MEMORY, STATUS_IO;
 * *ret_record must not be initialised. */
enum status preset_record(const struct preset *preset, struct record *ret_record);

#endif
