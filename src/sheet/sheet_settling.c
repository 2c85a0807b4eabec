/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "model/survey/next_check.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "words/caution.h"

/* What lets a neck move for some days more, and when to look again. Common practice, no published
 * source. */

static const double settles_days = 14;

/* Another pull than that by less bends no neck that anybody notices. */
static const double least_pull_share = 0.05;

/* A line may say that the rod was looked at, and a pass that it was turned by nothing. */
static bool rod_was_turned(const struct sheet_maker *maker)
{
    struct place place = place_of(maker->record, maker->visit, 0);
    bool logged = false, turned = false, marked = false;

    while (place_next(&place) && place.visit == maker->visit) {
        const struct maybe turn = place_read(place, FIELD_ROD_TURN);

        logged = logged || turn.given;
        turned = turned || (turn.given && turn.value != 0);
    }
    for (int line = record_last_work(maker->record, maker->visit); line > 0; line--)
        marked = marked || work_mark_named(sheet_text_of_line(maker, WORK_KIND, line)) == MOVE_ROD;
    return turned || (marked && !logged);
}

static bool was_reset(const struct sheet_maker *maker)
{
    for (int line = record_last_work(maker->record, maker->visit); line > 0; line--)
        if (work_mark_named(sheet_text_of_line(maker, WORK_KIND, line)) == MOVE_RESET)
            return true;
    return false;
}

/* By a line of the tech's own. */
static bool was_glued(const struct sheet_maker *maker)
{
    for (int line = record_last_work(maker->record, maker->visit); line > 0; line--)
        if (caution_has_word(sheet_text_of_line(maker, WORK_KIND, line), "glue|glu|reglue|reglu"))
            return true;
    return false;
}

/* By what share the strings pull more than those of the visit before; absent where that is not
 * known. */
static struct maybe find_pull_change(const struct sheet_maker *maker)
{
    const struct maybe now = figures_get(&maker->left.figures, FIGURE_TENSION_TOTAL, 0);
    struct place with_old = place_of(maker->record, maker->visit, maker->first);
    struct derived before;

    if (maker->visit < 2 || !now.given)
        return maybe_absent();
    with_old.record = record_as_of(maker->record, maker->visit - 1);
    derive_pass(with_old, &before);
    const struct maybe old = figures_get(&before.figures, FIGURE_TENSION_TOTAL, 0);
    return old.given ? maybe_given(now.value / old.value - 1) : maybe_absent();
}

static void add_cause(struct strbuf *out, const char *cause)
{
    strbuf_addf(out, "%s%s", out->length > 0 ? " and " : "", cause);
}

static void add_causes(const struct sheet_maker *maker, struct strbuf *out)
{
    const struct maybe pull = find_pull_change(maker);

    if (rod_was_turned(maker))
        add_cause(out, "the rod was turned");
    if (was_reset(maker))
        add_cause(out, "the neck was set back");
    if (was_glued(maker))
        add_cause(out, "a joint was glued");
    if (!pull.given || !(fabs(pull.value) > least_pull_share))
        return;
    add_cause(out, "the strings pull ");
    sheet_say_pct(out, fabs(pull.value) * 100, 0);
    strbuf_add(out, pull.value > 0 ? " more than before" : " less than before");
}

void sheet_add_settling(struct sheet_maker *maker)
{
    const struct maybe home = next_check_home_day(maker->record, maker->visit);
    char memory[400], causes[160], date[16];
    struct strbuf text = STRBUF(memory), why = STRBUF(causes), day = STRBUF(date);

    add_causes(maker, &why);
    if (why.length == 0)
        return;
    strbuf_addf(&text, "Settling: %s, so the neck may still move a little for some days. ", causes);
    strbuf_add(&text, "Look again in two weeks");
    if (home.given) {
        const struct day again = day_of_number((int)(home.value + settles_days));

        day_add(&again, &day);
        strbuf_add(&text, ", about ");
        sheet_say_date(&text, date);
    }
    strbuf_add(&text, " (common practice, no published source).");
    sheet_add_text(maker->sheet, SHEET_ITEM, memory);
}
