/* SPDX-License-Identifier: MIT */
#include "words/frets_plan_inside.h"

#include <math.h>

#include "words/amount.h"

/* `touches` is the headroom in touches, `u` how far that is to be believed. */
static enum headroom judge(double touches, double u, bool was_clean)
{
    if (!was_clean && touches - u < 1)
        return touches + u < 1 ? HEADROOM_BUZZES : HEADROOM_MAY;
    return touches < TOUCH_STEP || touches - u < 1 ? HEADROOM_TIGHT : HEADROOM_PLENTY;
}

static void judge_string(const struct derived *derived, int string, uint64_t clean,
                         struct frets_plan *plan)
{
    for (int n = 0; n <= derived->setup.board.frets; n++) {
        const struct maybe headroom_mm = derived->clearance[string].headroom_mm[n];

        if (headroom_mm.given)
            plan->headroom[string][n] =
                judge(headroom_mm.value / derived->touch.mm[string],
                      maybe_or(plan->doubt.u_touches[string][n], 0), clean >> n & 1);
    }
}

void frets_plan_make(struct place place, const struct derived *derived, struct frets_plan *ret_plan)
{
    const struct board *board = &derived->setup.board;
    /* The derived state has the findings that the screen needs; these are dropped. */
    struct findings findings = {.count = 0};

    *ret_plan = (struct frets_plan){.touch = derived->touch, .outfit = derived->setup.outfit};
    if (!derived->setup.has_board)
        return;
    ret_plan->strings = board->strings;
    ret_plan->frets = board->frets;
    survey_headroom(place, derived, &ret_plan->doubt);
    for (int s = 1; s <= board->strings; s++) {
        survey_buzz(place, derived, s, &ret_plan->buzz[s]);
        judge_string(derived, s, ret_plan->buzz[s].clean, ret_plan);
    }
    survey_levelling(place, &derived->setup, &derived->lines, &ret_plan->levelling, &findings);
    survey_tight(place, derived, &ret_plan->levelling, &ret_plan->tight);
}

int frets_tightest_note(const struct derived *derived, int string)
{
    const struct maybe *headroom_mm = derived->clearance[string].headroom_mm;
    int tightest = -1;

    for (int n = 0; n <= derived->setup.board.frets; n++)
        if (headroom_mm[n].given &&
            (tightest < 0 || headroom_mm[n].value < headroom_mm[tightest].value))
            tightest = n;
    return tightest;
}

int frets_count(const struct frets_plan *plan, enum headroom headroom)
{
    int count = 0;

    for (int s = 1; s <= plan->strings; s++)
        for (int n = 0; n < plan->frets && outfit_is_read(&plan->outfit, s); n++)
            count += plan->headroom[s][n] == headroom;
    return count;
}

char frets_mark(enum headroom headroom)
{
    static const char marks[] = {
        [HEADROOM_UNKNOWN] = ' ', [HEADROOM_PLENTY] = '.', [HEADROOM_TIGHT] = 'o',
        [HEADROOM_MAY] = 'o',     [HEADROOM_BUZZES] = '#',
    };
    return marks[headroom];
}

void frets_add_gap(struct strbuf *out, double mm, const struct shop_units *units)
{
    const enum unit unit = units->bare[MEASURE_FEELER];

    amount_add(out, mm, unit, false);
    amount_add_unit(out, unit);
}

/* A gap with its doubt, where that is known. */
static void add_doubtful_gap(struct strbuf *out, double mm, struct maybe u_mm,
                             const struct shop_units *units)
{
    const enum unit unit = units->bare[MEASURE_FEELER];

    if (!u_mm.given) {
        frets_add_gap(out, mm, units);
        return;
    }
    amount_add_supported_mm(out, mm, u_mm.value, unit, AMOUNT_ANY_WIDTH);
    amount_add_unit(out, unit);
}

void frets_add_string(struct strbuf *out, const struct frets_plan *plan, int string)
{
    strbuf_addf(out, "%s %d ", outfit_noun(&plan->outfit, string),
                outfit_number(&plan->outfit, string));
}

void frets_add_note_name(const struct outfit *outfit, int string, int note, const char *before,
                         struct strbuf *out)
{
    if (outfit_is_open(outfit, string, note))
        strbuf_add(out, "open");
    else
        strbuf_addf(out, "%s%d", before, note);
}

void frets_add_note(const struct derived *derived, const struct frets_plan *plan, int string,
                    int note, const struct shop_units *units, struct strbuf *out)
{
    static const char *const verdicts[] = {
        [HEADROOM_UNKNOWN] = "",          [HEADROOM_PLENTY] = "plenty",
        [HEADROOM_TIGHT] = "tight",       [HEADROOM_MAY] = "tight, may buzz",
        [HEADROOM_BUZZES] = "would buzz",
    };
    const struct fret_clearance *clearance = &derived->clearance[string];

    frets_add_string(out, plan, string);
    frets_add_note_name(&plan->outfit, string, note, plan->outfit.fretless ? "mark " : "fret ",
                        out);
    if (note < 0 || note > plan->frets || !clearance->headroom_mm[note].given) {
        strbuf_add(out, note == plan->frets
                            ? ": no fret ahead"
                            : ": headroom not known; enter note, gauge and build on Strings");
        return;
    }
    strbuf_add(out, ": headroom ");
    add_doubtful_gap(out, clearance->headroom_mm[note].value, plan->doubt.u_mm[string][note],
                     units);
    strbuf_addf(out, ", over %s %d: ", outfit_fret_noun(&plan->outfit), clearance->at[note]);
    strbuf_add(out, verdicts[plan->headroom[string][note]]);
}

/* ": 1.02 +-0.15 touches". */
static void add_touches(struct strbuf *out, double touches, struct maybe u, bool named)
{
    if (!u.given)
        return;
    strbuf_add(out, ": ");
    amount_add_supported(out, touches, u.value,
                         &(struct amount_digits){.decimals_most = 2, .columns = AMOUNT_ANY_WIDTH});
    strbuf_add(out, named ? " touches" : "");
}

bool frets_add_tightest(const struct frets_plan *plan, struct strbuf *out)
{
    const struct survey_tight *tight = &plan->tight;

    for (int i = 0; i < tight->count; i++) {
        strbuf_add(out, i > 0 ? "; " : "tightest: ");
        frets_add_string(out, plan, tight->note[i].string);
        frets_add_note_name(&plan->outfit, tight->note[i].string, tight->note[i].note, "at ", out);
        strbuf_addf(out, ", %s %d", outfit_fret_noun(&plan->outfit), tight->note[i].at);
        add_touches(out, tight->note[i].share,
                    plan->doubt.u_touches[tight->note[i].string][tight->note[i].note], i == 0);
    }
    return tight->count > 0;
}

bool frets_add_gains(const struct frets_plan *plan, const struct shop_units *units,
                     struct strbuf *out)
{
    const struct survey_tight *tight = &plan->tight;
    const bool levels = tight->levelled_mm.given && tight->levelled_mm.value >= HIGH_LEAST_MM;

    if (tight->count == 0 || (!tight->raised_mm.given && !levels))
        return false;
    frets_add_string(out, plan, tight->note[0].string);
    strbuf_add(out, "gains ");
    if (tight->raised_mm.given) {
        frets_add_gap(out, tight->raised_mm.value, units);
        strbuf_add(out, " from ");
        frets_add_gap(out, TIGHT_RAISE_MM, units);
        strbuf_add(out, levels ? " more action, " : " more action");
    }
    if (levels) {
        frets_add_gap(out, tight->levelled_mm.value, units);
        strbuf_add(out, " from levelling the spots");
    }
    return true;
}

void frets_add_levelling(const struct frets_plan *plan, enum levelling_plan which,
                         const struct shop_units *units, struct strbuf *out)
{
    const struct survey_levelling *levelling = &plan->levelling;
    const struct levelling_summary *summary = &levelling->summary[which];

    if (!levelling->known) {
        strbuf_add(out, plan->outfit.fretless
                            ? "to plan sanding, enter the spots that the rocker finds"
                            : "to plan levelling, enter the spots that the rocker finds");
        return;
    }
    strbuf_add(out, which == LEVELLING_SPOTS ? "spots only: " : "all level: ");
    if (summary->most_taken_fret == 0) {
        strbuf_add(out, "nothing to take off");
        return;
    }
    strbuf_add(out, plan->outfit.fretless ? "most off at mark " : "most off fret ");
    strbuf_addf(out, "%d, ", summary->most_taken_fret);
    amount_add(out, summary->most_taken_mm, units->bare[MEASURE_FEELER], false);
    if (levelling->take_u_mm[which] > 0)
        amount_add_doubt(out, levelling->take_u_mm[which], units->bare[MEASURE_FEELER]);
    amount_add_unit(out, units->bare[MEASURE_FEELER]);
    if (summary->most_taken_mm <= levelling->take_u_mm[which])
        strbuf_add(out, ", within measuring error");
    if (summary->least_left_fret == 0)
        return;
    strbuf_add(out, "; least crown left ");
    amount_add(out, summary->least_left_mm, units->bare[MEASURE_SMALL], false);
    amount_add_unit(out, units->bare[MEASURE_SMALL]);
    strbuf_addf(out, ", fret %d", summary->least_left_fret);
    if (summary->too_low_count > 0)
        strbuf_addf(out, "; %d too low", summary->too_low_count);
}

/* Whether frets are to be worked on for what was heard. */
static bool any_fret_work(const struct frets_plan *plan)
{
    for (int s = 1; s <= plan->strings; s++) {
        const enum buzz_cause cause = plan->buzz[s].found.cause;

        if (cause == BUZZ_ROCKED || cause == BUZZ_LOW || cause == BUZZ_HIGH)
            return true;
    }
    return false;
}

const char *frets_work_caution(const struct outfit *outfit)
{
    return outfit->fretless ? "respirator; sand with a long beam, or a hollow comes beside it"
                            : "loose? press it first, neck supported; respirator, goggles";
}

const char *frets_caution(const struct frets_plan *plan)
{
    const struct survey_levelling *levelling = &plan->levelling;

    if (levelling->known && levelling->summary[LEVELLING_SPOTS].too_low_count > 0)
        return "a crown under 0.6 mm: refret instead; metal dust: respirator, goggles";
    if ((levelling->known && levelling->summary[LEVELLING_SPOTS].most_taken_fret > 0) ||
        any_fret_work(plan))
        return frets_work_caution(&plan->outfit);
    return "";
}
