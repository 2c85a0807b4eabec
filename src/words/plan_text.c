/* SPDX-License-Identifier: MIT */
#include "words/plan_text.h"

#include <stddef.h>
#include <string.h>

#include "base/strbuf.h"

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
    {MOVE_FRETS, "rock fret ", "; if it is high, level "},
    {MOVE_FRETS, "frets worn low, ", ", by "},
    {MOVE_FRETS, "board worn low, ", ", by "},
    {MOVE_FRETS, "sand the board at mark ", ": "},
    {MOVE_FRETS, "try mark ", "; if it is high, sand "},
    {MOVE_SLOTS, "file +-", ""},
    {MOVE_SLOTS, "fill +-", ""},
    {MOVE_SLOTS, "-file +fill +-", ""},
    {MOVE_SLOTS, "raise the nut, ", ""},
    {MOVE_SLOTS, "raise the nut +-", ""},
    {MOVE_SLOTS, "lower the nut +-", ""},
    {MOVE_SLOTS, "level the nut +-", ""},
    {MOVE_SLOTS, "level the zero fret +-", ""},
    {MOVE_SLOTS, "put in a zero fret ", ""},
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

/* The unit stands once, with the uncertainty: "height +-0.05 mm; string 6 -0.95". */
void plan_text_find_strings(const char *amount, const struct outfit *outfit,
                            struct work_amount *ret_amount)
{
    const char *string = strstr(amount, "; string "), *course = strstr(amount, "; course ");
    const char *strings = !string || (course && course < string) ? course : string;
    char memory[480];
    struct strbuf text = STRBUF(memory);

    if (strings) {
        const char *mm = strstr(amount, " mm");

        strbuf_add(&text, strings);
        strbuf_add(&text, begins(amount, "turns ") ? " turns" : mm && mm < strings ? " mm" : " in");
    }
    work_amount_find(memory, outfit, ret_amount);
}
