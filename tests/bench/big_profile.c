/* SPDX-License-Identifier: MIT */
#include "big_profile.h"

#include <stdio.h>
#include <stdlib.h>

enum { PASSES = 4, FRETS = 24 };

static void write_string(FILE *out, int string)
{
    static const char *const notes[] = {"E4", "B3", "G3", "D3", "A2", "E2"};
    const int of_six = (string - 1) % 6;

    fprintf(out, "\n[string.%d]\nnote = %s\ngauge = .0%d in\nbuild = %s\nsetback = 1.%d mm\n",
            string, notes[of_six], 12 + 6 * of_six, of_six < 2 ? "plain" : "round-wound", of_six);
}

static void write_board(FILE *out, int strings)
{
    fprintf(out,
            "[profile]\nformat = 1\n\n[instrument]\nname = Much measured\nkind = steel-string\n\n"
            "[board]\nscale = 25.5 in\nstrings = %d\nfrets = %d\njoin_fret = 14\n"
            "action_fret = 12\nrelief_fret = 6\ncrown_height = 1.1 mm\n\n"
            "[bridge]\nexposure_min = 3 mm\nexposure_new = 4 mm\n\n[neck]\nrod = two-way\n",
            strings, FRETS);
    for (int s = 1; s <= strings; s++)
        write_string(out, s);
    fprintf(out, "\n[targets]\nrelief = .006 in\naction_bass = 6/64 in\naction_treble = 4/64 in\n"
                 "nut_gap_bass = .018 in\nnut_gap_treble = .012 in\n");
}

static void write_cents(FILE *out, int strings, int salt)
{
    for (int s = 1; s <= strings; s++)
        for (int n = 1; n <= FRETS; n++)
            fprintf(out, "cents.%d.%d = %d.%d\n", s, n, (salt + s * n) % 5, (s + n) % 10);
}

static void write_pass(FILE *out, int visit, int pass, int strings, int cents)
{
    const int salt = visit * 7 + pass * 3;

    fprintf(out, "\n[visit.%d.pass.%d]\nlabel = pass %d\ntime = 1%d:%02d\n", visit, pass, pass,
            pass, salt % 60);
    if (pass % 2 == 0)
        fprintf(out, "rod_turn = %s\n", salt % 3 ? "1/8" : "-1/8");
    fprintf(out, "relief = .0%02d in\nnut_method = open\n", 12 - 2 * pass + salt % 3);
    for (int s = 1; s <= strings; s++)
        fprintf(out, "nut_gap.%d = .0%d in\n", s, 14 + s % 6 + (salt + s) % 3);
    for (int s = 1; s <= strings; s++)
        fprintf(out, "action.%d = %d.%d/64 in\n", s, 5 + s % 3, salt % 2 ? 5 : 0);
    fprintf(out, "exposure_bass = %d.%d mm\nexposure_treble = 4.%d mm\n", 4 - visit / 900,
            salt % 10, salt % 10);
    if (cents && pass == PASSES)
        write_cents(out, strings, salt);
    if (pass == 1)
        fprintf(out, "buzz.%d = 5 7\nclean.1 = 3\n", strings);
}

static void write_visit(FILE *out, int visit, int strings, int cents)
{
    fprintf(out, "\n[visit.%d]\ndate = %04d-%02d-%02d\nhumidity = %d\ntemperature = 2%d C\n", visit,
            1990 + visit / 48, 1 + visit / 4 % 12, 1 + visit % 4 * 7, 40 + visit % 25, visit % 5);
    for (int pass = 1; pass <= PASSES; pass++)
        write_pass(out, visit, pass, strings, cents);
    fprintf(out, "\n[visit.%d.work.1]\nkind = truss rod\namount = 1/8 turn\ntime = 12:30\n", visit);
}

void big_profile_write(const char *path, int visits, int cents)
{
    const int strings = cents ? 12 : 6;
    FILE *out = fopen(path, "w");

    if (!out) {
        perror(path);
        exit(2);
    }
    write_board(out, strings);
    for (int visit = 1; visit <= visits; visit++)
        write_visit(out, visit, strings, cents);
    if (ferror(out) || fclose(out) != 0) {
        perror(path);
        exit(2);
    }
}
