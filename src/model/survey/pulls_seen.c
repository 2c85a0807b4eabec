/* SPDX-License-Identifier: MIT */
#include "model/survey/pulls_seen.h"

#include <math.h>
#include <string.h>

#include "model/common/assumption.h"
#include "model/derive/derive.h"
#include "model/reading/moment.h"
#include "model/reading/work_line.h"
#include "model/reading/work_mark.h"

static bool is_kind(const struct record *record, int visit, int line, const char *kind)
{
    return strcmp(work_line_text(record, WORK_KIND, visit, line), kind) == 0;
}

/* When the visit's strings went on, by its last such line. */
static struct maybe restrung_at(const struct record *record, int visit)
{
    for (int line = record_last_work(record, visit); line > 0; line--) {
        const struct reading_key time = work_key(WORK_TIME, visit, line);

        if (is_kind(record, visit, line, WORK_RESTRUNG))
            return moment_of(record, &time);
    }
    return maybe_absent();
}

static struct maybe pass_moment(struct place place)
{
    const struct reading_key time = place_key(place, FIELD_PASS_TIME);

    return moment_of(&place.record, &time);
}

/* The last pass with a relief before the strings went on, and the first one after; false where one
 * of them is missing. */
static bool find_passes(const struct record *record, int visit, double moment,
                        struct place *ret_before, struct place *ret_after)
{
    struct place at = place_of(record, visit, 0);
    bool found = false;

    while (place_next(&at) && at.visit == visit) {
        const struct maybe when = pass_moment(at);

        if (!when.given || !place_read(at, FIELD_RELIEF).given)
            continue;
        if (when.value > moment) {
            *ret_after = at;
            return found;
        }
        *ret_before = at;
        found = true;
    }
    return false;
}

/* Whether the rod was turned in between, by the turns logged or by a line of work. */
static bool rod_was_turned(struct place before, struct place after)
{
    const double from = pass_moment(before).value, to = pass_moment(after).value;

    for (int pass = before.pass + 1; pass <= after.pass; pass++)
        if (maybe_or(place_read(place_of(&after.record, after.visit, pass), FIELD_ROD_TURN), 0) !=
            0)
            return true;
    for (int line = record_last_work(&after.record, after.visit); line > 0; line--) {
        const struct reading_key time = work_key(WORK_TIME, after.visit, line);
        const struct maybe when = moment_of(&after.record, &time);

        if (is_kind(&after.record, after.visit, line, work_mark_name(MOVE_ROD)) &&
            (!when.given || (when.value >= from && when.value <= to)))
            return true;
    }
    return false;
}

/* Standard uncertainty of a relief. */
static double relief_u(const struct derived *derived)
{
    return derived->figures.at[FIGURE_RELIEF][0].u / 2;
}

static bool see(const struct record *record, int visit, const struct pull_answer *prior,
                struct pull_seen *ret_seen)
{
    const struct maybe moment = restrung_at(record, visit);
    struct place before, after;
    struct derived old, now;

    if (!moment.given || !find_passes(record, visit, moment.value, &before, &after) ||
        rod_was_turned(before, after))
        return false;
    before.record = record_as_of(record, visit - 1);
    derive_pass(before, &old);
    derive_pass(after, &now);
    const struct maybe old_n = figures_get(&old.figures, FIGURE_TENSION_TOTAL, 0);
    const struct maybe now_n = figures_get(&now.figures, FIGURE_TENSION_TOTAL, 0);
    const struct maybe old_mm = figures_get(&old.figures, FIGURE_RELIEF, 0);
    const struct maybe now_mm = figures_get(&now.figures, FIGURE_RELIEF, 0);
    if (!old_n.given || !now_n.given || !old_mm.given || !now_mm.given)
        return false;
    const double pulls_u_n = assumption_get(ASSUME_PULL)->u * hypot(old_n.value, now_n.value);
    ret_seen->pull_change_n = now_n.value - old_n.value;
    ret_seen->bend_change_mm = now_mm.value - old_mm.value;
    ret_seen->u_mm = hypot(hypot(relief_u(&old), relief_u(&now)), prior->mm_per_n * pulls_u_n);
    return ret_seen->u_mm > 0;
}

int pulls_seen_find(const struct record *record, const struct pull_answer *prior,
                    struct pull_seen ret_seen[PULLS_SEEN_MAX])
{
    const int last = record_last_visit(record);
    int count = 0;

    for (int visit = record->as_of > 0 && record->as_of < last ? record->as_of : last;
         visit > 1 && count < PULLS_SEEN_MAX; visit--)
        count += see(record, visit, prior, &ret_seen[count]);
    return count;
}
