/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_FIGURES_OPTIONS_H
#define SILLET_COMMANDS_FIGURES_OPTIONS_H

#include <stdbool.h>

#include "commands/file_words.h"
#include "model/survey/survey_what_if.h"

/* The options of `sillet figures`. */
struct figures_options {
    struct file_words files;
    bool all_visits; /* every visit and pass as CSV, nothing else */
    bool more;       /* also everything else that the model can say */
    bool what_if;    /* another tuning or set, in `change` */
    struct what_if_change change;
};

/* Reads the words after `sillet figures`. False if they are not understood, after a message that
 * says what is accepted. The caller releases the files. */
bool figures_options_read(int count, char *const *words, struct figures_options *ret_options);

#endif
