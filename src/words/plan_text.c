/* SPDX-License-Identifier: MIT */
#include "words/plan_text.h"

#include <stddef.h>
#include <string.h>

#include "model/reading/work_line.h"

/* How the amounts of move_words.c begin, and what stands in each behind that. */
struct form {
    enum move_kind kind;
    const char *begins, *holds;
};

static const struct form forms[] = {
    {MOVE_RESET, "neck angle ", " +-"},
    {MOVE_ROD, "tighten ", "relief "},
    {MOVE_ROD, "slacken ", "relief "},
    {MOVE_ROD, "no rod: ", "relief "},
    {MOVE_FRETS, "level fret ", ": "},
    {MOVE_FRETS, WORK_ROCKED "fret ", WORK_NOT_HIGH},
    {MOVE_FRETS, WORK_TRIED "mark ", WORK_NOT_HIGH},
    {MOVE_FRETS, "rock fret ", "; if it is high, level "},
    {MOVE_FRETS, "frets worn low, ", ", by "},
    {MOVE_FRETS, "board worn low, ", ", by "},
    {MOVE_FRETS, "sand the board at mark ", ": "},
    {MOVE_FRETS, "try mark ", "; if it is high, sand "},
    {MOVE_SLOTS, "file +-", ""},
    {MOVE_SLOTS, "fill +-", ""},
    {MOVE_SLOTS, "-file +fill +-", ""},
    {MOVE_SLOTS, WORK_RAISE_NUT ", ", ""},
    {MOVE_SLOTS, WORK_RAISE_NUT " +-", ""},
    {MOVE_SLOTS, "lower the nut +-", ""},
    {MOVE_SLOTS, "level the nut +-", ""},
    {MOVE_SLOTS, "level the zero fret +-", ""},
    {MOVE_SLOTS, WORK_ZERO_FRET " ", ""},
    {MOVE_SADDLE, "height +-", ""},
    {MOVE_SADDLE, "turns +-", ""},
    {MOVE_PITCH, "saddle back ", " on string "},
    {MOVE_PITCH, "saddle forward ", " on string "},
    {MOVE_PITCH, "bridge back ", " +-"},
    {MOVE_PITCH, "bridge forward ", " +-"},
    {MOVE_PITCH, "bridge: ", " foot "},
    {MOVE_PITCH, "saddle: string ", ""},
    {MOVE_PITCH, "bridge: bass ", ", treble "},
};

static bool begins(const char *text, const char *with)
{
    return strncmp(text, with, strlen(with)) == 0;
}

bool plan_text_is(enum move_kind kind, const char *amount)
{
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++)
        if (forms[i].kind == kind && begins(amount, forms[i].begins) &&
            strstr(amount, forms[i].holds))
            return true;
    return false;
}
