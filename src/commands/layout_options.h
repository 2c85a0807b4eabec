/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_LAYOUT_OPTIONS_H
#define SILLET_COMMANDS_LAYOUT_OPTIONS_H

#include "template/template.h"

struct layout_options {
    const char *path, *output;
    bool svg;
    struct page_size paper;       /* 0 by 0: what goes with the shop's units */
    bool named;                   /* some were asked for by name */
    bool wanted[TEMPLATE_COUNT_]; /* these; all where none was named */
};

/* False after a message on standard error that says what is wrong and what is accepted. */
bool layout_options_read(int count, char *const *words, struct layout_options *ret_options);

#endif
