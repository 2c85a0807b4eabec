/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_CLOCK_DAY_H
#define SILLET_COMMANDS_CLOCK_DAY_H

#include "model/common/day.h"

/* Today, by the clock and the time zone of this machine. */
struct day clock_day(void);

#endif
