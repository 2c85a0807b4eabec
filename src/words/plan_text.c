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
    {MOVE_SLOTS, "file +-", ""},
    {MOVE_SLOTS, "fill +-", ""},
    {MOVE_SLOTS, "-file +fill +-", ""},
    {MOVE_SLOTS, "raise the nut, ", ""},
    {MOVE_SADDLE, "height +-", ""},
    {MOVE_SADDLE, "turns +-", ""},
    {MOVE_PITCH, "saddle back ", " on string "},
    {MOVE_PITCH, "saddle forward ", " on string "},
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

static bool begins_number(const char *text)
{
    return *text != '\0' && strchr("-.0123456789", *text);
}

/* What the gauges should read (move_words.c), or did. */
static bool is_gauge(const char *text)
{
    static const char *const gauges[] = {"relief ", "action ", "exposure ", "nut gap "};

    for (size_t i = 0; i < sizeof gauges / sizeof gauges[0]; i++)
        if (begins(text, gauges[i]))
            return begins_number(text + strlen(gauges[i]));
    return begins(text, "once the saddle is done gap ") ||
           begins(text, "the rocker stands still") || begins(text, "fretted notes within ");
}

bool plan_text_is_note(const char *note)
{
    static const char expect[] = "expect ", pass[] = "pass ", read[] = " read ";

    if (begins(note, expect))
        return is_gauge(note + strlen(expect));
    if (!begins(note, pass))
        return false;
    note += strlen(pass);
    const size_t digits = strspn(note, "0123456789");
    return digits > 0 && begins(note + digits, read) && is_gauge(note + digits + strlen(read));
}

/* The unit stands once, with the uncertainty: "height +-0.05 mm; string 6 -0.95". */
void plan_text_find_strings(const char *amount, struct work_amount *ret_amount)
{
    const char *strings = strstr(amount, "; string ");
    char memory[480];
    struct strbuf text = STRBUF(memory);

    if (strings) {
        const char *mm = strstr(amount, " mm");

        strbuf_add(&text, strings);
        strbuf_add(&text, begins(amount, "turns ") ? " turns" : mm && mm < strings ? " mm" : " in");
    }
    work_amount_find(memory, 0, ret_amount);
}
