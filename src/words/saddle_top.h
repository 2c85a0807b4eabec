/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_SADDLE_TOP_H
#define SILLET_WORDS_SADDLE_TOP_H

#include "model/derive/derive.h"

/* The saddle's top in words; nothing is appended where the board's curve or the strings' places are
 * not known. */

/* "saddle top radius 16.5 in; string 3 .036 in over the outer two, now .024 ±.012": over the
 * straight line from one to the other. For an outer string the radius alone. */
void saddle_top_add(const struct derived *derived, int string, const struct shop_units *units,
                    struct strbuf *out);

#endif
