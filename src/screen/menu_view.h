/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_MENU_VIEW_H
#define SILLET_SCREEN_MENU_VIEW_H

#include "session/menu.h"
#include "draw/pen.h"

/* The menu with all its pages, at least 21 rows; the first page is headed `here`. */
void menu_view_draw(const struct pen *pen, const struct menu *menu, const char *here, int row,
                    int rows);

/* The key line of the menu. */
void menu_view_draw_keys(const struct pen *pen, const struct menu *menu, int row);

#endif
