/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHEET_OPTIONS_H
#define SILLET_COMMANDS_SHEET_OPTIONS_H

#include <stdbool.h>

#include "store/shop.h"

enum sheet_format { SHEET_FORMAT_TEXT, SHEET_FORMAT_PDF, SHEET_FORMAT_SVG };

/* What `sillet sheet` was asked for. */
struct sheet_options {
    const char *path;
    const char *output; /* NULL: the terminal */
    enum sheet_format format;
    enum shop_paper paper; /* unsaid: as the shop's settings have it */
    int visit;             /* 0: the last one */
};

/* Reads the words behind `sillet sheet`. False, after a message that says what is accepted, when
 * they are not understood. */
bool sheet_options_read(int count, char *const *words, struct sheet_options *ret_options);

#endif
