/* SPDX-License-Identifier: MIT */
#include "leaf/strings/what_if_state.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "base/num.h"

static bool is_shifted(const struct what_if_state *what_if)
{
    if (what_if->all_shift != 0)
        return true;
    for (int s = 1; s <= STRINGS_MAX; s++)
        if (what_if->shift[s] != 0)
            return true;
    return false;
}

bool what_if_is_on(const struct what_if_state *what_if)
{
    return what_if->tuning || what_if->set.strings > 0 || is_shifted(what_if) ||
           what_if_has_pulls(what_if);
}

bool what_if_has_pulls(const struct what_if_state *what_if)
{
    for (int s = 1; s <= STRINGS_MAX; s++)
        if (what_if->pull_n[s].given)
            return true;
    return false;
}

bool what_if_is_of_pulls(const struct what_if_state *what_if)
{
    return !what_if->tuning && what_if->set.strings == 0 && !is_shifted(what_if) &&
           what_if_has_pulls(what_if);
}

bool what_if_changes_gauge(const struct what_if_state *what_if, int string)
{
    const struct what_if_answer *answer = &what_if->answer.string[string];

    return what_if->known && answer->sold_status == STATUS_OK && answer->other_gauge;
}

void what_if_set_strings(struct what_if_state *what_if, const struct string_set *set)
{
    what_if->set = *set;
    for (int s = 1; s <= STRINGS_MAX; s++)
        what_if->pull_n[s] = maybe_absent();
}

void what_if_set_tuning(struct what_if_state *what_if, const struct tuning *tuning)
{
    if (tuning != what_if->tuning) {
        what_if->all_shift = 0;
        memset(what_if->shift, 0, sizeof what_if->shift);
    }
    what_if->tuning = tuning;
}

bool what_if_shift(struct what_if_state *what_if, int string, int by)
{
    int *shift = string == WHAT_IF_ALL ? &what_if->all_shift : &what_if->shift[string];

    if (abs(*shift + by) > (int)WHAT_IF_SHIFT_MAX)
        return false;
    *shift += by;
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
    for (int s = strings + 1; s <= STRINGS_MAX; s++) {
        what_if->shift[s] = 0;
        what_if->pull_n[s] = maybe_absent();
    }
}

void what_if_derive(struct what_if_state *what_if, const struct record *record,
                    const struct derived *derived)
{
    struct what_if_change change = {.set = what_if->set, .shift_semitones = what_if->all_shift};

    what_if->known = false;
    what_if->findings.count = 0;
    drop_what_does_not_fit(what_if, derived->setup.board.strings);
    if (!what_if_is_on(what_if))
        return;
    change.has_set = what_if->set.strings > 0;
    change.set = what_if->set;
    change.has_notes =
        what_if->tuning && tuning_read_notes(what_if->tuning->notes, &change.notes) == STATUS_OK;
    for (int s = 1; s <= STRINGS_MAX; s++) {
        change.string_shift_semitones[s] = what_if->shift[s];
        change.pull_n[s] = what_if->pull_n[s];
    }
    what_if->known =
        survey_what_if(record, derived, &change, &what_if->answer, &what_if->findings) == STATUS_OK;
}

static void add_part(struct strbuf *out, bool *first)
{
    strbuf_add(out, *first ? "" : ", ");
    *first = false;
}

static void add_shift(struct strbuf *out, int shift)
{
    strbuf_addf(out, " %s %d", shift > 0 ? "up" : "down", abs(shift));
}

static void add_force(double pull_n, enum unit unit, struct strbuf *out)
{
    num_format_fixed(unit_from_pivot(unit, pull_n), 1, false, out);
    strbuf_addf(out, " %s", unit_label(unit));
}

/* "each at 27.0 lb", "all at 155.0 lb", or string by string. */
static void add_pulls(const struct what_if_state *what_if, enum unit force, bool *first,
                      struct strbuf *out)
{
    double total_n = 0;
    bool alike = true;
    int wanted = 0;

    for (int s = 1; s <= STRINGS_MAX; s++) {
        wanted += what_if->pull_n[s].given;
        total_n += maybe_or(what_if->pull_n[s], 0);
        alike = alike && (!what_if->pull_n[s].given || s == 1 ||
                          fabs(what_if->pull_n[s].value - what_if->pull_n[1].value) < 1e-9);
    }
    if (wanted > 1 && wanted == what_if->answer.strings) {
        add_part(out, first);
        strbuf_add(out, alike ? "each at " : "all at ");
        add_force(alike ? what_if->pull_n[1].value : total_n, force, out);
        return;
    }
    for (int s = STRINGS_MAX; s >= 1; s--) {
        if (!what_if->pull_n[s].given)
            continue;
        add_part(out, first);
        strbuf_addf(out, "string %d at ", s);
        add_force(what_if->pull_n[s].value, force, out);
    }
}

void what_if_title(const struct what_if_state *what_if, enum unit force, struct strbuf *out)
{
    bool first = true;

    if (what_if->tuning) {
        add_part(out, &first);
        strbuf_add(out, what_if->tuning->said);
    }
    if (what_if->set.strings > 0) {
        add_part(out, &first);
        strbuf_add(out, what_if->set.name);
    }
    if (what_if->all_shift != 0) {
        add_part(out, &first);
        strbuf_add(out, "all");
        add_shift(out, what_if->all_shift);
    }
    for (int s = STRINGS_MAX; s >= 1; s--) {
        if (what_if->shift[s] == 0)
            continue;
        add_part(out, &first);
        strbuf_addf(out, "string %d", s);
        add_shift(out, what_if->shift[s]);
    }
    add_pulls(what_if, force, &first, out);
}
