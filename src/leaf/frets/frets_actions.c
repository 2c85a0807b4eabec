/* SPDX-License-Identifier: MIT */
#include "leaf/frets/frets_actions.h"

#include "leaf/frets/leaf_frets.h"

int frets_note(const struct app *app)
{
    const struct board *board = &app_shown(app)->setup.board;
    const int string = app_string(app), picked = frets_state(app)->picked - 1;

    if (string > board->strings)
        return -1;
    return picked >= board->start_fret[string] && picked <= board->frets
               ? picked
               : frets_tightest_note(app_shown(app), string);
}

bool frets_has_note(const struct app *app)
{
    return frets_note(app) >= 0;
}

void frets_step_note(struct turn *turn, int by)
{
    const struct app *app = turn->app;
    const struct board *board = &app_shown(app)->setup.board;
    const int note = frets_note(app) + by;

    frets_state(app)->picked =
        note >= board->start_fret[app_string(app)] && note <= board->frets ? note + 1 : 0;
}
