/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BIG_PROFILE_H
#define SILLET_TESTS_BIG_PROFILE_H

/*
 * Writes a profile as a shop would have it after so many visits. Each visit has four passes with
 * every row of the bench read, turns of the rod, and work lines; with `cents`, 12 strings on 24
 * frets with a pitch read at every fret in the last pass, else 6 strings. Numbers differ from pass
 * to pass, but are the same in every run. Exits the program if the file cannot be written.
 */
void big_profile_write(const char *path, int visits, int cents);

#endif
