/* SPDX-License-Identifier: MIT */
#include "leaf/strings/what_if_state.h"

#include <stddef.h>
#include <stdlib.h>

static bool is_shifted(const struct what_if_state *what_if)
{
    for (int s = 1; s <= STRINGS_MAX; s++)
        if (what_if->shift[s] != 0)
            return true;
    return false;
}

bool what_if_is_on(const struct what_if_state *what_if)
{
    return what_if->tuning || what_if->set.strings > 0 || is_shifted(what_if);
}

/* Goes round the tunings that fit, and none. */
bool what_if_step_tuning(struct what_if_state *what_if, int strings)
{
    const struct tuning *now = what_if->tuning;
    int at = 0;

    for (int k = 0; now && tuning_get(k); k++)
        if (tuning_get(k) == now)
            at = k + 1;
    while (tuning_get(at) && !tuning_is_for(tuning_get(at), strings))
        at++;
    what_if->tuning = tuning_get(at);
    return what_if->tuning || now;
}

bool what_if_step_set(struct what_if_state *what_if, int strings)
{
    const bool was_on = what_if->set.strings > 0;

    while (string_set_next(&what_if->set))
        if (what_if->set.strings == strings)
            return true;
    what_if->set = (struct string_set){.strings = 0};
    return was_on;
}

bool what_if_shift(struct what_if_state *what_if, int string, int by)
{
    const int shift = what_if->shift[string] + by;

    if (abs(shift) > (int)WHAT_IF_SHIFT_MAX)
        return false;
    what_if->shift[string] = shift;
    return true;
}

void what_if_drop(struct what_if_state *what_if)
{
    *what_if = (struct what_if_state){.known = false};
}

static void drop_what_does_not_fit(struct what_if_state *what_if, int strings)
{
    if (what_if->tuning && !tuning_is_for(what_if->tuning, strings))
        what_if->tuning = NULL;
    if (what_if->set.strings != strings)
        what_if->set = (struct string_set){.strings = 0};
    for (int s = strings + 1; s <= STRINGS_MAX; s++)
        what_if->shift[s] = 0;
}

void what_if_derive(struct what_if_state *what_if, const struct record *record,
                    const struct derived *derived)
{
    struct what_if_change change = {.set = what_if->set};

    what_if->known = false;
    what_if->findings.count = 0;
    drop_what_does_not_fit(what_if, derived->setup.board.strings);
    if (!what_if_is_on(what_if))
        return;
    change.has_set = what_if->set.strings > 0;
    change.set = what_if->set;
    change.has_notes =
        what_if->tuning && tuning_read_notes(what_if->tuning->notes, &change.notes) == STATUS_OK;
    for (int s = 1; s <= STRINGS_MAX; s++)
        change.string_shift_semitones[s] = what_if->shift[s];
    what_if->known =
        survey_what_if(record, derived, &change, &what_if->answer, &what_if->findings) == STATUS_OK;
}

static void add_part(struct strbuf *out, bool *first)
{
    strbuf_add(out, *first ? "" : ", ");
    *first = false;
}

void what_if_title(const struct what_if_state *what_if, struct strbuf *out)
{
    bool first = true;

    if (what_if->tuning) {
        add_part(out, &first);
        strbuf_add(out, what_if->tuning->name);
    }
    if (what_if->set.strings > 0) {
        add_part(out, &first);
        strbuf_add(out, what_if->set.name);
    }
    for (int s = STRINGS_MAX; s >= 1; s--) {
        if (what_if->shift[s] == 0)
            continue;
        add_part(out, &first);
        strbuf_addf(out, "string %d %s %d", s, what_if->shift[s] > 0 ? "up" : "down",
                    abs(what_if->shift[s]));
    }
}
