/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_LAYOUT_OPTIONS_H
#define SILLET_COMMANDS_LAYOUT_OPTIONS_H

#include "commands/file_words.h"
#include "template/template.h"

struct layout_options {
    struct file_words files;
    const char *output; /* for several files, see file_words_output */
    bool svg;
    struct page_size paper;       /* 0 by 0: the shop's paper */
    int visit, pass;              /* 0: not said */
    bool named;                   /* templates were asked for by name */
    bool wanted[TEMPLATE_COUNT_]; /* these; all if none was named */
};

/* Reads the words after "layout". False after a message on standard error that says what is wrong
 * and what is accepted. The caller releases the files. */
bool layout_options_read(int count, char *const *words, struct layout_options *ret_options);

#endif
