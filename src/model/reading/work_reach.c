/* SPDX-License-Identifier: MIT */
#include "model/reading/work_reach.h"

#include <string.h>

#include "base/num.h"
#include "model/reading/work_amount.h"
#include "model/reading/work_line.h"
#include "model/reading/work_mark.h"

static bool names_any(const struct work_amount *said)
{
    for (int s = 1; s <= STRINGS_MAX; s++)
        if (said->is_said[s])
            return true;
    return false;
}

/* As a tech says it, else as a plan does. */
static void find_named(const char *text, const struct outfit *outfit, struct work_amount *said)
{
    work_amount_find(text, outfit, said);
    if (said->unit == WORK_AMOUNT_NONE)
        work_amount_of_plan(text, outfit, said);
}

/* A shim under the nut lifts all strings, and a zero fret is one crown; a plan names them for a new
 * nut. */
static bool is_for_all(const char *text)
{
    return strstr(text, WORK_RAISE_NUT ", ") || strstr(text, WORK_ZERO_FRET);
}

/* A fret that was rocked, or a mark tried, and not found high is as it was. */
static bool is_rocked_alone(const char *text)
{
    return (strncmp(text, WORK_ROCKED, strlen(WORK_ROCKED)) == 0 ||
            strncmp(text, WORK_TRIED, strlen(WORK_TRIED)) == 0) &&
           strstr(text, WORK_NOT_HIGH);
}

/* Where a slot, a saddle or a contact may be worked on by itself; under a bar the nut is raised as
 * a whole. */
static bool is_by_string(enum move_kind kind, const struct outfit *outfit)
{
    if (outfit->lap)
        return false;
    return kind == MOVE_SLOTS || kind == MOVE_PITCH || (kind == MOVE_SADDLE && !outfit->sides);
}

static bool is_named(const struct work_amount *said, const struct outfit *outfit, int string)
{
    for (int s = 1; s <= outfit->strings; s++)
        if (outfit->read_as[s] == outfit->read_as[string] && said->is_said[s] &&
            said->value[s] != 0)
            return true;
    return false;
}

uint64_t work_rocked(struct place place, int line)
{
    const char *kind = work_line_text(&place.record, WORK_KIND, place.visit, line);
    const char *text = work_line_text(&place.record, WORK_AMOUNT, place.visit, line);
    uint64_t frets = 0;

    if (!is_rocked_alone(text) || work_mark_named(kind) != MOVE_FRETS)
        return 0;
    while (*(text += strcspn(text, "0123456789:")) != ':' && *text) {
        const size_t digits = strspn(text, "0123456789");
        int fret;

        if (num_count(text, digits, FRETS_MAX, &fret) == STATUS_OK)
            frets |= UINT64_C(1) << fret;
        text += digits;
    }
    return frets;
}

bool work_reaches(struct place place, int line, int string)
{
    const char *kind = work_line_text(&place.record, WORK_KIND, place.visit, line);
    const char *text = work_line_text(&place.record, WORK_AMOUNT, place.visit, line);
    struct work_amount said;
    struct outfit outfit;

    if (work_rocked(place, line) != 0)
        return false;
    if (string == 0)
        return true;
    outfit_read(&outfit, &place.record, place.visit);
    if (!is_by_string(work_mark_named(kind), &outfit) || is_for_all(text))
        return true;
    find_named(text, &outfit, &said);
    return !names_any(&said) || is_named(&said, &outfit, string);
}
