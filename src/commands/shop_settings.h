/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHOP_SETTINGS_H
#define SILLET_COMMANDS_SHOP_SETTINGS_H

#include "commands/report.h"
#include "model/reading/record.h"
#include "store/shop.h"
#include "store/shop_prices.h"

/* The units of the shop's gauges from shop.ini; inches if it does not say. Adds the first error
 * in it to `words` (may be NULL): "shop.ini:3: ...". */
struct shop_units shop_settings_read(struct strbuf *words);

/* Whether they say in which units any gauge reads. True where they cannot be read: then nothing can
 * be put there either. */
bool shop_settings_say_units(void);

/* Makes them say inches or millimetres; failures as shop_write. */
enum status shop_settings_put_units(bool metric);

/* Puts the shop's own targets for a new instrument's kind into its record, and adds to `words` that
 * they are the shop's; nothing if there are none. STATUS_NO_MEMORY; settings that cannot be read
 * have none. */
enum status shop_settings_take_targets(struct record *record, struct strbuf *words);

/* The letterhead of its sheets; empty if it cannot be read. */
struct shop_letterhead shop_settings_letterhead(void);

/* What it asks for each move; nothing if it cannot be read. */
struct prices shop_settings_prices(void);

/* The shop's paper: from its letterhead, else what goes with the units of its rule. */
enum shop_paper shop_settings_paper(const struct shop_letterhead *letterhead,
                                    const struct shop_units *units);

/* Prints every error in shop.ini to stderr: EXIT_FINDINGS if anything is not understood,
 * EXIT_CANNOT if it cannot be read. */
enum exit_code shop_settings_check(void);

#endif
