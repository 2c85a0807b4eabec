/* SPDX-License-Identifier: MIT */
#include "leaf/bench/expected.h"
#include "words/board_row.h"

/* What was done since the pass before, as far as anybody knows. */
struct done {
    bool marked; /* the work leaf says so */
    bool move[MOVE_COUNT_];
};

static struct done find_done(const struct app *app)
{
    struct done done = {.marked = false};

    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        done.move[kind] = app->before.moves.move[kind].done_by > 0;
        done.marked = done.marked || done.move[kind];
    }
    if (done.marked)
        return done;
    /* After the rod everything is measured anew before anything is cut. */
    const bool rod = app->before.choice.rod;
    done.move[MOVE_ROD] = rod;
    done.move[MOVE_SLOTS] = done.move[MOVE_SADDLE] = !rod;
    return done;
}

/* What slots and saddle, as far as done, do to a string's height at x: both lift it in a
 * straight line. */
static double lift_mm(const struct derived *before, const struct done *done, int string,
                      double x_mm)
{
    const double part = x_mm / before->setup.board.contact_mm[string];
    double change, lift = 0;

    if (done->move[MOVE_SLOTS] && before->choice.slot[string] &&
        figures_get(&before->figures, FIGURE_SLOT_CHANGE, string, &change))
        lift += change * (1 - part);
    if (done->move[MOVE_SADDLE] && before->choice.saddle[string] &&
        figures_get(&before->figures, FIGURE_SADDLE_CHANGE, string, &change))
        lift += change * part;
    return lift;
}

/* A rod that was due and not turned leaves what was read; NULL where that is nothing like it. */
static bool find_height(const struct derived *before, const struct done *done,
                        const struct entered *read, enum figure_id after_rod, int string, int fret,
                        double *ret_mm)
{
    const bool bent = before->choice.rod && !done->move[MOVE_ROD];
    double height;

    if (bent ? !read || !read->given : !figures_get(&before->figures, after_rod, string, &height))
        return false;
    if (bent)
        height = read->value;
    *ret_mm = height + lift_mm(before, done, string, before->setup.board.station_mm[string][fret]);
    return true;
}

static bool find_exposure(const struct derived *before, const struct done *done,
                          const struct entered *read, enum figure_id after, double *ret_mm)
{
    if (done->move[MOVE_SADDLE])
        return figures_get(&before->figures, after, 0, ret_mm);
    *ret_mm = read->value;
    return read->given;
}

bool bench_expected(const struct app *app, const struct route_cell *cell, double *ret_mm)
{
    const struct derived *before = &app->before;
    const struct setup *setup = &before->setup;

    if (!app->has_before || cell->key.field == FIELD_ROD_TURN)
        return false;
    const struct done done = find_done(app);
    if (done.move[MOVE_RESET])
        return false;
    switch ((enum board_row)cell->row) {
    case ROW_RELIEF:
        if (!before->choice.rod || !done.move[MOVE_ROD])
            return figures_get(&before->figures, FIGURE_RELIEF, 0, ret_mm);
        *ret_mm = setup->relief_target_mm.value;
        return true;
    case ROW_GAP:
        /* What is known is the open gap. */
        return app_nut_method(app) == NUT_OPEN &&
               find_height(before, &done,
                           setup->nut_method == NUT_OPEN ? &setup->nut_gap_mm[cell->string] : NULL,
                           FIGURE_GAP_AFTER_ROD, cell->string, 1, ret_mm);
    case ROW_ACTION:
        return find_height(before, &done, &setup->action_mm[cell->string], FIGURE_ACTION_AFTER_ROD,
                           cell->string, setup->board.action_fret, ret_mm);
    case ROW_EXPOSURE:
        return cell->key.field == FIELD_EXPOSURE_BASS
                   ? find_exposure(before, &done, &setup->exposure_bass_mm,
                                   FIGURE_EXPOSURE_BASS_AFTER, ret_mm)
                   : find_exposure(before, &done, &setup->exposure_treble_mm,
                                   FIGURE_EXPOSURE_TREBLE_AFTER, ret_mm);
    case ROW_COUNT_:
        break;
    }
    return false;
}

bool bench_add_expected_after(const struct app *app, struct strbuf *out)
{
    const struct done done = find_done(app);
    int count = 0;

    if (done.move[MOVE_RESET])
        return false;
    strbuf_add(out, "after ");
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (done.move[kind]) {
            strbuf_add(out, count++ ? ", " : "");
            strbuf_add(out, work_mark_name((enum move_kind)kind));
        }
    strbuf_add(out, done.marked ? ", as marked on Work" : ", if done (Work marks it)");
    return true;
}
