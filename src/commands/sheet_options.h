/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHEET_OPTIONS_H
#define SILLET_COMMANDS_SHEET_OPTIONS_H

#include <stdbool.h>

#include "commands/file_words.h"
#include "sheet/label.h"
#include "store/shop.h"

/* What is made of a visit. */
enum sheet_paper_kind { SHEET_FOR_OWNER, SHEET_ESTIMATE, SHEET_CARD, SHEET_LABEL };

enum sheet_format { SHEET_FORMAT_TEXT, SHEET_FORMAT_PDF, SHEET_FORMAT_SVG };

/* The options of `sillet sheet`. */
struct sheet_options {
    struct file_words files;
    const char *output; /* NULL for the terminal; for several files, see file_words_output */
    enum sheet_format format;
    enum shop_paper paper; /* if unsaid, the shop's */
    enum sheet_paper_kind kind;
    enum label_size label; /* of SHEET_LABEL */
    int visit;             /* 0 for the last one */
};

/* Reads the words after `sillet sheet`. False if they are not understood, after a message that says
 * what is accepted. The caller releases the files. */
bool sheet_options_read(int count, char *const *words, struct sheet_options *ret_options);

#endif
