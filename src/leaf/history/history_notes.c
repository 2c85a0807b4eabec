/* SPDX-License-Identifier: MIT */
#include "leaf/history/history_notes.h"

#include <math.h>
#include <string.h>

#include "words/amount.h"
#include "base/utf8.h"
#include "words/next_check_words.h"
#include "model/reading/work_line.h"
#include "model/survey/survey_movement.h"
#include "model/survey/survey_passes.h"

enum { NOTE_COLUMNS = 120 }; /* of the tech's own note; l shows all of it */

struct maker {
    const struct record *record;
    const struct history *history;
    int at;
    enum history_row row;
    const struct shop_units *units;
    struct history_notes *notes;
};

static struct strbuf add_note(struct maker *maker)
{
    struct history_note *note = &maker->notes->notes[maker->notes->count++];

    return STRBUF(note->text);
}

static const struct history_pass *looked_at(const struct maker *maker)
{
    return &maker->history->passes[maker->at];
}

/* The outer strings of a pass that have a prediction to compare; the same string twice if there is
 * only one. False if there is none. */
static bool find_outer(const struct survey_pass *pass, const struct pass_action **ret_bass,
                       const struct pass_action **ret_treble)
{
    const struct pass_action *bass = NULL, *treble = NULL;

    for (int s = 1; s <= pass->strings; s++) {
        if (!pass->action[s].known)
            continue;
        if (!treble)
            treble = &pass->action[s];
        bass = &pass->action[s];
    }
    *ret_bass = bass;
    *ret_treble = treble;
    return bass != NULL;
}

/* Finds the comparison of the pass looked at, by a walk that goes on from the pass before it. */
static bool find_pass(const struct maker *maker, struct survey_pass *pass)
{
    const int before = maker->at - 1;

    *pass = (struct survey_pass){.visit = 0};
    if (before >= 0) {
        pass->visit = maker->history->passes[before].visit;
        pass->pass = maker->history->passes[before].pass;
    }
    return survey_pass_next(maker->record, pass) && pass->visit == looked_at(maker)->visit &&
           pass->pass == looked_at(maker)->pass && pass->before > 0;
}

static void note_prediction(struct maker *maker)
{
    const enum unit unit = maker->units->bare[MEASURE_RULE];
    const struct pass_action *bass, *treble;
    struct survey_pass pass;

    if (!find_pass(maker, &pass) || !find_outer(&pass, &bass, &treble))
        return;
    struct strbuf out = add_note(maker);
    strbuf_add(&out, "action ");
    amount_add_range(&out, bass->read_mm, treble->read_mm, unit);
    amount_add_unit(&out, unit);
    strbuf_add(&out,
               pass.after_rod ? ", after the rod predicted " : ", after the moves predicted ");
    amount_add_range(&out, bass->predicted_mm, treble->predicted_mm, unit);
    if (bass->off.within && treble->off.within) {
        strbuf_add(&out, ": agrees within \xC2\xB1");
    } else {
        strbuf_add(&out, ": off ");
        amount_add(&out, bass->off.off_mm, unit, true);
        strbuf_add_char(&out, ' ');
        amount_add(&out, treble->off.off_mm, unit, true);
        strbuf_add(&out, ", beyond \xC2\xB1");
    }
    amount_add(&out,
               fmax(hypot(bass->predicted_u_mm, bass->read_u_mm),
                    hypot(treble->predicted_u_mm, treble->read_u_mm)),
               unit, false);
    /* A turn seldom hits the target relief, so this is the same prediction for the relief that it
     * did give. */
    if (pass.after_rod && !(bass->off.within && treble->off.within) && bass->at_relief_mm.given &&
        treble->at_relief_mm.given) {
        strbuf_add(&out, "; for the relief read ");
        amount_add_range(&out, bass->at_relief_mm.value, treble->at_relief_mm.value, unit);
    }
}

static void note_rod(struct maker *maker)
{
    static const char *const answers[] = {
        [ROD_ANSWER_UNKNOWN] = "too little to judge by",
        [ROD_ANSWERS] = "answers",
        [ROD_ANSWERS_BACKWARDS] = "the last turn went BACKWARDS: check before another",
        [ROD_ANSWERS_NO_LONGER] = "does NOT ANSWER: nut loose, or at its end?",
    };
    const enum unit unit = maker->units->bare[MEASURE_FEELER];
    const struct survey_rod *rod = &looked_at(maker)->rod;

    if (!rod->known)
        return;
    struct strbuf out = add_note(maker);
    strbuf_add(&out, "rod: relief ");
    amount_add(&out, rod->fit.per_turn_mm, unit, true);
    amount_add_doubt(&out, rod->fit.per_turn_u_mm, unit);
    amount_add_unit(&out, unit);
    strbuf_addf(&out, " per turn (%d logged), ", rod->fit.count);
    strbuf_add(&out, answers[rod->answer]);
    if (rod->next_turn.given) {
        strbuf_add(&out, "; next ");
        history_add(&out, &maker->history->outfit, HISTORY_TURN, fabs(rod->next_turn.value), false,
                    maker->units);
        strbuf_add(&out, rod->next_turn.value > 0 ? " tighter" : " slacker");
    }
}

/* The board's movement at the widest place where it is known. */
static const struct maybe *find_widest(const struct survey_movement *movement,
                                       enum movement_place *ret_place)
{
    for (int place = MOVEMENT_PLACES_ - 1; place >= 0; place--) {
        const struct maybe *mm = movement->mm[MOVEMENT_BOARD][place];

        *ret_place = (enum movement_place)place;
        if (mm[WOOD_RADIAL].given && mm[WOOD_TANGENTIAL].given)
            return mm;
    }
    return NULL;
}

static void add_movement(const struct maker *maker, const struct survey_movement *movement,
                         struct strbuf *out)
{
    const enum unit unit = maker->units->bare[MEASURE_FEELER] == UNIT_TH ? UNIT_TH : UNIT_MM;
    enum movement_place place;
    const struct maybe *mm = find_widest(movement, &place);
    const struct maybe *u_mm = movement->u_mm[MOVEMENT_BOARD][place];

    if (!mm) {
        strbuf_add(out, "enter the board's width and wood to see how far it moved");
        return;
    }
    strbuf_add(out, place == MOVEMENT_AT_NUT ? "board at the nut " : "board at the join ");
    amount_add(out, mm[WOOD_RADIAL].value, unit, true);
    strbuf_add(out, " to ");
    amount_add(out, mm[WOOD_TANGENTIAL].value, unit, true);
    if (u_mm[WOOD_RADIAL].given && u_mm[WOOD_TANGENTIAL].given) {
        const double u = fmax(u_mm[WOOD_RADIAL].value, u_mm[WOOD_TANGENTIAL].value);
        const struct amount_with_u amount = amount_of_length(0, u, unit);

        strbuf_add_char(out, ' ');
        amount_add_u(out, &amount);
    }
    amount_add_unit(out, unit);
    strbuf_add(out, ", by grain");
}

static void note_movement(struct maker *maker)
{
    struct survey_movement movement;

    if (!survey_movement_of(maker->record, looked_at(maker)->visit, &movement))
        return;
    struct strbuf out = add_note(maker);
    strbuf_add(&out, "EMC ");
    history_add(&out, &maker->history->outfit, HISTORY_EMC, movement.emc_change_pct, true,
                maker->units);
    strbuf_addf(&out, " %% since visit %d: ", movement.since);
    add_movement(maker, &movement, &out);
}

static void note_last_visit(struct maker *maker)
{
    const struct history *history = maker->history;
    const int last = history_last_visit(history, maker->at);
    double bass, treble;

    if (last < 0 || last == maker->at - 1 ||
        !history_change(history, last, maker->at, maker->row, HISTORY_BASS, &bass))
        return;
    struct strbuf out = add_note(maker);
    strbuf_addf(&out,
                "%s since the end of visit %d: ", history_row_name(&history->outfit, maker->row),
                history->passes[last].visit);
    history_add(&out, &maker->history->outfit, maker->row, bass, true, maker->units);
    if (history_change(history, last, maker->at, maker->row, HISTORY_TREBLE, &treble)) {
        strbuf_add(&out, " and ");
        history_add(&out, &maker->history->outfit, maker->row, treble, true, maker->units);
    }
    strbuf_add_char(&out, ' ');
    strbuf_add(&out, history_row_unit(&maker->history->outfit, maker->row, maker->units));
}

static void note_next_check(struct maker *maker)
{
    const struct next_check *check = &maker->history->next_check;

    if (maker->at + 1 < maker->history->count)
        return;
    struct strbuf out = add_note(maker);
    strbuf_add(&out, "next check ");
    next_check_words_when(check, &out);
    strbuf_add(&out, ": ");
    next_check_words_why(check, &out);
}

static void note_own(struct maker *maker)
{
    const struct history_pass *pass = looked_at(maker);
    const struct reading_key key = reading_key_pass(FIELD_PASS_NOTE, pass->visit, pass->pass);
    const char *text = record_text(maker->record, &key);

    if (!text)
        return;
    const size_t shown = utf8_clip(text, NOTE_COLUMNS);
    struct strbuf out = add_note(maker);
    strbuf_add(&out, "note: ");
    strbuf_add_bytes(&out, text, shown);
    strbuf_add(&out, text[shown] ? " ..." : "");
}

static const char *text_of_line(const struct maker *maker, enum work_column column, int line)
{
    return work_line_text(maker->record, column, looked_at(maker)->visit, line);
}

/* The last strings that were put on in the visit. Work after its day has a date of its own. */
static void note_restrung(struct maker *maker)
{
    enum { DATE_LENGTH = 10 };
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, looked_at(maker)->visit);
    int line = record_last_work(maker->record, looked_at(maker)->visit);

    while (line > 0 && strcmp(text_of_line(maker, WORK_KIND, line), WORK_RESTRUNG) != 0)
        line--;
    if (line == 0)
        return;
    const char *amount = text_of_line(maker, WORK_AMOUNT, line);
    const char *time = text_of_line(maker, WORK_TIME, line),
               *day = record_text(maker->record, &date);
    struct strbuf out = add_note(maker);
    strbuf_addf(&out, "restrung, visit %d", looked_at(maker)->visit);
    if (strlen(time) > DATE_LENGTH)
        day = time;
    if (day) {
        strbuf_add(&out, ", ");
        strbuf_add_bytes(&out, day, utf8_clip(day, DATE_LENGTH));
    }
    strbuf_add(&out, ": ");
    strbuf_add_bytes(&out, amount, utf8_clip(amount, NOTE_COLUMNS));
}

void history_notes_make(const struct record *record, const struct history *history, int at,
                        enum history_row row, const struct shop_units *units,
                        struct history_notes *ret_notes)
{
    struct maker maker = {.record = record,
                          .history = history,
                          .at = at,
                          .row = row,
                          .units = units,
                          .notes = ret_notes};
    const bool climate = row >= HISTORY_HUMIDITY;
    const struct bench_row *bench = history_bench_row(&history->outfit, row);
    const bool rod = bench ? bench->move == MOVE_ROD : row == HISTORY_TURN;

    ret_notes->count = 0;
    if (at < 0 || at >= history->count)
        return;
    note_last_visit(&maker);
    note_own(&maker);
    note_restrung(&maker);
    if (climate)
        note_movement(&maker);
    if (rod)
        note_rod(&maker);
    note_prediction(&maker);
    if (!climate)
        note_movement(&maker);
    if (!rod)
        note_rod(&maker);
    note_next_check(&maker);
}
