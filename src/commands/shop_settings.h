/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHOP_SETTINGS_H
#define SILLET_COMMANDS_SHOP_SETTINGS_H

#include "commands/report.h"
#include "store/shop.h"

/* The shop's gauges as shop.ini says; what it does not say is in inches. Adds the first thing
 * that is wrong in it to `words` (may be NULL): "shop.ini:3: ...". */
struct shop_units shop_settings_read(struct strbuf *words);

/* What stands on its sheets; nothing where that cannot be read. */
struct shop_letterhead shop_settings_letterhead(void);

/* What the shop prints on: what its letterhead says, else what goes with its rule's units. */
enum shop_paper shop_settings_paper(const struct shop_letterhead *letterhead,
                                    const struct shop_units *units);

/* Names everything that is wrong in it on stderr: EXIT_FINDINGS when anything is not understood,
 * EXIT_CANNOT when it cannot be read. */
enum exit_code shop_settings_check(void);

#endif
