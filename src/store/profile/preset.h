/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PRESET_H
#define SILLET_STORE_PROFILE_PRESET_H

#include "base/status.h"
#include "model/reading/record.h"

/*
 * Starting points for a new instrument: structure, strings and targets that are common for its
 * kind. They are the profiles of share/presets, built in. The comments there say where each number
 * comes from.
 */
struct preset {
    const char *id;    /* "steel-string-14" */
    const char *title; /* "Steel-string flat-top, 14 frets to the body" */
    const char *also;  /* what else it is called, ; between */
    const char *text;  /* the profile */
};

/* In the order of the file names; NULL if there is no preset of that index. */
const struct preset *preset_get(int index);

/* The preset of that id; NULL if there is none. */
const struct preset *preset_find(const char *id);

/* Makes a record of a preset, with its id as `preset` in [targets]. STATUS_NO_MEMORY, STATUS_IO.
 * *ret_record is initialised on success only. */
enum status preset_record(const struct preset *preset, struct record *ret_record);

#endif
