/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SCREEN_H
#define SILLET_RUN_SCREEN_H

#include "session/app.h"
#include "draw/frame.h"

/* The frame that sessions compose, kept as large as the terminal. */
struct screen {
    struct frame frame;
};

/* Fits the frame to the terminal; false if out of memory, when nothing can be shown. */
bool screen_fit(struct screen *screen);
void screen_done(struct screen *screen);

/* The time as a profile writes it. */
struct app_clock screen_clock(void);

#endif
